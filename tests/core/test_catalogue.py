"""Every shipped set: read without a mistake, every card sound, every standard a published one.

Standards are written as the column `code` of tests/data/standards.csv has them: "2.OA.B.2" of the US Common
Core State Standards 2010, "Y4 mult/div" (year and strand) of England's national curriculum 2013, and "MTC",
England's multiplication tables check. The table was read off the published texts.
"""

import re
from collections import Counter
from functools import cache
from pathlib import Path
from random import Random

import pytest

from review import catalogue
from review.core.answers import judge
from review.core.card_sets import cards, read_set
from review.core.keys import content_of, well_formed
from review.core.model import HELP_STEPS, Card, SkillSet
from review.core.skills import KINDS, draw, problem, traits
from tests.core.shown import for_a_child
from tests.tables import rows

TOP = Path(__file__).parents[2]
FILES = sorted((TOP / "card_sets").glob("*.toml"))
NAMES = [path.stem for path in FILES]

# Titles and descriptions are for a parent: no verdict and no hurry there either.
NEVER = re.compile(r"\b(wrong|easy|quick|overdue|correct|just|still|clever)\b", re.IGNORECASE)


# Kinds with cards of more than a minute: the plan keeps those for paper.
ON_PAPER = {"column-difference", "column-product", "division-written"}


@cache
def shipped(name: str) -> SkillSet:
    found, told = read_set((TOP / "card_sets" / f"{name}.toml").read_text(encoding="utf-8"), f"{name}.toml")
    assert found is not None, told
    return found


def whole() -> list[SkillSet]:
    return [shipped(name) for name in NAMES]


@cache
def all_cards() -> tuple[Card, ...]:
    return cards(whole())


def facts(name: str) -> list[str]:
    return [card.key for card in cards([shipped(name)])]


@pytest.mark.parametrize("name", NAMES)
def test_a_set_is_read_and_called_as_its_file(name: str) -> None:
    found = shipped(name)
    assert found.id == name
    assert found.about
    assert 1 <= len(cards([found])) <= 150  # our judgement: what a child can meet in a year
    assert not NEVER.search(" ".join([found.title, found.about, *(skill.title for skill in found.skills)]))


def test_names_are_of_one_thing_only() -> None:
    skills = Counter(skill.id for one in whole() for skill in one.skills)
    assert max(skills.values()) == 1, skills.most_common(3)
    assert not set(skills) & set(NAMES)
    titles = Counter(one.title for one in whole())
    assert max(titles.values()) == 1, titles.most_common(3)


def test_skills_come_after_skills_there_are() -> None:
    known = {skill.id for one in whole() for skill in one.skills}
    unknown = {name for one in whole() for skill in one.skills for name in skill.after} - known
    assert not unknown


def test_no_skill_waits_for_an_older_childs_skill() -> None:
    age = {skill.id: one.ages[0] for one in whole() for skill in one.skills}
    for one in whole():
        for skill in one.skills:
            assert all(age[name] <= one.ages[0] for name in skill.after), skill.id


@pytest.mark.parametrize(
    ("skill", "stands_on"),
    [
        ("clock-five-minutes", "counting-in-5s"),
        ("clock-minutes", "table-of-5"),
        *((f"{money}-like-{coin}", f"counting-in-{coin}s")
          for money in ("pounds", "euros") for coin in (2, 5, 10)),
        ("dollars-like-5", "counting-in-5s"),
        *((f"stories-groups-{tables}", f"table-of-{table}")
          for tables in ("2-5-10", "3-4-8", "6-7-9") for table in tables.split("-")),
        *((f"stories-sharing-{tables}", f"division-of-{table}")
          for tables in ("2-5-10", "3-4-8", "6-7-9") for table in tables.split("-")),
        *(("one-part-of-a-number", f"division-of-{table}") for table in (5, 8, 10)),
        ("dollars-like-10", "counting-in-10s"),
        ("metres-to-centimetres", "numbers-times-100"),
        ("centimetres-to-millimetres", "numbers-times-10"),
        *((unit, "numbers-times-1000")
          for unit in ("kilometres-to-metres", "kilograms-to-grams", "tonnes-to-kilograms",
                       "litres-to-millilitres")),
        ("centimetres-to-metres", "numbers-divided-by-100"),
        ("millimetres-to-centimetres", "numbers-divided-by-10"),
        *((unit, "numbers-divided-by-1000")
          for unit in ("metres-to-kilometres", "grams-to-kilograms", "kilograms-to-tonnes",
                       "millilitres-to-litres")),
        ("around-a-square", "table-of-4"),
        *(("area-of-a-square", f"table-of-{table}") for table in (6, 7, 8, 9)),
        *(("side-from-the-area", f"division-of-{table}") for table in (6, 7, 8, 9)),
    ],
)  # fmt: skip
def test_what_the_worked_steps_reckon_with_is_taught_before(skill: str, stands_on: str) -> None:
    """Common practice, no source: the tables before stories of groups, fives before five minutes."""
    after = {one.id: one.after for each in whole() for one in each.skills}
    assert stands_on in after[skill]


