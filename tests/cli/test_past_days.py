"""A report of a past day is the same whether or not later days are in the book."""

import json
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from random import Random

import pytest

from review import clock, gather
from review.app import demo, sittings
from review.book import store
from review.book.seasons import SEASON
from review.config import state_folder
from review.core import days
from review.core.warmup import Heard, Show, Typed
from review.gather import Outside
from tests.cli.conftest import Review
from tests.core.sittings import fronted

FIRST = date(2026, 1, 5)

LIFE: dict[int, list[tuple[str, ...]]] = {
    0: [("child", "add", "Mira", "--age", "9"), ("set", "add", "addition-facts-10", "Mira", "--taught"),
        ("set", "add", "mental-sums-to-99", "Mira"), ("taught", "two-digits-plus-ones", "Mira")],
    2: [("taught", "two-digits-plus-tens", "Mira"), ("child", "add", "Jonah", "--age", "7")],
    4: [("set", "add", "times-2-5-10", "Mira"), ("taught", "table-of-2", "Mira", "--timed")],
    7: [("focus", "doubles-to-10", "Mira"), ("set", "add", "number-bonds-10", "Jonah", "--taught")],
    9: [("known", "--card", "10x2", "Mira"), ("away", "--from", "2026-01-20", "--to", "2026-01-25", "Mira"),
        ("placement", "times-2-5-10", "Mira", "--known", "table-of-10")],
    12: [("set", "drop", "mental-sums-to-99", "Mira"), ("child", "edit", "Mira", "--minutes", "8"),
         ("placement", "times-2-5-10", "Mira", "--show", "--known", "2x7")],
    13: [("taught", "table-of-5", "Mira"), ("warmup", "Mira", "--gentle")],
}  # fmt: skip
"""What a family says, by day. Nothing is taken back: what is put right was never otherwise, whatever day is
asked about."""
DAYS = sorted({*LIFE, *range(0, 16, 3), 14})

READING = [
    ("overdue", "--all"), ("overdue", "--json"), ("overdue", "--square"), ("stuck",), ("stuck", "--json"),
    ("teach", "--all"), ("brief",), ("misses",), ("misses", "--json"), ("progress",), ("progress", "--json"),
    ("log",), (), ("focus",), ("away",), ("placement", "times-2-5-10", "Mira", "--show"),
]  # fmt: skip
SPANS = [("progress", "--json"), ("log", "--json")]
"""Those that take --until as well."""


def dated(day: int) -> str:
    return str(FIRST + timedelta(days=day))


def a_day(day: int, child: str, book: Path) -> None:
    """A warm-up of which a third is missed, some of it by the tens."""
    luck = Random(day)

    def mira(show: Show) -> list[Heard]:
        return [Typed(said(show, luck), 900, luck.randrange(1500, 6000))]

    on = days.day_of(FIRST) + day
    outside = Outside(book, state_folder(), clock.now_ms(), on)
    sittings.warmup(outside, child, None, False, True, fronted(mira))


def said(show: Show, luck: Random) -> str:
    expected = show.problem.expected
    missed = not show.copying and luck.random() < 0.33 and expected.isdigit()
    return (
        str(max(0, int(expected) - 10) if int(expected) > 10 else int(expected) + 3) if missed else expected
    )


def reports(review: Review, day: int) -> Iterator[tuple[tuple[str, ...], str]]:
    for command in READING:
        done = review(*command, "--on", dated(day))
        yield (*command, "--on"), done.out + done.err
    for command in SPANS:
        yield (*command, "--since"), review(*command, "--since", dated(-30), "--on", dated(day)).out


Told = dict[int, dict[tuple[str, ...], str]]
"""What each report said on the evening of each day."""


@pytest.fixture(scope="module")
def kept() -> list[tuple[bytes, Told]]:
    """The book of a fortnight and more, once it was lived."""
    return []


@pytest.fixture
def lived(review: Review, tmp_path: Path, kept: list[tuple[bytes, Told]]) -> tuple[Review, Told]:
    book = tmp_path / "family.book"
    if not kept:
        told = fortnight(review, book)
        kept.append((book.read_bytes(), told))
    found, told = kept[0]
    book.write_bytes(found)
    return review, told


def fortnight(review: Review, book: Path) -> Told:
    then: Told = {}
    for day in DAYS:
        for command in LIFE.get(day, []):
            done = review(*command, "--on", dated(day), typed="5\n" * 40)
            assert done.code == 0, done.err
        if day != 13:
            a_day(day, "Mira", book)
        then[day] = dict(reports(review, day))
    return then


def test_a_report_of_a_past_day_reads_nothing_that_came_after_it(
    lived: tuple[Review, Told],
) -> None:
    """Of the child there was by then; one who came later has nothing yet."""
    review, then = lived
    for day, told in then.items():
        if day < 2:
            continue  # there was one child, so no name stood above the report
        assert dict(reports(review, day)) == told


def test_until_is_a_past_day_as_well(lived: tuple[Review, Told]) -> None:
    review, then = lived
    for day, told in then.items():
        if day < 2:
            continue
        for command in SPANS:
            now = review(*command, "--since", dated(-30), "--until", dated(day), "--on", dated(20)).out
            assert json.loads(now) == json.loads(told[(*command, "--since")])


@pytest.fixture(scope="module")
def over_a_season(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three weeks in whose midst a season begins."""
    begins = SEASON * (days.day_of(FIRST) // SEASON)
    return demo.play(tmp_path_factory.mktemp("lives"), begins + 10, days=21)


@pytest.mark.parametrize("back", range(0, 20, 3))
def test_what_was_remembered_on_a_past_day_is_a_fold_of_the_log_up_to_it(
    over_a_season: Path, back: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Also from where a season began; with an answer taken back since, and one of before that."""
    with store.open_book(over_a_season, state_folder(), write=True) as book:
        child = gather.family_of(book)[0]
        answers = book.answers(child.key)
        for row in (answers[3 + back], answers[-1 - back]):
            body = {"device": row.device, "seq": row.seq}
            book.record([demo.draft(child, "undo", body, child.last_day, 0)], gather.remember())
        day = child.last_day - back
        assert gather.remembered_before(book, child.key, child.last_day) is not None
        told = gather.memory_on(book, child.key, day)
        monkeypatch.setattr(gather, "remembered_before", lambda *_: None)
        assert told == gather.memory_on(book, child.key, day)
        assert told.cards
