"""Know a report of ours from other workbooks, so that nothing else is ever written over or read as a log."""

from __future__ import annotations

import zipfile
from pathlib import Path

from defusedxml.ElementTree import fromstring

TITLE = "frassbook report"
"""How the title in the properties of every report begins."""
_TITLE_TAG = "{http://purl.org/dc/elements/1.1/}title"


def is_own_report(path: Path) -> bool:
    """Whether a file is a report written by this program, by the title in its properties."""
    try:
        with zipfile.ZipFile(path) as parts:
            title = fromstring(parts.read("docProps/core.xml")).findtext(_TITLE_TAG)
    except (OSError, KeyError, ValueError, zipfile.BadZipFile, SyntaxError):
        return False
    return (title or "").startswith(TITLE)
