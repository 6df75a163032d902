"""What is amiss in the tables of a set: as they are laid out, in every value, and in what its skills mean."""

import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import islice
from typing import NamedTuple, cast

from review.core.keys import WORD
from review.core.model import AIMS, Aim, Skill
from review.core.set_keys import Trouble, circles, mistyped, seen, shown, table_troubles
from review.core.set_tables import MOST_SKILLS, SET_KEYS, SKILL_KEYS, Table, Written, made_skill, skill_tables
from review.core.skills import KINDS, are_guessed
from review.core.skills.kinds import Kind
from review.core.text import clean, nearest
from review.core.toml_text import Path

MOST_CARDS = 5000  # of one set: more than a child meets in all the years of school
MOST_TEMPLATES = 40  # of one set; our judgement: the numbers of each are tried out whenever the set is read
MOST_MISTAKES = 1000  # told at once; our judgement
MOST_NAMED = 12  # of skills that wait for each other; our judgement
MOST_OFFERED = 20  # unknown skills with the nearest name beside them; our judgement: that search is slow


class Understood(NamedTuple):
    """A skill whose own keys can be looked at for what they mean, whatever else is amiss."""

    skill: Skill
    path: Path
    pairs: Sequence[int]  # the places of its pairs, as they are written
    whole: bool = True  # False: with an empty range in the place of one that is amiss


def troubles_of(whole: Table, known: Collection[str] | None) -> Iterator[Trouble]:
    """What is wrong with the layout of a file, with each of its values, and with what its skills mean, as far
    as they can be understood."""
    head, skills = whole.get("set"), skill_tables(whole)
    yield from _layout_troubles(whole)
    if isinstance(head, dict):
        yield from table_troubles(head, SET_KEYS, ("set",))
        yield from _id_troubles(head, ("set",))
    yield from _twice(skills)
    yield from _too_many_templates(skills)
    spare = _templates(skills)[MOST_TEMPLATES:]  # to try out all the numbers of these as well would take long
    if known is not None:
        yield from islice(_unknown_skills(skills, {*known, *_ids(whole)}), MOST_MISTAKES)
    yield from _circles(skills)
    found: list[Understood] = []
    for one in skills:
        troubles = [*_skill_troubles(one)]
        yield from troubles
        found += _understood(one, troubles, _aim_of(head)) if one.path not in spare else ()
    yield from _meaning_troubles(found)


def _layout_troubles(whole: Table) -> Iterator[Trouble]:
    """One [set], some [[skill]], nothing else."""
    skills = whole.get("skill")
    meant = mistyped(whole, ("set", "skill"))
    if not isinstance(whole.get("set"), dict) and "set" not in meant:
        yield Trouble(("set",), "there is no [set] table", 'begin with [set] and under it id = "our-sums"')
    if skills is None and "skill" in meant:
        pass  # told as what was written
    elif not isinstance(skills, list) or not all(isinstance(table, dict) for table in skills):
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
            wrong, other = f"there is no key {shown(key)} here", "keys stand under [set] or [[skill]]"
            yield Trouble((key,), *seen(key, wrong, ("set", "skill"), other))


def _skill_troubles(one: Written) -> Iterator[Trouble]:
    """With an unknown kind nobody knows its keys: then only those of every skill are looked at."""
    kind = KINDS.get(str(one.table.get("kind")))
    common = {
        key: value for key, value in one.table.items() if key in SKILL_KEYS or mistyped([key], ["kind"])
    }
    if kind:
        yield from table_troubles(one.table, {**SKILL_KEYS, **kind.options}, one.path)
    else:
        yield from table_troubles(common, SKILL_KEYS, one.path)
    yield from _id_troubles(*one)


def _id_troubles(table: Table, path: Path) -> Iterator[Trouble]:
    name = table.get("id")
    if isinstance(name, str) and clean(name) and not re.fullmatch(WORD, name):
        words = "-".join(re.findall(r"[a-z0-9]+", name.casefold())) or "our-sums"
        hint = f'write small letters, digits and hyphens, like "{words[:60]}"'
        yield Trouble((*path, "id"), *seen(name, f"{shown(name)} cannot be a name", (), hint))


