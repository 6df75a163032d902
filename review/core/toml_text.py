"""TOML text -> a table, or the first thing in it that cannot be read; and where each key stands.

`tomllib` gives values without places. The walk here reads a text that `tomllib` has accepted, so it needs no
rule of what is valid: only strings, comments and brackets, to know where keys begin.
"""

import json
import re
from collections.abc import Iterator, Mapping
from itertools import islice
from typing import NamedTuple, cast

LONGEST = 500_000  # characters of a set; 5,000 pairs of the widest lines take 400,000
MOST_PARTS = 100  # of a dotted key; our judgement, ours have one
MOST_TOKENS = 60_000  # that are looked at for lines: 5,000 pairs have 35,000 (our judgement)


class Unreadable(NamedTuple):
    line: int  # 0: the text as a whole
    wrong: str
    instead: str


def parsed(text: str) -> dict[str, object] | Unreadable:
    """Any text at all: too long, nested too deep and numbers too large are answers too."""
    if len(text) > LONGEST:
        return Unreadable(0, f"the file has {len(text):,} characters", f"write {LONGEST:,} at most")
    plain = plainly(text)
    return _any(text) if plain is None else plain


def _any(text: str) -> dict[str, object] | Unreadable:
    import tomllib  # 7 ms, and seldom needed

    from review.core import syntax_troubles

    if deep := _deep_key(text):
        return Unreadable(deep, "a key with a great many dots", "write a plain key, like title")
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        return Unreadable(*syntax_troubles.told(str(error), text))
    except RecursionError:
        return Unreadable(0, "brackets stand inside brackets too deep", "write plain lists, like [2, 5, 10]")
    except ValueError:  # the only other one: more digits than a number may have
        long = re.search(r"[0-9_]{4000}", text)
        return Unreadable(_line_at(text, long), "a number with thousands of digits", "write a shorter one")


# --- a text that is written as plainly as ours --------------------------------------------------------

ENTRY = re.compile(
    r"""
    ^ ([a-z_]+) [ ]=[ ] (
        " [^"\\\n]* " | true | false | -?[0-9]+
      | \[ (?: " [^"\\\n]* " | [-0-9,\[\] ]++ | \n (?= [-0-9,\[\] "] ) )*+ (?<= \] )
      | \{ (?: [ ][a-z]+ [ ]=[ ] \[[0-9]+,[ ][0-9]+\] ,? )+ [ ]\}
    ) $
    """,
    re.VERBOSE | re.MULTILINE,
)
LAST_COMMA = re.compile(r'(?<=["\]0-9]),\n\]')
INNER_KEY = re.compile(r" ([a-z]+) =")


def plainly(text: str) -> dict[str, object] | None:
    """[set], then [[skill]] tables, with nothing in them that is not written alike in JSON or nearly so.

    What `tomllib` gives, in a sixth of the time (measured here); None for any other text.
    """
    lines = text.replace("\r\n", "\n").split("\n")
    if "\\" in text or not "".join(lines).isprintable():
        return None
    kept = "\n".join(line for line in lines if line and not line.startswith("#"))
    head, *skills = (f"{kept}\n").split("\n[[skill]]\n")
    tables = [*map(_plain_table, (head.removeprefix("[set]\n"), *skills))]
    if not head.startswith("[set]\n") or None in tables:
        return None
    others = f',"skill":[{",".join(map(str, tables[1:]))}]' if skills else ""
    try:
        return cast(
            dict[str, object], json.loads(f'{{"set":{tables[0]}{others}}}', object_pairs_hook=_each_once)
        )
    except (ValueError, RecursionError):  # not so plain after all
        return None


def _plain_table(text: str) -> str | None:
    """The entries of a table in JSON; None where a line is none of ours."""
    entries = ENTRY.findall(text)
    if "\n".join(f"{key} = {value}" for key, value in entries) != text.removesuffix("\n"):
        return None
    return "{" + ",".join(f'"{key}":{_plain_value(value)}' for key, value in entries) + "}"


def _plain_value(value: str) -> str:
    if value.startswith("{"):
        return INNER_KEY.sub(r'"\1":', value)
    return LAST_COMMA.sub("]", value) if ",\n" in value else value


def _each_once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    table = dict(pairs)
    if len(table) < len(pairs):
        raise ValueError("a key stands here twice")
    return table


# --- any other ----------------------------------------------------------------------------------------


def _deep_key(text: str) -> int:
    """The line of a key with more parts than any of ours, 0 if there is none.

    The reader of TOML takes memory that grows with the square of a key's parts: 100,000 fill a computer.
    """
    if all(line.count(".") <= MOST_PARTS for line in text.split("\n")):
        return 0
    parts = 0
    for token in _tokens(text):
        parts = parts + 1 if token.text == "." else 0 if token.text in "[]{}=,\n" else parts
        if parts > MOST_PARTS:
            return token.line
    return 0


