"""Turn a cell into a date, with the year, the order or the day it counts from filled in where the keeper left it open.

Nothing is filled in silently: the reading says ``guessed``, and where the guess could be another day altogether it
carries a problem that names what was taken.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace

from dateutil.relativedelta import relativedelta

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.date_choice import (
    ORDER_WORDS,
    Context,
    DateReading,
    DateStyle,
    Odd,
    Order,
    Span,
    day_span,
    exists,
    month_noted,
    month_span,
    months_span,
    say,
)
from workbook_tools.intake.date_shapes import Shape, shape_of
from workbook_tools.intake.values import When

__all__ = ["ORDER_WORDS", "DateReading", "DateStyle", "Order", "read_date"]

_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_BASE = {False: dt.date(1899, 12, 30), True: dt.date(1904, 1, 1)}
_NEAR_DAYS = 45
"""How near its neighbour 1/16 must be as 16 January to be that and not January 2016."""
_RECENT_YEARS = 5
"""How many years back 1/16 may be a month and a year, in a column of days."""


def _exact(context: Context, shape: Shape, month: int, day: int, year: int | None) -> DateReading:
    """Read a day whose month is settled."""
    if year is not None:
        year = context.full_year(year)
    if not exists(month, day, year):
        raise Odd("dates.impossible", value=context.text)
    if year is not None:
        found = dt.date(year, month, day)
    else:
        found = context.pick(
            day_span(month, day), lambda span: not shape.weekdays or span[0].weekday() in shape.weekdays
        )[0]
    reading = DateReading(when=When.on(found, shape.time, guessed=year is None), guessed=year is None)
    if shape.weekdays and found.weekday() not in shape.weekdays:
        said = " or ".join(_WEEKDAYS[day] for day in sorted(shape.weekdays))
        facts = {"value": context.text, "said": said, "day": found.isoformat(), "real": _WEEKDAYS[found.weekday()]}
        reading = replace(reading, code="dates.weekday", facts=facts)
    return reading


def _month(context: Context, shape: Shape, month: int, year: int | None) -> DateReading:
    if not 1 <= month <= 12:
        raise Odd("dates.impossible", value=context.text)
    make = month_span(month, shape.part)
    span = context.pick(make) if year is None else make(context.full_year(year))
    when = context.vague(span)
    return DateReading(
        when=replace(when, guessed=year is None or shape.part is not None),
        guessed=year is None or shape.part is not None,
    )


def _pair(context: Context, shape: Shape) -> DateReading:
    """Read two numbers that are day and month, or month and year, in an order to be settled."""
    a, b, year = shape.a, shape.b, shape.year
    style = context.style
    order: Order = style.order
    year_first = year is not None and year < 100 and (order == "ymd" or a > 31)
    if year_first and exists(b, year or 0, context.full_year(a)):
        return _exact(context, shape, b, year or 0, a)
    if order == "ymd":
        order = "mdy" if year is None else "dmy"
    other: Order = "mdy" if order == "dmy" else "dmy"
    full = context.full_year(year) if year is not None else None
    by_order: dict[Order, tuple[int, int]] = {"dmy": (b, a), "mdy": (a, b)}
    possible = [each for each in (order, other) if exists(*by_order[each], full)]
    if year is None and 1 <= a <= 12 and b > 12 and (as_month := _month_and_year(context, shape, possible)):
        return as_month
    if not possible:
        raise Odd("dates.impossible", value=context.text)
    readings = [_exact(context, shape, *by_order[each], year) for each in possible]
    chosen = 0
    if shape.weekdays and len(readings) == 2 and readings[0].code == "dates.weekday" and not readings[1].code:
        chosen = 1
    reading = readings[chosen]
    if possible[chosen] == order:
        if not style.sure and len(possible) == 2 and a != b and not shape.weekdays:
            return replace(reading, guessed=True, when=reading.when and replace(reading.when, guessed=True))
        return reading
    if style.sure and not reading.code and reading.when:
        facts = {
            "value": context.text,
            "order": ORDER_WORDS[possible[chosen]],
            "usual": ORDER_WORDS[style.order],
            "day": reading.when.first.isoformat(),
        }
        return replace(reading, code="dates.other_order", facts=facts)
    return reading


def _month_and_year(context: Context, shape: Shape, possible: list[Order]) -> DateReading | None:
    """Read 03/24 as March 2024, where that is meant rather than 24 March."""
    year = context.full_year(shape.b)
    past = year <= context.limit.year
    if context.coarse and past:
        return month_noted(context, _month(context, shape, shape.a, shape.b))
    if not possible:
        return _month(context, shape, shape.a, shape.b) if past and shape.b > 31 else None
    if context.style.order != "dmy" or not past or (year < context.limit.year - _RECENT_YEARS and not shape.zero_led):
        return None
    if context.near and not shape.zero_led:
        as_day = _exact(context, shape, shape.a, shape.b, None)
        if as_day.when and abs(as_day.when.first - context.near).days <= _NEAR_DAYS:
            return None
    return month_noted(context, _month(context, shape, shape.a, shape.b))


def _either(context: Context, shape: Shape) -> DateReading:
    """Read Jan 23: a month and year in a column of beginnings, else a day."""
    year = context.full_year(shape.b)
    recent = context.limit.year - 15 <= year <= context.limit.year
    if shape.b > 31 or (context.coarse and recent) or not exists(shape.a, shape.b, None):
        if shape.b <= 31 and not recent:
            raise Odd("dates.impossible", value=context.text)
        reading = _month(context, shape, shape.a, shape.b)
        return replace(reading, guessed=True, when=reading.when and replace(reading.when, guessed=True))
    return _exact(context, shape, shape.a, shape.b, None)


def _season(context: Context, shape: Shape) -> DateReading:
    make = months_span(3 * shape.a + 3, 3)
    if shape.year is None:
        span = context.pick(make)
    else:
        year = context.full_year(shape.year)
        span = make(year)
        if shape.a == 3:  # two winters lie in a year
            span = (make(year - 1)[0], span[1])
    return DateReading(when=context.vague(span), guessed=True)


def _year(context: Context, shape: Shape) -> DateReading:
    year = context.full_year(shape.year or 0)
    first_month, months = (1, 12) if shape.part is None else (4 * shape.part + 1, 4)
    when = context.vague(months_span(first_month, months)(year))
    guessed = shape.part is not None
    return DateReading(when=replace(when, guessed=guessed), guessed=guessed)


def _quarter(context: Context, shape: Shape) -> DateReading:
    when = context.vague(months_span(3 * shape.a - 2, 3)(context.full_year(shape.year or 0)))
    return DateReading(when=replace(when, guessed=False))


def _week(context: Context, shape: Shape) -> DateReading:
    def make(year: int) -> Span:
        first = dt.date.fromisocalendar(year, shape.a, 1)
        return first, first + dt.timedelta(days=6)

    try:
        span = context.pick(make) if shape.year is None else make(context.full_year(shape.year))
    except ValueError:
        raise Odd("dates.impossible", value=context.text) from None
    when = context.vague(span)
    return DateReading(when=replace(when, guessed=shape.year is None), guessed=shape.year is None)


def _day_of_month(context: Context, shape: Shape) -> DateReading:
    if not 1 <= shape.a <= 31:
        raise Odd("dates.impossible", value=context.text)
    middle = context.near or context.limit
    days = []
    for months in range(-3, 4):
        month = middle.replace(day=1) + relativedelta(months=months)
        if exists(month.month, shape.a, month.year):
            days.append(month.replace(day=shape.a))
    if context.ahead:
        day = min(day for day in days if day >= (context.near or context.style.on))
    elif context.near:
        day = min((day for day in days), key=lambda day: abs(day - middle))
    else:
        day = max(day for day in days if day <= context.limit)
    return DateReading(when=When.on(day, shape.time, guessed=True), guessed=True)


def _weekday(context: Context, shape: Shape) -> DateReading:
    wanted = next(iter(shape.weekdays))
    if context.ahead and shape.bound != "<":
        start = context.near or context.style.on
        day = start + dt.timedelta(days=(wanted - start.weekday()) % 7)
    elif context.near:
        start = context.near - dt.timedelta(days=3)
        day = start + dt.timedelta(days=(wanted - start.weekday()) % 7)
    else:
        end = context.limit - dt.timedelta(days=int(shape.bound == "<"))
        day = end - dt.timedelta(days=(end.weekday() - wanted) % 7)
    facts = {"value": context.text, "day": day.isoformat()}
    return DateReading(when=When.on(day, guessed=True), guessed=True, code="dates.only_weekday", facts=facts)


def _age(context: Context, shape: Shape) -> DateReading:
    """Count back from the day of the report (ahead: on from the neighbour), half a unit either way."""
    unit_days = {"day": 1.0, "week": 7.0, "fortnight": 14.0, "month": 30.4375, "year": 365.25}[shape.span]
    days = shape.amount * unit_days
    slack = 0.0 if shape.span == "day" else unit_days * (0.5 if shape.amount == int(shape.amount) else 0.25)
    start = (context.near if context.ahead else None) or context.style.on
    low, high = max(days - slack, 0), days + slack
    if shape.bound == ">":
        low, high = days, days * DEFAULTS["date.longer_than"].value
    elif shape.bound == "<":
        low, high = 0, days
    try:
        if context.ahead:
            span = start + dt.timedelta(days=round(low)), start + dt.timedelta(days=round(high))
        else:
            span = start - dt.timedelta(days=round(high)), start - dt.timedelta(days=round(low))
    except OverflowError:
        raise Odd("dates.too_old", value=context.text) from None
    if context.ahead and context.near:
        return DateReading(when=When(*span, guessed=True), guessed=True)
    return DateReading(
        when=When(*span, guessed=True),
        guessed=True,
        code="dates.age",
        facts={"value": context.text, "start": start.isoformat()},
    )


def _two(context: Context, shape: Shape) -> DateReading:
    """Read two dates as the span between them."""
    second = _read_shape(context, shape.pieces[1])
    near = second.when.first if second.when else context.near
    first = _read_shape(replace(context, near=near, coarse=False), shape.pieces[0])
    if first.when is None or second.when is None:
        return DateReading(code="dates.not_understood", facts={"value": context.text})
    days = (first.when.first, first.when.last, second.when.first, second.when.last)
    return DateReading(when=When(min(days), max(days), guessed=True), guessed=True)


def _serial(context: Context, number: float) -> DateReading:
    """Read a day count of the file's date system, if it gives a day that can be meant."""
    try:
        moment = dt.datetime.combine(_BASE[context.style.date_1904], dt.time()) + dt.timedelta(
            seconds=round(number * 86400)
        )
    except (OverflowError, ValueError):
        raise Odd("dates.not_understood", value=context.text) from None
    if not DEFAULTS["date.serial_from"].value <= moment.year or moment.date() > context.style.furthest:
        raise Odd("dates.not_understood", value=context.text)
    time = moment.time() if moment.time() != dt.time() else None
    return DateReading(
        when=When.on(moment.date(), time, guessed=True),
        guessed=True,
        code="dates.serial",
        facts={"value": context.text, "day": moment.date().isoformat()},
    )


