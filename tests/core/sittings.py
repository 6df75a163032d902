"""Sittings for tests, and simulated children who play them."""

from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple, TypeVar

from review.app.sittings import Front
from review.core import session
from review.core.model import Aim, Answer, Card
from review.core.queue import State
from review.core.warmup import (
    AskAgain,
    Effect,
    End,
    Heard,
    Helped,
    Note,
    Plan,
    PlanItem,
    Record,
    Say,
    Show,
    Sitting,
    Summary,
    Typed,
    Why,
)

SURE = ("double:2", "sum:2+5", "half:10")
DUE = ("product:6x7", "sum:8+9", "product:3x4", "bond:10=3+7", "quotient:45/9", "difference:15-8", "half:18",
       "sum:6+6", "product:8x9", "difference:11-4", "double:9", "bond:20=4+16", "quotient:16/2")  # fmt: skip
NEW = ("product:7x8", "sum:5+7")
PROCEDURE = "mental-sum:2+2/regroup-ones"
RESERVE = ("sum:2+2", "double:5", "bond:5=1+4")


def item(key: str, why: Why, seconds: float = 4.0) -> PlanItem:
    return PlanItem(key, why, seconds, None if why == "new" else 0.8)


def a_sitting(
    *items: PlanItem,
    age: int = 9,
    minutes: float = 10.0,
    reserve: Sequence[str] = RESERVE,
    recent: Sequence[bool] = (True,) * 10,
    pace: int = 3,
    aims: dict[str, Aim] | None = None,
    timed: Iterable[str] = (),
) -> Sitting:
    kept = tuple(item(key, "sure") for key in reserve)
    cards = {
        planned.key: Card(planned.key, planned.key.split(":")[0], "a-skill", "a-set", "fluency", n)
        for n, planned in enumerate((*items, *kept))
    }
    cards |= {key: cards[key]._replace(aim=aim) for key, aim in (aims or {}).items()}
    plan = Plan(738000, minutes, items, kept, pace)
    return Sitting(
        "a-book", "a-child", "Tove", age, plan, cards, frozenset(timed), recent_right=tuple(recent)
    )


def usual(*middle: PlanItem, **options: object) -> Sitting:
    """Two sure cards, some others, one sure card."""
    ends = [item(key, "sure") for key in SURE]
    return a_sitting(*ends[:2], *middle, ends[2], **options)  # type: ignore[arg-type]


def due(*keys: str) -> tuple[PlanItem, ...]:
    return tuple(item(key, "due") for key in keys)


class Played(NamedTuple):
    effects: tuple[Effect, ...]
    state: State

    def all(self, kind: "type[E]") -> list["E"]:
        return [effect for effect in self.effects if isinstance(effect, kind)]

    @property
    def answers(self) -> list[Answer]:
        return [effect.answer for effect in self.all(Record)]

    @property
    def shows(self) -> list[Show]:
        return self.all(Show)

    @property
    def cards(self) -> list[str]:
        """The cards shown, without copying."""
        return [show.problem.card for show in self.shows if not show.copying]


E = TypeVar("E", Show, AskAgain, Helped, Record, Say, Note, End)
Child = Callable[[Show], Sequence[Heard]]


def right(show: Show, ms: int = 2000) -> list[Heard]:
    return [Typed(show.problem.expected, 900, ms)]


def wrong(show: Show, ms: int = 2000) -> list[Heard]:
    return [Typed("9999" if show.problem.expected != "9999" else "1", 900, ms)]


def not_yet(show: Show) -> list[Heard]:
    return [Typed("", 0, 1500)]


def missing(counts: dict[str, int]) -> Child:
    left = dict(counts)

    def answer(show: Show) -> list[Heard]:
        card = show.problem.card
        if not show.copying and left.get(card, 0) > 0:
            left[card] -= 1
            return not_yet(show) if show.first_meeting else wrong(show)
        return right(show)

    return answer


def play(sitting: Sitting, child: Child = right, so_far: Sequence[Answer] = (), most: int = 500) -> Played:
    state, effects = session.start(sitting, so_far)
    everything = list(effects)
    for _ in range(most):
        if state.ended:
            return Played(tuple(everything), state)
        show = next(effect for effect in reversed(everything) if isinstance(effect, Show))
        for heard in child(show):
            state, effects = session.step(state, heard)
            everything += effects
    raise AssertionError("the sitting did not end")


def fronted(child: Child) -> Front:
    """What a warm-up on a book is played through: the child sits it out, and each answer is kept."""

    def front(
        sitting: Sitting, so_far: Sequence[Answer], keep: Callable[[Answer], None], *_: object
    ) -> Summary:
        played = play(sitting, child, so_far, most=2000)
        for answer in played.answers:
            keep(answer)
        return played.all(End)[-1].summary

    return front


def gaps(cards: Sequence[str], card: str) -> list[int]:
    """How many others stand between the showings of a card."""
    places = [n for n, shown in enumerate(cards) if shown == card]
    return [later - earlier - 1 for earlier, later in pairwise(places)]
