"""A sitting read aloud: what the parent sees, the keys, and that both fronts keep the same."""

import os
import re
import signal
import time
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import session, skills
from review.core.model import HELP_STEPS, Answer, Help, HelpStep
from review.core.skills.strategies import worked_as
from review.core.warmup import AskHelp, Helped, Show
from review.terminal import TAKEN_BACK, WIDTH, picture_lines
from review.terminal.aloud import (
    HELPS,
    KEYS,
    View,
    help_lines,
    key_lines,
    next_help,
    offer,
    problem_lines,
)
from review.terminal.aloud_keys import APART_NS
from tests.core.sittings import a_sitting, due
from tests.terminal.seat import Seat, rows_of, seat
from tests.terminal.streams import by_aloud_lines

GOLDEN = Path(__file__).parent / "golden"
GREETING = "greet=Hello, Tove.|Fill the dots. Then you are done."
APART_S = APART_NS / 1e9 + 0.05


def golden(name: str, text: str) -> None:
    assert text == (GOLDEN / f"aloud-{name}.txt").read_text(encoding="utf-8")


def press(taken: Seat, key: str) -> Seat:
    """A key that is not taken for the one before pressed twice."""
    time.sleep(APART_S)
    taken.press(key)
    return taken


# --- what the parent sees -----------------------------------------------------------------------------


@pytest.mark.parametrize("columns", [80, 40])
def test_pages_from_greeting_to_end(rows: Path, columns: int) -> None:
    with seat(rows, GREETING, front="aloud", columns=columns) as taken:
        taken.see("Read out: double two").see("s  stop")
        golden("first", taken.text)
        press(taken, "m").see("two plus five")
        press(taken, "2").see("seven times six").see("s  stop")
        press(taken, "?").see("something to build").see("s  stop")
        golden("help", taken.text)
        press(taken, "n").see("Then press Enter.").see("s  stop")
        golden("told", taken.text)
        press(taken, "\r").see("36 + 15 =")
        press(taken, "\x1b[D").see("It may be new").see("s  stop")
        golden("meeting", taken.text)
        press(taken, "b").see(TAKEN_BACK).see("36 + 15")
        for key, seen in zip("wmmmm", ("7 × 8", "15 −", "7 × 6", "Half of 18", "Half of 10"), strict=True):
            press(taken, key).see(seen)
        press(taken, "m")
        assert taken.finish() == 0
        golden("end", taken.text)
        assert max(len(line) for line in taken.lines) <= WIDTH
    assert [(row["card"], row["mark"]) for row in rows_of(rows)][:4] == [
        ("double:2", "right"), ("sum:2+5", "right_slow"), ("product:6x7", "not_yet"),
        ("mental-sum:2+2/regroup-ones", "right_slow"),
    ]  # fmt: skip
    assert {row["taken"] for row in rows_of(rows)} == {"aloud"}


def test_the_answer_does_not_stand_beside_a_picture_the_child_looks_at() -> None:
    problem = skills.problem("clock:read/60", "03:00")
    view = View(Show(1, problem))
    hidden, shown = "\n".join(problem_lines(view)), "\n".join(problem_lines(view._replace(answer=True)))
    assert f"Answer: {problem.expected}" not in hidden
    assert "a  answer   b  take back   s  stop" in key_lines(view)
    assert f"Answer: {problem.expected}" in shown
    assert "\n".join(picture_lines(problem.picture)) in hidden
    first_of_day = view._replace(show=view.show._replace(first_meeting=True, dots=(3, 20)))
    assert len([*problem_lines(first_of_day), *key_lines(first_of_day)]) < 24


def test_dots_are_seen_at_once_or_counted() -> None:
    def keys(card: str, asked: str) -> list[str]:
        return key_lines(View(Show(1, skills.problem(card, asked))))

    dots, clock = "quantity:dots/1..5", "clock:read/60"
    assert "1 at once  2 counted  3 not yet" in keys(dots, skills.KINDS["quantity"].draw(dots, Random(1)))
    assert "1 from memory  2 worked out  3 not yet" in keys(clock, "03:00")


def test_help_is_offered_by_its_name_and_told_when_it_is_asked_for() -> None:
    problem = skills.problem("product:6x7", "7x6")
    view = View(Show(1, problem))
    for n, help in enumerate(problem.helps):
        now = view._replace(given=problem.helps[:n])
        assert next_help(now) == help
        assert f"?  help: {HELPS[help.step]}" in key_lines(now)
        assert help.text not in "\n".join([*problem_lines(now), *help_lines(now)])
    assert offer(view._replace(given=problem.helps)) == ""
    assert offer(View(Show(1, problem), helps=False)) == ""
    assert next_help(View(Show(1, problem, helped=1))) == problem.helps[1]


