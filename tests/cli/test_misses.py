"""`review misses`: for a parent; played through the real sitting by children who hold rules."""

import json
import sqlite3
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from random import Random

import pytest

from review import clock, config, gather, writes
from review.app import missing, sittings
from review.book.store import Book
from review.core import days, family, misses, plan, session, skills
from review.core.answer_bodies import answer_body
from review.core.findings import (
    Confused,
    Counting,
    Evidence,
    Findings,
    Found,
    Helped,
    Misses,
    Unsaid,
    findings_of,
)
from review.core.model import Answer, Child, Problem, Sort
from review.core.readings import predictions
from review.core.warmup import AskAgain, Heard, Plan, Show, Typed
from review.errors import BookUnwritable
from review.gather import Outside
from review.render import miss_lines
from tests.cli.conftest import Review
from tests.core.sittings import Child as Answering
from tests.core.sittings import fronted, play

FIRST = 739000
KEYS = ["child", "answers", "rules", "confused", "counting", "unsaid", "helped"]
RULE_KEYS = ["family", "rules", "seems", "table", "since", "missed", "explained", "answers"]
EVIDENCE_KEYS = ["day", "card", "prompt", "given", "expected"]


def outside(tmp_path: Path, day: int) -> Outside:
    return Outside(tmp_path / "family.book", config.state_folder(), clock.now_ms(), day)


def follows(*rules: str) -> Callable[[Problem], str]:
    """A child who works by these rules wherever they show."""

    def given(problem: Problem) -> str:
        says = predictions(problem.card, problem.asked)
        return next((says[rule] for rule in rules if rule in says), problem.expected)

    return given


def answers(given: Callable[[Problem], str]) -> Answering:
    """What is copied, the child copies."""

    def answer(show: Show) -> list[Heard]:
        return [Typed(show.problem.expected if show.copying else given(show.problem), 1500, 4000)]

    return answer


def sits(given: Callable[[Problem], str]) -> sittings.Front:
    return fronted(answers(given))


@pytest.fixture
def taught(review: Review) -> Review:
    """Orla has been taught sums in columns."""
    on = days.date_of(FIRST).isoformat()
    for arguments in (
        ("child", "add", "Orla", "--age", "8", "--on", on),
        ("set", "add", "column-sums-to-999", "Orla", "--taught", "--on", on),
    ):
        assert review(*arguments).code == 0
    return review


@pytest.fixture(scope="module")
def week() -> list[bytes]:
    """The book after Orla's week, once she has had it."""
    return []


@pytest.fixture
def orla(review: Review, tmp_path: Path, request: pytest.FixtureRequest, week: list[bytes]) -> Review:
    """She has written sums in columns for a week, each column's sum whole."""
    book = tmp_path / "family.book"
    if not week:
        request.getfixturevalue("taught")
        for day in range(FIRST, FIRST + 7):
            sittings.warmup(outside(tmp_path, day), "Orla", None, False, True, sits(follows("sums_whole")))
        week.append(book.read_bytes())
    book.write_bytes(week[0])
    return review


def test_a_childs_rule_is_named_with_its_evidence(orla: Review) -> None:
    done = orla("misses")
    assert (done.code, done.err) == (0, "")
    assert "Orla seems to write each column's sum whole" in done.out
    assert "At the table:" in done.out
    assert done.out.rstrip().endswith("Hints for teaching, not a diagnosis.")


def test_the_keys_of_the_json(orla: Review) -> None:
    (row,) = json.loads(orla("misses", "orla", "--json").out)
    assert list(row) == KEYS
    assert row["child"] == "Orla"
    (rule,) = row["rules"]
    assert list(rule) == RULE_KEYS
    assert (rule["family"], rule["rules"][0]) == ("column-sum", "sums_whole")
    assert rule["explained"] == rule["missed"]
    assert all(list(one) == EVIDENCE_KEYS for one in rule["answers"])
    assert row["confused"] == []
    assert row["counting"] is None


