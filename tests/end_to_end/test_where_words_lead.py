"""Every word that a drop-down offers leads somewhere: through the whole reader, to what the report says or asks for."""

import datetime as dt

import pytest

from tools.grid import workbook_from_text
from workbook_tools.fields import BIN_FIELDS, FINDINGS, LOG_FIELDS, STATES, THINGS, WELL, Kind
from workbook_tools.pipeline import find, read
from workbook_tools.plan.wording import Wording
from workbook_tools.report.sheets import losses
from workbook_tools.report.sheets.bins import bin_lines

ON = dt.date(2026, 5, 30)
SETTLED = [one.settled for one in THINGS.values() if one.settled]
BAD = [key for key, one in FINDINGS.items() if not one.good]


def day(days):
    return f"d:{(ON - dt.timedelta(days=days)).isoformat()}"


def book(path, headings, bins, rows):
    """A workbook of a list of bins and a log; a row of the log is without its headings."""
    listed = ["Tub | Species | Set up | Litres" + "".join(f" | {heading}" for heading in headings[0])]
    listed += [f"{name} | Porcellio laevis | d:2025-06-01 | 6{more}" for name, more in bins]
    logged = ["Day | Tub | Job | Amount" + "".join(f" | {heading}" for heading in headings[1]), *rows]
    return workbook_from_text("\n".join(["# sheet Tubs", *listed, "# sheet Diary", *logged]), path / "book.xlsx")


def care(names):
    """What was done in all bins, a month and more ago, and ten days ago."""
    every = ", ".join(names)
    jobs = ("watered | 20 ml", "fed | 2 g", "looked |")
    rows = [f"{day(60)} | {every} | topped up leaf litter | 1 l", f"{day(60)} | {every} | gave calcium | 1 g"]
    return rows + [f"{day(days)} | {every} | {job}" for days in (60, 40) for job in jobs]


def of_log(path, heading, words, before="", count=False, ago=20):
    """What comes of a log in which one word a bin stands below a heading, some days before the report."""
    bins = {word: f"T{place:02d}" for place, word in enumerate(words, start=1)}
    rows = care(bins.values())
    if before:
        rows += [f"{day(25)} | {name} | | | {before}" for name in bins.values()]
    rows += [f"{day(ago)} | {name} | {'counted' if count else ''} | | {word}{' | 40' if count else ''}"
             for word, name in bins.items()]  # fmt: skip
    file = book(path, ((), (heading, "Number") if count else (heading,)), [(name, "") for name in bins.values()], rows)
    return find(file, ON), bins


def of_list(path, heading, words):
    """What comes of a list of bins in which one word a bin stands below a heading."""
    bins = {word: f"T{place:02d}" for place, word in enumerate(words, start=1)}
    return find(book(path, ((heading,), ()), [(n, f" | {w}") for w, n in bins.items()], care(bins.values())), ON), bins


def tasks(findings, name):
    return {(task.task, task.label): task for task in findings.tasks if task.bin == name}


def open_in(findings, name):
    return [sight.finding for sight in findings.losses.sights if sight.bin == name]


# --- what was found ---------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def found(tmp_path_factory):
    return of_log(tmp_path_factory.mktemp("found"), "Noticed", STATES["finding"])


@pytest.mark.parametrize("key", BAD)
def test_a_finding_leads_to_its_task_its_line_and_its_caution(found, key):
    findings, bins = found
    one = FINDINGS[key]
    task = tasks(findings, bins[key])[one.task, one.label]

    assert f"{key[:1].upper()}{key[1:]} seen 10 May 2026: {one.do}." in task.why
    assert task.rests_on[0].sheet == "Diary"
    assert open_in(findings, bins[key]) == [key]
    seen = next(table for table in losses.sheet(findings).tables if table.name == "SeenAgain")
    assert key in [row.finding for row in seen.rows if row.bin == bins[key]]


@pytest.mark.parametrize("key", [key for key in FINDINGS if key not in BAD])
def test_a_good_sign_stands_on_the_sheet_of_bins_and_asks_for_nothing(found, key):
    findings, bins = found
    lines = {line.bin.name: line for line in bin_lines(findings, Wording())}

    assert lines[bins[key]].young == ON - dt.timedelta(days=20)
    assert lines[bins[WELL]].young is None
    assert tasks(findings, bins[key]).keys() == tasks(findings, bins[WELL]).keys()
    assert open_in(findings, bins[key]) == []


@pytest.mark.parametrize("first", ["pests", "blue or violet"])
def test_all_well_and_what_settles_a_thing_lead_to_less(tmp_path, first):
    findings, bins = of_log(tmp_path, "Noticed", [WELL, *SETTLED], before=first)
    settling = {WELL} if FINDINGS[first].only_well else {WELL, THINGS[FINDINGS[first].about].settled}

    assert {word for word, name in bins.items() if open_in(findings, name) == []} == settling
    assert {
        word for word, name in bins.items() if (FINDINGS[first].task, FINDINGS[first].label) in tasks(findings, name)
    } == {*bins} - settling


def test_each_word_that_settles_a_thing_settles_every_finding_about_it(tmp_path):
    before = ", ".join(key for key in BAD if FINDINGS[key].quiet != "sights.once")
    findings, bins = of_log(tmp_path, "Noticed", SETTLED, before=before)

    for thing in THINGS.values():
        if thing.settled:
            assert open_in(findings, bins[thing.settled]) == [
                key for key in BAD if FINDINGS[key].about != thing.key and FINDINGS[key].quiet != "sights.once"
            ], thing.key


# --- what was seen otherwise ------------------------------------------------------------------------------------------


