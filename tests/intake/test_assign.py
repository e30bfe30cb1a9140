from tools.sheets import sheet
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.regions import find_regions
from workbook_tools.intake.roles import recognise

LEXICON = Lexicon()


def read(name, text):
    table, problems = recognise(find_regions(sheet(name, text))[0], LEXICON)
    fields = [head.field.key if head.field else "" for head in table.headings.values()]
    return table, fields, [(problem.code, problem.value) for problem in problems]


def test_a_shelf_with_a_word_and_a_number_is_a_place():
    for heading in ("Shelf", "Where"):
        _, fields, problems = read("Bins", f"Bin|Species|{heading}\nA1|x|Rack 1\nA2|y|Rack 1\nA3|z|Rack 2")

        assert (fields, problems) == (["name", "species", "place"], [])


def test_a_heading_whose_field_is_taken_says_so():
    _, fields, problems = read("Log", "Date|Bin|Fed?|Food\n1/3/25|A1|y|carrot\n2/3/25|A1|y|kale")

    assert fields == ["when", "bins", "", "food"] or fields == ["when", "bins", "food", ""]
    assert [code for code, _ in problems] == ["headings.taken"]


def test_words_that_are_no_acts_are_the_food_on_a_sheet_of_feedings():
    table, fields, _ = read("Feeding", "Date|Bin|What|Amount\n1/3/25|A1|carrot|1 g\n2/3/25|A1|fish food|1 g")

    assert (table.act, fields) == ("feed", ["when", "bins", "food", "amount"])


def test_words_that_are_no_acts_are_the_way_on_a_sheet_of_substrate():
    table, fields, _ = read("Substrate", "Date|Bin|What I did|Share\n1/3/25|A1|front half out|1/2\n2/3/25|A2|all new|1")

    assert (table.act, fields) == ("substrate_change", ["when", "bins", "way", "share"])


def test_acts_that_contradict_the_title_in_most_rows_win():
    table, fields, _ = read("Water", "Date|Bin|Done\n1/3/25|A1|fed\n2/3/25|A1|leaves\n3/3/25|A1|watered")

    assert (table.act, fields) == ("", ["when", "bins", "did"])


def test_a_column_of_dates_and_one_of_bin_numbers_make_a_log():
    text = "day|no.|ml\n18/11/24|1|40\n19/11/24|2|40\n20/11/24|3|a splash\n21/11/24|4|30"
    table, fields, problems = read("Water log", text)

    assert (table.role, table.act, fields) == ("log", "water", ["when", "bins", "water"])
    assert [code for code, _ in problems] == ["headings.guessed"]


def test_a_list_of_bins_may_be_headed_by_name_or_a_number_sign():
    for heading in ("Name", "#"):
        table, fields, _ = read("Sheet1", f"{heading}|Species|L x W x H (cm)\nA1|x|30x20x15\nA2|y|33x19x11")

        assert (table.role, fields) == ("bins", ["name", "species", "volume"])


def test_an_old_and_a_new_column_of_one_question_are_one():
    text = "Date|Bin|How is the moss?|How is the moss corner?\n1/3/25|A1|dry|\n2/3/25|A1||damp"
    _, fields, problems = read("Form", text)

    assert fields == ["when", "bins", "moss", "moss"]
    assert [code for code, _ in problems] == ["headings.one_question"]


def test_two_columns_of_one_field_that_a_row_fills_both_stay_two():
    _, fields, problems = read("Form", "Date|Bin|Moss|Moss corner\n1/3/25|A1|dry|\n2/3/25|A1|dry|damp")

    assert fields.count("moss") == 1
    assert [code for code, _ in problems] == ["headings.taken"]
