"""The log to histories: what moved the memory of every card, as plain steps that can be fitted to."""

from collections.abc import Iterable, Mapping

from review.core import calibration, curve, marking, moves
from review.core.answer_bodies import event_answer
from review.core.calibration import Moved
from review.core.model import Event, Habits, TraitsOf
from review.core.trace import History, Step, Way

_DEFAULT = Habits()

_WAYS: Mapping[marking.Effect, Way] = {
    "retrieved": "try", "weighed": "try", "not retrieved": "try", "hold": "hold", "halve": "halve",
}  # fmt: skip


def histories(
    events: Iterable[Event], traits: TraitsOf | None = None, ways: Habits = _DEFAULT
) -> list[History]:
    """All of one child's events to a history a card, in the order in which the cards were met. A card that
    was set aside and came back begins another."""
    open_now: dict[str, list[Step]] = {}
    done: list[list[Step]] = []
    for moved in calibration.moves(events, traits, ways):
        step = step_of(moved)
        if step is None:
            continue
        if moved.before.stability is None:
            open_now[moved.event.card] = []
            done.append(open_now[moved.event.card])
        open_now[moved.event.card].append(step)
    return [tuple(steps) for steps in done]


def step_of(moved: Moved) -> Step | None:
    """What an event did to the strength of its card; None: nothing."""
    if moved.event.kind == "known":
        return Step(moved.after.last_day, 0, "known", least=moves.PLACED_FIRST)
    if calibration.is_first_try(moved):
        return _tried(moved)
    return Step(moved.after.seen_day, 0, "look") if _looked(moved) else None


def _looked(moved: Moved) -> bool:
    """Whether this was the one later answer of the day that counts."""
    already = moved.before.looked and moved.before.seen_day == moved.after.seen_day
    return moved.after.looked and not already


def _tried(moved: Moved) -> Step | None:
    before, last = moved.before, moved.after.last_day
    effect = marking.effect(event_answer(moved.event))
    if effect not in _WAYS:
        return None
    return Step(
        last,
        max(0, last - before.last_day) if before.stability is not None else 0,
        _WAYS[effect],
        {"not retrieved": 0.0, "weighed": moved.sure}.get(effect, 1.0),
        _least(moved) if effect in ("retrieved", "weighed") else 0.0,
        float(curve.longest(before.capped)) if effect == "halve" else 0.0,
    )


def _least(moved: Moved) -> float:
    """Known at first sight, it starts far out; known again, farther."""
    if moved.before.placed == 1:
        return moves.PLACED_AGAIN
    return moves.PLACED_FIRST if moved.after.placed == 1 else 0.0
