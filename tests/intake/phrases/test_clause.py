from workbook_tools.intake.phrases.chunks import Chunk
from workbook_tools.intake.phrases.clause import BOOKED_FROM, Clause

NUMBER = Chunk("number", "6", 0, 6.0, 1)


def test_an_act_is_booked_from_its_sureness_on():
    assert Clause((NUMBER,), "count", BOOKED_FROM).booked
    assert not Clause((NUMBER,), "count", BOOKED_FROM - 0.01).booked
    assert not Clause((NUMBER,), "", 1.0).booked


def test_a_number_of_bins_is_no_amount():
    bins = Chunk("bin", "bins", 2, None, 6)

    assert Clause((NUMBER, bins)).amounts == ()
    assert Clause((NUMBER, Chunk("animals", "adults", 2, None, 8))).amounts == (NUMBER,)


def test_its_place_in_the_phrase_is_that_of_its_chunks():
    clause = Clause((Chunk("water", "water", 7, None, 12), Chunk("modifier", "more", 2, None, 6)))

    assert (clause.at, clause.end) == (2, 12)


def test_words_that_are_not_known_are_told():
    assert Clause((Chunk("unknown", "zorb"), NUMBER)).unknown == ("zorb",)
