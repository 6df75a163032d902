"""`review extra` and `warmup --gentle` on a family's book."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Review
from tests.cli.test_undo import remembered
from tests.cli.test_week import Told, finish, of, sit, solved

DAY = "2026-01-06"
RIGHT = '{"answer": "4", "seconds": 2}\n'
MISS = '{"answer": "97", "seconds": 4}\n'


def more(review: Review, *lines: str, skill: str = "sums-of-10", day: str = DAY) -> Told:
    done = review("extra", skill, "Mira", "--jsonl", "--on", day, typed="".join(lines))
    assert done.code == 0, done.err
    return [json.loads(line) for line in done.out.splitlines()]


def settled(folder: Path) -> dict[str, tuple[Any, ...]]:
    """What is measured of each card that was measured at all."""
    cards, _ = remembered(folder)
    return {
        key: (one.stability, one.difficulty, one.last_day, one.tries, one.met_day, one.right_days)
        for key, one in cards.items()
        if one.met_day
    }


def test_memory_stays_where_it_was_whatever_is_answered(family: Review, tmp_path: Path) -> None:
    finish(family, DAY)
    before, habits = settled(tmp_path), remembered(tmp_path)[1]
    more(family, MISS, RIGHT, '{"pass": true}\n', RIGHT, '{"help": true}\n', RIGHT, RIGHT)
    assert settled(tmp_path) == before
    assert remembered(tmp_path)[1]._replace(copying=habits.copying) == habits
    assert family("verify").code == 0


def test_it_is_logged_and_comes_again_as_often_as_one_likes(family: Review) -> None:
    kept = [len(of(more(family, *[RIGHT] * 4), "mark")) for _ in range(3)]
    assert all(kept)
    assert f"Answers: {sum(kept)}" in family("verify").out


def test_the_days_warm_up_begins_and_goes_on_as_if_there_had_been_none(family: Review) -> None:
    first = sit(family, DAY, RIGHT)
    waiting = of(first, "problem")[-1]
    more(family, MISS, RIGHT, RIGHT)
    assert of(sit(family, DAY), "problem")[0] == waiting


def test_what_was_practised_is_left_out_of_a_warm_up_that_begins_after_it(family: Review) -> None:
    practised = {one["card"] for one in of(more(family, *[RIGHT] * 6), "problem")}
    assert practised.isdisjoint(one["card"] for one in of(finish(family, DAY), "problem"))


def test_the_last_first_tries_and_the_front_door_know_nothing_of_it(family: Review) -> None:
    more(family, *[MISS, RIGHT] * 4)
    rows = json.loads(family("--json", "--on", DAY).out)
    assert rows[0]["done"] is False
    told = sit(family, "2026-01-07")
    assert any(one["first_meeting"] for one in of(told, "problem"))  # new cards are let in


def test_what_was_not_taught_may_be_tried_and_the_parent_is_told(family: Review) -> None:
    family("set", "add", "times-2-5-10", "Mira", "--on", DAY)
    done = family("extra", "table-of-2", "Mira", "--on", DAY, typed="\n0\n")
    assert done.code == 0
    assert "Do you know this one yet?" in done.out
    assert "review taught table-of-2 Mira" in done.err
    assert "table" not in done.out  # nothing of it is for the child


def test_a_parent_is_told_what_waits_for_another_day(family: Review) -> None:
    finish(family, DAY)
    on = ("--on", "2026-01-16")
    done = family("extra", "add-0-1-2", "Mira", *on, typed="1\n")
    assert "today's warm-up leaves it for another day" in done.err
    finish(family, "2026-01-16")
    assert "another day" not in family("extra", "add-0-1-2", "Mira", *on, typed="1\n").err


def test_what_was_not_answered_waits_for_no_other_day(family: Review) -> None:
    finish(family, DAY)
    assert "another day" not in family("extra", "add-0-1-2", "Mira", "--on", "2026-01-16", typed="").err


@pytest.mark.parametrize("count", ["0", "21", "-1"])
def test_counts_that_cannot_be(family: Review, count: str) -> None:
    done = family("extra", "sums-of-10", "Mira", "--count", count, "--on", DAY)
    assert (done.code, "1 to 20" in done.err) == (1, True)


def test_an_unknown_skill_and_a_family_without_a_name(family: Review) -> None:
    assert family("extra", "sums-of-11", "Mira", "--on", DAY).code == 1
    assert "Mira or Jonah" in family("extra", "sums-of-10", "--on", DAY).err


def test_input_that_ends_early_is_a_stop(family: Review) -> None:
    done = family("extra", "sums-of-10", "Mira", "--on", DAY, typed="")
    assert (done.code, "That is all for now." in done.out) == (0, True)


# --- a gentle one -------------------------------------------------------------------------------------


def gentle(review: Review, day: str, *lines: str) -> Told:
    return sit(review, day, *lines, more=("--gentle",))


def test_a_hard_day_asks_what_is_sure_and_leaves_no_trace_in_memory(family: Review, tmp_path: Path) -> None:
    finish(family, DAY)
    before = settled(tmp_path)
    told = gentle(family, "2026-01-07", *[MISS, RIGHT] * 9)
    assert {one["card"] for one in of(told, "problem")} <= before.keys()
    assert not any(one["first_meeting"] for one in of(told, "problem"))
    assert settled(tmp_path) == before


def test_where_all_had_its_turn_today_nobody_is_told_that_nothing_is_known(family: Review) -> None:
    early = family("warmup", "Mira", "--gentle", "--on", DAY)
    assert (early.code, "Nothing is known well enough of Mira yet" in early.err) == (1, True)
    finish(family, DAY)
    late = family("warmup", "Mira", "--gentle", "--on", DAY)
    assert (late.code, late.out) == (1, "")
    assert late.err == (
        "All that Mira knows had its turn today. A few more of one kind: review extra SKILL Mira\n"
    )


def test_the_day_is_done_with_it_and_the_warm_up_may_still_come(family: Review) -> None:
    finish(family, DAY)
    gentle(family, "2026-01-07", RIGHT)
    assert json.loads(family("--json", "--on", "2026-01-07").out)[0]["done"] is True
    assert of(sit(family, "2026-01-07"), "problem")


def test_a_hard_day_is_no_end_of_the_day_before(family: Review) -> None:
    """The front door of an earlier day tells of that day alone."""
    finish(family, DAY)
    assert family("warmup", "Mira", "--gentle", "--jsonl", "--on", "2026-01-07", typed=RIGHT * 9).code == 0

    def done(day: str) -> bool:
        return bool(json.loads(family("--json", "--on", day).out)[0]["done"])

    assert [done(day) for day in ("2026-01-05", DAY, "2026-01-07", "2026-01-08")] == [
        False, True, True, False,
    ]  # fmt: skip


def test_a_warm_up_begun_after_a_gentle_one_waits_to_be_gone_on_with(family: Review) -> None:
    """Whatever was sat down to last says whether the day is done: a gentle one, stopped or not, ends a day on
    which the warm-up went badly too."""
    day = "2026-01-07"

    def done() -> bool:
        return bool(json.loads(family("--json", "--on", day).out)[0]["done"])

    finish(family, DAY)
    gentle(family, day, RIGHT, '{"stop": true}\n')
    sit(family, day)  # looked at and left: nothing was begun
    assert done()
    sit(family, day, RIGHT, '{"stop": true}\n')
    assert not done()
    assert family("--on", day).out.startswith("Mira: ready")
    more(family, RIGHT, day=day)
    assert not done()
    gentle(family, day, MISS, '{"stop": true}\n')
    assert done()
    finish(family, day)
    assert done()


def test_nothing_to_be_gentle_with_is_said(family: Review) -> None:
    done = family("warmup", "Mira", "--gentle", "--on", DAY)
    assert (done.code, "--minutes 2" in done.err) == (1, True)


def test_a_gentle_trial_keeps_nothing(family: Review, tmp_path: Path) -> None:
    finish(family, DAY)
    before = (tmp_path / "family.book").read_bytes()
    sit(family, "2026-01-07", RIGHT, more=("--gentle", "--try"))
    assert (tmp_path / "family.book").read_bytes() == before


# --- answers that are none ----------------------------------------------------------------------------


def test_a_scribbled_sitting_is_named_to_the_parent_and_can_be_set_aside(family: Review) -> None:
    """Four answers running that cannot be read: the child may stop, and the front door tells the parent."""
    finish(family, DAY)
    day = "2026-01-07"
    scribble = '{"answer": "asdf", "seconds": 1}\n'
    told = sit(family, day, *[scribble] * 9)
    assert "stop" in of(told, "note")[-1]["text"]
    door = family("--on", day).out
    assert "review undo --sitting Mira" in " ".join(door.split())
    assert family("undo", "--sitting", "Mira", "--yes", "--on", day).code == 0
    assert "undo" not in family("--on", day).out


def test_a_sitting_of_answers_is_not_named(family: Review) -> None:
    sit(family, DAY, *[f'{{"answer": "{n}", "seconds": 2}}\n' for n in range(9)])
    assert "undo" not in family("--on", DAY).out


def test_solved_is_right(family: Review) -> None:
    """What the tests above answer with is what the sums make."""
    problem = of(sit(family, DAY), "problem")[0]
    told = sit(family, DAY, json.dumps({"answer": solved(problem["prompt"])}) + "\n")
    assert of(told, "mark")[0]["mark"] == "right"
