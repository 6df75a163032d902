"""Answers given aloud: a parent's word for each, no time, and what comes of it."""

from itertools import product
from typing import get_args

import pytest

from review import catalogue
from review.core import card_sets, habits, item_choice, marking, memory, sayings, session, spoken
from review.core.answer_bodies import answer_body, event_answer
from review.core.model import AIMS, Aim, Answer, CardMemory, Event, Habits, Mark
from review.core.warmup import AskHelp, Heard, Record, Say, Show, Sitting, Stop, Told, Typed, Word
from tests.core.probes import a_probing, sat
from tests.core.sittings import DUE, Child, a_sitting, due, item, play, usual
from tests.core.stock import DAY, grown

WORDS: tuple[Word, ...] = get_args(Word)
FACT = "product:6x7"


def said(word: Word) -> Child:
    return lambda show: [Told(word)]


def first(word: Word, sitting: Sitting, helps: int = 0) -> Answer:
    """The row of the sitting's first answer."""
    state, _ = session.start(sitting)
    for _ in range(helps):
        state, _ = session.step(state, AskHelp())
    effects = session.step(state, Told(word))[1]
    assert isinstance(effects[0], Record)
    return effects[0].answer


# --- the row ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("word", "aim", "helps"), [*product(WORDS, AIMS, range(3))])
def test_the_row_says_what_the_parent_said_and_no_time(word: Word, aim: Aim, helps: int) -> None:
    row = first(word, usual(*due(FACT), aims={"double:2": aim}), helps)
    assert (row.taken, row.first_ms, row.end_ms) == ("aloud", 0, 0)
    assert (row.given, row.recalled) == {
        "memory": (row.expected, "yes"), "worked": (row.expected, "no"), "not_yet": ("", ""),
    }[word]  # fmt: skip
    marks: dict[Word, Mark] = {"memory": "right", "worked": "right_slow", "not_yet": "not_yet"}
    helped = row.help not in ("", "written")
    assert row.mark == ("right_helped" if helped and word != "not_yet" else marks[word])
    assert event_answer(told(row)) == row  # the log holds all of it


def told(row: Answer, day: int = DAY) -> Event:
    return Event(1, 1, "c", "answer", day, 0, 0, 0, row.card, answer_body(row))


@pytest.mark.parametrize("name", catalogue.names()[::7])
def test_any_card_can_be_said_aloud(name: str) -> None:
    """By the parent's word, whatever the form of its answer."""
    for card in card_sets.cards([catalogue.shipped(name)])[:3]:
        sitting = a_sitting(item(card.key, "due"))
        assert first("memory", sitting).mark == "right"
        assert first("memory", sitting).given


def test_a_copy_has_no_word_on_how_it_was_found() -> None:
    row = Answer(FACT, "6x7", "42", "42", "right", "copy", recalled="no")
    assert spoken.taken(row)[:6] == row[:6]
    assert (spoken.taken(row).recalled, spoken.taken(row).taken) == ("", "aloud")


# --- what it does to memory ---------------------------------------------------------------------------


def known(word: Word, aim: Aim, slow_ms: int, stability: float = 9.0) -> tuple[Habits, CardMemory]:
    """A card that held well, answered after ten days."""
    row = first(word, usual(*due(FACT), aims={"double:2": aim}))._replace(card=FACT, slow_ms=slow_ms)
    before = grown(FACT, stability, DAY - 10)
    return memory.answered(Habits(), before, row, (DAY, 0, 1, 1))


def by_typing(recalled: str, slow_ms: int) -> tuple[Habits, CardMemory]:
    row = Answer(FACT, "6x7", "42", "42", "right", "ask", 900, 5000, aim="fluency", age=7, copy_ms=2000)
    row = row._replace(slow_ms=slow_ms, recalled=recalled)  # type: ignore[arg-type]
    return memory.answered(Habits(), grown(FACT, 9.0, DAY - 10), row, (DAY, 0, 1, 1))


@pytest.mark.parametrize(("word", "recalled"), [("memory", "yes"), ("worked", "no")])
@pytest.mark.parametrize("slow_ms", [0, 4500])
def test_aloud_weighs_as_much_as_what_a_child_says_at_the_keyboard(
    word: Word, recalled: str, slow_ms: int
) -> None:
    (_, aloud), (_, typed) = known(word, "fluency", slow_ms), by_typing(recalled, slow_ms)
    assert (aloud.stability, aloud.difficulty) == (typed.stability, typed.difficulty)


def test_worked_out_falls_only_where_it_was_asked_from_memory() -> None:
    """For fluency, once time counts, it is weighed as not retrieved; before, it holds; for accuracy it is
    all that is asked."""
    stable = {
        (aim, slow_ms): known("worked", aim, slow_ms)[1].stability
        for aim in AIMS[1:]
        for slow_ms in (0, 4500)
    }
    recalled = known("memory", "accuracy", 0)[1].stability
    assert stable["accuracy", 0] == stable["accuracy", 4500] == recalled
    assert stable["fluency", 0] == 9.0
    assert (stable["fluency", 4500] or 0.0) < 9.0


