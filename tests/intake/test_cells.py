from workbook_tools.intake.cells import Area


def test_an_area_is_written_as_a_spreadsheet_does():
    assert str(Area(3, 1, 120, 28)) == "A3:AB120"
    assert str(Area(3, 2, 3, 2)) == "B3"


def test_an_area_holds_its_edges():
    area = Area(3, 2, 5, 4)

    assert area.holds(3, 2) and area.holds(5, 4)
    assert not area.holds(2, 2) and not area.holds(5, 5)
