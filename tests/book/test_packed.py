"""What an answer says comes back from its list as it was, whatever it is."""

import json
from typing import Any, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review import gather
from review.book import chain, rows
from review.book.chain import Row
from review.book.packed import LISTED, NAMES, packed, unpacked
from review.book.store import Book
from review.core.answer_bodies import answer_body, event_answer
from review.core.bodies import amiss
from review.core.model import MARKS, Answer, Role, Taken
from tests.book.conftest import Place
from tests.book.tiny import DAY, START, answer

NUMBERS = st.integers(0, 10**9)
ANSWERS = st.builds(
    Answer,
    card=st.just("product:6x7"),
    asked=st.sampled_from(["6x7", "7x6"]),
    expected=st.sampled_from(["42", "forty-two"]),
    given=st.text(max_size=5),
    mark=st.sampled_from(MARKS),
    role=st.sampled_from(get_args(Role)),
    first_ms=st.sampled_from([0, 900]),
    end_ms=st.sampled_from([0, 2100]),
    help=st.sampled_from(["", "picture"]),
    taken=st.sampled_from(get_args(Taken)),
    aim=st.sampled_from(["familiarity", "accuracy", "fluency"]),
    age=st.sampled_from([0, 7]),
    copy_ms=st.sampled_from([0, 1900]),
    slow_ms=st.sampled_from([0, 3000]),
    recalled=st.sampled_from(["", "yes", "no"]),
    showing=st.integers(0, 3),
    rule=st.integers(1, 3),
    untimed=st.integers(0, 1),
    slipped=st.sampled_from(["", "24"]),
)
VALUES = st.recursive(
    st.one_of(st.booleans(), NUMBERS, st.text(max_size=4), st.sampled_from(["right", "fluency", 1, 2])),
    lambda inner: st.one_of(st.lists(inner, max_size=9), st.dictionaries(st.text(max_size=3), inner)),
    max_leaves=9,
)
KEYS = st.one_of(st.sampled_from([*Answer._fields[1:], *NAMES]), st.text(max_size=4))


def stored(body: dict[str, Any]) -> str:
    """The text of the row's body."""
    return chain.canonical(packed("answer", body))


def read(text: str) -> Any:
    return unpacked("answer", json.loads(text))


@given(ANSWERS)
def test_every_answer_comes_back(given_answer: Answer) -> None:
    body = answer_body(given_answer)
    assert read(stored({**body})) == body
    assert len(stored({**body})) <= len(chain.canonical(body))


@given(st.dictionaries(KEYS, VALUES, max_size=9))
def test_every_body_comes_back(body: dict[str, Any]) -> None:
    """Also those no program of ours ever wrote: with true for 1, or with the name of a list."""
    assert chain.canonical(read(stored(body))) == chain.canonical(body)


@given(st.dictionaries(KEYS, VALUES, max_size=9), st.sampled_from(["sitting", "undo", "profile"]))
def test_other_events_are_left_alone(body: dict[str, Any], kind: str) -> None:
    assert packed(kind, body) is unpacked(kind, body) is body


def bare(**changes: Any) -> Answer:
    return Answer("product:6x7", "6x7", "42", "42", "right", aim="fluency", age=9, rule=2)._replace(**changes)


PINNED = [
    (bare(copy_ms=1900, first_ms=900, end_ms=2100), '{"f":["6x7","42",9,1900,900,2100]}'),
    (bare(copy_ms=1900, first_ms=900, end_ms=2100, slow_ms=3000), '{"f":["6x7","42",9,1900,900,2100,3000]}'),
    (bare(aim="accuracy", first_ms=900, end_ms=2100), '{"a":["6x7","42",9],"end_ms":2100,"first_ms":900}'),
    (bare(copy_ms=1900, taken="aloud"), '{"f":["6x7","42",9,1900],"taken":"aloud"}'),
    (bare(given="43", mark="not_yet"), '{"expected":"42","f":["6x7","43",9],"mark":"not_yet"}'),
    (bare(aim="familiarity", rule=3), '{"a":["6x7","42",9],"aim":"familiarity","rule":3}'),
    (bare(rule=1), '{"age":9,"aim":"fluency","asked":"6x7","given":"42","mark":"right"}'),
]  # fmt: skip


@pytest.mark.parametrize(("said", "text"), PINNED)
def test_the_format_is_pinned(said: Answer, text: str) -> None:
    """Written out by hand: rows stand like this for ever."""
    assert stored({**answer_body(said)}) == text
    event = rows.event_of(Row(1, 1, "ab", "answer", DAY, START, START, 0, said.card, text, b"", b""))
    assert event_answer(event) == said


FORGED = [
    '{"f":[]}', '{"f":5}', '{"a":"6x7"}', '{"f":["6x7"]}', '{"f":[6,"42"]}', '{"a":["6x7","42","9"]}',
    '{"f":["6x7","42"],"mark":"other"}', '{"":{}}', '{"":5}', '{"":{"a":["6x7","42"]}}', '{"f":["5/0","42"]}',
    '{"f":["6x7","42",9,1,2,3,true]}',
]  # fmt: skip


@pytest.mark.parametrize("text", FORGED)
def test_a_list_nobody_could_use_is_told_by_what_it_stands_for(text: str) -> None:
    """Of a log from elsewhere the body is judged as it would be read."""
    event = rows.event_of(Row(1, 1, "ab", "answer", DAY, START, START, 0, "product:6x7", text, b"", b""))
    assert amiss(event)


def test_old_and_new_rows_stand_beside_each_other(book: Book, place: Place) -> None:
    """Written as an older program wrote them, by name, and as lists; and read alike, together."""
    plain = answer(place.child, "product:6x7", 1)
    odd = plain._replace(body={"asked": "6x7", "given": "42", "mark": "right", "a": ["x"]}, raw_ms=START + 2)
    older = plain._replace(body={key: v for key, v in plain.body.items() if key != "rule"}, raw_ms=START + 3)
    book.record([plain, odd, older], gather.remember())
    texts = [text for (text,) in book._db.execute("SELECT body FROM log ORDER BY seq")]
    assert [text[:5] for text in texts] == ['{"a":', '{"":{', '{"age']
    assert [event.body for event in book.events()] == [plain.body, odd.body, older.body]
    assert book.verify(gather.remember()) == []


def test_what_is_listed_is_what_an_answer_has() -> None:
    assert set(LISTED) <= set(Answer._fields)
    assert NAMES.isdisjoint(Answer._fields)
