import pytest

from workbook_tools.plan.losses.wording import dead, one_in, usual
from workbook_tools.plan.wording import Wording

WORDING = Wording("en-GB")


@pytest.mark.parametrize(
    ("chance", "said"),
    [
        (0.9, "1 in 2 or more"),
        (0.3, "1 in 3"),
        (0.047, "1 in 20"),
        (0.013, "1 in 80"),
        (0.0014, "1 in 700"),
        (0.00031, "1 in 3,000"),
        (2e-9, "less than 1 in 10,000"),
    ],
)
def test_a_chance_is_said_roughly(chance, said):
    assert one_in(chance, WORDING) == said


@pytest.mark.parametrize(
    ("expected", "said"),
    [(0.2, "fewer than 1 is"), (1.0, "about 1 is"), (2.4, "about 2.4 are"), (17.3, "about 17 are")],
)
def test_what_is_usual(expected, said):
    assert usual(expected, WORDING) == said


def test_the_dead():
    assert dead(16, WORDING) == "16 dead"
    assert dead(1.5, WORDING) == "1.5 dead"
