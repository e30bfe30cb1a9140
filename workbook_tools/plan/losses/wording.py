"""Numbers of the dead in words: what was found, what is usual, how likely it is by luck."""

from __future__ import annotations

import math

from workbook_tools.plan.wording import Wording


def dead(number: float, wording: Wording) -> str:
    """Say how many: 1 dead, 16 dead, 2.5 dead (a find shared out over bins)."""
    return f"{wording.number(number, 1)} dead"


def usual(expected: float, wording: Wording) -> str:
    """Say what is usual, with its verb: fewer than 1 is, about 2 are."""
    if expected < 0.95:
        return "fewer than 1 is"
    about = wording.number(expected, 1 if expected < 10 else 0)
    return f"about {about} {'is' if about == '1' else 'are'}"


def one_in(chance: float, wording: Wording) -> str:
    """Say a small chance roughly: 1 in 40; 1 in 700; less than 1 in 10,000."""
    if chance >= 0.5:
        return "1 in 2 or more"
    if chance < 1e-4:
        return f"less than 1 in {wording.number(10000)}"
    times = 1 / chance
    step = 10 ** max(math.floor(math.log10(times)) - (0 if times >= 20 else 1), 0)
    return f"1 in {wording.number(round(times / step) * step)}"
