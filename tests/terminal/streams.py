"""Streams for fronts that are played within the test."""

import io
import json
from collections.abc import Sequence
from typing import NamedTuple

from review.core.model import Answer
from review.core.warmup import Sitting, Summary
from review.terminal import Played, aloud_lines, json_lines, lines
from tests.terminal.driver import PICTURES, SITTING


def pictures_by_lines(text: str) -> str:
    """The sitting of pictures in plain lines."""
    out = stream()
    lines.play(PICTURES, (), lambda answer: None, source=stream(text), out=out)
    return written(out)


def pictures_by_json(*said: object) -> list[dict[str, object]]:
    out = stream()
    text = "".join(json.dumps(one) + "\n" for one in said)
    json_lines.play(PICTURES, (), lambda answer: None, source=stream(text), out=out)
    return [json.loads(line) for line in written(out).splitlines()]


class Heard(NamedTuple):
    """What came out of a sitting: what was written, what was kept, how it ended."""

    text: str
    answers: tuple[Answer, ...]
    summary: Summary

    @property
    def objects(self) -> list[dict[str, object]]:
        return [json.loads(line) for line in self.text.splitlines()]

    def of(self, type: str) -> list[dict[str, object]]:
        return [found for found in self.objects if found["type"] == type]


def stream(text: str | bytes = b"") -> io.TextIOWrapper:
    data = text if isinstance(text, bytes) else text.encode()
    return io.TextIOWrapper(io.BytesIO(data), encoding="utf-8", newline="")


def written(out: io.TextIOWrapper) -> str:
    out.flush()
    buffer = out.buffer
    assert isinstance(buffer, io.BytesIO)
    return buffer.getvalue().decode()


def by_lines(
    text: str | bytes, so_far: Sequence[Answer] = (), greet: Sequence[str] = (), sitting: Played = SITTING
) -> Heard:
    out, kept = stream(), list[Answer]()
    summary = lines.play(sitting, so_far, kept.append, source=stream(text), out=out, greet=greet)
    return Heard(written(out), tuple(kept), summary)


def by_aloud_lines(
    text: str | bytes,
    so_far: Sequence[Answer] = (),
    greet: Sequence[str] = (),
    sitting: Sitting = SITTING,
) -> Heard:
    """With the last answer taken back where the text says so."""
    out, kept = stream(), list[Answer]()

    def take_back() -> None:
        kept.pop()

    summary = aloud_lines.play(
        sitting, so_far, kept.append, source=stream(text), out=out, greet=greet, take_back=take_back
    )
    return Heard(written(out), tuple(kept), summary)


def by_json(*said: object, so_far: Sequence[Answer] = (), sitting: Played = SITTING) -> Heard:
    """Objects are written as JSON, texts as they are."""
    text = "".join((one if isinstance(one, str) else json.dumps(one)) + "\n" for one in said)
    out, kept = stream(), list[Answer]()
    summary = json_lines.play(
        sitting, so_far, kept.append, source=stream(text), out=out, overdue_left=lambda: 4
    )
    return Heard(written(out), tuple(kept), summary)
