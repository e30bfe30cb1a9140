"""What to do next with old substrate that is sifted or trapped, and why.

What is left is told as a likely lower bound and never as a clearance. Old substrate is called probably empty only when
a trap that has caught something then stayed empty often enough and long enough; silence alone never does it.
"""

from __future__ import annotations

import enum
import math
from collections.abc import Sequence
from dataclasses import dataclass

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.depletion import leslie
from workbook_tools.estimate.removal import carle_strub
from workbook_tools.estimate.sifting import Left

CLASSIC = 20_000
"""Above so many found the classic number isn't worked out for comparison."""
UNLIKE = 1.5
"""Passes whose minutes differ by this factor or more are called unlike."""
BOUND = (
    "Take that as a likely lower bound: tiny young and animals in moult or out of reach come on top. What is left "
    "behind is your decision."
)
UNKNOWN = "Tiny young and animals in moult or out of reach may be in it as well. What is left behind is your decision."
"""Where no number was given, that could be a bound."""
CHOOSE = (
    "Choose: another pass by hand, or freeze the lot now and accept what may be left. That is your decision, after "
    "what your permit and the law ask."
)


class Next(enum.Enum):
    """What to do next."""

    PASS = "another pass by hand"
    TRAP = "move to the straggler corner and trap"
    KEEP = "keep trapping"
    DECIDE = "yours to decide"


@dataclass(frozen=True, slots=True)
class Advice:
    """What to do next, in whole sentences.

    ``found`` says what was found and is left, ``say`` what to do, ``reason`` why, ``bound`` what the number leaves out.
    ``more_checks`` are the empty checks in a row still wanted, None when none are or nobody can say.
    """

    act: Next
    found: str
    say: str
    reason: str
    bound: str
    more_checks: int | None = None

    @property
    def paragraph(self) -> str:
        """All of it."""
        return " ".join(part for part in (self.found, self.say, self.reason, self.bound) if part)


def probably_empty(left: Left, empty_days: float | None = None) -> bool:
    """Whether old substrate may be called probably empty.

    Parameters
    ----------
    left
        What is left.
    empty_days
        Days from the last find to the last check; None takes a check for a day.
    """
    return (
        left.trap_proven
        and left.depletes
        and left.empty_checks >= DEFAULTS["sifting.empty_checks"].value
        and _days(left, empty_days) >= DEFAULTS["sifting.empty_days"].value
        and left.chance_none >= DEFAULTS["sifting.sure"].value
    )


def advise(
    left: Left, minutes: Sequence[float] = (), empty_days: float | None = None, every: float | None = None
) -> Advice:
    """Say what is left and what to do next.

    Parameters
    ----------
    left
        What is left.
    minutes
        Of each pass by hand; may be empty. Left out unless all are above 0 and finite.
    empty_days
        Days from the last find to the last check of the trap; None takes a check for a day.
    every
        Days from check to check to come; None goes by those since the last find, or takes a day.
    """
    if not all(0 < one < math.inf for one in minutes):
        minutes = ()
    if every is None:
        every = empty_days / left.empty_checks if empty_days and left.empty_checks else 1.0
    found = f"{_found(left)} {_left(left, probably_empty(left, empty_days))}{_unlike(left, minutes)}"
    act, say, reason, more = _next(left, minutes, empty_days, max(every, 1.0))
    return Advice(act, found, say, reason, BOUND if left.depletes or left.low else UNKNOWN, more)


_Said = tuple[Next, str, str, int | None]
"""What to do, that in words, why, and how many more empty checks are wanted."""


def _next(left: Left, minutes: Sequence[float], empty_days: float | None, every: float) -> _Said:
    if left.trap:
        return _trapping(left, empty_days, every)
    worth = DEFAULTS["sifting.worth"].value
    if not left.found:
        say = "Move it to the straggler corner and trap, or stop here: that is your decision."
        return Next.TRAP, say, "Hands that found nothing can't show how well they would find: a trap tells more.", None
    if len(left.passes) >= DEFAULTS["sifting.passes"].value:
        return _to_trap(f"What {len(left.passes)} passes didn't find, hands find badly.")
    if not left.depletes:
        say = "Sort through it once more, as thoroughly as before."
        return Next.PASS, say, "How many are left shows only in how finds fall from pass to pass.", None
    if left.next_pass >= worth:
        reason = f"That pass should find about {_about(left.next_pass)}{_cost(left, minutes)}."
        return Next.PASS, "Sort through it once more.", reason, None
    return _to_trap(f"Another pass should find fewer than {worth:g}{_cost(left, minutes)}.")


