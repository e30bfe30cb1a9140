"""Known logs in many layouts: what is read back is what was written, or a problem names where it stands.

``python tests/layouts/run.py --seed N --books M`` prints the same table for other seeds. The goal is 98 % recovered and
nothing silently wrong, with words in sight of those who mend the reader; ``--part kept`` shows the words that aren't.
"""

import datetime as dt
from collections import Counter
from random import Random

import pytest

from layouts import files, known, pool, workbooks
from layouts.compare import Outcome, against
from layouts.run import outcomes, table
from workbook_tools import pipeline
from workbook_tools.ledger.records import Ledger
from workbook_tools.problems import CannotRead

SEED = 20_000
BOOKS = 500
FLOOR = 0.98
"""The goal for words in sight."""
FLOOR_STRANGE = 0.6
"""Of workbooks in which every eighth heading and word is made up: little can be known of those."""


def share(found, kind):
    counts = sum((outcome.counts for *_, outcome in found), Counter())
    return counts[kind] / (counts["recovered"] + counts["named"] + counts["wrong"])


def told(found):
    lines = [f"{seed} {layout} | {line}" for seed, layout, outcome in found for line in outcome.wrong]
    return "\n".join([table(found), *lines[:20]])


def test_known_logs_come_back_or_are_named():
    found = outcomes(SEED, BOOKS, "seen")
    print(table(found))  # noqa: T201
    assert sum(outcome.counts["wrong"] for *_, outcome in found) == 0, told(found)
    assert share(found, "recovered") >= FLOOR, told(found)


def test_words_that_nobody_knows_are_named_or_passed_over_aloud():
    found = outcomes(SEED, 110, "seen", strange=0.12)
    print(table(found))  # noqa: T201
    assert share(found, "wrong") <= 0.002, told(found)
    assert share(found, "recovered") >= FLOOR_STRANGE, told(found)


def read_back(workbook, path) -> Outcome:
    try:
        reading = pipeline.read(path, known.TODAY)
    except CannotRead as refused:
        pytest.fail(f"{workbook.seed} {workbook.layout}: {refused}")
    return against(workbook, reading.ledger, reading.problems)


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    folder = tmp_path_factory.mktemp("written")
    made = [workbooks.make(SEED + at, layout, "seen") for at, layout in enumerate(workbooks.LAYOUTS)]
    return made, [files.as_xlsx(one, folder) for one in made], folder


def check(made, paths):
    found = [(one.seed, one.layout, read_back(one, path)) for one, path in zip(made, paths, strict=True)]
    print(table(found))  # noqa: T201
    assert sum(outcome.counts["wrong"] for *_, outcome in found) == 0, told(found)
    assert share(found, "recovered") >= 0.95, told(found)


def test_the_same_from_xlsx(written):
    check(*written[:2])


@pytest.mark.office
@pytest.mark.parametrize("kind", ["ods", "xls"])
def test_the_same_from_other_formats(written, kind):
    made, paths, folder = written
    check(made, files.converted(paths, kind, folder))


def test_the_same_from_folders_of_csv(written, tmp_path):
    made = written[0]
    check(made, [files.as_csv(one, tmp_path) for one in made])


def test_the_same_seed_makes_the_same_workbook():
    one, other = (workbooks.make(7, "several mixed") for _ in range(2))
    assert [page.cells for page in one.pages] == [page.cells for page in other.pages]


def test_a_workbook_tells_every_fact_of_its_log_once():
    told = [(f.bin, f.day, f.act) for page in workbooks.make(3, "one long log").pages for f, *_ in page.told]
    assert len(told) == len(set(told)) > 20


def test_what_is_not_read_counts_as_wrong_unless_named():
    made = workbooks.make(3, "one long log")
    facts = sum(len(page.told) for page in made.pages)
    outcome = against(made, Ledger({}, ()), [])
    assert outcome.counts["wrong"] == facts
    assert outcome.counts["recovered"] == 0


def test_kept_words_are_never_those_in_sight():
    for entries in (*pool.HEADINGS.values(), *pool.ACTS.values(), *pool.MOSS.values(), *pool.WAYS.values()):
        seen, kept = pool.part_of(entries, "seen"), pool.part_of(entries, "kept")
        assert not set(seen) & set(kept)
        assert set(seen) | set(kept) == set(entries)


def test_no_bin_has_an_act_twice_on_a_day():
    log = known.draw(Random(1))
    assert len({(one.bin, one.day, one.act) for one in log.deeds}) == len(log.deeds)
    assert all(isinstance(one.day, dt.date) for one in log.deeds)