def test_no_time_of_a_thumb_reaches_memory_or_habits() -> None:
    for word in WORDS:
        ways, card = known(word, "fluency", 4500)
        assert (ways.fast, ways.slow, ways.copying) == (Habits().fast, Habits().slow, Habits().copying)
        assert (card.passed_n, card.other_n) == (0, 0)


def test_what_only_holds_a_gap_says_nothing_of_the_curve() -> None:
    """A worked-out answer before time counts neither kept nor broke a promise; one from memory kept it."""
    assert known("worked", "fluency", 0)[0].weights == ()
    assert known("memory", "fluency", 0)[0].weights != ()
    assert known("worked", "accuracy", 0)[0].weights == known("memory", "accuracy", 0)[0].weights


@pytest.mark.parametrize(
    ("word", "aim", "far"),
    [("memory", "fluency", True), ("worked", "fluency", False), ("worked", "accuracy", True)],
)
def test_at_first_sight_the_word_decides_how_far_out_it_starts(word: Word, aim: Aim, far: bool) -> None:
    row = first(word, usual(*due(FACT), aims={"double:2": aim}))._replace(role="intro")
    assert marking.quick(row) is far
    _, found = memory.answered(Habits(), None, row, (DAY, 0, 1, 1))
    assert (found.placed == 1) is far


# --- the sitting --------------------------------------------------------------------------------------


def test_a_miss_is_told_and_said_once_and_nothing_is_copied() -> None:
    """It comes again two or three cards later, as at the keyboard."""

    def misses(show: Show) -> list[Heard]:
        once = show.problem.card == FACT and not show.second_look
        return [Told("not_yet" if once else "memory")]

    played = play(usual(*due(*DUE)), misses)
    assert not any(show.copying for show in played.shows)
    (held,) = [one for one in played.all(Say) if one.hold]
    assert held.text.endswith(sayings.SAY_IT)
    places = [n for n, card in enumerate(played.cards) if card == FACT]
    assert len(places) == 2
    assert places[1] - places[0] - 1 in (2, 3)


def test_nothing_is_asked_once_more_and_no_small_question() -> None:
    sitting = usual(*due(*DUE), timed=DUE)._replace(person=True)
    for word in WORDS:
        effects = play(sitting, said(word)).effects
        assert {type(one).__name__ for one in effects} <= {"Show", "Record", "Say", "End"}


def test_minutes_run_by_what_each_card_is_expected_to_take() -> None:
    """Nobody is timed, and the sitting is as long as it would be for a child who takes what was expected."""
    sitting = usual(*(item(key, "due", 10.0) for key in DUE), minutes=1.0)
    aloud = play(sitting, said("memory"))
    assert aloud.cards == play(sitting, lambda show: [typed_as_expected(sitting, show)]).cards
    assert 0 < len(aloud.cards) < len(sitting.plan.items)


def typed_as_expected(sitting: Sitting, show: Show) -> Heard:
    seconds = {one.key: one.seconds for one in sitting.plan.items}
    ms = round(seconds.get(show.problem.card, 4.0) * 1000)
    return Typed(show.problem.expected, 900, ms)


def test_help_goes_on_where_it_was_when_the_sitting_stopped() -> None:
    state, _ = session.start(usual(*due(FACT)))
    state, _ = session.step(state, AskHelp())
    rows = [one.answer for one in session.step(state, Stop())[1] if isinstance(one, Record)]
    show = session.start(usual(*due(FACT)), rows)[1][-1]
    assert isinstance(show, Show)
    assert show.helped == 1


# --- placement ----------------------------------------------------------------------------------------


def test_a_placement_takes_the_parents_word() -> None:
    rows = sat(a_probing(age=7), lambda show: Told("memory")).answers
    assert 5 <= len(rows) <= item_choice.MOST_YOUNG
    assert {(row.taken, row.mark, row.role, row.recalled) for row in rows} == {
        ("aloud", "right", "probe", "yes")
    }


def test_a_placement_aloud_ends_by_what_its_items_are_expected_to_take() -> None:
    short = a_probing(most_ms=20_000)
    rows = sat(short, lambda show: Told("worked")).answers
    assert sum(short.items[row.card].seconds for row in rows if row.card in short.items) <= 30
    assert {row.mark for row in rows} == {"right_slow"}


@pytest.mark.parametrize("cut", range(0, 8, 2))
def test_a_placement_that_stopped_goes_on(cut: int) -> None:
    def child(show: Show) -> Heard:
        return Told(WORDS[show.n % 3])

    whole = sat(a_probing(), child).answers
    assert sat(a_probing(), child, whole[:cut]).answers == whole


def test_sureness_takes_the_word_for_fluency_only() -> None:
    row = first("worked", usual(*due(FACT)))
    assert habits.sureness(Habits(), row._replace(aim="fluency"), 0.9) == 0.0
    assert habits.sureness(Habits(), row._replace(aim="accuracy"), 0.9) == 1.0
