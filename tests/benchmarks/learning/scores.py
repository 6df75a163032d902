"""What came of the seasons, and how two rules differ: the same child under both, in pairs."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from math import log, sqrt
from statistics import fmean, stdev
from typing import NamedTuple

from tests.benchmarks.learning.season import CHECKS, LAST_DAY, Forecast, Held, Season

BINS = 10
RIVALS = ("five-box", "five-box:accuracy", "due-only", "due-only:speed")
LEAST = 1e-4  # a forecast is held away from 0 and 1 for the logarithm

Cell = tuple[str, int, float]
"""Model, size of the course, minutes."""

Forecasts = Sequence[Forecast]


class Way(NamedTuple):
    """One of the two ways to take true recall, and what is scored by it."""

    name: str
    sign: str  # what its columns end in, before the day
    held: Callable[[Season], Held]
    seeing: tuple[str, ...]  # the references that see the truth taken so
    added: bool  # only what practice added is held against them: much is worked out without any

    @property
    def against(self) -> tuple[str, str]:
        """The sum of recall on the last day, and the cards at .9."""
        return f"rec{self.sign}{LAST_DAY}", f"at9{self.sign}_{LAST_DAY}"

    @property
    def alone(self) -> tuple[str, str]:
        """The same, had there been no practice."""
        return f"rec{self.sign}0", f"at9{self.sign}_0"


RETRIEVED = Way("from memory", "", lambda s: s.retrieved, ("truth-90", "truth-90:highest", "truth-80"), False)
BY_AIM = Way("as the aim asks", "A", lambda s: s.by_aim, ("aim-90", "aim-90:highest", "aim-80"), True)
WAYS = (RETRIEVED, BY_AIM)
SEEING = (*RETRIEVED.seeing, *BY_AIM.seeing)


def cells(seasons: Iterable[Season]) -> dict[Cell, dict[str, list[Season]]]:
    """Seasons by cell, then by strategy, each in the order of the children."""
    found: dict[Cell, dict[str, list[Season]]] = {}
    for one in sorted(seasons, key=lambda s: s.task.number):
        task = one.task
        found.setdefault((task.model, task.size, task.minutes), {}).setdefault(task.strategy, []).append(one)
    return found


def rmse(forecasts: Forecasts, what: str = "retrieved") -> float:
    """Root mean square of (predicted - observed) over ten bins by prediction, weighted by their size.

    `what`: truly retrieved; right and unaided, which also counts what was worked out; or the one or the
    other, as the card's aim asks.
    """
    bins: dict[int, list[Forecast]] = {}
    for row in forecasts:
        bins.setdefault(min(BINS - 1, int(row.predicted * BINS)), []).append(row)
    off = [sum(row.predicted * row.tries - getattr(row, what) for row in b) for b in bins.values()]
    sizes = [sum(row.tries for row in b) for b in bins.values()]
    square = sum(miss * miss / size for miss, size in zip(off, sizes, strict=True))
    return sqrt(square / sum(sizes)) if sizes else float("nan")


def log_loss(forecasts: Forecasts, what: str = "retrieved") -> float:
    tries = sum(row.tries for row in forecasts)
    return sum(_lost(row, getattr(row, what)) for row in forecasts) / tries if tries else float("nan")


def _lost(row: Forecast, came: int) -> float:
    chance = min(1 - LEAST, max(LEAST, row.predicted))
    return -(came * log(chance) + (row.tries - came) * log(1 - chance))


Measure = Callable[[Season], float]


def _of(way: Way) -> dict[str, Measure]:
    def sum_on(n: int) -> Measure:
        return lambda season: way.held(season).recall[n]

    def firm_on(n: int) -> Measure:
        return lambda season: way.held(season).firm[n]

    return {
        **{f"rec{way.sign}{day}": sum_on(n) for n, day in enumerate(CHECKS)},
        **{f"at9{way.sign}_{day}": firm_on(n) for n, day in enumerate(CHECKS)},
        f"back{way.sign}": lambda season: way.held(season).recovered,
        way.alone[0]: lambda season: way.held(season).alone.recall,
        way.alone[1]: lambda season: way.held(season).alone.firm,
    }


MEASURES: Mapping[str, Measure] = {
    **_of(RETRIEVED),
    "met": lambda s: s.met,
    "min": lambda s: s.minutes,
    "hard%": lambda s: 100 * s.hard,
    "miss%": lambda s: 100 * s.missed,
    **_of(BY_AIM),
}


def row(seasons: Sequence[Season]) -> dict[str, float]:
    """The means of every measure, and the calibration over all children's forecasts."""
    forecasts = [f for one in seasons for f in one.forecasts]
    means = {name: fmean(of(s) for s in seasons) for name, of in MEASURES.items()}
    return {
        **means,
        **{f"cal{sign}": rmse(forecasts, what) for sign, what in CAME.items()},
        **{f"loss{sign}": log_loss(forecasts, what) for sign, what in CAME.items()},
    }


