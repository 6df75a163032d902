"""Plays one fixed sitting through a front, and writes what was kept to a file.

python -m tests.terminal.driver FRONT ROWS [fail=N] [slow=MS] [so_far=N] [greet=TEXT] [timed=CARD] [sort=SORT]
    [book=NAME] [speak=1] [pictures]

FRONT is typed, lines, json, aloud or aloud-lines. fail=N: the Nth answer cannot be kept. slow=MS: keeping
takes so long. so_far=N: that many answers are there already. timed=CARD: its time counts. sort=SORT: beside
the warm-up; copying: the exercise; comma: decimals with a comma; long: problems of two lines. book=NAME:
drawn as in that book. speak=1: with the voice there is. pictures: a sitting of pictures instead.

The exit code is that of the error the front raised, 0 for none, 9 for
an answer that was not kept.
"""

import json
import sys
import time
from contextlib import nullcontext
from pathlib import Path

from review.core import session
from review.core.copying import Copying
from review.core.model import Answer, Words
from review.core.warmup import Record, Show, Typed
from review.errors import Interrupted
from review.terminal import SILENCE, Played, Speaks, aloud_keys, aloud_lines, json_lines, lines, typed, voice
from tests.core.sittings import a_sitting, item

SITTING = a_sitting(
    item("double:2", "sure"),
    item("sum:2+5", "sure"),
    item("product:6x7", "due"),
    item("product:7x8", "new"),
    item("mental-sum:2+2/regroup-ones", "due"),
    item("difference:15-8", "due"),
    item("half:18", "due"),
    item("half:10", "sure"),
)

PICTURES = a_sitting(
    item("clock:read/5", "due"), item("column-sum:2+2/1-within", "due"), item("quantity:dots/6..10", "due")
)

COMMA = a_sitting(item("decimal:times/10-2", "due"), item("decimal:order/1-2-2", "due"), reserve=())._replace(
    words=Words(decimals="comma", times="dot")
)

LONG = a_sitting(
    item("decimal:round/3-1", "due"), item("decimal:round/3-2", "due"), reserve=()
)  # "9.475 to the nearest tenth is", and below it an empty line for the answer

OTHERS = {"comma": COMMA, "long": LONG}
READING = {"aloud": aloud_keys.play, "aloud-lines": aloud_lines.play}


class NotKept(Exception):
    pass


class Rows:
    """A log of answers, a line each."""

    def __init__(self, path: Path, fail: int, slow_ms: int) -> None:
        self._path, self._fail, self._slow_ms, self._kept = path, fail, slow_ms, 0

    def keep(self, answer: Answer) -> None:
        self._kept += 1
        if self._kept == self._fail:
            raise NotKept
        with self._path.open("a", encoding="utf-8") as file:
            file.write(json.dumps(answer._asdict()))
            file.flush()
            time.sleep(self._slow_ms / 1000)
            file.write("\n")

    def take_back(self) -> None:
        *left, _ = self._path.read_text(encoding="utf-8").splitlines(keepends=True)
        self._path.write_text("".join(left), encoding="utf-8")


def answers_before(count: int) -> list[Answer]:
    """The first answers of this sitting, all as expected."""
    state, effects = session.start(SITTING)
    found: list[Answer] = []
    while len(found) < count:
        show = effects[-1]
        assert isinstance(show, Show)
        state, effects = session.step(state, Typed(show.problem.expected, 900, 2000))
        found += [effect.answer for effect in effects if isinstance(effect, Record)]
    return found


def of_sort(sort: str, timed: frozenset[str] = frozenset(), book: str = SITTING.book) -> Played:
    if sort == "copying":
        return Copying(SITTING.book, SITTING.child, SITTING.name, SITTING.age, SITTING.plan.day)
    if sort in OTHERS:
        return OTHERS[sort]
    return SITTING._replace(sort=sort, timed=timed, book=book)  # type: ignore[arg-type]


def by_person(
    front: str, sitting: Played, so_far: list[Answer], rows: Rows, greet: list[str], spoken: Speaks
) -> None:
    if front in READING:
        assert not isinstance(sitting, Copying)
        play = READING[front]
        play(sitting, so_far, rows.keep, greet=greet, voice=spoken, take_back=rows.take_back)
    else:
        typing = typed.play if front == "typed" else lines.play
        typing(sitting, so_far, rows.keep, greet=greet, voice=spoken)


def main(front: str, path: str, *options: str) -> int:
    given = dict(option.split("=", 1) for option in options if "=" in option)
    whole = PICTURES if "pictures" in options else SITTING
    rows = Rows(Path(path), int(given.get("fail", 0)), int(given.get("slow", 0)))
    so_far = answers_before(int(given.get("so_far", 0)))
    greet = given["greet"].split("|") if "greet" in given else []
    try:
        timed = frozenset(given.get("timed", "").split())
        book = given.get("book", SITTING.book)
        sitting = whole if "pictures" in options else of_sort(given.get("sort", ""), timed, book)
        if front == "json":
            json_lines.play(sitting, so_far, rows.keep, overdue_left=lambda: 4)
        else:
            with (voice.found() if "speak" in given else None) or nullcontext(SILENCE) as spoken:
                by_person(front, sitting, so_far, rows, greet, spoken)
    except Interrupted as stopped:
        return stopped.exit_code
    except NotKept:
        return 9
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