@pytest.mark.parametrize(("sort", "named"), [("gentle", False), ("extra", True)])
def test_what_is_missed_on_a_hard_day_is_not_held_against_a_child(
    taught: Review, tmp_path: Path, sort: Sort, named: bool
) -> None:
    """The same answers, beside the warm-up; a few more of one kind are answers like any other."""
    for n, asked in enumerate(("47+25", "38+46", "58+23", "67+26", "19+34", "28+57")):
        problem, day = skills.problem("column-sum:2+2/1-within", asked), FIRST + n // 2
        given = follows("sums_whole")(problem)
        row = Answer(problem.card, asked, problem.expected, given, "not_yet", sitting=sort)
        with writes.writing(outside(tmp_path, day)) as book:
            child = gather.family_of(book)[0]
            writes.write(book, outside(tmp_path, day), child, "answer", answer_body(row), day, row.card)
    (told,) = json.loads(taught("misses", "--json", "--on", days.date_of(FIRST + 3).isoformat()).out)
    assert bool(told["rules"]) is named


def test_on_an_earlier_day_it_tells_what_was_known_then(orla: Review) -> None:
    out = orla("misses", "--on", days.date_of(FIRST).isoformat()).out
    assert "seems to" not in out
    assert "Too early to say" in out


def test_all_children_or_one(family: Review) -> None:
    out = family("misses").out
    assert "Mira" in out
    assert "Jonah" in out
    assert "Mira" not in family("misses", "Jonah").out
    missing = family("misses", "Tove")
    assert missing.code == 1
    assert "There is no child called" in missing.err


def test_it_keeps_nothing(orla: Review, tmp_path: Path) -> None:
    before = (tmp_path / "family.book").read_bytes()
    orla("misses")
    assert (tmp_path / "family.book").read_bytes() == before


# --- what is suspected stands in the plan --------------------------------------------------------------


def test_a_suspicion_is_in_the_plan_and_survives_the_log() -> None:
    plan = Plan(
        FIRST, 5.0, (), suspected={"column-sum:2+2/1-within": (("sums_whole", 480), ("carry_far", 3))}
    )
    body = json.loads(json.dumps(family.sitting_body(plan)))
    assert family.sitting_plan_of(FIRST, body) == plan
    assert "suspected" not in family.sitting_body(plan._replace(suspected={}))


def test_a_sitting_taken_up_again_asks_the_same(orla: Review, tmp_path: Path) -> None:
    """Two rules that write the same in two-digit sums are both suspected; what is asked follows from the plan
    alone, wherever the sitting is broken off."""
    day = FIRST + 7
    with writes.writing(outside(tmp_path, day)) as book:
        child = gather.family_of(book)[0]
        pupil = gather.pupil(book, child, day)
        todays = sittings.plan_today(book, outside(tmp_path, day), pupil, 6.0, True)
        keys = [item.key for item in todays.items]
        todays = todays._replace(suspected=dict.fromkeys(keys, (("sums_whole", 500), ("left_to_right", 450))))
        sitting = sittings.sitting_for(book, pupil, todays)
    given = follows("sums_whole")
    played = play(sitting, answers(given))
    kept = played.answers
    again = [show for show, then in pairwise(played.effects) if isinstance(then, AskAgain)]
    assert all(isinstance(show, Show) and given(show.problem) != show.problem.expected for show in again)
    for n in range(len(kept)):
        state, _ = session.start(sitting, kept[:n])
        assert state.turn is not None
        assert (state.turn.card, state.turn.asked) == (kept[n].card, kept[n].asked)
    assert [answer.asked for answer in kept] == [show.problem.asked for show in played.shows]


# --- how it looks -------------------------------------------------------------------------------------


def reading(asked: str, given: str, day: int) -> Evidence:
    key = "column-sum:2+2/1-within"
    return Evidence(day, key, asked, skills.problem(key, asked).expected, given)


FOUND = Found(
    "column-sum",
    ("sums_whole",),
    FIRST,
    (reading("47+25", "612", FIRST), reading("38+46", "714", FIRST + 1)),
    3,
    2,
)
TAKEN = Evidence(FIRST, "product:6x8", "8x6", "48", "42")
CONFUSED = Confused((6, 8), ((6, 7),), (TAKEN, TAKEN._replace(day=FIRST + 2)))
CHILD = Child("k", "Orla", 8, FIRST)
LINES = (Path(__file__).parent / "golden" / "misses.txt").read_text(encoding="utf-8")


