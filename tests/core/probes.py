"""Placements played to their end by children who know what they know."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from review import catalogue
from review.core import card_sets, item_choice, placement, skills
from review.core.item_choice import Probing
from review.core.model import Answer, Card
from review.core.warmup import Effect, Heard, Record, Show, Typed

Child = Callable[[Show], Heard]


DAY = 738000
TIMES = "times-2-5-10"
SURE = ("sum:2+2", "double:5")


def a_probing(name: str = TIMES, **changes: object) -> Probing:
    found = catalogue.shipped(name)
    cards = card_sets.cards([found])
    items = item_choice.items(cards, {card.key: skills.traits(card.key) for card in cards})
    by_key = {card.key: card for card in cards}
    open_keys = tuple(key for key in items if item_choice.may_ask(items[key], by_key[key], None))
    elsewhere = {key: Card(key, key.partition(":")[0], "a-skill", "a-set", "fluency", 0) for key in SURE}
    whole = Probing("a-book", "a-child", "Tove", 9, DAY, items, open_keys, {**elsewhere, **by_key})
    return whole._replace(**changes)  # type: ignore[arg-type]


class Sat(NamedTuple):
    effects: tuple[Effect, ...]
    answers: tuple[Answer, ...]

    @property
    def keys(self) -> list[str]:
        return [answer.card for answer in self.answers]

    @property
    def misses(self) -> int:
        return sum(not item_choice.is_well(answer) for answer in self.answers)


def sat(probing: Probing, child: Child, so_far: Sequence[Answer] = (), most: int = 100) -> Sat:
    """Played to its end, or until so many answers were given."""
    state, effects = placement.start(probing, so_far)
    everything, kept = list(effects), list(so_far)
    for _ in range(most):
        if state.ended:
            break
        show = next(one for one in reversed(everything) if isinstance(one, Show))
        state, effects = placement.step(state, child(show))
        everything += effects
        kept += [one.answer for one in effects if isinstance(one, Record)]
    return Sat(tuple(everything), tuple(kept))


def knows_all(show: Show) -> Heard:
    return Typed(show.problem.expected, 900, 2000)


def knows_none(show: Show) -> Heard:
    return Typed("", 0, 1500)


def knows(keys: set[str]) -> Child:
    return lambda show: knows_all(show) if show.problem.card in keys else knows_none(show)