def _line_at(text: str, found: re.Match[str] | None) -> int:
    return text.count("\n", 0, found.start()) + 1 if found else 0


# --- where each key stands ----------------------------------------------------------------------------

Path = tuple[str | int, ...]

TOKEN = re.compile(
    r"""
    (?P<space>   [ \t\r]+ | \#[^\n]* )
  | (?P<string>  \"\"\" (?: [^\\] | \\. )*? \"{3,5} (?!\") | ''' .*? '{3,5} (?!')
               | \" (?: [^"\\\n]++ | \\. )*+ \" | ' [^'\n]* ' )
  | (?P<sign>    [\[\]{}=,.\n] )
  | (?P<bare>    [^\s\[\]{}=,."'\#]+ )
    """,
    re.VERBOSE | re.DOTALL,
)


class Token(NamedTuple):
    text: str
    line: int
    joined: bool  # nothing stands between it and the token before


END = Token("", 0, False)


def _tokens(text: str) -> Iterator[Token]:
    line, joined = 1, False
    for found in TOKEN.finditer(text):
        if found.lastgroup != "space":
            yield Token(found[0], line, joined)
        joined = found.lastgroup != "space"
        line += found[0].count("\n")


class _Reader:
    """A walk over the tokens with one to look ahead."""

    def __init__(self, text: str) -> None:
        self.rest = islice(_tokens(text), MOST_TOKENS)
        self.next = next(self.rest, END)
        self.lines: dict[Path, int] = {}

    def take(self) -> Token:
        token, self.next = self.next, next(self.rest, END)
        return token

    def skip(self, *texts: str) -> None:
        while self.next.text in texts and self.next is not END:
            self.take()

    def note(self, path: Path, line: int) -> None:
        self.lines.setdefault(path, line)

    def key(self) -> Path:
        """A dotted key, up to what follows it."""
        parts: list[str] = []
        while self.next.text not in ("=", "]", "\n", ""):
            token = self.take()
            if token.text != ".":
                parts.append(_name(token.text))
        return tuple(parts)

    def pair(self, table: Path) -> None:
        """key = value"""
        line = self.next.line
        path = table
        for part in self.key():
            path = (*path, part)
            self.note(path, line)
        self.skip("=")
        self.value(path)

    def value(self, path: Path) -> None:
        if self.next.text == "[":
            self.array(path)
        elif self.next.text == "{":
            self.inline(path)
        else:
            self.take()
            while self.next.text not in (",", "]", "}", "\n", ""):
                self.take()

    def array(self, path: Path) -> None:
        self.take()
        self.skip("\n", ",")
        place = 0
        while self.next.text not in ("]", ""):
            self.note((*path, place), self.next.line)
            self.value((*path, place))
            place += 1
            self.skip("\n", ",")
        self.take()

    def inline(self, path: Path) -> None:
        self.take()
        self.skip("\n", ",")
        while self.next.text not in ("}", ""):
            self.pair(path)
            self.skip("\n", ",")
        self.take()


def _name(token: str) -> str:
    """A key without its quotes. Escapes stay: such a key is none of ours, and only its place is wanted."""
    return token[1:-1] if token[:1] in ('"', "'") else token


def lines_of(text: str) -> Mapping[Path, int]:
    """Lines count from 1, places in arrays and arrays of tables from 0; () is the first line."""
    reader = _Reader(text)
    reader.note((), 1)
    table: Path = ()
    counts: dict[Path, int] = {}
    while reader.next is not END:
        if reader.next.text == "\n":
            reader.take()
        elif reader.next.text == "[":
            table = _header(reader, counts)
        else:
            reader.pair(table)
    return reader.lines


def _header(reader: _Reader, counts: dict[Path, int]) -> Path:
    """[table] or [[table]]; below an array of tables the last one is meant."""
    line = reader.take().line
    many = reader.next.text == "[" and reader.next.joined
    reader.skip("[")
    path: Path = ()
    names = reader.key()
    for place, name in enumerate(names, start=1):
        path = (*path, name)
        if many and place == len(names):
            counts[path] = counts.get(path, -1) + 1
        reader.note(path, line)
        if path in counts:
            path = (*path, counts[path])
            reader.note(path, line)
    reader.skip("]")
    return path


def line_of(path: Path, lines: Mapping[Path, int]) -> int:
    """The line of a key, or of what it would stand in."""
    while path and path not in lines:
        path = path[:-1]
    return lines.get(path, 1)


def written(path: Path) -> str:
    """As a parent reads it, places from 1: skill[2].tables."""
    text = "".join(f"[{part + 1}]" if isinstance(part, int) else f".{part}" for part in path)
    return text.removeprefix(".")


def quoted(text: str) -> str:
    """As TOML writes a text: JSON's way is one of its ways."""
    return json.dumps(text, ensure_ascii=False)
