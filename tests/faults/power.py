"""Power cuts: a scene is run once, watched, and every disk it may leave behind is opened.

python -m tests.faults.power [MIXTURES [SCENE ...]]        (default 300, and every scene)
"""

import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import islice
from pathlib import Path
from typing import NamedTuple

from tests.faults import disk
from tests.faults.playbook import EVERY, PLANTED, SCENES
from tests.faults.scenes import Scene

TOP = Path(__file__).parents[2]
COMPILER = shutil.which("cc") or shutil.which("gcc") or shutil.which("clang")
MEMORY = Path("/dev/shm")  # where a file system in memory is, opening a disk costs no real sync


class Found(NamedTuple):
    """What came of a scene's power cuts."""

    disks: int
    different: int
    broken: tuple[str, ...]  # in words; (): every promise was kept


def build(folder: Path) -> Path:
    """The watcher, built with the system's compiler."""
    target = folder / "watch.so"
    assert COMPILER, "a C compiler is needed: install one"
    source = Path(__file__).with_name("watch.c")
    subprocess.run([COMPILER, "-shared", "-fPIC", "-O1", "-o", target, source, "-ldl"], check=True)
    return target


@contextmanager
def scratch() -> Iterator[Path]:
    found = Path(tempfile.mkdtemp(dir=MEMORY if MEMORY.is_dir() and os.access(MEMORY, os.W_OK) else None))
    try:
        yield found
    finally:
        shutil.rmtree(found, ignore_errors=True)


def record_of(name: str, folder: Path, watcher: Path, record: Path) -> bytes:
    environment = {
        **os.environ,
        "LD_PRELOAD": str(watcher),
        "WATCH_FOLDER": str(folder),
        "WATCH_RECORD": str(record),
        "PYTHONPATH": str(TOP),
        "PYTHONDONTWRITEBYTECODE": "1",
    }
    command = [sys.executable, "-m", "tests.faults.playbook", name, str(folder)]
    subprocess.run(command, env=environment, check=True, stdout=subprocess.DEVNULL, cwd=TOP)
    return record.read_bytes()


def play(name: str, watcher: Path, mixtures: int, seed: int = 1, enough: int | None = None) -> Found:
    """Run a scene, cut the power after each of its steps, and open what is left, until enough is broken."""
    scene = EVERY[name]
    with scratch() as place:
        folder = place / "disk"
        folder.mkdir()
        scene.prepare(folder)
        before = disk.image_of(folder)
        record = record_of(name, folder, watcher, place / "record")
        cuts = list(disk.cuts(record, before, random.Random(seed), mixtures))
        different = {disk.print_of(cut): cut for cut in cuts}
        looked = (look(scene, cut, folder, place / "after") for cut in different.values())
        broken = tuple(islice(filter(None, looked), enough))
    return Found(len(cuts), len(different), broken)


def look(scene: Scene, cut: disk.Cut, folder: Path, after: Path) -> str:
    """What is wrong with that disk; "": nothing."""
    shutil.rmtree(after, ignore_errors=True)
    after.mkdir()
    disk.put(cut.image, folder, after)
    try:
        scene.holds(after, cut.promised.split())
    except Exception as error:  # whatever it is, a promise was not kept
        return f"{type(error).__name__}: {error}"
    return ""


def main() -> None:
    mixtures = int(sys.argv[1]) if len(sys.argv) > 1 else 300
    with scratch() as place:
        watcher = build(place)
        for name in sys.argv[2:] or (*SCENES, *PLANTED):
            found = play(name, watcher, mixtures)
            print(
                f"{name}: {found.disks:,} disks, {found.different:,} different, {len(found.broken):,} broken"
            )
            for what in found.broken[:3] if name in SCENES else ():
                print(f"  {what}")


if __name__ == "__main__":
    main()
