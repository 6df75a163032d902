"""The warm-up as a child meets it: what is asked, in which order, what is kept and what is said."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import paths, sayings, skills
from review.core.keys import GRAMMAR
from review.core.model import Answer
from review.core.queue import FAR, NEAR, alike, opened
from review.core.warmup import (
    AskHelp,
    End,
    Heard,
    Say,
    Show,
    Summary,
    Typed,
    Why,
)
from tests.core.sittings import (
    DUE,
    NEW,
    PROCEDURE,
    RESERVE,
    SURE,
    a_sitting,
    due,
    gaps,
    item,
    missing,
    play,
    right,
    usual,
    wrong,
)

# --- the order ----------------------------------------------------------------------------------------


def test_all_right_follows_the_plan_and_nothing_comes_back() -> None:
    planned = (*SURE[:2], *DUE[:5], SURE[2])
    played = play(usual(*due(*DUE[:5])))
    assert sorted(played.cards) == sorted(planned)
    assert played.cards[:2] == [*SURE[:2]]
    assert played.cards[-1] == SURE[2]
    assert played.all(End)[0].lines == (sayings.DONE,)
    assert played.all(End)[0].summary == Summary(16.0, 8, 8, 0, finished=True)  # two seconds each


def test_a_card_like_the_last_one_waits_for_one_that_is_not() -> None:
    played = play(usual(*due("product:6x7", "product:6x8", "sum:8+9")))
    assert played.cards[2:5] == ["product:6x7", "sum:8+9", "product:6x8"]


def test_like_cards_come_together_when_nothing_else_is_left() -> None:
    played = play(usual(*due("product:6x7", "product:6x8")))
    assert played.cards[2:4] == ["product:6x7", "product:6x8"]


def test_the_two_sure_cards_that_open_come_first_whatever_they_are_like() -> None:
    alike = [item(key, "sure") for key in ("product:2x3", "product:2x4")]
    played = play(a_sitting(*alike, *due("sum:8+9", "half:18"), item(SURE[2], "sure")))
    assert played.cards[:2] == ["product:2x3", "product:2x4"]


def test_where_nothing_sure_opens_the_second_card_is_unlike_the_first() -> None:
    played = play(a_sitting(*due("product:6x7", "product:6x8", "sum:8+9", "half:18"), item(SURE[2], "sure")))
    assert played.cards[:3] == ["product:6x7", "sum:8+9", "product:6x8"]


@pytest.mark.parametrize(
    ("before", "fourth_on"), [(0, ["product:6x8", "sum:5+7"]), (1, ["sum:5+7", "product:6x8"])]
)
def test_no_new_card_is_moved_up_among_the_first_three(before: int, fourth_on: list[str]) -> None:
    """From the fourth on it may come sooner than planned, so that a like card waits."""
    opening = [item(key, "sure") for key in SURE[: 1 + before]]
    planned = a_sitting(
        *opening, *due("product:6x7", "product:6x8"), item(NEW[1], "new"), item(SURE[2], "sure")
    )
    assert play(planned).cards[2 + before : 4 + before] == fourth_on


@pytest.mark.parametrize("key", [":".join((kind, shape.example[0])) for kind, shape in GRAMMAR.items()])
def test_a_card_is_like_itself_whatever_its_kind(key: str) -> None:
    """So that no procedure comes twice running, also where it shares no table with any other card."""
    assert alike(opened(usual(*due(*DUE)))._replace(last=key), key)


def test_dots_fill_one_by_one_and_the_last_belongs_to_the_last_card() -> None:
    played = play(usual(*due(*DUE[:4])))
    assert [show.dots for show in played.shows] == [(n, 7) for n in range(7)]


def test_dots_wait_for_no_new_card_that_will_not_be_let_in() -> None:
    """Three missed of the last ten: none of the eight new ones comes, and five others fill all but the last
    of the dots."""
    new = [item(f"product:{n}x{n}", "new") for n in range(2, 10)]
    played = play(usual(*due(*DUE[:2]), *new, recent=(True,) * 7 + (False,) * 3))
    assert len(played.cards) == 5
    assert [show.dots for show in played.shows] == [(13 * n // 5, 13) for n in range(4)] + [(12, 13)]


def test_of_more_cards_than_dots_the_last_dot_is_left_for_the_last_card() -> None:
    keys = [f"sum:{a}+{b}" for b in range(6, 12) for a in range(2, b)][:20]
    played = play(usual(*due(*keys)))
    assert len(played.cards) == 23
    assert [show.dots for show in played.shows] == [(20 * n // 23, 20) for n in range(23)]
    assert played.shows[-1].dots == (19, 20)


def test_showings_are_numbered_through() -> None:
    played = play(usual(*due(*DUE[:4])), missing({DUE[0]: 1}))
    assert [show.n for show in played.shows] == [*range(1, len(played.shows) + 1)]


# --- new cards ----------------------------------------------------------------------------------------


def test_a_new_card_that_is_known_is_done_and_does_not_count_as_new() -> None:
    played = play(usual(*due(*DUE[:3]), item(NEW[0], "new"), *due(*DUE[3:6])))
    shown = [show for show in played.shows if show.problem.card == NEW[0]]
    assert [show.first_meeting for show in shown] == [True]
    assert played.all(End)[0].summary.new == 0
    assert next(row for row in played.answers if row.card == NEW[0]).role == "intro"


def test_a_new_card_that_is_not_known_is_shown_copied_and_asked_twice_more() -> None:
    played = play(usual(*due(*DUE[:3]), item(NEW[0], "new"), *due(*DUE[3:])), missing({NEW[0]: 1}))
    rows = [row for row in played.answers if row.card == NEW[0]]
    assert [(row.role, row.mark) for row in rows] == [
        ("intro", "not_yet"), ("copy", "right"), ("ask", "right"), ("ask", "right"),
    ]  # fmt: skip
    assert rows[0].given == ""
    first, second = gaps(played.cards, NEW[0])
    assert first in (NEAR, NEAR + 1)
    assert FAR <= second <= FAR + 2
    assert played.all(End)[0].summary.new == 1
    assert played.all(End)[0].lines == (
        skills.problem(NEW[0], rows[-1].asked).told,
        sayings.KNOWN_NOW,
        sayings.DONE,
    )


def test_not_yet_is_no_miss() -> None:
    """Two new ones unknown after another bring no sure card: nothing went amiss."""
    new = [item(key, "new") for key in NEW]
    played = play(usual(*due(DUE[0]), *new, *due(*DUE[1:8])), missing(dict.fromkeys(NEW, 1)))
    assert not set(played.cards) & set(RESERVE)


def test_what_is_told_is_held_and_then_copied() -> None:
    played = play(usual(*due(*DUE[:3]), item(NEW[0], "new"), *due(*DUE[3:6])), missing({NEW[0]: 1}))
    said = next(n for n, effect in enumerate(played.effects) if isinstance(effect, Say) and effect.hold)
    told, copy = played.effects[said], played.effects[said + 1]
    assert isinstance(told, Say)
    assert re.fullmatch(r"(7 × 8|8 × 7) makes 56\.\nSay it once\.", told.text)
    assert isinstance(copy, Show)
    assert copy.copying
    assert copy.problem.card == NEW[0]


def test_no_more_new_cards_than_the_pace_prove_unknown() -> None:
    new = [item(key, "new") for key in ("product:7x8", "sum:5+7", "quotient:63/9", "double:11")]
    played = play(usual(*due(*DUE[:3]), *new, *due(*DUE[3:]), pace=2), missing({card.key: 1 for card in new}))
    assert len([show for show in played.shows if show.first_meeting]) == 2


@pytest.mark.parametrize(
    ("recent", "misses", "meets"),
    [
        ((True,) * 10, 1, True),  # 9 of the last 10
        ((True,) * 10, 2, False),  # 8 of the last 10
        ((True,) * 3, 2, True),  # 8 of 10 is enough at first
        ((True,) * 3, 3, False),
        ((True,) * 9 + (False,), 1, False),
    ],
)
def test_new_cards_come_only_while_nearly_all_goes_well(
    recent: tuple[bool, ...], misses: int, meets: bool
) -> None:
    middle = (*due(*DUE[:3]), item(NEW[0], "new"))
    played = play(usual(*middle, recent=recent, reserve=()), missing(dict.fromkeys(DUE[:misses], 1)))
    assert (NEW[0] in played.cards) is meets


def test_a_new_card_found_with_help_is_new_and_comes_again() -> None:
    def helped_once(show: Show) -> list[Heard]:
        steps: list[Heard] = [AskHelp(), AskHelp(), AskHelp()] if show.first_meeting else []
        return steps + right(show)

    played = play(usual(*due(*DUE[:3]), item(NEW[0], "new"), *due(*DUE[3:])), helped_once)
    rows = [row for row in played.answers if row.card == NEW[0]]
    assert [row.mark for row in rows] == ["right_helped", "right", "right"]
    assert played.all(End)[0].summary.new == 1


NAMED = "number-name:write/100..999"


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ("{0}", False),
        ("{1}", False),  # without "and"
        ("{2}", True),
    ],
)
def test_a_spelling_is_shown_but_not_for_an_and_that_was_left_out(given: str, told: bool) -> None:
    def answer(show: Show) -> list[Heard]:
        name = show.problem.expected
        ways = (name, name.replace(" and ", " "), name.replace("hundred", "hundered"))
        return [Typed(given.format(*ways), 900, 2000)] if show.problem.card == NAMED else right(show)

    played = play(usual(*due(NAMED, *DUE[:3])), answer)
    (row,) = [row for row in played.answers if row.card == NAMED]
    (said,) = [said for said in played.all(Say) if said.card == NAMED]
    assert row.mark == "right"
    assert " and " in row.expected
    assert bool(said.text) is told


# --- misses -------------------------------------------------------------------------------------------


def test_a_missed_fact_is_told_copied_and_looked_at_once_more() -> None:
    played = play(usual(*due(*DUE)), missing({DUE[0]: 1}))
    rows = [row for row in played.answers if row.card == DUE[0]]
    assert [(row.role, row.mark) for row in rows] == [("ask", "not_yet"), ("copy", "right"), ("ask", "right")]
    (gap,) = gaps(played.cards, DUE[0])
    assert gap in (NEAR, NEAR + 1)
    assert played.all(End)[0].lines[1] == sayings.KNOWN_NOW


def test_a_procedure_that_was_missed_and_then_right_was_worked_out_and_is_not_called_known() -> None:
    played = play(usual(*due(PROCEDURE, *DUE)), missing({PROCEDURE: 1}))
    asked = [row.asked for row in played.answers if row.card == PROCEDURE][-1]
    assert played.all(End)[0].lines[:2] == (skills.problem(PROCEDURE, asked).told, sayings.WORKED_OUT)


def test_a_showing_is_a_copy_or_a_second_look_or_neither() -> None:
    shows = [
        show for show in play(usual(*due(*DUE)), missing({DUE[0]: 2})).shows if show.problem.card == DUE[0]
    ]
    told = [(show.copying, show.second_look) for show in shows]
    assert told == [(False, False), (True, False), (False, True), (True, False), (False, True)]


def test_a_second_look_that_fails_brings_one_more_further_on() -> None:
    played = play(usual(*due(*DUE)), missing({DUE[0]: 2}))
    near, far = gaps(played.cards, DUE[0])
    assert near in (NEAR, NEAR + 1)
    assert FAR <= far <= FAR + 2


@pytest.mark.parametrize(("age", "times"), [(6, 2), (7, 2), (8, 3), (11, 3)])
def test_a_card_missed_too_often_leaves_the_sitting(age: int, times: int) -> None:
    played = play(usual(*due(*DUE), age=age), missing({DUE[0]: 9}))
    assert played.cards.count(DUE[0]) == times
    last = [row for row in played.answers if row.card == DUE[0]][-1]
    assert last.role == "ask"  # told, not copied again
    assert played.all(End)[0].lines[0] == sayings.EFFORT


def test_at_most_one_path_after_a_miss_is_open() -> None:
    """Cards missed meanwhile are told and copied, without a second look."""
    played = play(usual(*due(*DUE)), missing({DUE[0]: 1, DUE[1]: 1}))
    assert played.cards.count(DUE[0]) == 2
    assert played.cards.count(DUE[1]) == 1
    assert [row.role for row in played.answers if row.card == DUE[1]] == ["ask", "copy"]


def test_a_missed_procedure_gets_its_steps_and_a_fresh_problem_but_is_never_copied() -> None:
    played = play(usual(*due(PROCEDURE, *DUE)), missing({PROCEDURE: 2}))
    rows = [row for row in played.answers if row.card == PROCEDURE]
    assert [row.role for row in rows] == ["ask", "ask", "ask"]
    assert len({row.asked for row in rows}) == 3
    told = next(said for said in played.all(Say) if said.hold)
    problem = skills.problem(PROCEDURE, rows[0].asked)
    steps = next(help.text for help in problem.helps if help.step == "steps")
    assert told.text == f"{steps}\n{problem.told}"
    assert gaps(played.cards, PROCEDURE)[0] in (NEAR, NEAR + 1)


def test_the_line_that_helps_to_remember_stands_behind_what_is_told() -> None:
    """A fact is still said once at the end; of a procedure the line ends the worked steps."""
    sitting = usual(*due(PROCEDURE, *DUE))
    noted = {key: sitting.cards[key]._replace(note="Ten times, less one.") for key in (PROCEDURE, DUE[0])}
    played = play(
        sitting._replace(cards={**sitting.cards, **noted}), missing({PROCEDURE: 1, DUE[0]: 1, DUE[1]: 1})
    )
    told = {said.card: said.text for said in played.all(Say) if said.hold}
    assert told[DUE[0]].endswith(f" makes 42.\nTen times, less one.\n{sayings.SAY_IT}")
    assert told[PROCEDURE].endswith("\nTen times, less one.")
    assert "Ten times" not in told[DUE[1]]


@pytest.mark.parametrize(
    ("key", "asked", "lesson"),
    [
        ("sequence:after/1..20", "10,_", "10 + 1 = 11\nAfter 10 comes 11."),
        ("quantity:dots/1..5", "2", "1 + 1 = 2\nThere are 2 dots."),
        ("convert:kg>g/1..20", "3", "1 kg = 1,000 g\n3 × 1,000 = 3,000\n3 kg = 3,000 g"),
    ],
)
def test_worked_steps_end_in_what_was_asked(key: str, asked: str, lesson: str) -> None:
    """Told once: where the last step says it, in signs, it is not said again in words."""
    problem = skills.problem(key, asked)
    answer = Answer(key, asked, problem.expected, "", "shown")
    state = opened(usual(*due(PROCEDURE, *DUE)))
    given = paths.Given(answer, problem, None)
    assert paths.FOLLOWS["missed"](state, given)[1].text == lesson


def test_after_two_misses_running_the_next_card_is_sure() -> None:
    played = play(usual(*due(*DUE)), missing({DUE[0]: 1, DUE[1]: 1}))
    missed = [row.card for row in played.answers if row.mark == "not_yet"]
    after = played.cards.index(missed[1]) + 1
    assert played.cards[after] in RESERVE


@pytest.mark.parametrize("why", ["new", "due"])
def test_what_is_known_between_two_misses_ends_their_run(why: Why) -> None:
    """Also where it was new."""
    plan = usual(*due(*DUE[:2]), item(NEW[0], why), *due(*DUE[2:6]))
    played = play(plan, missing({DUE[1]: 1, DUE[2]: 1}))
    shown = [card for card in played.cards if card in (DUE[1], NEW[0], DUE[2])]
    assert shown[:3] == [DUE[1], NEW[0], DUE[2]]
    assert not set(played.cards) & set(RESERVE)


def test_no_sitting_ends_on_a_miss_while_a_sure_card_is_left() -> None:
    played = play(usual(*due(*DUE[:3])), missing({SURE[2]: 1}))
    assert played.cards[-1] in RESERVE


@pytest.mark.parametrize(("ms", "last"), [(14_000, RESERVE[0]), (60_000, SURE[2])])
def test_a_sure_card_more_goes_thirty_seconds_over_the_minutes_and_no_further(ms: int, last: str) -> None:
    """Four of twelve seconds, and a miss on the fifth that was to be the last: 62 s of 60, or 108."""

    def slow(show: Show) -> list[Heard]:
        return wrong(show, ms) if show.problem.card == SURE[2] else right(show, 12_000)

    assert play(usual(*due(*DUE[:2]), minutes=1), slow).cards[-1] == last


def test_the_sure_card_after_two_misses_is_unlike_the_last_one() -> None:
    plan = usual(*due("sum:8+9", "product:6x7", "half:18", "double:9"), reserve=("product:2x6", "sum:2+2"))
    played = play(plan, missing({"sum:8+9": 1, "product:6x7": 1}))
    assert played.cards[2:5] == ["sum:8+9", "product:6x7", "sum:2+2"]


def test_a_card_to_recognise_is_told_and_left() -> None:
    played = play(usual(*due(*DUE[:4]), aims={DUE[0]: "familiarity"}), missing({DUE[0]: 1}))
    assert [row.role for row in played.answers if row.card == DUE[0]] == ["ask"]
    said = next(said for said in played.all(Say) if said.card == DUE[0])
    assert not said.hold
    assert said.text == skills.problem(DUE[0], played.answers[2].asked).told


def test_a_copy_that_fails_is_told_and_on_it_goes() -> None:
    def never(show: Show) -> list[Heard]:
        return wrong(show) if show.problem.card == DUE[0] else right(show)

    played = play(usual(*due(*DUE)), never)
    rows = [row for row in played.answers if row.card == DUE[0]]
    assert [row.role for row in rows] == ["ask", "copy", "ask", "copy", "ask"]
    copied = [said for said in played.all(Say) if said.card == DUE[0]][1]
    assert copied.text.endswith("makes 42.")
    assert not copied.hold


# --- minutes ------------------------------------------------------------------------------------------


def test_the_minutes_end_the_sitting_on_the_sure_card() -> None:
    played = play(usual(*due(*DUE), minutes=1), lambda show: right(show, 10_000))
    assert played.cards[-1] == SURE[2]
    assert len(played.cards) == 6 + 1  # six in a minute, of which the sixth ends on it; then the sure one
    assert played.shows[-1].dots == (15, 16)
    assert played.all(End)[0].summary.seconds == 70


@given(st.lists(st.integers(0, 20_000), min_size=60, max_size=60), st.floats(0.2, 4))
def test_no_card_starts_that_is_not_expected_to_end_in_time(times: list[int], minutes: float) -> None:
    left = iter(times)
    played = play(usual(*due(*DUE), minutes=minutes), lambda show: right(show, next(left)))
    rows = played.answers
    used = 0
    for row in rows[:-1]:
        assert used + 4000 <= minutes * 60_000
        used += row.end_ms
