"""What a field is: one thing a bin row, an entry or a setting may hold."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Kind(Enum):
    """What kind of value stands in a field's cells."""

    NAME = "a name or code"
    BINS = "one bin or several"
    TEXT = "text"
    DATE = "a date"
    TIME = "a time of day"
    NUMBER = "a number"
    AMOUNT = "an amount, with a unit if not the usual one"
    SHARE = "a share: a percentage, a fraction or a word"
    ACT = "what was done, in your words"
    STATE = "what was seen, in your words"
    TRUTH = "yes or no"
    CHOICE = "one of a few words"


def listed(text: str) -> tuple[str, ...]:
    """Split a list of phrases written as one text with semicolons."""
    return tuple(part.strip() for part in text.split(";"))


@dataclass(frozen=True, slots=True)
class Field:
    """One thing that a row may hold.

    Attributes
    ----------
    key : str
        The name used in code.
    kind : Kind
        How its cells are read.
    label : str
        The heading in our own blank workbook.
    says : str
        The note on that heading: what belongs in the column.
    headings : tuple of str
        Keepers' headings for it, in lower case without punctuation; ``label`` need not be repeated.
    unit : str
        The unit of an amount that carries none.
    implies : str
        The act that a filled cell of this column records by itself.
    states : str
        For STATE and CHOICE: which table of words is used (see ``fields.STATES``).
    private : bool
        Never shown in an edition for others.
    example : str
        What the example row of the blank workbook shows.
    in_blank : bool
        Whether the blank workbook has the column.
    """

    key: str
    kind: Kind
    label: str
    says: str
    headings: tuple[str, ...] = ()
    unit: str = ""
    implies: str = ""
    states: str = ""
    private: bool = False
    example: str = ""
    in_blank: bool = True

    @property
    def phrases(self) -> tuple[str, ...]:
        """Every heading this field is known by, its own label first."""
        return (self.label.lower(), *self.headings)
