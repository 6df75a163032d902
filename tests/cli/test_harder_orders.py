"""The order of a fact that is missed more often: asked more often in the warm-up, by what the log says, and
told to the parent. On a book whose days are written by hand."""

import json
import secrets
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from random import Random

import pytest

from review import gather
from review.app import sittings
from review.book import store
from review.config import state_folder
from review.core import session
from review.core.answer_bodies import answer_body
from review.core.model import Answer, Draft
from review.core.queue import State
from review.core.warmup import Sitting
from review.gather import Outside
from tests.cli.conftest import Review
from tests.core.sittings import missing, play

THURSDAY = date(2026, 11, 26).toordinal()
ON = ("--on", "2026-11-26")
NOON_MS = 1_795_694_400_000
FACTS = [f"{n}x{more}" for n in (2, 5) for more in (6, 7, 8, 9)]
MANY = 9  # days on which each order was asked


def turned(asked: str) -> str:
    return "x".join(reversed(asked.split("x")))


def told(day: int, fact: str, asked: str, right: bool) -> Draft:
    given = str(int(fact[0]) * int(fact[2:])) if right else "99"
    answer = Answer(
        f"product:{fact}", asked, "", given, "right" if right else "not_yet", aim="fluency", age=9,
        first_ms=900, end_ms=2500,
    )  # fmt: skip
    return Draft("", "answer", day, NOON_MS, 0, answer.card, answer_body(answer))


