"""What sittings at a terminal in tests have in common."""

from pathlib import Path

import pytest


@pytest.fixture
def rows(tmp_path: Path) -> Path:
    return tmp_path / "rows.jsonl"
