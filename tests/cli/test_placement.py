"""`review placement` as a family uses it: the parent's words, the child's few minutes, the result."""

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from review import clock, config, gather
from review.app import placing
from review.book import store
from review.core import days, marking, skills
from review.core.answer_bodies import event_answer
from review.core.model import Draft, Event, Pupil, SkillSet
from review.core.placement_result import Ticks
from review.errors import Mendable
from review.gather import Outside
from tests.cli.conftest import Review

SET = "times-2-5-10"
DAY = "2026-01-06"
Told = list[dict[str, Any]]


@pytest.fixture
def home_of_tables(family: Review) -> Review:
    assert family("set", "add", SET, "Jonah", "--on", "2026-01-05").code == 0
    return family


def begin(review: Review, *lines: str, day: str = DAY, more: tuple[str, ...] = ()) -> Told:
    typed = "".join(f"{line}\n" for line in lines)
    done = review("placement", SET, "Jonah", "--jsonl", "--on", day, *more, typed=typed)
    assert done.code == 0, done.err
    return [json.loads(line) for line in done.out.splitlines()]


def sit(
    review: Review,
    day: str = DAY,
    missed: tuple[str, ...] = (),
    most: int = 30,
    more: tuple[str, ...] = (),
) -> list[str]:
    """Answer what is asked, one call at a time so that each is taken up again; the cards in order."""
    asked: list[str] = []
    for _ in range(most):
        told = begin(review, day=day, more=more if not asked else ())
        problem = next((one for one in told if one["type"] == "problem"), None)
        if problem is None:
            return asked
        key, prompt = problem["card"], problem["prompt"]
        a, b = (int(n) for n in prompt.replace("=", "").split("×"))
        text = "" if key in missed else str(a * b)
        begin(review, json.dumps({"answer": text, "seconds": 2.0}), day=day)
        asked.append(key)
    return asked


def result(review: Review, *more: str, day: str = DAY) -> dict[str, dict[str, Any]]:
    done = review("placement", SET, "Jonah", "--json", "--on", day, *more)
    assert done.code == 0, done.err
    return {one["skill"]: one for one in json.loads(done.out)["skills"]}


def test_the_parents_word_comes_first(home_of_tables: Review) -> None:
    asked = sit(home_of_tables, more=("--known", "table-of-10", "--untaught", "table-of-5"))
    found = result(home_of_tables)
    assert asked
    assert all("x10" not in key for key in asked)  # 2 × 10 as well, which the table of 2 has first
    assert (found["table-of-10"]["said"], found["table-of-10"]["taught"]) == ("known", True)
    assert (found["table-of-5"]["said"], found["table-of-5"]["asked"]) == ("untaught", 0)
    assert found["table-of-2"]["asked"] == len({*asked})


def test_what_is_surely_known_is_in_memory(home_of_tables: Review) -> None:
    begin(home_of_tables, more=("--known", "table-of-10"))
    told = json.loads(home_of_tables("overdue", "Jonah", "--json", "--all", "--on", "2026-02-20").out)
    assert {row["skill"] for row in told} == {"table-of-10", "table-of-2"}
    assert [row["card"] for row in told if row["skill"] == "table-of-2"] == ["product:2x10"]  # of both tables


def test_a_placement_is_taken_up_again_and_asks_no_card_twice(home_of_tables: Review) -> None:
    asked = sit(home_of_tables)
    assert 4 <= len(asked) <= 25
    assert len(asked) == len({*asked})
    told = begin(home_of_tables)
    assert [one["type"] for one in told] == ["summary"]
    assert told[0]["finished"]


def test_two_misses_end_the_day_and_another_day_goes_on(home_of_tables: Review) -> None:
    facts = (f"product:{a}x{b}" for a in range(2, 11) for b in range(a, 11))
    every = ("product:nx0", "product:nx1", *facts)
    assert len(sit(home_of_tables, missed=every)) == 2
    later = sit(home_of_tables, day="2026-01-07")
    assert later
    assert later[0] not in ("product:nx0", "product:nx1")


def test_where_nothing_is_left_to_ask_the_parent_is_not_asked_first(home_of_tables: Review) -> None:
    assert home_of_tables("known", SET, "Jonah", "--on", DAY).code == 0
    asked: list[SkillSet] = []

    def asks(found: SkillSet, pupil: Pupil) -> Ticks:
        asked.append(found)
        return Ticks()

    on = days.day_of(date.fromisoformat(DAY))
    outside = Outside(config.book_path(None), config.state_folder(), clock.now_ms(), on)
    with pytest.raises(Mendable, match="nothing to find out"):
        placing.place(outside, SET, "Jonah", asks, lambda *of: pytest.fail("a child was asked"))
    assert not asked


