"""What an entry of a census may hold beside its number: animals by size."""

from workbook_tools.fields.kinds import Field, Kind, listed

SIZE_FIELDS: tuple[Field, ...] = (
    Field(
        "large",
        Kind.NUMBER,
        "Big ones",
        "Of the animals counted, the grown ones.",
        listed("big; large; adult; adults; ad; grown; bigs; biggies; big count"),
        in_blank=False,
    ),
    Field(
        "middle",
        Kind.NUMBER,
        "Middling ones",
        "Of the animals counted, the half-grown ones.",
        listed("mid; middle; mids; middling; half grown; subadult; sub adult; subadults; sub ad"),
        in_blank=False,
    ),
    Field(
        "small",
        Kind.NUMBER,
        "Tiny ones",
        "Of the animals counted, the smallest.",
        listed("tiny; small; tinies; little; little ones; smalls"),
        in_blank=False,
    ),
    Field(
        "brooding",
        Kind.NUMBER,
        "With eggs",
        "Of the animals counted, those that carry eggs or young.",
        listed("eggy; eggy ♀; brooding; gravid; eggs; with brood; gr; ♀ with eggs; carrying"),
        in_blank=False,
    ),
)
