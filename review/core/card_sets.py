"""TOML text -> (skill set, mistakes); skill sets -> cards.

All mistakes of meaning come together, each with its line, its key path and what to write instead; of syntax
the first. Any text at all gives a set or mistakes, never an error.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from itertools import islice
from typing import NamedTuple, cast

from review.core.keys import WORD
from review.core.model import AIMS, Aim, Card, Mistake, Option, Skill, SkillSet
from review.core.set_keys import Trouble, cycle, paired, shown, table_troubles, table_values
from review.core.skills import KINDS, traits
from review.core.text import nearest
from review.core.toml_text import Path, Unreadable, line_of, lines_of, parsed, written

MOST_CARDS = 5000  # of one set: more than a child meets in all the years of school
YOUNGEST, OLDEST = 4, 14  # our judgement: sets are made for 6 to 11, with room on both sides

MOST_SKILLS = 200  # of one set; our judgement
MOST_TEMPLATES = 40  # of one set; our judgement: the numbers of each are tried out whenever the set is read
MOST_MISTAKES = 1000  # told at once; our judgement

STRATEGIES = (
    "doubles", "near-doubles", "make-ten", "tens-and-ones", "five-as-anchor", "one-more-group",
    "ten-less-one", "partitioning", "counting-on", "counting-up", "bridging", "rounding", "compensating",
    "constant-difference",
)  # fmt: skip

SET_KEYS: Mapping[str, Option] = {
    "id": Option("word", "the name of the set, as typed in commands", None, 1, 60, example='"our-sums"'),
    "title": Option("word", "the name of the set for a reader", None, 1, 60, example='"Our sums"'),
    "about": Option("word", "what it is for, in a sentence or two", "", 0, 400, example='"For the car."'),
    "aim": Option("word", "how well it should be known", None, choices=AIMS, example='"fluency"'),
    "ages": Option("range", "the youngest and oldest it is for", None, YOUNGEST, OLDEST, example="[7, 9]"),
    "standards": Option("words", "codes of public standards it serves", (), 1, 80, example='["3.OA.C.7"]'),
}
SKILL_KEYS: Mapping[str, Option] = {
    "id": Option("word", "the name of the skill, as typed in commands", None, 1, 60, example='"sums-of-9"'),
    "title": Option("word", "the name of the skill for a reader", None, 1, 60, example='"Sums with 9"'),
    "kind": Option("word", "what kind of problems", None, choices=tuple(KINDS), example='"sum"'),
    "aim": Option("word", "where it differs from the set's", "", choices=AIMS, example='"accuracy"'),
    "after": Option("words", "skills to meet first", (), 1, 60, example='["sums-of-10"]'),
    "strategies": Option("words", "ways to work it out", (), choices=STRATEGIES, example='["make-ten"]'),
}

Table = Mapping[str, object]


class Written(NamedTuple):
    """A [[skill]] table and where it stands."""

    table: Table
    path: Path


# --- a file -------------------------------------------------------------------------------------------


def read_set(text: str, file: str) -> tuple[SkillSet | None, tuple[Mistake, ...]]:
    """A set without mistakes, or no set and all its mistakes in the order of their lines."""
    whole = parsed(text)
    if isinstance(whole, Unreadable):
        return None, (_mistake(file, whole.line, (), whole.wrong, whole.instead),)
    found, troubles = _understood(whole)
    if not troubles:
        return found, ()
    lines = _lines(text)
    mistakes = [_mistake(file, line_of(path, lines), path, *what) for path, *what in troubles]
    ordered = sorted(dict.fromkeys(mistakes), key=lambda mistake: (mistake.line, mistake.path))
    return None, tuple(ordered[:MOST_MISTAKES])


def _lines(text: str) -> Mapping[Path, int]:
    try:
        return lines_of(text)
    except RecursionError:  # brackets in brackets, as deep as the reader of TOML bears and no deeper
        return {}


def _mistake(file: str, line: int, path: Path, wrong: str, instead: str) -> Mistake:
    """Two sentences: "the list is empty." and "Write at least one, like [2, 5]."."""
    said, told = (text if text.endswith((".", "?")) else f"{text}." for text in (wrong, instead))
    return Mistake(file, line, written(path), said, told[:1].upper() + told[1:])


def _understood(whole: Table) -> tuple[SkillSet | None, list[Trouble]]:
    head, skills = whole.get("set"), _skill_tables(whole)
    troubles = [*_layout_troubles(whole)]
    if isinstance(head, dict):
        troubles += [*table_troubles(head, SET_KEYS, ("set",)), *_id_troubles(head, ("set",))]
    troubles += [trouble for one in skills for trouble in _skill_troubles(one)]
    troubles += [*_twice(skills), *_too_many_templates(skills)]
    if troubles or not isinstance(head, dict):
        return None, troubles
    found = _made_set(head, skills)
    return found, [*_meaning_troubles(found)]


def _skill_tables(whole: Table) -> list[Written]:
    skills = whole.get("skill")
    tables = skills[: MOST_SKILLS + 1] if isinstance(skills, list) else []
    return [Written(table, ("skill", place)) for place, table in enumerate(tables) if isinstance(table, dict)]


def _layout_troubles(whole: Table) -> Iterator[Trouble]:
    """One [set], some [[skill]], nothing else."""
    skills = whole.get("skill")
    if not isinstance(whole.get("set"), dict):
        yield Trouble(("set",), "there is no [set] table", 'begin with [set] and under it id = "our-sums"')
    if not isinstance(skills, list) or not all(isinstance(table, dict) for table in skills):
        wrong = "the set has no skills" if skills is None else "skills are not written like this"
        yield Trouble(("skill",), wrong, "write [[skill]], in two pairs of brackets, above each skill")
    elif not skills:
        yield Trouble(("skill",), "the set has no skills", "write [[skill]] above each skill")
    elif len(skills) > MOST_SKILLS:
        wrong = f"the set has {len(skills):,} skills"
        yield Trouble(
            ("skill", MOST_SKILLS), wrong, f"write {MOST_SKILLS} at most, or make several sets of it"
        )
    for key in whole:
        if key not in ("set", "skill"):
            near = nearest(key, ("set", "skill"), 1)
            hint = f"did you mean {near[0]}?" if near else "keys stand under [set] or [[skill]]"
            yield Trouble((key,), f"there is no key {shown(key)} here", hint)


def _skill_troubles(one: Written) -> Iterator[Trouble]:
    """With an unknown kind nobody knows its keys: then only those of every skill are looked at."""
    kind = KINDS.get(str(one.table.get("kind")))
    common = {key: value for key, value in one.table.items() if key in SKILL_KEYS}
    if kind:
        yield from table_troubles(one.table, {**SKILL_KEYS, **kind.options}, one.path)
    else:
        yield from table_troubles(common, SKILL_KEYS, one.path)
    yield from _id_troubles(*one)


def _id_troubles(table: Table, path: Path) -> Iterator[Trouble]:
    name = table.get("id")
    if isinstance(name, str) and name and not re.fullmatch(WORD, name):
        words = "-".join(re.findall(r"[a-z0-9]+", name.casefold())) or "our-sums"
        hint = f'write small letters, digits and hyphens, like "{words[:60]}"'
        yield Trouble((*path, "id"), f"{shown(name)} cannot be a name", hint)


def _twice(skills: Iterable[Written]) -> Iterator[Trouble]:
    seen: set[str] = set()
    for table, path in skills:
        name = table.get("id")
        if isinstance(name, str) and name in seen:
            yield Trouble(
                (*path, "id"), f"another skill is called {shown(name)} already", "choose another name"
            )
        seen.add(str(name))


def _too_many_templates(skills: Iterable[Written]) -> Iterator[Trouble]:
    paths = [one.path for one in skills if one.table.get("kind") == "template"]
    if len(paths) > MOST_TEMPLATES:
        wrong = f"the set has {len(paths)} templates"
        yield Trouble((*paths[MOST_TEMPLATES], "kind"), wrong, f"write {MOST_TEMPLATES} at most")


def _made_set(head: Table, skills: Iterable[Written]) -> SkillSet:
    values = table_values(head, SET_KEYS)
    aim = cast(Aim, values["aim"])
    return SkillSet(
        id=str(values["id"]),
        title=str(values["title"]),
        about=str(values["about"]),
        aim=aim,
        ages=cast(tuple[int, int], values["ages"]),
        standards=cast(tuple[str, ...], values["standards"]),
        skills=tuple(_made_skill(one.table, str(values["id"]), aim) for one in skills),
    )


def _made_skill(table: Table, set_id: str, aim: Aim) -> Skill:
    values = table_values(table, SKILL_KEYS)
    own = KINDS[str(values["kind"])].options
    options = table_values(table, own)
    pairs = {key: paired(options[key]) for key, option in own.items() if option.type == "pairs"}
    return Skill(
        id=str(values["id"]),
        title=str(values["title"]),
        kind=str(values["kind"]),
        aim=cast(Aim, values["aim"] or aim),
        options={**options, **pairs},
        after=cast(tuple[str, ...], values["after"]),
        strategies=cast(tuple[str, ...], values["strategies"]),
        set_id=set_id,
    )


# --- what cannot be -----------------------------------------------------------------------------------


def _meaning_troubles(found: SkillSet) -> Iterator[Trouble]:
    """Of a set in which every value is of its type: conditions that cannot be met, cards that cannot be."""
    keys: list[list[str]] = []
    for place, skill in enumerate(found.skills):
        path: Path = ("skill", place)
        impossible = [Trouble(_path_in(path, name), *what) for name, *what in KINDS[skill.kind].check(skill)]
        keys.append([] if impossible else [*islice(KINDS[skill.kind].keys(skill), MOST_CARDS + 1)])
        yield from impossible or _card_troubles(skill, path, keys[-1])
    yield from _too_many(keys)
    yield from _contradictions(keys)
    yield from _circle(found.skills)


def _path_in(path: Path, name: str) -> Path:
    """`pairs[3]`, places from 1, as a path."""
    key, _, place = name.partition("[")
    return (*path, key, int(place.rstrip("]")) - 1) if place else (*path, key)


def _card_troubles(skill: Skill, path: Path, keys: list[str]) -> Iterator[Trouble]:
    if not keys:
        hint = f"widen {_ranges_of(skill)}" if _ranges_of(skill) else "change its keys"
        yield Trouble(path, "no problem fits all the keys of this skill", hint)
    if skill.aim == "fluency" and any(traits(key).choices in (2, 3) for key in keys):
        wrong = "with two or three answers to choose from, knowing and guessing look alike"
        yield Trouble((*path, "aim"), wrong, 'write aim = "accuracy" in this skill')


def _ranges_of(skill: Skill) -> str:
    options = KINDS[skill.kind].options
    return " or ".join(name for name, option in options.items() if option.type in ("range", "ranges"))


def _too_many(keys: list[list[str]]) -> Iterator[Trouble]:
    most = max(range(len(keys)), key=lambda place: len(keys[place]))
    if len({key for some in keys for key in some}) > MOST_CARDS:
        wrong = f"the set makes more than {MOST_CARDS:,} cards"
        yield Trouble(("skill", most), wrong, "narrow its ranges, or make several sets of it")


def _contradictions(keys: list[list[str]]) -> Iterator[Trouble]:
    """One prompt with two answers: nobody could know which is meant."""
    answers: dict[str, str] = {}
    for place, some in enumerate(keys):
        for number, key in enumerate(some):
            prompt, _, answer = key.partition("=")
            if not key.startswith("pairs:"):
                continue
            if answers.setdefault(prompt.casefold(), answer) != answer:
                wrong = "this prompt stands in the set with another answer"
                yield Trouble(("skill", place, "pairs", number), wrong, "change or take out one of the two")


def _circle(skills: Iterable[Skill]) -> Iterator[Trouble]:
    after = {skill.id: skill.after for skill in skills}
    names = cycle(after)
    if names:
        wrong = f"these skills wait for each other: {', '.join(names)}"
        yield Trouble(("skill", [*after].index(names[0]), "after"), wrong, "take one of them out")


# --- skill sets -> cards ------------------------------------------------------------------------------


def cards(sets: Iterable[SkillSet]) -> tuple[Card, ...]:
    """In teaching order over all sets: as written, but no skill before those it comes after.

    A key that stands in several skills is one card, at its first place, with the strictest aim of them all;
    it comes as soon as one of them is taught.
    """
    found: dict[str, Card] = {}
    for skill in _teaching_order([skill for one in sets for skill in one.skills]):
        for key in KINDS[skill.kind].keys(skill):
            card = found.get(key)
            if card is None:
                found[key] = Card(key, skill.kind, skill.id, skill.set_id, skill.aim, len(found))
            elif skill.id != card.skill:
                stricter = max(card.aim, skill.aim, key=AIMS.index)
                found[key] = card._replace(aim=stricter, also=(*card.also, skill.id))
    return tuple(found.values())


def _teaching_order(skills: list[Skill]) -> list[Skill]:
    """Each skill behind those it names, where they are here; a circle over several sets stays as written."""
    places: dict[str, int] = {}
    for place, skill in enumerate(skills):
        places.setdefault(skill.id, place)
    before = [[places[name] for name in skill.after if name in places] for skill in skills]
    ordered: dict[int, Skill] = {}
    begun: set[int] = set()
    waiting = list(reversed(range(len(skills))))
    while waiting:
        place = waiting.pop()
        first = [other for other in before[place] if other not in begun]
        if first and place not in begun:
            waiting += [place, *reversed(first)]
        else:
            ordered.setdefault(place, skills[place])
        begun.add(place)
    return list(ordered.values())
