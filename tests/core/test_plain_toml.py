"""A text that is written plainly is read a shorter way: to what `tomllib` makes of it, or not at all.

`tomllib` is the reference. `repr` tells 1 from 1.0 and True.
"""

import tomllib

from hypothesis import example, given, settings
from hypothesis import strategies as st

from review import config
from review.core.toml_text import plainly

WRITTEN = [path.read_text(encoding="utf-8") for path in sorted(config.catalogue_folder().glob("*.toml"))]
HEAD = '[set]\nid = "a"\n'

# What may stand in a line, well written or nearly so
SIGNS = '\n\n\n  []{},,==##""\'\\-_019aé\t\r\x00\x7f\u200b'
WORDS = """id = |title = | = |"one"|"two # three"|''|true|false|null|NaN|-0|007|1.5|1e5|1_000"""
LISTS = ["[1, 2]", "{ a = [1, 2] }"]
LINES = ["[set]\n", "\n[[skill]]\n", '[["a", "1"],\n]', "[\n  1,\n]", "[,\n]", "# a\n", '"""']
PIECES = st.sampled_from([*SIGNS, *WORDS.split("|"), *LISTS, *LINES])
TEXTS = st.text(
    alphabet=st.characters(exclude_characters='"\\', exclude_categories=("C", "Z"), include_characters=" ")
)
VALUES = st.recursive(
    st.integers(-(10**20), 10**20).map(str) | TEXTS.map(lambda text: f'"{text}"'),
    lambda inner: st.lists(inner, max_size=4).map(lambda values: f"[{', '.join(values)}]"),
    max_leaves=6,
)
ENTRIES = st.dictionaries(
    st.text("abc_", min_size=1, max_size=3), VALUES | st.sampled_from(["true", "false"]), max_size=4
)
TABLES = ENTRIES.map(lambda table: "".join(f"{key} = {value}\n" for key, value in table.items()))


def same_or_nothing(text: str) -> None:
    plain = plainly(text)
    if plain is not None:
        assert repr(plain) == repr(tomllib.loads(text))


def test_every_shipped_set_is_written_plainly() -> None:
    assert WRITTEN
    for text in WRITTEN:
        assert repr(plainly(text)) == repr(tomllib.loads(text))


def test_line_ends_of_another_system_are_read_as_well() -> None:
    for text in WRITTEN[:5]:
        assert plainly(text.replace("\n", "\r\n")) == plainly(text) is not None


@given(TABLES.filter(bool), st.lists(TABLES.filter(bool), max_size=3))
def test_a_plain_text_is_read(head: str, skills: list[str]) -> None:
    text = "\n[[skill]]\n".join([f"[set]\n{head}", *skills])
    assert repr(plainly(text)) == repr(tomllib.loads(text))


@settings(max_examples=1000)
@example(HEAD + 'title = "one,\n]"')
@example(HEAD + 'title = "one\n two"')
@example(HEAD + "ages = [\n,\n]")
@example(HEAD + "ages = [1, 2]\nages = [1, 2]")
@example(HEAD + "ages = [1, 2]\n[2]")
@example(HEAD + "ages = null")
@example(HEAD + "letters = { a = [1, 2], a = [1, 2] }")
@example(HEAD + "[[skill]]\n[[skill]]\n")
@example(HEAD + "[[skill]]")
@example(HEAD + "ages = [" + "[" * 5000)
@example(HEAD + "size = " + "1" * 5000)
@given(st.lists(PIECES, max_size=14).map(lambda pieces: HEAD + "".join(pieces)))
def test_any_text_is_read_alike_or_not_at_all(text: str) -> None:
    same_or_nothing(text)


@settings(max_examples=400)
@given(st.sampled_from(WRITTEN), st.data())
def test_a_set_with_a_slip_of_the_pen_is_read_alike_or_not_at_all(text: str, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(text)))
    gone = data.draw(st.integers(0, 3))
    same_or_nothing(text[:at] + data.draw(PIECES | st.just("")) + text[at + gone :])
