"""The same answers through every front are kept the same, apart from their times."""

from collections.abc import Sequence
from pathlib import Path
from typing import cast

import pytest

from review.core import copying, skills
from review.core.copying import Copying
from review.core.model import Answer
from tests.terminal.driver import of_sort
from tests.terminal.seat import rows_of, seat
from tests.terminal.streams import by_json, by_lines

Script = Sequence[tuple[str, str, bool]]

# The line the cursor stands on, what is answered, and whether what is told then waits for Enter.
SCRIPT = (
    ("Double 2 is ", "4", False),
    ("2 + 5 = ", "7", False),
    ("7 × 6 = ", "41", True),
    ("7 × 6 = ", "42", False),
    ("36 + 15 = ", "?", False),
    ("36 + 15 = ", "", False),
    ("36 + 15 = ", "51", False),
    ("7 × 8 = ", "", True),
    ("7 × 8 = ", "56", False),
    ("15 − 8 = ", "blue", False),
    ("15 − 8 = ", "８", True),  # a full-width 8
    ("15 − 8 = ", "7", False),
    ("7 × 6 = ", "pass", True),
    ("7 × 6 = ", "42", False),
    ("2 + 2 = ", " 4 ", False),
)
WORDS: dict[str, dict[str, object]] = {"?": {"help": True}, "pass": {"pass": True}}
GIVING_UP = (
    ("Double 2 is ", "?", False),
    ("Double 2 is ", "4", False),
    *[("2 + 5 = ", "?", False)] * (len(skills.problem("sum:2+5", "2+5").helps) + 2),
)
"""Help to the end, and then once more: it is shown, and no word was typed."""


HELD = "Then press Enter."


def untimed(row: Answer) -> Answer:
    return row._replace(first_ms=0, end_ms=0)


def at_a_terminal(rows: Path, script: Script, sort: str, end: str) -> list[Answer]:
    """Typed by a child who waits for each problem, and for what help shows."""
    with seat(rows, f"sort={sort}", rows=60) as taken:
        for line, text, held in script:
            before = taken.at(line).text
            taken.press(text if text == "?" else text + "\r")
            if text == "?":
                taken.changed(before)
            if held:
                taken.see(HELD).press("\r")
                taken.see("Your turn.")
        if taken.see(end) and end == HELD:
            taken.press("\r")
            taken.see("Your turn.").at(script[-1][0])  # what is typed before a problem stands is thrown away
        taken.press("\x04")
        assert taken.finish() == 0
    return [untimed(Answer(**row)) for row in rows_of(rows)]  # type: ignore[arg-type]


@pytest.mark.parametrize("sort", ["", "extra", "gentle"])
@pytest.mark.parametrize(("script", "end", "kept"), [(SCRIPT, "8 × 7 =", 12), (GIVING_UP, HELD, 2)])
def test_terminal_pipe_and_json_keep_the_same(
    tmp_path: Path, script: Script, end: str, kept: int, sort: str
) -> None:
    typed = at_a_terminal(tmp_path / "rows.jsonl", script, sort, end)
    sitting = of_sort(sort)
    piped = by_lines("".join(f"{text}\n" for _, text, _ in script), sitting=sitting)
    json = by_json(
        *(WORDS.get(text, {"answer": text, "seconds": 2}) for _, text, _ in script), sitting=sitting
    )
    assert typed == [*map(untimed, piped.answers)]
    assert typed == [*map(untimed, json.answers)]
    assert len(typed) == kept
    assert {row.sitting for row in typed} == {sort}


NUMBERS = [asked for _, asked in copying.numbers(cast(Copying, of_sort("copying")))]


def test_numbers_are_copied_alike_through_every_front(tmp_path: Path) -> None:
    rows = tmp_path / "rows.jsonl"
    said = [*NUMBERS[:5], f"{NUMBERS[5]}9", "?", *NUMBERS[6:]]
    with seat(rows, "sort=copying", rows=40) as taken:
        for number in NUMBERS[:5]:
            taken.at(f"Type {number}: ").press(f"{number}\r")
        taken.at(f"Type {NUMBERS[5]}: ").press(f"{NUMBERS[5]}9\r")
        taken.at(f"Type {NUMBERS[6]}: ").press("?")
        taken.see(copying.TYPE_IT)
        for number in NUMBERS[6:]:
            taken.at(f"Type {number}: ").press(f"{number}\r")
        assert taken.finish() == 0
        assert copying.DONE in taken.text
    typed = [untimed(Answer(**row)) for row in rows_of(rows)]  # type: ignore[arg-type]
    sitting = of_sort("copying")
    piped = by_lines("".join(f"{text}\n" for text in said), sitting=sitting)
    json = by_json(*(WORDS.get(text, {"answer": text, "seconds": 1}) for text in said), sitting=sitting)
    assert typed == [*map(untimed, piped.answers)] == [*map(untimed, json.answers)]
    assert [row.mark for row in typed].count("right") == 19
