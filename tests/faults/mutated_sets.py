"""Skill sets with something amiss: taken, or refused in a sentence a mistake; never anything else.

python -m tests.faults.mutated_sets [FILES]       (default 100,000)

What is changed: the shipped sets, and for every kind a set of the examples of its keys, by bytes, by signs,
by whole values. What is taken is then used: its cards are made, and problems drawn of them.
"""

import random
import resource
import signal
import sys
import time
import tomllib
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from multiprocessing import get_context
from pathlib import Path
from types import FrameType
from typing import NamedTuple

from review import catalogue, config
from review.core import card_sets, skills
from review.core.model import SkillSet
from review.core.text import clean
from review.errors import ReviewError
from tests.faults import mutations
from tests.faults.mutations import Chance
from tests.faults.power import scratch

HANGS = 20  # seconds of one file after which it is taken to hang: a guard, no goal
LONGEST = 700  # characters of a mistake, which is told on one line
BATCH = 500

HEAD = {"id": "ours", "title": "Ours", "aim": "accuracy", "ages": [6, 9], "about": "For the lighthouse."}


class Fault(NamedTuple):
    number: int  # of the file, which can be made again by it
    how: str
    what: str


class Seen(NamedTuple):
    counts: Counter[tuple[str, str]]  # (what was done to it, what came of it)
    faults: tuple[Fault, ...]
    slowest: float  # seconds
    megabytes: float  # of the process, all files together


# --- files ----------------------------------------------------------------------------------------------


@cache
def originals() -> tuple[str, ...]:
    """Every shipped set, and one of the examples of each kind's keys."""
    folder = config.catalogue_folder()
    shipped = [(folder / f"{name}.toml").read_text(encoding="utf-8") for name in catalogue.names()]
    return (*shipped, *map(example, skills.KINDS))


def example(kind: str) -> str:
    options = skills.KINDS[kind].options
    own = "\n".join(f"{key} = {option.example}" for key, option in options.items() if option.example)
    head = "\n".join(f"{key} = {mutations.written(value)}" for key, value in HEAD.items())
    return f'[set]\n{head}\n\n[[skill]]\nid = "one"\ntitle = "One"\nkind = "{kind}"\n{own}\n'


def by_bytes(text: str, chance: Chance) -> tuple[str, bytes]:
    how = chance.choice([*mutations.BYTES])
    return how, mutations.BYTES[how](text.encode(), chance)


def by_signs(text: str, chance: Chance) -> tuple[str, bytes]:
    for _ in range(chance.choice((1, 1, 2, 5))):
        text = mutations.another_sign(text, chance)
    return "other signs", text.encode("utf-8", "surrogatepass")


def by_values(text: str, chance: Chance) -> tuple[str, bytes]:
    whole: object = tomllib.loads(text)
    for _ in range(chance.choice((1, 1, 2, 3))):
        whole = mutations.another_value(whole, chance)
    return "other values", as_toml(whole).encode("utf-8", "surrogatepass")


def by_own_values(text: str, chance: Chance) -> tuple[str, bytes]:
    """Within the keys of one skill only, which is where a kind's own rules stand."""
    whole = tomllib.loads(text)
    place = chance.randrange(len(whole["skill"]))
    changed = mutations.another_value(whole["skill"][place], chance)
    return "other values of a skill", as_toml({**whole, "skill": [changed]}).encode("utf-8", "surrogatepass")


def as_toml(whole: object) -> str:
    """Tables as tables where they are some; anything else as it comes."""
    if not isinstance(whole, dict):
        return mutations.written(whole)
    parts = []
    for key, value in whole.items():
        tables = value if isinstance(value, list) else [value]
        heading = "[[{}]]" if isinstance(value, list) else "[{}]"
        if tables and all(isinstance(table, dict) for table in tables):
            parts += [heading.format(mutations.key_of(str(key))) + "\n" + lines(table) for table in tables]
        else:
            parts.insert(0, f"{mutations.key_of(str(key))} = {mutations.written(value)}\n")
    return "\n".join(parts)


def lines(table: Mapping[str, object]) -> str:
    return "".join(f"{mutations.key_of(key)} = {mutations.written(value)}\n" for key, value in table.items())


