"""A family's week through the commands: what a day leaves behind for the next one."""

import json
import re
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Review
from tests.cli.said import ON, says

Told = list[dict[str, Any]]
OVERDUE_KEYS = [
    "child", "card", "prompt", "skill", "set", "aim", "recall",
    "days_overdue", "last_day", "last_mark", "teach", "from_memory", "state", "missed_first",
]  # fmt: skip
PROBLEM_KEYS = {"type", "n", "card", "kind", "prompt", "say", "first_meeting", "second_look"}
SUMMARY_KEYS = {"type", "minutes", "first_tries", "right", "new", "overdue_left"}
SURE = '{"answer": "0", "seconds": 1}\n'


def sit(review: Review, day: str, *lines: str, more: tuple[str, ...] = ()) -> Told:
    """A warm-up over JSON lines; what was told, an object a line."""
    done = review("warmup", "Mira", "--jsonl", "--on", day, *more, typed="".join(lines))
    assert done.code == 0, done.err
    return [json.loads(line) for line in done.out.splitlines()]


def of(told: Told, type_: str) -> Told:
    return [one for one in told if one["type"] == type_]


def finish(review: Review, day: str) -> Told:
    """Answer everything rightly: each problem is asked again with its answer until the sitting ends."""
    told = sit(review, day, '{"stop": true}\n')
    while not of(told, "summary")[0].get("finished"):
        problem = of(told, "problem")[-1]
        told = sit(review, day, json.dumps({"answer": solved(problem["prompt"]), "seconds": 3}) + "\n")
    return told


def solved(prompt: str) -> str:
    plus = re.fullmatch(r"(\d+) \+ (\d+) =", prompt)
    return str(int(plus[1]) + int(plus[2])) if plus else "0"


def test_the_keys_of_json_are_a_promise(family: Review) -> None:
    told = sit(family, "2026-01-06", SURE, '{"pass": true}\n')
    assert of(told, "problem")[0].keys() >= PROBLEM_KEYS
    assert of(told, "mark")[0].keys() >= {"type", "card", "mark", "expected", "explain"}
    assert of(told, "summary")[0].keys() >= SUMMARY_KEYS
    late = json.loads(family("overdue", "Mira", "--json", "--all", "--on", "2026-03-01").out)
    assert all(list(row) == OVERDUE_KEYS for row in late)


def test_the_next_start_goes_on_at_the_very_next_card(family: Review) -> None:
    first = sit(family, "2026-01-06", SURE, SURE, SURE)
    waiting = of(first, "problem")[-1]
    again = sit(family, "2026-01-06")
    assert of(again, "problem")[0] == waiting
    assert len(of(first, "mark")) == 3


def test_a_finished_day_is_done_and_the_next_day_is_not(family: Review) -> None:
    told = finish(family, "2026-01-06")
    assert of(told, "summary")[0]["finished"]
    again = sit(family, "2026-01-06", SURE)
    assert of(again, "problem") == []
    assert of(sit(family, "2026-01-07"), "problem") != []


def test_what_was_right_at_once_never_comes_back_that_day(family: Review) -> None:
    cards: list[str] = []
    told = sit(family, "2026-01-06", '{"stop": true}\n')
    while not of(told, "summary")[0].get("finished"):
        problem = of(told, "problem")[-1]
        cards.append(problem["card"])
        told = sit(
            family, "2026-01-06", json.dumps({"answer": solved(problem["prompt"]), "seconds": 3}) + "\n"
        )
    assert len(cards) == len(set(cards))
    assert cards


def test_only_what_was_taught_comes(family: Review) -> None:
    family("set", "add", "times-2-5-10", "Mira", "--on", "2026-01-05")
    assert not any("product" in one["card"] for one in of(finish(family, "2026-01-06"), "problem"))
    family("set", "drop", "addition-facts-10", "Mira", "--on", "2026-01-06")
    assert family("taught", "table-of-2", "Mira", "--on", "2026-01-06").code == 0
    told = sit(family, "2026-01-07")
    assert of(told, "problem")[0]["card"].startswith("product:")


def test_a_set_given_before_the_first_answer_still_comes_today(family: Review) -> None:
    family("set", "drop", "addition-facts-10", "Mira", "--on", "2026-01-05")
    family("set", "drop", "roman-early", "Mira", "--on", "2026-01-05")
    assert family("warmup", "Mira", "--on", "2026-01-06").code == 1
    family("set", "add", "times-2-5-10", "Mira", "--taught", "--on", "2026-01-06")
    assert of(sit(family, "2026-01-06"), "problem")[0]["card"].startswith("product:")


