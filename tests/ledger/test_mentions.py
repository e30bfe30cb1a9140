from tools.rows import bin_row, log_row
from workbook_tools.ledger.listed import read_bins
from workbook_tools.ledger.mentions import Mentions
from workbook_tools.problems import merged


def fact(text, at=2):
    return log_row("2026-03-01", text, at=at).facts["bins"][0]


def mentions(*listed, met=()):
    bins, _, _, _ = read_bins([bin_row(name, place=place) for name, place in listed])
    made = Mentions(bins)
    made.learn([fact(text, at) for at, text in enumerate(met, start=2)])
    return made


def codes(made):
    return [problem.code for problem in made.problems]


def test_listed_name_is_found_without_a_word():
    made = mentions(("A1", "top"), ("A2", "top"))
    assert made.find(fact("A1")) == ("A1",)
    assert codes(made) == []


def test_name_that_is_only_alike_is_noted():
    made = mentions(("B07", "top"), ("A1", "top"))
    assert made.find(fact("b-7", 2)) == made.find(fact("b-7", 5)) == ("B07",)
    (problem,) = made.spellings()
    assert (problem.code, problem.value) == ("bins.alike", "b-7")
    assert [str(cell) for cell in problem.cells] == ["Log!B2", "Log!B5"]


def test_many_spellings_are_one_problem_with_all_their_cells():
    made = mentions(*((f"A{n:02}", "") for n in range(1, 31)))
    for n in range(1, 31):
        assert made.find(fact(f"a-{n}", n)) == (f"A{n:02}",)
    (problem,) = merged(made.spellings())
    assert problem.code == "bins.alike"
    assert len(problem.cells) == 30
    assert "30 spellings" in problem.says
    assert "'a-1' for A01" in problem.says


def test_bare_number_is_a_guess_and_noted_by_itself():
    made = mentions(("B07", ""), ("A1", ""))
    assert made.find(fact("7")) == ("B07",)
    assert codes(made) == ["bins.alike"]


def test_two_that_could_be_meant_are_named_and_none_is_taken():
    made = mentions(("B7", ""), ("B07", ""))
    assert made.find(fact("b-7")) == ()
    assert codes(made) == ["bins.rivals"]
    assert "B7" in made.problems[0].says
    assert "B07" in made.problems[0].says


def test_unlisted_bin_is_made_and_named_once_with_all_its_cells():
    made = mentions(("Fog 1", ""), ("Fog 2", ""), met=["Fog 22", "Fog 22", "Fog 1", "Fog 22"])
    assert not made.bins["Fog 22"].listed
    assert codes(made) == ["bins.unlisted"]
    assert [str(cell) for cell in made.problems[0].cells] == ["Log!B2", "Log!B3", "Log!B5"]
    assert "Did you mean Fog 2?" in made.problems[0].says
    assert made.find(fact("Fog 22")) == ("Fog 22",)


def test_without_a_list_bins_come_from_the_log_without_complaint():
    made = mentions(met=["B07", "7", "b-7", "12+13"])
    assert list(made.bins) == ["B07", "12", "13"]
    assert made.problems == []
    assert made.find(fact("7")) == ("B07",)


def test_group_that_the_list_does_not_tell_makes_no_bin():
    made = mentions(("A1", "top"), met=["all shelf Q"])
    assert list(made.bins) == ["A1"]
    assert made.find(fact("all shelf Q")) == ()
    assert codes(made) == ["bins.group_unknown"]


def test_known_says_nothing():
    made = mentions(("A1", ""))
    assert made.known("a1") == ("A1",)
    assert made.known("Tom") == ()
    assert codes(made) == []


def test_unlisted_part_of_several_is_made_and_the_rest_found():
    made = mentions(("A1", ""), ("A2", ""), met=["A1 + Z9"])
    assert list(made.bins) == ["A1", "A2", "Z9"]
    assert made.find(fact("A1 + Z9")) == ("A1", "Z9")


def test_free_text_with_a_stroke_is_one_bin():
    made = mentions(("A1", ""), met=["moss / leaf tub"])
    assert list(made.bins) == ["A1", "moss / leaf tub"]
    assert made.find(fact("moss / leaf tub")) == ("moss / leaf tub",)


def test_text_that_could_mean_two_listed_bins_makes_no_third():
    made = mentions(("B7", ""), ("B07", ""), met=["b-7"])
    assert list(made.bins) == ["B7", "B07"]
