"""The chain: what it is a hash of, and that no changed bit of a logged row escapes it."""

import hashlib
import json
import random
import sqlite3
from collections.abc import Iterable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.book import chain, connection, proofs, rows, store
from review.book.chain import FIRST, Row
from review.book.store import Book
from review.errors import ReviewError
from tests.book.conftest import Place
from tests.book.tiny import DAY, START, TINY, answer

ROW = Row(
    5, 1, "ab" * 16, "answer", DAY, START, START + 1, -300, "product:6x7", '{"given":"42"}', FIRST, b""
)  # fmt: skip


def test_the_hash_is_of_one_line_of_json() -> None:
    """Written out by hand, so that any other program can check a log (RFC 8259 JSON, FIPS 180-4 SHA-256)."""
    line = (
        '["0000000000000000000000000000000000000000000000000000000000000000",5,1,'
        '"abababababababababababababababab","answer",738001,1627639200000,1627639200001,-300,'
        '"product:6x7","{\\"given\\":\\"42\\"}"]'
    )
    assert chain.row_hash(ROW) == hashlib.sha256(line.encode("ascii")).digest()
    assert chain.row_hash(ROW).hex() == "d1d1d164da9aaf3c7b1dcf63646ac9fb40e5f351774df936644accfa7d851d38"


JSON = st.recursive(
    st.one_of(st.booleans(), st.integers(), st.text()),
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(st.text(), inner, max_size=4)),
    max_leaves=12,
)


@given(st.dictionaries(st.text(), JSON, max_size=6))
def test_canonical_json_is_one_text_that_reads_back(body: dict[str, object]) -> None:
    text = chain.canonical(body)
    assert json.loads(text) == body
    assert text.isascii()
    assert text == chain.canonical(dict(reversed(body.items())))
    assert chain.canonical(json.loads(text)) == text


FIELDS = st.sampled_from(range(len(Row._fields) - 1))


@given(FIELDS, st.integers(1, 2**31), st.text(alphabet="abc:123", min_size=1))
def test_every_field_counts(field: int, number: int, text: str) -> None:
    value = ROW[field]
    other: object = value + number if isinstance(value, int) else text
    if isinstance(value, bytes):
        other = hashlib.sha256(text.encode()).digest()
    changed = Row._make([*ROW[:field], other, *ROW[field + 1 :]])
    assert chain.row_hash(changed) != chain.row_hash(ROW) or changed == ROW


def links(*seqs: int, child: str = "aa", device: int = 1) -> list[Row]:
    before, made = FIRST, []
    for seq in seqs:
        row = chain.sealed(ROW._replace(seq=seq, child=child, device=device, previous=before))
        made.append(row)
        before = row.hash
    return made


@pytest.mark.parametrize("value", [1.5, None, b"x", {1}, [[2.0]], {"deep": {"er": [None]}}, {"at": {1: "x"}}])
def test_a_body_holds_nothing_that_may_print_differently(value: object) -> None:
    """No fraction, for one: its shortest text is not the same in every language."""
    with pytest.raises(ValueError, match=r"a body holds no|keys of a body are strings"):
        chain.canonical({"value": value})
    with pytest.raises(ValueError, match="a body is a table"):
        chain.canonical([value])  # type: ignore[arg-type]


def test_a_chain_with_nothing_wrong_has_no_breaks() -> None:
    both = sorted([*links(1, 3, 4), *links(2, 5, child="bb"), *links(1, 2, device=2)])
    assert list(chain.breaks(both)) == []


def test_a_missing_a_changed_and_a_foreign_row_are_told_apart() -> None:
    made = links(1, 2, 3, 4)
    assert [row.seq for row, what in chain.breaks([made[0], *made[2:]]) if "missing" in what] == [3]
    changed = [made[0], made[1]._replace(day=DAY + 1), *made[2:]]
    assert [(row.seq, what) for row, what in chain.breaks(changed)] == [
        (2, "was changed after it was written")
    ]
    torn = [made[0]._replace(hash="text"), *made[1:]]  # type: ignore[arg-type]
    assert [row.seq for row, _ in chain.breaks(torn)] == [1, 2]


# --- a book does not keep the hash before -------------------------------------------------------------------


def kept(rows: Iterable[Row]) -> list[Row]:
    """As a book keeps them and a walk finds them: each with the stored hash of the one before it."""
    tips: dict[tuple[str, int], bytes] = {}
    found = []
    for row in rows:
        found.append(row._replace(previous=tips.get((row.child, row.device), FIRST)))
        tips[row.child, row.device] = row.hash
    return found


def problems(rows: Iterable[Row]) -> list[tuple[int, str]]:
    return [(row.seq, what) for row, what in chain.breaks(kept(rows))]


TWO = sorted([*links(1, 2, 4, 6), *links(3, 5, 7, child="bb")], key=lambda row: row[:2])


@given(st.sampled_from(range(7)), st.integers(1, 10**9))
def test_in_a_book_a_changed_row_is_told_as_that(place: int, by: int) -> None:
    changed = [*TWO[:place], TWO[place]._replace(raw_ms=START + by), *TWO[place + 1 :]]
    assert problems(TWO) == []
    assert problems(changed) == [(place + 1, chain.CHANGED)]


