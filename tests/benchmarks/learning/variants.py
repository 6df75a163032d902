"""Our own rule, variants of it, and what knows more than a program can. To try one, add a row: a name, and
what makes a Practice of a setup."""

from typing import Any

from review.core.model import Settings
from review.core.practice import Practice
from tests.benchmarks.learning import seldom, trials, worked_out
from tests.benchmarks.learning.accounts import Growth, with_partners
from tests.benchmarks.learning.children import AGE
from tests.benchmarks.learning.knowing import Believing, Knowing
from tests.benchmarks.learning.seated import Seated
from tests.benchmarks.learning.strategies import Make, Setup, Strategy
from tests.benchmarks.learning.trials import LookAhead, LookAtSlips, LookFar, ShowFirst


def settings(setup: Setup, **changed: Any) -> Settings:
    """A child whose parent said yes to time for every skill whose aim is fluency."""
    timed = frozenset(card.skill for card in setup.course.cards if card.aim == "fluency")
    return Settings(AGE, timed=timed)._replace(**changed)


def practice(setup: Setup, kind: type[Practice] = Practice, **changed: Any) -> Practice:
    return kind(
        setup.course.cards, setup.minutes, setup.seed, settings(setup, **changed),
        traits=setup.course.traits.__getitem__,
    )  # fmt: skip


def seated(setup: Setup, **changed: Any) -> Strategy:
    return Seated(practice(setup, **changed), setup.pupil, setup.seed)


VARIANTS: dict[str, Make] = {
    "review": practice,
    "review:sitting": seated,
    "review:untimed": lambda setup: practice(setup, untimed=True),
    "review:pace5": lambda setup: practice(setup, pace=5),
    "review:pace8": lambda setup: practice(setup, pace=8),
    "review:target90": lambda setup: practice(setup, target=0.90),
    "review:target80": lambda setup: practice(setup, target=0.80),
    "review:cap45": lambda setup: practice(setup, cap=45),
    "review:show": lambda setup: ShowFirst(practice(setup), setup, rated=False),
    "review:show-rated": lambda setup: ShowFirst(practice(setup), setup, rated=True),
    "review:ahead": lambda setup: practice(setup, LookAhead),
    "review:ahead120": lambda setup: practice(setup, LookFar),
    "review:one-look": lambda setup: practice(setup, trials.OneLook),
    "review:products": lambda setup: practice(setup, trials.ManyProducts),
    "review:soft": lambda setup: practice(setup, trials.SoftProducts),
    "review:cap21": lambda setup: practice(setup, cap=21),
    "review:target87": lambda setup: practice(setup, target=0.87),
    "review:nearly": lambda setup: practice(setup, trials.NearlyFirm),
    "review:nearly-back": lambda setup: practice(setup, trials.NearlyFirmBack),
    "review:far-back": lambda setup: practice(setup, trials.FarWhenBack),
    "review:after-break": lambda setup: practice(setup, trials.AfterBreak),
    "review:far95": lambda setup: practice(setup, trials.LongerGaps),
    "review:far98": lambda setup: practice(setup, trials.ShorterGaps),
    "review:ahead-slips": lambda setup: practice(setup, LookAtSlips),
    "review:partners": lambda setup: with_partners(practice(setup), setup),
    "review:fewer": lambda setup: practice(setup, seldom.Fewer),
    "review:fewest": lambda setup: practice(setup, seldom.Fewest),
    "review:load70": lambda setup: practice(setup, seldom.ByLoad),
    "review:load50": lambda setup: practice(setup, seldom.HalfLoad),
    "review:time": lambda setup: practice(setup, seldom.ByTime),
    "review:time-half": lambda setup: practice(setup, seldom.ByTimeHalf),
    "review:time-at-once": lambda setup: practice(setup, seldom.ByTimeAtOnce),
    "review:by-misses": lambda setup: practice(setup, worked_out.ByMisses),
    "review:growth": lambda setup: Growth(setup, settings(setup)),
    "knowing-90": lambda setup: Knowing(setup, 0.90),
    "knowing-94": lambda setup: Knowing(setup, 0.94),
    "believing-94": lambda setup: Believing(setup, 0.94),
}
