"""Words that stand for amounts and shares: parts of a whole."""

from workbook_tools.fields.kinds import listed

PARTS = {
    "half": 1 / 2, "a half": 1 / 2, "half a": 1 / 2, "half an": 1 / 2, "1 half": 1 / 2, "one half": 1 / 2,
    "a third": 1 / 3, "third": 1 / 3, "one third": 1 / 3, "two thirds": 2 / 3, "2 thirds": 2 / 3,
    "a quarter": 1 / 4, "quarter": 1 / 4, "one quarter": 1 / 4, "three quarters": 3 / 4, "3 quarters": 3 / 4,
    "three quarter": 3 / 4, "a fifth": 1 / 5, "one fifth": 1 / 5, "a tenth": 1 / 10,
    "halb": 1 / 2, "hälfte": 1 / 2, "moitié": 1 / 2, "mitad": 1 / 2, "helft": 1 / 2,
}  # fmt: skip
LONGEST_FIRST = sorted(PARTS.items(), key=lambda item: -len(item[0]))
WHOLE = frozenset(
    listed("all; whole; the whole; everything; all of it; full; complete; completely; entire; total; alles")
)
LOOSE_SHARES = {
    word: key
    for key, words in {
        "share.side": "one side; 1 side; one end; 1 end; dry side; wet side; dry end; wet end; dry half; wet half; "
        "left side; right side; left half; right half; one half of bin; side; eine seite",
        "share.most": "most; most of it; mostly; nearly all; almost all",
        "share.some": "some; some of it; part; part of it; a part; partial; partly; a bit; bit; little; a little; "
        "top layer",
    }.items()
    for word in listed(words)
}
