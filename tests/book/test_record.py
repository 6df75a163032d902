"""Recording: identity, order, clamp, and memory that is always what a fold of the log gives."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from review.book import store
from review.book.store import Book
from review.core.model import CardMemory, Draft, Event, Habits
from tests.book.conftest import Place, new_place
from tests.book.tiny import DAY, START, TINY, Watched, answer, event, fold, order, undo, values


def test_one_answer_is_one_row_and_one_step_of_memory(book: Book, place: Place) -> None:
    draft = answer(place.child)
    (row,) = book.record([draft], TINY)
    assert row == Event(
        book.device, 1, place.child, "answer", DAY, START, START, 60, "product:6x7", draft.body
    )
    assert list(book.events()) == [row]
    assert book.remembered(place.child).cards == fold([row])
    assert book.memory_version(place.child) == "tiny 1"
    assert book.counts() == (1, 1, 1)
    assert book.last_days() == {place.child: DAY}


def test_answers_are_counted_as_far_as_it_matters(book: Book, place: Place) -> None:
    sitting = Draft(place.child, "sitting", DAY, START, 60, "", {})
    book.record([sitting, *[answer(place.child)] * 3, answer(place.child, day=1)], TINY)
    assert [book.answered(place.child), book.answered(place.child, DAY)] == [4, 3]
    assert [book.answered(place.child, most=most) for most in (0, 2, 4, 9)] == [0, 2, 4, 4]
    assert book.answered(place.child, DAY, 9) == 3


def test_nothing_to_record_is_nothing(book: Book) -> None:
    assert book.record([], TINY) == []
    assert book.counts() == (1, 0, 0)


REFUSED: dict[str, tuple[dict[str, object], str]] = {
    "a fraction": ({"body": {"x": 0.5}}, "no float"),
    "a fraction inside": ({"body": {"x": [{"y": 1.0}]}}, "no float"),
    "nothing": ({"body": {"x": None}}, "no NoneType"),
    "a key that is no text": ({"body": {1: "x"}}, "keys"),
    "no table": ({"body": ["x"]}, "is a table"),
    "a stranger": ({"child": "00" * 16}, "no child"),
    "no key": ({"child": "Mira"}, "not the key of a child"),
    "an odd card": ({"card": "6 × 7"}, "not the key of a card"),
    "a kind unknown": ({"kind": "guess"}, "refuses"),
    "a day before all days": ({"day": 0}, "refuses"),
}


def with_changes(draft: Draft, changes: Mapping[str, object]) -> Draft:
    return Draft(*(changes.get(name, value) for name, value in draft._asdict().items()))  # type: ignore[arg-type]


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_logged_is_refused_whole(book: Book, place: Place, case: str) -> None:
    changes, words = REFUSED[case]
    with pytest.raises(ValueError, match=words):
        book.record([answer(place.child), with_changes(answer(place.child), changes)], TINY)
    assert book.counts() == (1, 0, 0)
    assert book.record([answer(place.child)], TINY)[0].seq == 1


def test_an_error_in_the_room_that_remembers_stores_nothing(book: Book, place: Place) -> None:
    def fail(ways: Habits, memory: CardMemory | None, row: Event) -> tuple[Habits, CardMemory]:
        raise ZeroDivisionError

    book.record([answer(place.child)], TINY)
    with pytest.raises(ZeroDivisionError):
        book.record([answer(place.child)], TINY._replace(step=fail))
    assert book.counts() == (1, 1, 1)
    assert len(book.record([answer(place.child)], TINY)) == 1


# --- order and clamp ------------------------------------------------------------------------------------

MINUTES = st.integers(-200_000, 200_000)
CARDS = st.sampled_from(["product:6x7", "product:3x4", "sum:2+9", "clock:read/5"])
MARKS = st.sampled_from(["right", "not_yet"])
ANSWERS = st.builds(lambda *made: made, st.integers(0, 1), CARDS, MINUTES, MARKS, st.integers(0, 3))
DEVICES = st.sampled_from([1, 2, 3])
BATCHES = st.lists(st.tuples(DEVICES, st.lists(ANSWERS, min_size=1, max_size=6)), max_size=6)
UNDONE = st.lists(st.integers(0, 30), max_size=3)


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Iterable[Book]:
    """One book for many examples, each with children of its own."""
    place = new_place(tmp_path_factory.mktemp("shared"))
    with place.open() as book:
        yield book


def two_children(book: Book) -> list[str]:
    keys = [store.new_child_key() for _ in range(2)]
    for key in keys:
        book.add_child(key)
    return [key.hex() for key in keys]


def play(book: Book, batches: Sequence[tuple[int, Sequence[tuple[int, str, int, str, int]]]]) -> list[str]:
    """Record answers by two children from several devices, whatever their clocks say."""
    children = two_children(book)
    for device, answers in batches:
        book.device = device
        book.record(
            [answer(children[who], card, ms, mark, day) for who, card, ms, mark, day in answers], TINY
        )
    return children


@settings(max_examples=40, deadline=None)
@given(BATCHES)
def test_instants_never_fall_within_a_child_and_device(
    shared: Book, batches: list[tuple[int, list[tuple[int, str, int, str, int]]]]
) -> None:
    children = play(shared, batches)
    for child in children:
        events = list(shared.events(child))
        assert events == sorted(events, key=order)
        assert all(row.at_ms >= row.raw_ms for row in events)
        for device in (1, 2, 3):
            own = sorted((row for row in events if row.device == device), key=lambda row: row.seq)
            instants = [row.at_ms for row in own]
            assert instants == sorted(instants)
            raised = [row.at_ms for row in own if row.at_ms > row.raw_ms]
            assert all(at in values(own, "raw_ms") for at in raised), (
                "a clamp only takes an instant there was"
            )


@settings(max_examples=40, deadline=None)
@given(BATCHES, UNDONE)
def test_memory_is_the_fold_of_the_log(
    shared: Book, batches: list[tuple[int, list[tuple[int, str, int, str, int]]]], gone: list[int]
) -> None:
    children = play(shared, batches)
    for child in children:
        written = list(shared.events(child))
        for place in gone:
            if place < len(written):
                shared.record([undo(child, written[place], ms=300_000)], TINY)
        assert shared.remembered(child).cards == fold(shared.events(child))


def test_the_book_of_all_those_examples_is_sound(shared: Book) -> None:
    children = two_children(shared)
    shared.record([answer(children[0])], TINY)
    assert shared.verify(TINY) == []


def test_an_undone_row_leaves_the_clamp(book: Book, place: Place) -> None:
    year = 365 * 86_400_000
    book.record([answer(place.child, ms=0)], TINY)
    (ahead,) = book.record([answer(place.child, ms=year)], TINY)
    (held,) = book.record([answer(place.child, ms=2000)], TINY)
    assert held.at_ms == ahead.at_ms
    book.record([undo(place.child, ahead, 3000)], TINY)
    (still,) = book.record([answer(place.child, ms=4000)], TINY)
    assert still.at_ms == ahead.at_ms, "another row was held there, and was not undone yet"
    book.record([undo(place.child, held, 5000), undo(place.child, still, 5000)], TINY)
    (free,) = book.record([answer(place.child, ms=6000)], TINY)
    assert free.at_ms == free.raw_ms
    assert book.verify(TINY) == []


def test_an_undo_sorts_after_what_it_undoes_and_holds_nothing(book: Book, place: Place) -> None:
    (ahead,) = book.record([answer(place.child, ms=10**10)], TINY)
    (first,) = book.record([undo(place.child, ahead, 3000)], TINY)
    (free, second) = book.record([answer(place.child, ms=4000), undo(place.child, first, 2000)], TINY)
    assert ahead.at_ms == first.at_ms == second.at_ms
    assert order(first) < order(second)
    assert free.at_ms == free.raw_ms
    assert book.remembered(place.child).cards["product:6x7"].tries == 2, "the undo was taken back"
    assert book.verify(TINY) == []


def test_an_undo_may_name_many_rows(book: Book, place: Place) -> None:
    written = book.record([answer(place.child, f"product:2x{n}", n) for n in range(6)], TINY)
    several = event(place.child, "undo", {"rows": [[row.device, row.seq] for row in written[:4]]}, 10)
    book.record([several], TINY)
    assert sorted(book.remembered(place.child).cards) == ["product:2x4", "product:2x5"]


def test_an_undo_may_name_a_whole_sitting(book: Book, place: Place) -> None:
    days = [0, 1, 1, 1, 2]
    book.record(
        [answer(place.child, f"product:2x{n}", n * 10**9, day=day) for n, day in enumerate(days)], TINY
    )
    watched = Watched()
    sitting = event(place.child, "undo", {"day": DAY + 1, "device": book.device}, 10)
    book.record([sitting, answer(place.child, "product:2x9", 20, day=1)], watched.remember)
    assert sorted(book.remembered(place.child).cards) == ["product:2x0", "product:2x4", "product:2x9"]
    assert watched.folded == [7], "all there is, the undo and what came with it"
    assert book.verify(TINY) == []


def test_several_cards_may_be_known_at_once(book: Book, place: Place) -> None:
    (row,) = book.record([event(place.child, "known", {"cards": ["sum:1+1", "sum:2+2"]})], TINY)
    assert {card for card, memory in book.remembered(place.child).cards.items() if memory.known} == {
        "sum:1+1",
        "sum:2+2",
    }
    book.record([answer(place.child), undo(place.child, row, 9)], TINY)
    assert list(book.remembered(place.child).cards) == ["product:6x7"]


# --- reading --------------------------------------------------------------------------------------------


def test_events_by_kind_day_and_child(book: Book, place: Place) -> None:
    other = two_children(book)[0]
    drafts = [
        event(place.child, "profile", {"name": "Mira"}),
        *(answer(place.child, f"product:2x{n}", n, day=n) for n in range(5)),
        event(place.child, "taught", {"skills": ["x"]}, 9),
        answer(other, "sum:1+1", 4, day=2),
    ]
    written = book.record(drafts, TINY)
    assert list(book.events()) == sorted(written, key=order)
    assert values(book.events(kinds=("taught", "profile")), "kind") == ["profile", "taught"]
    assert values(book.events(place.child, ("answer",), since_day=DAY + 3), "day") == [DAY + 3, DAY + 4]
    assert values(book.events(since_day=DAY + 2, kinds=("answer",)), "child").count(other) == 1
    assert list(book.events("00" * 16)) == list(book.events(other, ())) == []
    assert values(book.answers(place.child, last=2), "day") == [DAY + 3, DAY + 4]
    assert values(book.answers(place.child, card="product:2x1"), "card") == ["product:2x1"]
    assert len(book.answers(place.child)) == 5
    assert book.last_days() == {place.child: DAY + 4, other: DAY + 2}
    assert book.counts() == (3, 6, 8)


def test_a_reader_that_stops_half_way_holds_no_lock(place: Place) -> None:
    with place.open() as writer, place.open(write=False) as reader:
        writer.record([answer(place.child, ms=n) for n in range(50)], TINY)
        half = reader.events()
        next(half)
        writer._db.execute("PRAGMA busy_timeout = 20")
        assert len(writer.record([answer(place.child, ms=99)], TINY)) == 1


def test_every_text_a_child_may_give_comes_back(book: Book, place: Place) -> None:
    odd = {"given": "×\x00\ud800\u202e' \" \\ \n", "many": [1, True, {"a": "b"}], "big": 2**62}
    draft = answer(place.child)._replace(body={**answer(place.child).body, **odd})
    book.record([draft], TINY)
    assert book.answers(place.child)[0].body == draft.body
    assert book.verify(TINY) == []


def test_numbers_of_a_device_rise_by_one_over_all_children(book: Book) -> None:
    children = two_children(book)
    written = [book.record([answer(children[n % 2], ms=n)], TINY)[0] for n in range(6)]
    assert [row.seq for row, after in pairwise(written) if after.seq != row.seq + 1] == []


def drafts_of(child: str, count: int) -> list[Draft]:
    return [answer(child, f"product:2x{n}", n) for n in range(count)]


def test_a_day_in_one_transaction_is_the_same_as_answer_by_answer(tmp_path: Path) -> None:
    memories = []
    for name, size in (("one", 1), ("all", 40)):
        (tmp_path / name).mkdir()
        place = new_place(tmp_path / name)
        with place.open() as book:
            book.device = 5
            drafts = drafts_of(place.child, 40)
            for start in range(0, 40, size):
                book.record(drafts[start : start + size], TINY)
            memories.append(book.remembered(place.child).cards)
    assert memories[0] == memories[1]
