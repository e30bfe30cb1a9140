import pytest

from workbook_tools.defaults import DEFAULTS
from workbook_tools.defaults.animals import ANIMALS
from workbook_tools.defaults.care import CARE
from workbook_tools.defaults.reading import READING
from workbook_tools.defaults.stocks import STOCKS


def test_no_number_is_given_twice():
    assert len(DEFAULTS) == sum(map(len, (CARE, STOCKS, ANIMALS, READING)))


@pytest.mark.parametrize("key", DEFAULTS)
def test_a_default_lies_in_its_range_and_names_its_source(key):
    default = DEFAULTS[key]

    assert default.low <= default.value <= default.high
    assert default.unit and default.source and default.says.endswith(".")
