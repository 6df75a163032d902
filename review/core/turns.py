"""What a warm-up asks next, and how it is shown; where nothing is left, how it ends."""

from collections.abc import Sequence

from review.core import liking, sayings, seeds, skills
from review.core.queue import Next, State, Turn, choose, dots, filling, queue_without, role_of
from review.core.warmup import End, Show, Summary

FRESH = 5  # problems of a card before one may come again
REDRAWS = 20  # for a fresh problem of the same kind (our judgement: classes hold ten problems and more)


def with_next(state: State) -> State:
    """The state with its next turn, or ended."""
    state = state._replace(filled=filling(state))
    if state.copy is not None:
        card, asked = state.copy
        return state._replace(
            turn=Turn(card, "copy", asked, len(state.asked[card]) - 1, closing=state.closed)
        )
    found = choose(state)
    if found is None:
        return state._replace(turn=None, ended=True)
    return state._replace(turn=_unlike_last(state, found))


def _unlike_last(state: State, found: Next) -> Turn:
    """The turn of that card; where it has the answer that was just given, of one a little further on in the
    plan, which has another. The last card stays the last, and no new one is moved up."""
    turn = _turn(state, found)
    if found.closing or not _answers_alike(state, turn):
        return turn
    queue = queue_without(state.queue, found.item.key, once=False)
    other = choose(state._replace(queue=queue))
    if other is None or other.item not in queue or other.item.why == "new":
        return turn
    instead = _turn(state, other)
    return turn if _answers_alike(state, instead) else instead


def _turn(state: State, found: Next) -> Turn:
    card = found.item.key
    showing = len(state.asked.get(card, ()))
    return Turn(card, role_of(state, found.item), _drawn(state, card, showing), showing, found.closing)


def _answers_alike(state: State, turn: Turn) -> bool:
    """Whether the answer is that of the problem before. Of two or three choices one comes twice as it falls:
    what never does can be guessed."""
    asked = state.asked.get(state.last)
    if not asked or skills.traits(turn.card).choices:
        return False
    return skills.undrawn(state.last, asked[-1]).expected == skills.undrawn(turn.card, turn.asked).expected


def _drawn(state: State, card: str, showing: int) -> str:
    """What the card asks: none of its last five problems, where it has others, else the one longest ago. Of a
    fact whose one order is harder, that one where either of two draws brings it, which is three times in four
    (our judgement: it comes three times for once of the other, which is not forgotten over it). Second looks
    are even: they are no first tries, by which orders are compared."""
    sitting = state.sitting
    source = seeds.problem_source(sitting.book, sitting.child, sitting.plan.day, card, showing)
    before = (*sitting.lately.get(card, ()), *state.asked.get(card, ()))[-FRESH:]
    if suspected := sitting.plan.suspected.get(card):
        from review.core import tell_apart  # few sittings need it

        return tell_apart.drawn(card, source, suspected, before)
    first = skills.draw(card, source)
    if not showing and (harder := sitting.harder.get(card)):
        return harder if harder in (first, skills.draw(card, source)) else first
    if first not in before or skills.traits(card).fact:
        return first
    others = (skills.draw(card, source) for _ in range(REDRAWS))
    return min((first, *others), key=lambda asked: _asked_at(before, asked))


def _asked_at(before: Sequence[str], asked: str) -> int:
    """Its last place in what was asked before; -1 where it was not."""
    return max((n for n, earlier in enumerate(before) if earlier == asked), default=-1)


def shown(state: State) -> Show | End:
    turn = state.turn
    if turn is None:
        last = sayings.ENOUGH if state.sitting.sort == "extra" else sayings.DONE
        return ended(state, last, finished=True)
    named, liked = liking.followed(state, turn.card)
    return Show(
        state.tally.answers + 1,
        skills.undrawn(turn.card, turn.asked),
        first_meeting=turn.role == "intro",
        second_look=turn.role == "ask" and turn.showing > 0,
        copying=turn.role == "copy",
        dots=dots(state, turn.closing),
        helped=turn.helped,
        named=named,
        liked=liked,
    )


# --- the end ------------------------------------------------------------------------------------------


def ended(state: State, last: str, finished: bool) -> End:
    """The closing lines, the last of them as given, and what was counted."""
    tally = state.tally
    counted = Summary(tally.used_ms / 1000, tally.first_tries, tally.right, tally.new, finished)
    return End((*_best_line(state), last), counted)


def _best_line(state: State) -> tuple[str, ...]:
    """One thing known now and not before, or the effort on one; nothing is counted."""
    if state.learned:
        card, asked = state.learned[-1]
        found = sayings.KNOWN_NOW if skills.traits(card).fact else sayings.WORKED_OUT
        return skills.problem(card, asked).told, found
    if state.worked:
        return sayings.EFFORT, skills.problem(*state.worked).told
    return ()
