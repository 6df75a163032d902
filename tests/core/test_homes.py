"""Where a family lives, against the catalogue and the names of locales."""

import pytest

from review import catalogue
from review.core.currencies import CURRENCIES
from review.core.homes import BELONGS, EVERY, HOMES, MONEY, fits, money_of, paper, suggested
from review.core.model import Child, SkillSet
from review.core.school_years import AGES


@pytest.mark.parametrize(
    ("locale", "name"),
    [
        ("en_GB.UTF-8", "England"),
        ("en-US", "the United States"),
        ("en_IE.UTF-8@euro", "a country that pays in euros"),
        ("de_AT", "a country that pays in euros"),
        ("en_AU.UTF-8", "somewhere else"),
        ("C.UTF-8", "somewhere else"),
        ("POSIX", "somewhere else"),
        ("", "somewhere else"),
        ("en_GB\x1b[2J", "somewhere else"),
    ],
)
def test_the_region_of_a_locale_suggests_where_one_lives(locale: str, name: str) -> None:
    assert suggested(locale).name == name


def test_every_set_that_belongs_somewhere_is_there() -> None:
    assert {*BELONGS} <= {*catalogue.names()}
    assert all({*money} <= {*MONEY} for money in BELONGS.values())
    assert {home.money for home in HOMES} == {*MONEY, EVERY}


def pays(found: SkillSet) -> set[str]:
    """The currencies that its skills name, by the plural a family knows."""
    told = {str(skill.options.get("currency")) for skill in found.skills}
    return {CURRENCIES[name].major_names[1] for name in told & {*CURRENCIES}}


def test_every_set_of_money_shows_where_that_money_is_used() -> None:
    for found in catalogue.whole():
        for money in pays(found):
            assert fits(found.id, money), found.id
            assert sum(fits(found.id, other) for other in MONEY) == 1, found.id


def test_letter_is_the_paper_of_the_united_states_alone() -> None:
    assert [home.name for home in HOMES if paper(home.years, home.money) == "letter"] == ["the United States"]
    assert paper("us", EVERY) == paper(AGES, "dollars") == "letter"
    assert paper("england", "dollars") == paper(AGES, EVERY) == "a4"


def test_where_nobody_chose_everything_fits() -> None:
    assert all(fits(name, EVERY) for name in catalogue.names())
    assert money_of([]) == EVERY
    assert money_of([Child("k", "Mira", 7, 0, words={"money": "shells"})]) == EVERY
    assert money_of([Child("k", "Mira", 7, 0), Child("l", "Jo", 7, 0, words={"money": "euros"})]) == "euros"
