"""What the demo prints can be pasted: each command names the demo's own book."""

import re
from pathlib import Path

import pytest

from review import demo
from tests.cli.conftest import Review


def test_every_command_it_shows_names_its_own_book(
    review: Review, tmp_path: Path, season: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(demo, "play", lambda folder, day: season)
    told = " ".join(review("demo", "--folder", str(tmp_path / "d"), "--on", "2026-11-25").out.split())
    books = re.findall(r"\breview (--book \S+)?", told)
    assert len(books) > 6
    assert set(books) == {f"--book {season}"}