CAME = {"": "retrieved", "R": "right", "A": "by_aim"}
AIMED = {*_of(BY_AIM), "calA", "lossA"}


def differences(ours: Sequence[Season], theirs: Sequence[Season], measure: str) -> tuple[float, float]:
    """The mean paired difference and its standard error."""
    other, of = {s.task.number: s for s in theirs}, MEASURES[measure]
    found = [of(s) - of(other[s.task.number]) for s in ours if s.task.number in other]
    if len(found) < 2:
        return (found[0] if found else float("nan")), float("nan")
    return fmean(found), stdev(found) / sqrt(len(found))


def best(by: Mapping[str, Sequence[Season]], among: Iterable[str], measure: str) -> str:
    there = [name for name in among if name in by]
    return max(there, key=lambda name: fmean(map(MEASURES[measure], by[name])), default="")


# --- tables -------------------------------------------------------------------------------------------

WHOLE = ("rec", "at9", "met", "back", "hard", "miss")


def table(cell: Cell, by: Mapping[str, Sequence[Season]]) -> str:
    """The measures of every strategy of one cell, those by aim below, then how they differ from the better
    rival."""
    model, size, minutes = cell
    count = max(map(len, by.values()))
    rows = {name: row(seasons) for name, seasons in by.items()}
    heads = list(next(iter(rows.values())))
    wide = max(map(len, by)) + 1
    lines = [f"{model}, {size} cards, {minutes:g} minutes, {count} children", ""]
    lines += _columns(rows, [head for head in heads if head not in AIMED], wide)
    lines += _columns(rows, [head for head in heads if head in AIMED], wide)
    return "\n".join([*lines, *_against(by, wide)])


def _columns(rows: Mapping[str, Mapping[str, float]], heads: Sequence[str], wide: int) -> list[str]:
    shown = [f"{name:<{wide}}" + "".join(_shown(h, row[h]) for h in heads) for name, row in rows.items()]
    return [" " * wide + "".join(f"{head:>9}" for head in heads), *shown, ""]


def _shown(head: str, value: float) -> str:
    if value != value:  # not a number: nothing was forecast
        return f"{'-':>9}"
    digits = (0 if head == "met" else 1) if head.startswith(WHOLE) else 2 if head == "min" else 3
    return f"{value:9.{digits}f}"


def _against(by: Mapping[str, Sequence[Season]], wide: int) -> list[str]:
    lines = []
    for measure, among in [(measure, way.seeing) for way in WAYS for measure in way.against]:
        rival, seeing = best(by, RIVALS, measure), best(by, among, measure)
        for name, seasons in by.items():
            if name in (*RIVALS, *SEEING) or not rival:
                continue
            lines.append(f"{name:<{wide}}{measure:>9}  {_compared(seasons, by, measure, rival, seeing)}")
    return lines


def _compared(
    seasons: Sequence[Season], by: Mapping[str, Sequence[Season]], measure: str, rival: str, seeing: str
) -> str:
    mean, error = differences(seasons, by[rival], measure)
    of = MEASURES[measure]
    ratio = fmean(map(of, seasons)) / max(1e-9, fmean(map(of, by[seeing]))) if seeing else float("nan")
    return f"{mean:+7.1f} ± {error:.1f} against {rival}" + (f", {ratio:.3f} of {seeing}" if seeing else "")