@given(st.sampled_from(range(5)))
def test_in_a_book_a_missing_row_is_told_where_its_chain_goes_on(place: int) -> None:
    """Numbers lack there: nobody can say whether the next one of the chain was changed besides."""
    gone, lacking = TWO[place], [*TWO[:place], *TWO[place + 1 :]]
    following = next(row for row in TWO[place + 1 :] if row.child == gone.child)
    assert problems(lacking) == [(following.seq, chain.EITHER)]
    assert "one is missing" in chain.EITHER


@given(st.sampled_from(range(5)))
def test_a_changed_hash_breaks_its_own_row_and_the_next_is_told_as_sound(place: int) -> None:
    spoiled = [*TWO[:place], TWO[place]._replace(hash=bytes(32)), *TWO[place + 1 :]]
    following = next(row for row in TWO[place + 1 :] if row.child == TWO[place].child)
    assert problems(spoiled) == [(place + 1, chain.CHANGED), (following.seq, chain.SPOILED)]


def test_numbers_of_a_child_who_is_not_here_break_nothing() -> None:
    assert problems(row for row in TWO if row.child == "aa") == []


def test_values_that_damage_made_others_are_told_and_stop_nothing() -> None:
    for field, value in (("seq", "x"), ("device", None), ("hash", 5), ("hash", 1.5), ("body", b"x")):
        place = Row._fields.index(field)
        torn = Row._make([*TWO[3][:place], value, *TWO[3][place + 1 :]])
        assert torn[:2] in [row[:2] for row, _ in chain.breaks(kept([*TWO[:3], torn, *TWO[4:]]))]


# --- flipped bits ---------------------------------------------------------------------------------------

FLIPS = 700


@pytest.fixture
def written(book: Book, place: Place) -> bytes:
    """A sound book's bytes."""
    book.record([answer(place.child, f"product:{n}x7", n) for n in range(8)], TINY)
    return place.path.read_bytes()


def log_span(book: bytes, db: sqlite3.Connection) -> range:
    """Where the rows of the log stand in the file: one page holds all eight, from its end up."""
    hashes = [hash for (hash,) in db.execute("SELECT hash FROM log ORDER BY seq")]
    bodies = [at for at in range(len(book)) if book.startswith(b'{"a":[', at)]
    before = 40  # the columns before the body take 41 bytes or more in each of these rows
    return range(min(bodies) - before, max(book.index(hash) + 32 for hash in hashes))


def flipped(book: bytes, bit: int) -> bytes:
    changed = bytearray(book)
    changed[bit // 8] ^= 1 << bit % 8
    return bytes(changed)


def told(path: Path, state: Path) -> bool:
    """Whether opening or verifying the book says that something is wrong."""
    try:
        with store.open_book(path, state, write=False) as book:
            return book.verify(TINY) != []
    except ReviewError:
        return True


def sqlite_tells(path: Path) -> bool:
    """SQLite's own proofs, without the chain."""
    db = connection.connect(path, write=False)
    try:
        return bool([*proofs.page_problems(db), *proofs.reference_problems(db)])
    except sqlite3.Error:
        return True
    finally:
        db.close()


def test_no_flipped_bit_of_a_row_escapes(written: bytes, place: Place, tmp_path: Path) -> None:
    db = connection.connect(place.path, write=False)
    span = log_span(written, db)
    rows_before = list(rows.log_rows(db))
    db.close()
    assert len(rows_before) == 8
    assert len(span) > 8 * 120
    bits = random.Random(8).sample(range(span.start * 8, span.stop * 8), FLIPS)
    copy, missed_by_sqlite, missed = tmp_path / "flipped.book", 0, []
    for bit in bits:
        copy.write_bytes(flipped(written, bit))
        if not sqlite_tells(copy):
            missed_by_sqlite += 1
            if not told(copy, place.state):
                missed.append(bit)
    assert missed == []
    assert missed_by_sqlite > FLIPS // 10, "then the chain would not be needed"


def test_the_control_is_sound(written: bytes, place: Place, tmp_path: Path) -> None:
    copy = tmp_path / "same.book"
    copy.write_bytes(written)
    assert not told(copy, place.state)
    assert not sqlite_tells(copy)


@pytest.mark.parametrize(("many", "told"), [(proofs.FEW, 0), (proofs.FEW + 2, 1)])
def test_of_many_problems_the_first_are_told_and_how_many_more(many: int, told: int, book: Book) -> None:
    found = proofs.asked(lambda db: [f"problem {n}" for n in range(many)], book._db)
    assert found[: proofs.FEW] == [f"problem {n}" for n in range(proofs.FEW)]
    assert found[proofs.FEW :] == ["There are 2 more problems of this sort."] * told


def test_a_book_in_use_is_not_called_damaged(book: Book) -> None:
    def asked(error: Exception) -> list[str]:
        def question(db: sqlite3.Connection) -> list[str]:
            raise error

        return proofs.asked(question, book._db)

    busy, corrupt = sqlite3.OperationalError("no"), sqlite3.DatabaseError("no")
    busy.sqlite_errorcode, corrupt.sqlite_errorcode = sqlite3.SQLITE_BUSY, sqlite3.SQLITE_CORRUPT
    with pytest.raises(sqlite3.OperationalError):
        asked(busy)
    assert asked(corrupt) == asked(ValueError("no")) == ["The file is damaged (no)."]
