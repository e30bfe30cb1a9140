"""What a row of a book of movements may hold beside what any entry does."""

from workbook_tools.fields.kinds import Field, Kind, listed

MOVEMENT_FIELDS: tuple[Field, ...] = (
    Field(
        "bin_before",
        Kind.BINS,
        "Bin before",
        "In a book of movements: the bin they were in before.",
        listed("old bin; bin from; from which bin"),
        in_blank=False,
    ),
    Field(
        "bin_after",
        Kind.BINS,
        "Bin after",
        "In a book of movements: the bin they are in afterwards.",
        listed("bin to; to which bin"),
        in_blank=False,
    ),
    Field(
        "thing",
        Kind.TEXT,
        "What moved",
        "In a book of movements: what came or went, where not all of it is isopods.",
        listed("what moved; thing; item; goods; material; what came; what went"),
        in_blank=False,
    ),
    Field(
        "waste",
        Kind.AMOUNT,
        "Waste (L)",
        "In a book of movements: how much old substrate went.",
        listed("waste; waste litres; waste liters; litres of waste; waste volume"),
        unit="l",
        in_blank=False,
    ),
    Field(
        "frozen_from",
        Kind.DATE,
        "Frozen from",
        "The day it went into the freezer, if that isn't the day of the row.",
        listed("in freezer from; freezer from; freezer in; into freezer on"),
        in_blank=False,
    ),
    Field(
        "frozen_until",
        Kind.TEXT,
        "Frozen until",
        "When it came or is to come out of the freezer; kept as written.",
        listed("in freezer until; freezer until; freezer out; frozen to; frozen for"),
        in_blank=False,
    ),
    Field(
        "quarantine_until",
        Kind.TEXT,
        "Quarantine until",
        "Until when they are kept apart; kept as written.",
        listed("qt until; quarantine to; in quarantine until; quarantine ends"),
        in_blank=False,
    ),
    Field(
        "permit",
        Kind.TEXT,
        "Permit paper",
        "The number of the paper that goes with a movement; kept as written.",
        listed("permit; permit no; permit number; paper no; paper; paperwork; licence"),
        private=True,
        in_blank=False,
    ),
)
