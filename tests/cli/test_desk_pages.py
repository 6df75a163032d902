"""The pages a parent prints keep the rules that a validator and a screen reader ask of them."""

from datetime import date
from pathlib import Path

import pytest

from review.app import demo
from review.core import days
from tests.cli.conftest import Review
from tests.render.page_rules import faults
from tests.render.reading import named, read, text


@pytest.fixture(scope="module")
def demo_book(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The book of `review demo`, for reading only."""
    last_day = days.day_of(date(2026, 11, 25))
    return str(demo.play(tmp_path_factory.mktemp("demo"), last_day))


def test_every_page_of_the_desk_keeps_them(review: Review, demo_book: str, tmp_path: Path) -> None:
    for words in (("progress", "--html"), ("log", "--out")):
        page = tmp_path / f"{words[0]}.html"
        done = review("--book", demo_book, *words, str(page), "--on", "2026-11-25")
        assert done.code == 0, done.err
        assert faults(read(page.read_text(encoding="utf-8"))) == []


def test_nothing_is_drawn_of_the_time_before_a_child_began(review: Review, tmp_path: Path) -> None:
    """A child of two days: a week before the first card at most, and no name over another."""
    for words in (
        ("child", "add", "Mira", "--age", "7"),
        ("set", "add", "number-bonds-10", "Mira", "--taught"),
    ):
        assert review(*words, "--on", "2026-11-23").code == 0
    for day in ("2026-11-23", "2026-11-24"):
        lines = '{"answer": "1", "seconds": 3}\n' * 20
        assert review("warmup", "Mira", "--jsonl", "--on", day, typed=lines).code == 0
    page = tmp_path / "mira.html"
    assert review("progress", "--html", str(page), "--on", "2026-11-25").code == 0
    root = read(page.read_text(encoding="utf-8"))
    assert faults(root) == []
    assert [text(one) for one in named(root, "h1")] == ["Progress: Mira"]
    assert [text(one) for one in named(root, "h2")] == [], "the name of an only child stands once"
    assert "a page of then may say otherwise" in text(root), "with other habits, another number held"
    captions = [text(one) for one in named(root, "figcaption")]
    assert "Cards met and holding, week by week" in captions
    rows = [text(one) for one in named(named(root, "figure")[0], "tr")][1:]
    assert len(rows) == 2
    places = {
        text(one): float(str(one.get("y")))
        for one in named(root, "figure")[0].iter()
        if str(one.tag).endswith("}text")
    }
    assert abs(places["holding"] - places["25 Nov"]) > 12
    assert "Number bonds to 10" in [text(one) for one in named(root, "caption")]


def test_the_axes_of_what_was_promised_are_named(review: Review, demo_book: str, tmp_path: Path) -> None:
    page = tmp_path / "fenn.html"
    words = ("--book", demo_book, "progress", "Fenn", "--html", str(page))
    assert review(*words, "--on", "2026-11-25").code == 0
    last = named(read(page.read_text(encoding="utf-8")), "figure")[-1]
    assert {"promised", "came"} <= {text(one) for one in last.iter() if str(one.tag).endswith("}text")}


def test_a_child_who_answers_aloud_has_no_usual_times_and_what_is_new_says_of_when(
    review: Review, tmp_path: Path
) -> None:
    """A page over twelve weeks told as known for the first time what was of its last seven days alone."""
    for words in (
        ("child", "add", "Mira", "--age", "7"),
        ("set", "add", "number-bonds-10", "Mira", "--taught"),
    ):
        assert review(*words, "--on", "2026-11-02").code == 0
    for day in ("2026-11-16", "2026-11-17"):
        assert review("warmup", "Mira", "--aloud", "--on", day, typed="m\n" * 40).code == 0
    page = tmp_path / "mira.html"
    assert review("progress", "--html", str(page), "--on", "2026-11-18").code == 0
    for told in (review("progress", "--on", "2026-11-18").out, text(read(page.read_text(encoding="utf-8")))):
        assert "usual" not in told.lower()
        assert "without the time" not in told
        assert "in the last 7 days: " in " ".join(told.split())