def test_in_teaching_order_each_skill_follows_what_it_comes_after() -> None:
    place: dict[str, int] = {}
    for card in all_cards():
        place.setdefault(card.skill, card.order)
    for one in whole():
        for skill in one.skills:
            assert all(
                place[name] < place.get(skill.id, len(all_cards())) for name in skill.after if name in place
            )


def test_each_strategy_a_skill_names_suits_some_of_its_problems() -> None:
    named = 0
    for skill in (skill for one in whole() for skill in one.skills if skill.strategies):
        random = Random(skill.id)
        many = 1 if all(traits(key).fact for key in KINDS[skill.kind].keys(skill)) else 300
        drawn = ((key, draw(key, random)) for key in KINDS[skill.kind].keys(skill) for _ in range(many))
        found = {way.strategy for key, asked in drawn for way in KINDS[skill.kind].ways(key, asked)}
        assert set(skill.strategies) <= found, skill.id
        named += 1
    assert named > 50


def test_every_kind_is_in_the_catalogue() -> None:
    assert {card.kind for card in all_cards()} == set(KINDS)


@pytest.mark.parametrize("name", NAMES)
def test_every_card_of_a_set_is_sound(name: str) -> None:
    for card in cards([shipped(name)]):
        random = Random(card.key)
        for _ in range(1 if traits(card.key).fact else 8):
            asked = draw(card.key, random)
            one = problem(card.key, asked)
            told = f"{card.key} {asked}"
            assert well_formed(card.key, asked), told
            assert (one.card, one.asked, one.kind) == (card.key, asked, card.kind)
            assert judge(one, one.expected) == "right", told
            assert for_a_child(one), told
            assert one.say, told
            assert "\n" not in one.prompt, told
            steps = [HELP_STEPS.index(help.step) for help in one.helps]
            assert steps == sorted(set(steps)), told


@pytest.mark.parametrize("name", NAMES)
def test_what_the_planner_is_told(name: str) -> None:
    for card in cards([shipped(name)]):
        known = traits(card.key)
        assert known.title
        assert 1 <= known.seconds <= (180 if card.kind in ON_PAPER else 60)
        assert known.groups
        assert known.choices in (0, 2, 3)
        assert not (card.aim == "fluency" and known.choices)


# --- standards ----------------------------------------------------------------------------------------


def published() -> dict[str, list[dict[str, str]]]:
    table = rows("standards.csv")
    return {code: [row for row in table if row["code"] == code] for code in {row["code"] for row in table}}


@pytest.mark.parametrize("name", NAMES)
def test_standards_are_published_ones_for_about_that_age(name: str) -> None:
    """A child may meet a thing a year after its standard, or keep it up later; never years before it."""
    known = published()
    youngest, oldest = shipped(name).ages
    for code in shipped(name).standards:
        assert code in known, code
        ages = [list(map(int, row["age"].split("-"))) for row in known[code]]
        assert min(low for low, _ in ages) <= oldest, code
        assert max(high for _, high in ages) >= youngest, code


def pairs_of(name: str, sign: str) -> set[tuple[int, int]]:
    """The numbers of the facts of a set, without its rule cards."""
    contents = [content_of(key) for key in facts(name)]
    return {(int(a), int(b)) for a, _, b in (content.partition(sign) for content in contents) if a != "n"}


def rules_of(name: str) -> set[str]:
    return {key for key in facts(name) if "n" in content_of(key)}


def both(pairs: set[tuple[int, int]]) -> set[tuple[int, int]]:
    return pairs | {(b, a) for a, b in pairs}


def test_sums_of_one_digit_numbers_are_all_there() -> None:
    """2.OA.B.2: all sums of two one-digit numbers from memory; 1.OA.C.6 and K.OA.A.5: within 10."""
    assert both(pairs_of("addition-facts-10", "+")) == {
        (a, b) for a in range(1, 10) for b in range(1, 10) if a + b <= 10
    }
    together = both(pairs_of("addition-facts-10", "+") | pairs_of("addition-facts-20", "+"))
    assert together == {(a, b) for a in range(1, 11) for b in range(1, 11)}
    assert rules_of("addition-facts-10") == {"sum:n+0"}


