"""Sets are read as they are written, and make their cards in teaching order."""

import pathlib
import tomllib
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.card_sets import cards, from_memory, trusted_set, with_aim
from review.core.model import AIMS, Aim, SkillSet
from review.core.skills import KINDS
from tests.core.small_sets import HEAD, SKILL, mistakes, sound

SHIPPED = sorted((pathlib.Path(__file__).parents[2] / "card_sets").glob("*.toml"))

# --- a sound set --------------------------------------------------------------------------------------


def test_a_set_with_its_defaults_filled_in() -> None:
    found = sound(HEAD + SKILL + 'aim = "fluency"\nafter = ["bonds-of-10"]\nstrategies = ["doubles"]\n')
    assert found[:6] == ("our-sums", "Our sums", "", "accuracy", (7, 9), ())
    (skill,) = found.skills
    assert skill.options == {"numbers": (1, 10), "step": 1}
    assert (skill.aim, skill.set_id, skill.after) == ("fluency", "our-sums", ("bonds-of-10",))
    assert [card.key for card in cards([found])] == [f"double:{number}" for number in range(1, 11)]


def test_texts_come_in_clean() -> None:
    text = HEAD.replace("Our sums", "Our \\u202esums\\u001b[31m") + SKILL
    assert sound(text).title == "Our sums[31m"
    pairs = (
        '\n[[skill]]\nid = "p"\ntitle = "P"\nkind = "pairs"\npairs = [["a \\u200b  b", " 7 "], ["c", 8]]\n'
    )
    assert sound(HEAD + pairs).skills[0].options == {"pairs": (("a b", "7"), ("c", "8"))}


@pytest.mark.parametrize("kind", KINDS)
def test_the_example_of_every_option_is_sound(kind: str) -> None:
    for name, option in KINDS[kind].options.items():
        written = option.example or f'"{option.choices[0]}"'
        tomllib.loads(f"{name} = {written}")
        text = HEAD + f'[[skill]]\nid = "s"\ntitle = "S"\nkind = "{kind}"\n{name} = {written}\n'
        assert not [
            told for told in mistakes(text) if told.path.startswith(f"skill[1].{name}") and told.line == 10
        ]


# --- shipped sets, which are not checked again --------------------------------------------------------


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_a_shipped_set_is_the_same_with_and_without_a_check(path: pathlib.Path) -> None:
    text = path.read_text(encoding="utf-8")
    found = sound(text)
    assert trusted_set(text) == found
    assert repr(trusted_set(text)) == repr(found)  # 1 == True


def test_shipped_sets_are_there() -> None:
    assert len(SHIPPED) > 100


@pytest.mark.parametrize("text", ["", "[set", SKILL, "set = 1\n" + SKILL, HEAD + SKILL.replace("le", "lo")])
def test_a_text_that_is_no_set_is_not_trusted(text: str) -> None:
    with pytest.raises((LookupError, TypeError, ValueError, AttributeError)):
        trusted_set(text)


# --- cards --------------------------------------------------------------------------------------------


def named(set_id: str, *skills: tuple[str, str, list[int], list[str]]) -> SkillSet:
    """Of skills (id, aim, tables, after)."""
    text = HEAD.replace("our-sums", set_id) + "".join(
        f'[[skill]]\nid = "{name}"\ntitle = "T"\nkind = "product"\naim = "{aim}"\ntables = {tables}\n'
        f"times = [2, 3]\nafter = {after}\n".replace("'", '"')
        for name, aim, tables, after in skills
    )
    return sound(text)


def test_a_key_is_one_card_with_the_stricter_aim() -> None:
    one = named("one", ("a", "familiarity", [2], []), ("b", "accuracy", [2, 3], []))
    two = named("two", ("c", "fluency", [3], []))
    found = cards([one, two])
    assert [(card.key, card.skill, card.set_id, card.aim, card.order) for card in found] == [
        ("product:2x2", "a", "one", "accuracy", 0),
        ("product:2x3", "a", "one", "fluency", 1),
        ("product:3x3", "b", "one", "fluency", 2),
    ]
    assert {card.key: card.aim for card in cards([two, one])} == {card.key: card.aim for card in found}


GUESSED = """
[[skill]]
id = "signs"
title = "T"
kind = "compare"
digits = 2
"""


@pytest.mark.parametrize(
    ("aim", "aims"),
    [
        ("fluency", ["fluency", "accuracy"]),  # the aim of the set stands where one could guess
        ("accuracy", ["accuracy", "accuracy"]),
        ("familiarity", ["familiarity", "familiarity"]),
    ],
)
def test_the_aim_a_family_chose(aim: Aim, aims: list[Aim]) -> None:
    found = with_aim(sound(HEAD + SKILL + GUESSED), aim)
    assert [skill.aim for skill in found.skills] == aims
    assert found.aim == aim
    assert from_memory([found], [found.skills[0].id]) == (aim == "fluency")
    assert not from_memory([found], ["signs"])


def test_skills_come_after_those_they_name_over_all_sets() -> None:
    one = named("one", ("late", "accuracy", [9], ["early", "unknown"]), ("plain", "accuracy", [5], []))
    two = named("two", ("early", "accuracy", [2], ["first"]), ("first", "accuracy", [7], []))
    assert list(dict.fromkeys(card.skill for card in cards([one, two]))) == [
        "first",
        "early",
        "late",
        "plain",
    ]


def test_a_circle_over_two_sets_loses_no_card() -> None:
    one, two = named("one", ("a", "accuracy", [2], ["b"])), named("two", ("b", "accuracy", [7], ["a"]))
    assert len(cards([one, two])) == 4
    assert len(cards([one, one])) == 2


@given(st.randoms(use_true_random=False))
def test_any_order_of_skills_has_every_card_once(random: Random) -> None:
    skills = [
        (f"s{n}", random.choice(AIMS), [n], [f"s{m}" for m in range(2, n) if random.random() < 0.3])
        for n in range(2, 9)
    ]
    random.shuffle(skills)
    found = cards([named("set", *skills)])
    assert [card.order for card in found] == list(range(len(found)))
    assert len({card.key for card in found}) == len(found)
    first = {skill: place for place, skill in reversed(list(enumerate(card.skill for card in found)))}
    for name, _, _, after in skills:
        assert all(first[earlier] < first[name] for earlier in after if earlier in first and name in first)


def test_a_card_has_the_first_note_of_its_skills() -> None:
    named = SKILL.replace('id = "', 'id = "other-').replace('title = "', 'title = "Other ')
    for first, second, expected in (("One.", "Two.", "One."), ("", "Two.", "Two."), ("", "", "")):
        notes = [f'note = "{note}"\n' if note else "" for note in (first, second)]
        assert {card.note for card in cards([sound(f"{HEAD}{SKILL}{notes[0]}{named}{notes[1]}")])} == {
            expected
        }


def test_a_card_has_the_strategies_its_skills_name_and_all_where_one_leaves_them_open() -> None:
    named = SKILL.replace('id = "', 'id = "other-').replace('title = "', 'title = "Other ')
    for first, second, expected in (
        ('["doubles"]', '["near-doubles", "doubles"]', ("doubles", "near-doubles")),
        ('["doubles"]', "[]", ()),
        ("[]", '["doubles"]', ()),
    ):
        text = f"{HEAD}{SKILL}strategies = {first}\n{named}strategies = {second}\n"
        assert {card.strategies for card in cards([sound(text)])} == {expected}, (first, second)
