"""What a child may press in a warm-up besides an answer: help, pass, stop, nothing, what cannot be read."""

from review.core import sayings, session, skills
from review.core.warmup import (
    AskAgain,
    AskHelp,
    End,
    Helped,
    Note,
    PassOn,
    Record,
    Show,
    Stop,
    Typed,
)
from tests.core.sittings import (
    DUE,
    Child,
    due,
    missing,
    play,
    right,
    usual,
)


def test_help_comes_a_step_at_a_time_and_says_when_none_is_left() -> None:
    state, effects = session.start(usual(*due(*DUE[:2])))
    (show,) = effects
    assert isinstance(show, Show)
    helps = skills.problem(show.problem.card, show.problem.asked).helps
    for expected in helps:
        state, effects = session.step(state, AskHelp())
        assert effects == (Helped(expected),)
    state, effects = session.step(state, AskHelp())
    assert effects == (AskAgain(sayings.NO_MORE_HELP),)
    state, effects = session.step(state, Typed(show.problem.expected, 900, 2000))
    record = effects[0]
    assert isinstance(record, Record)
    assert record.answer.help == helps[-1].step
    assert record.answer.mark == "right_helped"


def test_nobody_need_type_a_word_to_give_up() -> None:
    """Asked for once more when no help is left, the answer is shown, as after `pass`; its time is kept."""
    state, effects = session.start(usual(*due(*DUE[:2])))
    (show,) = effects
    assert isinstance(show, Show)
    for _ in skills.problem(show.problem.card, show.problem.asked).helps:
        state, _ = session.step(state, AskHelp())
    by_word = session.step(state, PassOn(7000))
    state, effects = session.step(state, AskHelp(5000))
    assert effects == (AskAgain(sayings.NO_MORE_HELP),)
    assert session.step(state, Typed("")) == (state, effects)  # and none is promised to an empty line
    state, effects = session.step(state, AskHelp(7000))
    assert effects == by_word[1]
    record = effects[0]
    assert isinstance(record, Record)
    assert (record.answer.mark, record.answer.end_ms) == ("shown", 7000)
    assert state.turn is not None
    assert not state.turn.spent


def test_help_shown_by_a_front_counts_as_help_asked_for() -> None:
    state, effects = session.start(usual(*due(*DUE[:2])))
    show = effects[0]
    assert isinstance(show, Show)
    _, effects = session.step(state, Typed(show.problem.expected, 900, 2000, helped=2))
    assert isinstance(effects[0], Record)
    assert effects[0].answer.help == show.problem.helps[1].step


def test_help_while_copying_tells_the_fact_again() -> None:
    played = play(
        usual(*due(*DUE[:5])),
        lambda show: [AskHelp(), *right(show)] if show.copying else missing({DUE[0]: 1})(show) if show.n == 3
        else right(show),
    )  # fmt: skip
    (helped,) = played.all(Helped)
    assert helped.help.text.endswith("makes 42.")
    assert next(row for row in played.answers if row.role == "copy").mark == "right"


def test_what_is_copied_is_told_again_once_and_then_it_goes_on() -> None:
    """How to see it is said to nobody who sees it already."""
    played = play(
        usual(*due(*DUE[:5])),
        lambda show: [AskHelp(), AskHelp(7000)] if show.copying else missing({DUE[0]: 1})(show) if show.n == 3
        else right(show),
    )  # fmt: skip
    assert len(played.all(Helped)) == 1
    assert not played.all(AskAgain)
    copy = next(row for row in played.answers if row.role == "copy")
    assert (copy.mark, copy.end_ms) == ("shown", 7000)


def test_an_empty_enter_is_asked_again_and_counts_for_nothing() -> None:
    state, _ = session.start(usual(*due(*DUE[:2])))
    same, effects = session.step(state, Typed("  "))
    assert effects == (AskAgain("Type a number, or ? for help."),)
    assert same == state


def test_what_cannot_be_read_is_asked_again_once() -> None:
    state, _ = session.start(usual(*due(*DUE[:2])))
    state, effects = session.step(state, Typed("blue"))
    assert [type(effect) for effect in effects] == [AskAgain]
    _, effects = session.step(state, Typed("green", 800, 2000))
    assert isinstance(effects[0], Record)
    assert effects[0].answer.mark == "not_yet"
    assert effects[0].answer.given == "green"


def test_four_unreadable_answers_running_offer_a_stop() -> None:
    scribble: Child = lambda show: [Typed("q", 900, 2000), Typed("w", 900, 2000)]  # noqa: E731
    played = play(usual(*due(*DUE[:4])), scribble)
    places = [n for n, effect in enumerate(played.effects) if isinstance(effect, Note)]
    before = [effect for effect in played.effects[: places[0]] if isinstance(effect, Record)]
    assert len(before) == 2  # two answers, each asked for twice
    assert played.effects[places[0]] == Note(sayings.MAY_STOP)


def test_pass_shows_the_answer_and_goes_the_way_of_a_miss() -> None:
    played = play(
        usual(*due(*DUE)),
        lambda show: [PassOn(1200)] if show.problem.card == DUE[0] and show.n == 3 else right(show),
    )
    rows = [row for row in played.answers if row.card == DUE[0]]
    assert [(row.role, row.mark) for row in rows] == [("ask", "shown"), ("copy", "right"), ("ask", "right")]
    assert rows[0].end_ms == 1200


def test_stop_ends_with_everything_kept() -> None:
    state, _ = session.start(usual(*due(*DUE[:2])))
    state, effects = session.step(state, Stop())
    assert state.ended
    (end,) = effects
    assert isinstance(end, End)
    assert end.lines == (sayings.GO_ON,)
    assert not end.summary.finished
    again, effects = session.step(state, Typed("4", 1, 1))
    assert again == state
    assert isinstance(effects[0], End)


def test_a_trial_that_is_stopped_is_not_told_to_go_on_later() -> None:
    """Nothing of it is kept."""
    state, _ = session.start(usual(*due(*DUE[:2]))._replace(keep=False))
    _, (end,) = session.step(state, Stop())
    assert isinstance(end, End)
    assert end.lines == (sayings.ENOUGH,)
