from workbook_tools.intake.words_found import Quantity, Told, WordsFound


def test_nothing_found_is_empty_and_equal():
    assert WordsFound() == WordsFound(keys=(), states={}, numbers=())


def test_a_number_knows_what_it_is_of():
    told = Told(("leaf",), Quantity("5 g", "g", True), "birch")

    assert (told.thing, told.quantity.unit, told.quantity.last) == ("birch", "g", True)