WAYS: tuple[Callable[[str, Chance], tuple[str, bytes]], ...] = (by_bytes, by_signs, by_values, by_own_values)


def made(number: int) -> tuple[str, bytes]:
    """What was done to it, and the file. The same number, the same file."""
    chance = random.Random(number)
    return chance.choice(WAYS)(chance.choice(originals()), chance)


# --- what comes of them -----------------------------------------------------------------------------------


class Hung(BaseException):
    pass


def hung(number: int, frame: FrameType | None) -> None:
    raise Hung


@contextmanager
def no_longer_than(seconds: int) -> Iterator[None]:
    before = signal.signal(signal.SIGALRM, hung)
    signal.alarm(seconds)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


def outcome(path: Path) -> str:
    """ "taken", "refused", or what is wrong."""
    try:
        with no_longer_than(HANGS):
            found, mistakes = catalogue.check(path)
            told = catalogue.mistake_lines(mistakes)
            return (
                use(found) if found else next(filter(None, map(unfit, told)), "refused" if told else "silent")
            )
    except ReviewError as error:
        return unfit(str(error)) or "refused"
    except Hung:
        return "it hangs"
    except Exception as error:
        return f"{type(error).__name__}: {str(error)[:100]}"


def unfit(line: str) -> str:
    """What is wrong with a sentence; "" where nothing is."""
    if "\n" in line or any(clean(word) != word for word in line.split(" ")):
        return f"a sentence that is not clean: {line[:200]!r}"
    if len(line) > LONGEST:
        return f"a sentence of {len(line)} characters: {line[:200]}"
    return "" if line.endswith((".", "?")) else f"no sentence: {line[:200]}"


def use(found: SkillSet) -> str:
    """Some of its cards as a child would meet them: from the front, the end and between."""
    cards = card_sets.cards([found])
    chance = random.Random(len(cards))
    for card in {
        card.key: card for card in (*cards[:1], *cards[-1:], *chance.sample(cards, min(2, len(cards))))
    }:
        problem = skills.problem(card, skills.draw(card, chance))
        if not problem.prompt or clean(problem.prompt) != " ".join(problem.prompt.split()):
            return f"a prompt that is not clean: {problem.prompt[:100]!r}"
    return "taken" if cards else "taken without cards"


def played(numbers: Iterable[int]) -> Seen:
    counts: Counter[tuple[str, str]] = Counter()
    faults: list[Fault] = []
    slowest = 0.0
    with scratch() as folder:
        for number in numbers:
            how, data = made(number)
            (folder / "ours.toml").write_bytes(data)
            began = time.perf_counter()
            came = outcome(folder / "ours.toml")
            slowest = max(slowest, time.perf_counter() - began)
            sound = came in ("taken", "refused")
            counts[how, came if sound else "broken"] += 1
            faults += [] if sound else [Fault(number, how, came)]
    return Seen(counts, tuple(faults), slowest, most_room())


def most_room() -> float:
    scale = 1 if sys.platform == "darwin" else 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * scale / 1e6


def together(found: Iterable[Seen]) -> Seen:
    all_of = [*found]
    counts = sum((seen.counts for seen in all_of), Counter[tuple[str, str]]())
    faults = tuple(fault for seen in all_of for fault in seen.faults)
    return Seen(counts, faults, max(seen.slowest for seen in all_of), max(seen.megabytes for seen in all_of))


def main() -> None:
    files = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    batches = [range(at, min(files, at + BATCH)) for at in range(0, files, BATCH)]
    with get_context("spawn").Pool(2, maxtasksperchild=40) as pool:
        seen = together(pool.imap_unordered(played, batches))
    for (how, came), count in sorted(seen.counts.items()):
        print(f"{how}: {came}: {count:,}")
    for fault in seen.faults[:40]:
        print(f"  file {fault.number}, {fault.how}: {fault.what}")
    print(
        f"{files:,} files, {len(seen.faults)} faults; slowest {seen.slowest:.2f} s; {seen.megabytes:.0f} MB"
    )
    sys.exit(1 if seen.faults else 0)


if __name__ == "__main__":
    main()
