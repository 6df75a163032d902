"""Half a year of days: one child, one rule. Missed days, a holiday, and a month of rest at the end."""

from collections import deque
from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import chain
from typing import NamedTuple

from tests.benchmarks.learning.children import Pupil, child
from tests.benchmarks.learning.courses import course, fluent
from tests.benchmarks.learning.memories import MEMORIES
from tests.benchmarks.learning.strategies import Day, Setup, Sits, Strategy, Try, named

LAST_DAY, IDLE = 180, 30
HOLIDAY = range(91, 105)
CHECKS = (60, 120, 180, 210)
APART = 3  # other cards before a second look
FIRM = 0.9
HARD = 0.2  # share of first tries not right that makes a hard day
MEASURED_FROM = 60


class Task(NamedTuple):
    model: str
    number: int  # of the child
    strategy: str
    size: int
    minutes: float


class Forecast(NamedTuple):
    """First tries for which the same was predicted, and what came."""

    predicted: float  # in thousandths, so that a season is short
    tries: int
    retrieved: int  # truly
    right: int  # and unaided, which also counts what was worked out
    by_aim: int  # did what the card's aim asks: fluency retrieved, accuracy right and unaided


class Known(NamedTuple):
    """A morning, by one way to take recall."""

    recall: float  # its sum over the course
    firm: int  # cards at .9 or better


class Held(NamedTuple):
    """What came of a season, by one way to take recall."""

    recall: tuple[float, ...]  # the sum of true recall on the morning after each of CHECKS
    firm: tuple[int, ...]  # cards truly recalled at .9 or better, the same mornings
    recovered: int  # practised days after the holiday until as many are firm as before it
    alone: Known  # on the morning after the last day, had there been no practice


class Morning(NamedTuple):
    """What a child knows, by both ways to take recall."""

    retrieved: Known
    by_aim: Known


class Season(NamedTuple):
    """What came of it."""

    task: Task
    retrieved: Held  # recall from memory
    by_aim: Held  # recall as each card's aim asks for it
    minutes: float  # a practised day
    met: int
    answers: int
    hard: float  # share of practised days with over 20% of first tries not right, of cards met before
    missed: float  # share of those first tries that were not right
    forecasts: tuple[Forecast, ...]


def season(task: Task, last_day: int = LAST_DAY, kind: type[Pupil] = Pupil) -> Season:
    """The whole of it; a shorter one has fewer checks, and the last is always after the month of rest.
    `kind`: children who answer otherwise."""
    cards = course(task.size)
    pupil = kind(child(task.model, task.number), task.model, cards)
    rule = named(task.strategy)(Setup(cards, task.minutes, f"{task.model}|{task.number}", pupil))
    met: set[str] = set()
    days: dict[int, Day] = {}
    checks: list[Morning] = []
    around: list[Morning] = []  # the morning before the holiday, and those after practised days since
    for day in range(1, last_day + 1):
        if day == HOLIDAY.start:
            around.append(known(pupil, day))
        if day not in HOLIDAY and pupil.practises(day):
            if isinstance(rule, Sits):
                days[day] = rule.sit(day, met)
            else:
                days[day] = sitting(pupil, rule, task.minutes, day, met)
            if day > HOLIDAY[-1] and not is_back(around):
                around.append(known(pupil, day + 1))
        if day in CHECKS:
            checks.append(known(pupil, day + 1))
    checks.append(known(pupil, last_day + IDLE + 1))
    alone = known(kind(pupil.who, task.model, cards), last_day + 1)
    recovered = back(around)
    held = _held(checks, recovered, alone, 0), _held(checks, recovered, alone, 1)
    return _summed(task, days, held, len(met))


def known(pupil: Pupil, at: float) -> Morning:
    """What the child knows of the course then."""
    chances = [pupil.chances(place, at) for place in range(len(pupil.course.cards))]
    ways = zip(*chances, strict=True)
    return Morning(*(Known(sum(way), sum(chance >= FIRM for chance in way)) for way in ways))


def is_back(mornings: Sequence[Morning]) -> bool:
    """Whether, by each way, as many cards were firm again as on the first of these mornings."""
    before, *since = mornings
    return all(any(morning[way].firm >= before[way].firm for morning in since) for way in range(len(before)))


