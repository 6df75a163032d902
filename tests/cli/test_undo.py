"""Taking back: the log keeps what was given, memory and the day's warm-up are as if it had not been."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from review import gather
from review.app import sittings
from review.book import store
from review.core.model import CardMemory, Event, Habits
from tests.cli.conftest import Review
from tests.cli.test_week import of, sit, solved

DAY = "2026-01-06"
MISS = '{"answer": "4321", "seconds": 4}\n'  # so far off that no answer is a slip of it


def right(prompt: str) -> str:
    return json.dumps({"answer": solved(prompt), "seconds": 3}) + "\n"


def waiting(review: Review) -> dict[str, Any]:
    """The problem that waits. Looking changes nothing."""
    (first, *_) = problems(review)
    return first


def problems(review: Review) -> list[dict[str, Any]]:
    """What waits; nothing once the day is done, as it is after misses of all there is."""
    return of(sit(review, DAY), "problem")[:1]


def answer(review: Review, well: bool = True) -> dict[str, Any]:
    """Answers what waits; a miss is copied too, where it is: one that sets the card aside is not."""
    problem = waiting(review)
    if well or problem["copying"]:
        sit(review, DAY, right(problem["prompt"]))
        return problem
    told = of(sit(review, DAY, MISS), "problem")
    if any(one["copying"] and one["card"] == problem["card"] for one in told):
        sit(review, DAY, right(problem["prompt"]))
    return problem


def undo(review: Review, *more: str) -> str:
    done = review("undo", "Mira", "--yes", "--on", DAY, *more)
    assert done.code == 0, done.err
    return done.out


def remembered(folder: Path) -> tuple[dict[str, CardMemory], Habits]:
    """Memory, without the places of the rows it stands on; cards of which nothing is left are none."""
    with store.open_book(folder / "family.book", folder / "xdg_state_home" / "review", write=False) as book:
        (child, *_) = gather.family_of(book)
        found = gather.memory_of(book, child.key)
        cards = {key: one._replace(at=(0, 0, 0, 0)) for key, one in found.cards.items()}
        return cards, found.habits._replace(at=(0, 0, 0, 0))


def test_the_answer_waits_again(family: Review) -> None:
    first = waiting(family)
    answer(family)
    assert waiting(family) != first
    assert "Taken back." in undo(family)
    assert waiting(family) == {**first}


def test_memory_is_as_if_it_had_not_been_given(family: Review, tmp_path: Path) -> None:
    for _ in range(3):
        answer(family)
    before = remembered(tmp_path)
    answer(family, well=False)
    assert remembered(tmp_path) != before
    undo(family)
    assert remembered(tmp_path) == before


def test_a_miss_goes_with_its_copy_and_once_more_the_one_before(family: Review, tmp_path: Path) -> None:
    before, shown = remembered(tmp_path), waiting(family)
    answer(family)
    between, second = remembered(tmp_path), waiting(family)
    answer(family, well=False)
    undo(family)
    assert (remembered(tmp_path), waiting(family)) == (between, second)
    undo(family)
    assert (remembered(tmp_path), waiting(family)) == (before, shown)
    assert family("undo", "Mira", "--yes", "--on", DAY).code == 1


def test_taken_back_and_given_back_is_as_it_was(family: Review, tmp_path: Path) -> None:
    answer(family)
    answer(family, well=False)
    before, shown = remembered(tmp_path), waiting(family)
    undo(family)
    undo(family)
    undo(family, "--redo")
    undo(family, "--redo")
    assert (remembered(tmp_path), waiting(family)) == (before, shown)
    done = family("undo", "Mira", "--redo", "--yes", "--on", DAY)
    assert (done.code, "Nothing of Mira has been taken back" in done.err) == (1, True)


MOVES = st.lists(st.sampled_from(["right", "miss", "undo", "redo"]), max_size=9)


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@example(moves=["miss", "miss", "miss", "right", "miss", "undo"])  # set aside, without a copy
@given(moves=MOVES)
def test_any_taking_back_leaves_what_the_standing_answers_give(
    moves: list[str], family: Review, tmp_path: Path
) -> None:
    """A pile of answers, and a pile of what was taken off it: the book agrees with both."""
    sit_again(family, tmp_path)
    standing: list[Any] = []
    off: list[Any] = []

    def state() -> Any:
        return remembered(tmp_path), problems(family)

    for move in moves:
        if move in ("right", "miss") and (before := state())[1]:
            answer(family, well=move == "right")
            standing.append((before, state()))
            off.clear()
        elif move == "undo" and standing:
            undo(family)
            off.append(standing.pop())
            assert state() == off[-1][0]
        elif move == "redo" and off:
            undo(family, "--redo")
            standing.append(off.pop())
            assert state() == standing[-1][1]


def sit_again(review: Review, folder: Path) -> None:
    """A book as on its first day: whatever was answered is taken back."""
    while review("undo", "Mira", "--sitting", "--yes", "--on", DAY).code == 0:
        pass
    assert answered(folder) == []


def answered(folder: Path) -> list[Event]:
    with store.open_book(folder / "family.book", folder / "xdg_state_home" / "review", write=False) as book:
        (child, *_) = gather.family_of(book)
        return sittings.answers_on(book, child, 739_622)


def test_a_sitting_goes_whole_and_the_day_begins_anew(family: Review, tmp_path: Path) -> None:
    before, shown = remembered(tmp_path), waiting(family)
    for well in (True, False, True):
        answer(family, well)
    told = undo(family, "--sitting")
    assert "The last sitting of Mira, 6 January 2026:" in told
    assert (remembered(tmp_path), waiting(family)) == (before, shown)
    assert json.loads(family("--json", "--on", DAY).out)[0]["done"] is False


def test_a_slip_counts_as_right_and_the_sitting_goes_on_so(family: Review, tmp_path: Path) -> None:
    problem = answer(family, well=False)
    undo(family, "--slip")
    known = remembered(tmp_path)[0][problem["card"]]
    assert (known.right, known.last_mark) == (1, "right")
    assert known.placed == 0  # how quickly it was known, nobody can say
    told = [one["card"] for one in of(sit(family, DAY, *['{"pass": true}\n'] * 9), "problem")]
    assert problem["card"] not in told  # right at once: it does not come back
    done = family("undo", "Mira", "--slip", "--yes", "--on", DAY, "--card", problem["card"])
    assert done.code == 1


def test_a_slip_taken_back_is_a_miss_again(family: Review, tmp_path: Path) -> None:
    answer(family, well=False)
    before = remembered(tmp_path)
    undo(family, "--slip")
    assert remembered(tmp_path) != before
    undo(family, "--redo")
    assert remembered(tmp_path) == before


def test_what_counts_again_is_told_as_it_will_count(family: Review) -> None:
    problem = answer(family, well=False)
    line = f"  {problem['prompt']} 4321"
    undo(family, "--slip")
    undo(family)
    assert f"{line} (a slip of the keys, taken as right)" in undo(
        family, "--redo"
    )  # the taking back goes, the slip stays
    assert f"{line} (not yet)" in undo(family, "--redo")  # and now the slip goes


def test_an_earlier_card_is_named_as_a_parent_types_it(family: Review) -> None:
    first = answer(family)
    answer(family)
    told = undo(family, "--card", first["prompt"].rstrip("= ").replace(" ", ""))
    assert first["prompt"] in told
    assert "The last answer of Mira to this card, " in told
    assert waiting(family)["card"] == first["card"]


def test_nobody_is_asked_where_there_is_no_terminal(family: Review, tmp_path: Path) -> None:
    answer(family)
    before = (tmp_path / "family.book").read_bytes()
    done = family("undo", "Mira", "--on", DAY)
    assert (done.code, "--yes" in done.err) == (1, True)
    told = json.loads(family("undo", "Mira", "--json", "--on", DAY).out)
    assert (told["done"], told["what"], len(told["answers"])) == (False, "answer", 1)
    assert (tmp_path / "family.book").read_bytes() == before


@pytest.mark.parametrize(
    "options", [("--sitting", "--slip"), ("--redo", "--slip"), ("--sitting", "--card", "6x7")]
)
def test_two_things_at_once_are_refused(family: Review, options: tuple[str, ...]) -> None:
    assert family("undo", "Mira", *options).code == 2


def test_help_on_a_problem_left_open_goes_with_the_answer_before(family: Review) -> None:
    first = answer(family)
    sit(family, DAY, '{"help": true}\n', '{"stop": true}\n')
    undo(family)
    assert waiting(family)["card"] == first["card"]


def test_the_book_is_sound_after_all_that(family: Review) -> None:
    for well in (True, False):
        answer(family, well)
    for more in ((), ("--redo",), ("--slip",), ("--sitting",)):
        undo(family, *more)
    assert family("verify").code == 0
