"""What a parent looks at, through the commands."""

import json
import re
from pathlib import Path

import pytest

from review import demo
from tests.cli.conftest import Review

STUCK_KEYS = ["child", "skill", "title", "set", "cards", "stands_on", "begin_with", "at_the_table"]
SQUARE_KEYS = ["child", "square", "card", "left", "right", "sign", "state"]
DAY = 740_000
ON = ("--on", "2027-01-22")


@pytest.fixture(scope="session")
def season(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book in which the invented family has practised for five weeks."""
    return demo.play(tmp_path_factory.mktemp("season"), DAY, days=35)


@pytest.fixture
def desk(review: Review, season: Path, monkeypatch: pytest.MonkeyPatch) -> Review:
    monkeypatch.setenv("REVIEW_BOOK", str(season))
    return review


# --- overdue, stuck, squares ---


def test_the_decision_is_one_short_list_with_reasons(desk: Review) -> None:
    out = desk("overdue", *ON).out
    orla = out[: out.index("\nFenn")].splitlines()
    assert orla[0] == "Orla"
    assert orla[1].startswith("  At the table this week:")
    assert all(re.match("    (Did not stick|Faded|Ready to teach|  )", line) for line in orla[2:-2])
    assert "not a diagnosis" in out


def test_stuck_tells_the_evidence_and_where_to_begin(desk: Review) -> None:
    rows = json.loads(desk("stuck", "--json", *ON).out)
    assert rows
    assert all(list(row) == STUCK_KEYS for row in rows)
    assert all(row["cards"] for row in rows)
    out = desk("stuck", *ON).out
    assert all(f"({row['skill']})" in out for row in rows)


def test_a_square_fits_forty_columns(desk: Review, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    out = desk("overdue", "--square", *ON).out
    assert max(map(len, out.splitlines())) <= 40
    assert "  ×  2  3  4" in out
    rows = [line.split() for line in out.splitlines() if re.match(r"^ {1,2}\d{1,2}(  [.+#o? ])+$", line)]
    assert len(rows) == 18  # addition to nine, multiplication to ten


def test_a_square_is_heard_row_by_row(desk: Review) -> None:
    out = desk("overdue", "Fenn", "--square", "--plain", *ON).out
    assert re.search(r"  2: .*holding with \d", out)
    assert "#" not in out


def test_a_square_as_json(desk: Review) -> None:
    rows = json.loads(desk("overdue", "--square", "--json", *ON).out)
    assert all(list(row) == SQUARE_KEYS for row in rows)
    assert {row["square"] for row in rows} == {"addition", "multiplication"}
    assert len({(row["child"], row["card"]) for row in rows}) == len(rows)


def test_two_ways_to_look_are_one_too_many(desk: Review) -> None:
    assert desk("overdue", "--square", "--all").code == 2


@pytest.mark.parametrize("command", [("stuck",), ("overdue", "--square")])
def test_an_empty_book_says_what_to_do_first(review: Review, command: tuple[str, ...]) -> None:
    assert "review child add" in review(*command).err
    review("child", "add", "Mira", "--age", "7", "--on", "2027-01-20")
    assert "review set list" in review(*command, *ON).out
