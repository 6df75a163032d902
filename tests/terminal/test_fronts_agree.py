"""The same answers through every front are kept the same, apart from their times."""

from pathlib import Path

from review.core.model import Answer
from tests.terminal.seat import rows_of, seat
from tests.terminal.streams import by_json, by_lines

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


def untimed(row: Answer) -> Answer:
    return row._replace(first_ms=0, end_ms=0)


def test_terminal_pipe_and_json_keep_the_same(tmp_path: Path) -> None:
    rows = tmp_path / "rows.jsonl"
    with seat(rows, rows=40) as taken:
        for line, text, held in SCRIPT:
            taken.at(line).press(text if text == "?" else text + "\r")
            if text == "?":
                taken.see("Add the tens first.")
            if held:
                taken.see("Then press Enter.").press("\r")
                taken.see("Your turn.")
        taken.at("8 × 7 = ").press("\x04")
        assert taken.finish() == 0
    typed = [untimed(Answer(**row)) for row in rows_of(rows)]  # type: ignore[arg-type]
    piped = by_lines("".join(f"{text}\n" for _, text, _ in SCRIPT))
    json = by_json(*(WORDS.get(text, {"answer": text, "seconds": 2}) for _, text, _ in SCRIPT))
    assert typed == [*map(untimed, piped.answers)]
    assert typed == [*map(untimed, json.answers)]
    assert len(typed) == 12
