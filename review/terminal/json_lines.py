"""A sitting as JSON, one object a line, for other front ends and for tests.

Its minutes count the seconds they report.

Out: problem, mark, show (to be read, then hidden), ask_again, help, note, summary. In: an answer, or one of
pass, stop and help. A line that is none of these is answered with a note, and nothing else comes of it.
A program asks in its own way how an answer was found and which way of working out is liked, and says so
beside the answer: `recalled`, and `liked` with the name of a strategy. A way that the problem does not have
is answered with a note that names those it has, and nothing is kept.
"""

import io
import json
import sys
from collections.abc import Callable, Sequence
from itertools import islice
from typing import Literal, TextIO

from review.core.model import Answer, Help
from review.core.warmup import (
    AskAgain,
    AskHelp,
    AskLiked,
    AskRecalled,
    End,
    Heard,
    Note,
    PassOn,
    Say,
    Show,
    Stop,
    Summary,
    Typed,
)
from review.terminal import Played, picture_lines, picture_sentence, run, tidy
from review.terminal.signals import Signals, nothing

ENCODING = "utf-8-sig"  # with or without its mark
MOST_SECONDS = 86_400  # of one answer: a day
MOST_HELP = 20  # steps; no problem has more
MOST_UNREAD = 100  # lines running that say nothing: who sends them reads no note (our judgement)
MEANT = 'Send {"answer": "42", "seconds": 3.1}, {"pass": true}, {"stop": true} or {"help": true}.'


def play(
    sitting: Played,
    so_far: Sequence[Answer],
    record: Callable[[Answer], None],
    *,
    source: TextIO | None = None,
    out: TextIO | None = None,
    overdue_left: Callable[[], int] = lambda: 0,
    ready: Callable[[], None] = nothing,
) -> Summary:
    """Play over JSON lines. Input that ends early is a stop. Raises as the front for a terminal does."""
    source, out = source or sys.stdin, out or sys.stdout
    in_utf_8(source)
    with Signals() as signals:
        return run(JsonLines(source, out, signals, overdue_left), sitting, so_far, record, ready)


def in_utf_8(source: TextIO) -> None:
    """As JSON is, whatever the system's code page (RFC 8259, 8.1). A stream can be told so only before its
    first line: the second of two sittings finds it told."""
    if isinstance(source, io.TextIOWrapper) and source.encoding != ENCODING:
        source.reconfigure(encoding=ENCODING, errors="replace")


class JsonLines:
    """The front for another program, which says `recalled` and `liked` with an answer, and is not asked."""

    person = False

    def __init__(
        self, source: TextIO, out: TextIO, signals: Signals, overdue_left: Callable[[], int]
    ) -> None:
        self._source, self._out, self._signals, self._overdue_left = source, out, signals, overdue_left
        self._card = ""

    def write(self, type: str, **values: object) -> None:
        self._out.write(json.dumps({"type": type, **values}) + "\n")
        self._out.flush()

    def show(self, show: Show) -> None:
        problem = show.problem
        self._card = problem.card
        self.write(
            "problem",
            n=show.n,
            card=problem.card,
            kind=problem.kind,
            prompt=problem.prompt,
            say=problem.say,
            first_meeting=show.first_meeting,
            second_look=show.second_look,
            copying=show.copying,
            dots=list(show.dots),
            picture=picture_lines(problem.picture),
            picture_words=picture_sentence(problem.picture),
        )

    def ask_again(self, again: AskAgain) -> None:
        self.write("ask_again", card=self._card, text=again.text, picture=picture_lines(again.picture))

    def ask_recalled(self, asked: AskRecalled) -> None:
        self.write("ask_recalled", card=self._card, text=asked.text)

    def ask_liked(self, asked: AskLiked) -> None:
        ways = [{"words": words, "steps": steps} for words, steps in asked.ways]
        self.write("ask_liked", card=self._card, text=asked.text, ways=ways)

    def help(self, help: Help) -> None:
        self.write(
            "help",
            card=self._card,
            step=help.step,
            text=help.text,
            picture=picture_lines(help.picture),
            picture_words=picture_sentence(help.picture),
        )

    def say(self, said: Say) -> None:
        self.write("mark", card=said.card, mark=said.mark, expected=said.expected, explain=said.text)
        if said.hold:
            self.write("show", card=said.card, text=said.text)

    def note(self, note: Note) -> None:
        self.write("note", text=note.text)

    def end(self, end: End) -> None:
        summary = end.summary
        self.write(
            "summary",
            minutes=round(summary.seconds / 60, 2),
            first_tries=summary.first_tries,
            right=summary.right,
            new=summary.new,
            overdue_left=self._overdue_left(),
            finished=summary.finished,
            lines=list(end.lines),
        )

    def hear(self) -> Heard:
        for line in islice(iter(self._line, ""), MOST_UNREAD):
            try:
                return read(line)
            except Meant as meant:
                self.write("note", text=str(meant))
        return Stop()

    def _line(self) -> str:
        with self._signals.waiting():
            return self._source.readline()


class Meant(ValueError):
    """A line that says nothing we know; the text says what is meant."""


def read(line: str) -> Heard:
    """What a line says; `Meant` for one that says nothing."""
    try:
        said = json.loads(line)
    except (ValueError, RecursionError):
        raise Meant(f"This line is no JSON. {MEANT}") from None
    if not isinstance(said, dict):
        raise Meant(MEANT)
    if "answer" in said:
        return _answer(said)
    named = [name for name in ACTIONS if said.get(name) is True]
    if len(named) != 1 or any(name in said and said[name] is not True for name in ACTIONS):
        raise Meant(MEANT)
    return ACTIONS[named[0]](said)


ACTIONS: dict[str, Callable[[dict[str, object]], Heard]] = {
    "pass": lambda said: PassOn(_milliseconds(said, "seconds")),
    "stop": lambda said: Stop(),
    "help": lambda said: AskHelp(_milliseconds(said, "seconds")),
}
RECALLED: dict[object, Literal["", "yes", "no"]] = {True: "yes", False: "no", None: "", "unknown": ""}


def _answer(said: dict[str, object]) -> Typed:
    text, helped, from_memory = said["answer"], said.get("help", 0), said.get("recalled")
    liked = said.get("liked", "")
    if not isinstance(text, str) or "pass" in said or "stop" in said:
        raise Meant(f'"answer" is a text, and stands without pass and stop. {MEANT}')
    if isinstance(helped, bool) or not isinstance(helped, int) or not 0 <= helped <= MOST_HELP:
        raise Meant(f'"help" beside an answer is the number of help steps shown, 0 to {MOST_HELP}.')
    if not isinstance(from_memory, bool | None) and from_memory != "unknown":
        raise Meant('"recalled" is true (from memory), false (worked out) or "unknown".')
    if not isinstance(liked, str):
        raise Meant('"liked" is the name of a strategy, like "bridging".')
    end_ms = _milliseconds(said, "seconds")
    first_ms = min(_milliseconds(said, "first_key"), end_ms)
    return Typed(
        tidy(text), first_ms, end_ms, helped=helped, recalled=RECALLED[from_memory], liked=tidy(liked)
    )


def _milliseconds(said: dict[str, object], key: str) -> int:
    """A number of seconds; 0 where it is not given, which means not known."""
    seconds = said.get(key, 0)
    if isinstance(seconds, bool) or not isinstance(seconds, int | float) or not 0 <= seconds <= MOST_SECONDS:
        raise Meant(f'"{key}" is a number of seconds, 0 to {MOST_SECONDS}.')
    return round(seconds * 1000)