def test_totals_to_20_are_all_there() -> None:
    """Y2 add/sub and 1.OA.C.6: facts to 20."""
    sets = ("addition-facts-10", "addition-facts-20", "addition-totals-20")
    together = both(set().union(*(pairs_of(name, "+") for name in sets)))
    assert together == {(a, b) for a in range(1, 20) for b in range(1, 20) if a + b <= 20}


def test_differences_to_20_are_all_there() -> None:
    """The sums turned round: Y1 add/sub "bonds and related subtraction within 20"."""
    assert pairs_of("subtraction-facts-10", "-") == {(a, b) for a in range(2, 11) for b in range(1, a)}
    assert pairs_of("subtraction-facts-20", "-") == {
        (a + b, b) for a in range(1, 11) for b in range(1, 11) if a + b > 10
    }
    sets = ("subtraction-facts-10", "subtraction-facts-20", "subtraction-totals-20")
    assert set().union(*(pairs_of(name, "-") for name in sets)) == {
        (a, b) for a in range(2, 21) for b in range(1, a)
    }
    assert rules_of("subtraction-facts-10") == {"difference:n-0", "difference:n-n"}


@pytest.mark.parametrize("step", ["2-5-10", "3-4-8", "6-7-9"])
def test_tables_of_a_step_go_to_ten_times(step: str) -> None:
    """Y2, Y3, Y4 mult/div: tables of 2, 5, 10; 3, 4, 8; the others."""
    tables = set(map(int, step.split("-")))
    expected = {(a, b) for a in range(2, 11) for b in range(2, 11) if {a, b} & tables}
    assert both(pairs_of(f"times-{step}", "x")) == expected
    assert {(a // b, b) for a, b in pairs_of(f"division-{step}", "/")} == expected


def test_all_tables_are_there() -> None:
    """3.OA.C.7: all products of two one-digit numbers; MTC: 2 to 12 times 2 to 12, 66 in all (counts.csv)."""
    to_10 = set().union(*(pairs_of(f"times-{step}", "x") for step in ("2-5-10", "3-4-8", "6-7-9")))
    assert both(to_10) == {(a, b) for a in range(2, 11) for b in range(2, 11)}
    to_12 = to_10 | pairs_of("times-11-12", "x")
    assert both(to_12) == {(a, b) for a in range(2, 13) for b in range(2, 13)}
    assert len(to_12) == 66
    assert rules_of("times-2-5-10") == {"product:nx0", "product:nx1"}
    assert rules_of("division-2-5-10") == {"quotient:n/1", "quotient:n/n"}


def test_tables_are_met_in_the_order_teachers_use() -> None:
    """2, 10, 5, 4, 8, 3, 6, 9, 7, 11, 12: common practice, no source."""
    steps = ("2-5-10", "3-4-8", "6-7-9", "11-12")
    order = [2, 10, 5, 4, 8, 3, 6, 9, 7, 11, 12]
    for kind, begin in (("times", "table-of"), ("division", "division-of")):
        assert [skill.id for step in steps for skill in shipped(f"{kind}-{step}").skills] == [
            f"{begin}-{table}" for table in order
        ]
    counted = [
        skill.id for step in steps for skill in shipped(f"counting-{step}").skills if "back" not in skill.id
    ]
    assert counted == [f"counting-in-{table}s" for table in order]


def test_bonds_doubles_and_halves_are_all_there() -> None:
    """K.OA.A.3 and K.OA.A.4: pairs for every number to 10; Y1 add/sub: bonds within 20; 2.OA.C.3: to 20."""
    for name, low, high in (("number-bonds-10", 2, 10), ("number-bonds-20", 11, 20)):
        parts = {f"bond:{n}={a}+{n - a}" for n in range(low, high + 1) for a in range(1, n // 2 + 1)}
        assert set(facts(name)) == parts
    halves = {f"half:{2 * n}" for n in range(1, 11)}
    assert set(facts("doubles-halves-20")) == {f"double:{n}" for n in range(1, 11)} | halves


def test_a_partner_is_in_the_catalogue_and_of_an_earlier_skill() -> None:
    order = {card.key: card.order for card in all_cards()}
    for key in order:
        partner = traits(key).partner
        assert not partner or order[partner] < order[key], key


def test_the_list_tells_of_each_set_what_stands_in_it() -> None:
    """The list reads only what stands above the skills."""
    for told, whole in zip(catalogue.heads(), catalogue.whole(), strict=True):
        assert told[:6] == whole[:6]
        assert told.skills == len(whole.skills)