def _read_shape(context: Context, shape: Shape) -> DateReading:
    match shape.kind:
        case "absent":
            return DateReading(absent=True)
        case "relative":
            raise Odd("dates.relative", value=context.text)
        case "day":
            return _exact(context, shape, shape.a, shape.b, shape.year)
        case "month":
            return _month(context, shape, shape.a, shape.year)
        case "digits":
            return _serial(context, shape.amount)
        case "pair":
            return _pair(context, shape)
        case "either":
            return _either(context, shape)
        case "year":
            return _year(context, shape)
        case "season":
            return _season(context, shape)
        case "quarter":
            return _quarter(context, shape)
        case "week":
            return _week(context, shape)
        case "day_of_month":
            return _day_of_month(context, shape)
        case "weekday":
            return _weekday(context, shape)
        case "age":
            return _age(context, shape)
        case "two":
            return _two(context, shape)
        case _:
            raise Odd("dates.not_understood", value=context.text)


def _number(context: Context, value: float) -> DateReading:
    """Read a cell that holds a number where a date belongs."""
    if not math.isfinite(value):
        raise Odd("dates.not_understood", value=context.text)
    if value == int(value):
        return _read_shape(context, shape_of(str(int(value))))
    day, _, month = f"{value:.10g}".partition(".")
    if value < 32 and month.isdecimal() and len(month) <= 2:
        try:
            reading = _pair(context, Shape("pair", int(day), int(month)))
        except Odd:
            raise Odd("dates.not_understood", value=context.text) from None
        if reading.when and not reading.code:
            facts = {"value": context.text, "day": reading.when.first.isoformat()}
            return replace(reading, guessed=True, code="dates.number_as_day", facts=facts)
        return reading
    return _serial(context, value)


