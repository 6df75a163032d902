"""The front for other programs: one JSON object a line, each way."""

import io
import json
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.model import Answer
from review.core.warmup import AskHelp, PassOn, Stop, Typed
from review.terminal import json_lines
from review.terminal.json_lines import Meant, read
from tests.terminal.driver import SITTING, answers_before
from tests.terminal.streams import by_json, stream

# The keys other programs count on; more may come, none may go.
KEYS = {
    "problem": {
        "n",
        "card",
        "kind",
        "prompt",
        "say",
        "first_meeting",
        "second_look",
        "picture",
        "picture_words",
    },
    "mark": {"card", "mark", "expected", "explain"},
    "summary": {"minutes", "first_tries", "right", "new", "overdue_left"},
    "show": {"card", "text"},
    "ask_again": {"text", "picture"},
    "help": {"text", "step", "picture", "picture_words"},
    "note": {"text"},
}
ALL = [
    {"answer": text, "seconds": 3.0, "first_key": 1.0}
    for text in (
        "4",
        "7",
        "41",
        "42",
        "blue",
        "red",
        "",
        "56",
        "7",
        "42",
        "9",
        "51",
        "51",
        "51",
        "56",
        "5",
        "5",
    )
]


def test_keys_of_every_object() -> None:
    heard = by_json({"help": True}, "nonsense", *ALL)
    assert {str(found["type"]) for found in heard.objects} == {*KEYS}
    for found in heard.objects:
        assert KEYS[str(found["type"])] <= {*found}


def test_the_first_line_is_a_problem_and_the_last_the_summary() -> None:
    objects = by_json().objects
    assert [found["type"] for found in objects] == ["problem", "summary"]
    assert objects[-1]["overdue_left"] == 4


def test_a_mark_follows_each_answer_before_the_next_problem() -> None:
    objects = by_json({"answer": "4"}, {"answer": "9"}).objects
    assert [found["type"] for found in objects] == [
        "problem", "mark", "problem", "mark", "show", "problem", "summary",
    ]  # fmt: skip
    assert objects[3]["mark"] == "not_yet"
    assert objects[3]["expected"] == "7"
    assert objects[5]["copying"] is True


@pytest.mark.parametrize("begin", ["", "\ufeff"])
def test_what_another_program_says_is_utf_8_whatever_the_code_page(begin: str) -> None:
    """RFC 8259, section 8.1; some shells on Windows put a mark before what they hand on."""
    data = f'{begin}{{"answer": "４"}}\n'.encode()  # a wide 4, which is read as one
    source = io.TextIOWrapper(io.BytesIO(data), encoding="cp1252")
    kept = list[Answer]()
    json_lines.play(SITTING, (), kept.append, source=source, out=stream())
    assert [(row.given, row.mark) for row in kept] == [("４", "right")]


def test_minutes_count_the_seconds_reported() -> None:
    heard = by_json({"answer": "4", "seconds": 30}, {"answer": "7", "seconds": 15.0, "first_key": 2.5})
    assert heard.of("summary")[0]["minutes"] == 0.75
    assert [(row.first_ms, row.end_ms) for row in heard.answers] == [(0, 30_000), (2500, 15_000)]


def test_what_else_an_answer_says() -> None:
    heard = by_json(
        {"answer": "4", "help": 2, "recalled": False},
        {"answer": "7", "recalled": True},
        {"pass": True, "seconds": 4},
    )
    first, second, third = heard.answers
    assert (first.mark, first.recalled) == ("right_helped", "no")
    assert (second.mark, second.recalled) == ("right", "yes")
    assert (third.mark, third.end_ms) == ("shown", 4000)


def test_a_program_says_which_way_is_liked() -> None:
    """The fourth card of the sitting is a sum; a way it does not have is told, and nothing kept."""
    prompt = str(by_json(so_far=answers_before(3)).of("problem")[0]["prompt"])
    answer = sum(int(number) for number in prompt.removesuffix(" =").split(" + "))
    told = {"answer": str(answer), "seconds": 4, "help": 1, "liked": "counting-on"}
    heard = by_json({**told, "liked": "doubles"}, told, so_far=answers_before(3))
    (row,) = heard.answers
    assert (row.help, row.mark, row.liked) == ("question", "right", "counting-on")
    (note,) = heard.of("note")
    assert str(note["text"]).startswith('"liked" is one of the ways of this problem: ')
    assert "counting-on" in str(note["text"])
    assert [found["n"] for found in heard.of("problem")] == [4, 5]


def test_a_problem_without_ways_has_none_to_like() -> None:
    heard = by_json({"answer": "4", "liked": "bridging"}, {"answer": "4"})
    kept = [row.liked for row in heard.answers]
    notes = [str(note["text"]) for note in heard.of("note")]
    assert kept == [""]
    assert len(notes) == 1
    assert '"liked"' in notes[0]


def test_a_sitting_goes_on_where_it_stopped() -> None:
    heard = by_json(so_far=answers_before(2))
    assert heard.of("problem")[0]["n"] == 3
    assert heard.of("problem")[0]["dots"] == [2, 8]


BAD = (
    "", "   ", "nonsense", "[]", "3", "null", '"4"', "{}", '{"anwser": "4"}', '{"answer": 4}',
    '{"answer": null}',
    '{"answer": "4", "seconds": "3"}', '{"answer": "4", "seconds": -1}', '{"answer": "4", "seconds": 1e300}',
    '{"answer": "4", "seconds": NaN}', '{"answer": "4", "seconds": Infinity}',
    '{"answer": "4", "seconds": true}',
    '{"answer": "4", "first_key": []}', '{"answer": "4", "help": true}', '{"answer": "4", "help": -1}',
    '{"answer": "4", "help": 1.5}', '{"answer": "4", "recalled": "yes"}', '{"answer": "4", "recalled": []}',
    '{"answer": "4", "liked": 2}',
    '{"answer": "4", "pass": true}', '{"pass": false}', '{"pass": true, "stop": true}', '{"stop": 1}',
    '{"help": 2}', "[" * 100_000, '{"answer": "4", "seconds": ' + "9" * 5000 + "}",
)  # fmt: skip


@pytest.mark.parametrize("line", BAD, ids=range(len(BAD)))
def test_a_line_that_says_nothing_gets_one_note_and_the_problem_still_waits(line: str) -> None:
    heard = by_json(line, {"answer": "4"})
    assert [found["type"] for found in heard.objects] == ["problem", "note", "mark", "problem", "summary"]


JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(),
    lambda inner: (
        st.lists(inner) | st.dictionaries(st.sampled_from(["answer", "seconds", "help", "pass"]), inner)
    ),
    max_leaves=8,
)


@given(
    JSON
    | st.dictionaries(st.sampled_from(["answer", "seconds", "first_key", "help", "recalled", "liked"]), JSON)
)
def test_any_object_is_heard_or_answered_with_what_is_meant(said: object) -> None:
    line = json.dumps(said)
    with suppress(Meant):
        assert isinstance(read(line), Typed | PassOn | Stop | AskHelp)


def test_a_lone_surrogate_never_enters_an_answer() -> None:
    heard = by_json('{"answer": "4\\ud800"}')
    assert heard.answers[0].given == "4"


def test_every_line_is_ascii_and_one_object() -> None:
    heard = by_json(*ALL)
    assert heard.text.isascii()
    assert all(isinstance(found, dict) for found in heard.objects)
