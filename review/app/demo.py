"""An invented family plays a season in seconds: the same plan, sitting and book as a real one."""

import tempfile
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from review import catalogue, gather
from review.app import missing, sittings
from review.book import store
from review.book.store import Book
from review.core import family, plan, sayings, seeds, session, skills
from review.core.answer_bodies import answer_body
from review.core.learner import Learner
from review.core.model import Answer, Child, Draft, Problem
from review.core.warmup import AskAgain, PassOn, Record, Say, Show, Sitting, Typed

DAYS = 90
MORNING_MS = (8 * 60 + 30) * 60_000
DAY_MS = 86_400_000
EPOCH = 719_163  # the ordinal of 1 January 1970
LOOKED_MS = 6000  # before a child asks to see it (our judgement)
PRACTISED = 0.8  # share of days with a warm-up (our judgement: a busy family)
HOLIDAY = range(52, 60)  # a week away
STORMS = range(84, 90)  # the last days of the season: a lighthouse has other work then


class Role(NamedTuple):
    """A child of the invented family: who, how able, and what is taught from which day on."""

    name: str
    age: int
    minutes: float
    speed: float  # 1 is usual; more is faster
    ability: float
    lessons: tuple[tuple[int, str], ...]  # (day of the season, set id)
    holds: frozenset[tuple[str, str]] = frozenset()  # (kind, error rule) that is followed where it shows


# A family that keeps a lighthouse. Nobody in it lives anywhere.
FAMILY = (
    Role(
        "Orla",
        7,
        4,
        0.85,
        -1.1,
        (
            (0, "number-bonds-10"),
            (0, "addition-facts-10"),
            (0, "place-value-to-99"),
            (12, "subtraction-facts-10"),
            (25, "telling-time-hours"),
            (40, "doubles-halves-20"),
            (60, "coins-pounds"),
        ),
    ),
    Role(
        "Fenn",
        10,
        6,
        1.2,
        0.2,
        (
            (0, "times-2-5-10"),
            (0, "times-3-4-8"),
            (0, "place-value-to-9999"),
            (15, "mental-sums-to-99"),
            (25, "times-6-7-9"),
            (40, "division-2-5-10"),
            (55, "metric-length"),
            (70, "decimals-tenths"),
        ),
        frozenset({("mental-sum", "ten_dropped")}),
    ),
)


ANYONE = Child("", "", 7, 0)  # lives by the computer's own clock


def play(folder: Path, last_day: int, seed: int = 1, days: int = DAYS) -> Path:
    """Make a book in that folder and let the family practise up to `last_day`. Returns the book's path.

    The same day and seed make the same season.
    """
    path = folder / "demo.book"
    store.make(path, seeds.source("book", seed).randbytes(16))
    with store.open_book(path, folder / "state", write=True) as book:
        for number, role in enumerate(FAMILY):
            grow_up(book, role, last_day - days + 1, days, seed * 100 + number)
    return path


def grow_up(book: Book, role: Role, first_day: int, days: int, seed: int) -> None:
    """One child's season: a transaction a day."""
    child = join(book, role, first_day, seed)
    learner = Learner(seed, role.age, ability=role.ability, speed=role.speed)
    attends = seeds.source("attendance", seed)
    for n in range(days):
        day = first_day + n
        lessons = [set_id for start, set_id in role.lessons if start == n]
        for set_id in lessons:
            child = teach(book, child, set_id, day)
        here = attends.random() < PRACTISED and n not in (*HOLIDAY, *STORMS)
        if here or lessons:
            practise(book, child, learner, day, role)
    missing.keep(book, child.key)


def join(book: Book, role: Role, day: int, seed: int) -> Child:
    key = seeds.source("child", seed).randbytes(16)
    child = Child(key.hex(), role.name, role.age, day, role.minutes, last_day=day)
    book.add_child(key)
    keep(book, [draft(child, "profile", family.profile_body(child), day, 0)])
    return child


def teach(book: Book, child: Child, set_id: str, day: int) -> Child:
    """The parent gives a set and has taught its skills."""
    found = catalogue.shipped(set_id)
    bodies: tuple[tuple[str, dict[str, object]], ...] = (
        ("set_add", {"set": set_id, "aim": "", "text": ""}),
        ("taught", {"skills": [skill.id for skill in found.skills], "timed": child.age >= 8}),
    )
    keep(book, [draft(child, kind, body, day, n) for n, (kind, body) in enumerate(bodies)])
    told = family.children(book.events(child=child.key, kinds=gather.TELLING))
    return next(one for one in told if one.key == child.key)


def practise(book: Book, child: Child, learner: Learner, day: int, role: Role) -> None:
    """One warm-up, through the real plan and the real sitting, answered by the simulated child."""
    pupil = gather.pupil(book, child, day)
    fresh = plan.for_pupil(pupil, role.minutes, seeds.plan_source(book.id, child.key, day))
    fresh = sittings.settled(pupil, fresh)._replace(suspected=missing.suspected(book, pupil, fresh))
    todays = family.sitting_plan_of(day, family.sitting_body(fresh))
    answers = list(answered(sittings.sitting_for(book, pupil, todays), learner, role.holds))
    rows = [draft(child, "sitting", family.sitting_body(todays), day, 0)]
    spent = 0
    for answer in answers:
        spent += answer.end_ms
        rows.append(draft(child, "answer", answer_body(answer), day, spent, answer.card))
    keep(book, rows)


def answered(
    sitting: Sitting, learner: Learner, holds: frozenset[tuple[str, str]] = frozenset()
) -> Iterator[Answer]:
    """The answers of one sitting, as they would be recorded."""
    state, effects = session.start(sitting)
    while True:
        heard: Typed | PassOn = PassOn(LOOKED_MS)  # where it could not be read, the child asks to see it
        for effect in effects:
            match effect:
                case Record(answer=answer):
                    yield answer
                case Say(card=card):
                    learner.taught(card, sitting.plan.day)
                case Show(problem=problem, copying=copying):
                    fact = skills.traits(problem.card).fact
                    heard = (
                        learner.copied(problem, sitting.plan.day)
                        if copying
                        else thought(
                            learner.answer(problem, problem.card, sitting.plan.day, fact), problem, holds
                        )
                    )
                case AskAgain(text=sayings.LOOK_ONCE_MORE):
                    heard = learner.copied(problem, sitting.plan.day)  # the keys went astray, not the thought
        if state.ended:
            return
        state, effects = session.step(state, heard)


def thought(heard: Typed, problem: Problem, holds: frozenset[tuple[str, str]]) -> Typed:
    """The answer of a child who holds error rules."""
    kind = skills.kind(problem.card)
    mine = {rule for name, rule in holds if name == kind.name}
    said = [text for rule, text in kind.predict(problem.card, problem.asked).items() if rule in mine]
    return heard._replace(text=said[0]) if said else heard


def draft(
    child: Child, kind: str, body: Mapping[str, object], day: int, after_ms: int, card: str = ""
) -> Draft:
    at = (day - EPOCH) * DAY_MS + MORNING_MS + after_ms
    return Draft(child.key, kind, day, at, 0, card, body)  # type: ignore[arg-type]


def keep(book: Book, drafts: Sequence[Draft]) -> None:
    book.record(drafts, gather.remember())


def is_empty(folder: Path) -> bool:
    """Whether all that will stand in the folder is the demo's own, so that the whole of it may be deleted."""
    return not folder.is_dir() or not any(folder.iterdir())


def new_folder() -> Path:
    """A folder of its own, far from any family's book."""
    return Path(tempfile.mkdtemp(prefix="review-demo-"))
