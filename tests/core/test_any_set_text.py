"""Any text at all: a skill set, or mistakes that are told, and soon."""

import time

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from review.core.skills import KINDS
from review.core.toml_text import LONGEST
from tests.core.small_sets import HEAD, mistakes

HOSTILE = {
    "nested lists": "a = " + "[" * 5000 + "]" * 5000,
    "nested lists a reader bears": "a = " + "[" * 320 + "]" * 320,
    "nested tables": "a = " + "{a = " * 3000,
    "dots": "a." * 100_000 + "b = 1",
    "dots in a heading": "[" + "a." * 100_000 + "b]",
    "quoted dots": '"a".' * 50_000 + "b = 1",
    "a huge number": "a = " + "9" * 5000,
    "a huge file": "a" * (LONGEST + 1),
    "many skills": "[[skill]]\n" * 50_000,
    "many keys": "".join(f"a{number} = 1\n" for number in range(40_000)),
    "many lists": "a = [" + "[]," * 100_000 + "]",
    "quotes": '"' * 100_000,
    "an endless text": 'a = """' + "b\n" * 100_000,
    "lone surrogate": 'a = "\ud800"',
    "controls": "".join(map(chr, range(32))),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_text_is_a_mistake_and_soon(name: str) -> None:
    begun = time.monotonic()
    assert mistakes(HOSTILE[name])
    assert time.monotonic() - begun < 60  # seconds, against a blow-up; the slowest takes one here


@given(st.text(max_size=200) | st.text("[]{}=,.\"'#\n \\abcset1-", max_size=60))
@example('"')
@example("[[skill]]\nid.a = 1")
@example("set = 1\nskill = [[]]")
@example("set.id = [[{}]]\n[[skill]]\nkind = []\nid = {a = 1}")
@settings(max_examples=300)
def test_any_text_gives_a_set_or_mistakes(text: str) -> None:
    mistakes(text)


VALUES = st.sampled_from(
    [
        "1",
        "-1",
        "true",
        '""',
        '"a"',
        "[]",
        "[1]",
        "[1, 2]",
        "[2, 1]",
        '["a"]',
        '[["a", "b"]]',
        "[[1, 2]]",
        "{}",
        "1.5",
        "nan",
        "07:30:00",
        "1979-05-27",
        "[1, [2]]",
        '["pass", "pass"]',
        "[true, false]",
        "10000000000000000000000",
    ],
)


@given(st.data())
@settings(max_examples=300)
def test_any_value_under_any_key_gives_a_set_or_mistakes(data: st.DataObject) -> None:
    kind = data.draw(st.sampled_from(sorted(KINDS)))
    names = ["id", "title", "aim", "after", "strategies", *KINDS[kind].options]
    chosen = data.draw(st.dictionaries(st.sampled_from(names), VALUES, max_size=6))
    text = (
        HEAD + f'[[skill]]\nkind = "{kind}"\n' + "".join(f"{name} = {one}\n" for name, one in chosen.items())
    )
    for told in mistakes(text):
        assert told.line >= 1
        assert "\n" not in told.wrong + told.instead
