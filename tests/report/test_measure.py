from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.report.measure import HIGHEST_ROW, line_count, row_height, text_width


def test_wide_letters_take_more_room_than_narrow_ones():
    assert text_width("WWW") > text_width("aaa") > text_width("iii") > 0
    assert text_width("虫虫") > text_width("aa")
    assert text_width("aaa", bold=True) > text_width("aaa")


def test_a_digit_is_about_one_unit_wide():
    assert 0.9 < text_width("0") < 1.2


def test_line_breaks_and_long_words_make_lines():
    assert line_count("", 10) == 1
    assert line_count("a\nb\n\nc", 10) == 4
    assert line_count("0" * 95, 10) > 9


@given(st.text(st.characters(codec="utf-8"), max_size=200), st.floats(4, 60), st.floats(1, 3))
def test_a_wider_column_never_needs_more_lines(text, width, times):
    assert line_count(text, width * times) <= line_count(text, width)


@given(st.lists(st.text("abc mW1", min_size=1, max_size=12), max_size=20))
def test_lines_hold_the_text(words):
    text = " ".join(words)
    assert line_count(text, 12) * 12 >= text_width(text.replace(" ", "")) - 1


def test_heights_grow_with_lines_up_to_the_highest():
    assert row_height(1) < row_height(2) < row_height(3)
    assert row_height(1, least=30) == 30
    assert row_height(500) == HIGHEST_ROW
