"""Sheet Moss & food: which moss corners need a look, how fast they dry, what each bin eats and how much to give."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace

from workbook_tools.defaults import DEFAULTS
from workbook_tools.plan.learned.dates import LEFT, grams
from workbook_tools.plan.learned.records import FoodForecast, FoodSwing, MossForecast
from workbook_tools.plan.wording import Wording
from workbook_tools.report.columns import ChartSpec, Column, Series, SheetSpec, TableSpec, Value
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets import learned
from workbook_tools.report.sheets.learned import Row

NAME = "Moss & food"
SOON = 2
"""Days ahead that the first line looks."""
AHEAD = 7
"""Days ahead that the chart looks."""
_STEP = {
    1: "; held at twice the last portion ({wanted} would be gone in a day): raise it by steps",
    -1: "; held at half the last portion ({wanted} would be gone in a day): lower it by steps",
    0: "",
}
"""Why the next portion isn't what the animals eat in a day."""
A_FEEDING = (
    " Give next is one feeding that is gone by the next day, so that nothing moulds, and not the food of all days "
    "until the next: between feedings they live on leaf litter."
)


@dataclass(frozen=True)
class Round:
    """Food for one feeding of all bins of one species, in grams."""

    species: str
    bins: int
    dry: float
    fresh: float


def sheet(findings: Findings) -> SheetSpec:
    """Make the sheet from the forecasts: moss corners by the day of the next look, then food bin by bin."""
    wording = Wording(findings.region)
    corners = {
        name: replace(one, next=findings.moss_days.get(name, one.next)) for name, one in findings.estimates.moss.items()
    }
    moss = sorted(
        learned.rows_of(findings, corners),
        key=lambda row: (row.of.next or dt.date.max, not row.of.too_wet),
    )
    fed = [Row(row.bin, food) for row in learned.rows_of(findings, findings.estimates.food) for food in row.of]
    found = learned.tables(
        "MossCorners",
        _moss_columns(wording),
        moss,
        urgent="Moss corners to look at first",
        title="All moss corners",
        when_empty="There is no bin whose moss corner needs a look.",
    )
    eaten = TableSpec("Food", _food_columns(findings, wording), fed, "Food, bin by bin", "No feeding is logged.")
    rounds = TableSpec("FoodForOneRound", _ROUND_COLUMNS, _rounds(fed), "Food for one feeding of all bins, by species")
    charts = (_looks(moss, findings.on, found[0].name, wording),) if any(row.of.next for row in moss) else ()
    return SheetSpec(
        NAME,
        answer(moss, findings.on, wording),
        (*found, eaten, *((rounds,) if fed else ())),
        _lines(findings, wording),
        frozen_columns=1,
        frozen_headings=False,
        charts=charts,
    )


def answer(moss: Sequence[Row[MossForecast]], on: dt.date, wording: Wording) -> str:
    """Say how many moss corners need a look within days, and how many bins are too wet."""
    until = on + dt.timedelta(days=SOON)
    soon = sum(row.of.next is not None and row.of.next <= until for row in moss)
    wet = sum(bool(row.of.too_wet) for row in moss)
    unknown = sum(row.of.next is None for row in moss)
    if moss and unknown == len(moss):
        said = "Nothing can be said of any moss corner: no watering is logged"
    elif soon:
        needs = "needs" if soon == 1 else "need"
        late = sum(row.of.next is not None and row.of.next <= on for row in moss)
        said = f"{wording.count(soon, 'moss corner')} {needs} a look by {wording.weekday(until)}"
        said += f", {'all' if late == soon > 1 else wording.number(late)} of them today" if late else ""
    else:
        said = f"No moss corner needs a look by {wording.weekday(until)}"
    if wet:
        said += f"; {wording.count(wet, 'bin')} {'is' if wet == 1 else 'are'} too wet: look, but give no water"
    return f"{said}."


