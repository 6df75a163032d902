"""What a sitting keeps, how it is brought back, and the words it uses."""

import re
from collections.abc import Sequence

import pytest

from review.core import marking, sayings, session
from review.core.skills.wording import in_words
from review.core.warmup import AskAgain, AskHelp, End, Heard, Record, Say, Show, Sitting, Stop, Typed
from tests.core.sittings import (
    DUE,
    PROCEDURE,
    a_sitting,
    due,
    item,
    missing,
    play,
    right,
    usual,
)

# --- what is kept -------------------------------------------------------------------------------------


def test_a_row_says_by_what_it_was_judged() -> None:
    sitting = usual(*due(*DUE[:2]), age=9, timed=[DUE[0]])
    rows = {row.card: row for row in play(sitting, lambda show: right(show, 9000)).answers}
    timed, untimed = rows[DUE[0]], rows[DUE[1]]
    assert timed.slow_ms == marking.slow_ms(9)
    assert untimed.slow_ms == 0
    assert (timed.mark, untimed.mark) == ("right_slow", "right")
    assert timed.copy_ms == marking.copying_ms(9, 2, ())
    assert (timed.age, timed.rule, timed.aim, timed.first_ms, timed.end_ms) == (
        9,
        marking.RULE,
        "fluency",
        900,
        9000,
    )


def test_the_time_of_a_copy_never_counts() -> None:
    """Of a card whose time does: what was copied slowly is right, and says how long copying takes."""
    sitting = usual(*due(*DUE), age=9, timed=[DUE[0]])
    child = missing({DUE[0]: 1})
    rows = [row for row in play(sitting, lambda show: slowly(child(show))).answers if row.card == DUE[0]]
    assert [(row.role, row.mark, row.slow_ms) for row in rows[:2]] == [
        ("ask", "not_yet", 3000),
        ("copy", "right", 0),
    ]
    assert rows[2].slow_ms == 0  # nor does that of a second look


def slowly(given: Sequence[Heard]) -> list[Heard]:
    return [heard._replace(end_ms=15_000) if isinstance(heard, Typed) else heard for heard in given]


def test_a_number_word_is_kept_as_typed_and_its_time_does_not_count() -> None:
    def worded(show: Show) -> list[Typed]:
        return [Typed(in_words(int(show.problem.expected)), 900, 9000)]

    played = play(usual(*due(DUE[0]), age=9, timed=[DUE[0]]), worded)
    row = next(row for row in played.answers if row.card == DUE[0])
    assert row.given == in_words(int(row.expected))
    assert (row.mark, row.slow_ms, row.end_ms) == ("right", 0, 9000)  # in digits it was slow
    assert not played.all(AskAgain)


def test_an_answer_across_a_stopped_process_is_void_but_the_sitting_goes_on() -> None:
    played = play(
        usual(*due(*DUE[:3])), lambda show: [Typed(show.problem.expected, 900, 2000, suspended=True)]
    )
    assert {row.mark for row in played.answers} == {"void"}
    assert len(played.answers) == 6
    summary = played.all(End)[0].summary
    assert (summary.first_tries, summary.right) == (0, 0)


def test_showings_count_from_nought_and_a_copy_belongs_to_its_showing() -> None:
    rows = [row for row in play(usual(*due(*DUE)), missing({DUE[0]: 2})).answers if row.card == DUE[0]]
    assert [(row.role, row.showing) for row in rows] == [
        ("ask", 0), ("copy", 0), ("ask", 1), ("copy", 1), ("ask", 2),
    ]  # fmt: skip
    assert rows[0].asked == rows[1].asked


def test_the_same_day_asks_the_same_numbers_and_another_day_others() -> None:
    sitting = usual(*due(PROCEDURE))
    today = [row.asked for row in play(sitting).answers]
    again = [row.asked for row in play(sitting).answers]
    days = [sitting._replace(plan=sitting.plan._replace(day=738000 + n)) for n in range(10)]
    assert today == again
    assert len({play(day).answers[2].asked for day in days}) > 3


def test_a_trial_is_no_other_sitting() -> None:
    sitting = usual(*due(*DUE))
    child = missing({DUE[0]: 2})
    assert play(sitting, child).answers == play(sitting._replace(keep=False), missing({DUE[0]: 2})).answers


# --- stop and resume ----------------------------------------------------------------------------------


def test_an_answer_given_elsewhere_is_taken_as_it_is() -> None:
    """Another computer of the family asked card five first."""
    sitting = usual(*due(*DUE[:5]))
    elsewhere = play(sitting).answers[4]
    played = play(sitting, so_far=[elsewhere])
    assert elsewhere.card not in played.cards
    assert len(played.cards) == 7


def test_a_sitting_that_was_finished_says_so_again() -> None:
    sitting = usual(*due(*DUE[:3]))
    state, effects = session.start(sitting, play(sitting).answers)
    assert state.ended
    assert effects == (End((sayings.DONE,), effects[0].summary),)  # type: ignore[union-attr]


