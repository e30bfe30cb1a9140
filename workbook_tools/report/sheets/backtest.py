"""The look back at past estimates: a sheet, and a short table for the screen."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from workbook_tools.plan.backtest.records import QUANTITIES, Backtest, Comparison, Score
from workbook_tools.plan.wording import Wording
from workbook_tools.report.columns import Column, SheetSpec, TableSpec, Value

NAME = "Backtest"
SINGLE = "Single estimates"
RULES = {"usual": "Common practice", "last": "Last one", "three": "Last three"}
NOTHING = (
    "The log is too short to look back: it takes about four months of notes before anything can be compared with "
    "what came after."
)
CAUTIONS = (
    "What is seen is coarse (gone, some left; dry, not dry), so a note that fits an interval doesn't prove it. Four in "
    "five is what the intervals promise; more than that means that they are wide, or the notes coarse.",
    "Off by is the mean distance from what was seen; 0 wherever a note can't tell. Times means that 1.3 is off by 1.3 "
    "times, up or down. Neighbouring months of one bin hang together, so the notes count for fewer than they are.",
    "Beside each simple rule stands the ratio of the two errors over the notes for which the rule could say anything: "
    "below 1 the estimates were better, above 1 the rule was. An empty cell: no such rule, or one never off.",
)


@dataclass(frozen=True, slots=True)
class _Row:
    """One line of scores; ``when`` is empty for all days together."""

    when: Value
    score: Score


def sheets(backtest: Backtest, source: str, wording: Wording) -> tuple[SheetSpec, ...]:
    """Make the sheets: scores in all and by day; and every comparison, which is too long to print."""
    tables: tuple[TableSpec, ...] = ()
    if backtest.scores:
        tables = (
            TableSpec("BacktestScores", _score_columns(), [_Row("all", one) for one in backtest.scores], "In all"),
            TableSpec(
                "BacktestByDay",
                _score_columns(),
                [_Row(day, one) for day, one in sorted(backtest.by_day, key=lambda pair: _place(pair[1].quantity))],
                "By the day for which it was estimated",
            ),
        )
    lines = (f"From {source}, on {wording.weekday(backtest.on)}.", *(CAUTIONS if tables else ()))
    scored = SheetSpec(NAME, answer(backtest, wording), tables, lines)
    if not tables:
        return (scored,)
    noted = TableSpec(
        "BacktestNotes",
        _comparison_columns(),
        sorted(backtest.comparisons, key=lambda one: _place(one.quantity)),
    )
    number = wording.count(len(backtest.comparisons), "estimate")
    return scored, SheetSpec(SINGLE, f"{number} of past days, each beside what was seen next.", (noted,))


def _place(quantity: str) -> int:
    return list(QUANTITIES).index(quantity)


def answer(backtest: Backtest, wording: Wording) -> str:
    """Say for how many of the quantities the estimates were nearer to what was seen than every simple rule."""
    if not backtest.scores:
        return NOTHING
    better = [QUANTITIES[one.quantity].label.lower() for one in backtest.scores if _better(one)]
    number = wording.number(len(backtest.comparisons))
    made = f"{wording.count(len(backtest.days), 'past day')}, {number} notes to compare with"
    if len(better) == len(backtest.scores):
        return f"{made}: the estimates were nearer to what was seen than any simple rule, for every quantity."
    if not better:
        return f"{made}: for no quantity were the estimates nearer to what was seen than every simple rule."
    return f"{made}: the estimates were nearer than any simple rule for {wording.listing(better)}; not for the others."


def _better(score: Score) -> bool:
    return all(own < theirs for theirs, own, _ in score.rules.values())


def _shown(score: Score, error: float) -> float:
    """An error in the quantity's own unit: of a log as times."""
    return _rounded(math.exp(error) if QUANTITIES[score.quantity].logs else error)


def _rounded(value: float) -> float:
    """Three digits: more would be noise."""
    return float(f"{value:.3g}")


def _ratio(rule: str) -> Callable[[_Row], Value]:
    def get(row: _Row) -> Value:
        if rule not in row.score.rules:
            return None
        theirs, own, _ = row.score.rules[rule]
        return _rounded(own / theirs) if theirs > 0 else None

    return get


