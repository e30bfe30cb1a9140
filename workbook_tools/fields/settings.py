"""What a Settings sheet may hold."""

from dataclasses import dataclass

from workbook_tools.fields.kinds import listed


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting: its key, its name in our own blank workbook, what it does, and other names for it.

    ``kind`` is one of: days, weekdays, order, region, unit, paper, text, amount, share.
    ``scoped`` settings may be given for one species or one bin as well as for all.
    """

    key: str
    label: str
    says: str
    kind: str
    names: tuple[str, ...] = ()
    scoped: bool = False
    example: str = ""
    private: bool = False

    @property
    def default(self) -> str:
        """The key of the default that holds without it (see ``defaults.DEFAULTS``); empty if there is none."""
        return {"days": self.key, "share": self.key, "amount": f"measure.{self.key}"}.get(self.kind, "")


SETTINGS: tuple[Setting, ...] = (
    Setting(
        "every.moss",
        "Look at moss corner every",
        "Days between looks at the moss corner.",
        "days",
        listed("moss every; soak every; water every; watering every; mist every; check moss every"),
        scoped=True,
        example="",
    ),
    Setting(
        "every.food",
        "Feed every",
        "Days between feedings.",
        "days",
        listed("feeding every; food every; feed days"),
        scoped=True,
    ),
    Setting(
        "every.leaf",
        "Top up leaf litter every",
        "Days between looks at the leaf litter.",
        "days",
        listed("leaf every; leaves every; leaf litter every; litter every"),
        scoped=True,
    ),
    Setting(
        "every.calcium",
        "Give calcium every",
        "Days between looks at the calcium.",
        "days",
        ("calcium every",),
        scoped=True,
    ),
    Setting(
        "every.look",
        "Look the bin over every",
        "Days between full looks at a bin.",
        "days",
        listed("look over every; check every; check bin every; inspect every"),
        scoped=True,
    ),
    Setting(
        "every.substrate",
        "Look at substrate every",
        "Days between looks at the substrate.",
        "days",
        listed("substrate every; soil every; check substrate every; dirt every"),
        scoped=True,
    ),
    Setting("every.count", "Count every", "Days between counts.", "days", ("counting every",), scoped=True),
    Setting(
        "every.hides",
        "Renew hides every",
        "Days between renewals of bark, hides and decor.",
        "days",
        listed("hides every; bark every; decor every"),
        scoped=True,
    ),
    Setting(
        "every.trap",
        "Look at straggler traps every",
        "Days between looks at the trap of a straggler tub.",
        "days",
        listed("traps every; trap every; stragglers every; check traps every"),
        scoped=True,
    ),
    Setting(
        "every.straggler",
        "Look for stragglers every",
        "Days between looks at the trap of old substrate that still waits.",
        "days",
        listed("straggler trap every; straggler corner every; check straggler corner every; straggler check every"),
        scoped=True,
    ),
    Setting(
        "every.quarantine",
        "Look over quarantine every",
        "Days between full looks at a bin in quarantine.",
        "days",
        listed("quarantine every; quarantine look every; check quarantine every; look at quarantine every"),
        scoped=True,
    ),
    Setting(
        "quarantine.days",
        "Quarantine lasts",
        "Days a bin stays in quarantine.",
        "days",
        listed("quarantine; quarantine days; quarantine for; days in quarantine"),
        scoped=True,
    ),
    Setting(
        "after.leftovers",
        "Look at leftovers after",
        "Days from a feeding to the look at what is left.",
        "days",
        listed("leftovers after; check leftovers after; remove leftovers after"),
        scoped=True,
    ),
    Setting(
        "ceiling.leaf",
        "Top up leaf litter at the latest after",
        "Days between top-ups that are never passed, however long the litter seems to last.",
        "days",
        listed("leaf litter at the latest after; leaves at the latest after; leaf ceiling; litter ceiling"),
        scoped=True,
    ),
    Setting(
        "every.change",
        "Change substrate at least every",
        "Days between changes of substrate, however good it looks.",
        "days",
        listed("change substrate every; change soil every; new substrate every; new soil every"),
        scoped=True,
    ),
    Setting(
        "lasts.substrate",
        "Substrate is to last",
        "How long new substrate is to last, which says how much of it to renew.",
        "days",
        listed("substrate should last; soil is to last; new substrate is to last; substrate lasts"),
        scoped=True,
    ),
    Setting(
        "risk.moss",
        "Dry before the look",
        "How often a moss corner may be dry before it is looked at, in percent.",
        "share",
        listed("risk; risk of dry moss; share dry; dry risk; may be dry"),
        example="",
    ),
    Setting(
        "rounds",
        "Round days",
        "The weekdays on which you do the round, such as Mon, Thu, Sun. Empty: any day.",
        "weekdays",
        listed("rounds; care days; round on; days i do rounds"),
        example="",
    ),
    Setting(
        "region",
        "Region",
        "How dates and numbers are shown, as a language and country: en-GB, en-US, de-DE.",
        "region",
        listed("locale; language; country"),
        example="en-GB",
    ),
    Setting(
        "date_order",
        "Day-month order",
        "How you type dates: day-month, month-day or year-month-day.",
        "order",
        listed("date order; dates are; date format; day month order"),
        example="",
    ),
    Setting(
        "quart",
        "A quart is",
        "US liquid (0.946 L), US dry (1.101 L) or imperial (1.137 L).",
        "unit",
        listed("quart; qt; quarts are"),
    ),
    Setting("handful", "A handful is", "Leaf litter in a handful, in litres.", "amount", ("handful",)),
    Setting("pinch", "A pinch is", "Food in a pinch, in grams.", "amount", ("pinch",)),
    Setting("splash", "A splash is", "Water in a splash, in millilitres.", "amount", ("splash",)),
    Setting("cup", "A cup is", "What you mean by a cup, in millilitres.", "amount", ("cup",)),
    Setting("paper", "Paper", "A4 or Letter.", "paper", listed("paper size; page size"), example="A4"),
    Setting(
        "permit",
        "Permit number",
        "For your own record: nothing is worked out from it. Never shown in an edition for others.",
        "text",
        listed("permit; permit no; licence; license"),
        private=True,
    ),
)
