"""Every number that isn't taken from the workbook: value, unit, range and source.

A keeper's own setting overrides a default, and the report shows which was used. ``source`` is a key of
``docs/sources.md``; ``practice`` means common practice, no source, and ``judgement`` a choice of this project.
"""

from workbook_tools.defaults.animals import ANIMALS
from workbook_tools.defaults.care import CARE
from workbook_tools.defaults.default import Default
from workbook_tools.defaults.reading import READING
from workbook_tools.defaults.stocks import STOCKS

__all__ = ["DEFAULTS", "Default"]

DEFAULTS: dict[str, Default] = {**CARE, **STOCKS, **ANIMALS, **READING}
