"""A keeper's hand: how one keeper writes headings, words, days, numbers and names; the same through a workbook."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from random import Random

from layouts.pool import ACTS, EMOJI, HEADINGS, MOSS, SHARES, SHEETS, WAYS, Part, part_of
from workbook_tools.intake.cells import Raw

MONTHS = {
    "en": "January February March April May June July August September October November December".split(),
    "de": "Januar Februar März April Mai Juni Juli August September Oktober November Dezember".split(),
    "fr": "janvier février mars avril mai juin juillet août septembre octobre novembre décembre".split(),
    "es": "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre".split(),
    "nl": "januari februari maart april mei juni juli augustus september oktober november december".split(),
}
SYLLABLES = ("zor", "blit", "quam", "vex", "dru", "pelk", "snib", "gru", "thol", "jix", "wum", "krel")
STYLES = ("cell", "iso", "dotted", "slashed", "american", "short", "words", "tongue")


class Hand:
    """How one keeper writes; everything is drawn from one seed."""

    def __init__(self, rng: Random, part: Part, strange: float = 0.0) -> None:
        self.rng = rng
        self.strange = strange
        """The share of headings and words that are made up, so that nobody can know them."""
        self.part = part
        self.style = rng.choice(STYLES)
        self.tongue = rng.choice(list(MONTHS))
        self.comma = rng.random() < 0.35
        self.case = rng.choice((str, str, str.lower, str.upper, str.title, str.capitalize))
        self.sloppy = rng.random() < 0.3
        """Whether words are mistyped now and then."""
        self.adorned = rng.random() < 0.25
        """Whether headings bear emoji and line breaks."""
        self._headings: dict[str, str] = {}

    def chance(self, share: float) -> bool:
        """True for so many in one."""
        return self.rng.random() < share

    def heading(self, key: str, taken: set[str]) -> str:
        """A heading for a column that no other column of the table has; the same again on other sheets, mostly."""
        known = self._headings.get(key)
        if known and known not in taken and self.chance(0.7):
            plain = known
        else:
            plain = self.known_or_strange([one for one in part_of(HEADINGS[key], self.part) if one not in taken])
        self._headings[key] = plain
        taken.add(plain)
        return self.dressed(plain, key)

    def known_or_strange(self, words: Sequence[str]) -> str:
        """One of the words, or one that is made up."""
        if not self.chance(self.strange):
            return self.rng.choice(words)
        return "".join(self.rng.choice(SYLLABLES) for _ in range(self.rng.randint(2, 3)))

    def dressed(self, plain: str, key: str) -> str:
        """A heading as this keeper writes it: case, a slip, an emoji, a line break."""
        text = self.case(self.mistyped(plain, 0.06))
        if self.adorned and key in EMOJI and self.chance(0.6):
            text = f"{EMOJI[key]} {text}" if self.chance(0.7) else f"{text} {EMOJI[key]}"
        if self.adorned and " " in text and self.chance(0.4):
            text = text.replace(" ", "\n", 1)
        return text + (":" if self.chance(0.05) else "")

    def mistyped(self, text: str, share: float = 0.12) -> str:
        """A text with two letters of its longest word changed over, now and then."""
        word = max(text.split(), key=len, default="")
        if not self.sloppy or len(word) < 7 or not word.isalpha() or not self.chance(share):
            return text
        at = self.rng.randint(2, len(word) - 3)
        return text.replace(word, word[:at] + word[at + 1] + word[at] + word[at + 2 :], 1)

    def word(self, act: str) -> str:
        """A word for what was done."""
        return self._cased(self.mistyped(self.known_or_strange(part_of(ACTS[act], self.part))))

    def moss(self, state: str) -> str:
        return self._cased(self.known_or_strange(part_of(MOSS[state], self.part)))

    def way(self, way: str) -> str:
        return self._cased(self.known_or_strange(part_of(WAYS[way], self.part)))

    def share(self, share: str) -> str:
        return self.rng.choice(part_of(SHARES[share], self.part))

    def sheet(self, key: str, taken: set[str]) -> str:
        """A name for a sheet that no other has."""
        name = self.rng.choice([one for one in SHEETS[key] if one not in taken])
        taken.add(name)
        return name

    def _cased(self, text: str) -> str:
        return text if self.chance(0.7) else text.capitalize() if self.chance(0.6) else text.upper()

    def day(self, day: dt.date) -> Raw:
        """A day in this keeper's way."""
        names = MONTHS[self.tongue]
        match self.style:
            case "iso":
                return day.isoformat()
            case "dotted":
                return f"{day.day}.{day.month}.{day.year}" if self.chance(0.5) else f"{day:%d.%m.%Y}"
            case "slashed":
                return f"{day.day}/{day.month}/{day:%y}"
            case "american":
                return f"{day.month}/{day.day}/{day:%Y}"
            case "short":
                return f"{day.day} {MONTHS['en'][day.month - 1][:3]} {day.year}"
            case "words":
                return f"{MONTHS['en'][day.month - 1]} {day.day}, {day.year}"
            case "tongue":
                return f"{day.day} {names[day.month - 1]} {day.year}"
            case _:
                return day

    def number(self, value: float, unit: str = "") -> Raw:
        """A number, with its unit in the cell where one is given."""
        text = f"{value:g}"
        text = text.replace(".", ",") if self.comma else text
        if unit:
            return f"{text} {unit}" if self.chance(0.6) else f"{text}{unit}"
        if self.comma:
            return text if "," in text or self.chance(0.2) else value
        return value if self.chance(0.85) else text

    def bin(self, name: str) -> str:
        """A bin's name, now and then in other case or without its hyphen or blank."""
        if self.chance(0.88):
            return name
        return name.lower() if self.chance(0.6) else name.replace("-", "").replace(" ", "")
