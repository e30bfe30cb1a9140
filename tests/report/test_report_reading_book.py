import datetime as dt
from pathlib import Path

from tools.drawn import drawn, reopened, set_box, values
from tools.sheets import book, sheet
from workbook_tools.intake.corrections import NONE
from workbook_tools.intake.reading import read_book
from workbook_tools.intake.reading_book import is_reading_book, read_corrections
from workbook_tools.intake.workbook import open_book
from workbook_tools.report.reading_book import ASSUMED, NOT_FOUND, TABLES, WORDS, reading_sheets

ON = dt.date(2025, 3, 20)
LOG = "Date|Bin|Done|Zorb|Moss cornr\n13/3/2025|A1|zorbed 20 ml|1|dry\n14/3/2025|A2|watred|2|wet"


def intake_of(*sheets, corrections=NONE):
    return read_book(book(*sheets), ON, corrections)[0]


def lines(intake, name):
    specs = {spec.name: spec for spec in reading_sheets(intake)}
    (table,) = specs[name].tables
    return values(specs[name], table.name)


def corrected(intake, path, changes):
    """Write the reading workbook, set cells as a keeper would, and read the corrections."""
    written = reopened(drawn(*reading_sheets(intake)))
    for (page, about), (column, value) in changes.items():
        set_box(written[page], about, column, value)
    written.save(path)
    return read_corrections(open_book(path)[0])


def test_every_table_and_heading_is_listed_with_what_it_was_taken_for():
    found = [(row["What"], row["Name"], row["Taken as"]) for row in lines(intake_of(sheet("Log", LOG)), TABLES)]
    assert found == [
        ("table", "Date | Bin | Done | Zorb | Moss cornr", "log"),
        ("heading", "Date", "Date"),
        ("heading", "Bin", "Bin"),
        ("heading", "Done", "Done"),
        ("heading", "Zorb", "not used"),
        ("heading", "Moss cornr", "Moss corner"),
    ]


def test_guesses_say_how_sure_they_are_and_show_what_stands_below():
    row = lines(intake_of(sheet("Log", LOG)), TABLES)[-1]
    assert row["How surely"].startswith("a guess, 80% alike")
    assert row["For example"] == "dry, wet"


def test_unknown_and_guessed_words_are_listed():
    found = {row["Word"]: row["Taken as"] for row in lines(intake_of(sheet("Log", LOG)), WORDS)}
    assert found == {"zorbed": "not known", "watred": "Water"}


def test_the_written_workbook_left_alone_corrects_nothing(tmp_path: Path):
    intake = intake_of(sheet("Log", LOG))
    path = tmp_path / "mine-reading.xlsx"
    path.write_bytes(drawn(*reading_sheets(intake)))
    read = open_book(path)[0]
    assert is_reading_book(read)
    found, problems = read_corrections(read)
    assert (found.all, found.decimal, problems) == ((), "", [])


def test_corrections_go_through_the_workbook_and_stay_in_the_next_one(tmp_path: Path):
    log = sheet("Log", LOG)
    changes = {
        (TABLES, "Zorb"): ("Taken as", "Water"),
        (TABLES, "Moss cornr"): ("How surely", "as you said"),
        (WORDS, "zorbed"): ("Taken as", "Feed"),
        (ASSUMED, "A handful is"): ("Taken as", "0.3 l"),
    }
    found, problems = corrected(intake_of(log), tmp_path / "r.xlsx", changes)
    assert problems == []
    assert len(found.all) == 4

    again = intake_of(log, corrections=found)
    rows = {row["Name"]: row for row in lines(again, TABLES)}
    assert (rows["Zorb"]["Taken as"], rows["Zorb"]["Read at first as"]) == ("Water", "not used")
    assert rows["Zorb"]["How surely"] == rows["Moss cornr"]["How surely"] == "as you said"
    assert {row["Word"]: row["Taken as"] for row in lines(again, WORDS)}["zorbed"] == "Feed"
    twice, _ = corrected(again, tmp_path / "r2.xlsx", {})
    assert [(one.key, one.value) for one in twice.all] == [(one.key, one.value) for one in found.all]


def test_a_correction_taken_back_is_gone(tmp_path: Path):
    log = sheet("Log", LOG)
    found, _ = corrected(intake_of(log), tmp_path / "r.xlsx", {(TABLES, "Zorb"): ("Taken as", "Water")})
    back, _ = corrected(intake_of(log, corrections=found), tmp_path / "r.xlsx", {(TABLES, "Zorb"): ("Taken as", None)})
    assert back.all == ()
    rows = {row["Name"]: row for row in lines(intake_of(log, corrections=back), TABLES)}
    assert rows["Zorb"]["Taken as"] == "not used"


