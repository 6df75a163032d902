"""The keys of a table in a set, checked against their `Option`s: what is wrong, and what to write instead."""

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any, NamedTuple, cast

from review.core.skills.kinds import Option, kind_called
from review.core.syntax_troubles import TRUTHS
from review.core.text import clean, in_words, nearest, plural
from review.core.toml_text import Path, quoted

LIMIT = 10**9  # of a number whose option sets no limits of its own
LONGEST_WORD = 60  # characters of a word or an id; our judgement
LONGEST_LIST = 5000  # entries; no set has more cards
MOST_SHOWN = 5  # numbers of a list that is told as it stands; our judgement
MOST_LETTERS = 5  # of a template; our judgement


class Trouble(NamedTuple):
    """A mistake before its line is known."""

    path: Path
    wrong: str
    instead: str


def table_troubles(
    table: Mapping[str, object], options: Mapping[str, Option], path: Path
) -> Iterator[Trouble]:
    """Unknown keys, missing ones, and every value that is not what its option takes."""
    for key, value in table.items():
        if key in options:
            yield from value_troubles(value, options[key], (*path, key))
        else:
            yield _unknown(key, options, path)
    meant = mistyped(table, options)
    for key, option in options.items():
        if option.default is None and key not in table and key not in meant:
            yield Trouble((*path, key), f"the key {key} is missing", f"add {key} = {_example(option)}")


def mistyped(written: Iterable[str], known: Collection[str]) -> set[str]:
    """The keys that unknown ones were probably meant to be: those are not missing as well."""
    return {name for key in written if key not in known for name in _near(key, known)}


def _unknown(key: str, options: Mapping[str, Option], path: Path) -> Trouble:
    known = f"the keys here are {in_words(list(options))}"
    return Trouble((*path, key), *seen(key, f"there is no key {shown(key)} here", options, known))


def seen(name: str, wrong: str, names: Collection[str], other: str) -> tuple[str, str]:
    """What is wrong with a name, and what to write: the nearest of `names`, else `other`.

    A name may look right and not be: with a character that is not seen, or a letter of another alphabet.
    """
    if not name.isprintable():
        return f"there is an invisible character in {shown(name)}", "write it again by hand"
    if name != " ".join(name.split()):
        return f"there is a space too many in {shown(name)}", "take it out"
    near = _near(name, names)
    by_hand = "" if name.isascii() else " Write it again by hand"
    return wrong, f"did you mean {clean(near[0])}?{by_hand}" if near else other


def _near(name: str, names: Collection[str]) -> list[str]:
    """The one of the names that was probably meant, if there is one."""
    return kind_called(name, names) or nearest(name, names, 1)


def shown(value: object) -> str:
    """A value as it may stand in a message: on one line, and not for ever."""
    text = clean(f"“{value[:100]}”" if isinstance(value, str) else type_name(value))
    return text if len(text) <= LONGEST_WORD else text[: LONGEST_WORD - 2] + "…”"


def type_name(value: object) -> str:
    """What was written, in words for a parent."""
    if isinstance(value, int) and not isinstance(value, bool):
        return f"the number {value}" if abs(value) <= LIMIT else "a very large number"
    if isinstance(value, list) and 0 < len(value) <= MOST_SHOWN and all(map(_is_whole, value)):
        return str(value)
    names = {bool: "true or false", str: "text", float: "a decimal number", list: "a list", dict: "a table"}
    return names.get(type(value), "a date or time")


def _example(option: Option) -> str:
    return option.example or f'"{option.choices[0]}"'


# --- one value ----------------------------------------------------------------------------------------


def value_troubles(value: object, option: Option, path: Path) -> Iterator[Trouble]:
    if isinstance(value, list) and len(value) > LONGEST_LIST:
        yield Trouble(path, f"the list has {len(value):,} entries", f"write {LONGEST_LIST:,} at most")
    elif not CHECKS[option.type][0](value):
        yield Trouble(path, f"{WANTED[option.type]} is meant, not {shown(value)}", _meant(value, option))
    else:
        yield from CHECKS[option.type][1](value, option, path)


def _meant(value: object, option: Option) -> str:
    """What to write: what stands there in its right form, where that is plain to see; else an example."""
    told = option.type in MEANT and MEANT[option.type](value)
    return f"write {told or _example(option)}"


def _meant_whole(value: object) -> str:
    return f"{value}, without quotes" if _is_written_number(value) else ""


def _meant_wholes(value: object) -> str:
    if _is_written_number(value):
        return f"[{value}], without quotes"
    return f"[{value}]" if _is_whole(value) else ""