def test_what_is_found_is_told_in_these_lines() -> None:
    found = Findings(FIRST, (FOUND,), (CONFUSED,), Counting(0.44, 60, 2.2, 4.2, FIRST))
    one = Misses(CHILD, 8, 300, found)
    assert "\n".join(miss_lines.report([one])) + "\n" == LINES


def test_at_six_counting_is_as_it_should_be() -> None:
    assert miss_lines.counting_lines("Orla", 6, Counting(0.44, 60, 2.2, 4.2, FIRST))[0] == (
        "Sums: Orla probably counts on. At 6 that is as it should be."
    )


def test_of_rules_that_look_alike_both_are_told() -> None:
    first = miss_lines.rule_lines("Orla", FOUND._replace(rules=("sums_whole", "left_to_right")))[0]
    assert first.endswith("side by side or work from the left, and carry to the right.")


def test_nothing_found_is_told_calmly() -> None:
    early, late = (Misses(CHILD, 8, answers, Findings(FIRST, (), (), None)) for answers in (5, 500))
    assert miss_lines.of_child(early) == ["Orla", "  Too early to say: this needs some weeks of warm-ups."]
    assert "look like slips" in miss_lines.of_child(late)[1]


def test_who_never_tries_is_told_of_as_that_and_not_of_slips() -> None:
    one = Misses(CHILD, 8, 500, Findings(FIRST, (), (), None, Unsaid(17, 20)))
    head, first, *rest = miss_lines.of_child(one)
    assert (head, first) == (
        "Orla",
        "  Of the last 20 misses Orla asked to see 17 without an answer, so they say little of the thinking.",
    )
    assert rest[-1].endswith("review warmup Orla --gentle")
    assert miss_lines.row(one)["unsaid"] == {"shown": 17, "missed": 20}


def test_who_looks_at_help_first_is_told_of_as_that_and_not_of_slips() -> None:
    one = Misses(CHILD, 8, 500, Findings(FIRST, (), (), None, helped=Helped(17, 20)))
    head, first, *rest = miss_lines.of_child(one)
    assert (head, first) == (
        "Orla",
        "  In 17 of the last 20 first tries Orla looked at help before an answer. What is found with help "
        "counts as not known yet, so more may seem not to stick than is so.",
    )
    assert rest == ["    At the table: let a first try come before any help, and let any try do."]
    assert miss_lines.row(one)["helped"] == {"helped": 17, "tries": 20}


def test_help_that_is_kept_of_an_evening_is_read_back() -> None:
    found = Findings(FIRST, (), (), None, Unsaid(17, 20), Helped(15, 20))
    assert findings_of(json.loads(json.dumps(found))) == found


def test_what_was_typed_is_shown_without_what_would_move_a_terminal() -> None:
    (line,) = [miss_lines.answer_line(reading("47+25", "6\x1b[2J12", FIRST))]
    assert "\x1b" not in line


# --- what an evening leaves in the book ----------------------------------------------------------------


def found_and_worked_out(tmp_path: Path, day: int) -> tuple[Findings, Findings]:
    """What is told of Orla on that day, and what the log says."""
    with gather.reading(outside(tmp_path, day)) as book:
        key = gather.family_of(book)[0].key
        return missing.found_by(book, key, day), missing.findings_by(book, key, day)


@pytest.mark.parametrize("day", [FIRST, FIRST + 3, FIRST + 6, FIRST + 7, FIRST + 400])
def test_what_the_last_sitting_left_is_what_the_log_says(orla: Review, tmp_path: Path, day: int) -> None:
    told, worked_out = found_and_worked_out(tmp_path, day)
    assert told == worked_out
    assert bool(told.rules) == (day > FIRST)