def read_date(
    cell: Cell,
    style: DateStyle,
    *,
    near: dt.date | None = None,
    latest: dt.date | None = None,
    coarse: bool = False,
    ahead: bool = False,
) -> DateReading:
    """Read the date in a cell.

    Parameters
    ----------
    cell : Cell
        Any cell; a number may be a day count or a year, text anything a keeper writes for a date.
    style : DateStyle
        The file's order of day and month and the day of the report.
    near : date, optional
        The date of a neighbouring row: a missing year or month becomes the nearest to it.
    latest : date, optional
        The last day that can be meant; ``style.on`` where neither this nor ``near`` is given.
    coarse : bool
        The column holds beginnings of bins: ``Jan 23`` and ``03/24`` are a month and a year.
    ahead : bool
        The column holds days to come: what is left open becomes the first such day from ``near`` or ``style.on``, and
        ``6 wks`` counts on instead of back.

    Returns
    -------
    DateReading
        Half-dates give a span. Misleading when a file's day-month order is open: every date whose two numbers are
        both below 13 then reads in the assumed order, and says ``guessed``. An age (``9 mths``) counts from the day of
        the report although it was typed earlier; it always carries a problem.
    """
    context = Context(style, near, latest, coarse, ahead, cell.text)
    value = cell.value
    try:
        if isinstance(value, dt.datetime):
            reading = DateReading(when=When.on(value.date(), value.time() if value.time() != dt.time() else None))
        elif isinstance(value, dt.date):
            reading = DateReading(when=When.on(value))
        elif isinstance(value, bool | dt.time | dt.timedelta):
            raise Odd("dates.wrong_kind", value=cell.text)
        elif isinstance(value, int | float):
            reading = _number(context, value)
        else:
            shape = shape_of(value)
            reading = _with_words(context, shape, _read_shape(context, shape))
        if reading.when and reading.when.first.year < DEFAULTS["date.first_year"].value:
            raise Odd("dates.too_old", value=cell.text)
        if reading.when and reading.when.first > style.furthest:
            raise Odd("dates.too_far", value=cell.text)
    except Odd as odd:
        return odd.reading
    except (ValueError, OverflowError):
        # A year or a span beyond what a calendar holds.
        return Odd("dates.too_far", value=cell.text).reading
    return reading


def _with_words(context: Context, shape: Shape, reading: DateReading) -> DateReading:
    """Add what the words around a date say: doubt, a time of day, other words."""
    when = reading.when
    if when is None:
        return reading
    if shape.doubt and not reading.guessed:
        reading = replace(reading, guessed=True, when=replace(when, guessed=True))
    if shape.more_words:
        reading = replace(reading, rest=shape.rest, guessed=True)
        if not reading.code:
            facts = {"value": context.text, "day": say(when)}
            reading = replace(reading, code="dates.more_words", facts=facts)
    return reading
