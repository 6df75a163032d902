"""What a sitting asks besides its problems: an answer once more, and how one was found."""

from collections.abc import Iterator, Sequence

import pytest

from review.core import sayings, session
from review.core.model import Answer
from review.core.queue import State
from review.core.warmup import (
    AskAgain,
    AskHelp,
    AskRecalled,
    Effect,
    Heard,
    PassOn,
    Record,
    Say,
    Show,
    Sitting,
    Stop,
    Typed,
)
from tests.core.sittings import DUE, NEW, due, item, missing, play, right, usual

LOOK = AskAgain(sayings.LOOK_ONCE_MORE)
ASK = AskRecalled(sayings.FROM_MEMORY)


def at(sitting: Sitting, card: str) -> tuple[State, Show]:
    """Where the card is shown, everything before it right."""
    state, effects = session.start(sitting)
    while True:
        show = effects[-1]
        assert isinstance(show, Show)
        if show.problem.card == card:
            return state, show
        state, effects = session.step(state, *right(show))


def hear(state: State, *many: Heard) -> tuple[State, list[tuple[Effect, ...]]]:
    said = []
    for heard in many:
        state, effects = session.step(state, heard)
        said.append(effects)
    return state, said


def kept(said: Sequence[tuple[Effect, ...]]) -> list[Answer]:
    return [effect.answer for effects in said for effect in effects if isinstance(effect, Record)]


# --- once more ----------------------------------------------------------------------------------------


def test_a_slip_is_asked_once_more_and_then_right_without_a_time() -> None:
    state, _ = at(usual(*due(*DUE), timed=DUE), "product:6x7")
    _, said = hear(state, Typed("422", 900, 2000), Typed("42", 4000, 30_000))
    assert said[0] == (LOOK,)
    (row,) = kept(said)
    assert (row.given, row.slipped, row.mark) == ("42", "422", "right")
    assert (row.first_ms, row.end_ms) == (0, 0)


def test_what_is_not_right_then_goes_the_way_of_a_miss() -> None:
    state, _ = at(usual(*due(*DUE)), "product:6x7")
    _, said = hear(state, Typed("422", 900, 2000), Typed("442", 900, 5000))
    (row,) = kept(said)
    assert (row.given, row.slipped, row.mark, row.end_ms) == ("442", "422", "not_yet", 5000)
    assert any(isinstance(effect, Say) and effect.hold for effect in said[-1])


@pytest.mark.parametrize(
    ("heard", "mark"), [(PassOn(4000), "shown"), (Typed("42", 900, 3000, helped=3), "right_helped")]
)
def test_help_and_pass_after_a_slip_are_what_they_are(heard: Heard, mark: str) -> None:
    state, _ = at(usual(*due(*DUE)), "product:6x7")
    (row,) = kept(hear(state, Typed("422", 900, 2000), heard)[1])
    assert (row.mark, row.slipped) == (mark, "422")


def test_an_empty_enter_after_a_slip_is_asked_again_as_ever() -> None:
    state, _ = at(usual(*due(*DUE)), "product:6x7")
    _, said = hear(state, Typed("422"), Typed(""), AskHelp(), Typed("42", 900, 3000))
    assert said[1] == (AskAgain(sayings.NOTHING_TYPED),)
    assert [row.slipped for row in kept(said)] == ["422"]


def test_where_a_number_is_asked_for_an_empty_enter_is_told_of_a_number() -> None:
    days = "pairs:Days%20in%20a%20week%3A=7"
    _, said = hear(at(usual(*due(days)), days)[0], Typed(""))
    assert said[-1] == (AskAgain(sayings.NOTHING_TYPED),)


def test_at_most_two_slips_of_a_sitting_are_asked_once_more() -> None:
    def slips(show: Show) -> list[Heard]:
        digits = show.problem.expected
        return (
            [Typed(digits + digits[-1], 900, 2000)] if len(digits) > 1 and not show.copying else right(show)
        )

    played = play(usual(*due("product:6x7", "sum:8+9", "product:8x9", "product:3x4")), slips)
    assert played.effects.count(LOOK) == 2
    assert len([row for row in played.answers if row.slipped]) == 2
    assert len([row for row in played.answers if row.mark == "not_yet"]) > 2


def test_a_slip_is_seen_at_a_first_meeting_but_not_in_a_copy() -> None:
    state, _ = at(usual(*due(*DUE[:3]), item(NEW[0], "new")), NEW[0])
    assert hear(state, Typed("566"))[1] == [(LOOK,)]
    state, _ = at(usual(*due(*DUE)), "product:6x7")
    state, said = hear(state, Typed("9999"), Typed("422", 900, 2000))
    assert [row.role for row in kept(said)] == ["ask", "copy"]
    assert not any(LOOK in effects for effects in said)


def test_a_slip_is_seen_at_a_second_look() -> None:
    def slips_then(show: Show) -> list[Heard]:
        second = show.second_look and show.problem.card == DUE[0]
        return [Typed("422", 900, 2000), *right(show)] if second else [*missed(show)]

    missed = missing({DUE[0]: 1})
    rows = [row for row in play(usual(*due(*DUE)), slips_then).answers if row.card == DUE[0]]
    assert [(row.role, row.slipped) for row in rows] == [("ask", ""), ("copy", ""), ("ask", "422")]


