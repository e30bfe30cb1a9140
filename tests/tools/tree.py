"""The project's own files, as version control lists them (or, in a copy without it, as they lie there)."""

from __future__ import annotations

import subprocess
from pathlib import Path

ROOT = Path(__file__).parents[2]
MADE = {"build", "dist", "__pycache__", "report.xlsx"}


def tracked() -> list[Path]:
    """Every file of the project, relative to its root."""
    if (ROOT / ".git").exists():
        listed = subprocess.run(
            ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
            cwd=ROOT,
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        return sorted(Path(name) for name in listed.split("\0") if name and (ROOT / name).exists())
    return sorted(
        path.relative_to(ROOT)
        for path in ROOT.rglob("*")
        if path.is_file() and not any(_left_aside(part) for part in path.relative_to(ROOT).parts)
    )


def _left_aside(part: str) -> bool:
    return part in MADE or part.endswith(".egg-info") or (part.startswith(".") and part not in (".ci", ".gitignore"))