@given(st.sampled_from(HELP_STEPS), st.booleans(), st.booleans())
def test_every_page_is_forty_columns_wide(step: str, meeting: bool, copying: bool) -> None:
    long = "a very long prompt of a family's own that goes on and on, □ = "
    problem = skills.problem("sum:2+5", "2+5")._replace(
        prompt=long,
        say=long,
        expected=long,
        helps=(Help(step, "Count on."),),  # type: ignore[arg-type]
    )
    view = View(Show(1, problem, first_meeting=meeting, copying=copying, dots=(3, 20)))
    page = [*problem_lines(view), *help_lines(view), *key_lines(view)]
    assert max(map(len, page)) <= WIDTH


def test_a_prompt_that_is_read_out_as_it_stands_is_there_once() -> None:
    story = "Five hens sit in the yard. How many hens are there?"
    asked = skills.problem("sum:2+5", "2+5")
    twice = problem_lines(View(Show(1, asked)))
    once = problem_lines(View(Show(1, asked._replace(prompt="How many hens are there?", say=story))))
    assert asked.prompt in twice
    assert " ".join(" ".join(once).split()).count("How many hens are there?") == 1


# --- the keys -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "mark"),
    [
        *((key, "right") for key in ("m", "1", "M", "\x1b[D")),
        *((key, "right_slow") for key in ("w", "2", "\x1bOB")),
        *((key, "not_yet") for key in ("n", "3", "\x1b[C")),
    ],
)
def test_one_of_three(rows: Path, key: str, mark: str) -> None:
    with seat(rows, front="aloud") as taken:
        taken.see("double two").see("s  stop")
        press(taken, key)
        taken.see("Then press Enter." if mark == "not_yet" else "two plus five")
        press(taken, "s")
        assert taken.finish() == 0
    assert [(row["mark"], row["end_ms"]) for row in rows_of(rows)] == [(mark, 0)]


def test_a_key_held_down_or_pressed_twice_is_one_press(rows: Path) -> None:
    with seat(rows, front="aloud") as taken:
        taken.see("double two").see("s  stop")
        for _ in range(12):  # as a keyboard repeats
            taken.press("m")
            time.sleep(0.05)
        taken.see("two plus five").see("s  stop")
        press(taken, "n").see("Then press Enter.")
        taken.press("n")
        taken.read()
        press(taken, "s")
        assert taken.finish() == 0
    assert [row["mark"] for row in rows_of(rows)] == ["right", "not_yet"]


def test_other_keys_do_nothing(rows: Path) -> None:
    with seat(rows, front="aloud") as taken:
        taken.see("double two").see("s  stop")
        for key in ("x", " ", "\r", "4", "\x1b", "\x1b[A", "é", "a"):
            press(taken, key)
        assert rows_of(rows) == []
        press(taken, "m").see("two plus five")


def test_the_last_one_is_taken_back_as_far_as_this_sitting_goes(rows: Path) -> None:
    with seat(rows, "so_far=1", front="aloud") as taken:
        taken.see("two plus five").see("s  stop")
        press(taken, "b").see("Nothing of this sitting").see("two plus five")
        press(taken, "n").see("Then press Enter.")
        press(taken, "\r").see("seven times six").see("s  stop")
        press(taken, "\x7f").see(TAKEN_BACK).see("two plus five")
        assert rows_of(rows) == []
        press(taken, "m").see("seven times six").see("s  stop")
        press(taken, "s")
        assert taken.finish() == 0
    assert [(row["card"], row["mark"]) for row in rows_of(rows)] == [("sum:2+5", "right")]


def test_with_nothing_to_take_back_the_help_that_was_given_stays(rows: Path) -> None:
    with seat(rows, "so_far=2", front="aloud") as taken:
        taken.see("seven times six").see("s  stop")
        press(taken, "?").see(HELPS["build"]).see("s  stop")
        before = taken.lines
        press(taken, "b").see("Nothing of this sitting")
        press(taken, "b").settle(0.3)  # the page is the same again: nothing new to wait for
        assert [line for line in taken.lines if line] == [
            "Nothing of this sitting to take back.", *(line for line in before if line)
        ]  # fmt: skip
        press(taken, "m").see("36 + 15")
        press(taken, "s")
        assert taken.finish() == 0
    assert [(row["card"], row["help"], row["mark"]) for row in rows_of(rows)] == [
        ("product:6x7", "question", "right_helped")
    ]