def _lines(findings: Findings, wording: Wording) -> tuple[str, ...]:
    readings, least = findings.estimates.readings, DEFAULTS["room.readings"].value
    if readings:
        air = (
            f"The dryness of your room sets the pace of drying, by {wording.count(readings, 'reading')} of temperature "
            "and humidity."
        )
    else:
        air = (
            "The season is not reckoned with: when the heating comes on, moss dries sooner than said. "
            f"{wording.number(least)} readings of the room's temperature and humidity within 60 days would mend that."
        )
    risk = wording.number(findings.rhythm.share("risk.moss") * 100)
    return (
        *(_swung(swing, wording) for swing in findings.estimates.food_swings),
        f"{learned.INTERVALS} Look by is the last day on which a corner is dry already {risk} times in a hundred at "
        f"most, never later than your ceiling. {air}{A_FEEDING if findings.estimates.food else ''}",
    )


def _swung(swing: FoodSwing, wording: Wording) -> str:
    much = wording.number(round(abs(swing.share) * 100, -1))
    more = "more" if swing.share > 0 else "less"
    look = "" if swing.share > 0 else " If neither the room nor the food has changed, look for what ails them."
    return (
        f"Since about {wording.date(swing.since)} all bins together eat about {much} % {more} {swing.kind} food than "
        f"usual for them; the portions follow.{look}"
    )


def _looks(moss: Sequence[Row[MossForecast]], on: dt.date, below: str, wording: Wording) -> ChartSpec:
    names = ["before today", "today"] + [wording.day_of_week(on + dt.timedelta(days=i)) for i in range(1, AHEAD + 1)]
    counts = {True: [0.0] * len(names), False: [0.0] * len(names)}
    for row in moss:
        if row.of.next is not None and (row.of.next - on).days <= AHEAD:
            counts[row.of.basis.learned][max((row.of.next - on).days, -1) + 1] += 1
    by_day = [int(sum(pair)) for pair in zip(*counts.values(), strict=True)]
    listed = wording.listing([f"{name} {number}" for name, number in zip(names, by_day, strict=True) if number])
    title = "Moss corners to look at, day by day"
    series = tuple(
        Series(name, look, tuple(counts[known]))
        for name, look, known in (("learned here", "learned", True), ("not yet learned here", "guess", False))
        if any(counts[known])
    ) or (Series("learned here", "learned", tuple(counts[True])),)
    return ChartSpec(
        title, f"{title}: {listed or 'none'}.", "bar", tuple(names), "Look by", "Bins", series, below, 1, whole=True
    )


def _dries(row: Row[MossForecast], wording: Wording) -> str:
    moss = row.of
    low, middle, high = (wording.number(max(x, 1)) for x in (moss.days.low, moss.days.middle, moss.days.high))
    said = f"Dry {learned.between(low, middle, high)} {'day' if high == '1' else 'days'} after watering"
    said = learned.guess(row, said)
    if moss.watered is None:
        said += "; no watering is logged"
    return f"Too wet ({moss.too_wet}): give no water. {said}" if moss.too_wet else said


def _dry_about(row: Row[MossForecast]) -> Value:
    return learned.day_or_words(row.of.dry.middle) if row.of.dry else None


def _moss_columns(wording: Wording) -> tuple[Column, ...]:
    return (
        *learned.bin_columns(),
        Column("In words", lambda row: _dries(row, wording), width=62, note="How long from watering to dry."),
        Column(
            "Days to dry",
            lambda row: round(row.of.days.middle, 1),
            "amount",
            8,
            "Days from watering to dry as the air of the room is now; as likely fewer as more.",
        ),
        Column("From", lambda row: round(row.of.days.low, 1), "amount", 8, "The lower end of the days to dry."),
        Column("To", lambda row: round(row.of.days.high, 1), "amount", 8, "The upper end of the days to dry."),
        Column(
            "Simple reckoning",
            lambda row: None if row.of.simple is None else round(row.of.simple, 1),
            "amount",
            11,
            "The mean of the last three times between waterings, in days. Empty where there aren't as many.",
        ),
        Column("Watered", lambda row: row.of.watered, "date", 11, "The last watering in your log."),
        Column("Found", lambda row: row.of.found, width=9, note="How it was at the last look since then."),
        Column("Dry about", _dry_about, "date", 11, "The day by which it is dry after that watering, about."),
        Column(
            "Look by",
            lambda row: row.of.next,
            "date",
            11,
            "The day of the next look, as on Due: at your risk, never later than your ceiling, moved to your round "
            "days; where it is not yet learned, by your rhythm.",
        ),
        *learned.basis_columns(),
    )


