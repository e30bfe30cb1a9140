"""One bin of the demo, its numbers worked out by hand beside the program's; methods.md calls this through cog."""

from __future__ import annotations

import datetime as dt
import math
import textwrap
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from workbook_tools import pipeline
from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._eaten import HUNGER
from workbook_tools.estimate.eating import CRUMBS, GONE_FROM
from workbook_tools.estimate.litter import LITTER, Litter
from workbook_tools.estimate.substrate import SUBSTRATE, Substrate
from workbook_tools.ledger.records import Ledger
from workbook_tools.ledger.series.food import KINDS
from workbook_tools.ledger.series.litter import litter_series
from workbook_tools.ledger.series.moss import moss_series
from workbook_tools.ledger.series.substrate import substrate_series
from workbook_tools.plan.estimates import estimate_all, numbers_and_eating
from workbook_tools.plan.learned import moss as moss_part
from workbook_tools.plan.learned.food import Fed
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.leaf import litter_of
from workbook_tools.plan.learned.numbers import EIGHTY, METHOD, Numbers
from workbook_tools.plan.learned.records import Estimates
from workbook_tools.plan.learned.substrate import substrate_of

BIN = "D04"
ON = dt.date(2026, 11, 25)
DEMO = Path(__file__).parents[1] / "demo" / "cellar-bins.xlsx"
INTRO = {
    "Numbers": (
        "Each count is divided by the share that its way of counting sees: {count}. With the counts before it and the "
        "growth since, the filter gives a middle, and how far off its logarithm may be; growth likewise. {eaten}"
    ),
    "Moss corner": (
        "The first number is the mean of ln(days), after every look and leaning on like bins; the divisor is by how "
        "much the air of the last week was thirstier than an ordinary room's. Under the root stand how far off the "
        "mean may be and how much single waterings scatter."
    ),
    "Food": (
        "The same for ln(grams a day) of a hundred animals, with what moves all bins just now; the factor takes it to "
        "today's number. A fifth of a normal "
        f"lies {0.8416:g} standard deviations or more below its middle. A portion counts as gone at 95 % eaten; the "
        "last of it is found slowly, so that this takes longer than a steady eater would: the last divisor."
    ),
    "Leaf litter": (
        "The rate is the middle one, in settled litres a day for a hundred animals. The sum for the days adds up what "
        "is eaten, which falls off as litter gets scarce, and what rots. It takes the middle rate only; the program "
        "does it for every rate and takes the middle of the days."
    ),
    "Substrate": (
        "The rate is the middle one, in shares a day; what is eaten counts microbes too. Again the program does it for "
        "every rate."
    ),
}
ONE_FIFTH = 0.8416
"""Standard deviations below the middle of a normal under which a fifth of it lies."""


@dataclass(frozen=True)
class Step:
    """One number: what it is, the sum by hand, its result and the program's; ``within`` is how near, in parts."""

    what: str
    sum: str
    by_hand: float
    program: float
    within: float


def read() -> tuple[Ledger, Estimates]:
    """Read the demo and learn from it."""
    ledger = pipeline.read(DEMO, ON).ledger
    return ledger, estimate_all(ledger, ON, history=False)


def steps(ledger: Ledger, estimates: Estimates) -> dict[str, list[Step]]:
    """Every step, under the name of its estimate."""
    frame = Frame.of(ledger, ON)
    place = [bin.name for bin in frame.bins].index(BIN)
    numbers, fed = numbers_and_eating(frame)
    return {
        "Numbers": _numbers(estimates, numbers, place),
        "Moss corner": _moss(frame, estimates, place),
        "Food": _food(estimates, fed, place),
        "Leaf litter": _leaf(frame, estimates, numbers, place),
        "Substrate": _substrate(frame, estimates, numbers, place),
    }


def text(found: dict[str, list[Step]], estimates: Estimates) -> str:
    """The steps as a page shows them."""
    blocks = []
    for name, own in found.items():
        rows = [f"| {s.what} | {s.sum} = {_shown(s.by_hand)} | {_shown(s.program)} |" for s in own]
        intro = "\n".join(textwrap.wrap(INTRO[name].format(count=_count(estimates), eaten=_eaten(estimates)), 120))
        blocks.append("\n".join([f"### {name}", "", intro, "", "| What | By hand | Program |", "|---|---|---|", *rows]))
    return "\n\n".join(blocks)


def _count(estimates: Estimates) -> str:
    known = estimates.numbers[BIN]
    if known.last_count is None:
        return "this bin has none"
    share = DEFAULTS[f"seen.{METHOD[known.last_method]}"].value
    return (
        f"the last, {known.last_count:g} ({known.last_method}), stands for {known.last_count:g} ÷ {share:g} = "
        + _shown(known.last_count / share)
    )


def _eaten(estimates: Estimates) -> str:
    if not estimates.numbers[BIN].by_eating:
        return "Of what it eats nothing is known."
    return "What it eats, beside its like, was taken as one more count, with a large error."