def _twice(skills: Iterable[Written]) -> Iterator[Trouble]:
    seen: set[str] = set()
    for table, path in skills:
        name = table.get("id")
        if isinstance(name, str) and name in seen:
            yield Trouble(
                (*path, "id"), f"another skill is called {shown(name)} already", "choose another name"
            )
        seen.add(str(name))


def _templates(skills: Iterable[Written]) -> list[Path]:
    return [one.path for one in skills if one.table.get("kind") == "template"]


def _too_many_templates(skills: Iterable[Written]) -> Iterator[Trouble]:
    paths = _templates(skills)
    if len(paths) > MOST_TEMPLATES:
        wrong = f"the set has {len(paths)} templates"
        yield Trouble((*paths[MOST_TEMPLATES], "kind"), wrong, f"write {MOST_TEMPLATES} at most")


def _ids(whole: Table) -> Iterator[str]:
    """Of all skills, also of those beyond the most there may be."""
    skills = whole.get("skill")
    tables = skills if isinstance(skills, list) else []
    return (str(table.get("id")) for table in tables if isinstance(table, dict))


def _after(table: Table) -> list[str]:
    """The texts there, each at its place; "" for what is none."""
    names = table.get("after")
    return [name if isinstance(name, str) else "" for name in names] if isinstance(names, list) else []


def _unknown_skills(skills: Iterable[Written], known: Collection[str]) -> Iterator[Trouble]:
    offered = 0
    for table, path in skills:
        for place, name in enumerate(_after(table)):
            if name and name not in known:
                near = nearest(name, known, 1) if offered < MOST_OFFERED else []
                offered += 1
                wrong, other = f"there is no skill {shown(name)}", "take it out, or write a skill there is"
                yield Trouble((*path, "after", place), *seen(name, wrong, near, other))


def _circles(skills: Iterable[Written]) -> Iterator[Trouble]:
    named = {name: one for one in reversed([*skills]) if isinstance(name := one.table.get("id"), str)}
    after = {
        name: tuple(other for other in dict.fromkeys(_after(one.table)) if other in named)
        for name, one in reversed(named.items())
    }
    for names in circles(after):
        if len(names) == 2:
            yield Trouble((*named[names[0]].path, "after"), "a skill cannot come after itself", "take it out")
            continue
        told = names if len(names) <= MOST_NAMED else (*names[: MOST_NAMED - 2], "…", names[-1])
        wrong = f"these skills wait for each other: {', '.join(clean(name)[:60] for name in told)}"
        yield Trouble((*named[names[0]].path, "after"), wrong, "take one of them out")


# --- what cannot be -----------------------------------------------------------------------------------

STAND_INS: Table = {"id": "a-skill", "title": "A skill"}


def _aim_of(head: object) -> Aim:
    aim = head.get("aim") if isinstance(head, dict) else None
    return cast(Aim, aim) if aim in AIMS else "accuracy"


def _understood(one: Written, troubles: Sequence[Trouble], aim: Aim) -> Iterator[Understood]:
    """The skill, if all keys of its kind are in order; of a list of pairs those that are, of letters those
    whose range is not the one thing amiss.

    What is amiss in the keys that every skill has, like a title without an end, hides nothing of the others.
    """
    kind = KINDS.get(str(one.table.get("kind")))
    if not kind:
        return
    amiss = {str(trouble.path[2]) for trouble in troubles}
    table = {**STAND_INS, **{key: value for key, value in one.table.items() if key not in amiss}}
    pairs = _sound_pairs(one.table.get("pairs"), troubles)
    if "pairs" in kind.options and pairs:
        table["pairs"] = [cast(list[object], one.table["pairs"])[place] for place in pairs]
        amiss.discard("pairs")
    letters = _with_empty_ranges(one.table.get("letters"), troubles)
    if letters:
        table["letters"] = letters
        amiss.discard("letters")
    if not _hindered(amiss, table, kind):
        skill = made_skill(table, "", "accuracy" if "aim" in amiss else aim)
        yield Understood(skill, one.path, pairs, not letters)