def back(mornings: Sequence[Morning]) -> tuple[int, int]:
    """After how many of these mornings as many were firm as on the first, by each way; all, if on none."""
    return _back([m.retrieved.firm for m in mornings]), _back([m.by_aim.firm for m in mornings])


def _back(firm: Sequence[int]) -> int:
    since = range(1, len(firm))
    return next((n for n in since if firm[n] >= firm[0]), len(since))


def _held(checks: Sequence[Morning], recovered: tuple[int, int], alone: Morning, way: int) -> Held:
    """By the first or the second way to take recall."""
    return Held(
        tuple(morning[way].recall for morning in checks),
        tuple(morning[way].firm for morning in checks),
        recovered[way],
        alone[way],
    )


def _summed(task: Task, days: dict[int, Day], held: tuple[Held, Held], met: int) -> Season:
    old = {day: [given for _, before, _, given in it.tries if before] for day, it in days.items()}
    misses = {day: [not given.right or bool(given.help) for given in tries] for day, tries in old.items()}
    tried = sum(map(len, misses.values()))
    return Season(
        task,
        *held,
        sum(day.seconds for day in days.values()) / 60 / max(1, len(days)),
        met,
        sum(day.answers for day in days.values()),
        sum(sum(m) > HARD * len(m) for m in misses.values()) / max(1, len(days)),
        sum(map(sum, misses.values())) / max(1, tried),
        tallied((it.tries for day, it in days.items() if day > MEASURED_FROM), fluent(course(task.size))),
    )


def tallied(days: Iterable[Iterable[Try]], fluent: Collection[str]) -> tuple[Forecast, ...]:
    """First tries of cards met before for which something was predicted; `fluent`: the cards whose aim that
    is."""
    found: dict[float, list[int]] = {}
    for key, before, predicted, given in chain.from_iterable(days):
        if before and predicted is not None:
            unaided = given.right and not given.help
            row = found.setdefault(round(predicted, 3), [0, 0, 0, 0])
            row[0] += 1
            row[1] += given.retrieved
            row[2] += unaided
            row[3] += given.retrieved if key in fluent else unaided
    return tuple(Forecast(predicted, *row) for predicted, row in sorted(found.items()))


def sitting(pupil: Pupil, rule: Strategy, minutes: float, day: int, met: set[str]) -> Day:
    """A warm-up: the ranking from the top until the minutes are used; second looks three cards later.

    A card that was new and proved known changes what may come next, so the rule is asked again once the
    other new cards of its ranking have come.
    """
    queue = deque[str]()
    again: deque[tuple[int, str]] = deque()
    shown: dict[str, int] = {}
    tries: list[Try] = []
    spent, n, stale = 0.0, 0, True
    while spent < minutes * 60:
        if stale and not (queue and queue[0] not in met):
            queue, stale = deque(key for key in rule.plan(day) if key not in shown), False
        key = _next(queue, again, n)
        if key is None:
            break
        predicted = None if key in shown else rule.recall(key, day)
        place, showing = pupil.course.places[key], shown.get(key, 0)
        given = pupil.answer(place, day + spent / 86_400, showing)
        if rule.answer(key, given.right, given.seconds, given.help, day, copy_seconds=given.copy_s):
            again.append((n + 1 + APART, key))
        if not showing:
            tries.append((key, key in met, predicted, given))
        if key not in met and given.right and not given.help:
            stale = True
        met.add(key)
        shown[key] = showing + 1
        spent, n = spent + given.seconds, n + 1
    return Day(spent, n, tuple(tries))


def _next(queue: deque[str], again: deque[tuple[int, str]], n: int) -> str | None:
    if again and (again[0][0] <= n or not queue):
        return again.popleft()[1]
    return queue.popleft() if queue else None


def tasks(
    models: list[str], strategies: list[str], sizes: list[int], minutes: list[float], children: range
) -> Iterator[Task]:
    for model in models or list(MEMORIES):
        for size in sizes:
            for budget in minutes:
                for number in children:
                    for strategy in strategies:
                        yield Task(model, number, strategy, size, budget)
