"""The copying exercise: what it asks, when it ends, and the child's own time it leaves in the log."""

from math import exp, log

from hypothesis import given
from hypothesis import strategies as st

from review.core import copying, habits, keys, marking, memory, sayings
from review.core.answer_bodies import answer_body
from review.core.copying import Copying
from review.core.model import Answer, Event
from review.core.warmup import AskAgain, AskHelp, End, Heard, PassOn, Record, Show, Stop, Typed

NINE = Copying("a-book", "ab" * 16, "Fenn", 9, 739_700)


def played(heard: list[Heard], one: Copying = NINE) -> tuple[list[Answer], copying.State]:
    state, _ = copying.start(one)
    rows: list[Answer] = []
    for said in heard:
        if state.ended:
            break
        state, effects = copying.step(state, said)
        rows += [effect.answer for effect in effects if isinstance(effect, Record)]
    return rows, state


def copied(ms: int, one: Copying = NINE) -> list[Heard]:
    """Every number as it is seen, in that time."""
    return [Typed(asked, 400, ms) for _, asked in copying.numbers(one)]


def events(rows: list[Answer]) -> list[Event]:
    return [
        Event(1, n, "ab" * 16, "answer", NINE.day, n, n, 0, row.card, answer_body(row))
        for n, row in enumerate(rows, 1)
    ]


def test_ten_numbers_of_one_digit_and_ten_of_two_none_twice() -> None:
    asked = [asked for _, asked in copying.numbers(NINE)]
    assert [len(one) for one in asked] == [1] * 10 + [2] * 10
    assert len(set(asked)) == 20
    assert all(
        keys.well_formed(card) and keys.kind_of(card) == "copying" for card, _ in copying.numbers(NINE)
    )
    assert copying.numbers(NINE) != copying.numbers(NINE._replace(day=739_701))


@given(st.integers(250, 8000))
def test_it_ends_after_twenty_or_a_minute(ms: int) -> None:
    rows, state = played(copied(ms))
    assert state.ended
    assert len(rows) == min(20, -(-60_000 // ms))


def test_the_childs_own_time_comes_out_of_it() -> None:
    """A child of nine who takes 1.5 times what is usual at nine, to within rounding."""
    usual = {digits: marking.copying_ms(9, digits) for digits in (1, 2)}
    heard: list[Heard] = [Typed(asked, 400, usual[len(asked)] * 3 // 2) for _, asked in copying.numbers(NINE)]
    found = memory.remembered(events(played(heard)[0])).habits
    own = habits.copying_ms(found, 9)
    assert abs(own[0] / usual[1] - 1.5) < 0.01
    assert abs(own[1] / usual[2] - 1.5) < 0.01
    assert abs(found.copying[1] - log(1.5)) < 0.01
    assert exp(found.copying[1]) > 1


def test_a_slip_and_a_pause_say_nothing_of_the_time() -> None:
    clean = memory.remembered(events(played(copied(1500))[0])).habits.copying
    first, *others = copying.numbers(NINE)
    slip: list[Heard] = [Typed(f"{first[1]}{first[1]}", 300, 9000)]
    away: list[Heard] = [Typed(others[0][1], 300, 9000, suspended=True)]
    rest = copied(1500)[2:]
    rows, _ = played([*slip, *away, *rest])
    assert [row.mark for row in rows[:2]] == ["not_yet", "void"]
    assert memory.remembered(events(rows)).habits.copying[1] <= max(clean[1], 0) + 0.1


def test_it_is_no_memory_of_any_card() -> None:
    for found in memory.fold(events(played(copied(1500))[0])).values():
        assert (found.stability, found.tries, found.met_day, found.seen_day) == (None, 0, 0, 0)


def test_nothing_is_said_of_a_number_and_nothing_typed_is_asked_again() -> None:
    state, (show,) = copying.start(NINE)
    assert isinstance(show, Show)
    assert show.dots == (0, 20)
    for heard in (Typed(""), Typed("  "), AskHelp()):
        same, effects = copying.step(state, heard)
        assert (same, effects) == (state, (AskAgain(copying.TYPE_IT),))
    _, effects = copying.step(state, PassOn(900))
    assert [type(effect) for effect in effects] == [Record, Show]
    stopped, effects = copying.step(state, Stop())
    assert stopped.ended
    assert isinstance(effects[-1], End)
    assert (effects[-1].lines, effects[-1].summary.finished) == ((sayings.GO_ON,), False)


def test_the_words_are_for_a_child() -> None:
    problem = copying.problem(*copying.numbers(NINE)[0])
    for text in (copying.TYPE_IT, copying.DONE, problem.prompt):
        assert len(text) <= 40
        assert len(text.split()) < 8
