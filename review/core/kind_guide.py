"""What a kind takes, for whoever writes a set: its keys, a skill to begin with, the sets that have some."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from review.core.model import Skill, SkillSet
from review.core.set_keys import table_values
from review.core.set_tables import SKILL_KEYS
from review.core.skills import KINDS
from review.core.skills.kinds import Option
from review.core.skills.strategies import STRATEGIES, Strategy
from review.core.toml_text import quoted

WIDEST = 70  # columns of a line that is to be copied


class Guide(NamedTuple):
    """One kind. `found` is a set that has a skill of it, `skill` that skill."""

    name: str
    about: str
    keys: Mapping[str, Option]
    found: SkillSet
    skill: Skill
    strategies: Mapping[str, Strategy]  # which its help can follow
    sets: tuple[str, ...]


COMMON: Mapping[str, Option] = {key: SKILL_KEYS[key] for key in ("aim", "after", "note")}
"""What a skill of any kind may have; where help can follow a way, `strategies` besides."""


def guide(name: str, shipped: Sequence[SkillSet]) -> Guide:
    """Of a kind that there is; each has a skill in one of these sets, the first of which is shown."""
    kind = KINDS[name]
    having = [(found, skill) for found in shipped for skill in found.skills if skill.kind == name]
    sets = dict.fromkeys(found.id for found, _ in having)
    ways = {way: strategy for way, strategy in STRATEGIES.items() if name in strategy.kinds}
    return Guide(name, kind.about, kind.options, *having[0], ways, tuple(sets))


def written(skill: Skill) -> list[str]:
    """The skill as it may stand in a set of one's own, without what it may leave out. Its name is another: a
    child who has both sets would have two skills of one name."""
    options = KINDS[skill.kind].options
    usual = table_values({}, options)
    own = {key: value for key, value in skill.options.items() if value != usual[key]}
    said = {"id": f"our-{skill.id}", "title": skill.title, "kind": skill.kind, **own}
    rows = (_row(key, value, options.get(key)) for key, value in said.items())
    return ["[[skill]]", *(line for row in rows for line in row)]


def _row(key: str, value: object, option: Option | None) -> list[str]:
    """A key with its value; a long list has a line for each entry, so that no terminal breaks one."""
    whole = f"{key} = {literal(value, option)}"
    if len(whole) <= WIDEST or not isinstance(value, tuple):
        return [whole]
    return [f"{key} = [", *(f"  {literal(entry)}," for entry in value), "]"]


def literal(value: object, option: Option | None = None) -> str:
    """A value as TOML has it (toml.io, version 1.0.0)."""
    if option is not None and option.type == "letters" and isinstance(value, tuple):
        return f"{{ {', '.join(f'{letter} = {literal(span)}' for letter, span in value)} }}"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, tuple):
        return f"[{', '.join(map(literal, value))}]"
    return quoted(value) if isinstance(value, str) else str(value)