def _shown(value: float) -> str:
    return f"{_r(value):,.10g}"


def _r(value: float, digits: int = 3) -> float:
    """A number to so many digits, as it is quoted and reckoned with from there on."""
    return float(f"{value:.{digits}g}")


def _numbers(estimates: Estimates, numbers: Numbers, place: int) -> list[Step]:
    known = estimates.numbers[BIN]
    population = numbers.population
    middle, spread = _r(float(np.exp(population.log_mean[place, -1]))), _r(float(population.log_sd[place, -1]))
    mean, growth_sd = (float(part[place]) for part in population.growth)
    g, gs = _r(mean, 2), _r(growth_sd, 2)
    return [
        Step(
            "lower end of today's number",
            f"{middle:g} × e^(−{EIGHTY:.4g} × {spread:g})",
            middle * math.exp(-EIGHTY * spread),
            known.now.low,
            0.02,
        ),
        Step(
            "upper end",
            f"{middle:g} × e^({EIGHTY:.4g} × {spread:g})",
            middle * math.exp(EIGHTY * spread),
            known.now.high,
            0.02,
        ),
        Step(
            "growth a month, in percent", f"100 × (e^({g:g}) − 1)", 100 * math.expm1(g), 100 * known.growth.middle, 0.1
        ),
        Step(
            "its upper end",
            f"100 × (e^({g:g} + {EIGHTY:.4g} × {gs:g}) − 1)",
            100 * math.expm1(g + EIGHTY * gs),
            100 * known.growth.high,
            0.1,
        ),
    ]


def _moss(frame: Frame, estimates: Estimates, place: int) -> list[Step]:
    known = estimates.moss[BIN]
    series = moss_series(frame.ledger, ON)
    drying = moss_part.drying_of(frame, series, moss_part._air(frame, series)[0])
    rates = drying.rates
    mean, sd = _r(float(rates.mean_log[place])), _r(float(rates.sd_log[place]))
    sigma, pace = _r(rates.sigma), _r(float(drying.pace[place]))
    wide = f"√({sd:g}² + {sigma:g}²)"
    reach = EIGHTY * math.hypot(sd, sigma)
    found = [
        Step("days to dry", f"e^({mean:g}) ÷ {pace:g}", math.exp(mean) / pace, known.days.middle, 0.03),
        Step(
            "lower end",
            f"e^({mean:g} − {EIGHTY:.4g} × {wide}) ÷ {pace:g}",
            math.exp(mean - reach) / pace,
            known.days.low,
            0.04,
        ),
        Step(
            "upper end",
            f"e^({mean:g} + {EIGHTY:.4g} × {wide}) ÷ {pace:g}",
            math.exp(mean + reach) / pace,
            known.days.high,
            0.04,
        ),
    ]
    gaps = series.gaps(place, frame.today)[-3:]
    if known.simple is not None:
        listed = " + ".join(f"{gap:g}" for gap in gaps)
        found.append(Step("simple reckoning", f"({listed}) ÷ 3", float(np.mean(gaps)), known.simple, 0.01))
    return found


def _food(estimates: Estimates, fed: Fed, place: int) -> list[Step]:
    found = []
    for known in estimates.food[BIN]:
        eating = fed.eating[KINDS.index(known.kind)]
        mean, sd = _r(float(eating.rates.mean_log[place])), _r(float(eating.rates.sd_log[place]))
        sigma, scale = _r(eating.rates.sigma), _r(float(eating.scale[place]))
        wide, root = math.hypot(sd, sigma), f"√({sd:g}² + {sigma:g}²)"
        left = _r(1 - GONE_FROM)
        food = f"{known.kind} food"
        found += [
            Step(f"{food}: grams a day", f"e^({mean:g}) × {scale:g}", math.exp(mean) * scale, known.a_day.middle, 0.06),
            Step(
                f"{food}: portion gone by next day 4 times in 5",
                f"e^({mean:g} − {ONE_FIFTH:g} × {root}) × {scale:g} ÷ ((1 − {left:g}^{CRUMBS:g}) ÷ {CRUMBS:g})",
                math.exp(mean - ONE_FIFTH * wide) * scale / ((1 - left**CRUMBS) / CRUMBS),
                known.wanted,
                0.06,
            ),
        ]
    return found


