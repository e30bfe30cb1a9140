"""Rows of a form sent twice: the same answers a moment apart are one entry."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.tables import Row
from workbook_tools.intake.values import When
from workbook_tools.problems import Problem


def without_doubles(rows: Sequence[Row]) -> tuple[list[Row], list[Problem]]:
    """Leave out every row of a log that says the same as another a few seconds before; each is named.

    Only rows with a time of day can be told to be sent twice; others may be two entries of one day.
    """
    kept: list[Row] = []
    problems: list[Problem] = []
    last: dict[tuple[tuple[str, str], ...], tuple[Row, dt.datetime]] = {}
    for row in rows:
        moment = _moment(row)
        if moment is None:
            kept.append(row)
            continue
        said = _answers(row)
        first, before = last.get(said, (row, moment))
        apart = abs((moment - before).total_seconds())
        if first is row or apart > DEFAULTS["form.twice"].value:
            kept.append(row)
            last[said] = (row, moment)
        else:
            told = {"seconds": f"{apart:g}", "row": first.where}
            problems.append(Problem("entries.sent_twice", row.where, told, " | ".join(text for _, text in said)))
            last[said] = (first, moment)
    return kept, problems


def _answers(row: Row) -> tuple[tuple[str, str], ...]:
    """What a row says beside its time: the text of every cell with its field."""
    return tuple(sorted((key, one.text) for key, facts in row.facts.items() if key != "when" for one in facts))


def _moment(row: Row) -> dt.datetime | None:
    """The moment a row was sent, where it has a day and a time."""
    fact = row.first("when") if row.role == "log" else None
    when = fact.value if fact else None
    if not isinstance(when, When) or not when.exact or when.time is None:
        return None
    return dt.datetime.combine(when.first, when.time)
