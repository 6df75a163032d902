"""What the demo prints can be pasted: each command names the demo's own book."""

import re
from pathlib import Path

import pytest

from review.app import demo
from tests.cli.conftest import Review, sentence


def test_every_command_it_shows_names_its_own_book(
    review: Review, tmp_path: Path, season: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(season.parent)  # no line is broken within a short name
    monkeypatch.setattr(demo, "play", lambda folder, day: Path(season.name))
    told = " ".join(review("demo", "--folder", str(tmp_path / "d"), "--on", "2026-11-25").out.split())
    books = re.findall(r"\breview (--book \S+)?", told)
    assert len(books) > 6
    assert set(books) == {f"--book {season.name}"}


@pytest.mark.parametrize("there", [None, (), ("family.book",), ("state/notes.txt",)])
def test_a_folder_is_to_be_deleted_only_where_all_in_it_is_the_demos(
    review: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, there: tuple[str, ...] | None
) -> None:
    """With `--folder .` it told a family to delete the folder their own book stood in."""
    play = demo.play
    monkeypatch.setattr(demo, "play", lambda folder, day: play(folder, day, days=2))  # else 90
    folder = tmp_path / "there"
    for name in there or ():
        (folder / name).parent.mkdir(parents=True)
        (folder / name).write_text("dear to us", encoding="utf-8")
    if there == ():
        folder.mkdir()
    done = review("demo", "--folder", str(folder), "--on", "2026-11-25")
    last = "".join(done.out.split()).partition("Whenyouhaveseenenough,")[2]  # a long path is broken anywhere
    assert done.code == 0
    what = "what begins with demo.book in" if there else "the folder"
    assert last == f"delete {what} {folder}".replace(" ", "")
    assert {*(one.name for one in folder.iterdir())} >= {"demo.book", "state"}


@pytest.mark.parametrize("words", [("demo", "--book", "ours.book"), ("--book", "ours.book", "demo")])
def test_a_book_that_is_named_is_refused_and_none_is_made(
    review: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    """It was taken and nothing said, so that a family might look for the season there."""
    monkeypatch.chdir(tmp_path)
    done = review(*words, "--folder", "there")
    sentence(done, 2, "leave --book out", "--folder DIR")
    assert not [*tmp_path.iterdir()]
