from tools.sheets import sheet
from workbook_tools.intake.cells import Area
from workbook_tools.intake.regions import find_regions


def areas(found):
    return [(region.area.top, region.area.left, region.area.bottom, region.area.right) for region in found]


def test_a_table_is_found_below_a_title_and_right_of_empty_columns():
    found = find_regions(sheet("S", " \n||My woodlice\n\n||Date|Bin|Done\n||1/3/25|A1|water\n\n||2/3/25|A2|feed\n"))

    assert areas(found) == [(4, 3, 7, 5)]
    assert found[0].title == "My woodlice"


def test_two_tables_side_by_side_are_two():
    found = find_regions(sheet("S", "Date|Bin|Water ml||Date|Bin|Food\n1/3|A1|20||2/3|A2|veg\n3/3|A1|30||4/3|A2|veg"))

    assert areas(found) == [(1, 1, 3, 3), (1, 5, 3, 7)]


def test_an_empty_column_inside_a_table_does_not_split_it():
    found = find_regions(sheet("S", "Bin|Species||Place|Note\nA1|scaber||top|x\nA2|scaber||top|"))

    assert areas(found) == [(1, 1, 3, 5)]


def test_stacked_tables_end_where_the_next_begins_with_its_title():
    found = find_regions(sheet("S", "Bin|Species|Place\nA1|x|top\nA2|x|top\n\nFeeding\nDate|Bin|Food\n1/3/25|A1|veg\n"))

    assert areas(found) == [(1, 1, 3, 3), (6, 1, 7, 3)]
    assert found[1].title == "Feeding"


def test_group_labels_above_headings_are_carried_to_the_right():
    text = "BOX|||CARE|\nCode|Shelf|Size|fed|wet\nA1|top|6|1/3|2/3"
    found = find_regions(sheet("S", text, merged=(Area(1, 1, 1, 3), Area(1, 4, 1, 5))))

    assert found[0].area.top == 1
    assert found[0].groups == {1: "BOX", 2: "BOX", 3: "BOX", 4: "CARE", 5: "CARE"}


def test_sub_headings_below_merged_headings_are_joined():
    text = "Date|Bin|Water||Food\n||ml|moss|\n1/3/25|A1|20|dry|veg"
    found = find_regions(
        sheet("S", text, merged=(Area(1, 1, 2, 1), Area(1, 2, 2, 2), Area(1, 3, 1, 4), Area(1, 5, 2, 5)))
    )

    assert found[0].heading_row == 2
    assert [cell.text for cell in found[0].headings.values()] == ["Date", "Bin", "ml", "moss", "Food"]
    assert found[0].groups == {3: "Water", 4: "Water"}


def test_data_that_uses_heading_words_begins_no_table():
    found = find_regions(sheet("S", "Date|Bin|Done|Seen\n1/3|A1|water|food\n2/3|A1|leaf|count\n3/3|A1|feed|dead"))

    assert areas(found) == [(1, 1, 4, 4)]


def test_a_blank_sheet_and_a_page_of_text_have_no_table():
    assert find_regions(sheet("S", "")) == []
    assert find_regions(sheet("S", "Dear diary\ntoday I watered the bin\nnothing else")) == []


def test_four_headings_known_for_sure_are_enough_among_many_others():
    text = "Kind / bin|Counted on|Way|Q|W|E|R|T|Z|U|I|O|Sum|Dead\nA1|1.2.|hand|1|2|3|4|5|6|7|8|9|10|0"

    assert areas(find_regions(sheet("Census", text))) == [(1, 1, 2, 14)]


def test_a_row_of_a_table_is_no_headings_though_its_words_are_known():
    text = (
        "Date|Did|From|To|What|How many\n7/2/26|sold|A1|Ute|isopods|12\n"
        "8/2/26|waste|A2|bin|old substrate|5 L\n9/2/26|sold|A1|Ute|isopods|4"
    )

    assert areas(find_regions(sheet("S", text))) == [(1, 1, 4, 6)]


def test_headings_again_directly_below_rows_still_begin_a_table():
    text = "Date|Bin|Count\n1/3/25|A1|12\n2/3/25|A2|14\nDate|Bin|Food\n1/3/25|A1|veg"

    assert areas(find_regions(sheet("S", text))) == [(1, 1, 3, 3), (4, 1, 5, 3)]