def _to_trap(reason: str) -> _Said:
    """Advice to leave off sorting."""
    return Next.TRAP, "Move it to the straggler corner and trap what is left.", f"{reason} {_proof()}", None


def _trapping(left: Left, empty_days: float | None, every: float) -> _Said:
    """Advice while a trap stands."""
    if probably_empty(left, empty_days):
        say = "Go on trapping, or freeze it: that is yours to decide, after what your permit and the law ask."
        over = f"{left.empty_checks} times over {_days(left, empty_days):g} days"
        reason = f"The trap has caught animals here, and then stayed empty {over}. Poor traps mislead more often."
        return Next.DECIDE, say, reason, None
    least_checks, least_days = DEFAULTS["sifting.empty_checks"].value, DEFAULTS["sifting.empty_days"].value
    days = max(least_days - _days(left, empty_days), 0)
    if not left.trap_proven:
        return _silent(left, max(int(least_checks) - left.empty_checks, 0), days, _by_hand(left))
    by_hand = _by_hand(left)
    most_checks, most_days = DEFAULTS["sifting.bear_checks"].value, DEFAULTS["sifting.bear_days"].value
    if not left.depletes:
        reason = "Only finds that fall can show how many are left."
        if len(left.trap) >= most_checks or len(left.trap) * every >= most_days:
            return Next.DECIDE, CHOOSE, f"{reason} In {_count(len(left.trap), 'check')} of the trap they didn't.", None
        return Next.KEEP, "Keep trapping.", reason, None
    sure = _percent(DEFAULTS["sifting.sure"].value)
    if left.empty_needed is None:
        reason = f"As finds go so far, not even a year of empty checks would show that none is left.{by_hand}"
        return Next.DECIDE, CHOOSE, reason, None
    more = max(left.empty_needed, int(least_checks) - left.empty_checks, 0)
    whole = max(days, more * every)
    if more > most_checks or whole > most_days:
        row = f"{_count(more, 'more empty check')} in a row"
        row += f" over about {whole:.0f} days" if every > 1 or whole > more else ""
        reason = (
            f"It would take {row} until none is left with a chance of {sure}: longer than most would wait.{by_hand}"
        )
        return Next.DECIDE, CHOOSE, reason, None
    say = (
        f"Keep trapping until {_count(more, 'more check')} in a row {'is' if more == 1 else 'are'} empty"
        + (f", spread over at least {days:g} more day{'' if days == 1 else 's'}" if days > more else "")
        + "."
        if more
        else f"Keep trapping for {days:g} more day{'' if days == 1 else 's'}."
    )
    reason = (
        f"Then none is left with a chance of {sure}, if the trap stays empty."
        if left.empty_needed
        else f"It isn't called probably empty before {least_checks:g} empty checks over {least_days:g} days."
    )
    return Next.KEEP, say, reason + by_hand, more


def _by_hand(left: Left) -> str:
    """What another pass should find, where that is worth it."""
    if not left.depletes or not left.passes or left.next_pass < DEFAULTS["sifting.worth"].value:
        return ""
    return f" Another pass by hand should find about {_about(left.next_pass)}."


def _silent(left: Left, more: int, days: float, by_hand: str) -> _Said:
    """Advice where a trap has never caught anything: so many more checks and days, then the keeper decides."""
    reason = f"The silence of a trap that never caught anything proves little: it may not work here.{by_hand}"
    if not left.found:
        reason = "A trap that never caught anything may not work here."
    if more or days:
        times = _count(more, "more time") if more else f"for {days:g} more day{'' if days == 1 else 's'}"
        say = f"Trap on with fresh bait or in another spot, {times}; whether to stop before that is your decision."
        return Next.KEEP, say, reason, more
    if by_hand:
        return Next.DECIDE, CHOOSE, reason, None
    say = "Stop here, go through it once more by hand, or freeze the lot: that is your decision."
    if not left.found:
        return Next.DECIDE, say, reason, None
    looks = len(left.trap) + next((n for n, found in enumerate(reversed(left.passes)) if found), len(left.passes))
    reason = f"Nothing was found in the last {_count(looks, 'look')}. That proves little: a trap that never caught "
    reason += "anything may not work here."
    return Next.DECIDE, say, reason, None


