import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.ledger.names import BinNames, alike_key, looks_like_code, means_group, pieces

BINS = (
    ("A01", "Shelf A"),
    ("A02", "Shelf A"),
    ("A3", "Shelf A"),
    ("A04 / A05", "top L"),
    ("B07", "Shelf B"),
    ("B-12", "Shelf B"),
    ("B13", "Shelf B"),
    ("C7", ""),
    ("Fog", "top L"),
    ("Fog #2", "top R"),
    ("D-09 (old)", "D rack"),
    ("X+Y", ""),
    ("C3", ""),
    ("C3b", ""),
)
NAMES = BinNames(BINS)
EVERY = tuple(name for name, _ in BINS)
SHELF_A = ("A01", "A02", "A3")


@pytest.mark.parametrize(
    ("text", "how", "names"),
    [
        ("B07", "exact", ("B07",)),
        ("b-7", "alike", ("B07",)),
        ("B 7", "alike", ("B07",)),
        ("b07", "alike", ("B07",)),
        ("bin B7", "alike", ("B07",)),
        ("B07 (lid cracked)", "alike", ("B07",)),
        ("12", "number", ("B-12",)),
        ("#12", "number", ("B-12",)),
        ("bin 12", "number", ("B-12",)),
        ("“Fog”", "exact", ("Fog",)),
        ("fog 2", "alike", ("Fog #2",)),
        ("D-09", "alike", ("D-09 (old)",)),
        ("X+Y", "exact", ("X+Y",)),
        ("x + y", "alike", ("X+Y",)),
        ("A04 / A05", "exact", ("A04 / A05",)),
        ("a4/a5", "alike", ("A04 / A05",)),
        ("c3", "alike", ("C3",)),
        ("12+13", "several", ("B-12", "B13")),
        ("A1, A2 & A3", "several", SHELF_A),
        ("A1, 2 & 3", "several", SHELF_A),
        ("A01 and B07", "several", ("A01", "B07")),
        ("A04/A05 + B07", "several", ("A04 / A05", "B07")),
        ("C3/C3b", "several", ("C3", "C3b")),
        ("shelf A + B07", "several", (*SHELF_A, "B07")),
        ("A01-A3", "range", SHELF_A),
        ("A01..A03", "range", SHELF_A),
        ("A1–3", "range", SHELF_A),
        ("A1 to A3", "range", SHELF_A),
        ("12-13", "range", ("B-12", "B13")),
        ("all shelf A", "place", SHELF_A),
        ("all A shelf", "place", SHELF_A),
        ("shelf A", "place", SHELF_A),
        ("whole shelf a", "place", SHELF_A),
        ("everything on top L", "place", ("A04 / A05", "Fog")),
        ("top L", "place", ("A04 / A05", "Fog")),
        ("rack D", "place", ("D-09 (old)",)),
        ("all C", "place", ("C7", "C3", "C3b")),
        ("all", "all", EVERY),
        ("All bins", "all", EVERY),
        ("every bin", "all", EVERY),
        ("all but A3", "all", tuple(name for name in EVERY if name != "A3")),
        ("all shelf A except A02", "place", ("A01", "A3")),
    ],
)
def test_what_a_text_means(text, how, names):
    match = NAMES.find(text)
    assert (match.how, match.names, match.rivals, match.missing) == (how, names, (), ())


def test_a_bare_number_that_two_bins_have_is_not_taken():
    match = NAMES.find("7")
    assert (match.how, match.names, match.rivals) == ("none", (), (("B07",), ("C7",)))
    assert NAMES.find("7 + A1").rivals == (("B07",), ("C7",))


def test_names_that_differ_in_spelling_only_are_rivals_unless_written_exactly():
    names = BinNames([("A-1", ""), ("A1", "")])
    assert names.find("A1").names == ("A1",)
    assert names.find("a 01").rivals == (("A-1",), ("A1",))