@pytest.fixture(autouse=True)
def _same_book(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a day draws goes by the names of book and child, which are of chance: here they are fixed."""
    monkeypatch.setattr(secrets, "token_bytes", Random("harder orders").randbytes)


@pytest.fixture
def book(review: Review, tmp_path: Path) -> Path:
    return book_of(review, tmp_path, FACTS)


def book_of(review: Review, tmp_path: Path, facts: Sequence[str]) -> Path:
    """Of each fact the one order was always right on nine days, and the other on three of the nine after."""
    review("child", "add", "Mira", "--age", "9", "--on", "2026-10-05")
    review("set", "add", "times-2-5-10", "Mira", "--taught", "--on", "2026-10-05")
    path, first = tmp_path / "family.book", THURSDAY - 2 * MANY - 1
    rights = [told(first + n, fact, fact, True) for n in range(MANY) for fact in facts]
    misses = [told(first + MANY + n, fact, turned(fact), n % 3 == 0) for n in range(MANY) for fact in facts]
    with store.open_book(path, state_folder(), write=True) as opened:
        (child,) = gather.family_of(opened)
        opened.record([one._replace(child=child.key) for one in (*rights, *misses)], gather.remember())
    return path


def taken_up(path: Path, minutes: float = 5.0) -> tuple[Sitting, State]:
    """Today's sitting as it stands, from what the book says."""
    outside = Outside(path, state_folder(), NOON_MS, THURSDAY)
    with store.open_book(path, state_folder(), write=True) as opened:
        (child,) = gather.family_of(opened)
        pupil = gather.pupil(opened, child, THURSDAY)
        todays = sittings.plan_today(opened, outside, pupil, minutes, keep=True)
        sitting = sittings.sitting_for(opened, pupil, todays)
        return sitting, session.start(sitting, sittings.answers_of(opened, child, THURSDAY))[0]


def kept(path: Path, answer: Answer) -> None:
    outside = Outside(path, state_folder(), NOON_MS, THURSDAY)
    with store.open_book(path, state_folder(), write=True) as opened:
        (child,) = gather.family_of(opened)
        sittings.Kept(opened, outside, child, THURSDAY).add(answer)


def taken_back(path: Path, card: str, *, today: bool) -> None:
    """The last answer of a card, of today or of the days before."""
    with store.open_book(path, state_folder(), write=True) as opened:
        (child,) = gather.family_of(opened)
        rows = [row for row in gather.answers(opened, child.key) if row.card == card]
        last = [row for row in rows if (row.day == THURSDAY) == today][-1]
        body = {"device": last.device, "seq": last.seq}
        undo = Draft(child.key, "undo", THURSDAY, NOON_MS, 0, "", body)
        opened.record([undo], gather.remember())


def test_a_sitting_taken_up_again_is_the_one_that_would_have_gone_on(book: Path) -> None:
    """After each answer the book is opened anew; what was answered meanwhile is in the tally by then."""
    sitting, _ = taken_up(book)
    assert sitting.harder == {f"product:{fact}": turned(fact) for fact in FACTS}
    answers = play(sitting, missing({f"product:{FACTS[0]}": 1, f"product:{FACTS[5]}": 2})).answers
    assert {answer.card for answer in answers} >= {*sitting.harder}
    for n, answer in enumerate(answers):
        state = taken_up(book)[1]
        assert state.turn == session.start(sitting, answers[:n])[0].turn
        assert state.turn is not None
        assert (state.turn.card, state.turn.asked) == (answer.card, answer.asked)
        kept(book, answer)
    firsts = {answer.card: answer.asked for answer in reversed(answers) if answer.card in sitting.harder}
    assert sum(asked == sitting.harder[card] for card, asked in firsts.items()) > len(firsts) / 2


def test_what_is_taken_back_today_is_asked_as_it_was(book: Path) -> None:
    sitting, _ = taken_up(book)
    answers = play(sitting, missing({f"product:{FACTS[0]}": 1})).answers
    for n, answer in enumerate(answers[:6]):
        kept(book, answer)
        if answer.role != "copy":
            taken_back(book, answer.card, today=True)
            assert taken_up(book)[1].turn == session.start(sitting, answers[:n])[0].turn
            kept(book, answer)


def test_an_older_answer_taken_back_in_between_counts_from_then_on(book: Path) -> None:
    """It was never otherwise: the card is asked as if it had not been given, and every other as before."""
    sitting, _ = taken_up(book)
    answers = play(sitting).answers
    for answer in answers[:3]:
        kept(book, answer)
    waits = next(answer.card for answer in answers[4:] if answer.card in sitting.harder)
    for _ in range(4):
        taken_back(book, waits, today=False)
    now, state = taken_up(book)
    assert waits not in now.harder
    others = {card: asked for card, asked in sitting.harder.items() if card != waits}
    assert {card: asked for card, asked in now.harder.items() if card in others} == others
    assert state.turn == session.start(sitting, answers[:3])[0].turn
    assert [row.card for row in play(now, so_far=answers[:3]).answers] == [row.card for row in answers[3:]]


def test_what_stands_beside_the_warm_up_asks_evenly(book: Path) -> None:
    """Seven more of one kind in the same order as without a tally: no order is looked for there."""
    from review.app import beside_sittings

    seen: list[Sitting] = []

    def front(sitting: Sitting, *_: object) -> object:
        seen.append(sitting)
        return play(sitting).state and session.start(sitting)[1][-1]

    outside = Outside(book, state_folder(), NOON_MS, THURSDAY)
    beside_sittings.extra(outside, "times-2-5-10", "Mira", 7, front, sittings.nobody)  # type: ignore[arg-type]
    assert [sitting.harder for sitting in seen] == [{}]


# --- what a parent is told ------------------------------------------------------------------------------

TOLD = "6 × 2 is missed more often than 2 × 6, so it is asked that way more often."


def test_the_parent_is_told_why_it_comes_that_way(review: Review, tmp_path: Path) -> None:
    book_of(review, tmp_path, ["2x6"])
    assert TOLD in " ".join(review("warmup", "Mira", "--explain", *ON).out.split())


def test_of_many_the_parent_is_told_in_one_sentence(review: Review, book: Path) -> None:
    out = " ".join(review("warmup", "Mira", "--explain", *ON).out.split())
    orders = out.partition("Missed more often this way round, so asked that way more often: ")[2]
    told = orders.partition(".")[0].split("; ")
    assert sorted(told) == sorted(turned(fact).replace("x", " × ") for fact in FACTS)
    assert "is missed more often than" not in out
    rows = {row["card"]: row for row in json.loads(review("warmup", "Mira", "--explain", "--json", *ON).out)}
    assert rows["product:2x6"]["missed_more_often"] == "6 × 2"
    assert {row["missed_more_often"] for card, row in rows.items() if card[8:] not in FACTS} <= {None}


def test_the_parent_is_told_with_what_did_not_stick(review: Review, book: Path) -> None:
    out = " ".join(review("stuck", "Mira", *ON).out.split())
    assert out.count(TOLD) == 1
    found = json.loads(review("stuck", "Mira", "--json", *ON).out)
    cards = {card["card"]: card for one in found for card in one["cards"]}
    assert cards["product:2x6"]["missed_more_often"] == "6 × 2"


def test_it_is_told_in_the_familys_signs(review: Review, book: Path) -> None:
    assert review("words", "--times", "dot", *ON).code == 0, review("words", "--help").out
    assert "6 · 2 is missed more often than 2 · 6" in " ".join(review("stuck", "Mira", *ON).out.split())