def test_a_report_reads_it_and_not_the_log(
    orla: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = orla("misses").out
    monkeypatch.setattr(missing, "findings_by", None)
    assert orla("misses").out == before
    assert orla("misses", "--on", days.date_of(FIRST + 400).isoformat()).out == before


def test_a_plan_suspects_the_same_as_from_the_log(taught: Review, tmp_path: Path) -> None:
    """Two minutes by a rule leave it in doubt."""
    sittings.warmup(outside(tmp_path, FIRST), "Orla", 2.0, False, True, sits(follows("digits_added")))
    with gather.reading(outside(tmp_path, FIRST + 1)) as book:
        child = gather.family_of(book)[0]
        pupil = gather.pupil(book, child, FIRST + 1)
        todays = plan.for_pupil(pupil, 6.0, Random(1))
        kept = missing.kept_suspicions(book, child.key)
        assert kept
        assert kept == misses.suspicions(missing.newest(book, child.key))
        told = missing.suspected(book, pupil, todays)
        assert {*told} == {key for key in missing.planned(todays) if key.startswith("column-sum")} != set()
        assert told == missing.suspected_now(book, pupil, todays)


def test_an_answer_taken_back_is_no_longer_told(orla: Review, tmp_path: Path) -> None:
    on = days.date_of(FIRST + 6).isoformat()
    assert orla("undo", "Orla", "--sitting", "--yes", "--on", on).code == 0
    told, worked_out = found_and_worked_out(tmp_path, FIRST + 7)
    assert told == worked_out


@pytest.mark.parametrize("later", [0, 1, 30])
def test_what_is_taken_back_later_was_never_otherwise(orla: Review, tmp_path: Path, later: int) -> None:
    """Whatever day is asked about, as every other report has it."""
    with gather.reading(outside(tmp_path, FIRST + 6)) as book:
        last = gather.family_of(book)[0].last_day
    on, then = (days.date_of(day).isoformat() for day in (last + later, last))
    before = json.loads(orla("misses", "--json", "--on", then).out)[0]["rules"][0]["answers"]
    assert before[-1]["day"] == then
    assert orla("undo", "Orla", "--sitting", "--yes", "--on", on).code == 0
    told = json.loads(orla("misses", "--json", "--on", then).out)[0]["rules"][0]["answers"]
    assert told == [one for one in before if one["day"] != then]


def rewritten(tmp_path: Path, change: Callable[[str], str], name: str = missing.MISSES) -> None:
    """What is kept of why she misses, or of what is suspected, changed."""
    with sqlite3.connect(tmp_path / "family.book") as db:
        (body,) = db.execute("SELECT body FROM memory WHERE card = ?", (f"\n{name}",)).fetchone()
        db.execute("UPDATE memory SET body = ? WHERE card = ?", (change(body), f"\n{name}"))
    db.close()


@pytest.mark.parametrize("place", [*range(0, 200, 23), 10_000])
def test_a_damaged_evening_is_worked_out_anew(orla: Review, tmp_path: Path, place: int) -> None:
    """Also one of another version: it has another seal."""
    before = orla("misses").out
    rewritten(
        tmp_path, lambda body: body[:place] + chr(ord(body[place : place + 1] or "a") ^ 1) + body[place + 1 :]
    )
    assert orla("misses").out == before
    assert orla("verify").code == 0, "it proves nothing, and nobody reads it"


FORGED = {
    missing.MISSES: lambda body: missing.sealed(body[missing.SEAL :].replace("sums_whole", "took_away")),
    missing.SUSPECTED: lambda body: missing.sealed('{"column-sum":[["sums_whole",500]]}'),
}


@pytest.mark.parametrize("name", FORGED)
def test_an_evening_that_says_another_thing_is_told_by_verify(
    orla: Review, tmp_path: Path, name: str
) -> None:
    """Also where the other half of it is damaged, and so not read."""
    rewritten(tmp_path, FORGED[name], name)
    (other,) = {*FORGED} - {name}
    for damage in (str, lambda body: f"{body} "):
        rewritten(tmp_path, damage, other)
        done = orla("verify")
        assert done.code == 3
        assert "why a child misses" in done.err + done.out


def test_damage_to_what_is_suspected_is_not_read(orla: Review, tmp_path: Path) -> None:
    rewritten(tmp_path, lambda body: f"{body} ", missing.SUSPECTED)
    assert orla("verify").code == 0
    with gather.reading(outside(tmp_path, FIRST + 7)) as book:
        assert missing.kept_suspicions(book, gather.family_of(book)[0].key) is None


def test_an_evening_that_cannot_be_kept_spoils_nothing(
    orla: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> bool:
        raise BookUnwritable("the disk is full")

    monkeypatch.setattr(Book, "keep_evening", full)
    done = sittings.warmup(outside(tmp_path, FIRST + 7), "Orla", None, False, True, sits(follows()))
    assert done.warning == ""
    told, worked_out = found_and_worked_out(tmp_path, FIRST + 7)
    assert told == worked_out