def _found(left: Left) -> str:
    """What was found, and how."""
    how = [f"in {_count(len(left.passes), 'pass', 'passes')}"] if left.passes else []
    how += [f"in {_count(len(left.trap), 'check')} of the trap"] if left.trap else []
    return f"{left.found or 'None'} found {' and '.join(how)}."


def _left(left: Left, empty: bool) -> str:
    """How many are left, in words that never say that none is."""
    none = f"the chance that none is left is {_percent(left.chance_none)}"
    if empty:
        return f"Probably empty: {none}."
    if not left.depletes:
        are = "is" if left.low == 1 else "are"
        least = f"At least {left.low} more {are} likely in it, and there" if left.low else "There"
        if not left.found:
            looks = _count(len(left.passes) + len(left.trap), "look")
            why = f"nothing was found in {looks}, which proves little, for nothing shows how well animals are found"
        elif len(left.passes) + len(left.trap) == 1:
            why = (
                "one pass can't show how fast finds fall" if left.passes else "one check can't show how fast finds fall"
            )
        else:
            why = "finds don't clearly fall"
        return f"{least} is no upper limit: {why}."
    silent = bool(left.trap) and not left.trap_proven
    if not left.high:
        few = "No more than a straggler is likely in it"
    elif not left.middle:
        few = f"At most {left.high} more {'is' if left.high == 1 else 'are'} likely in it (nine times in ten)"
    else:
        few = f"Probably about {left.middle} more {'is' if left.middle == 1 else 'are'} in it "
        few += f"({left.low} to {left.high}, four times in five{_if_alike(left)})"
    return f"{few}." if silent else f"{few}; {none}."


def _if_alike(left: Left) -> str:
    """What the classic way says, where only hands have searched."""
    if left.trap or left.found > CLASSIC:
        return ""
    alike = round(carle_strub(left.passes).number) - left.found
    return f"; {alike or 'none'} if all were equally easy to find"


def _unlike(left: Left, minutes: Sequence[float]) -> str:
    """A warning where passes took unlike times, with what counting by the minute says."""
    if len(minutes) != len(left.passes) or len(minutes) < 2 or max(minutes) < UNLIKE * min(minutes):
        return ""
    number = leslie(left.passes, minutes).number
    by_minute = (
        f"counted by the minute, about {max(round(number - sum(left.passes)), 0)} were left by hand"
        if number < math.inf
        else "counted by the minute, finds didn't fall"
    )
    return f" The passes took unlike times ({by_minute}), so doubt it more."


def _cost(left: Left, minutes: Sequence[float]) -> str:
    """What a find costs, at the minutes of the last pass."""
    if not len(minutes) or not left.next_pass:
        return ""
    each = minutes[-1] / left.next_pass
    return f", at about {_about(each)} minute{'' if _about(each) == '1' else 's'} a find"


def _proof() -> str:
    """When it is called probably empty."""
    checks, days = DEFAULTS["sifting.empty_checks"].value, DEFAULTS["sifting.empty_days"].value
    return (
        f"It isn't called probably empty until the trap has caught something and then stayed empty at least {checks:g} "
        f"times over {days:g} days; when to stop is your decision."
    )


def _days(left: Left, empty_days: float | None) -> float:
    return left.empty_checks if empty_days is None else empty_days


def _about(value: float) -> str:
    """A rough number: whole from 1, else to one decimal."""
    return f"{value:.0f}" if value >= 0.95 else f"{max(value, 0.1):.1f}"


def _percent(chance: float) -> str:
    """A chance, never said to be nothing or certain."""
    if chance < 0.01 or chance > 0.99:
        return "less than 1 %" if chance < 0.5 else "more than 99 %"
    return f"about {100 * chance:.0f} %"


def _count(number: int, one: str, many: str = "") -> str:
    return f"{number} {one if number == 1 else many or one + 's'}"