def test_where_no_placement_was_nobody_is_sent_to_what_it_found(home_of_tables: Review) -> None:
    """--show had nothing to show there, and sent back to where nothing was to be asked."""
    assert home_of_tables("known", SET, "Jonah", "--on", DAY).code == 0
    done = home_of_tables("placement", SET, "Jonah", "--on", DAY)
    assert (done.code, "--show" in done.err) == (1, False)
    assert "How it stands: review progress Jonah" in done.err


def test_one_set_a_day(home_of_tables: Review) -> None:
    sit(home_of_tables, most=2)
    home_of_tables("set", "add", "times-3-4-8", "Jonah", "--on", DAY)
    done = home_of_tables("placement", "times-3-4-8", "Jonah", "--on", DAY)
    assert (done.code, "one a day is enough" in done.err) == (1, True)
    assert home_of_tables("placement", "times-3-4-8", "Jonah", "--on", "2026-01-07").code == 0


EVERY = ("--known", "table-of-2", "--known", "table-of-10", "--known", "table-of-5")


def test_where_all_is_known_the_words_are_kept_and_nobody_is_asked(home_of_tables: Review) -> None:
    done = home_of_tables("placement", SET, "Jonah", "--on", DAY, *EVERY)
    assert (done.code, done.err) == (0, "")
    said = done.out.replace("\n  ", " ")
    assert "Known, you said: The table of 2, The table of 10 and The table of 5." in said
    assert "review warmup Jonah" in said
    assert "Hello" not in said
    assert {one["said"] for one in result(home_of_tables).values()} == {"known"}
    assert all(one["said_known"] for one in result(home_of_tables).values())
    again = begin(home_of_tables, more=EVERY)
    assert [(one["type"], one["finished"]) for one in again] == [("summary", True)]


def test_where_nothing_was_taught_it_says_what_to_type_then(home_of_tables: Review) -> None:
    untaught = tuple("--untaught" if word == "--known" else word for word in EVERY)
    done = home_of_tables("placement", SET, "Jonah", "--on", DAY, *untaught)
    assert (done.code, "Not taught yet: The table of 2," in done.out) == (0, True)
    assert "review taught table-of-2 Jonah" in done.out
    assert "Known, you said" not in done.out


def test_a_probe_leaves_no_trace_in_the_warm_up_but_its_minutes(
    home_of_tables: Review, tmp_path: Path
) -> None:
    """The same day's warm-up has what is left of the child's minutes, and looks at no probe again."""
    asked = sit(home_of_tables, missed=("product:nx0",))
    home_of_tables("taught", SET, "Jonah", "--on", DAY)
    done = home_of_tables("warmup", "Jonah", "--jsonl", "--on", DAY, typed='{"answer": "0", "seconds": 1}\n')
    told = [json.loads(line) for line in done.out.splitlines()]
    problems = [one for one in told if one["type"] == "problem"]
    assert problems
    assert not problems[0]["copying"]
    assert not {one["card"] for one in problems} & {*asked}
    with store.open_book(tmp_path / "family.book", config.state_folder(), write=False) as book:
        (planned,) = book.events(kinds=("sitting",))
    assert planned.body["seconds"] == 300 - 2 * len(asked)


def test_a_child_who_copies_slowly_is_judged_by_that(home_of_tables: Review, tmp_path: Path) -> None:
    body = {"given": "12", "mark": "right", "role": "copy", "age": 9, "end_ms": 4600}
    with store.open_book(tmp_path / "family.book", config.state_folder(), write=True) as book:
        children = {one.name: one.key for one in gather.family_of(book)}
        copies = [
            Draft(children["Jonah"], "answer", 738_160, 1_767_600_000_000 + n, 0, f"product:2x{n}", body)
            for n in range(1, 7)
        ]
        book.record(copies, gather.remember())
    sit(home_of_tables, most=1)
    with store.open_book(tmp_path / "family.book", config.state_folder(), write=False) as book:
        probe = next(row for row in book.events(kinds=("answer",)) if row.body.get("role") == "probe")
    digits = len(event_answer(probe).expected)
    assert probe.body["copy_ms"] == pytest.approx(2 * marking.copying_ms(9, digits), rel=0.01)