def test_a_dropped_set_comes_back_with_its_memory(family: Review) -> None:
    finish(family, "2026-01-06")
    before = json.loads(family("overdue", "Mira", "--json", "--all", "--on", "2026-03-01").out)
    assert before
    family("set", "drop", "addition-facts-10", "Mira", "--on", "2026-01-07")
    assert json.loads(family("overdue", "Mira", "--json", "--all", "--on", "2026-03-01").out) == []
    family("set", "add", "addition-facts-10", "Mira", "--on", "2026-01-08")
    assert json.loads(family("overdue", "Mira", "--json", "--all", "--on", "2026-03-01").out) == before


def test_a_trial_keeps_nothing(family: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """And asks for no book that can be written: it may lie where nobody may write."""

    def refuse(outside: object) -> None:
        raise AssertionError("opened for writing")

    monkeypatch.setattr("review.writes.writing", refuse)
    before = (tmp_path / "family.book").read_bytes()
    told = sit(family, "2026-01-06", SURE, SURE, more=("--try",))
    assert len(of(told, "mark")) == 2
    assert (tmp_path / "family.book").read_bytes() == before


def test_a_familys_own_set_is_kept_in_the_book(family: Review, tmp_path: Path) -> None:
    own = tmp_path / "own.toml"
    own.write_text(
        '[set]\nid = "own"\ntitle = "Ours"\nabout = "Ours."\naim = "accuracy"\nages = [6, 9]\n'
        '[[skill]]\nid = "our-pairs"\ntitle = "Ours"\nkind = "pairs"\n'
        'pairs = [["How many in a dozen?", "12"]]\n'
    )
    assert family("set", "add", str(own), "Jonah", "--taught", "--on", "2026-01-05").code == 0
    own.unlink()
    done = family("warmup", "Jonah", "--on", "2026-01-06", typed="twelve\n12\n")
    assert "How many in a dozen?" in done.out


def test_an_own_set_may_not_take_a_shipped_name_or_skill(family: Review, tmp_path: Path) -> None:
    shipped = (Path(__file__).parents[2] / "card_sets" / "times-2-5-10.toml").read_text()
    same = tmp_path / "same.toml"
    same.write_text(shipped)
    assert "another `id`" in family("set", "add", str(same), "Mira").err
    same.write_text(shipped.replace('id = "times-2-5-10"', 'id = "mine"'))
    family("set", "add", "times-2-5-10", "Mira", "--on", "2026-01-05")
    done = family("set", "add", str(same), "Mira", "--on", "2026-01-05")
    assert (done.code, "table-of-2" in done.err) == (1, True)


def test_the_front_door_says_only_ready_or_done(family: Review, monkeypatch: pytest.MonkeyPatch) -> None:
    from review import clock
    from review.core import days

    noon = (days.day_of(days.date_of(739_622)) - 719_163) * 86_400_000 + 43_200_000
    monkeypatch.setattr(clock, "now_ms", lambda: noon)
    today = str(days.date_of(739_622))
    assert family().out.splitlines()[:2] == ["Mira: ready", "  review warmup Mira"]
    finish(family, today)
    assert "Mira: done today" in family().out
    assert "Jonah: no skill set yet" in family().out


def test_the_front_door_and_the_warm_up_mean_the_same_day(
    family: Review, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What a computer whose clock is a day ahead brought in by a merge: `review` said ready, and the warm-up
    that the day was done."""
    from review import clock
    from review.core import days

    today = 739_622
    monkeypatch.setattr(clock, "now_ms", lambda: (today - 719_163) * 86_400_000 + 43_200_000)
    finish(family, str(days.date_of(today + 1)))
    assert "Mira: done today" in family().out
    assert [row["done"] for row in json.loads(family("--json").out)] == [True, False]
    assert "You are done for today." in family("warmup", "Mira").out
    assert "Mira: ready" in family("--on", str(days.date_of(today))).out


def test_the_same_book_and_day_give_the_same_warm_up(family: Review) -> None:
    first = sit(family, "2026-01-06", more=("--try",))
    assert first == sit(family, "2026-01-06", more=("--try",))


def test_after_a_week_the_book_is_sound(family: Review) -> None:
    for day in range(6, 12):
        sit(family, f"2026-01-{day:02}", SURE, '{"help": true}\n', SURE, '{"pass": true}\n', SURE)
    done = family("verify")
    assert done.code == 0, done.err
    assert "same bits" in done.out


def test_help_given_before_a_stop_is_not_forgotten(family: Review) -> None:
    """Asked for all its help, then stopped: after the next start the answer still was a helped one."""
    told = sit(family, "2026-01-06", *['{"help": true}\n'] * 5, '{"stop": true}\n')
    problem = of(told, "problem")[-1]
    again = sit(family, "2026-01-06", json.dumps({"answer": solved(problem["prompt"]), "seconds": 3}) + "\n")
    assert of(again, "mark")[0]["mark"] == "right_helped"


def test_a_mistyped_year_locks_nobody_out(family: Review) -> None:
    done = family("set", "add", "number-bonds-10", "Mira", "--on", "3026-01-06")
    assert (done.code, "60 days ahead" in done.err) == (1, True)
    assert family("set", "add", "number-bonds-10", "Mira", "--on", "2026-01-06").code == 0


@pytest.mark.parametrize("minutes", ["nan", "inf", "0", "-3", "31"])
def test_minutes_that_cannot_be(family: Review, minutes: str) -> None:
    done = family("warmup", "Mira", "--on", "2026-01-06", "--minutes", minutes)
    assert (done.code, done.out) == (1, "")
    assert "1 to 30" in done.err


def test_a_card_of_two_skills_comes_when_one_of_them_is_taught(family: Review) -> None:
    for name in ("times-2-5-10", "times-3-4-8"):
        family("set", "add", name, "Jonah", "--on", "2026-01-05")
    family("taught", "table-of-3", "Jonah", "--on", "2026-01-05")
    done = family("warmup", "Jonah", "--jsonl", "--on", "2026-01-06", typed='{"stop": true}\n')
    assert '"type": "problem"' in done.out


def test_what_is_printed_can_be_typed(review: Review, tmp_path: Path) -> None:
    book = str(tmp_path / "my book")
    done = review("--book", book, "child", "add", "Mary Ann", "--age", "7", "--on", "2026-01-05")
    assert f"review--book'{book}'setaddSET'MaryAnn'".replace(" ", "") in "".join(done.out.split())
    done = review("overdue", "Zoe", "--book", book)
    assert "Mary Ann" in done.err


def test_an_empty_name_is_nobody(family: Review) -> None:
    assert family("overdue", "").code == 1
    assert family("set", "drop", "", "Mira").code == 1
    assert family("taught", " ", "Mira").code == 1


def test_groups_alone_print_their_help(family: Review) -> None:
    done = family("set")
    assert done.out.startswith("Usage: review set")
    assert done.err == ""


def test_the_front_door_takes_a_day_and_json(family: Review) -> None:
    rows = json.loads(family("--json", "--on", "2026-01-06").out)
    assert [(row["child"], row["done"]) for row in rows] == [("Mira", False), ("Jonah", False)]
    assert json.loads(family("verify", "--json").out)["sound"] is True


def test_ctrl_c_leaves_a_backup_too(family: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from review.cli import fronts
    from review.errors import Interrupted

    def interrupted(*arguments: object) -> None:
        raise Interrupted("Stopped. Everything is kept.")

    monkeypatch.setattr(fronts, "chosen", lambda plain, jsonl, aloud, speak: interrupted)
    assert family("warmup", "Mira", "--on", "2026-01-06").code == 130
    assert list((tmp_path / "family.book.backups").iterdir())


def test_a_title_that_asks_has_no_full_stop_behind_it(family: Review, tmp_path: Path) -> None:
    text = """[set]
id = "our-fuel"
title = "How far does it go?"
about = "What we ask on board."
aim = "accuracy"
ages = [6, 9]
[[skill]]
id = "our-cans"
title = "How many cans?"
kind = "pairs"
pairs = [["cans in the locker", "6"], ["cans on deck", "2"]]
[[skill]]
id = "our-miles"
title = "How many miles?"
kind = "pairs"
after = ["our-cans"]
pairs = [["miles on a can", "9"]]
"""
    (tmp_path / "fuel.toml").write_text(text)
    say = partial(says, family)
    told = [
        say("set", "add", str(tmp_path / "fuel.toml"), "Mira", *ON),
        say("extra", "our-cans", "Mira", *ON),
        say("taught", "our-cans", "Mira", *ON),
        say("taught", "our-fuel", "Mira", *ON),
        say("taught", "our-miles", "Mira", "--not", *ON),
        say("teach", "Mira", *ON),
        say("known", "our-cans", "Mira", *ON),
        say("known", "our-cans", "Mira", "--not", *ON),
        say("focus", "our-cans", "Mira", *ON),
        say("focus", "our-miles", "Mira", *ON),
        say("log", "Mira", *ON),
        say("brief", "Mira", *ON),
        say("set", "show", str(tmp_path / "fuel.toml")),
    ]
    assert [one for one in told if "?." in one] == []
    assert "How many miles? How many cans?: 0 of 2 cards known." in told[5]
    assert "Set given: How far does it go? Taught: How many cans?" in told[10]