# --- all cells ----------------------------------------------------------------------------------------

ASKED = (0.97, 0.92)
"""Of the best rules that see the truth: of the sum of recall, and of the cards at .9 (our judgement)."""

STEPS = 200


def reach(ours: Sequence[Season], seeing: Sequence[Sequence[Season]], way: Way = RETRIEVED) -> float:
    """How near we come to what is asked of us, 1 or more being all of it. `seeing`: the seasons of rules that
    see the truth taken the same way.

    No rule that sees the truth has both the most recall and the most cards at .9, so that the best mixture of
    two of them is taken against which we stand best: the point on the line between them.
    """
    mine = _both(ours, way)
    every = [_both(seasons, way) for seasons in seeing]
    points = [one for one in every if not any(_beaten(one, other) for other in every)]
    lines = [(a, b) for n, a in enumerate(points) for b in points[n:]]
    return max((_on_line(mine, a, b) for a, b in lines), default=float("nan"))


def _both(seasons: Sequence[Season], way: Way) -> tuple[float, ...]:
    found = [fmean(map(MEASURES[measure], seasons)) for measure in way.against]
    alone = [fmean(map(MEASURES[measure], seasons)) for measure in way.alone] if way.added else [0.0, 0.0]
    return tuple(own - without for own, without in zip(found, alone, strict=True))


def _beaten(one: Sequence[float], other: Sequence[float]) -> bool:
    """Whether the other is better in one and no worse in both: a line from it would be no measure."""
    return one != other and all(x <= y for x, y in zip(one, other, strict=True))


def _on_line(mine: Sequence[float], a: Sequence[float], b: Sequence[float]) -> float:
    def at(share: float) -> float:
        mixed = [share * x + (1 - share) * y for x, y in zip(a, b, strict=True)]
        return min(own / max(1e-9, asked * of) for own, asked, of in zip(mine, ASKED, mixed, strict=True))

    return max(at(n / STEPS) for n in range(STEPS + 1))


def summary(seasons: Sequence[Season], ours: str, way: Way = RETRIEVED) -> str:
    """One row a course and budget: our figures, how they differ from the better rival's, and our reach."""
    by_row: dict[tuple[int, float], dict[str, str]] = {}
    for (model, size, minutes), by in cells(seasons).items():
        by_row.setdefault((size, minutes), {})[model] = _summed_up(by, ours, way)
    models = list(dict.fromkeys(model for row in by_row.values() for model in row))
    rows = [["cards, minutes", *models], ["---"] * (len(models) + 1)]
    rows += [
        [f"{size}, {minutes:g}", *(row.get(model, "") for model in models)]
        for (size, minutes), row in sorted(by_row.items())
    ]
    return "\n".join(f"| {' | '.join(row)} |" for row in rows)


def summaries(seasons: Sequence[Season], ours: str) -> str:
    """A table for each way to take true recall."""
    return "\n\n".join(f"Recall {way.name}:\n\n{summary(seasons, ours, way)}" for way in WAYS)


def _summed_up(by: Mapping[str, Sequence[Season]], ours: str, way: Way) -> str:
    parts = []
    for measure, alone in zip(way.against, way.alone, strict=True):
        rival = best(by, (name for name in RIVALS if name != ours), measure)
        mean, error = differences(by[ours], by[rival], measure) if rival else (float("nan"),) * 2
        own, without = (fmean(map(MEASURES[name], by[ours])) for name in (measure, alone))
        there = f"; {without:.0f} without practice" if way.added else ""
        parts.append(f"{own:.0f} ({mean:+.0f} ± {error:.0f}{there})".replace("-", "−"))
    seeing = [by[name] for name in way.seeing if name in by]
    return ", ".join([*parts, *([f"{100 * reach(by[ours], seeing, way):.0f}%"] if seeing else [])])