def test_lines_keep_the_help_too() -> None:
    heard = by_aloud_lines("?\nb\nm\n")
    assert "Nothing of this sitting to take back.\n" in heard.text
    assert heard.answers[0].help == by_aloud_lines("?\nm\n").answers[0].help != ""


@pytest.mark.parametrize(
    ("card", "strategy"),
    [
        ("mental-difference:2-1/regroup", "opening"),  # a step more than by the way that suits best
        ("mental-difference:3-2/tens-across", "counting-up"),  # a step less
        ("mental-sum:2+2/regroup-ones", "partitioning"),
        ("mental-sum:2+2/near-ten", "bridging"),
    ],
)
@pytest.mark.parametrize("named", [False, True])
def test_what_is_offered_is_what_comes_whichever_way_help_follows(
    card: str, strategy: str, named: bool
) -> None:
    """As the child likes it, or as the skill says; and where none is left, asking once more shows nothing and
    keeps nothing."""
    sitting = a_sitting(due(card)[0], reserve=())
    if named:
        ways = {card: sitting.cards[card]._replace(strategies=(strategy,))}
        sitting = sitting._replace(cards={**sitting.cards, **ways})
    else:
        sitting = sitting._replace(plan=sitting.plan._replace(likes={worked_as(card): strategy}))
    for seed in range(12):
        drawn = sitting._replace(book=f"book-{seed}")
        state, effects = session.start(drawn)
        show = next(effect for effect in effects if isinstance(effect, Show))
        offered, given = list[HelpStep](), list[HelpStep]()
        while following := next_help(View(show._replace(helped=len(given)))):
            offered.append(following.step)
            state, effects = session.step(state, AskHelp())
            given += [effect.help.step for effect in effects if isinstance(effect, Helped)]
            assert offered == given
        assert given[-1] == "steps"
        heard = by_aloud_lines("?\n" * (len(given) + 5) + "s\n", sitting=drawn)
        assert [(row.mark, row.help) for row in heard.answers] == [("void", "steps")]


# --- every way to end ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("way", "code"),
    [("s", 0), ("\x04", 0), ("\x03", 130), (signal.SIGTERM, 143), (signal.SIGHUP, 129)],
)
@pytest.mark.parametrize("held", [False, True])
def test_the_terminal_is_as_it_was(rows: Path, way: str | signal.Signals, code: int, held: bool) -> None:
    with seat(rows, front="aloud") as taken:
        taken.see("double two").see("s  stop")
        if held:
            press(taken, "n").see("Then press Enter.")
        if isinstance(way, str):
            press(taken, way)
        else:
            os.kill(taken.child.pid, way)
        assert taken.finish() == code
        assert taken.attributes() == taken.before
        if code in (0, 130):
            taken.see("You can go on later today.")
    assert len(rows_of(rows)) == held


def test_a_process_that_was_stopped_shows_its_page_again(rows: Path) -> None:
    with seat(rows, front="aloud") as taken:
        taken.see("double two").see("s  stop")
        os.kill(taken.child.pid, signal.SIGSTOP)
        time.sleep(0.1)
        seen = len(taken.raw)
        os.kill(taken.child.pid, signal.SIGCONT)
        deadline = time.monotonic() + 10
        while b"double two" not in taken.raw[seen:] and time.monotonic() < deadline:
            taken.read()
        assert b"double two" in taken.raw[seen:]
        press(taken, "m").see("two plus five")
    assert [row["mark"] for row in rows_of(rows)] == ["right"]


# --- line by line -------------------------------------------------------------------------------------


def test_a_piped_sitting_from_greeting_to_end() -> None:
    heard = by_aloud_lines("m\nw\n?\nn\nWhat?\nw\nn\nm\nb\n3\nm\nm\nm\nm\nm\nm\nm\n", greet=("Hello, Tove.",))
    golden("lines", heard.text)
    assert heard.summary.finished
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]", heard.text)
    assert max(map(len, heard.text.splitlines())) <= WIDTH


@pytest.mark.parametrize("end", ["", "s\n", "stop\n", "STOP"])
def test_input_that_ends_is_a_stop(end: str) -> None:
    heard = by_aloud_lines(f"m\n{end}")
    assert [row.mark for row in heard.answers] == ["right"]
    assert heard.text.endswith("You can go on later today.\n")