def test_a_correction_of_what_is_gone_stays_and_says_so(tmp_path: Path):
    found, _ = corrected(intake_of(sheet("Log", LOG)), tmp_path / "r.xlsx", {(TABLES, "Zorb"): ("Taken as", "Water")})
    row = lines(intake_of(sheet("Log", LOG.replace("Zorb", "Blort")), corrections=found), TABLES)[-1]
    assert (row["Name"], row["Taken as"], row["How surely"]) == ("Zorb", "Water", NOT_FOUND)


def test_what_is_no_choice_stays_in_its_box_and_says_so(tmp_path: Path):
    found, problems = corrected(
        intake_of(sheet("Log", LOG)), tmp_path / "r.xlsx", {(TABLES, "Zorb"): ("Taken as", "blorp")}
    )
    assert [problem.code for problem in problems] == ["corrections.no_choice"]
    row = {row["Name"]: row for row in lines(intake_of(sheet("Log", LOG), corrections=found), TABLES)}["Zorb"]
    assert row["Taken as"] == "blorp"
    assert row["How surely"].startswith("no choice")


def test_a_table_corrected_once_is_known_after_it_grew(tmp_path: Path):
    about = "Date | Bin | Done | Zorb | Moss cornr"
    changes = {(TABLES, about): ("Taken as", "log: water")}
    found, _ = corrected(intake_of(sheet("Log", LOG)), tmp_path / "r.xlsx", changes)
    grown = "\n\n" + LOG.replace("Bin|", "Bin|New|").replace("A1|", "A1|x|").replace("A2|", "A2|y|")
    intake = intake_of(sheet("Log", grown), corrections=found)
    assert intake.tables[0].act == "water"
    first = lines(intake, TABLES)[0]
    assert first["Taken as"] == "log: water"
    assert "New" in first["Name"]


def test_a_sheet_of_another_shape_can_be_said_to_be_a_log_and_back(tmp_path: Path):
    grid = sheet("Grid", "Bin|1/3|2/3|3/3|4/3|5/3\nA1|W|F|W||W\nA2|W||F|W|W\nA3||W|W|F|")
    log = sheet("Log", LOG)
    intake = intake_of(grid, log)
    assert lines(intake, TABLES)[0]["Taken as"] == "a grid of dates"
    found, problems = corrected(intake, tmp_path / "r.xlsx", {(TABLES, "a grid of dates"): ("Taken as", "not used")})
    assert problems == []
    again = intake_of(grid, log, corrections=found)
    assert [table.role for table in again.tables if table.sheet == "Grid"] == ["unused"]
    assert lines(again, TABLES)[0]["Read at first as"] == "a grid of dates"


def test_headings_of_many_sheets_of_one_form_are_corrected_once(tmp_path: Path):
    form = "Box|{0}\nSpecies|scaber\n\nDate|Done|Zorb\n13/3/2025|water|20 ml\n14/3/2025|feed|10 ml"
    sheets = [sheet(name, form.format(name)) for name in ("D-01", "D-02", "D-03")]
    zorbs = [row for row in lines(intake_of(*sheets), TABLES) if row["Name"] == "Zorb"]
    assert [row["Sheet"] for row in zorbs] == ["every sheet"]
    assert "Bin" not in [row["Name"] for row in lines(intake_of(*sheets), TABLES)]
    found, _ = corrected(intake_of(*sheets), tmp_path / "r.xlsx", {(TABLES, "Zorb"): ("Taken as", "Water")})
    new = sheet("D-04", form.format("D-04"))
    intake = intake_of(*sheets, new, corrections=found)
    assert sum("water" in row.facts for row in intake.rows) == 8


def test_drop_downs_offer_what_each_line_can_be():
    written = reopened(drawn(*reading_sheets(intake_of(sheet("Log", LOG)))))
    rules = [rule for page in (TABLES, WORDS, ASSUMED) for rule in written[page].data_validations.dataValidation]
    lists = {rule.formula1 for rule in rules}
    assert any("Choices" in one for one in lists)
    assert '"day-month,month-day,year-month-day"' in lists
    page = written["Choices"]
    for rule in written[TABLES].data_validations.dataValidation:
        if "Choices" in rule.formula1:
            ref = rule.formula1.partition("!")[2].replace("$", "")
            offered = [row[0].value for row in page[ref]]
            assert "not used" in offered
            assert None not in offered


def test_the_same_reading_gives_the_same_bytes():
    first, second = (drawn(*reading_sheets(intake_of(sheet("Log", LOG)))) for _ in range(2))
    assert first == second
