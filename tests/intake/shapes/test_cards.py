"""A sheet a bin: its card becomes a list of one bin, its log gets a column of bins."""

import pytest

from tools.sheets import sheet
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.shapes.cards import alike, bin_of_sheet, likeness, unfolded
from workbook_tools.intake.shapes.choose import ENOUGH
from workbook_tools.intake.shapes.records import Around

AROUND = Around(Lexicon())
LOG = "Date|Done|Moss\n1.2.2025|water|dry\n2.2.2025|fed|"


def texts(one):
    return {place: cell.text for place, cell in one.cells.items()}


def test_a_card_and_its_log():
    page = sheet("D-09", f"Box: D-09|Kind: Runner\nLitres:|11\n\n{LOG}")
    laid = unfolded(page, AROUND)
    card, log = laid.sheets
    assert texts(card) == {
        (1, 1): "Box",
        (1, 2): "Kind",
        (1, 3): "Litres",
        (2, 1): "D-09",
        (2, 2): "Runner",
        (2, 3): "11",
    }
    assert str(card.cells[2, 3].ref) == "D-09!B2"
    assert [log.cells[row, 4].text for row in (4, 5, 6)] == ["Bin", "D-09", "D-09"]
    assert (log.rows_at, laid.problems, laid.passed) == ({}, (), {})


@pytest.mark.parametrize(
    "text",
    [
        f"Box: D-09|Kind: Runner\n\n{LOG}",
        f"Box|D-09\nKind|Runner\n{LOG}",
        f"Kind: Runner\nLitres: 11\n{LOG}",
        f"Box|Kind|Litres\nD-09|Runner|11\n\n{LOG}",
        f"Box D-09\n{LOG}",
        LOG,
    ],
)
def test_cards_of_several_makes_are_known(text):
    assert likeness(sheet("D-09", text), AROUND) >= ENOUGH


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("Log", LOG),
        ("2025", LOG),
        ("March 2025", LOG),
        ("Jan25", LOG),
        ("wk12", LOG),
        ("Sheet1", LOG),
        ("D-09", "Date|Temp|Humidity\n1.2.2025|21|50"),
        ("D-09", f"Kind: Runner\nLitres: 11\n{LOG.replace('Moss', 'Bin')}"),
        ("D-09", "Bin|Species|Litres\nA1|Runner|6\nA2|Roller|6"),
        ("Shop", "Leaves: 3\nFlake: 2"),
        ("Shop", "Leaves|3\nFlake|2"),
    ],
)
def test_other_sheets_are_left_alone(name, text):
    assert likeness(sheet(name, text), AROUND) < ENOUGH


def test_a_bin_named_by_its_sheet_alone_is_told():
    laid = unfolded(sheet("D-09 (old)", f"Kind: Runner\nLitres: 11\n{LOG}"), AROUND)
    assert [cell.text for (row, _), cell in laid.sheets[0].cells.items() if row == 2] == ["D-09", "Runner", "11"]
    assert [(one.code, one.facts["bin"]) for one in laid.problems] == [("shapes.named_by_sheet", "D-09")]


def test_a_card_that_names_another_bin_than_its_sheet_is_told():
    laid = unfolded(sheet("D-10", f"Box: D-09|Kind: Runner\n{LOG}"), AROUND)
    assert [one.code for one in laid.problems] == ["shapes.other_name"]
    assert unfolded(sheet("D9", f"Box: D-09|Kind: Runner\n{LOG}"), AROUND).problems == ()


def test_a_second_card_below_begins_another_bin():
    laid = unfolded(sheet("Both", f"Box: A1|Kind: Runner\n{LOG}\n\nBox: A2|Kind: Roller\n{LOG}"), AROUND)
    assert [one.cells[2, 1].text for one in laid.sheets[::2]] == ["A1", "A2"]
    assert {cell.text for (_, col), cell in laid.sheets[3].cells.items() if col == 4} == {"Bin", "A2"}


def test_dates_alone_titles_and_totals_get_no_bin():
    log = "Date|Done|Water ml\n1.2.2025\n|water|20\nspring\n|water|30\ntotal||50"
    page = unfolded(sheet("D-09", f"Box: D-09|Kind: Runner\n{log}"), AROUND).sheets[1]
    assert sorted(row for row, col in page.cells if col == 4) == [2, 4, 6]


@pytest.mark.parametrize(
    ("name", "named"), [("D-09 (old)", "D-09"), ("Blue tub", "Blue tub"), ("Table 2", ""), ("jan", "")]
)
def test_what_bin_a_sheet_is_named_after(name, named):
    assert bin_of_sheet(name) == named


@pytest.mark.parametrize("size", ["5 L", "32 qt", "40x30x20 cm", "12 litres, tall"])
def test_a_volume_is_the_size_of_the_box_and_never_its_name(size):
    laid = unfolded(sheet("Tub 4", f"Tub 4\nSpecies|Runner\nBox|{size}\n{LOG}"), AROUND)
    card, log = laid.sheets
    assert {cell.text for (row, col), cell in log.cells.items() if col == 4} == {"Bin", "Tub 4"}
    heads = {cell.text: card.cells[2, col].text for (row, col), cell in card.cells.items() if row == 1}
    assert heads == {"Bin": "Tub 4", "Species": "Runner", "Volume (L)": size}
    assert str(card.cells[1, 3].ref) == "Tub 4!A3"


def test_a_name_that_looks_like_a_volume_stays_the_name_its_sheet_has_too():
    assert unfolded(sheet("5L", f"Box|5L\nKind|Runner\n{LOG}"), AROUND).sheets[0].cells[2, 1].text == "5L"


def test_what_most_sheets_say_alike_names_no_bin():
    pages = [sheet(f"Tub {n}", f"Tub {n}\nSpecies|Runner {n}\nBox|with a lid\n{LOG}") for n in (1, 2, 3)]
    around = Around(Lexicon(), alike=alike(pages))
    for number, page in enumerate(pages, 1):
        assert likeness(page, around) >= ENOUGH
        laid = unfolded(page, around)
        card = laid.sheets[0]
        heads = {cell.text: card.cells[2, col].text for (row, col), cell in card.cells.items() if row == 1}
        assert heads == {"Bin": f"Tub {number}", "Species": f"Runner {number}", "Private note": "with a lid"}
        assert [one.code for one in laid.problems] == ["shapes.same_on_most"]


def test_two_sheets_of_three_with_one_name_are_a_slip_that_stays_to_be_told():
    pages = [sheet(f"S{n}", f"Box|{name}\nSpecies|Runner\n{LOG}") for n, name in enumerate(("A1", "A1", "B2", "C3"))]
    assert ("box", "a1") not in alike(pages)
    assert ("species", "runner") not in alike(pages)


def test_the_title_stands_whole_where_the_sheet_is_called_the_same():
    assert unfolded(sheet("Tub 4", f"Tub 4\n{LOG}"), AROUND).sheets[0].cells[2, 1].text == "Tub 4"
    assert unfolded(sheet("Four", f"Box D-09\n{LOG}"), AROUND).sheets[0].cells[2, 1].text == "D-09"
