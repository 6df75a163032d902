"""Files with something amiss: bytes, signs, whole values. Each is a pure function of a chance and a file."""

import json
import random
import re
from collections.abc import Callable, Iterator, Mapping, Sequence

Chance = random.Random
Place = tuple[object, ...]

NUMBERS: tuple[object, ...] = (
    0, -1, 1, 2, 13, 99, 10**6, 10**9, 2**31, 2**63 - 1, 2**63, -(2**63) - 1, 10**30, 10**400,
    -(10**9), 0.0, -0.0, 0.5, 1e308, float("inf"), float("nan"), True, False,
)  # fmt: skip
TEXTS: tuple[str, ...] = (
    "", " ", "a", "\n", "\x00", "\x1b[2J", "\x1b]8;;https://example.org\x07x", "\x1b]52;c;eA==\x07",
    "\u202eabc\u2066", "\u200b", "\ufeffa", "e" + "\u0301" * 300, "مرحبا", "🦭", "[/]", "[red]",
    "=cmd|'/c x'!A1", "<script>alert(1)</script>", "#let x = 1", "$x$",
    "{a}", "%s", "x" * 10_000, "١٢", "½", "1/0", "0/0",
    "9" * 4301, "1e999", "-", "a b", "pass", "stop", "?", "../../x", "product:6x7", "nan", "12:60", "\\", '"',
)  # fmt: skip
"""Escape sequences (ECMA-48), a hyperlink and the clipboard (OSC 8 and 52), marks that turn or hide text,
stacks of accents, signs of other scripts, markup of terminals, pages and typesetters, formula cells."""

ODD: tuple[object, ...] = (
    *NUMBERS, *TEXTS, [], {}, [[]], [{}], {"": []}, [0], [1, 1], [9, 1], [1, 2, 3], ["a", 1], [["a"], ["a"]],
    [None], [[1, 10**9]], {"a": [1, 10**9]}, {"a": [1, 2], "A": [1, 2]}, [["x", "y"]] * 3, [True, False],
    [1] * 5001, ["a"] * 300,
)  # fmt: skip


# --- bytes ----------------------------------------------------------------------------------------------


def flipped(data: bytes, chance: Chance) -> bytes:
    at = chance.randrange(len(data))
    return data[:at] + bytes([data[at] ^ (1 << chance.randrange(8))]) + data[at + 1 :]


def replaced(data: bytes, chance: Chance) -> bytes:
    start, end = a_stretch(data, chance)
    return data[:start] + chance.randbytes(chance.randrange(6)) + data[end:]


def doubled(data: bytes, chance: Chance) -> bytes:
    start, end = a_stretch(data, chance)
    return data[:end] + data[start:end] * chance.choice((1, 2, 50)) + data[end:]


def lost(data: bytes, chance: Chance) -> bytes:
    start, end = a_stretch(data, chance)
    return data[:start] + data[end:]


def moved(data: bytes, chance: Chance) -> bytes:
    start, end = a_stretch(data, chance)
    rest, at = data[:start] + data[end:], chance.randrange(len(data))
    return rest[:at] + data[start:end] + rest[at:]


def cut_off(data: bytes, chance: Chance) -> bytes:
    return data[: chance.randrange(len(data))]


def a_stretch(data: bytes, chance: Chance) -> tuple[int, int]:
    """Mostly short, sometimes any."""
    start = chance.randrange(len(data))
    longest = chance.choice((4, 4, 40, len(data)))
    return start, min(len(data), start + 1 + chance.randrange(longest))


ENCODINGS: Sequence[Callable[[str], bytes]] = (
    lambda text: text.encode("utf-16"),
    lambda text: text.encode("utf-32"),
    lambda text: text.encode("latin-1", "replace") + b"\xe9",
    lambda text: b"\xef\xbb\xbf" * 2 + text.encode(),
    lambda text: text.replace("\n", "\r\n").encode(),
    lambda text: text.replace("\n", "\r").encode(),
    lambda text: text.replace("\n", "\n\r").encode(),
    lambda text: text.replace(" ", "\u00a0").encode(),
    lambda text: text.replace("\n", "\u2028").encode(),
    lambda text: text.replace("e", "\ud800").encode("utf-8", "surrogatepass"),
    lambda text: text.replace('"', "\u201d").encode(),
    lambda text: text.replace("\n", "\x00\n").encode(),
)


