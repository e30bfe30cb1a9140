"""What is seen in the XML of a sheet before it is read."""

import pytest
from made_files import sheet_xml, xlsx_bytes

from workbook_tools.intake.parts import Damaged, Parts
from workbook_tools.intake.prescan import listing, longest_text, scan_sheet


def scanned(rows, *, after="", closely=False):
    return scan_sheet(Parts(xlsx_bytes(sheet_xml(rows, after=after))), "xl/worksheets/sheet1.xml", closely=closely)


def test_extent_counts_only_cells_that_hold_a_value():
    scan = scanned('<row r="3"><c r="B3"><v>1</v></c><c r="Z3" s="1"/></row><row r="900"><c r="A900" s="1"/></row>')
    assert (scan.top, scan.left, scan.bottom, scan.right, scan.count) == (3, 2, 3, 2, 1)
    assert scan.spread == 1


def test_an_empty_sheet_has_no_extent():
    assert scanned("").spread == 0


def test_a_far_cell_shows_in_the_spread():
    rows = '<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'
    assert scanned(rows).spread == 1_048_576 * 16_384


def test_a_cell_that_contradicts_its_row_counts_where_it_says():
    scan = scanned('<row r="1"><c r="C7"><v>1</v></c><c r="D1"><v>1</v></c></row>')
    assert (scan.top, scan.bottom, scan.left, scan.right) == (1, 7, 3, 4)


def test_faults_are_told_apart():
    scan = scanned(
        '<row r="1"><c r="A1" t="e"><v>#N/A</v></c><c r="B1" t="e"><f>X</f></c><c r="C1"><f>1+1</f><v/></c>'
        '<c r="D1"><f>1+1</f></c><c r="E1" t="str"><f>""</f><v></v></c><c r="F1"><f>2</f><v>2</v></c>'
        '<c r="G1"><v>3</v></c></row>'
    )
    assert scan.errors == {(1, 1): "#N/A"}
    assert scan.not_calculated == [(1, 2), (1, 3), (1, 4)]
    assert scan.calculated == [(1, 6)]
    assert scan.count == 2


def test_a_close_look_tells_empty_and_negative_values():
    rows = (
        '<row r="1"><c r="A1"><v></v></c><c r="B1" t="inlineStr"><is><t>-5</t></is></c><c r="C1"><v>-5</v></c>'
        '<c r="D1" t="inlineStr"><is/></c></row>'
    )
    assert scanned(rows).count == 4
    close = scanned(rows, closely=True)
    assert close.count == 2
    assert close.negative == {(1, 3)}


def test_xml_cut_short_is_damage():
    data = xlsx_bytes(sheet_xml('<row r="1"><c r="A1"><v>1</v></c></row>')[:-20])
    with pytest.raises(Damaged):
        scan_sheet(Parts(data), "xl/worksheets/sheet1.xml")


def test_the_listing_reads_states_and_the_date_system():
    data = xlsx_bytes(sheet_xml(""), sheet_xml(""), properties='date1904="true"')
    listed = listing(Parts(data))
    assert listed.date_1904
    assert [sheet.name for sheet in listed.sheets] == ["A", "B"]
    assert not listed.asks_to_calculate


def test_the_longest_shared_text():
    data = xlsx_bytes(sheet_xml(""), strings="<si><t>abc</t></si><si><r><t>abc</t></r><r><t>defg</t></r></si><si/>")
    assert longest_text(Parts(data), "xl/sharedStrings.xml") == 7
