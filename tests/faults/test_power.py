"""A power cut at any moment: what was promised is there, and the book opens without help.

The whole of it, 250,000 disks: python -m tests.faults.power
"""

import os
import random
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.faults import disk, power
from tests.faults.book_scenes import OF_BOOKS
from tests.faults.disk import Disk, Step
from tests.faults.playbook import PLANTED, SCENES

MIXTURES = 18  # 20,000 disks in the scenes of answers
OF_BOOKS_MIXTURES = 2  # 600 different ones in those of whole books, where proving takes ten times as long

pytestmark = pytest.mark.skipif(
    (power.COMPILER is None or os.uname().sysname != "Linux") and not os.environ.get("CI"),
    reason="needs a C compiler on Linux",
)


@pytest.fixture(scope="module")
def watcher(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return power.build(tmp_path_factory.mktemp("watcher"))


@pytest.mark.parametrize("name", SCENES)
def test_after_every_cut_the_promises_hold(watcher: Path, name: str) -> None:
    found = power.play(name, watcher, OF_BOOKS_MIXTURES if name in OF_BOOKS else MIXTURES)
    assert found.broken == ()
    assert found.different > 5, "the scene did next to nothing"


@pytest.mark.parametrize("name", PLANTED)
def test_a_planted_fault_is_found(watcher: Path, name: str) -> None:
    assert power.play(name, watcher, mixtures=1, enough=1).broken


# --- the disk itself -----------------------------------------------------------------------------------


@pytest.fixture
def old() -> Disk:
    """A file that stood there, and one that is being written and is nowhere safe."""
    made = Disk({"/d/old": b"old"})
    for step in (Step("N", 7, 0, b"/d/new"), Step("W", 7, 0, b"new"), Step("N", 5, 0, b"/d/old")):
        made.do(step)
    return made


def test_what_was_not_synced_may_be_lost_and_may_be_there(old: Disk) -> None:
    assert old.dropped() == {"/d/old": b"old"}
    assert old.kept() == {"/d/old": b"old", "/d/new": b"new"}


def test_a_synced_file_without_its_name_is_lost(old: Disk) -> None:
    old.do(Step("S", 7, 0, b""))
    assert old.dropped() == {"/d/old": b"old"}
    old.do(Step("D", 1, 0, b"/d"))
    assert old.dropped() == {"/d/old": b"old", "/d/new": b"new"}


def test_a_name_without_its_bytes_is_an_empty_file(old: Disk) -> None:
    old.do(Step("D", 1, 0, b"/d"))
    assert old.dropped() == {"/d/old": b"old", "/d/new": b""}


def test_another_folder_makes_no_name_safe(old: Disk) -> None:
    old.do(Step("D", 1, 0, b"/e"))
    assert old.dropped() == {"/d/old": b"old"}


def test_a_rename_replaces_and_an_unlinked_file_comes_back(old: Disk) -> None:
    old.do(Step("R", 0, 0, b"/d/new\0/d/old"))
    assert old.kept() == {"/d/old": b"new"}
    assert old.dropped() == {"/d/old": b"old"}
    old.do(Step("U", 0, 0, b"/d/old"))
    assert old.kept() == {}
    assert old.dropped() == {"/d/old": b"old"}


def test_an_inode_used_again_is_another_file(old: Disk) -> None:
    for step in (Step("U", 0, 0, b"/d/new"), Step("N", 7, 0, b"/d/third"), Step("W", 7, 1, b"x")):
        old.do(step)
    assert old.kept() == {"/d/old": b"old", "/d/third": b"\0x"}


def test_mixtures_are_made_of_what_was_done() -> None:
    """Over many mixtures each single write is seen kept and not kept, and torn at a sector."""
    made = Disk({"/d/f": b"." * 2048})
    for step in (
        Step("N", 5, 0, b"/d/f"),
        Step("W", 5, 0, b"A" * 1024),
        Step("W", 5, 1024, b"B" * 1024),
    ):
        made.do(step)
    seen = {made.mixed(random.Random(seed))["/d/f"] for seed in range(200)}
    sectors = [{image[at : at + 512] for image in seen} for at in range(0, 2048, 512)]
    assert all(b"." * 512 in one and len(one) == 2 for one in sectors)
    assert any(image[:512] != image[512:1024] for image in seen), "no write was torn"


def test_the_record_reads_back(tmp_path: Path) -> None:
    whole = disk.HEAD.pack(b"W", 5, 7, 3) + b"abc" + disk.HEAD.pack(b"S", 5, 0, 0)
    found: Iterator[Step] = disk.steps(whole)
    assert list(found) == [Step("W", 5, 7, b"abc"), Step("S", 5, 0, b"")]
