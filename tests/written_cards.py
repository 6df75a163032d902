"""Writes down which cards every shipped set has, with their traits, so that a report need not make them.

    python -m tests.written_cards

To be run after a change of a shipped set, or of what a kind makes of it.
"""

import json

from review import catalogue, config, files
from review.core import card_sets, skills
from review.core.model import Skill, SkillSet, Traits
from review.core.skills import KINDS
from review.core.written_cards import seal


def lines() -> str:
    """A line a set, from what its text says and its kinds make."""
    return "".join(f"{line(text)}\n" for text in map(text_of, catalogue.names()))


def text_of(set_id: str) -> str:
    return files.read_text(config.catalogue_folder() / f"{set_id}.toml")


def line(text: str) -> str:
    found = card_sets.trusted_set(text)
    traits = {card.key: traits_row(skills.traits(card.key)) for card in card_sets.cards([found])}
    skill_rows = [skill_row(skill) for skill in found.skills]
    row = [found.id, seal(text), *head(found), skill_rows, traits]
    return json.dumps(row, ensure_ascii=False, separators=(",", ":"))


def head(found: SkillSet) -> list[object]:
    return [found.title, found.about, found.aim, found.ages, found.standards]


def skill_row(one: Skill) -> list[object]:
    keys = list(KINDS[one.kind].keys(one))
    made = (one.id, one.title, one.kind, one.aim, dict(one.options), one.after, one.strategies, one.note)
    return [*made, keys]


def traits_row(its: Traits) -> list[object]:
    groups, pairs = sorted(its.groups), sorted(its.digit_pairs)
    return [its.title, its.fact, its.seconds, groups, its.family, its.partner, its.choices, pairs]


if __name__ == "__main__":
    path = config.catalogue_folder() / catalogue.CARDS
    path.write_text(lines(), encoding="utf-8", newline="\n")
    print(f"{path.name}: {path.stat().st_size:,} bytes")
