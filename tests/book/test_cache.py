"""The cache of what is remembered: what an event costs, and that it always is what a fold gives."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.book import rows
from review.book.store import Book
from review.core import amendments
from review.core.model import CardMemory, Event, Habits, Remembered
from review.errors import BookDamaged
from tests.book.conftest import Place
from tests.book.tiny import DAY, TINY, Watched, answer, event, fold, remembered, undo


def test_an_answer_costs_one_step_and_no_fold(book: Book, place: Place) -> None:
    book.record([answer(place.child, f"product:2x{n}", n) for n in range(30)], TINY)
    watched = Watched()
    book.record([answer(place.child, "product:2x7", 100)], watched.remember)
    assert (watched.steps, watched.folded) == (1, [])


def test_an_answer_that_sorts_early_folds_the_whole_child(book: Book, place: Place) -> None:
    book.record([answer(place.child, f"product:2x{n}", n, day=1) for n in range(30)], TINY)
    watched = Watched()
    book.record([answer(place.child, "product:2x7", 100, day=0)], watched.remember)
    assert watched.folded == [31]
    assert book.remembered(place.child).cards == fold(book.events(place.child))


@pytest.mark.parametrize("kind", ["undo", "correct"])
def test_an_event_that_names_an_answer_folds_the_whole_child(book: Book, place: Place, kind: str) -> None:
    written = book.record([answer(place.child, f"product:2x{n % 10}", n) for n in range(30)], TINY)
    watched = Watched()
    draft = undo(place.child, written[3], 100)._replace(kind=kind)  # type: ignore[arg-type]
    book.record([draft], watched.remember)
    assert watched.folded == [31]
    assert book.remembered(place.child).cards == fold(book.events(place.child))


def three_days(book: Book, child: str) -> list[Event]:
    """Ten answers a day to cards that come again; what was written on the third."""
    for day in range(3):
        rows_ = [answer(child, f"product:2x{n % 7 + day}", n + 100 * day, day=day) for n in range(10)]
        written = book.record(rows_, TINY)
    return written


@pytest.mark.parametrize("kind", ["undo", "correct"])
@pytest.mark.parametrize("place_", [0, 4, 9])
def test_what_is_taken_back_today_folds_today_alone(book: Book, place: Place, kind: str, place_: int) -> None:
    written, watched = three_days(book, place.child), Watched()
    draft = undo(place.child, written[place_], 900)._replace(kind=kind, day=DAY + 2)  # type: ignore[arg-type]
    book.record([draft], watched.remember)
    assert (watched.steps, watched.folded, len(watched.today)) == (0, [], 1)
    assert watched.today[0] <= 21, "the day before, today, and what takes back"
    assert book.remembered(place.child).cards == fold(book.events(place.child))
    assert book.verify(TINY) == []


def test_a_whole_sitting_taken_back_leaves_the_morning(book: Book, place: Place) -> None:
    with_two = three_days(book, place.child)
    before = fold(row for row in book.events(place.child) if row.day < DAY + 2)
    watched = Watched()
    sitting = event(place.child, "undo", {"day": DAY + 2, "device": book.device}, 900)._replace(day=DAY + 2)
    book.record([sitting], watched.remember)
    assert (watched.folded, len(watched.today)) == ([], 1)
    assert book.remembered(place.child).cards == before
    assert "product:2x8" in {row.card for row in with_two}
    assert "product:2x8" not in book.remembered(place.child).cards, "it was met today"
    book.record([answer(place.child, "product:2x8", 950, day=2)], TINY)
    assert book.verify(TINY) == []


def test_what_speaks_of_an_earlier_day_folds_the_whole_child(book: Book, place: Place) -> None:
    three_days(book, place.child)
    yesterday = next(row for row in book.events(place.child) if row.day == DAY + 1)
    watched = Watched()
    taken = undo(place.child, yesterday, 900)._replace(day=DAY + 2)
    (done,) = book.record([taken], watched.remember)
    assert (watched.folded, watched.today) == ([31], [])
    book.record([undo(place.child, done, 950)._replace(day=DAY + 2)], watched.remember)
    assert watched.folded == [31, 32], "an undo taken back speaks of yesterday too"
    assert book.remembered(place.child).cards == fold(book.events(place.child))
    assert book.verify(TINY) == []


def test_an_answer_that_sorts_early_today_folds_today_alone(book: Book, place: Place) -> None:
    three_days(book, place.child)
    watched = Watched()
    book.device = 9
    book.record([answer(place.child, "product:2x0", 203, day=2)], watched.remember)
    assert (watched.folded, len(watched.today)) == ([], 1)
    assert book.remembered(place.child).cards == fold(book.events(place.child))
    assert book.verify(TINY) == []


def test_mornings_are_no_cards(book: Book, place: Place) -> None:
    three_days(book, place.child)
    assert all(card.isascii() and " " not in card for card in book.remembered(place.child).cards)
    kept = book._db.execute("SELECT count(*) FROM memory WHERE card LIKE ' %'").fetchone()
    assert kept == (8,), "seven cards of the third day, and the habits"
    book.forget(place.child)
    assert book._db.execute("SELECT count(*) FROM memory").fetchone() == (0,)


def test_cards_said_to_be_known_cost_a_step_each(book: Book, place: Place) -> None:
    book.record([answer(place.child, f"product:2x{n % 10}", n) for n in range(30)], TINY)
    watched = Watched()
    said = event(place.child, "known", {"cards": ["product:2x3", "product:2x4"]}, 100)
    book.record([said], watched.remember)
    assert (watched.steps, watched.folded) == (2, [])
    assert book.remembered(place.child).cards == fold(book.events(place.child))
    assert book.verify(TINY) == []


def test_new_parameters_fold_the_whole_child(book: Book, place: Place) -> None:
    book.record([answer(place.child, f"product:2x{n}", n) for n in range(30)], TINY)
    watched = Watched()
    book.record([event(place.child, "fit", {"decay": 1542}, 100)], watched.remember)
    assert watched.folded == [31]


def test_an_undo_of_a_name_and_an_answer_takes_the_answer_out_of_memory(book: Book, place: Place) -> None:
    (named,) = book.record([event(place.child, "profile", {"name": "Mira"}, 1)], TINY)
    kept, gone = book.record([answer(place.child, "product:6x7", 2), answer(place.child, "sum:2+9", 3)], TINY)
    rows = [[row.device, row.seq] for row in (named, gone)]
    book.record([event(place.child, "undo", {"rows": rows}, 4)], TINY)
    assert set(book.remembered(place.child).cards) == {kept.card}
    assert book.verify(TINY) == []


def test_to_undo_what_memory_does_not_stand_on_folds_nothing(book: Book, place: Place) -> None:
    (row, *_) = book.record([event(place.child, "taught", {"skills": ["x"]}), answer(place.child)], TINY)
    watched = Watched()
    book.record([undo(place.child, row, 100)], watched.remember)
    assert watched.folded == []


def test_another_version_builds_the_cache_anew(book: Book, place: Place) -> None:
    book.record([answer(place.child, f"product:2x{n}", n) for n in range(5)], TINY)
    watched = Watched("tiny 2")
    book.record([answer(place.child, "product:2x1", 100)], watched.remember)
    assert (watched.steps, watched.folded) == (0, [6])
    assert book.memory_version(place.child) == "tiny 2"
    assert book.remembered(place.child).cards == fold(book.events(place.child))


def test_a_cache_of_other_fields_is_none(book: Book, place: Place, monkeypatch: pytest.MonkeyPatch) -> None:
    book.record([answer(place.child)], TINY)
    monkeypatch.setattr(rows, "FIELDS", rows.FIELDS + ",colour")
    assert book.memory_version(place.child) == ""


def test_the_cache_can_be_dropped_and_comes_back_the_same(book: Book, place: Place) -> None:
    book.record([answer(place.child, f"product:2x{n % 7}", n, mark="not_yet") for n in range(40)], TINY)
    before = book.remembered(place.child).cards
    book.replace_memory(place.child, "", Remembered({}, Habits()))
    assert (book.remembered(place.child).cards, book.memory_version(place.child)) == ({}, "")
    book.replace_memory(place.child, "tiny 1", remembered(book.events(place.child)))
    assert book.remembered(place.child).cards == before
    assert book.verify(TINY) == []


def test_a_cache_that_is_not_the_fold_is_told(book: Book, place: Place) -> None:
    book.record([answer(place.child)], TINY)
    ways = book.remembered(place.child).habits
    other = Remembered({"product:6x7": CardMemory("product:6x7", tries=2)}, ways)
    book.replace_memory(place.child, "tiny 1", other)
    assert book.verify(TINY) == ["What is kept in memory of the card product:6x7 is not what the log says."]


# --- a cache that damage made unreadable ---------------------------------------------------------------

SPOILT = ["product:2x7", "", " ", " product:2x7", "\t00001 product:2x7"]
"""A card, all together, and what was kept of a morning and of a season."""


def spoil(book: Book, card: str, text: str = '[1.5,garbageX",3]') -> None:
    """As damage inside a page leaves it, which SQLite does not see."""
    season = "card LIKE char(9) || '%:2x7'" if card.startswith("\t") else "card = ?"
    names = () if card.startswith("\t") else (card,)
    done = book._db.execute(f"UPDATE memory SET body = ? WHERE {season}", (text, *names))
    assert done.rowcount > 0


def three_seasons(book: Book, child: str) -> None:
    for day in (0, 91, 182):
        book.record([answer(child, f"product:2x{n}", n + 1000 * day, day=day) for n in range(9)], TINY)


@pytest.mark.parametrize("card", SPOILT)
@pytest.mark.parametrize("text", ['[1.5,garbageX",3]', "[1.5,2.5]", "7", ""])
def test_what_is_spoilt_of_the_cache_is_never_read(book: Book, place: Place, card: str, text: str) -> None:
    if (card, text) == (" product:2x7", ""):
        return  # of a morning that stands for a card that was not known
    three_seasons(book, place.child)
    spoil(book, card, text)
    found = book.remembered_by(place.child, "tiny 1")
    assert found is None or found.cards == fold(book.events(place.child))
    for day in (DAY + 50, DAY + 150, DAY + 200):
        kept = book.remembered_before(place.child, day)
        until = kept.habits.at if kept else ()
        assert kept is None or kept.cards == fold(
            one for one in book.events(place.child) if amendments.place(one) <= until
        )
    book.record([answer(place.child, "product:2x7", 999_000, day=182)], TINY)
    (last,) = [*book.events(place.child)][-1:]
    book.record([undo(place.child, last, 999_900)._replace(day=DAY + 182)], TINY)
    assert book.remembered(place.child).cards == fold(book.events(place.child))
    assert card.startswith("\t") or book.verify(TINY) == []


def test_a_spoilt_cache_is_thrown_away_by_whoever_may_write_and_comes_back_the_same(
    book: Book, place: Place
) -> None:
    three_seasons(book, place.child)
    before = book.remembered(place.child)
    spoil(book, "product:2x7")
    with place.open(write=False) as reader:
        assert reader.remembered_by(place.child, "tiny 1") is None
        assert reader.memory_version(place.child) == "tiny 1"
        assert reader.verify(TINY) != []
    assert book.remembered_by(place.child, "tiny 1") is None
    assert book.memory_version(place.child) == ""
    book.record([event(place.child, "away", {"from": 1, "to": 1}, 999_000)], TINY)
    assert book.remembered_by(place.child, "tiny 1") == before
    assert book.verify(TINY) == []


def test_a_spoilt_entry_of_the_log_is_damage_and_told_so(book: Book, place: Place) -> None:
    three_seasons(book, place.child)
    book._db.execute("DROP TRIGGER log_never_changes")
    book._db.execute("UPDATE log SET body = '{1,garbageX}' WHERE card = 'product:2x7'")
    for ask in (book.events, lambda: book.answers(place.child), lambda: book.folded(place.child, TINY)):
        with pytest.raises(BookDamaged, match=r"damaged .*restore"):
            list(ask())


FLOATS = st.floats(allow_nan=False, allow_infinity=False)


@given(
    FLOATS,
    st.one_of(st.none(), FLOATS),
    st.booleans(),
    st.lists(st.tuples(st.text(), st.integers(), st.integers())),
)
def test_a_memory_comes_back_bit_for_bit(
    stability: float, difficulty: float | None, looked: bool, orders: list[tuple[str, int, int]]
) -> None:
    memory = CardMemory(
        "product:6x7", stability, difficulty, looked=looked, orders=tuple(orders), at=(1, 2, 3, 4)
    )
    back = rows.memory_of([(memory.card, rows.memory_body(memory))])[memory.card]
    assert repr(back) == repr(memory)
