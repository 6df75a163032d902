"""Answers to memory: a fold over the log.

It trusts nothing but its events, so that a rebuild gives the same bits: no clock, no random number,
whole practice days, values rounded to 6 decimals after each step.
"""

from collections.abc import Iterable

from review.core import correction, curve, habits, marking, own_parameters, working_out
from review.core.amendments import amended, as_they_count, place
from review.core.answer_bodies import event_answer
from review.core.asked import noted
from review.core.model import Answer, CardMemory, Event, Habits, Place, Remembered, TraitsOf
from review.core.moves import MOVES, PLACED_FIRST, By, rated, strength_of, with_strength
from review.core.strength import Parameters, first, rounded
from review.core.traits import of_kinds

HELD_DAYS, HELD_STABILITY = 3, 14.0  # when a card first came to hold, by the curve alone (our judgement)
STUCK_RUN = 3  # first tries missed running, after which a card is taught again rather than asked again
_MEAN_OVER = 8
_LONGEST_MS = 60_000
"""Running means of seconds look back 8 answers; one who left the table counts as a minute (our judgement)."""

_MOST_ORDERS = 4
_EITHER_ORDER = ("sum", "product", "bond")
"""Kinds whose facts are asked in either order; a missing number makes at most four forms."""


def recall(memory: CardMemory, day: int, decay: float = curve.DECAY) -> float | None:
    """The chance of a right, unaided answer on a day by the curve alone; None while nothing was measured."""
    if memory.stability is None:
        return None
    return curve.recall(memory.stability, day - memory.last_day, decay)


# --- the fold -----------------------------------------------------------------------------------------


def fold(events: Iterable[Event], traits: TraitsOf | None = None) -> dict[str, CardMemory]:
    """All of one child's events, of any kind and in any order, to what is remembered of each card.

    What was undone or corrected is collected first, wherever it sorts. With nothing undone or corrected the
    result is that of repeated `follow`.
    """
    return dict(remembered(events, traits).cards)


def remembered(events: Iterable[Event], traits: TraitsOf | None = None) -> Remembered:
    """The same with the habits of the child, by the parameters of the last fit that stands."""
    ordered = sorted(events, key=place)
    return remembered_in_order(ordered, ordered, traits)


def remembered_in_order(
    naming: Iterable[Event], ordered: Iterable[Event], traits: TraitsOf | None = None
) -> Remembered:
    """The same of events in the total order, each looked at once: a log need not be held whole. `naming`: all
    that undoes, corrects or fits, in its order."""
    known = list(naming)
    start = Remembered({}, Habits(parameters=own_parameters.last(as_they_count(known, known))))
    return _followed(start, as_they_count(known, ordered), traits)


def remembered_on(start: Remembered, events: Iterable[Event], traits: TraitsOf | None = None) -> Remembered:
    """The same from what was remembered at a place in the log, by the same fit. The events are all from there
    on, and whatever speaks of them; those before are taken as worked in."""
    told = [event for event in amended(events) if place(event) > start.habits.at]
    return _followed(start, told, traits)


def _followed(start: Remembered, told: Iterable[Event], traits: TraitsOf | None) -> Remembered:
    cards, ways, known = dict(start.cards), start.habits, traits or of_kinds()
    for event in told:
        if event.kind in ("answer", "known"):
            ways, cards[event.card] = follow(ways, cards.get(event.card), event, known)
    return Remembered(cards, ways)


def follow(
    ways: Habits, old: CardMemory | None, event: Event, traits: TraitsOf | None = None
) -> tuple[Habits, CardMemory]:
    """The child's habits and what is remembered of the event's card after it. Kinds that say nothing of one
    card change nothing."""
    if event.kind == "answer":
        return answered(ways, old, event_answer(event), place(event), traits)
    memory = old or CardMemory(event.card)
    if event.kind != "known":
        return ways, memory
    at = place(event)
    return ways._replace(at=at), _said_known(memory, at, ways.parameters or curve.PARAMETERS)


