"""Files: one clear sentence for what cannot be read, and nothing half written."""

import fcntl
import os
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from review import files
from review.errors import Mendable
from tests.book.processes import Tell, as_anyone

UNREADABLE: dict[str, tuple[Callable[[Path], object], str]] = {
    "missing": (lambda path: None, "There is no file"),
    "folder": (lambda path: path.mkdir(), "is a folder"),
    "not text": (lambda path: path.write_bytes(b"one\ntwo \xff\n"), r"not UTF-8 text \(line 2\)"),
    "too large": (lambda path: path.write_bytes(b"x" * 1_000_001), "larger than 1,000,000 bytes"),
    "below a file": (lambda path: path.write_text("x"), "cannot be read"),
}


@pytest.mark.parametrize("case", UNREADABLE)
def test_one_sentence_says_what_is_wrong(tmp_path: Path, case: str) -> None:
    make, words = UNREADABLE[case]
    path = tmp_path / "set.toml"
    make(path)
    asked = path / "inside" if case == "below a file" else path
    with pytest.raises(Mendable, match=words) as caught:
        files.read_text(asked)
    assert str(asked) in str(caught.value)
    assert str(caught.value).count("\n") == 0


def test_a_file_of_somebody_else(tmp_path: Path) -> None:
    path = tmp_path / "secret"
    path.write_text("x")
    path.chmod(0)

    def work(tell: Tell) -> None:
        try:
            files.read_text(path)
        except Mendable as error:
            tell(str("cannot be read (permission denied)" in str(error)))

    assert as_anyone(work) == ["True"]


