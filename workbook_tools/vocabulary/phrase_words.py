"""What a word or wording in a phrase is: a verb in one of its forms, a thing, a mood, or what may stand beside."""

from __future__ import annotations

from functools import cache

from workbook_tools.vocabulary.lists import kinds_in

FILES = ("beside", "things", "verbs", "moods")
"""The lists of words of phrases."""
SUPPLY_WORDS = frozenset(
    "bag bank bill bin blender board bottle bowl box butt chain collection color colour company conditioner container "
    "cooler cupboard delivery dish drawer feature filter gauge gun heater hose jar leak meter order packet picker pipe "
    "price prices processor sack scale shelf shop stain stains stock store supplier tank tap test tin tray trays tub "
    "gnat gnats mite mites fly flies beetle miner butterfly mark marks level levels allergy poisoning".split()
)
"""Words behind a thing that make it something else: 'water bottle', 'leaf bag', 'food mite'."""
NUMBERS = {
    **dict(
        zip(
            "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
            "seventeen eighteen nineteen twenty".split(),
            range(1, 21),
            strict=True,
        )
    ),
    **dict(zip("thirty forty fifty sixty seventy eighty ninety".split(), range(30, 100, 10), strict=True)),
    **{"hundred": 100, "dozen": 12, "pair": 2, "couple": 2, "trio": 3, "single": 1},
    **dict(zip("zwei drei vier fünf sechs acht neun zehn dutzend".split(), (2, 3, 4, 5, 6, 8, 9, 10, 12), strict=True)),
    **dict(zip("deux trois quatre cinq dix twee drie vijf tien".split(), (2, 3, 4, 5, 10, 2, 3, 5, 10), strict=True)),
}
"""Words for numbers in phrases."""
SHARES = {"half": 1 / 2, "third": 1 / 3, "quarter": 1 / 4, "hälfte": 1 / 2, "halb": 1 / 2}
"""Words for shares in phrases."""
LINKS = frozenset(
    "and n but then so however und et y aber mais maar because though although plus while whereas otherwise "
    "comma period semicolon".split()
)
"""Words that part clauses."""


@cache
def phrase_words() -> dict[str, str]:
    """The kind of each wording, in lower case."""
    kinds: dict[str, str] = {}
    for name in FILES:
        kinds |= kinds_in(name)
    return kinds


@cache
def longest() -> int:
    """How many words the longest wording has."""
    return max(wording.count(" ") + 1 for wording in phrase_words())