def answered(
    ways: Habits,
    old: CardMemory | None,
    answer: Answer,
    at: Place,
    traits: TraitsOf | None = None,
) -> tuple[Habits, CardMemory]:
    """The child's habits and what is remembered of a card after an answer to it, which stands at `at` in
    the log."""
    memory, ways = old or CardMemory(answer.card), ways._replace(at=at)
    day = max(at[0], memory.seen_day, memory.last_day)
    before = returned(memory, day)
    promised = recall(before, day, correction.decay(ways))
    sure = habits.sureness(ways, answer, correction.recall(ways, before, day))
    by = By(day, at, sure, ways.parameters or curve.PARAMETERS, traits or of_kinds())
    new = _card_after(memory, before, answer, by)
    if _is_fact(answer.card, by.traits):
        ways = working_out.noticed(ways, memory, new, answer)
    if new.tries == memory.tries:
        return habits.copied(ways, answer), new
    return habits.learned(ways, before, answer, sure, promised), new


# --- one answer ---------------------------------------------------------------------------------------


def _card_after(old: CardMemory, before: CardMemory, answer: Answer, by: By) -> CardMemory:
    """`old`: as it was; `before`: the same, or as new where it had been set aside long enough."""
    day = by.day
    if marking.left_open(answer):
        return old._replace(at=by.at)
    if answer.sitting:
        return old._replace(recent=_asked_lately(old, answer, by), beside_day=day, at=by.at)
    memory = _seen(before, answer, by)
    if old.beside_day == day:
        return memory
    if answer.mark == "void" and day not in (old.intro_day, old.last_day):
        return memory._replace(intro_day=day)  # what was told or shown after it is no memory, all that day
    if answer.role == "copy" or answer.mark == "void":
        return memory
    if day in (old.intro_day, old.last_day) and day == old.seen_day:
        return _with_misses(_looked_again(_clocked(memory, answer), answer, by), answer, day)
    if _unknown(memory, answer):
        return _met_unknown(memory, answer, day)
    placed = old.met_day == 0 and marking.quick(answer) and _free_answer(answer.card, by.traits)
    return _with_misses(_first_try(_clocked(memory, answer), answer, placed, by), answer, day)


def returned(memory: CardMemory, day: int) -> CardMemory:
    """A card set aside long enough begins again as new; what was tallied of it stays."""
    if not memory.aside_day or day - memory.aside_day < curve.ASIDE_DAYS:
        return memory
    return memory._replace(
        stability=None, difficulty=None, last_day=0, intro_day=0, aside_day=0, placed=0, gap=0,
        capped=0, known=False,
    )  # fmt: skip


def _seen(memory: CardMemory, answer: Answer, by: By) -> CardMemory:
    """Counts the showing. A copy is no showing of its own: the same problem stood there a moment ago."""
    new_day, copied = memory.seen_day != by.day, answer.role == "copy"
    return memory._replace(
        seen_day=by.day,
        seen_day_shows=(0 if new_day else memory.seen_day_shows) + (not copied),
        seen_day_misses=0 if new_day else memory.seen_day_misses,
        looked=memory.looked and not new_day,
        last_mark=memory.last_mark if copied else answer.mark,
        recent=_asked_lately(memory, answer, by),
        at=by.at,
    )


def _asked_lately(memory: CardMemory, answer: Answer, by: By) -> tuple[str, ...]:
    """With the problem among those that are not asked again soon."""
    if answer.role == "copy" or _is_fact(answer.card, by.traits):
        return memory.recent
    return noted(memory, by.day, answer.asked)


def _clocked(memory: CardMemory, answer: Answer) -> CardMemory:
    """The running means of seconds, apart for right and unaided and for everything else."""
    if answer.end_ms <= 0:
        return memory
    took = min(answer.end_ms, _LONGEST_MS)
    if marking.unaided(answer):
        mean, n = _mean(memory.passed_ms, memory.passed_n, took)
        return memory._replace(passed_ms=mean, passed_n=n)
    mean, n = _mean(memory.other_ms, memory.other_n, took)
    return memory._replace(other_ms=mean, other_n=n)


def _mean(mean: int, n: int, new: int) -> tuple[int, int]:
    over = min(n + 1, _MEAN_OVER)
    return (mean * (over - 1) + new) // over, over


def _unknown(memory: CardMemory, answer: Answer) -> bool:
    """A first meeting, or a probe, that finds the card not known yet."""
    if memory.stability is not None or answer.role not in ("intro", "probe"):
        return False
    return marking.effect(answer) in ("halve", "not retrieved")


