"""SIGKILL while the book is written: at random moments, and at every call that changes a file.

    python -m tests.faults.kills [KILLS]        (default 10,000, then every call of every scene)

A kill is set off by progress: a writer tells each answer that was stored, and is killed so many answers and
so many millionths of a second later; or, under the watcher, at its n-th call, whole or half done, for all n.
"""

import ctypes
import json
import os
import random
import subprocess
import sys
import time
from collections.abc import Callable, Iterable
from itertools import count
from pathlib import Path
from typing import NamedTuple

from review.book import heads, proofs
from review.book.store import Book
from tests.book.conftest import Place, new_place
from tests.book.processes import Tell, start
from tests.book.tiny import TINY, answer, fold
from tests.faults import disk
from tests.faults.playbook import EVERY, PLANTED, SCENES
from tests.faults.power import COMPILER, TOP, build, scratch
from tests.faults.scenes import Scene

AFTER = 3  # answers at most, before a kill
A_COMMIT_S = 0.008  # twice what one takes here on a quiet disk
A_BOOK = 100  # kills; then a fresh one, so that proving it stays cheap
MOST = 10_000  # calls of a scene: far over the longest


class Killed(NamedTuple):
    """What came of the kills."""

    kills: int
    told: int  # answers that were acknowledged
    more: int  # that were stored besides, not yet acknowledged
    broken: tuple[str, ...]  # in words; (): every promise was kept


# --- at random moments ----------------------------------------------------------------------------------


def record(book: Book, place: Place, number: int) -> None:
    book.record([answer(place.child, f"product:{number}x{number % 9}", number)], TINY)


def writer(place: Place, first: int, early: bool) -> Callable[[Tell], None]:
    """Record answers numbered from `first`, and tell each number once it is stored - or, to see that the
    check can fail, before."""

    def work(tell: Tell) -> None:
        with place.open() as book:
            for number in count(first):
                if early:
                    tell(str(number))
                record(book, place, number)
                if not early:
                    tell(str(number))

    return work


def at_random(kills: int, seed: int = 6, early: bool = False) -> Killed:
    chance, total = random.Random(seed), Killed(0, 0, 0, ())
    with scratch() as folder:
        for begun in range(0, kills, A_BOOK):
            home = folder / str(begun)
            home.mkdir()
            found = in_one_book(new_place(home), min(A_BOOK, kills - begun), chance, early)
            total = Killed(*(one + other for one, other in zip(total, found, strict=True)))  # type: ignore[operator]
    return total


def in_one_book(place: Place, kills: int, chance: random.Random, early: bool) -> Killed:
    told, more, broken, known = 0, 0, [], set[int]()
    for kill in range(kills):
        heard, found = one_kill(place, kill * 1000, chance, early)
        told += len(heard)
        more += len(found - known - heard)
        broken += wrong_after(place, known | heard, found)
        known = found
    with place.open() as book:
        broken += book.verify(TINY)
        devices = {row.device for row in book.events()}
        if len(devices) > 1 or book.remembered(place.child).cards != fold(book.events(place.child)):
            broken.append(f"{len(devices)} devices wrote, or memory is not what the log says")
    return Killed(kills, told, more, tuple(broken))


def one_kill(place: Place, first: int, chance: random.Random, early: bool) -> tuple[set[int], set[int]]:
    """(the numbers that were told, all that the book then holds)."""
    child = start(writer(place, first, early))
    heard = child.hear(chance.randint(0, AFTER))
    time.sleep(chance.uniform(0.0, A_COMMIT_S))
    child.kill()
    told = {int(line) for line in [*heard, *child.read()]}
    assert child.end() == -9
    with place.open() as book:  # the next start, with no help
        return told, {int(str(row.body["asked"]).partition("x")[0]) for row in book.answers(place.child)}


def wrong_after(place: Place, wanted: set[int], found: set[int]) -> list[str]:
    lost, more = wanted - found, found - wanted
    return [
        *([f"lost: {sorted(lost)}"] if lost else []),
        *([f"more than one that was not acknowledged: {sorted(more)}"] if len(more) > 1 else []),
        *wrong_head(place),
    ]


