"""Probably counting: answers to sums take longer, the more there is to count on.

Who counts on from the larger number needs about 0.4 s a step at six (Groen & Parkman 1972: 0.4 s a unit of
the smaller addend in first-graders, 0.02 s in adults; from memory). Told from two groups of sums: those where
there is least to count, and those where there is most. Sums are timed to the first key, so that typing does
not matter. Never from products: they are not counted one by one.
"""

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import islice

from review.core import marking
from review.core.answer_bodies import event_answer
from review.core.findings import Counting
from review.core.model import Answer, Event

FEW, MANY = frozenset({(2, 9), (3, 9), (3, 8)}), range(6, 9)
"""The chosen sums (design lab): nearly as large, with little to count; and smaller addends with much.
Doubles are left out: they are known first."""
LEAST, MOST = 40, 64  # answers of both groups; below, chance decides (design lab)
LEAST_OF_ONE = 12  # of a group, else its mean says little (our judgement)
A_STEP = 0.25  # seconds a unit from which it is told (published in part: between recalling and counting)
SURELY = 1.64  # standard errors over half a step: one in twenty falls beyond by chance
TRIMMED = 10  # one in ten of a group's times is left out at either end: a child looks away
SUM = re.compile(r"sum:(\d+)\+(\d+)", re.ASCII)
LARGEST = 10

Timed = tuple[int, float]  # smaller addend, seconds to the first key


def counting(told: Iterable[Event]) -> Counting | None:
    """Whether one child's answers look counted; `told`: events of any kind, as they count and in order."""
    asked = [event for event in told if event.card.startswith("sum:") and chosen(event.card)]
    answers = ((event.day, event_answer(event)) for event in reversed(asked))
    newest = ((day, found) for day, answer in answers if (found := timed_sum(answer)) is not None)
    timed = [*islice(newest, MOST)][::-1]
    fitted = slope([found for _, found in timed])
    return Counting(*fitted, timed[-1][0]) if fitted else None


def timed_sum(answer: Answer) -> Timed | None:
    """A chosen sum, right at once, alone, with a time that can be believed, and not in a gentle warm-up: of a
    hard day nothing is told."""
    small = chosen(answer.card)
    own = answer.role == "ask" and answer.showing == 0 and not answer.help and not answer.slipped
    if not small or not own or answer.sitting == "gentle" or not marking.is_right(answer):
        return None
    clocked = (
        answer.taken == "typed" and answer.first_ms and marking.is_believable(answer.first_ms, answer.end_ms)
    )
    return (small, answer.first_ms / 1000) if clocked else None


@lru_cache(maxsize=1024)  # there are a hundred sums or so, each asked many times
def chosen(card: str) -> int:
    """The smaller addend of a chosen sum; 0 for any other card."""
    found = SUM.fullmatch(card)
    small, large = sorted((int(found[1]), int(found[2]))) if found else (0, 0)
    return small if (small, large) in FEW or (small in MANY and small < large <= LARGEST) else 0


def slope(timed: Sequence[Timed]) -> tuple[float, int, float, float] | None:
    """(seconds a unit, answers, means of the two groups), where there are enough and they surely rise."""
    few, many = ([one for one in timed if (one[0] in MANY) is which] for which in (False, True))
    if len(timed) < LEAST or min(len(few), len(many)) < LEAST_OF_ONE:
        return None
    from statistics import fmean, variance  # 3 ms that most children never need

    steps = fmean(small for small, _ in many) - fmean(small for small, _ in few)
    quick, long = _trimmed(few), _trimmed(many)
    step = (fmean(long) - fmean(quick)) / steps
    error = (variance(quick) / len(quick) + variance(long) / len(long)) ** 0.5 / steps
    told = step >= A_STEP and step - SURELY * error >= A_STEP / 2
    return (step, len(timed), fmean(quick), fmean(long)) if told else None


def _trimmed(timed: Sequence[Timed]) -> list[float]:
    times = sorted(seconds for _, seconds in timed)
    cut = len(times) // TRIMMED
    return times[cut : len(times) - cut]