def test_a_probe_that_was_not_known_lets_new_cards_in() -> None:
    rows = [
        Event(1, n, "c", "answer", 1, n, n, 0, f"sum:2+{n}", {"role": role, "mark": mark})
        for n, (role, mark) in enumerate([("probe", "not_yet"), ("probe", "right"), ("ask", "not_yet")])
    ]
    assert gather.recent_right(rows, before=2) == (True, False)


def test_the_result_can_be_put_right(home_of_tables: Review) -> None:
    missed = sit(home_of_tables, most=1)[0]
    asked = sit(home_of_tables, missed=("product:2x7", "product:2x8"))
    found = result(home_of_tables)
    right = [key for one in found.values() for key in one["known"]]
    assert {*right} == {missed, *asked} - {"product:2x7", "product:2x8"}
    title = skills.traits(right[0]).title
    after = result(home_of_tables, "--not", title)
    assert right[0] in [key for one in after.values() for key in one["not_yet"]]
    back = result(home_of_tables, "--known", right[0])
    assert right[0] in [key for one in back.values() for key in one["said_known"]]


def test_taking_back_one_card_leaves_the_others_known(home_of_tables: Review) -> None:
    begin(home_of_tables, more=("--known", "table-of-10"))
    before = result(home_of_tables)["table-of-10"]
    after = result(home_of_tables, "--not", "7x10")["table-of-10"]
    assert after["unasked"] == ["product:7x10"]
    assert {*after["said_known"]} == {*before["said_known"]} - {"product:7x10"}
    assert home_of_tables("verify").code == 0


def test_the_rest_of_a_skill_is_counted_only_when_the_parent_says_so(home_of_tables: Review) -> None:
    sit(home_of_tables, most=6)
    before = result(home_of_tables)
    skill = next(name for name, one in before.items() if one["asked"] and one["unasked"])
    after = result(home_of_tables, "--rest", skill)
    assert {*after[skill]["said_known"]} == {*before[skill]["unasked"]}
    assert after[skill]["known"] == before[skill]["known"]


def test_the_result_in_words(home_of_tables: Review) -> None:
    asked = sit(home_of_tables, most=8)
    found = result(home_of_tables)
    out = home_of_tables("placement", SET, "Jonah", "--show", "--on", DAY).out
    assert "Jonah: Tables of 2, 5 and 10" in out
    for one in found.values():
        if one["asked"]:
            known = len(one["known"]) + len(one["worked_out"])
            assert f"{one['title']}: {known} of {one['asked']} asked known." in out
    assert asked
    assert "review placement times-2-5-10 Jonah --show" in out.replace("\n  ", " ")


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("placement", "times-3-4-8", "Jonah"), "review set add times-3-4-8 Jonah"),
        (("placement", "tims", "Jonah"), "no skill set"),
        (("placement", SET), "Which child?"),
        (("placement", "jonah"), "Write review placement SET Jonah; review child list tells"),
        (("placement", "roman-early", "Mira"), "only to be met and recognised"),
        (("placement", SET, "Jonah", "--known", "table-of-99"), "has a skill called"),
        (("placement", SET, "Jonah", "--show", "--not", "6x99"), "no card and no skill"),
        (("placement", SET, "Jonah", "--show", "--not", "2x7", "--known", "2x7"), "Say one of them"),
        (("placement", SET, "Jonah", "--known", "table-of-2", "--untaught", "table-of-2"), "Say one of them"),
    ],
)
def test_a_mistake_gets_one_clear_sentence(
    home_of_tables: Review, arguments: tuple[str, ...], says: str
) -> None:
    done = home_of_tables(*arguments, "--on", DAY)
    assert done.code == 1
    assert says.casefold() in done.err.casefold()
    assert "Traceback" not in done.err


def test_before_the_first_one_it_says_how_to_begin(home_of_tables: Review) -> None:
    out = home_of_tables("placement", SET, "Jonah", "--show", "--on", DAY).out
    assert "Begin one: review placement times-2-5-10 Jonah" in out


def test_a_child_sees_no_verdict_and_no_number_about_them(home_of_tables: Review, tmp_path: Path) -> None:
    done = home_of_tables("placement", SET, "Jonah", "--on", DAY, typed="0\n7\n?\n\npass\n10\n14\n")
    words = done.out.casefold().replace("hello, jonah.", "")
    for verdict in ("right", "wrong", "correct", "easy", "well done", "score", "%", SET, "of 8"):
        assert verdict not in words
    assert "here it is again." in words
    assert all(len(line) <= 40 for line in done.out.splitlines())