@given(st.binary(max_size=200))
def test_any_input_ends_in_a_summary(data: bytes) -> None:
    assert by_aloud_lines(data).summary.first_tries >= 0


@given(st.lists(st.sampled_from(["m", "w", "n", "b", "?", "x"]), max_size=7))
def test_what_was_taken_back_is_as_if_it_had_not_been(said: list[str]) -> None:
    """The same rows as without each answer that was taken back; help with it, and since, is gone too. Where
    there is nothing to take back all stays as it is, the help as well."""
    kept: list[str] = []
    for one in said:
        if one == "b" and not any(other in "mwn" for other in kept):
            continue
        if one == "b":
            last = max(n for n, other in enumerate(kept) if other in "mwn")
            start = max((n for n, other in enumerate(kept[:last]) if other in "mwn"), default=-1) + 1
            kept = kept[:start]
        elif one != "x":
            kept.append(one)
    with_backs = by_aloud_lines("".join(f"{one}\n" for one in [*said, *"m" * 30]))
    without = by_aloud_lines("".join(f"{one}\n" for one in [*kept, *"m" * 30]))
    assert with_backs.answers == without.answers


SCRIPT: tuple[tuple[str, str], ...] = (
    ("double two", "m"), ("two plus five", "w"), ("seven times six", "n"), ("thirty-six", "?"),
    ("thirty-six", "w"), ("seven times eight", "n"), ("fifteen", "m"), ("fifteen", "b"),
)  # fmt: skip


def test_a_thumb_that_slipped_onto_not_yet_takes_it_back_at_once(rows: Path) -> None:
    """Also where what was told waits to be read."""
    with seat(rows, front="aloud") as taken:
        taken.see("double two").see("s  stop")
        press(taken, "n").see("Then press Enter.")
        press(taken, "b").see(TAKEN_BACK).see("double two")
        assert rows_of(rows) == []
        press(taken, "m").see("two plus five").see("s  stop")
    with seat(rows, "so_far=1", front="aloud-lines") as taken:
        taken.see("two plus five").at("m / w / n: ").press("n\r")
        taken.see("Then press Enter.").press("b\r")
        taken.see(TAKEN_BACK).at("m / w / n: ")
        assert "seven times six" not in taken.text  # it comes once that is answered, and not before
        taken.press("w\r")
        taken.see("seven times six").at("m / w / n: ")
    assert [row["mark"] for row in rows_of(rows)] == ["right", "right_slow"]


@pytest.mark.parametrize("front", ["aloud", "aloud-lines"])
def test_who_stops_while_something_is_to_be_read_sees_no_further_problem(rows: Path, front: str) -> None:
    with seat(rows, front=front, columns=40) as taken:
        taken.see("double two").settle(0.1)
        press(taken, "n" if front == "aloud" else "n\r").see("Then press Enter.").settle(0.1)
        press(taken, "s" if front == "aloud" else "s\r")
        assert taken.finish() == 0
    assert b"two plus five" not in taken.raw
    assert [row["mark"] for row in rows_of(rows)] == ["not_yet"]


def test_keys_and_lines_keep_the_same(rows: Path) -> None:
    with seat(rows, front="aloud") as taken:
        taken.see("double two").see("s  stop")
        for seen, key in SCRIPT[:-1]:
            taken.see(seen)
            press(taken, key)
            if key == "n":
                press(taken.see("Then press Enter."), "\r")
        press(taken, "b").see(TAKEN_BACK).see("fifteen")
        press(taken, "s")
        assert taken.finish() == 0
    by_keys = tuple(Answer(**row) for row in rows_of(rows))  # type: ignore[arg-type]
    assert by_keys == by_aloud_lines("".join(f"{key}\n" for _, key in SCRIPT)).answers
    assert len(by_keys) == 5


def test_a_terminal_that_does_no_more_is_waited_for(rows: Path) -> None:
    with seat(rows, front="aloud-lines", columns=40) as taken:
        taken.at("m / w / n: ").press("n\r")
        taken.see("Then press Enter.").press("\r")
        taken.see("two plus five").at("m / w / n: ").press("s\r")
        assert taken.finish() == 0
    assert b"\x1b" not in taken.raw


def test_every_word_has_a_key() -> None:
    assert {*KEYS.values()} == {"memory", "worked", "not_yet"}
    assert {*HELPS} == {*HELP_STEPS}
