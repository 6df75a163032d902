"""The pages a parent prints keep the rules that a validator and a screen reader ask of them."""

from pathlib import Path

import pytest

from tests.cli.conftest import Review
from tests.render.page_rules import faults
from tests.render.reading import read


@pytest.fixture
def season(review: Review, tmp_path: Path) -> Review:
    assert review("demo", "--folder", str(tmp_path / "d"), "--on", "2026-11-25").code == 0
    return review


def test_every_page_of_the_desk_keeps_them(season: Review, tmp_path: Path) -> None:
    book = str(tmp_path / "d" / "demo.book")
    for words in (("progress", "--html"), ("log", "--out")):
        page = tmp_path / f"{words[0]}.html"
        done = season("--book", book, *words, str(page), "--on", "2026-11-25")
        assert done.code == 0, done.err
        assert faults(read(page.read_text(encoding="utf-8"))) == []
