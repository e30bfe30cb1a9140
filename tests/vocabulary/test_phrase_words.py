"""Words of phrases: each wording has one kind, and the forms of a verb are kept apart."""

from collections import Counter
from importlib.resources import files

from workbook_tools.vocabulary.phrase_words import FILES, LINKS, NUMBERS, longest, phrase_words


def _listed():
    for name in FILES:
        text = files("workbook_tools.vocabulary").joinpath("words", f"{name}.txt").read_text(encoding="utf-8")
        for line in text.splitlines():
            if line and not line.startswith("["):
                yield from (word.strip() for word in line.split(";") if word.strip())


def test_no_wording_has_two_kinds():
    assert [word for word, times in Counter(_listed()).items() if times > 1] == []


def test_wordings_stand_in_lower_case_as_they_are_looked_up():
    assert [word for word in _listed() if word != word.lower() or "  " in word] == []


def test_what_was_done_and_what_is_to_be_done_are_told_apart():
    words = phrase_words()

    assert (words["watered"], words["moisten"], words["moistened"]) == ("did water", "do water", "did water")
    assert (words["fed"], words["feed"]) == ("did feed", "food")


def test_every_line_belongs_to_a_kind():
    assert "" not in phrase_words().values()


def test_the_longest_wording_has_as_many_words_as_is_said():
    assert longest() == max(len(word.split()) for word in phrase_words()) >= 4


def test_links_are_no_numbers():
    assert not LINKS & NUMBERS.keys()