def test_text_is_read_as_it_is_but_for_a_byte_order_mark(tmp_path: Path) -> None:
    path = tmp_path / "set.toml"
    path.write_bytes("\ufeff× ÷\r\n".encode())
    assert files.read_text(path) == "× ÷\r\n"
    assert files.read_text(path, cap=len(path.read_bytes())) == "× ÷\r\n"
    with pytest.raises(Mendable):
        files.read_text(path, cap=len(path.read_bytes()) - 1)


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be"])
def test_text_in_utf_16_that_says_so_is_read(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "set.toml"
    mark = "" if encoding == "utf-16" else "\ufeff"
    path.write_bytes(f"{mark}× ÷ 🦭\r\n".encode(encoding))
    assert files.read_text(path) == "× ÷ 🦭\r\n"
    path.write_bytes(path.read_bytes()[:-1])
    with pytest.raises(Mendable, match="save it as UTF-8"):
        files.read_text(path)


def test_a_file_is_replaced_whole_and_private(tmp_path: Path) -> None:
    path = tmp_path / "head"
    path.write_text("old")
    files.write_whole(path, b"new")
    assert path.read_bytes() == b"new"
    assert path.stat().st_mode & 0o777 == 0o600
    assert list(tmp_path.iterdir()) == [path]


def test_a_replacement_that_fails_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "head"
    path.write_text("old")

    def fail(descriptor: int) -> None:
        raise OSError("no")

    monkeypatch.setattr(files, "flush", fail)
    with pytest.raises(OSError, match="no"):
        files.write_whole(path, b"new")
    assert path.read_text() == "old"
    assert list(tmp_path.iterdir()) == [path]


def test_what_a_killed_program_left_is_no_hindrance(tmp_path: Path) -> None:
    path = tmp_path / "head"
    (tmp_path / ".head.new").write_text("half")
    files.write_whole(path, b"new")
    assert [each.name for each in tmp_path.iterdir()] == ["head"]


def test_the_file_is_on_the_disk_before_it_has_its_name_and_the_folder_after(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, steps = tmp_path / "head", []
    monkeypatch.setattr(os, "fsync", lambda descriptor: steps.append(("flushed", path.exists())))
    files.write_whole(path, b"new")
    assert steps == [("flushed", False), ("flushed", True)]


@pytest.mark.parametrize("links", [True, False], ids=["links", "no links"])
def test_a_taken_name_is_never_published_over(
    tmp_path: Path, links: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(source: Path, target: Path) -> None:
        raise PermissionError("this file system has no links")

    if not links:
        monkeypatch.setattr(os, "link", refuse)
    temporary, path = tmp_path / "temporary", tmp_path / "book"
    temporary.write_text("one")
    files.publish(temporary, path)
    assert [each.name for each in tmp_path.iterdir()] == ["book"]
    temporary.write_text("two")
    with pytest.raises(FileExistsError):
        files.publish(temporary, path)
    assert path.read_text() == "one"


def test_folders_are_made_private_and_standing_ones_left(tmp_path: Path) -> None:
    tmp_path.chmod(0o755)
    files.private_folder(tmp_path / "a" / "b")
    assert [(tmp_path / each).stat().st_mode & 0o777 for each in ("", "a", "a/b")] == [0o755, 0o700, 0o700]
    (tmp_path / "file").touch()
    with pytest.raises(NotADirectoryError):
        files.private_folder(tmp_path / "file" / "c")


def test_a_new_private_file_is_new(tmp_path: Path) -> None:
    files.new_private_file(tmp_path / "one")
    assert (tmp_path / "one").stat().st_mode & 0o777 == 0o600
    with pytest.raises(FileExistsError):
        files.new_private_file(tmp_path / "one")


def test_a_dangling_link_is_not_written_through(tmp_path: Path) -> None:
    (tmp_path / "link").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(OSError, match=r".*"):
        files.new_private_file(tmp_path / "link")
    assert not os.path.lexists(tmp_path / "elsewhere")


# --- what other systems do ------------------------------------------------------------------------------


def refusing(times: int, work: Callable[..., None]) -> Callable[..., None]:
    """What is refused as long as another program holds the file (Windows)."""
    left = iter(range(times))

    def once_free(*paths: Path) -> None:
        if next(left, None) is not None:
            raise PermissionError(13, "Access is denied")
        work(*paths)

    return once_free


@pytest.mark.parametrize("replace", [True, False])
def test_a_file_that_is_held_for_a_moment_is_waited_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, replace: bool
) -> None:
    monkeypatch.setattr(files, "LETS_GO_S", 60.0)
    monkeypatch.setattr(os, "replace", refusing(3, os.replace))
    path = tmp_path / "head"
    path.write_text("old")
    if replace:
        files.write_lines(path, [b"new"], replace=True)
    else:
        files.write_whole(path, b"new")
    assert path.read_bytes() == b"new"
    assert list(tmp_path.iterdir()) == [path]


def test_a_file_that_is_held_longer_is_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files, "LETS_GO_S", 0.03)
    monkeypatch.setattr(os, "replace", refusing(1_000_000, os.replace))
    path = tmp_path / "head"
    path.write_text("old")
    with pytest.raises(PermissionError):
        files.write_whole(path, b"new")
    assert path.read_text() == "old"
    assert list(tmp_path.iterdir()) == [path]


def test_elsewhere_nothing_is_waited_for() -> None:
    assert files.LETS_GO_S == 0


def test_what_is_published_stands_though_its_first_name_is_held(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    temporary, path = tmp_path / "temporary", tmp_path / "book"
    temporary.write_text("one")

    def held(path: Path) -> None:
        raise PermissionError(13, "Access is denied") if path.exists() else FileNotFoundError(2, "None")

    monkeypatch.setattr(os, "unlink", held)
    files.publish(temporary, path)
    assert path.read_text() == "one"
    files.write_lines(tmp_path / "lines", [b"two"])
    assert (tmp_path / "lines").read_text() == "two"


TAKEN = (
    "con", "NUL", "nul.html", "Aux.tar.gz", "com1.txt", "LPT9", "COM³.pdf", "prn .txt", "conout$",
    "a:b.html", "what?.html", "a*b", "a|b", 'a"b', "<a>", "a\\b", "end.", "end ", "mira\tweek",
)  # fmt: skip
FREE = (
    "console.html",
    "nulls.txt",
    "com10.txt",
    "mira week.html",
    "Zoë.pdf",
    ".hidden",
    "a.con",
    "100%.html",
)
"""Names that Windows keeps, and takes (learn.microsoft.com, "Naming Files, Paths, and Namespaces")."""


@pytest.mark.parametrize("name", TAKEN)
def test_names_that_windows_keeps_are_refused_there_and_nothing_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    files.write_whole(tmp_path / name, b"x")
    (tmp_path / name).unlink()
    monkeypatch.setattr(files, "WINDOWS", True)
    for write in (
        lambda path: files.write_whole(path, b"x"),
        lambda path: files.write_lines(path, [b"x"]),
        files.new_private_file,
    ):
        with pytest.raises(Mendable, match="choose another name") as caught:
            write(tmp_path / name)
        assert name in str(caught.value)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", FREE)
def test_names_that_windows_takes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    monkeypatch.setattr(files, "WINDOWS", True)
    files.write_whole(tmp_path / name, b"x")
    assert (tmp_path / name).read_bytes() == b"x"


def test_on_macos_the_drive_itself_is_told_to_write(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """`fsync` leaves it to the drive when; F_FULLFSYNC does not (fsync(2) of macOS). Where a file system does
    not know it, `fsync` is what there is."""
    told: list[object] = []

    def full(descriptor: int, command: int) -> None:
        told.append(command)
        if len(told) > 1:
            raise OSError(45, "Operation not supported")

    monkeypatch.setattr(sys, "platform", "darwin")
    monkeypatch.setattr(fcntl, "F_FULLFSYNC", 51, raising=False)
    monkeypatch.setattr(fcntl, "fcntl", full)
    monkeypatch.setattr(os, "fsync", lambda descriptor: told.append("fsync"))
    with (tmp_path / "one").open("wb") as file:
        files.flush(file.fileno())
        assert told == [51]
        files.flush(file.fileno())
        assert told == [51, 51, "fsync"]
