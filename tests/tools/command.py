"""The command run in this process, and the digest of a file that it must leave alone."""

from __future__ import annotations

import hashlib
from pathlib import Path

from click.testing import CliRunner

from workbook_tools.cli import cli


def run(*args: object) -> tuple[int, str]:
    result = CliRunner().invoke(cli, [str(arg) for arg in args])
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result.exit_code, result.output


def digest(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()