def otherwise_encoded(data: bytes, chance: Chance) -> bytes:
    return chance.choice(ENCODINGS)(data.decode("utf-8", "replace"))


BYTES: Mapping[str, Callable[[bytes, Chance], bytes]] = {
    "a flipped bit": flipped,
    "other bytes": replaced,
    "bytes twice": doubled,
    "bytes lost": lost,
    "bytes elsewhere": moved,
    "cut off": cut_off,
    "another encoding": otherwise_encoded,
}


# --- signs ----------------------------------------------------------------------------------------------

SIGN = re.compile(r'"(?:[^"\\\n]|\\.)*"|[\w.+-]+|[^\s\w]')
SIGNS = ("[", "]", "{", "}", "=", ",", ".", '"', '"""', "'", "#", "[[", "\n", "\\", "[set]", "[[skill]]")


def another_sign(text: str, chance: Chance) -> str:
    """One sign in place of another, or besides it, or gone."""
    found = chance.choice([*SIGN.finditer(text)] or [None])
    if found is None:
        return text
    new = chance.choice((*SIGNS, written(chance.choice(NUMBERS)), written(chance.choice(TEXTS)), ""))
    return text[: found.start()] + new + chance.choice(("", found[0])) + text[found.end() :]


def written(value: object) -> str:
    """A value as TOML. There is no None there: a date stands for it."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key_of(str(key))} = {written(one)}" for key, one in value.items()) + "}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(written, value))}]"
    if value is None:
        return "1979-05-27"
    if isinstance(value, str):
        return json.dumps(value).replace("\x7f", "\\u007f")
    return json.dumps(value).replace("NaN", "nan").replace("Infinity", "inf")


def key_of(key: str) -> str:
    return key if re.fullmatch(r"[A-Za-z0-9_-]+", key) else written(key)


# --- whole values ---------------------------------------------------------------------------------------


def places(value: object, at: Place = ()) -> Iterator[Place]:
    """The place of every value in tables and lists, at any depth."""
    if at:
        yield at
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, one in items:
        yield from places(one, (*at, key))


def inside(whole: object, at: Place) -> object:
    for key in at:
        whole = whole[key]  # type: ignore[index]
    return whole


def put(whole: object, at: Place, value: object) -> object:
    """The same with another value there; nothing of the old one is changed."""
    if not at:
        return value
    key, rest = at[0], at[1:]
    if isinstance(whole, dict):
        return {**whole, key: put(whole.get(key), rest, value)}
    assert isinstance(whole, list)
    assert isinstance(key, int)
    place = key
    return [*whole[:place], put(whole[place], rest, value), *whole[place + 1 :]]


def without(whole: object, at: Place) -> object:
    above, key = inside(whole, at[:-1]), at[-1]
    if isinstance(above, dict):
        return put(whole, at[:-1], {name: one for name, one in above.items() if name != key})
    assert isinstance(above, list)
    assert isinstance(key, int)
    return put(whole, at[:-1], above[:key] + above[key + 1 :])


def another_value(whole: object, chance: Chance) -> object:
    """Somewhere another value, none, the value of another place, a number beside it, or one key more."""
    found = [*places(whole)]
    if not found:
        return chance.choice(ODD)
    at = chance.choice(found)
    match chance.randrange(6):
        case 0:
            return without(whole, at)
        case 1:
            return put(whole, at, inside(whole, chance.choice(found)))
        case 2:
            return put(whole, at, nudged(inside(whole, at), chance))
        case 3:
            above = inside(whole, at[:-1])
            new = chance.choice(TEXTS)[:70] if isinstance(above, dict) else len(above)  # type: ignore[arg-type]
            return put(whole, (*at[:-1], new), chance.choice(ODD)) if isinstance(above, dict) else whole
        case _:
            return put(whole, at, chance.choice(ODD))


def nudged(value: object, chance: Chance) -> object:
    """A little other: the number next to it, the text a sign longer, the list shorter or turned round."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return value + chance.choice((-2, -1, 1, 2, value, -2 * value, 10**6))
    if isinstance(value, str):
        return chance.choice((value + chance.choice(TEXTS), value[:-1], value.upper(), value * 50))
    if isinstance(value, list):
        return chance.choice((value[:-1], value[::-1], value * 2, [*value, chance.choice(ODD)], [value]))
    return [value]
