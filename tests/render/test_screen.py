"""Lines as they are printed: wrapped, or as they are where there is nothing to wrap."""

from textwrap import wrap

from hypothesis import given
from hypothesis import strategies as st

from review.render.screen import wrapped


def plainly(line: str, columns: int) -> list[str]:
    """Always by the library."""
    indent = " " * (len(line) - len(line.lstrip(" ")) + 2)
    return wrap(line, columns, subsequent_indent=indent, break_on_hyphens=False) or [""]


@given(st.text(st.sampled_from("ab -\t\n\u00a0\u2003×é"), max_size=40), st.sampled_from([20, 36, 80]))
def test_a_short_line_is_what_wrapping_makes_of_it(line: str, columns: int) -> None:
    assert wrapped(line, columns) == plainly(line, columns)


def test_a_line_stands_as_it_is_or_hangs() -> None:
    assert wrapped("  Nothing is overdue.", 40) == ["  Nothing is overdue."]
    assert wrapped("  one two three four five", 20) == ["  one two three four", "    five"]
    assert wrapped("", 40) == [""]