def test_how_the_moss_corner_was_found_leads_to_what_is_known_of_it(tmp_path):
    findings, bins = of_log(tmp_path, "Moss", STATES["moss"], ago=10)
    why = {word: tasks(findings, name)["moss", "Look at moss corner"].why for word, name in bins.items()}

    assert {word: findings.estimates.moss[name].found for word, name in bins.items()} == {w: w for w in bins}
    assert "It was dry then, and no water is logged since." in why["dry"]
    assert "It was wet then" in why["wet"]
    assert [word for word, name in bins.items() if findings.estimates.moss[name].too_wet] == ["soaked"]


def test_how_leftovers_were_found_leads_to_how_much_is_eaten(tmp_path):
    words = list(STATES["leftovers"])
    bins = {word: f"T{place:02d}" for place, word in enumerate(words, start=1)}
    rows = care(bins.values())
    rows += [f"{day(days)} | {name} | | | {word}" for days in (59, 39) for word, name in bins.items()]
    findings = find(book(tmp_path, ((), ("Leftovers",)), [(name, "") for name in bins.values()], rows), ON)
    eaten = {word: findings.estimates.food[name][0].a_day.middle for word, name in bins.items()}

    assert eaten["gone"] > eaten["some"] > eaten["most"]
    assert eaten["mouldy"] < eaten["some"]
    assert {word: findings.estimates.food[name][0].left for word, name in bins.items()} == {w: w for w in words}


def test_how_the_substrate_was_found_leads_to_when_it_is_spent(tmp_path):
    findings, bins = of_log(tmp_path, "Substrate", STATES["substrate"])
    shares = [findings.estimates.substrate[name].share.middle for name in bins.values()]

    assert shares == sorted(shares, reverse=True) and len({*shares}) == len(shares)
    assert ("change", "Change substrate") in tasks(findings, bins["spent"])
    assert ("change", "Change substrate") not in tasks(findings, bins["good"])


def test_how_much_leaf_litter_was_left_leads_to_when_it_runs_out(tmp_path):
    findings, bins = of_log(tmp_path, "Leaf litter left", STATES["litter"])
    left = [findings.estimates.leaf[name].left.middle for name in bins.values()]

    assert left == sorted(left) and len({*left}) == len(left)


def test_how_a_count_was_made_leads_to_how_many_there_are(tmp_path):
    findings, bins = of_log(tmp_path, "Way", STATES["method"], count=True)
    now = {word: findings.estimates.numbers[name].now.middle for word, name in bins.items()}

    assert now["trap"] > now["hide lift"] > now["all hides"] > now["hand sort"] > now["sieve"]
    assert now["passes"] == now["hand sort"]
    assert len({now["guess"], now["weighing"], now["hand sort"], now["sieve"]}) == 4


def test_yes_and_no_lead_to_the_sheet_of_bins(tmp_path):
    findings, bins = of_log(tmp_path, "Mancas", STATES["truth"])
    lines = {line.bin.name: line for line in bin_lines(findings, Wording())}

    assert [word for word, name in bins.items() if lines[name].young] == ["yes"]


# --- the list of bins -------------------------------------------------------------------------------------------------


def test_ventilation_leads_to_how_fast_a_bin_dries(tmp_path):
    findings, bins = of_list(tmp_path, "Ventilation", STATES["ventilation"])
    days = {word: findings.estimates.moss[name].days.middle for word, name in bins.items()}

    assert days["low"] > days["medium"] > days["high"] >= days["mesh"]


def test_appetite_leads_to_when_leaf_litter_runs_out(tmp_path):
    findings, bins = of_list(tmp_path, "Appetite", STATES["appetite"])
    a_week = [findings.estimates.leaf[name].a_week.middle for name in bins.values()]

    assert a_week == sorted(a_week) and len({*a_week}) == len(a_week)


def test_status_leads_to_which_tasks_there_are(tmp_path):
    findings, bins = of_list(tmp_path, "Status", STATES["status"])
    kinds = {word: {task for task, _ in tasks(findings, name)} for word, name in bins.items()}

    assert kinds["resting"] == kinds["gone"] == set()
    assert kinds["straggler tub"] == {"moss", "trap"}
    assert "quarantine" in kinds["quarantine"] and "quarantine" not in kinds["active"]
    assert {"food", "moss", "look"} <= kinds["active"]


# --- every word known -------------------------------------------------------------------------------------------------

IN_LOG = {one.states: one for one in reversed(LOG_FIELDS) if one.kind is Kind.STATE}
IN_LIST = {one.states: one for one in BIN_FIELDS if one.kind is Kind.CHOICE}
TABLES = {
    **{name: (one.label, one.key, STATES[name]) for name, one in IN_LOG.items()},
    "settled": ("Seen", "seen", STATES["settled"]),
}


def test_every_table_of_words_is_of_a_column_or_of_the_way_of_counting():
    assert {*TABLES, *IN_LIST, "method"} == {*STATES}


@pytest.mark.parametrize("name", TABLES)
def test_every_word_known_is_read_as_what_we_call_it_in_a_log(tmp_path, name):
    heading, field, table = TABLES[name]
    expected = [(key, word) for key, words in table.items() for word in (key, *words)]
    rows = [f"{day(30)} | T01 | looked | | t:{word}" for _, word in expected]
    reading = read(book(tmp_path, ((), (heading,)), [("T01", "")], rows), ON)
    keys = [
        [k for fact in row.facts.get(field, ()) for k in fact.value.keys]
        for row in reading.intake.rows
        if row.role == "log"
    ]

    wrong = [(word, key, got) for (key, word), got in zip(expected, keys, strict=True) if got != [key]]
    assert wrong == []