def _rule(rule: str) -> Callable[[_Row], Value]:
    def get(row: _Row) -> Value:
        found = row.score.rules.get(rule)
        return None if found is None else _shown(row.score, found[0])

    return get


def _score_columns() -> tuple[Column, ...]:
    columns = [
        Column("What", lambda row: QUANTITIES[row.score.quantity].label, width=36, note="What was estimated."),
        Column("Estimated on", lambda row: row.when, "date", 13, "The day from whose log it was estimated."),
        Column("Notes", lambda row: row.score.number, "number", 8, "How many notes it was compared with."),
        Column("Bins", lambda row: row.score.bins, "number", 7, "Of how many bins they are."),
        Column("Unit", lambda row: QUANTITIES[row.score.quantity].unit, width=8, note="Of the errors."),
        Column(
            "Off by", lambda row: _shown(row.score, row.score.error), "amount", 9, "The mean error of the estimates."
        ),
        Column(
            "Bias",
            lambda row: _shown(row.score, row.score.bias),
            "amount",
            9,
            "The mean error with its sign: below 0, or below 1 time, is too low.",
        ),
        Column("Fits 80 %", lambda row: row.score.held, "share", 9, "Notes that fit the 80 % interval."),
    ]
    for rule, label in RULES.items():
        says = "; ".join(f"{q.label.lower()}: {q.rules[rule]}" for q in QUANTITIES.values() if rule in q.rules)
        columns.append(Column(f"{label}: off by", _rule(rule), "amount", 12, f"The mean error of the rule. {says}."))
        columns.append(Column(f"{label}: ratio", _ratio(rule), "amount", 12, "The estimates' error over the rule's."))
    return tuple(columns)


def _comparison_columns() -> tuple[Column, ...]:
    def seen(bound: str) -> Callable[[Comparison], Value]:
        def get(row: Comparison) -> Value:
            value = float(getattr(row, bound))
            return _rounded(value) if math.isfinite(value) else None

        return get

    def rule(key: str) -> Callable[[Comparison], Value]:
        return lambda row: _rounded(row.rules[key]) if key in row.rules else None

    return (
        Column("What", lambda row: QUANTITIES[row.quantity].label, width=36, note="What was estimated."),
        Column("Estimated on", lambda row: row.on, "date", 13, "The day from whose log it was estimated."),
        Column("Bin", lambda row: row.bin, width=8, note="The bin as you name it."),
        Column("Seen on", lambda row: row.seen_on, "date", 8, "The day of the note it is compared with."),
        Column("Seen from", seen("low"), "amount", 8, "What was seen was at least this."),
        Column("Seen to", seen("high"), "amount", 9, "And at most this; empty for any more."),
        Column("Estimate", lambda row: _rounded(row.estimate.middle), "amount", 9, "What was estimated."),
        Column("Low", lambda row: _rounded(row.estimate.low), "amount", 9, "One in ten is below."),
        Column("High", lambda row: _rounded(row.estimate.high), "amount", 12, "One in ten is above."),
        *(Column(label, rule(key), "amount", 12, "What the simple rule said.") for key, label in RULES.items()),
        Column("Fits", lambda row: "yes" if row.held else "no", width=12, note="Whether it fits the 80 % interval."),
    )


def short_table(backtest: Backtest) -> list[str]:
    """The scores in all as lines for the screen."""
    if not backtest.scores:
        return [NOTHING]
    head = ("", "notes", "off by", "fits 80 %", *(label.lower() for label in RULES.values()))
    rows = [head, *(_short(one) for one in backtest.scores)]
    widths = [max(len(row[col]) for row in rows) for col in range(len(head))]
    return [
        "  ".join(
            [row[0].ljust(widths[0]), *(cell.rjust(width) for cell, width in zip(row[1:], widths[1:], strict=True))]
        )
        for row in rows
    ]


def _short(score: Score) -> tuple[str, ...]:
    quantity = QUANTITIES[score.quantity]

    def error(value: float) -> str:
        shown = _shown(score, value)
        return f"{shown:.2f} {quantity.unit}" if quantity.unit != "share" else f"{100 * shown:.1f} %"

    rules = (error(score.rules[rule][0]) if rule in score.rules else "-" for rule in RULES)
    return (quantity.label, str(score.number), error(score.error), f"{100 * score.held:.0f} %", *rules)
