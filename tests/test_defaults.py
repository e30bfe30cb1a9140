import pytest

from workbook_tools.defaults import DEFAULTS


@pytest.mark.parametrize("key", DEFAULTS)
def test_a_default_lies_in_its_range_and_names_its_source(key):
    default = DEFAULTS[key]

    assert default.low <= default.value <= default.high
    assert default.unit and default.source and default.says.endswith(".")
