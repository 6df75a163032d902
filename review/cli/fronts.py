"""Which front plays a sitting, and what it greets with."""

import sys
from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager, nullcontext
from typing import TYPE_CHECKING, Protocol, TypeGuard

from review.core import session
from review.core.model import Answer
from review.core.text import clean
from review.core.warmup import Sitting, Summary
from review.render.screen import warn
from review.terminal import SILENCE, Played, Speaks, console, lines, typed

if TYPE_CHECKING:
    from review.core.placement import Probing

Record = Callable[[Answer], None]
TakeBack = Callable[[], None] | None


class Front(Protocol):
    """Plays what is asked to its end. The last answer can be taken back where there is a way to."""

    def __call__(
        self,
        sitting: Played,
        so_far: Sequence[Answer],
        record: Record,
        overdue_left: Callable[[], int],
        take_back: TakeBack = None,
        /,
    ) -> Summary: ...


MAY_BE_NEW = ("Some of these may be new.", "That is fine.")
GREETING = "Fill the dots. Then you are done."
TYPE_THEM = ("First some numbers.", "Type each one you see.")
NO_VOICE = "This computer has no voice: install espeak-ng to hear the problems. It goes on without."


def chosen(plain: bool, jsonl: bool, aloud: bool | None = None, speak: bool = False) -> Front:
    """JSON lines where they are asked for; single keys on a real terminal; else line by line. Aloud where it
    is asked for; else, for a person at a terminal, as this child usually answers."""
    if jsonl:
        return by_json
    raw = not plain and sys.stdin.isatty() and sys.stdout.isatty() and console.obeys(sys.stdout.fileno())
    voice = with_voice() if speak else nullcontext(SILENCE)

    def play(
        sitting: Played,
        so_far: Sequence[Answer],
        record: Record,
        overdue_left: Callable[[], int],
        take_back: TakeBack = None,
        /,
    ) -> Summary:
        with voice as spoken:
            if is_read_out(sitting, aloud):
                return read_out(sitting, so_far, record, raw, spoken, take_back)
            typing = typed.play if raw else lines.play
            greet = greeting(sitting, so_far)
            return typing(sitting, so_far, record, greet=greet, ready=wake, voice=spoken)

    return play


def is_read_out(sitting: Played, aloud: bool | None) -> "TypeGuard[Sitting | Probing]":
    """Whether that is asked for, or usual for this child. What is copied is typed."""
    if not isinstance(sitting, Sitting):
        from review.core.copying import Copying  # no child waits for it who does a warm-up

        if isinstance(sitting, Copying):
            return False
    return sitting.aloud and sys.stdin.isatty() if aloud is None else aloud


def read_out(
    sitting: "Sitting | Probing",
    so_far: Sequence[Answer],
    record: Record,
    raw: bool,
    voice: Speaks,
    take_back: TakeBack,
) -> Summary:
    """The parent reads out, and says by one key what came."""
    from review.terminal import aloud, aloud_keys, aloud_lines

    reading = aloud_keys.play if raw else aloud_lines.play
    how = (aloud.how_by_keys if raw else aloud.how_by_lines)(sitting.name)
    greet = greeting(sitting, so_far)
    greet += how if len(greet) > 1 else ()
    return reading(sitting, so_far, record, greet=greet, ready=wake, voice=voice, take_back=take_back)


def with_voice() -> AbstractContextManager[Speaks]:
    """The computer's voice; where it has none, that is said once, and all goes on silently."""
    from review.terminal import voice

    found = voice.found()
    if found is None:
        warn(NO_VOICE)
        return nullcontext(SILENCE)
    return found


def by_json(
    sitting: Played,
    so_far: Sequence[Answer],
    record: Record,
    overdue_left: Callable[[], int],
    take_back: TakeBack = None,
) -> Summary:
    from review.terminal import json_lines

    return json_lines.play(sitting, so_far, record, overdue_left=overdue_left, ready=wake)


def greeting(sitting: Played, so_far: Sequence[Answer]) -> list[str]:
    """No year, no number: a name, and an end one can see, where there is one still to come."""
    hello = f"Hello, {clean(sitting.name)}."
    if isinstance(sitting, Sitting):
        return [hello] if session.start(sitting, so_far)[0].ended else [hello, GREETING]
    from review.core.copying import Copying

    if isinstance(sitting, Copying):
        return [hello, *TYPE_THEM]
    from review.core import placement

    over = placement.start(sitting, so_far)[0].ended
    return [hello] if over else [hello, *MAY_BE_NEW, GREETING]


def wake() -> None:
    """The first problem is on the screen: now there is time to load what reads answers and keeps memory."""
    import review.core.answers
    import review.core.memory
    import review.core.slips  # noqa: F401