def _hindered(amiss: set[str], table: Table, kind: Kind) -> bool:
    """An unknown key may be one of the kind's own, mistyped, unless they are all there."""
    meant = kind.options.keys() - table.keys()
    return bool(amiss - SKILL_KEYS.keys() if meant else amiss & kind.options.keys())


def _sound_pairs(value: object, troubles: Iterable[Trouble]) -> list[int]:
    """The places of pairs that are pairs; none of a list that is amiss as a whole."""
    amiss = {trouble.path[3:4] for trouble in troubles if trouble.path[2] == "pairs"}
    count = len(value) if isinstance(value, list) and () not in amiss else 0
    return [place for place in range(count) if (place,) not in amiss]


EMPTY = (1, 0)


def _with_empty_ranges(value: object, troubles: Iterable[Trouble]) -> dict[str, object]:
    """The letters where ranges alone are amiss, each of those with an empty one in its place; else none."""
    amiss = {trouble.path[3:4] for trouble in troubles if trouble.path[2] == "letters"}
    names = [str(name) for place in amiss for name in place]
    if not names or () in amiss or not isinstance(value, dict):
        return {}
    return {**value, **dict.fromkeys(names, EMPTY)} if all(map(re.compile("[a-z]").fullmatch, names)) else {}


def _meaning_troubles(found: Sequence[Understood]) -> Iterator[Trouble]:
    """Conditions that cannot be met, cards that cannot be."""
    keys: list[list[str]] = []
    for one in found:
        kind = KINDS[one.skill.kind]
        impossible = [Trouble(_path_in(one, name), *what) for name, *what in kind.check(one.skill)]
        can_be = one.whole and not impossible
        keys.append([*islice(kind.keys(one.skill), MOST_CARDS + 1)] if can_be else [])
        yield from _card_troubles(one.skill, one.path, keys[-1]) if can_be else impossible
    yield from _too_many(found, keys)
    yield from _contradictions(found)


def _path_in(one: Understood, name: str) -> Path:
    """`pairs[3]`, places from 1, as a path."""
    key, _, place = name.partition("[")
    if not place:
        return (*one.path, key)
    number = int(place.rstrip("]")) - 1
    return (*one.path, key, one.pairs[number] if key == "pairs" else number)


def _card_troubles(skill: Skill, path: Path, keys: Sequence[str]) -> Iterator[Trouble]:
    if not keys:
        hint = f"widen {_ranges_of(skill)}" if _ranges_of(skill) else "change its keys"
        yield Trouble(path, "no problem fits all the keys of this skill", hint)
    if skill.aim == "fluency" and are_guessed(keys):
        wrong = "with two or three answers to choose from, knowing and guessing look alike"
        yield Trouble((*path, "aim"), wrong, 'write aim = "accuracy" in this skill')


def _ranges_of(skill: Skill) -> str:
    options = KINDS[skill.kind].options
    return " or ".join(name for name, option in options.items() if option.type in ("range", "ranges"))


def _too_many(found: Sequence[Understood], keys: Sequence[list[str]]) -> Iterator[Trouble]:
    if len({key for some in keys for key in some}) > MOST_CARDS:
        most = max(range(len(keys)), key=lambda place: len(keys[place]))
        wrong = f"the set makes more than {MOST_CARDS:,} cards"
        yield Trouble(found[most].path, wrong, "narrow its ranges, or make several sets of it")


def _contradictions(found: Iterable[Understood]) -> Iterator[Trouble]:
    """One prompt with two answers: nobody could know which is meant."""
    answers: dict[str, str] = {}
    for skill, path, places, _ in found:
        pairs = cast(Iterable[tuple[str, str]], skill.options.get("pairs", ()))
        for place, (prompt, answer) in zip(places, pairs, strict=True):
            if prompt and answers.setdefault(prompt.casefold(), answer) != answer:
                wrong = "this prompt stands in the set with another answer"
                yield Trouble((*path, "pairs", place), wrong, "change or take out one of the two")
