"""Where tests of a parent's own sets stand."""

from pathlib import Path

import pytest


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder one is in, beside the book."""
    place = tmp_path / "sets"
    place.mkdir()
    monkeypatch.chdir(place)
    return place
