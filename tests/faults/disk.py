"""A disk as a power cut may leave it, rebuilt from what a program did to its files.

What was synced is there. Of what was not, a real disk may hold anything: nothing of it, all of it, some
writes and not others, half of one. A name (made, moved, taken away) is safe once its folder was synced; names
that were not come as a beginning of what was done to them, as in a file system that keeps a journal of names.
Syncing a file does not make its name safe (POSIX promises no more).
"""

import random
import struct
from collections.abc import Iterator
from hashlib import sha256
from itertools import count
from pathlib import Path
from typing import NamedTuple

HEAD = struct.Struct("<cQQQ")
SECTOR = 512  # bytes that a disk writes whole or not at all (common practice; newer disks write 4,096)

Image = dict[str, bytes]  # path -> what the file holds


class Step(NamedTuple):
    """One thing that was done; the letters stand in watch.c."""

    letter: str
    inode: int
    at: int
    data: bytes


def steps(record: bytes) -> Iterator[Step]:
    place = 0
    while place < len(record):
        letter, inode, at, length = HEAD.unpack_from(record, place)
        place += HEAD.size
        yield Step(letter.decode("ascii"), inode, at, record[place : place + length])
        place += length


class Disk:
    """What is safe, and what is on its way. A file is known by a number of its own: inodes are used again."""

    def __init__(self, image: Image) -> None:
        """A disk that holds these files, all of it safe."""
        self._numbers = count()
        self._names = {path: next(self._numbers) for path in image}  # as the program sees them
        self._safe_names = dict(self._names)
        self._safe = {self._names[path]: data for path, data in image.items()}
        self._waiting: dict[int, list[Step]] = {number: [] for number in self._safe}
        self._names_waiting: list[dict[str, int]] = []  # the names after each change that is not safe
        self._folders: list[str] = []  # in which folder each of these changes was
        self._inodes: dict[int, int] = {}  # inode -> number, as of now

    def do(self, step: Step) -> None:
        if step.letter == "N":
            self._name(step.inode, step.data.decode())
        elif step.letter in "WT" and step.inode in self._inodes:
            self._waiting[self._inodes[step.inode]].append(step)
        elif step.letter == "S" and step.inode in self._inodes:
            number = self._inodes[step.inode]
            self._safe[number] = carried_out(self._safe[number], self._waiting[number])
            self._waiting[number] = []
        elif step.letter == "D":
            self._sync_names(step.data.decode())
        elif step.letter == "R":
            old, new = step.data.decode().split("\0")
            self._rename({new: self._names[old]} if old in self._names else {}, [old], new)
        elif step.letter == "U":
            self._rename({}, [step.data.decode()], step.data.decode())

    def _name(self, inode: int, path: str) -> None:
        """A file was opened to be written, or was given another name."""
        number = self._inodes.get(inode)
        if path in self._names:
            self._inodes[inode] = self._names[path]
        elif number is not None and number in self._names.values():  # a second name
            self._rename({path: number}, [], path)
        else:
            self._inodes[inode] = number = next(self._numbers)
            self._safe[number], self._waiting[number] = b"", []
            self._rename({path: number}, [], path)

    def _rename(self, more: dict[str, int], less: list[str], where: str) -> None:
        self._names = {path: n for path, n in self._names.items() if path not in less} | more
        self._names_waiting.append(self._names)
        self._folders.append(str(Path(where).parent))

    def _sync_names(self, folder: str) -> None:
        """Every change up to the last one in that folder is safe: they are kept in order."""
        last = max((n for n, one in enumerate(self._folders) if one == folder), default=-1)
        if last >= 0:
            self._safe_names = self._names_waiting[last]
            del self._names_waiting[: last + 1], self._folders[: last + 1]

    # --- what a power cut may leave ---

    def dropped(self) -> Image:
        """Nothing that was not safe."""
        return {path: self._safe[number] for path, number in self._safe_names.items()}

    def kept(self) -> Image:
        """All of it."""
        return {
            path: carried_out(self._safe[number], self._waiting[number])
            for path, number in self._names.items()
        }

    def mixed(self, chance: random.Random) -> Image:
        """Some names, some writes, one of them torn."""
        names = chance.choice([self._safe_names, *self._names_waiting])
        return {
            path: carried_out(self._safe[number], some(self._waiting[number], chance))
            for path, number in names.items()
        }


def some(waiting: list[Step], chance: random.Random) -> list[Step]:
    """Some of the writes, in another order, the last of them perhaps in part."""
    keep = chance.choice([0.1, 0.5, 0.9])
    found = [step for step in waiting if chance.random() < keep]
    if chance.random() < 0.5:
        chance.shuffle(found)
    if found and found[-1].letter == "W" and chance.random() < 0.5:
        torn = found[-1]
        sectors = len(torn.data) // SECTOR
        found[-1] = torn._replace(data=torn.data[: SECTOR * chance.randint(0, sectors)])
    return found


def carried_out(data: bytes, done: list[Step]) -> bytes:
    if not done:
        return data
    found = bytearray(data)
    for step in done:
        if step.letter == "T":
            found[:] = found[: step.at].ljust(step.at, b"\0")
        else:
            found.extend(bytes(max(0, step.at - len(found))))
            found[step.at : step.at + len(step.data)] = step.data
    return bytes(found)


class Cut(NamedTuple):
    """A disk after a power cut, and what had been promised by then."""

    image: Image
    promised: str


def cuts(record: bytes, before: Image, chance: random.Random, mixtures: int) -> Iterator[Cut]:
    """A power cut after each step: nothing kept, all kept, and so many mixtures."""
    disk, promised = Disk(before), ""
    for step in steps(record):
        if step.letter == "O":
            promised += step.data.decode("ascii")
        disk.do(step)
        yield Cut(disk.dropped(), promised)
        yield Cut(disk.kept(), promised)
        for _ in range(mixtures):
            yield Cut(disk.mixed(chance), promised)


def print_of(cut: Cut) -> bytes:
    """Equal for equal disks and promises."""
    whole = sha256(cut.promised.encode())
    for path, data in sorted(cut.image.items()):
        whole.update(sha256(path.encode()).digest() + sha256(data).digest())
    return whole.digest()


def image_of(folder: Path) -> Image:
    return {str(path): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def put(image: Image, folder: Path, place: Path) -> None:
    """The image's files, from below one folder to below another."""
    for path, data in image.items():
        target = place / Path(path).relative_to(folder)
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
