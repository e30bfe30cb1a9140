"""Sheet Methods & sources: rules in plain words, every number used and whose it is, cautions, what is unknown."""

from __future__ import annotations

from workbook_tools.defaults import DEFAULTS, Default
from workbook_tools.plan.rhythm import KEYS, SOURCES, RhythmRow
from workbook_tools.plan.wording import Wording
from workbook_tools.report import cautions
from workbook_tools.report.columns import Column, SheetSpec, TableSpec
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets.formulas import learning

NAME = "Methods & sources"
_SOURCES = {**SOURCES, "sp811": "NIST Special Publication 811", "ecma376": "ECMA-376, Office Open XML"}

RULES: tuple[tuple[str, str], ...] = (
    (
        "When is a task due?",
        "On the day it was last done plus the days of the rhythm below. If you set round days, it moves to the last "
        "round day on or before that, so that it isn't late by waiting for the round.",
    ),
    (
        "What if the bin's own pace was learned?",
        "Moss corner, leaf litter, substrate and splits are then due by it: maybe earlier than the rhythm, never later "
        "than your ceiling. Why on Due says which it rests on.",
    ),
    (
        "Which rhythm counts?",
        "Your setting for the bin, else for its species, else for its line, else for all bins; without any, common "
        "practice.",
    ),
    (
        "Where does the last day come from?",
        "From your log and from the days in your list of bins, the later of them. A month or a year without a day "
        "counts from its first day. Entries dated after the day of this report are not used.",
    ),
    (
        "Which bins get tasks?",
        "All but those that rest or are gone. A look at leftovers on the round of a feeding is part of the feeding. "
        "Straggler tubs are only kept damp and looked at for stragglers.",
    ),
    (
        "When is the next change of substrate expected?",
        "When it is spent by what was learned of the bin. Else the life of substrate for the bin's appetite, counted "
        "from its last change; a change of a part only puts it back by that part. Substrate that you saw spent or "
        "mostly frass is due now, unless you changed it that day or since.",
    ),
    (
        "How does old substrate become a task?",
        "A change whose old substrate went to a straggler tub or corner, or that passes or trap checks follow, waits "
        "until a freeze or discard of that bin is logged. Stragglers found are taken to be put back in their bin, "
        "unless To says otherwise; written as animals in too, they count once. What is reckoned to be left is taken "
        "off the bin's number only after a change of all of it.",
    ),
    (
        "Which animals may not be put together?",
        "Those of different species or lines, as your list of bins writes them. Allow it under 'May mix with' in the "
        "list, or give both the same line. A new bin may begin a new line.",
    ),
    (
        "What has changed?",
        "Only what your dated log says. Nothing is remembered from one report to the next.",
    ),
    (
        "What happens to what can't be read?",
        "It is left out and named with its cell on How it was read. Your own workbook is never written to.",
    ),
)

UNKNOWN: tuple[str, ...] = (
    "Whether a bin is dry, mouldy or crowded today: it only reckons from what you wrote.",
    "What you did and didn't write down: a task done but not logged shows as due.",
    "How many animals there are: Numbers gives an estimate, and how far off it may be.",
    "What your permit and the law of the place ask of you.",
)


def sheet(findings: Findings) -> SheetSpec:
    """Make the sheet from the rhythm in use and the defaults."""
    wording = Wording(findings.region)
    rows = findings.rhythm.rows()
    own = sum(row.said.startswith("your") for row in rows)
    tables = (
        TableSpec("Rules", _RULE_COLUMNS, RULES, title="Rules in plain words"),
        TableSpec("Learning", _LEARNING_COLUMNS, learning(), title="How the estimates come about"),
        TableSpec("CareRhythm", _RHYTHM_COLUMNS, rows, title="Care rhythm used"),
        TableSpec(
            "NumbersUsed",
            _DEFAULT_COLUMNS,
            [item for item in DEFAULTS.items() if item[0] not in KEYS],
            title="Other numbers that don't come from your workbook",
        ),
    )
    whose = (
        f"{wording.number(own)} of your own settings and otherwise on common practice"
        if own
        else "common practice, as you made no settings of your own"
    )
    answer = f"Due days rest on {whose}; {_learned(findings, wording)}."
    after = (
        "What this report can't know:",
        *(f"- {line}" for line in UNKNOWN),
        "Cautions:",
        f"- {cautions.LAW_FIRST}",
        f"- {cautions.DISPOSAL}",
        f"- {cautions.FREEZING.format(hours=DEFAULTS['freeze.hours'].value)}",
        f"- {cautions.DUST}",
        f"- {cautions.LEAVES}",
        f"- {cautions.VIRUS}",
        f"- {cautions.PESTS}",
    )
    return SheetSpec(NAME, answer, tables, after=after)


def _learned(findings: Findings, wording: Wording) -> str:
    """Say of how many bins anything was learned from their own notes."""
    known = findings.estimates
    kinds = (known.moss, known.leaf, known.substrate, known.numbers)
    bins = {name for kind in kinds for name, one in kind.items() if one.basis.learned}
    if not bins:
        return "nothing was learned from your log yet"
    return f"the pace of {wording.count(len(bins), 'bin')} was learned from your log"


def _source(default: Default) -> str:
    return _SOURCES.get(default.source, default.source)


def _named(key: str) -> str:
    words = key.replace(".", ", ", 1).replace(".", " ").replace("_", " ")
    return words[:1].upper() + words[1:]


def _rhythm_source(row: RhythmRow) -> str:
    whose = row.said
    return whose if not whose.startswith("your") else f"{whose}; {_source(row.default)} is {row.default.value:g}"


_RULE_COLUMNS = (
    Column("Question", lambda rule: rule[0], width=30, note="What you may want to know."),
    Column("Answer", lambda rule: rule[1], width=70, note="The rule in plain words."),
)

_LEARNING_COLUMNS = (
    Column("Estimate", lambda rule: rule[0], width=30, note="What is estimated, and which side of it."),
    Column("How", lambda rule: rule[1], width=70, note="How it comes about."),
)

_RHYTHM_COLUMNS = (
    Column("Work", lambda row: row.label, note="The setting by the name you can use on your Settings sheet."),
    Column("What it is", lambda row: row.default.says, note="What the number means."),
    Column("Days", lambda row: row.days, "number", 9, "The number used."),
    Column("For", lambda row: row.scope or "all bins", width=18, note="The bin, species or line it is for."),
    Column("Least", lambda row: row.default.low, "amount", 9, "The least that you can set."),
    Column("Most", lambda row: row.default.high, "amount", 9, "The most that you can set."),
    Column("Source", _rhythm_source, width=28, note="Whose number it is."),
)

_DEFAULT_COLUMNS = (
    Column("Number", lambda item: _named(item[0]), note="What it is a number for."),
    Column("What it is", lambda item: item[1].says, note="What the number means."),
    Column("Value", lambda item: round(item[1].value, 4), "amount", 9, "The number used unless you set another."),
    Column("Unit", lambda item: item[1].unit, note="What it is counted in."),
    Column("Least", lambda item: item[1].low, "amount", note="The least that is believed, or that you can set."),
    Column("Most", lambda item: item[1].high, "amount", note="The most that is believed, or that you can set."),
    Column("Source", lambda item: _source(item[1]), note="Where the number comes from."),
)
