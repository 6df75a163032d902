"""Memory rebuilt on another processor: the same bits.

    python -m tests.faults.rebuild [ANSWERS]        (default 1,000,000)

The C library chooses its mathematical functions by what the processor can do, and they differ in the last
bits. Two processes fold the same log, one of them told that the processor can do less (a setting of glibc,
see its manual, "Hardware Capability Tunables").
"""

import hashlib
import json
import os
import random
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from review.core import marking, memory
from review.core.answer_bodies import answer_body
from review.core.model import Answer, Event, Mark

TOP = Path(__file__).parents[2]
OLDER = "glibc.cpu.hwcaps=-AVX2,-AVX2_Usable,-FMA,-FMA_Usable,-FMA4,-AVX512F"
FIRST_DAY, DAY_MS = 738_000, 86_400_000
A_DAY = 30  # answers
MARKS: tuple[Mark, ...] = (
    "right",
    "right",
    "right",
    "right",
    "right_slow",
    "right_helped",
    "not_yet",
    "shown",
)


def log(answers: int, cards: int = 400) -> Iterator[Event]:
    """A log as long as wished: answers to products, by chance, day after day."""
    chance = random.Random(5)
    for number in range(answers):
        day = FIRST_DAY + number // A_DAY
        card = chance.randrange(cards)
        key = f"product:{card // 20 + 2}x{card % 20 + 22}"
        yield Event(1, number + 1, "00", "answer", day, 0, number * 1000, 0, key, body(chance, key))


def body(chance: random.Random, key: str) -> dict[str, str | int]:
    mark = chance.choice(MARKS)
    taken = round(chance.lognormvariate(0.9, 0.6) * 1000) + 600
    asked = key.partition(":")[2]
    return answer_body(
        Answer(
            key,
            asked,
            "42",
            "42" if mark.startswith("right") else "",
            mark,
            first_ms=taken // 2,
            end_ms=taken,
            help="picture" if mark == "right_helped" else "",
            aim="fluency",
            age=9,
            copy_ms=1900,
            slow_ms=3000,
            rule=marking.RULE,
        )
    )


def print_of(answers: int) -> str:
    """The SHA-256 of everything that is remembered, to the bit."""
    found = memory.remembered(log(answers))
    whole = hashlib.sha256(repr(found.habits).encode())
    for key in sorted(found.cards):
        whole.update(repr(found.cards[key]).encode())
    return whole.hexdigest()


def elsewhere(answers: int, tunables: str) -> dict[str, object]:
    """The same in a process of its own; also an unrounded sum that shows whether the processors differ."""
    environment = {**os.environ, "PYTHONPATH": str(TOP), "GLIBC_TUNABLES": tunables}
    command = [sys.executable, "-m", "tests.faults.rebuild", str(answers), "--child"]
    done = subprocess.run(command, env=environment, cwd=TOP, capture_output=True, text=True, check=True)
    found: dict[str, object] = json.loads(done.stdout)
    return found


def raw_bits() -> str:
    """The bits of what the mathematical functions themselves give: they may differ."""
    import math

    chance = random.Random(7)
    values = [chance.uniform(0.01, 30.0) for _ in range(20_000)]
    found = "".join((math.exp(-v) + math.log(v) + v**0.1542).hex() for v in values)
    return hashlib.sha256(found.encode()).hexdigest()


def main() -> None:
    answers = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
    if "--child" in sys.argv:
        begun = time.perf_counter()
        print(
            json.dumps(
                {"memory": print_of(answers), "seconds": time.perf_counter() - begun, "raw": raw_bits()}
            )
        )
        return
    here, older = elsewhere(answers, ""), elsewhere(answers, OLDER)
    print(f"{answers:,} answers folded in {here['seconds']:.0f} s, and in {older['seconds']:.0f} s")
    print("memory:", "the same bits" if here["memory"] == older["memory"] else "other bits")
    print("functions:", "the same bits" if here["raw"] == older["raw"] else "other bits, as expected")


if __name__ == "__main__":
    main()
