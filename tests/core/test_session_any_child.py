"""What holds of a sitting whatever is pressed."""

from collections.abc import Sequence
from itertools import pairwise, permutations

from hypothesis import given, settings
from hypothesis import strategies as st

from review.core import sayings, session, skills
from review.core.answers import judge
from review.core.doubts import MOST
from review.core.model import Aim, Answer, Problem
from review.core.queue import SURE_FIRST, State, alike
from review.core.skills import fact_cards
from review.core.slips import MOST_CHECKS, MOST_SLIPS
from review.core.warmup import (
    AskAgain,
    AskHelp,
    AskRecalled,
    Effect,
    End,
    Heard,
    PassOn,
    Record,
    Say,
    Show,
    Sitting,
    Stop,
    Told,
    Typed,
    Why,
)
from tests.core.sittings import DUE, NEW, PROCEDURE, RESERVE, a_sitting, due, item, play

# --- any child at all ---------------------------------------------------------------------------------

EVERY = (*DUE, *NEW, PROCEDURE, "mental-sum:2+1/regroup-ones", "double:12")
TURNED = ("product:6x7", "sum:8+9", "product:3x4", "product:7x8", "sum:5+7")  # facts of two orders


@st.composite
def sittings(draw: st.DrawFn) -> Sitting:
    keys = draw(st.lists(st.sampled_from(EVERY), unique=True, max_size=10))
    whys: list[Why] = [draw(st.sampled_from(("due", "due", "new", "slip", "sure"))) for _ in keys]
    aims: dict[str, Aim] = {
        key: draw(st.sampled_from(("fluency", "accuracy", "familiarity"))) for key in keys
    }
    return a_sitting(
        *(item(key, why) for key, why in zip(keys, whys, strict=True)),
        age=draw(st.integers(6, 11)),
        minutes=draw(st.sampled_from((0.0, 0.3, 1.0, 5.0))),
        reserve=RESERVE[: draw(st.integers(0, 3))],
        recent=draw(st.lists(st.booleans(), max_size=10)),
        pace=draw(st.integers(0, 4)),
        aims=aims,
        timed=keys[::2],
    )._replace(
        person=draw(st.booleans()),
        child=draw(st.sampled_from("abcdefgh")),
        harder={key: draw(st.sampled_from(fact_cards.showings(key))) for key in keys if key in TURNED},
    )


MOVES = st.sampled_from(
    (
        "right",
        "right",
        "right",
        "wrong",
        "empty",
        "scribble",
        "help",
        "pass",
        "void",
        "slow",
        "slip",
        "slip",
        "turned",
        "between",
        "between",
        "m",
        "w",
        "told memory",
        "told worked",
        "told not_yet",
    )
)


def heard(move: str, show: Show) -> Heard:
    expected = show.problem.expected
    meant: dict[str, Heard] = {
        "right": Typed(expected, 700, 2500),
        "wrong": Typed("1234567", 700, 2500),
        "empty": Typed("", 0, 900),
        "scribble": Typed("ax?\x00é", 700, 2500),
        "help": AskHelp(),
        "pass": PassOn(1500),
        "void": Typed(expected, 700, 2500, suspended=True),
        "slow": Typed(expected, 700, 25_000),
        "slip": Typed(f"{expected[0]}{expected}", 700, 2500),
        "turned": Typed(expected[::-1], 700, 2500),
        "between": Typed(expected, 700, 5000),
        "m": Typed("m", 700, 1000),
        "w": Typed("w", 700, 1000),
        "told memory": Told("memory"),
        "told worked": Told("worked"),
        "told not_yet": Told("not_yet"),
    }
    return meant[move]


def wander(sitting: Sitting, moves: Sequence[str]) -> tuple[list[State], list[tuple[Effect, ...]], bool]:
    """Play these moves; afterwards everything is right. Returns the states and effects, answer by answer."""
    state, effects = session.start(sitting)
    states, said = [state], [effects]
    script = [*moves, *["right"] * 200]
    for move in script:
        if state.ended:
            return states, said, True
        show = next(e for es in reversed(said) for e in reversed(es) if isinstance(e, Show))
        state, effects = session.step(state, heard(move, show))
        states.append(state)
        said.append(effects)
    return states, said, False