def _eats(row: Row[FoodForecast], wording: Wording) -> str:
    low, middle, high = (
        grams(x, wording).removesuffix(" g") for x in (row.of.a_day.low, row.of.a_day.middle, row.of.a_day.high)
    )
    step = _STEP[row.of.limited].format(wanted=grams(row.of.wanted, wording))
    return learned.guess(row, f"Eats {learned.between(low, middle, high, 'g')} a day{step}")


def _given(value: float) -> float:
    return round(value, 0 if value >= 10 else 1 if value >= 1 else 2)


def _food_columns(findings: Findings, wording: Wording) -> tuple[Column, ...]:
    due = {task.bin: task.due for task in findings.tasks if task.task == "food"}
    return (
        *learned.bin_columns(),
        Column("In words", lambda row: _eats(row, wording), width=62, note="What today's animals eat in a day."),
        Column("Food", lambda row: f"{row.of.kind} food", width=10, note="Dry and fresh food are learned apart."),
        Column(
            "Grams a day",
            lambda row: round(row.of.a_day.middle, 3),
            "amount",
            8,
            "Grams eaten in a day while there is enough.",
        ),
        Column("From", lambda row: round(row.of.a_day.low, 3), "amount", 8, "The lower end of grams a day."),
        Column("To", lambda row: round(row.of.a_day.high, 3), "amount", 11, "The upper end of grams a day."),
        Column(
            "Simple reckoning",
            lambda row: None if row.of.simple is None else round(row.of.simple, 3),
            "amount",
            11,
            "Mean grams a day of the last three feedings that were looked at. Empty where there aren't as many.",
        ),
        Column(
            "Last given",
            lambda row: None if row.of.last_grams is None else round(row.of.last_grams, 2),
            "amount",
            9,
            "Grams of the last feeding of this kind; empty where no amount was written.",
        ),
        Column("On", lambda row: row.of.last_day, "date", 11, "The day of that feeding."),
        Column("Found", lambda row: LEFT[row.of.left], width=11, note="What was found of it at the next look."),
        Column(
            "Give next",
            lambda row: _given(row.of.portion),
            "amount",
            8,
            "Grams of one feeding that are gone by the next day four times in five; at most twice the last, at least "
            "half.",
        ),
        Column("Feed on", lambda row: due.get(row.bin.name), "date", 11, "The day it stands on Due, if it does."),
        *learned.basis_columns(),
    )


def _rounds(fed: Sequence[Row[FoodForecast]]) -> list[Round]:
    groups = learned.by_species(fed)
    rounds = [_round(species, rows) for species, rows in groups.items()]
    rounds.sort(key=lambda one: -(one.dry + one.fresh))
    return [*rounds, _round("all", fed)] if len(rounds) > 1 else rounds


def _round(species: str, fed: Sequence[Row[FoodForecast]]) -> Round:
    dry, fresh = (sum(row.of.portion for row in fed if row.of.kind == kind) for kind in ("dry", "fresh"))
    return Round(species, len({row.bin.name for row in fed}), dry, fresh)


_ROUND_COLUMNS = (
    Column("Bins", lambda one: one.bins, "number", 9, "Bins that were ever fed."),
    Column("Species", lambda one: one.species, width=25, note="As your list of bins has it."),
    Column("Dry food", lambda one: round(one.dry, 1), "amount", 10, "Grams of dry food for one feeding of them all."),
    Column("Fresh food", lambda one: round(one.fresh, 1), "amount", 10, "Grams of fresh food, the same."),
)