def test_resumed_before_a_copy_the_fact_is_told_again() -> None:
    sitting = usual(*due(*DUE[:5]))
    rows = play(sitting, missing({DUE[0]: 1})).answers
    missed = next(n for n, row in enumerate(rows) if row.mark == "not_yet")
    _, effects = session.start(sitting, rows[: missed + 1])
    told, copy = effects
    assert isinstance(told, Say)
    assert told.hold
    assert isinstance(copy, Show)
    assert copy.copying


# --- words --------------------------------------------------------------------------------------------

CHILDS_WORDS = (
    sayings.SAY_IT, sayings.NOTHING_TYPED, sayings.NO_TEXT_TYPED, sayings.NO_MORE_HELP, sayings.MAY_STOP,
    sayings.LOOK_ONCE_MORE, sayings.FROM_MEMORY, sayings.KNOWN_NOW, sayings.WORKED_OUT, sayings.EFFORT,
    sayings.DONE, sayings.GO_ON,
)  # fmt: skip
NEVER = {"wrong", "easy", "quick", "overdue", "correct", "just", "still", "clever", "right", "score", "%"}


@pytest.mark.parametrize("text", CHILDS_WORDS)
def test_sentences_for_a_child_are_short_and_judge_nothing(text: str) -> None:
    for line in text.split("\n"):
        words = re.findall(r"[\w?]+", line.casefold())
        assert len(words) < 8
        assert not NEVER & set(words)
        assert not re.search(r"\d", line)


def test_a_procedure_does_not_ask_its_last_five_problems_again() -> None:
    """A class of three problems, so that a chance draw would repeat at once."""
    key = "roman:subtractive/read/1..6"
    lately: tuple[str, ...] = ()
    for day in range(12):
        sitting = a_sitting(item(key, "due"))
        plan = sitting.plan._replace(day=738000 + day)
        state, _ = session.start(sitting._replace(plan=plan, lately={key: lately[-5:]}))
        assert state.turn is not None
        lately = (*lately, state.turn.asked)
    assert all(len(set(lately[n : n + 6])) == 6 for n in range(len(lately) - 5))


def test_a_class_of_few_asks_the_one_longest_ago() -> None:
    key = "roman:subtractive/read/1..2"
    sitting = a_sitting(item(key, "due"))._replace(lately={key: ("1", "2", "2", "1", "2")})
    state, _ = session.start(sitting)
    assert state.turn is not None
    assert state.turn.asked == "1"


# --- the harder order of a fact -----------------------------------------------------------------------


def first_asked(sitting: Sitting, days: int) -> list[str]:
    """What the first card asks on each of so many days."""
    plans = (sitting.plan._replace(day=738000 + n) for n in range(days))
    turns = (session.start(sitting._replace(plan=plan))[0].turn for plan in plans)
    return [turn.asked for turn in turns if turn]


@pytest.mark.parametrize(("key", "harder"), [("product:6x7", "7x6"), ("sum:8+9", "8+9")])
def test_the_harder_order_comes_three_times_in_four(key: str, harder: str) -> None:
    """Four standard errors around three quarters of 800."""
    sitting = a_sitting(item(key, "due"))
    even, more = (first_asked(one, 800) for one in (sitting, sitting._replace(harder={key: harder})))
    assert 351 < even.count(harder) < 449
    assert 551 < more.count(harder) < 649
    assert {*more} == {*even}
    assert all(now in (then, harder) for then, now in zip(even, more, strict=True))


def test_an_order_a_card_does_not_have_is_never_asked() -> None:
    sitting = a_sitting(item("product:6x7", "due"))
    assert first_asked(sitting._replace(harder={"product:6x7": "9x9"}), 50) == first_asked(sitting, 50)


def test_a_second_look_and_every_other_card_ask_what_they_would() -> None:
    keys = [key for key in DUE if key != "product:6x7"]
    plain = usual(*due(*keys[:4], "product:6x7", *keys[4:9]))
    for n in range(12):
        today = plain._replace(plan=plain.plan._replace(day=738000 + n))
        turned = today._replace(harder={"product:6x7": "7x6"})
        one, other = (play(sitting, missing({"product:6x7": 1})).answers for sitting in (today, turned))
        kept = [[row for row in rows if row.card != "product:6x7"] for rows in (one, other)]
        assert kept[0] == kept[1]
        looks = [[row.asked for row in rows if row.showing and row.role == "ask"] for rows in (one, other)]
        assert looks[0] == looks[1] != []


def test_a_problem_left_open_with_help_is_the_one_that_is_asked_again() -> None:
    """An older answer was taken back meanwhile, by which the other order would be asked now."""
    sitting = a_sitting(item("product:6x7", "due"))
    days = (sitting.plan._replace(day=738000 + n) for n in range(60))
    fresh = [sitting._replace(plan=plan) for plan in days]
    turned = [one._replace(harder={"product:6x7": "7x6"}) for one in fresh]
    left = 0
    for before, now in zip(turned, fresh, strict=True):
        state, _ = session.step(session.start(before)[0], AskHelp())
        _, effects = session.step(state, Stop())
        rows = [effect.answer for effect in effects if isinstance(effect, Record)]
        found = session.start(now, rows)[0].turn
        assert found == state.turn
        left += found != session.start(now)[0].turn._replace(helped=1)  # type: ignore[union-attr]
    assert left > 5  # so often the two differ