@pytest.mark.parametrize(("text", "like"), [("Fgo", "Fog"), ("B70", "B07"), ("A01x", "A01")])
def test_a_near_miss_is_suggested_and_never_taken(text, like):
    match = NAMES.find(text)
    assert (match.how, match.names) == ("none", ())
    assert like in match.suggestions


def test_nothing_is_taken_where_a_part_is_no_bin():
    match = NAMES.find("B07 + ZZ")
    assert (match.how, match.names, match.missing) == ("none", (), ("ZZ",))
    assert NAMES.find("A1-99").how == "none"
    assert NAMES.find("all but ZZ").how == "none"
    assert NAMES.find("all shelf Q").how == "none"


def test_numbers_that_stand_apart_stay_apart():
    assert alike_key("A1-2") != alike_key("A12")
    names = BinNames([("A1-2", ""), ("A12", "")])
    assert names.find("a12").names == ("A12",)
    assert names.find("a1 2").names == ("A1-2",)


def test_guesses_say_so():
    assert NAMES.find("12").guessed
    assert NAMES.find("12+13").guessed
    assert NAMES.find("all C").guessed
    assert not NAMES.find("b7").guessed
    assert not NAMES.find("all shelf A").guessed


def test_no_bins_at_all():
    assert BinNames([]).find("all").how == "none"
    assert BinNames([]).find("B07").missing == ("B07",)
    assert NAMES.find("").how == "none"


@pytest.mark.parametrize(
    ("name", "parts"),
    [
        ("A04 / A05", ("A04", "A05")),
        ("12+13", ("12", "13")),
        ("A1, A2 & A3", ("A1", "A2", "A3")),
        ("A1/2", ("A1/2",)),
        ("Fog #2", ("Fog #2",)),
        ("bin under stairs", ("bin under stairs",)),
        ("moss + leaf", ("moss + leaf",)),
        ("A1", ("A1",)),
        ("A1|A2", ("A1", "A2")),
        ("A1\nA2", ("A1", "A2")),
        ("B3 und B4", ("B3", "B4")),
    ],
)
def test_pieces_are_split_only_for_codes_of_one_pattern(name, parts):
    assert pieces(name) == parts


@pytest.mark.parametrize(
    "text", ["all", "the lot", "*", "all but A1", "shelf Q", "Rack 2", "everybody", "ganze Etagere"]
)
def test_a_shelf_or_all_bins_are_a_group(text):
    assert means_group(text)


@pytest.mark.parametrize("text", ["A1", "Row 3", "Level 2", "small tub", "Fog", ""])
def test_a_name_of_one_bin_is_no_group(text):
    assert not means_group(text)


@pytest.mark.parametrize(
    ("text", "code"), [("A1", True), (" b-07 ", True), ("12", True), ("Fog", False), ("A1+A2", False)]
)
def test_what_looks_like_a_code(text, code):
    assert looks_like_code(text) is code


CODES = st.from_regex(r"[A-Z]{1,2}[0-9]{1,3}", fullmatch=True)


@given(st.lists(CODES, min_size=1, max_size=15, unique_by=alike_key), st.randoms(use_true_random=False))
def test_every_name_is_found_however_it_is_spelt(codes, random):
    names = BinNames((code, "") for code in codes)
    code = random.choice(codes)
    letters = code.rstrip("0123456789")
    number = code[len(letters) :]
    for text in (code, code.lower(), f"{letters}-{number}", f"{letters} {number}", f"{letters}0{number}", f'"{code}"'):
        assert names.find(text).names == (code,)
    assert names.find(" + ".join(codes)).names == tuple(codes)


@given(st.text(max_size=20))
def test_no_text_ends_in_an_exception(text):
    match = NAMES.find(text)
    assert set(match.names) <= set(EVERY)
    assert (match.how == "none") == (not match.names)


def test_many_look_ups_are_quick():
    names = BinNames((f"B{i:04}", f"Shelf {i % 20}") for i in range(500))
    start = time.perf_counter()
    for i in range(50_000):
        names.find(f"b{i % 500}")
    assert time.perf_counter() - start < 2
