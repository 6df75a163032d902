"""The lines of a text: of the first mistake of syntax, and of every value."""

import tomllib
from collections.abc import Iterator
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.toml_text import Path, lines_of, written
from tests.core.small_sets import mistakes

# --- syntax -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("[set]\nid", 2),
        ("[set]\nid = ", 2),
        ('[set]\nid = "a\n', 2),
        ("[set]\nid = our sums\n", 2),
        ("[set\n", 1),
        ("[set]\nid = 1\nid = 2\n", 3),
        ("[set]\n\n[set]\n", 3),
        ("a = [1, 2\n\n", 1),
        ("a = {b = 1\n}\n", 1),
        ("a = 1 2", 1),
        ('a = "\\q"', 1),
        ("\n\n=", 3),
        ("a = 1\x00", 1),
        ("# fine\na = 'b\n", 2),
        ('a = """b\n\n', 1),
    ],
)
def test_the_first_mistake_of_syntax_in_plain_words(text: str, line: int) -> None:
    (told,) = mistakes(text)
    assert told.path == ""
    assert told.line == line or text.endswith("\n\n")  # what is never closed is found at the end
    assert not any(
        word in told.wrong for word in ("Expected", "statement", "Invalid", "declaration", "Unterminated")
    )


WITHOUT_QUOTES = 'Put text in quotes, like "this"; true and false are written small.'


@pytest.mark.parametrize(
    ("line", "instead"),
    [
        ("and = False", "Write and = false."),
        ("and = no", "Write and = false."),
        ("and = our sums", 'Write and = "our sums".'),
        ('and = our "sums"', WITHOUT_QUOTES),
        ("and = [our sums]", WITHOUT_QUOTES),
    ],
)
def test_what_stands_without_quotes_is_told_as_it_was_meant(line: str, instead: str) -> None:
    """Where that is plain to see; else both ways to write it."""
    (told,) = mistakes(f"[set]\n{line}\n")
    assert (told.line, told.instead) == (2, instead)


@pytest.mark.parametrize("text", ["ti\u200btle = 1", "title\u00a0= 1", 'title = \u00a0"x"', "a = 1\u2028"])
def test_a_character_that_nobody_sees_between_the_texts(text: str) -> None:
    (told,) = mistakes("[set]\n" + text)
    assert told.line == 2
    assert "an invisible character" in told.wrong


# --- lines --------------------------------------------------------------------------------------------


def test_lines_of_every_shape() -> None:
    text = '''\
# [[skill]] in a comment
[set] # and "one" here
id = "a [set] = {in} 'text'"
about = """
[[skill]]
id = \\"""no\\"""
"""
ages = [
  6, # [
  7,
]
a.b . "c d" = {e = 1, f = [1, {g = "]"}]}

[[skill]]
id = 1
[skill.deep]
x = 2
[[skill]]
pairs = [["a", "b"],
         ["c",
          "]"]]
note = 1979-05-27 07:32:00
'single' = 3
'''
    tomllib.loads(text)
    lines = lines_of(text.replace("\n", "\r\n"))
    assert lines == lines_of(text)
    expected: dict[Path, int] = {
        (): 1,
        ("set",): 2,
        ("set", "id"): 3,
        ("set", "about"): 4,
        ("set", "ages"): 8,
        ("set", "ages", 0): 9,
        ("set", "ages", 1): 10,
        ("set", "a"): 12,
        ("set", "a", "b", "c d"): 12,
        ("set", "a", "b", "c d", "e"): 12,
        ("set", "a", "b", "c d", "f", 1, "g"): 12,
        ("skill",): 14,
        ("skill", 0): 14,
        ("skill", 0, "id"): 15,
        ("skill", 0, "deep"): 16,
        ("skill", 0, "deep", "x"): 17,
        ("skill", 1): 18,
        ("skill", 1, "pairs"): 19,
        ("skill", 1, "pairs", 0): 19,
        ("skill", 1, "pairs", 1): 20,
        ("skill", 1, "pairs", 1, 1): 21,
        ("skill", 1, "note"): 22,
        ("skill", 1, "single"): 23,
    }
    assert {path: lines.get(path) for path in expected} == expected
    assert written(("skill", 1, "pairs", 0)) == "skill[2].pairs[1]"


def toml(random: Random) -> tuple[str, dict[Path, int]]:
    """A text with its keys, and the lines they were written to."""
    fillers = ["", "# [[x]] = {", "  # ' \"", "\t"]
    values = [
        "1",
        '"[a] # b = "',
        "'\"'",
        "[1,\n 2]",
        "[\n[1], # ]\n[2]\n]",
        '"""a\n[b]\n"""',
        "{x = [1], y = '}'}",
    ]
    texts: list[str] = []
    lines: dict[Path, int] = {}

    def here() -> int:
        return "\n".join(texts).count("\n") + 2 if texts else 1

    for place in range(random.randint(1, 4)):
        texts += random.choices(fillers, k=random.randint(0, 2))
        lines[("skill", place)] = here()
        texts.append(random.choice(["[[skill]]", "[[ skill ]] # [skill]", '[["skill"]]']))
        for name in "abc"[: random.randint(0, 3)]:
            texts += random.choices(fillers, k=random.randint(0, 2))
            lines[("skill", place, name)] = here()
            texts.append(
                f"{name}{random.choice(['=', ' = '])}{random.choice(values)}{random.choice(['', ' # c'])}"
            )
    return "\n".join(texts), lines


@given(st.randoms(use_true_random=False))
def test_lines_of_any_set(random: Random) -> None:
    text, expected = toml(random)
    found = lines_of(text)
    assert {path: found.get(path) for path in expected} == expected
    assert set(paths(tomllib.loads(text))) <= set(found)


def paths(value: object, path: Path = ()) -> Iterator[Path]:
    yield path
    children = (
        value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    )
    for key, child in children:
        yield from paths(child, (*path, key))