def _meant_range(value: object) -> str:
    """Two numbers in quotes, together or each; or the one number that is both ends."""
    if _is_whole(value) and abs(cast(int, value)) <= LIMIT:
        return f"[{value}, {value}]"
    if isinstance(value, list) and value and all(map(_is_written_number, value)):
        return f"[{', '.join(value)}], without quotes"
    ends = re.findall(r"[0-9]{1,9}", value) if isinstance(value, str) else []
    return f"[{', '.join(ends)}]" if len(ends) == 2 else ""


def _meant_words(value: object) -> str:
    return f"[{quoted(clean(value))}]" if isinstance(value, str) and len(value) <= LONGEST_WORD else ""


def _meant_yes(value: object) -> str:
    said = TRUTHS.get(value.casefold()) if isinstance(value, str) else None
    return f"{said}, without quotes" if said else ""


MEANT: Mapping[str, Callable[[object], str]] = {
    "whole": _meant_whole,
    "wholes": _meant_wholes,
    "range": _meant_range,
    "ranges": lambda value: f"[{value}]" if _is_range(value) else "",
    "words": _meant_words,
    "yes-no": _meant_yes,
}


def _is_written_number(value: object) -> bool:
    return isinstance(value, str) and value.isascii() and value.isdecimal() and len(value) < 10


def _is_whole(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)


def _is_list(value: object) -> bool:
    return isinstance(value, list)


def _is_word(value: object) -> bool:
    return isinstance(value, str)


def _is_range(value: object) -> bool:
    return isinstance(value, list) and len(value) == 2 and all(map(_is_whole, value))


def _is_ranges(value: object) -> bool:
    return isinstance(value, list) and not _is_range(value)


def _is_letters(value: object) -> bool:
    return isinstance(value, dict)


def _is_phrase(value: object) -> bool:
    return isinstance(value, str | list)


def _is_pair(value: object) -> bool:
    """An answer that is a number may be written as one."""
    return (
        isinstance(value, list) and len(value) == 2 and all(_is_word(one) or _is_whole(one) for one in value)
    )


WANTED = {
    "whole": "a whole number",
    "wholes": "a list of whole numbers",
    "word": "text in quotes",
    "words": "a list of texts in quotes",
    "range": "a list of two whole numbers, from and to,",
    "ranges": "a list of ranges",
    "yes-no": "true or false",
    "pairs": "a list of pairs",
    "letters": "a letter and its range for each",
    "phrase": "text in quotes, or a list of texts,",
}


def limits(option: Option) -> tuple[int, int]:
    """The least and the greatest number that fits."""
    return (option.low, option.high) if option.low or option.high else (-LIMIT, LIMIT)


def _whole(value: int, option: Option, path: Path) -> Iterator[Trouble]:
    low, high = limits(option)
    if not low <= value <= high:
        yield Trouble(path, f"{type_name(value)} is outside what fits here", f"write {low:,} to {high:,}")


def _list(values: list[object], option: Option, path: Path) -> Iterator[Trouble]:
    """Each entry by itself: one that is amiss hides none of the others."""
    yield from _entries(values, option, path)
    fits, check, wrong, instead = ENTRIES[option.type]
    for place, value in enumerate(values):
        if fits(value):
            yield from check(value, option, (*path, place))
        else:
            yield Trouble((*path, place), wrong.format(shown(value)), instead or f"write {_example(option)}")


def _entries(values: Sequence[object], option: Option, path: Path) -> Iterator[Trouble]:
    """A list needs something in it, each thing once, unless it may be left out altogether."""
    if not values and option.default not in ((), []):
        yield Trouble(path, "the list is empty", f"write at least one, like {_example(option)}")
    seen: set[str] = set()
    for place, value in enumerate(values):
        if repr(value) in seen:
            yield Trouble((*path, place), f"{shown(value)} stands here a second time", "take one out")
        seen.add(repr(value))


def _word(value: str, option: Option, path: Path) -> Iterator[Trouble]:
    low, high = option.low, option.high or LONGEST_WORD
    if option.choices and value not in option.choices:
        known = f"write {in_words(list(option.choices), 'or')}"
        yield Trouble(path, *seen(value, f"{shown(value)} is not known here", option.choices, known))
    elif len(clean(value)) < low:
        yield Trouble(path, "the text is empty", f"write something, like {_example(option)}")
    elif len(value) > high:
        yield Trouble(path, f"the text has {plural(len(value), 'character')}", f"write {high} at most")


def _range(value: list[int], option: Option, path: Path) -> Iterator[Trouble]:
    low, high = value
    if low > high:
        turned = f"[{high}, {low}]" if abs(low) <= LIMIT else _example(option)
        yield Trouble(path, "the range is empty: it ends before it begins", f"write {turned}")
    for place, end in enumerate(value):
        yield from _whole(end, option, (*path, place))


