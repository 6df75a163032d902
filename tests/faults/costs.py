"""What a command costs: a process of its own, its processor time and the most memory it took."""

import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

TOP = Path(__file__).parents[2]
ROOM = 2_000_000_000  # bytes of addresses, so that what has no end fails and takes nothing else with it
SECONDS = 60  # of the processor, after which it is taken to hang: a guard, no goal

RELAY = """
import resource, subprocess, sys
code = subprocess.call(sys.argv[1:], stdout=sys.stderr)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(code, used.ru_utime + used.ru_stime, used.ru_maxrss)
"""
"""A small program between: the room of the one that starts another counts as the other's until it begins."""


class Cost(NamedTuple):
    code: int
    said: str  # on both streams
    seconds: float  # of a processor
    megabytes: float


def cost(
    command: Sequence[str], folder: Path, environment: Mapping[str, str], source: Path = Path(os.devnull)
) -> Cost:
    """Of `review` with that command line, run in a folder, with that piped in."""
    with source.open("rb") as piped, (folder / "said").open("wb") as said:
        relay = subprocess.run(
            [sys.executable, "-c", RELAY, sys.executable, "-m", "review", *command],
            cwd=folder,
            env={**os.environ, "PYTHONPATH": str(TOP), **environment},
            stdin=piped,
            stdout=subprocess.PIPE,
            stderr=said,
            preexec_fn=bounded,
            check=True,
        )
    code, seconds, most = relay.stdout.split()
    scale = 1 if sys.platform == "darwin" else 1024  # bytes there (getrusage(2))
    text = (folder / "said").read_text(encoding="utf-8")
    return Cost(int(code), text, float(seconds), int(most) * scale / 1e6)


def bounded() -> None:
    import resource

    resource.setrlimit(resource.RLIMIT_AS, (ROOM, resource.RLIM_INFINITY))
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
