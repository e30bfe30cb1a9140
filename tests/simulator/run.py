"""Score the estimates on simulated keepers.

``python tests/simulator/run.py --seeds 300-303 --world mis --density dense``

One table of all quantities is printed, over the keepers asked for and by keeper and day.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1]))

from simulator.keeper import Diary, Keeper
from simulator.score import Forecast, Score, table
from simulator.truths import play_on
from simulator.world import World, make_world

Engine = Callable[[World, Diary, int], Forecast]
DAYS = {"dense": 730, "sparse": 185}
FORECASTS = {"dense": tuple(range(120, 730, 75)), "sparse": (30, 60, 90, 120, 150, 180)}


def keep(seed: int, *, wrong: bool, density: str, bins: int = 60, days: int = 0) -> tuple[World, Diary]:
    """One keeper and the log kept, how things stood on every forecast day included."""
    world = make_world(seed, bins=bins, days=days or DAYS[density], wrong=wrong)
    keeper = Keeper(world, density == "dense", np.random.default_rng((seed, 9)))
    return world, keeper.live(tuple(day for day in FORECASTS[density] if day < world.days))


def judge(seed: int, engine: Engine, *, wrong: bool, density: str, bins: int = 60, days: int = 0) -> Score:
    """The score of an engine on one keeper."""
    world, diary = keep(seed, wrong=wrong, density=density, bins=bins, days=days)
    score = Score()
    for day, stood in diary.stood.items():
        score.add(seed, world, diary, play_on(world, stood, day, diary.fill), engine(world, diary, day))
    return score


def _seeds(text: str) -> list[int]:
    first, _, last = text.partition("-")
    return list(range(int(first), int(last or first) + 1))


def main() -> None:
    """Read the command, score, print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=_seeds, default="0-1", help="a seed or a range, 300-303")
    parser.add_argument("--world", choices=("well", "mis"), default="well")
    parser.add_argument("--density", choices=("dense", "sparse"), default="dense")
    parser.add_argument("--bins", type=int, default=60)
    parser.add_argument(
        "--given",
        choices=("log", "numbers", "future"),
        default="log",
        help="what litter and substrate are told: the log alone, the true numbers so far too, or those to come as well",
    )
    parser.add_argument("--workers", type=int, default=2)
    asked = parser.parse_args()
    from simulator.engine import forecast

    begun = time.perf_counter()
    engine = partial(forecast, given=asked.given)
    one = partial(judge, engine=engine, wrong=asked.world == "mis", density=asked.density, bins=asked.bins)
    total = Score()
    with ProcessPoolExecutor(asked.workers) as pool:
        for score in pool.map(one, asked.seeds):
            total.join(score)
    print(f"{asked.world}, {asked.density}, seeds {asked.seeds[0]}-{asked.seeds[-1]}, {asked.bins} bins a keeper")
    print(table(total))
    print(f"{time.perf_counter() - begun:.0f} s", file=sys.stderr)


if __name__ == "__main__":
    main()
