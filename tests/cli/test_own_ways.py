"""What a book's log says of a child's own days and times reaches the plan of the next warm-up."""

from datetime import date
from pathlib import Path
from random import Random

import pytest

from review import gather
from review.app import sittings
from review.book import store
from review.config import state_folder
from review.core import family, marking
from review.core.answer_bodies import answer_body
from review.core.model import Answer, Draft
from review.core.warmup import Plan
from review.gather import Outside
from tests.cli.conftest import Review

THURSDAY = date(2026, 11, 26).toordinal()
NOON_MS = 1_795_694_400_000


@pytest.fixture
def book(review: Review, tmp_path: Path) -> Path:
    review("child", "add", "Mira", "--age", "9", "--on", "2026-11-02")
    review("set", "add", "times-2-5-10", "Mira", "--taught", "--on", "2026-11-02")
    return tmp_path / "family.book"


def written(book: Path, *rows: tuple[str, int, str, dict[str, object]]) -> None:
    with store.open_book(book, state_folder(), write=True) as opened:
        (child,) = gather.family_of(opened)
        drafts = [Draft(child.key, kind, day, NOON_MS, 0, card, body) for kind, day, card, body in rows]  # type: ignore[arg-type]
        opened.record(drafts, gather.remember())


def plan(book: Path, day: int) -> tuple[int, Plan]:
    """Days off that are reckoned with, and the plan as it is logged."""
    outside = Outside(book, state_folder(), NOON_MS, day)
    with store.open_book(book, state_folder(), write=True) as opened:
        (child,) = gather.family_of(opened)
        pupil = gather.pupil(opened, child, day)
        return pupil.settings.days_off, sittings.plan_today(opened, outside, pupil, 5, keep=True)


def test_the_familys_weekdays_are_read_off_the_log(book: Path) -> None:
    body = family.sitting_body(Plan(THURSDAY, 5.0, ()))
    days = [THURSDAY - 7 * week - weekday for week in (3, 2, 1) for weekday in (3, 2, 1, 0)]
    written(book, *(("sitting", day, "", body) for day in days))
    assert plan(book, THURSDAY)[0] == 3
    assert plan(book, THURSDAY + 4)[0] == 0


def test_the_childs_own_copying_time_is_settled_with_the_plan(book: Path) -> None:
    """Five numbers copied in twice the usual time: the next day's answers are judged by that."""
    usual = marking.copying_ms(9, 2)
    row = Answer("product:2x7", "2x7", "14", "14", "right", "copy", 900, 2 * usual, aim="fluency", age=9)
    assert plan(book, THURSDAY - 20)[1].copy_ms == ()
    body: dict[str, object] = {**answer_body(row)}
    written(book, *(("answer", THURSDAY - 20, row.card, body) for _ in range(5)))
    found = plan(book, THURSDAY)[1]
    assert found.copy_ms[1] == pytest.approx(2 * usual, abs=2)
    assert found.slow_ms == marking.slow_ms(9)


def test_what_a_child_likes_is_kept_with_the_answer_that_says_so(book: Path) -> None:
    """In one transaction, and from then on in every day's plan; a day that was begun keeps its own."""
    said = Answer("product:2x7", "2x7", "14", "14", "right_helped", aim="fluency", help="question")
    begun = plan(book, THURSDAY)[1]
    outside = Outside(book, state_folder(), NOON_MS, THURSDAY)
    with store.open_book(book, state_folder(), write=True) as opened:
        (child,) = gather.family_of(opened)
        kept = sittings.Kept(opened, outside, child, THURSDAY)
        kept.add(said)
        kept.add(said._replace(liked="half-of-ten"))
        rows = [row for row in opened.events(child=child.key) if row.kind in ("answer", "profile")][-3:]
    assert [row.kind for row in rows] == ["answer", "answer", "profile"]
    assert [row.body.get("liked") for row in rows[:2]] == [None, "half-of-ten"]
    assert rows[2].body == {"likes": {"product": "half-of-ten"}}
    assert plan(book, THURSDAY)[1] == begun
    assert begun.likes == {}
    assert plan(book, THURSDAY + 1)[1].likes == {"product": "half-of-ten"}


def test_the_last_first_tries_are_told_by_as_few_answers_as_by_many(book: Path) -> None:
    """Whatever was taken back, put right, copied or cut off at the oldest day that is read."""
    random = Random("first tries")
    for day in range(THURSDAY - 8, THURSDAY + 1):
        for n in range(random.choice((3, 14))):
            body: dict[str, object] = {
                "mark": random.choice(("right", "right_slow", "not_yet", "void")),
                "role": random.choice(("intro", "ask", "ask", "copy")),
            }
            written(book, ("answer", day, f"product:2x{2 + n % 5}", body))
    with store.open_book(book, state_folder(), write=False) as opened:
        (child,) = gather.family_of(opened)
        rows = opened.answers(child.key)
    back: dict[str, object] = {"rows": [[row.device, row.seq] for row in rows[-4:-2]]}
    right: dict[str, object] = {"device": rows[-6].device, "seq": rows[-6].seq, "mark": "right"}
    written(book, ("undo", THURSDAY, "", back), ("correct", THURSDAY, "", right))
    with store.open_book(book, state_folder(), write=False) as opened:
        for day in range(THURSDAY - 7, THURSDAY + 2):
            whole = gather.recent_right(gather.answers(opened, child.key), day)
            few = [gather.recent_before(opened, child.key, day, few) for few in range(1, len(rows) + 2, 3)]
            assert few == [whole] * len(few)