def _leaf(frame: Frame, estimates: Estimates, numbers: Numbers, place: int) -> list[Step]:
    known = estimates.leaf[BIN]
    series = litter_series(frame.ledger, ON)
    litter, _ = litter_of(frame, series, numbers)
    rate = _r(float(litter.supply.rate_quantiles()[1, place]))
    animals = _r(float(numbers.now[place]), 2)
    exposure = _r((animals / 100) ** LITTER.power)
    week = known.a_week.middle
    layer = float(litter.full[place])
    days, litres = series.given(place)
    found = [
        Step(
            "what they eat, of a hundred animals' share",
            f"({animals:g} ÷ 100)^{LITTER.power:g}",
            (animals / 100) ** LITTER.power,
            float(litter.supply.outlook.exposure.until(7)[0][place, 0]) / 7,
            0.05,
        ),
        Step(
            "litres a week, loose",
            f"7 × {rate:g} × {exposure:g} ÷ {LITTER.settles:g}",
            7 * rate * exposure / LITTER.settles,
            week,
            0.06,
        ),
        Step("grams a week", f"{_r(week):g} × 20", _r(week) * 20, known.grams_a_week.middle, 0.01),
    ]
    if known.runs_out.middle is not None and known.runs_out.middle > ON:
        days_left = (known.runs_out.middle - ON).days
        stock, eats, limit, half = _stock(litter, place, days_left, LITTER.out * layer, LITTER.scarce * layer)
        used = _r(HUNGER * rate * eats)
        rot = _r(LITTER.rot)
        by_hand = half * math.log(stock / limit)
        by_hand += used * math.log1p(rot * (stock - limit) / (rot * (limit + half) + used)) / rot
        by_hand /= rot * half + used
        found.append(
            Step(
                "days until it has run out",
                f"({half:g} ln({stock:g} ÷ {limit:g}) + {used:g} ln(1 + {rot:g} × {_r(stock - limit):g} ÷ ({rot:g} × "
                f"{_r(limit + half):g} + {used:g})) ÷ {rot:g}) ÷ ({rot:g} × {half:g} + {used:g})",
                by_hand,
                float(days_left),
                0.15,
            )
        )
    if known.simple is not None:
        listed = " + ".join(f"{x:.3g}" for x in litres[-4:-1])
        span = int(days[-1] - days[-4])
        total = sum(_r(float(x)) for x in litres[-4:-1])
        found.append(Step("simple reckoning", f"7 × ({listed}) ÷ {span}", 7 * total / span, known.simple, 0.01))
    return found


def _substrate(frame: Frame, estimates: Estimates, numbers: Numbers, place: int) -> list[Step]:
    known = estimates.substrate[BIN]
    series = substrate_series(frame.ledger, ON)
    substrate, _ = substrate_of(frame, series, numbers)
    share = _r(known.share.middle)
    part = _r(known.smallest or 1.0)
    renewed = share * (1 - part) + SUBSTRATE.fresh * part
    found = []
    if known.spent.middle is not None and known.spent.middle > ON:
        ahead = (known.spent.middle - ON).days
        rate = _r(float(substrate.supply.rate_quantiles()[1, place]))
        stock, eats, limit, half = _stock(substrate, place, ahead, SUBSTRATE.spent, SUBSTRATE.scarce)
        found.append(
            Step(
                "days until it is spent",
                f"({stock:g} − {limit:g} + {half:g} ln({stock:g} ÷ {limit:g})) ÷ "
                f"((1 + {half:g}) × {rate:g} × {eats:g})",
                (stock - limit + half * math.log(stock / limit)) / ((1 + half) * rate * eats),
                float(ahead),
                0.15,
            )
        )
    found += [
        Step(
            "share if the part to renew is renewed",
            f"{share:g} × (1 − {part:g}) + {SUBSTRATE.fresh:g} × {part:g}",
            renewed,
            known.share.middle * (1 - (known.smallest or 1.0)) + SUBSTRATE.fresh * (known.smallest or 1.0),
            0.01,
        ),
    ]
    if known.simple is not None:
        own = series.seen_bin == place
        seen = int(series.seen_day[own][-1])
        found_share = _r(float(series.low[own][-1] + series.high[own][-1]) / 2)
        renewals = series.day[(series.bin == place) & (series.day < seen)]
        started = frame.bins[place].started
        reset = int(renewals[-1]) if renewals.size else started.middle.toordinal() if started else seen
        days = seen - reset
        found.append(
            Step(
                "days from the last renewal to spent, by a straight line",
                f"{days} × ({SUBSTRATE.fresh:g} − {SUBSTRATE.spent:g}) ÷ ({SUBSTRATE.fresh:g} − {found_share:g})",
                days * (SUBSTRATE.fresh - SUBSTRATE.spent) / (SUBSTRATE.fresh - found_share),
                float(known.simple.toordinal() - reset),
                0.01,
            )
        )
    return found


def _stock(known: Litter | Substrate, place: int, days: int, limit: float, half: float) -> tuple[float, ...]:
    """What is there, what is eaten until then on average, against a hundred animals; where it ends; what is scarce."""
    outlook = known.supply.outlook
    eats = float(outlook.exposure.until(days)[0][place, 0]) / days
    return _r(float((outlook.stock.weight * outlook.stock.mean)[place].sum())), _r(eats), _r(limit), _r(half)


def page() -> str:
    """All that the page shows."""
    ledger, estimates = read()
    return text(steps(ledger, estimates), estimates)