def _yes_no(value: bool, option: Option, path: Path) -> Iterator[Trouble]:
    return iter(())


def _pair(value: list[object], option: Option, path: Path) -> Iterator[Trouble]:
    for part in value:
        if _is_whole(part):
            yield from _whole(cast(int, part), option, path)


def _letters(values: dict[str, Any], option: Option, path: Path) -> Iterator[Trouble]:
    """`low` and `high` bound each range; a letter is one small letter."""
    if not 1 <= len(values) <= MOST_LETTERS:
        yield Trouble(path, plural(len(values), "letter"), f"write one to {MOST_LETTERS}")
    for name, value in values.items():
        if not (len(name) == 1 and name.isascii() and name.islower()):
            yield Trouble((*path, name), f"{shown(name)} is no letter", "write one small letter, like a")
        if _is_range(value):
            yield from _range(value, option, (*path, name))
        else:
            wrong, instead = (
                f"{WANTED['range']} is meant, not {shown(value)}",
                _meant_range(value) or "[1, 9]",
            )
            yield Trouble((*path, name), wrong, f"write {clean(name)[:1]} = {instead}")


def _phrase(value: str | list[object], option: Option, path: Path) -> Iterator[Trouble]:
    """All parts together are as long as one text may be."""
    parts = [value] if isinstance(value, str) else value
    texts = [part for part in parts if isinstance(part, str)]
    for place, part in enumerate(parts):
        if not isinstance(part, str):
            yield Trouble((*path, place), f"text in quotes is meant, not {shown(part)}", QUOTES)
    if texts == parts:
        yield from _word(" ".join(texts), option, path)


PAIR = 'write two, like ["days in a week", "7"]'
QUOTES = 'put it in quotes, like "this"'
Check = Callable[..., Iterator[Trouble]]
ENTRIES: Mapping[str, tuple[Callable[[object], bool], Check, str, str]] = {
    # of a list: what one entry must be, what is looked at then, what is meant, and what to write for it
    "wholes": (_is_whole, _whole, "a whole number is meant, not {}", ""),
    "words": (_is_word, _word, "text in quotes is meant, not {}", QUOTES),
    "ranges": (_is_range, _range, "a list of two whole numbers, from and to, is meant, not {}", ""),
    "pairs": (_is_pair, _pair, "two texts are meant, a prompt and its answer", PAIR),
}
CHECKS: Mapping[str, tuple[Callable[[object], bool], Check]] = {
    "whole": (_is_whole, _whole),
    "wholes": (_is_list, _list),
    "word": (_is_word, _word),
    "words": (_is_list, _list),
    "range": (_is_range, _range),
    "ranges": (_is_ranges, _list),
    "yes-no": (lambda value: isinstance(value, bool), _yes_no),
    "pairs": (_is_list, _list),
    "letters": (_is_letters, _letters),
    "phrase": (_is_phrase, _phrase),
}


# --- the value a skill keeps --------------------------------------------------------------------------


def table_values(table: Mapping[str, object], options: Mapping[str, Option]) -> Mapping[str, object]:
    """Of a table without troubles: every option, lists as tuples, texts cleaned, defaults filled in."""
    return {key: _made(table.get(key, option.default)) for key, option in options.items()}


def _made(value: object) -> object:
    if isinstance(value, str):
        return clean(value)
    if isinstance(value, (list, tuple)):  # half the time of list | tuple, measured here
        return tuple([_made(part) for part in value])
    if isinstance(value, dict):
        return tuple((key, _made(inner)) for key, inner in value.items())
    return value


def paired(value: object) -> tuple[tuple[str, str], ...]:
    """The pairs of a list of one's own, numbers as text."""
    pairs = value if isinstance(value, tuple) else ()
    return tuple((str(prompt), str(answer)) for prompt, answer in pairs)


def circles(edges: Mapping[str, Sequence[str]]) -> Iterator[tuple[str, ...]]:
    """Names that wait for each other in a circle, the first again at the end: of each name the shortest.

    Of 200 names that all name each other there are more circles than can be told.
    """
    told: set[frozenset[tuple[str, str]]] = set()
    for start in edges:
        path = _back_to(start, edges)
        steps = frozenset(pairwise(path))
        if path and steps not in told:
            told.add(steps)
            yield path


def _back_to(start: str, edges: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    trails: list[tuple[str, ...]] = [(start,)]
    met = {start}
    for trail in trails:  # it grows meanwhile: near names first
        for name in edges.get(trail[-1], ()):
            if name == start:
                return (*trail, start)
            if name not in met:
                met.add(name)
                trails.append((*trail, name))
    return ()
