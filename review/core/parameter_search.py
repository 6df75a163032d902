"""Histories to parameters of the memory model: found on the earlier days, kept only if the later ones agree.

With few answers three numbers are fitted, each drawn towards the published defaults; with many, a caller may
hand in a fit of them all. Pure and deterministic: the same histories give the same numbers.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import count, pairwise
from math import exp, fsum, sqrt
from typing import Literal, NamedTuple

from review.core import curve, trace
from review.core.calibration import Promise, surprise
from review.core.own_parameters import millionths
from review.core.strength import Parameters, clamped
from review.core.trace import History

RULE = 1
"""Version of the rules of this room, logged with what they found."""

Progress = Callable[[int, int], None]
"""How far it is: so many looks of at most so many."""

Foretell = Callable[[Parameters], Sequence[Promise]]
"""What some parameters would have promised: the same answers in the same order, whatever the parameters."""

FullFit = Callable[[Sequence[History]], Parameters | None]
"""A fit of every parameter; None where it found nothing."""

THREE_NUMBERS = (200, 20)
ALL_NUMBERS = (1000, 50)
"""First tries with a promise, and misses among them, from which a fit is tried at all. Our judgement; for all
numbers with this behind it: simulated children near the defaults gained nothing before about 3,000 tries,
children far from them from 1,000."""

EARLIER = (0.5, 0.75)
"""The shares of practice days that are fitted to; each time the days up to the next share decide. Twice,
since late answers alone say little: of 16 simulated children with first stabilities a third of the defaults'
and 600 tries, 13 passed so and 8 by the last quarter alone; of 16 at the defaults 5 and 4 (measured here)."""

_SPREAD = (0.7, 0.35, 0.35)
"""How far children may be from the defaults before there is evidence, as one standard deviation of a
logarithm: first stabilities (a factor of 2), growth and decay (1.4). Our judgement."""

LOOKS = 160
_CLOSE = 0.01
"""The search ends after so many looks, or when its corners cost the same to so much, where one guess
is 1.01 times as likely as another (our judgement)."""


class Verdict(NamedTuple):
    """What the later days say of new parameters against the present ones."""

    tries: int
    before: float  # mean surprise
    after: float
    gain: float
    error: float  # standard error of the gain, answer by answer

    @property
    def better(self) -> bool:
        return self.tries > 1 and self.gain > self.error


How = Literal["too few", "as it is", "three", "all"]


class Fitted(NamedTuple):
    """What came of a fit. Promises are those of the later days; of all days, where there were too few."""

    how: How
    parameters: Parameters  # to use from now on: the present ones, where nothing was kept
    tries: int
    misses: int
    since: int = 0  # the first day that was kept apart
    verdict: Verdict | None = None
    before: tuple[Promise, ...] = ()  # by the present parameters
    after: tuple[Promise, ...] = ()  # by the best that was found on the days before


class _Way(NamedTuple):
    how: How
    find: FullFit


class _Judged(NamedTuple):
    way: _Way
    verdict: Verdict
    after: tuple[Promise, ...]


def fit(
    histories: Sequence[History],
    present: Parameters = curve.PARAMETERS,
    *,
    foretell: Foretell | None = None,
    full: FullFit | None = None,
    progress: Progress = lambda done, of: None,
) -> Fitted:
    """Parameters for one child; the present ones where none do better on days they were not found on."""
    foretell = foretell or (lambda parameters: promised(parameters, histories))
    told = foretell(present)
    tries, misses = len(told), sum(one.right < 0.5 for one in told)
    if not enough(tries, misses, THREE_NUMBERS):
        return Fitted("too few", present, tries, misses, before=tuple(told))
    spans = later(one.day for one in told)
    before = tuple(one for span in spans for one in within(told, span))
    judged = [
        judged_way(way, histories, foretell, spans, before)
        for way in ways(tries, misses, full, counted(progress))
    ]
    best = max(judged, key=lambda one: one.verdict.gain)
    again = best.way.find(histories) if best.verdict.better else None
    return Fitted(
        best.way.how if again else "as it is", again or present, tries, misses, spans[0].first, best.verdict,
        before, best.after,
    )  # fmt: skip


def enough(tries: int, misses: int, least: tuple[int, int]) -> bool:
    return tries >= least[0] and misses >= least[1]


def counted(progress: Progress) -> Progress:
    """Progress over all searches: one a span of later days, and the one over all days."""
    looks, searches = count(1), len(EARLIER) + 1
    return lambda done, of: progress(min(next(looks), searches * of), searches * of)


def ways(tries: int, misses: int, full: FullFit | None, progress: Progress) -> list[_Way]:
    few = [_Way("three", lambda histories: likeliest_three(histories, progress))]
    return [*few, _Way("all", full)] if full and enough(tries, misses, ALL_NUMBERS) else few


def judged_way(
    way: _Way,
    histories: Sequence[History],
    foretell: Foretell,
    spans: Sequence["Span"],
    before: Sequence[Promise],
) -> _Judged:
    """What the later days say of a way to fit; it is the present parameters' where it finds nothing."""
    after: list[Promise] = []
    for span in spans:
        found = way.find([part for history in histories if (part := before_day(history, span.first))])
        after += within(foretell(found) if found else before, span)
    return _Judged(way, judge(before, after), tuple(after))


# --- earlier and later days ---------------------------------------------------------------------------


class Span(NamedTuple):
    """Practice days that were not fitted to."""

    first: int
    end: int  # the day after


def later(days: Iterable[int]) -> list[Span]:
    """The spans of later days, by their share of the days with tries."""
    known = sorted(set(days))
    cuts = [*(known[int(len(known) * share)] for share in EARLIER), known[-1] + 1]
    return [Span(first, end) for first, end in pairwise(cuts)]


