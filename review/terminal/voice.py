"""A voice that reads problems out, where the computer has one; the only room that runs it."""

import os
import re
import shutil
import time
from subprocess import DEVNULL, Popen
from threading import Thread
from types import TracebackType

from review.core.text import clean

PROGRAM = "espeak-ng"
INSTALLED = "eSpeak NG"  # its folder on Windows, which its installer does not add to PATH (from memory)
LANGUAGE = "en"  # what problems are written in
LONGEST = 1000  # characters that are spoken; no problem of the catalogue has more
WORDS_A_MINUTE = 140  # a little slower than the program's own 175, for a child (our judgement)

SIGNS = {
    "×": " times ",
    "÷": " divided by ",
    "+": " plus ",
    "−": " minus ",
    "=": " equals ",
    "≈": " is about ",
    "□": " what ",
    "°": " degrees ",
}
"""Where a family's own words hold signs, they are said as words."""
FRACTION = re.compile(r"(?<![\w/.,])(\d{1,3} )?(\d{1,3})/(\d{1,2})(?![\w/]|[.,]\d)", re.ASCII)
PRICE = re.compile(r"([£$€])(\d{1,6})(?:\.(\d\d))?(?!\w|[.,]\d)", re.ASCII)
"""The program reads 3/4 as "three slash four", £2.05 as "pound two point zero five" (measured here)."""


class Utterance:
    """One text that is being spoken."""

    def __init__(self, process: Popen[bytes]) -> None:
        self._process = process
        self._ended_ns = 0
        self._cut = False
        self._listener = Thread(target=self._listen, daemon=True)
        self._listener.start()

    def _listen(self) -> None:
        self._process.wait()
        self._ended_ns = time.monotonic_ns()

    def end(self) -> int:
        """Be silent now; the moment it came to its own end, or 0 where it was cut short."""
        if self._process.poll() is None:
            self._cut = True
            self._process.kill()
        self._listener.join()
        return 0 if self._cut else self._ended_ns


class Voice:
    """Speaks one problem at a time; where the program fails, it is silent."""

    def __init__(self, program: str) -> None:
        self._program = program
        self._utterance: Utterance | None = None

    def __enter__(self) -> "Voice":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.hush()

    def speak(self, words: str) -> None:
        """Begin to say it, and return at once."""
        self.hush()
        said = in_speech(words)
        self._utterance = Utterance(process) if said and (process := self._begun(said)) else None

    def _begun(self, said: str) -> Popen[bytes] | None:
        command = [self._program, "-v", LANGUAGE, "-s", str(WORDS_A_MINUTE), "--", said]
        try:
            return Popen(command, stdin=DEVNULL, stdout=DEVNULL, stderr=DEVNULL)
        except OSError:
            return None

    def hush(self) -> int:
        """Be silent now; the moment the last words had been said, or 0 where they were cut short."""
        return self._utterance.end() if self._utterance else 0


def in_speech(words: str) -> str:
    """Clean words for the voice; signs, fractions and prices as words."""
    named = FRACTION.sub(_fraction_said, PRICE.sub(_price_said, words[: 2 * LONGEST]))
    return clean("".join(SIGNS.get(sign, sign) for sign in named))[:LONGEST]


def _fraction_said(found: re.Match[str]) -> str:
    from review.core.skills.amounts import said  # no set of ours needs it

    whole, top, under = found.groups()
    return f"{whole + 'and ' if whole else ''}{said(int(top), int(under))}" if int(under) > 1 else found[0]


def _price_said(found: re.Match[str]) -> str:
    from review.core.currencies import CURRENCIES
    from review.core.skills.money_steps import said

    sign, whole, part = found.groups()
    currency = next(one for one in CURRENCIES.values() if one.sign == sign)
    return said(int(whole) * 100 + int(part or 0), currency)


def found() -> Voice | None:
    """The voice of this computer, if it has one. Never a program in the folder one happens to be in, where
    Windows looks first: it may have come with somebody's skill set."""
    places = (None, os.path.join(os.environ.get("PROGRAMFILES", ""), INSTALLED))  # None: those of PATH
    programs = (shutil.which(PROGRAM, path=place) for place in places)
    return next((Voice(program) for program in programs if program and os.path.isabs(program)), None)
