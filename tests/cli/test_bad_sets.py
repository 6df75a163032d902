"""A set that cannot be used, and what a file of one may be: all of it told, each time in a sentence."""

from pathlib import Path

import pytest

from review import catalogue, config
from tests.cli.conftest import Review, sentence


def test_ten_mistakes_in_one_set_are_all_told(review: Review, tmp_path: Path) -> None:
    path = tmp_path / "ten.toml"
    path.write_text(
        """[set]
id = "My Set"
title = 7
about = "Ten mistakes"
aim = "fluent"
ages = [9, 6]
colour = "red"

[[skill]]
id = "a"
title = "A"
kind = "prodct"

[[skill]]
id = "b"
title = "B"
kind = "product"
tables = []
times = [9, 2]

[[skill]]
id = "b"
title = "B again"
kind = "sum"
adends = [1, 2]

[[skill]]
title = "No id"
kind = "roman"
form = "greek"
"""
    )
    done = review("set", "check", str(path))
    assert done.code == 1
    lines = [line for line in done.err.splitlines() if line.startswith("ten.toml:")]
    assert len(lines) >= 10, done.err
    told = [int(line.split(":")[1].split()[0]) for line in lines]
    assert told == [2, 3, 5, 6, 7, 12, 18, 19, 22, 25, 27, 27, 30]
    assert "product" in done.err


UNSOUND = """[set]
id = "ours"
title = ""
aim = "accuracy"
ages = [7, 9]

[[skill]]
id = "a"
title = "A"
kind = "convert"
from = "m"
to = "kg"
range = [1, 20]
after = ["halvs-of-20", "doubles-to-20"]

[[skill]]
id = "b"
title = "B"
kind = "pairs"
pairs = [["What now?", "pass"], ["dup", "1"], ["x"], ["dup", "2"]]
after = ["a", "b", "c"]

[[skill]]
id = "c"
title = "C"
kind = "sum\u202e"
after = ["b"]
"""


def test_mistakes_of_meaning_are_told_beside_all_others(review: Review, tmp_path: Path) -> None:
    path = tmp_path / "ours.toml"
    path.write_text(UNSOUND, encoding="utf-8")
    known = sorted(catalogue.skill_ids())
    path.write_text(UNSOUND.replace("doubles-to-20", known[0]).replace("halvs-of-20", f"{known[1]}x"))
    done = review("set", "check", str(path))
    sentence(done, 1, f"“{known[1]}x”", "Did you mean", "an invisible character in “sum”")
    told = [line.split(": ")[0] for line in done.err.splitlines()[1:]]
    assert told == [
        "ours.toml:3 set.title",
        "ours.toml:12 skill[1].to",
        "ours.toml:14 skill[1].after[1]",
        "ours.toml:20 skill[2].pairs[1]",
        "ours.toml:20 skill[2].pairs[3]",
        "ours.toml:20 skill[2].pairs[4]",
        "ours.toml:21 skill[2].after",
        "ours.toml:26 skill[3].kind",
        "ours.toml:27 skill[3].after",
    ]


def test_a_file_is_meant_by_its_name_or_because_it_is_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("ours.txt", "roman-early"):
        Path(name).write_text(UNSOUND, encoding="utf-8")
    meant = ["gone.toml", "ours.txt", str(tmp_path / "ours.txt"), str(tmp_path / "roman-early")]
    assert [name for name in meant if catalogue.is_file(name)] == meant
    for name in ("roman-early", "gone.txt", "", ".", "\0", "x" * 5000):
        assert not catalogue.is_file(name)


def test_a_file_needs_no_ending(family: Review, tmp_path: Path) -> None:
    path = tmp_path / "ours.txt"
    head = UNSOUND.partition("[[skill]]")[0].replace('""', '"Ours"')
    path.write_text(f'{head}[[skill]]\nid = "z"\ntitle = "Z"\nkind = "double"\nnumbers = [1, 9]\n')
    assert "Ours" in family("set", "show", str(path)).out
    assert family("set", "add", str(path), "Mira", "--on", "2026-01-05").code == 0
    sentence(family("set", "add", "nothing.txt", "Mira"), 1, "no skill set called “nothing.txt”")


def test_a_set_of_the_catalogue_that_someone_broke(
    review: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(config, "catalogue_folder", lambda: tmp_path)
    (tmp_path / "broken-set.toml").write_text(UNSOUND, encoding="utf-8")
    sentence(review("set", "show", "broken-set"), 1, "broken-set.toml:26", "invisible")


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", b"", b"[set", b"[set]\nid = 1" * 3])
def test_a_file_that_is_no_skill_set(review: Review, tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "odd.toml"
    path.write_bytes(content)
    sentence(review("set", "check", str(path)), 1, "odd.toml")


def test_a_file_that_is_not_there(review: Review, tmp_path: Path) -> None:
    sentence(review("set", "check", str(tmp_path / "gone.toml")), 1, "gone.toml")
    sentence(review("set", "check", str(tmp_path)), 1, "folder")