@settings(max_examples=150)
@given(sittings(), st.lists(MOVES, max_size=60))
def test_whatever_is_pressed(sitting: Sitting, moves: list[str]) -> None:
    """It ends; each answer is kept before anything is said; nothing comes twice running; what was right at
    once does not come back; dots never empty; every card shown was planned."""
    _, said, ended = wander(sitting, moves)
    assert ended
    shown = [e for es in said for e in es if isinstance(e, Show) and not e.copying]
    cards = [show.problem.card for show in shown]
    assert all(one != other for one, other in pairwise(cards))
    assert {*cards} <= {*sitting.cards}
    for effects in said[1:]:
        kinds = [type(effect) for effect in effects]
        assert kinds.count(Record) == kinds.count(Say) or kinds == [Record, End]
        assert Say not in kinds or kinds[0] is Record
    firsts: dict[str, Answer] = {}
    for row in (e.answer for es in said for e in es if isinstance(e, Record)):
        first = firsts.setdefault(row.card, row)
        assert first is row or first.mark not in ("right", "right_slow")
    filled = [show.dots[0] for show in shown]
    assert filled == sorted(filled)


@settings(max_examples=150)
@given(sittings(), st.lists(MOVES, max_size=60), st.data())
def test_stop_and_resume_is_as_if_nothing_had_been(
    sitting: Sitting, moves: list[str], data: st.DataObject
) -> None:
    states, said, _ = wander(sitting, moves)
    cut = data.draw(st.integers(0, len(states) - 1))
    if states[cut].ended:
        return
    stopped = session.step(states[cut], Stop())[1]
    rows = [e.answer for es in (*said[: cut + 1], stopped) for e in es if isinstance(e, Record)]
    state, effects = session.start(sitting, rows)
    assert settled(state) == settled(answered(states[cut]))
    assert isinstance(effects[-1], Show | End)


def answered(state: State) -> State:
    """An answer of which it is asked how it was found is kept by a stop, as it is by an Enter."""
    waits = state.turn is not None and state.turn.waiting is not None
    return session.step(state, Typed(""))[0] if waits else state


def settled(state: State) -> State:
    """Without what is not kept: that one answer could not be read, or was asked once more, and a second look
    at what was told."""
    if state.turn is None:
        return state
    helped = 0 if state.turn.role == "copy" else state.turn.helped
    return state._replace(turn=state.turn._replace(unread=0, tried=None, helped=helped))


@settings(max_examples=60)
@given(sittings(), st.lists(MOVES, max_size=60))
def test_like_cards_follow_each_other_only_where_nothing_unlike_waits(
    sitting: Sitting, moves: list[str]
) -> None:
    """Among the planned cards next in line; second looks and sure cards have reasons of their own."""
    states, _, _ = wander(sitting, moves)
    for state in states:
        if state.turn is None or state.turn.role != "ask" or not state.queue or state.turn.closing:
            continue
        first = state.queue[0]
        if first.why == "sure" and state.tally.cards < SURE_FIRST:
            continue
        if state.turn.card == first.key and alike(state, first.key):
            assert all(alike(state, other.key) or other.why == "new" for other in state.queue[:5])


def test_in_every_order_like_cards_follow_each_other_only_where_nothing_unlike_is_left() -> None:
    """All 120 orders of five cards: any two of the three products share a table, the others nothing."""
    cards = ("product:6x7", "product:6x8", "product:7x8", "sum:8+9", "half:18")
    alike_at_last = 0
    for order in permutations(cards):
        shown = play(a_sitting(*due(*order), reserve=())).cards
        assert sorted(shown) == sorted(cards)
        pairs = [(one, other, shown[at + 2 :]) for at, (one, other) in enumerate(pairwise(shown))]
        together = [left for one, other, left in pairs if one[:7] == other[:7] == "product"]
        assert all(card.startswith("product") for left in together for card in left)
        alike_at_last += bool(together)
    assert 0 < alike_at_last < 120


@settings(max_examples=150)
@given(sittings(), st.lists(MOVES, max_size=60))
def test_little_is_asked_besides_and_nothing_is_kept_before_it_is_answered(
    sitting: Sitting, moves: list[str]
) -> None:
    """Slips twice, checks once, doubts twice a sitting; the last two of a person only; never of a copy."""
    _, said, _ = wander(sitting, moves)
    effects = [effect for many in said for effect in many]
    rows = [effect.answer for effect in effects if isinstance(effect, Record)]
    slipped = [row for row in rows if row.slipped]
    first_right = [row for row in slipped if judge(problem_of(row), row.slipped) == "right"]
    assert len(slipped) - len(first_right) <= MOST_SLIPS
    assert len(first_right) <= (MOST_CHECKS if sitting.person else 0)
    assert sum(isinstance(effect, AskRecalled) for effect in effects) <= (MOST if sitting.person else 0)
    assert all(row.role != "copy" for row in slipped)
    assert all(row.end_ms == 0 for row in slipped if row.mark == "right" and row not in first_right)
    assert all(many in ((), (LOOK,), (ASK,)) or (LOOK not in many and ASK not in many) for many in said)


LOOK, ASK = AskAgain(sayings.LOOK_ONCE_MORE), AskRecalled(sayings.FROM_MEMORY)


def problem_of(row: Answer) -> Problem:
    return skills.problem(row.card, row.asked)
