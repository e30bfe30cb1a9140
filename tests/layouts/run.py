"""Write known logs in many layouts, read them back, and print what became of every fact.

python tests/layouts/run.py --seed 1 --books 500 [--part seen|kept|both] [--show wrong|named]
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))

from layouts.compare import Outcome, compare
from layouts.pool import Part
from layouts.workbooks import LAYOUTS, make

Job = tuple[int, str, Part, float]


def one(job: Job) -> Outcome:
    """Make and read one workbook."""
    return compare(make(*job))


def outcomes(
    seed: int, books: int, part: Part = "all", strange: float = 0.0, workers: int = 2
) -> list[tuple[int, str, Outcome]]:
    """Make and read so many workbooks, the layouts in turn."""
    jobs: list[Job] = [(seed + at, LAYOUTS[at % len(LAYOUTS)], part, strange) for at in range(books)]
    with ProcessPoolExecutor(workers) as pool:
        found = list(pool.map(one, jobs, chunksize=10))
    return [(number, layout, outcome) for (number, layout, *_), outcome in zip(jobs, found, strict=True)]


def table(found: list[tuple[int, str, Outcome]]) -> str:
    """The shares by layout, as text."""
    lines = [f"{'':24}{'books':>6}{'facts':>7}{'recovered':>11}{'named':>8}{'silently wrong':>16}"]
    for layout in (*LAYOUTS, "all"):
        own = [outcome.counts for _, name, outcome in found if layout in (name, "all")]
        lines.append(_line(layout, len(own), sum(own, Counter())))
    return "\n".join(lines)


def _line(name: str, books: int, counts: Counter[str]) -> str:
    total = counts["recovered"] + counts["named"] + counts["wrong"]
    shares = [counts[kind] / total if total else 0.0 for kind in ("recovered", "named")]
    return f"{name:24}{books:6}{total:7}{shares[0]:11.2%}{shares[1]:8.2%}{counts['wrong']:16}"


def main() -> None:
    """Print the table, and what was silently wrong or named where that is asked for."""
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0] if __doc__ else "")
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--books", type=int, default=500)
    asked.add_argument("--part", choices=("seen", "kept", "all"), default="all")
    asked.add_argument("--strange", type=float, default=0.0, help="share of headings and words that are made up")
    asked.add_argument("--show", choices=("wrong", "named"))
    asked.add_argument("--workers", type=int, default=2)
    own = asked.parse_args()
    found = outcomes(own.seed, own.books, own.part, own.strange, own.workers)
    sys.stdout.write(table(found) + "\n")
    for number, layout, outcome in found:
        for told in getattr(outcome, own.show) if own.show else ():
            sys.stdout.write(f"{number} {layout} | {told}\n")


if __name__ == "__main__":
    main()
