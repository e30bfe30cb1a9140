"""The kinds of care that come round again, as a table."""

from __future__ import annotations

from dataclasses import dataclass

from workbook_tools.fields import ACTS


@dataclass(frozen=True, slots=True)
class Care:
    """One kind of care.

    Attributes
    ----------
    key : str
        Its name in code.
    label : str
        What the keeper is told to do.
    every : str
        The default that is the longest time between.
    acts : tuple of str
        Acts that count as having done it: watering is a look at the moss corner, and any act that opens the bin is a
        look at it.
    first : str
        The default for a bin that is new and has none logged yet; empty for the same as ``every``.
    essential : bool
        If the keeper never logged it for any bin, it is one line for all bins; otherwise it is left out with a note.
    """

    key: str
    label: str
    every: str
    acts: tuple[str, ...]
    first: str = ""
    essential: bool = False


OPENS = tuple(act.key for act in ACTS.values() if act.opens and act.key != "start")

CARE: tuple[Care, ...] = (
    Care("moss", "Look at moss corner", "every.moss", ("water", "moss"), essential=True),
    Care("food", "Feed", "every.food", ("feed",), first="first.food", essential=True),
    Care("leaf", "Top up leaf litter", "every.leaf", ("leaf",), essential=True),
    Care("look", "Look the bin over", "every.look", OPENS, first="first.look"),
    Care("calcium", "Give calcium", "every.calcium", ("calcium",)),
    Care("substrate", "Look at substrate", "every.substrate", ("substrate_look", "substrate_change")),
    Care("count", "Count", "every.count", ("count", "recapture")),
    Care("hides", "Renew hides", "every.hides", ("hides",)),
)
TENDING = (
    "water",
    "moss",
    "feed",
    "leftovers",
    "leaf",
    "calcium",
    "look",
    "substrate_look",
    "substrate_change",
    "hides",
)
"""Acts that tend a bin: a log without any of them is of something else, such as animals in and out."""
TRAP = Care("trap", "Look at straggler trap", "every.trap", ("trap",))

LOSSES = ("losses", "Look into the deaths")
ISOLATE = "isolate"
LEFTOVERS = ("leftovers", "Look at leftovers")
LOOK_AGAIN = ("look_again", "Look again, as you noted")
QUARANTINE = ("quarantine", "See if quarantine can end")
CHANGE = ("change", "Change substrate")
SPLIT = ("split", "Split or move up")
SIFT = ("sift", "Sift old substrate")
DECIDE = ("old", "Decide on old substrate")

URGENT = frozenset({LOSSES[0], ISOLATE})
"""Tasks by which animals of a bin, or of all, may be lost: they stand before all others."""
ORDER = (
    ISOLATE,
    "losses",
    "sight",
    "look_again",
    "moss",
    "leftovers",
    "food",
    "look",
    "leaf",
    "calcium",
    "springtails",
    "trap",
)
"""Tasks of one day and bin in the order of work; any other comes after them."""

LAST: dict[str, str] = {
    "water": "Last watered",
    "moss": "Moss corner last looked at",
    "feed": "Last fed",
    "leftovers": "Leftovers last looked at",
    "leaf": "Leaf litter last topped up",
    "calcium": "Calcium last given",
    "look": "Last looked over",
    "count": "Last counted",
    "substrate_look": "Substrate last looked at",
    "substrate_change": "Substrate last changed",
    "hides": "Hides last renewed",
    "trap": "Trap last looked at",
}
"""How the last time is said, by act; any other act is said to have opened the bin."""
