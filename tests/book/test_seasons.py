"""Memory as it was when a season began: as a fold of the log up to there gives it, whatever came since."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.book import seasons
from review.book.seasons import SEASON
from review.book.store import Book
from tests.book.conftest import Place, new_place
from tests.book.tiny import DAY, START, TINY, answer, fold, order, undo

DAY_MS = 86_400_000
FIRST = SEASON - DAY % SEASON  # days from the first of these tests to the next season


def given_on(book: Book, child: str, days: list[int]) -> None:
    for n, day in enumerate(sorted(days)):
        mark = "right" if n % 3 else "not_yet"
        row = answer(child, f"product:2x{n % 7}", 0, mark, day)
        book.record([row._replace(raw_ms=START + day * DAY_MS + n)], TINY)


def check(book: Book, child: str) -> None:
    """All that is kept is what the log says of the days before."""
    assert book.verify(TINY) == []
    every = list(book.events(child))
    for season in seasons.known(book._db, 1):
        known = seasons.found(book._db, 1, season)
        assert known is not None
        naming = [row for row in every if row.kind == "undo"]
        before = [row for row in every if row.day < season * SEASON and row.kind != "undo"]
        assert dict(known.cards) == fold(sorted([*before, *naming], key=order))
        assert known.habits.at[0] < season * SEASON


def test_two_seasons_are_kept_and_the_older_ones_go(book: Book, place: Place) -> None:
    given_on(book, place.child, [0, 1, FIRST + 2, FIRST + SEASON, FIRST + SEASON + 1, FIRST + 3 * SEASON])
    this = seasons.of(DAY + FIRST)
    assert seasons.known(book._db, 1) == [this + 1, this + 3]
    check(book, place.child)


def test_what_was_remembered_before_a_day(book: Book, place: Place) -> None:
    given_on(book, place.child, [0, 1, FIRST, FIRST + SEASON])
    found = book.remembered_before(place.child, DAY + FIRST)
    assert found is not None
    assert found.habits.at[0] == DAY + 1
    later = book.remembered_before(place.child, DAY + FIRST + SEASON)
    assert later is not None
    assert later.habits.at[0] == DAY + FIRST
    assert book.remembered_before(place.child, DAY) is None
    assert all("\t" not in card for card in book.remembered(place.child).cards)


def test_a_damaged_season_is_told(book: Book, place: Place) -> None:
    given_on(book, place.child, [0, FIRST, FIRST + SEASON])
    book._db.execute("UPDATE memory SET body = replace(body, '1', '2') WHERE card LIKE ? || '%:%'", ("\t",))
    assert "season" in book.verify(TINY)[0]


def test_forgotten_with_the_child(book: Book, place: Place) -> None:
    given_on(book, place.child, [0, FIRST])
    book.forget(place.child)
    assert book._db.execute("SELECT count(*) FROM memory").fetchone() == (0,)


STEPS = st.lists(
    st.tuples(st.sampled_from(["answer", "answer", "answer", "undo", "early"]), st.integers(0, 60)),
    min_size=2,
    max_size=14,
)


@settings(max_examples=40, deadline=None)
@given(STEPS)
def test_to_the_same_bits_whatever_is_taken_back_or_comes_early(
    tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[str, int]]
) -> None:
    place = new_place(tmp_path_factory.mktemp("seasons"))
    with place.open() as book:
        day, own = 0, book.device
        for n, (what, much) in enumerate(steps):
            answers = [row for row in book.events(place.child) if row.kind == "answer"]
            day += much if what == "answer" else 0
            at = START + day * DAY_MS + n
            if what == "undo" and answers:
                back = undo(place.child, answers[much % len(answers)], 0)
                book.record([back._replace(day=DAY + day, raw_ms=at)], TINY)
            else:
                book.device = own + 1 if what == "early" else own
                when = max(0, day - much) if what == "early" else day
                row = answer(place.child, f"product:2x{n % 5}", 0, "right", when)
                book.record([row._replace(raw_ms=START + when * DAY_MS + n)], TINY)
                book.device = own
        check(book, place.child)