def before_day(history: History, day: int) -> History:
    return tuple(step for step in history if step.day < day)


def within(told: Iterable[Promise], span: Span) -> tuple[Promise, ...]:
    return tuple(one for one in told if span.first <= one.day < span.end)


def judge(before: Sequence[Promise], after: Sequence[Promise]) -> Verdict:
    """The same answers, as promised by the present parameters and by new ones. How far a right answer counts
    as one from memory is what the present ones say."""
    pairs = list(zip(before, after, strict=True))
    old = [surprise(a.promised, a.right) for a, _ in pairs]
    new = [surprise(b.promised, a.right) for a, b in pairs]
    n = max(1, len(pairs))
    gain = fsum(a - b for a, b in zip(old, new, strict=True)) / n
    square = fsum((a - b - gain) ** 2 for a, b in zip(old, new, strict=True)) / max(1, n - 1)
    return Verdict(len(pairs), fsum(old) / n, fsum(new) / n, gain, sqrt(square / n))


def promised(parameters: Parameters, histories: Sequence[History]) -> list[Promise]:
    """What the forgetting curve alone would have promised."""
    told = trace.all_foretold(parameters, histories)
    return [Promise(step.day, chance, step.retrieved) for step, chance in told]


# --- three numbers ------------------------------------------------------------------------------------

Numbers = tuple[float, ...]
"""Logarithms of three factors: on first stabilities, on growth, on the decay of the curve. 0, 0, 0: the
published defaults."""

_FIRST, _GROWTH, _DECAY = range(4), 8, 20


def scaled(numbers: Numbers) -> Parameters:
    """The published defaults, moved by three numbers. Growth stands in the model as a logarithm already."""
    first, growth, decay = numbers
    w = curve.PARAMETERS
    moved: Mapping[int, float] = {
        **{n: w[n] * exp(first) for n in _FIRST},
        _GROWTH: w[_GROWTH] + growth,
        _DECAY: w[_DECAY] * exp(decay),
    }
    return clamped(moved.get(n, value) for n, value in enumerate(w))


def cost(numbers: Numbers, histories: Sequence[History]) -> float:
    """How little the numbers explain, as a negative logarithm; the prior with the answers."""
    told = trace.all_foretold(scaled(numbers), histories)
    prior = fsum((number / spread) ** 2 / 2 for number, spread in zip(numbers, _SPREAD, strict=True))
    return prior + fsum(surprise(chance, step.retrieved) for step, chance in told)


def likeliest_three(histories: Sequence[History], progress: Progress = lambda done, of: None) -> Parameters:
    """The most likely three numbers, as parameters."""
    looks = count(1)

    def looked(numbers: Numbers) -> float:
        progress(next(looks), LOOKS)
        return cost(numbers, histories)

    found = lowest(looked, (0.0, 0.0, 0.0), 0.3, LOOKS, _CLOSE)
    return tuple(round(value, 6) for value in scaled(found))


# --- the lowest point ---------------------------------------------------------------------------------


class Corner(NamedTuple):
    height: float
    at: Numbers


def lowest(
    height: Callable[[Numbers], float], start: Numbers, stride: float, looks: int, close: float
) -> Numbers:
    """Where a function of a few numbers is lowest: the downhill simplex of Nelder and Mead (1965), with their
    own reflection 1, expansion 2 and contraction 1/2. Ends after about so many looks."""
    spent = 0

    def corner(at: Numbers) -> Corner:
        nonlocal spent
        spent += 1
        return Corner(height(at), at)

    strides = [tuple(x + stride * (i == j) for j, x in enumerate(start)) for i in range(len(start))]
    simplex = sorted(map(corner, [start, *strides]))
    while spent < looks and simplex[-1].height - simplex[0].height > close:
        simplex = sorted(_moved(simplex, corner))
    return simplex[0].at


def _moved(simplex: Sequence[Corner], corner: Callable[[Numbers], Corner]) -> list[Corner]:
    """The highest corner is folded over, stretched or drawn in; failing that, all are drawn to the lowest."""
    *kept, worst = simplex
    middle = tuple(fsum(xs) / len(kept) for xs in zip(*(one.at for one in kept), strict=True))
    folded = corner(_along(middle, worst.at, -1.0))
    if folded.height < kept[0].height:
        return [*kept, min(folded, corner(_along(middle, worst.at, -2.0)))]
    if folded.height < kept[-1].height:
        return [*kept, folded]
    better = min(folded, worst)
    drawn = corner(_along(middle, better.at, 0.5))
    if drawn.height < better.height:
        return [*kept, drawn]
    return [kept[0], *(corner(_along(kept[0].at, one.at, 0.5)) for one in simplex[1:])]


def _along(middle: Numbers, end: Numbers, share: float) -> Numbers:
    """From the middle towards an end, so much of the way; beyond the middle where the share is negative."""
    return tuple(m + share * (x - m) for m, x in zip(middle, end, strict=True))


# --- in the log ---------------------------------------------------------------------------------------


def body(fitted: Fitted) -> dict[str, object]:
    """What a fit keeps of itself: whole numbers and words."""
    return {
        "numbers": millionths(fitted.parameters),
        "how": fitted.how,
        "rule": RULE,
        "library": curve.LIBRARY,
        "tries": fitted.tries,
        "misses": fitted.misses,
    }


DEFAULT_BODY: Mapping[str, object] = {"numbers": [], "how": "default", "rule": RULE, "library": curve.LIBRARY}
"""Back to the published defaults."""