def wrong_head(place: Place) -> list[str]:
    """The head file is whole, and not ahead of the book; `heads.read` would forgive half a one."""
    path = heads.head_path(place.path)
    if not path.exists():
        return []
    try:
        json.loads(path.read_bytes())
    except ValueError:
        return ["the head file is half written"]
    with place.open(write=False) as book:
        ahead = proofs.lost_tails(book._db, heads.read(place.path, book.id))
    return [f"the head file is ahead: {ahead}"] if ahead else []


# --- at every call --------------------------------------------------------------------------------------


def at_every_call(names: Iterable[str], watcher: Path, step: int = 1) -> dict[str, Killed]:
    """Each scene, killed at every call (or every `step`-th), in a process that runs under the watcher."""
    with scratch() as folder:
        environment = {
            **os.environ,
            "LD_PRELOAD": str(watcher),
            "WATCH_FOLDER": str(folder / "disk"),
            "WATCH_RECORD": os.devnull,
            "PYTHONPATH": str(TOP),
            "PYTHONDONTWRITEBYTECODE": "1",
        }
        command = [sys.executable, "-m", "tests.faults.kills", "--watched", str(folder), str(step), *names]
        done = subprocess.run(command, env=environment, cwd=TOP, stdout=subprocess.PIPE, check=True)
    found = {}
    for line in done.stdout.splitlines():
        name, kills, told, broken = json.loads(line)
        found[name] = Killed(kills, told, 0, tuple(broken))
    return found


def watched(folder: Path, step: int, names: Iterable[str]) -> None:
    """Under the watcher: each scene, a line of JSON."""
    shim = ctypes.CDLL(None)
    for name in names:
        scene, place = EVERY[name], folder / "disk"
        place.mkdir()
        scene.prepare(place)
        before = disk.image_of(place)
        ended = [found for half in (0, 1) for found in until_it_ends(scene, place, before, shim, half, step)]
        broken = [what for _, what in ended if what]
        print(json.dumps([name, len(ended), sum(told for told, _ in ended), broken]), flush=True)
        clear(place)
        place.rmdir()


def until_it_ends(
    scene: Scene, place: Path, before: disk.Image, shim: ctypes.CDLL, half: int, step: int
) -> list[tuple[int, str]]:
    """For each call: (how much was promised when it was killed there, what was wrong then)."""
    ended: list[tuple[int, str]] = []
    for call in range(0, MOST, step):
        clear(place)
        disk.put(before, place, place)
        promised, killed = killed_at(scene, place, shim, call, half)
        if not killed:
            return ended
        ended.append((len(promised), what_is_wrong(scene, place, promised)))
    raise AssertionError("it never came to an end")


def clear(place: Path) -> None:
    for path in sorted(place.rglob("*"), reverse=True):
        path.rmdir() if path.is_dir() else path.unlink()


def killed_at(scene: Scene, place: Path, shim: ctypes.CDLL, call: int, half: int) -> tuple[list[str], bool]:
    """(what it had promised, whether it was killed before it came to its end)."""
    reading, writing = os.pipe()
    pid = os.fork()
    if pid == 0:
        code = 1
        try:
            os.dup2(writing, 1)
            shim.watch_kill(call, half)
            scene.work(place)
            code = 0
        finally:
            os._exit(code)
    os.close(writing)
    with os.fdopen(reading, "rb") as told:
        promised = told.read().decode("ascii").split()
    code = os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])
    assert code in (0, -9), f"it ended with {code}"
    return promised, code == -9


def what_is_wrong(scene: Scene, place: Path, promised: list[str]) -> str:
    try:
        scene.holds(place, promised)
    except Exception as error:  # whatever it is, a promise was not kept
        return f"{type(error).__name__}: {error}"
    return ""


# --- all of it ------------------------------------------------------------------------------------------


def main(kills: int) -> None:
    for early in (False, True):
        found = at_random(kills if not early else max(100, kills // 100), early=early)
        print(row("told too early, planted" if early else "at random", found))
    if COMPILER is None:
        return
    with scratch() as folder:
        for name, found in at_every_call([*SCENES, *PLANTED], build(folder)).items():
            print(row(f"every call of {name}", found))


def row(name: str, found: Killed) -> str:
    told = f"{name}: {found.kills:,} kills, {found.told:,} promises, {len(found.broken):,} broken"
    return "\n  ".join([told, *found.broken[:2]])


if __name__ == "__main__":
    if sys.argv[1:2] == ["--watched"]:
        watched(Path(sys.argv[2]), int(sys.argv[3]), sys.argv[4:])
    else:
        main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