def test_an_answer_over_a_stopped_process_is_not_asked_once_more() -> None:
    state, _ = at(usual(*due(*DUE)), "product:6x7")
    (row,) = kept(hear(state, Typed("422", 900, 2000, suspended=True))[1])
    assert (row.mark, row.slipped) == ("void", "")


def test_stopped_between_the_two_nothing_is_kept_and_the_problem_comes_afresh() -> None:
    sitting = usual(*due(*DUE))
    state, show = at(sitting, "product:6x7")
    _, said = hear(state, Typed("422", 900, 2000), Stop())
    assert kept(said) == []
    again, _ = at(sitting, "product:6x7")
    assert again == state
    state, said = hear(again, Typed("422", 900, 2000), Typed(show.problem.expected, 900, 2000))
    assert said[0] == (LOOK,)


def sittings(person: bool = True) -> Iterator[Sitting]:
    """Many children with the same plan: each draws questions of its own."""
    for child in range(60):
        sitting = usual(*due(*DUE), timed=DUE)
        yield sitting._replace(child=str(child), person=person)


def checked() -> tuple[State, Show]:
    """Where an answer that was right is asked once more."""
    for sitting in sittings():
        state, effects = session.start(sitting)
        while not state.ended:
            show = effects[-1]
            assert isinstance(show, Show)
            before = state
            state, effects = session.step(state, *right(show))
            if effects == (LOOK,):
                return before, show
            if effects == (ASK,):
                state, effects = session.step(state, Typed(""))
    raise AssertionError("never")


@pytest.mark.parametrize("text", ["", "41"])
def test_an_answer_that_was_right_stands_whatever_is_typed_then(text: str) -> None:
    before, show = checked()
    expected = show.problem.expected
    _, said = hear(before, Typed(expected, 900, 2000), Typed(text or expected, 900, 9000))
    (row,) = kept(said)
    assert (row.mark, row.slipped, row.first_ms, row.end_ms) == ("right", expected, 900, 2000)
    assert row.given == (text or expected)
    (told,) = [effect for effect in said[-1] if isinstance(effect, Say)]
    assert not told.hold
    assert told.text == (show.problem.told if text else "")


def test_to_be_asked_once_more_tells_nothing() -> None:
    """With a slip in one of a hundred answers (copy typing: 1 to 3 of 100, from memory), right answers are
    asked once more no less often."""
    played = [play(sitting) for sitting in sittings()]
    shown = sum(len(one.shows) for one in played)
    assert sum(one.effects.count(LOOK) for one in played) >= shown / 100


def test_a_program_is_never_asked_besides() -> None:
    for sitting in sittings(person=False):
        assert not {LOOK, ASK} & {*play(sitting, lambda show: right(show, 5000)).effects}


# --- how it was found ---------------------------------------------------------------------------------


def in_doubt(sitting: Sitting) -> tuple[State, State] | None:
    """Before and after the first answer of which it is asked how it was found."""
    state, effects = session.start(sitting)
    while not state.ended:
        show = effects[-1]
        assert isinstance(show, Show)
        before = state
        state, effects = session.step(state, Typed(show.problem.expected, 900, 5000))
        if effects == (LOOK,):
            state, effects = session.step(state, Typed(show.problem.expected, 900, 5000))
        if effects == (ASK,):
            return before, state
    return None


@pytest.mark.parametrize(
    ("heard", "recalled"), [(Typed("m"), "yes"), (Typed("w"), "no"), (Typed(""), ""), (AskHelp(), "")]
)
def test_what_the_child_says_is_kept_with_the_answer(heard: Heard, recalled: str) -> None:
    _, waiting = next(found for found in map(in_doubt, sittings()) if found)
    _, said = hear(waiting, heard)
    assert [type(effect) for effect in said[0]] == [Record, Say, Show]
    (row,) = kept(said)
    assert (row.recalled, row.end_ms) == (recalled, 5000)
    assert row.mark in ("right", "right_slow")


def test_a_stop_instead_keeps_the_answer() -> None:
    _, waiting = next(found for found in map(in_doubt, sittings()) if found)
    state, said = hear(waiting, Stop())
    assert state.ended
    assert [row.recalled for row in kept(said)] == [""]


def test_it_is_asked_of_about_one_in_four_and_twice_at_most() -> None:
    """Twelve facts a sitting that take 5 s with their typing: a quarter is three, so most sittings ask
    twice."""
    asked = [
        play(sitting, lambda show: [Typed(show.problem.expected, 900, 5000)]).effects.count(ASK)
        for sitting in sittings()
    ]
    assert max(asked) == 2
    assert 1.2 < sum(asked) / len(asked) < 2


def test_a_front_that_says_it_itself_is_not_asked() -> None:
    for sitting in sittings():
        played = play(sitting, lambda show: [Typed(show.problem.expected, 900, 5000, recalled="yes")])
        assert ASK not in played.effects
