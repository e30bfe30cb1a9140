"""An export read back as docs/export.md tells its readers to."""

from pathlib import Path

import pandas as pd

from workbook_tools.report.export.tables import HEADINGS


def given_back(text: str) -> str:
    """A text without the apostrophe that keeps it from being run as a formula."""
    bare = text.lstrip("'")
    return text[1:] if text != bare and bare.startswith(tuple("=+-@\t\r\n＝＋－＠")) else text


def tables(folder: Path) -> dict[str, pd.DataFrame]:
    """Every table of a folder, all values as text."""
    return {
        name: pd.read_csv(folder / f"{name}.csv", dtype=str, keep_default_na=False).map(given_back) for name in HEADINGS
    }
