import pytest

from workbook_tools.intake.moves import from_and_to


@pytest.mark.parametrize("text", ["X1 -> X4", "X1→X4", "X1 > X4", "X1 => X4", "X1 --> X4"])
def test_an_arrow_goes_from_one_bin_to_another(text):
    assert from_and_to(text, (), "") == ("X1", "X4")


@pytest.mark.parametrize(
    ("acts", "did", "ends"),
    [
        (("water",), "water", None),
        ((), "", None),
        (("split",), "split", ("A1", "A3")),
        ((), "moved 5", ("A1", "A3")),
    ],
)
def test_to_between_two_bins_is_a_range_unless_animals_were_moved(acts, did, ends):
    assert from_and_to("A1 to A3", acts, did) == ends


@pytest.mark.parametrize("text", ["A1-A3", "A1, A3", "Rollers", "B1 + B2"])
def test_other_texts_are_no_move(text):
    assert from_and_to(text, ("split",), "split") is None
