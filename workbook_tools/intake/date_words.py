"""Names of months, weekdays, seasons and spans of time as keepers write them, accents and capitals ignored."""

from __future__ import annotations

import unicodedata
from functools import cache

from workbook_tools.fields.kinds import listed
from workbook_tools.vocabulary.presence import Presence, words_of

MAIN = ("en", "en_GB", "de", "de_AT", "fr", "es", "nl")
"""Languages whose short names of months are known as well; of the others only names of four letters or more, because
their short ones are English words (out, set, mag, gen)."""
FURTHER = ("it", "pt", "sv", "da", "nb")

SEASONS = {
    word: season
    for season, words in enumerate(
        (
            "spring; fruhling; fruhjahr; printemps; primavera; lente; voorjaar",
            "summer; sommer; ete; verano; zomer",
            "autumn; fall; herbst; automne; otono; herfst; najaar",
            "winter; hiver; invierno",
        )
    )
    for word in listed(words)
}
"""Seasons of the northern half of the world: spring is March to May, winter December to February."""

PARTS = {
    word: part
    for part, words in enumerate(
        (
            "early; start; beginning; begin; anfang; debut; principios",
            "mid; middle; mitte; mi; mediados; half",
            "late; end; ende; fin; finales; eind; einde",
        )
    )
    for word in listed(words)
}
"""The first, middle or last third of a month or a year."""

SPANS = {
    word: span
    for span, words in {
        "day": "d; dy; dys; day; days; jour; jours; dia; dias; tag; tage; tagen; dag; dagen",
        "week": "w; wk; wks; week; weeks; woche; wochen; semaine; semaines; semana; semanas; weken",
        "fortnight": "fortnight; fortnights; fn",
        "month": "mo; mos; mth; mths; mnth; mnths; month; months; monat; monate; monaten; mois; mes; meses; "
        "maand; maanden",
        "year": "y; yr; yrs; year; years; jahr; jahre; jahren; an; ans; annee; annees; ano; anos; jaar",
    }.items()
    for word in listed(words)
}

RELATIVE = frozenset(
    listed(
        "today; tomorrow; tonight; now; just now; this morning; this evening; last night; this week; "
        "last week; next week; this month; last month; next month; this year; last year; next year; same day; "
        "the other day; heute; morgen; aujourd'hui; hoy; vandaag"
    )
)
"""What counts from the day it was typed, which a file doesn't tell."""


DAYS_BACK = {
    word: days
    for days, words in {
        1: "yesterday; gestern; hier; ayer; gisteren; ieri; wczoraj",
        2: "day before yesterday; the day before yesterday; vorgestern; avant-hier; anteayer; eergisteren",
    }.items()
    for word in listed(words)
}
"""Words for a day that is so many days before the day it was typed."""


def fold(text: str) -> str:
    """Return the text in lower case, without accents, with one kind of dash, apostrophe and blank."""
    text = text.casefold()
    for dash in "‐‑‒–—−":
        text = text.replace(dash, "-")
    text = text.replace("’", "'").replace("‘", "'").replace("`", "'").replace("＋", "+")
    text = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    return " ".join(text.split())


_NO_DAY = (Presence.UNKNOWN, Presence.EMPTY, Presence.NONE, Presence.NOT_DONE, Presence.ASKED)
ABSENT = frozenset(map(fold, words_of(*_NO_DAY))) | frozenset(
    listed(
        "/; x; weekly; daily; monthly; yearly; fortnightly; never; tbd; always; always there; old; very old; new; "
        "fresh; recent; recently; lately; soon; regularly; often; rarely; later; not yet; can't remember; forgot date; "
        "long ago; ages; ages ago; when i remember; as needed; jamais; nunca; nooit; ongoing; planned; pending; to do; "
        "todo; noch nicht; geplant; nog niet; pas encore; todavia no; non ancora; jeszcze nie"
    )
)
"""What in a column of dates says that there is no date."""


def _with_beginnings(names: dict[str, int], least: int) -> dict[str, int]:
    """Add every beginning of ``least`` letters or more that only one of the values has."""
    meant: dict[str, set[int]] = {}
    for name, value in names.items():
        for length in range(least, len(name) + 1):
            meant.setdefault(name[:length], set()).add(value)
    found = {start: values.pop() for start, values in meant.items() if len(values) == 1}
    return {**found, **names}


@cache
def months() -> dict[str, int]:
    """Month names, their usual short forms and unmistakable beginnings, to 1..12.

    Source: the locale data of the Unicode CLDR by way of Babel.
    """
    from babel import Locale

    main: dict[str, int] = {}
    further: dict[str, int] = {}
    for into, languages in ((main, MAIN), (further, FURTHER)):
        for language in languages:
            for form in ("format", "stand-alone"):
                for width in ("wide", "abbreviated"):
                    for number, name in Locale.parse(language).months[form][width].items():
                        into.setdefault(fold(name).strip("."), number)
    main.setdefault("maerz", 3)
    names = _with_beginnings(main, 3)
    for name, number in _with_beginnings(further, 4).items():
        if len(name) >= 4:
            names.setdefault(name, number)
    return names


@cache
def weekdays() -> dict[str, frozenset[int]]:
    """Weekday names, their usual short forms and beginnings, to 0..6 from Monday.

    A word that is one day in one language and another in another (``di``) has both.
    """
    from babel import Locale

    names: dict[str, set[int]] = {"weds": {2}}
    for language in MAIN:
        for form in ("format", "stand-alone"):
            days = Locale.parse(language).days[form]
            for width in ("wide", "abbreviated", "short"):
                for number, name in days.get(width, {}).items():
                    names.setdefault(fold(name).strip("."), set()).add(number)
            for number, name in days["wide"].items():
                word = fold(name)
                for length in range(3, len(word)):
                    names.setdefault(word[:length], set()).add(number)
    return {word: frozenset(days) for word, days in names.items() if len(word) > 1}
