"""The tables of a set's text: which keys they have, and the skill set that sound ones make."""

from collections.abc import Mapping
from typing import NamedTuple, cast

from review.core.model import AIMS, Aim, Skill, SkillSet
from review.core.set_keys import paired, table_values
from review.core.skills import KINDS
from review.core.skills.kinds import Option
from review.core.skills.strategies import STRATEGIES
from review.core.toml_text import Path

YOUNGEST, OLDEST = 4, 14  # our judgement: sets are made for 6 to 11, with room on both sides
WIDTH = 40  # a line that a child reads
MOST_SKILLS = 200  # of one set; our judgement

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
    "strategies": Option(
        "words",
        "ways to work it out; help keeps to those that suit the numbers",
        (),
        choices=tuple(STRATEGIES),
        example='["make-ten"]',
    ),
    "note": Option(
        "word",
        "one line that helps to remember, said with an answer",
        "",
        1,
        WIDTH,
        example='"Ten times, less one."',
    ),
}

Table = Mapping[str, object]


class Written(NamedTuple):
    """A [[skill]] table and where it stands."""

    table: Table
    path: Path


def skill_tables(whole: Table) -> list[Written]:
    skills = whole.get("skill")
    tables = skills[: MOST_SKILLS + 1] if isinstance(skills, list) else []
    return [Written(table, ("skill", place)) for place, table in enumerate(tables) if isinstance(table, dict)]


def made_set(whole: Table) -> SkillSet:
    """The set of a file in which no trouble was found."""
    values = table_values(cast(Table, whole["set"]), SET_KEYS)
    aim = cast(Aim, values["aim"])
    return SkillSet(
        id=str(values["id"]),
        title=str(values["title"]),
        about=str(values["about"]),
        aim=aim,
        ages=cast(tuple[int, int], values["ages"]),
        standards=cast(tuple[str, ...], values["standards"]),
        skills=tuple(made_skill(one.table, str(values["id"]), aim) for one in skill_tables(whole)),
    )


def made_skill(table: Table, set_id: str, aim: Aim) -> Skill:
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
        note=str(values["note"]),
    )
