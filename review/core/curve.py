"""Recall and gaps in closed form.

The forgetting curve of FSRS-6 (free spaced repetition scheduler, version 6): a power function of the days
since the last first try. Constants are those of the `fsrs` library 6.3.2; a test compares them with what is
installed.
"""

from functools import lru_cache

PARAMETERS: tuple[float, ...] = (
    0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796,
    1.4835, 0.0614, 0.2629, 1.6483, 0.6014, 1.8729, 0.5425, 0.0912, 0.0658, 0.1542,
)  # fmt: skip
"""The published default parameters of FSRS-6 (fsrs 6.3.2, `DEFAULT_PARAMETERS`)."""

DECAY = PARAMETERS[20]

FOLD_RULE = 7
"""Version of our own rules of the fold. Raise it whenever the same log would give other memory."""

LIBRARY = "6.3.2"  # whose bits the step of memory has
DIGEST = "a7629b71"
FOLD_VERSION = f"{FOLD_RULE}/{LIBRARY}/{DIGEST}"
"""Rule version / library version / first 8 hex digits of sha256 over the parameters, each as `repr`
writes it, with commas between."""

CAP = 14
CAPS = (CAP, 60, 120)
RIGHTS_AT_CAP = 3
"""Longest gaps in days: the second and third are earned by three rights running at the one before. The first
was measured here on simulated children (of 10, 14 and 21 days, 14 kept most cards at .9 on four models of
memory, and as many a month later); the further two are our judgement."""

ASIDE_DAYS = 5
"""A card set aside to be taught comes back by itself, as new, after this many days (our judgement)."""


def misses_a_day(age: int) -> int:
    """So many misses of one card on a day set it aside to be taught, and a sitting asks it no more (our
    judgement)."""
    return 2 if age <= 7 else 3


def recall(stability: float, days: float, decay: float = DECAY) -> float:
    """The chance, 0 to 1, of a right answer `days` after the last first try; stability in days, above 0."""
    chance: float = (1 + factor(decay) * (days if days > 0 else 0.0) / stability) ** -decay
    return chance


def interval(stability: float, target: float, decay: float = DECAY) -> float:
    """The days until recall has fallen to `target`, 0 < target <= 1. The inverse of `recall`."""
    days: float = stability / factor(decay) * (target ** (-1 / decay) - 1)
    return days


@lru_cache  # a child has one decay, and a plan asks it of every card twice
def factor(decay: float) -> float:
    """Chosen so that recall is 0.9 after as many days as the stability says."""
    power: float = 0.9 ** (-1 / decay)
    return power - 1


def longest(capped: int, cap: int = CAP) -> int:
    """The longest gap, in days, of a card that was right `capped` times running at its longest gap."""
    return max(cap, CAPS[min(capped // RIGHTS_AT_CAP, len(CAPS) - 1)]) if capped >= RIGHTS_AT_CAP else cap
