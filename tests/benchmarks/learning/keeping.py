"""Seasons that were played, kept in a file: a run that was stopped goes on where it was.

One season a line (JSON). What its figures depend on is kept with it as a fingerprint of the code, so that an
older rule's seasons are never counted for a newer one's.
"""

import json
from collections.abc import Iterable, Iterator
from functools import lru_cache
from hashlib import sha256
from pathlib import Path

from tests.benchmarks.learning.baselines import ALSO, BASELINES
from tests.benchmarks.learning.season import Forecast, Held, Known, Season, Task

HERE = Path(__file__).parent
ROOT = HERE.parents[2]
ANY = (
    "memories.py", "outsiders.py", "children.py", "courses.py", "strategies.py", "season.py", "baselines.py",
)  # fmt: skip
CARDS = ("card_sets.py", "keys.py", "marking.py", "working_out.py", "skills/*.py")
"""What every season depends on: the bench's own rooms; with the shipped sets, and the rooms of the core that
make their cards, say how hard they are to count and what is slow. Our own rules, and those tried and left
out, depend on the whole core and on `OURS` besides."""

OURS = ("seated.py", "variants.py", "trials.py", "accounts.py", "seldom.py", "worked_out.py", "knowing.py")


def files(ours: bool) -> list[Path]:
    """The code behind a season, and the shipped sets."""
    core = ROOT / "review" / "core"
    found = {*(HERE / name for name in ANY), *(ROOT / "card_sets").rglob("*.toml")}
    found |= {file for rooms in CARDS for file in core.glob(rooms)}
    if ours:
        found |= {*core.rglob("*.py"), *(HERE / name for name in OURS)}
    return sorted(found)


@lru_cache
def fingerprint(ours: bool) -> str:
    found = sha256()
    for file in files(ours):
        found.update(file.read_bytes())
    return found.hexdigest()[:12]


def of(task: Task) -> str:
    return fingerprint(task.strategy not in BASELINES and task.strategy not in ALSO)


def line(season: Season) -> str:
    return json.dumps({"code": of(season.task), "task": season.task, "season": season[1:]}) + "\n"


def read(lines: Iterable[str]) -> Iterator[Season]:
    """The seasons that the present code would play again the same. A line cut off by a kill is left out."""
    for text in lines:
        try:
            row = json.loads(text)
        except json.JSONDecodeError:
            continue
        task = Task(*row["task"])
        if row["code"] == of(task):
            retrieved, by_aim, *figures, forecasts = row["season"]
            told = tuple(Forecast(*one) for one in forecasts)
            yield Season._make([task, _held(*retrieved), _held(*by_aim), *figures, told])


def _held(recall: list[float], firm: list[int], recovered: int, alone: tuple[float, int]) -> Held:
    return Held(tuple(recall), tuple(firm), recovered, Known(*alone))


def kept(path: Path | None) -> dict[Task, Season]:
    if path is None or not path.exists():
        return {}
    with path.open(encoding="utf-8") as lines:
        return {season.task: season for season in read(lines)}


def mend(path: Path | None) -> None:
    """Ends a line that a kill cut off, so that the next one begins anew."""
    if path is not None and path.exists() and path.read_bytes()[-1:] not in (b"", b"\n"):
        with path.open("a", encoding="utf-8") as file:
            file.write("\n")