def _met_unknown(memory: CardMemory, answer: Answer, day: int) -> CardMemory:
    """Met and not known: no try and no rating until the next practice day. A probe leaves the card unmet."""
    if answer.role == "probe":
        return memory
    return memory._replace(met_day=memory.met_day or day, intro_day=day)


def _looked_again(memory: CardMemory, answer: Answer, by: By) -> CardMemory:
    """A later answer of the same day: it teaches. At most one from memory counts, by the same-day step.

    Misses of it would let one bad evening undo weeks (three cut recall from .76 to under .28, measured here).
    """
    measured = memory.stability is not None and memory.intro_day != by.day
    if memory.looked or not measured or marking.effect(answer) != "retrieved":
        return memory
    return with_strength(memory, rated(memory, 0, True, by))._replace(looked=True)


def _first_try(memory: CardMemory, answer: Answer, placed: bool, by: By) -> CardMemory:
    effect = marking.effect(answer)
    moved = MOVES[effect](memory, by)
    if placed and effect == "retrieved":
        moved = moved._replace(stability=max(PLACED_FIRST, moved.stability or 0.0), placed=1)
    long = moved.right_days >= HELD_DAYS and (moved.stability or 0.0) >= HELD_STABILITY
    return moved._replace(
        met_day=memory.met_day or by.day,
        held_day=memory.held_day or (by.day if long else 0),
        known_day=memory.known_day or (by.day if marking.unaided(answer) else 0),
        last_day=by.day,
        gap=by.day - memory.last_day if memory.last_day else 0,
        miss_run=memory.miss_run + 1 if effect == "not retrieved" else 0,
        tries=memory.tries + 1,
        right=memory.right + marking.unaided(answer),
        orders=_orders(memory.orders, answer, missed=effect == "not retrieved"),
    )


def _orders(
    old: tuple[tuple[str, int, int], ...], answer: Answer, missed: bool
) -> tuple[tuple[str, int, int], ...]:
    """The tally of a fact asked in either order. Rule cards (`nx0`) ask other numbers each time: none."""
    kind, _, content = answer.card.partition(":")
    if kind not in _EITHER_ORDER or "n" in content:
        return old
    tally = {asked: (tries, misses) for asked, tries, misses in old}
    tries, misses = tally.get(answer.asked, (0, 0))
    tally[answer.asked] = (tries + 1, misses + missed)
    return tuple(sorted((asked, *counts) for asked, counts in tally.items()))[:_MOST_ORDERS]


def _with_misses(memory: CardMemory, answer: Answer, day: int) -> CardMemory:
    """With the answer counted where it is a miss: too many of a day, and the third first try missed running,
    set the card aside to be taught (our judgement)."""
    if answer.mark not in ("not_yet", "shown") or answer.aim == "familiarity":
        return memory
    misses = memory.seen_day_misses + 1
    aside = misses >= curve.misses_a_day(answer.age) or memory.miss_run >= STUCK_RUN
    return memory._replace(
        seen_day_misses=misses,
        aside_day=day if aside else memory.aside_day,
        miss_days=0 if aside else memory.miss_days,
        miss_run=0 if aside else memory.miss_run,
    )


def _said_known(memory: CardMemory, at: Place, parameters: Parameters) -> CardMemory:
    """A parent says it is known: it starts as after a right and quick first sight, never weaker than it
    was."""
    day, known = at[0], strength_of(memory) or rounded(*first(parameters, True))
    return with_strength(memory, known)._replace(
        stability=max(PLACED_FIRST, known.stability),
        placed=memory.placed or 1,
        known=True,
        known_day=memory.known_day or day,
        met_day=memory.met_day or day,
        last_day=max(day, memory.last_day),
        aside_day=0,
        intro_day=0,
        at=at,
    )


def _is_fact(key: str, traits: TraitsOf) -> bool:
    try:
        return traits(key).fact
    except (LookupError, ValueError):
        return False


def _free_answer(key: str, traits: TraitsOf) -> bool:
    """Whether an answer cannot be guessed. A kind this version does not know is taken to be so."""
    try:
        return traits(key).choices == 0
    except (LookupError, ValueError):
        return True
