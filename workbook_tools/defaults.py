"""Every number that isn't taken from the workbook: value, unit, range and source.

A keeper's own setting overrides a default, and the report shows which was used. ``source`` is a key of
``docs/sources.md``; ``practice`` means common practice, no source, and ``judgement`` a choice of this project.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Default:
    """One number with where it comes from.

    ``low`` and ``high`` bound what a keeper may set instead, or, for a quantity of the trade, its plausible range.
    """

    value: float
    unit: str
    low: float
    high: float
    source: str
    says: str


DEFAULTS: dict[str, Default] = {
    # --- the care rhythm: ceilings, in days -----------------------------------------------------------------
    "every.moss": Default(7, "days", 1, 60, "practice", "The longest time between looks at a moss corner."),
    "every.food": Default(3, "days", 1, 60, "practice", "Days between feedings; two or three feedings a week."),
    "after.leftovers": Default(1, "days", 1, 14, "practice", "From a feeding to the look at what is left of it."),
    "every.leaf": Default(14, "days", 1, 365, "practice", "The longest time between looks at the leaf litter."),
    "every.calcium": Default(30, "days", 1, 365, "practice", "The longest time between looks at the calcium."),
    "every.look": Default(7, "days", 1, 60, "practice", "The longest time between full looks at a bin."),
    "every.substrate": Default(60, "days", 7, 730, "practice", "The longest time between looks at the substrate."),
    "every.count": Default(90, "days", 7, 730, "practice", "The longest time between counts."),
    "every.hides": Default(180, "days", 14, 1460, "practice", "The longest time between renewals of bark and hides."),
    "every.trap": Default(
        14, "days", 1, 60, "practice", "The longest time between looks at the trap of a straggler tub."
    ),
    "quarantine.days": Default(
        42, "days", 7, 365, "practice", "How long a bin stays in quarantine; four to eight weeks."
    ),
    # --- a new bin, in days -----------------------------------------------------------------------------------
    "first.look": Default(1, "days", 0, 14, "practice", "From setting up a bin to the first full look at it."),
    "first.food": Default(2, "days", 0, 14, "practice", "From setting up a bin to the first feeding."),
    # --- substrate life by appetite, in months ---------------------------------------------------------------
    "substrate.life.slow": Default(18, "months", 11, 30, "derived", "Until substrate is nearly frass, slow eaters."),
    "substrate.life.medium": Default(14, "months", 8, 22, "derived", "The same for medium eaters."),
    "substrate.life.hearty": Default(9, "months", 4, 15, "derived", "The same for hearty eaters."),
    "change.part": Default(
        0.3333333333333333, "share", 0.1, 0.9, "practice", "What a partial change renews when its share isn't written."
    ),
    # --- what an entry usually holds: outside low to high it is named as far out ---------------------------------
    "usual.water": Default(30, "ml", 1, 1000, "judgement", "Water given to one bin at a time."),
    "usual.feed": Default(0.5, "g", 0.01, 100, "judgement", "Food given to one bin at a time."),
    "usual.leaf": Default(0.5, "l", 0.02, 20, "judgement", "Leaf litter given to one bin at a time."),
    "usual.calcium": Default(2, "g", 0.01, 200, "judgement", "Calcium given to one bin at a time."),
    "usual.count": Default(100, "animals", 0, 20000, "judgement", "Animals counted in one bin."),
    "usual.dead": Default(1, "animals", 0, 500, "judgement", "Dead animals found in one bin at a time."),
    "usual.temperature": Default(
        21, "degC", 5, 40, "judgement", "The temperature of a room in which isopods are kept."
    ),
    "usual.humidity": Default(55, "percent", 5, 100, "judgement", "The humidity of a room in which isopods are kept."),
    "usual.volume": Default(6, "l", 0.1, 500, "judgement", "The volume of one bin."),
    "usual.depth": Default(5, "cm", 0.5, 40, "judgement", "The depth of substrate in one bin."),
    # --- how many animals can be there at most --------------------------------------------------------------------
    "most.growth": Default(0.9, "per month", 0.2, 1.5, "judgement", "The fastest growth a colony is believed to have."),
    "least.seen": Default(
        0.05,
        "share",
        0.01,
        0.5,
        "judgement",
        "The smallest share of the animals that a count is believed to have seen.",
    ),
    # --- disposal -----------------------------------------------------------------------------------------------
    "freeze.hours": Default(
        72, "hours", 72, 720, "judgement", "Least time frozen before old substrate is thrown away."
    ),
    # --- what a hobby measure holds -----------------------------------------------------------------------------
    "measure.handful": Default(0.4, "l", 0.25, 0.6, "derived", "One grabbed handful of loose leaf litter."),
    "measure.pinch": Default(0.1, "g", 0.05, 0.3, "practice", "A pinch of dry food."),
    "measure.splash": Default(20, "ml", 5, 50, "practice", "A splash of water."),
    "measure.soak": Default(80, "ml", 40, 200, "practice", "A good soak of a moss corner."),
    "measure.slice": Default(4, "g", 3, 5, "practice", "A slice of vegetable."),
    "measure.cup": Default(236.5882365, "ml", 200, 284.130625, "sp811", "A US cup, unless set otherwise."),
    "measure.shoebox": Default(5.5, "l", 5, 6, "practice", "A shoebox-sized tub."),
}
