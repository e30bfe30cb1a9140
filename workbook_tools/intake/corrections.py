"""What a keeper put right in the reading of their workbook, and where it fits: records and look-ups."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from workbook_tools.fields import ACTS
from workbook_tools.intake.decimals import Decimal
from workbook_tools.intake.headings import plain
from workbook_tools.intake.settings import Settings, SettingValue
from workbook_tools.intake.tables import Role
from workbook_tools.problems import CellRef

YOURS = "as you said"
"""Why something was taken so, where the keeper's correction says it."""
EVERY_SHEET = "every sheet"
"""In place of a sheet's name: a heading that stands on many sheets of one form."""
NOT_USED = "not used"
NO_MEANING = "nothing to read"
"""The meaning of a word that tells nothing: it is passed over and no longer named."""
ROLE_NAMES: Mapping[str, Role] = {"list of bins": "bins", "log": "log", "settings": "settings", NOT_USED: "unused"}
ACT_LOGS: Mapping[str, str] = {f"log: {act.label.lower()}": key for key, act in ACTS.items()}
"""How a log of one kind of work is named, and its act."""
PARTS = " | "
"""What stands between the headings by which a table is known."""
LONGEST_CODE = 3
_ALIKE = 0.6
"""A table is the one a correction is about from this share of its headings on."""

About = Literal["table", "heading", "word", "assumption"]


def key_of(text: str) -> str:
    """A text in normal form, by which a correction finds what it is about; signs alone stay as they are."""
    return plain(text) or text.strip().casefold()


@dataclass(frozen=True, slots=True)
class Correction:
    """One correction.

    Attributes
    ----------
    about : str
        Table, heading, word or assumption.
    sheet, text : str
        What it is about: the sheet's name (for a table or heading), and the headings of the table with bars between
        them (empty for the whole sheet), the heading, the word or the assumption.
    value : str
        What the keeper says it is: one of the choices offered.
    own : str
        What it was read as before, without the keeper.
    where : CellRef
        Its cell in the reading workbook.
    title : str
        For a heading that stands in several tables of a sheet: the title of the one meant.
    setting : SettingValue or None
        For an assumption: the value as a setting.
    """

    about: About
    sheet: str
    text: str
    value: str
    own: str
    where: CellRef
    title: str = ""
    setting: SettingValue | None = None

    @property
    def named(self) -> str:
        """What it is about, in words."""
        if self.about == "table":
            return f"the sheet '{self.sheet}'" if not self.text else f"the table '{self.text}' of '{self.sheet}'"
        return f"'{self.text}' of '{self.sheet}'" if self.about == "heading" else f"'{self.text}'"

    @property
    def key(self) -> tuple[str, str, str, str]:
        """By which two corrections of the same thing are known."""
        return self.about, key_of(self.sheet), key_of(self.title), key_of(self.text)


@dataclass(frozen=True)
class Corrections:
    """All corrections of a reading workbook; ``name`` is that of its file."""

    name: str = ""
    all: tuple[Correction, ...] = ()
    decimal: Decimal = ""
    """The decimal mark, where the keeper chose one."""
    refused: tuple[Correction, ...] = ()
    """Those that can't be followed since what stands there is no choice."""

    @cached_property
    def _by_key(self) -> dict[tuple[str, str, str, str], Correction]:
        return {one.key: one for one in self.all}

    def of(self, about: About) -> list[Correction]:
        """Corrections of one kind, in their order."""
        return [one for one in self.all if one.about == about]

    def table(self, sheet: str, headings: Iterable[str]) -> Correction | None:
        """The correction of a table, known by its sheet and most of its headings, else that of its whole sheet."""
        mine = {key_of(text) for text in headings}
        found: list[tuple[bool, float, int, Correction]] = []
        for place, one in enumerate(self.of("table")):
            if key_of(one.sheet) == key_of(sheet):
                theirs = {key_of(text) for text in one.text.split(PARTS)} if one.text else mine
                share = len(theirs & mine) / max(len(theirs), 1)
                if share >= _ALIKE:
                    found.append((bool(one.text), share, -place, one))
        return max(found, key=lambda item: item[:3])[3] if found else None

    def names_headings(self, sheet: str, texts: Sequence[str]) -> bool:
        """Whether the texts of a row are headings that the keeper gave fields to, or those of a table they named."""
        if not self.all:
            return False
        table = self.table(sheet, texts)
        if table is not None and table.text and table.value != NOT_USED:
            return True
        return sum(bool(label) for label in self.headings(sheet, "", dict(enumerate(texts))).values()) >= 2

    def sheet(self, sheet: str) -> str:
        """What a whole sheet is, where that is said: a shape, settings, not used; a log or list of bins is plain."""
        for one in self.of("table"):
            whole = not one.text or one.value == "settings" or one.value not in (*ROLE_NAMES, *ACT_LOGS)
            if key_of(one.sheet) == key_of(sheet) and whole:
                return one.value
        return ""

    def headings(self, sheet: str, title: str, texts: Mapping[int, str]) -> dict[int, str]:
        """The fields that the keeper gave to columns by their headings, '' for one that isn't used."""
        found = {}
        for col, text in texts.items():
            for named, under in ((sheet, title), (sheet, ""), (EVERY_SHEET, "")):
                if one := self._by_key.get(("heading", key_of(named), key_of(under), key_of(text))):
                    found[col] = "" if one.value == NOT_USED else one.value
                    break
        return found

    @property
    def words(self) -> dict[str, str]:
        """Words of the keeper's own, each with the word or label of ours that it means."""
        return {key_of(one.text): one.value for one in self.of("word") if one.value != NO_MEANING}

    @property
    def passed_words(self) -> frozenset[str]:
        """Words that the keeper says tell nothing."""
        return frozenset(key_of(one.text) for one in self.of("word") if one.value == NO_MEANING)

    def over_key(self, means: Mapping[str, str]) -> dict[str, str]:
        """What codes mean, with those that the keeper put right in place of a key's own."""
        kept = {code: words for code, words in means.items() if key_of(code) not in self.words}
        return {**kept, **{word: said for word, said in self.words.items() if len(word) <= LONGEST_CODE}}

    def over(self, settings: Settings) -> Settings:
        """Settings with the keeper's choices of assumptions in place of what holds for all bins."""
        chosen = [one.setting for one in self.of("assumption") if one.setting]
        keys = {value.key for value in chosen}
        kept = [value for value in settings.values if value.scope or value.key not in keys]
        return Settings((*chosen, *kept)) if chosen else settings


NONE = Corrections()


def role_said(said: Correction | None) -> tuple[Role, str] | None:
    """The role and act that a correction of a table gives it; None where it gives none."""
    if said is None or said.value not in (*ROLE_NAMES, *ACT_LOGS):
        return None
    return ("log", ACT_LOGS[said.value]) if said.value in ACT_LOGS else (ROLE_NAMES[said.value], "")


def table_text(headings: Sequence[str]) -> str:
    """The headings by which a table is known, as one text."""
    return PARTS.join(text.replace(PARTS, " ") for text in headings)
