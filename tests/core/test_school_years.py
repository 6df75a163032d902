"""Codes of standards to school years, and the whole catalogue against them."""

import pytest

from review import catalogue
from review.core.school_years import (
    AGES,
    CHOICES,
    COUNTRIES,
    ages_in,
    heading,
    label,
    place,
    short_label,
    year_of,
    years,
)
from tests.tables import rows

# The table of statements read from both standards; its columns `grade_or_year` and `age` are the check.
STATEMENTS = [row for row in rows("standards.csv") if row["code"] != "none"]
DOCUMENTS = {"US CCSS-M 2010": "us", "England": "england"}
WITHIN = 1  # years; our judgement: what one child meets at seven another meets at eight


def country_of(row: dict[str, str]) -> str:
    return next(country for begin, country in DOCUMENTS.items() if row["document"].startswith(begin))


def number(grade_or_year: str) -> int:
    return 0 if grade_or_year == "K" else int(grade_or_year.split()[-1])


@pytest.mark.parametrize("row", STATEMENTS, ids=lambda row: f"{row['code']}")
def test_every_code_has_the_year_and_the_ages_of_the_standard(row: dict[str, str]) -> None:
    country = country_of(row)
    span = years([row["code"]], country)
    assert span == (number(row["grade_or_year"]),) * 2
    assert "{}-{}".format(*ages_in(span, country)) == row["age"]
    assert all(year_of(row["code"], other) is None for other in COUNTRIES if other != country)


@pytest.mark.parametrize(
    "code", ["", "Y", "Y7 number", "Y12 number", "9.OA.A.1", "KS1", "MTCX", "year 2", "2 OA"]
)
def test_what_is_no_code_of_a_country_has_no_year(code: str) -> None:
    assert [year_of(code, country) for country in COUNTRIES] == [None, None]


@pytest.mark.parametrize("country", COUNTRIES)
def test_the_year_of_every_set_agrees_with_its_ages(country: str) -> None:
    """A family of either country finds a set where its ages say, give or take a year."""
    for head in catalogue.heads():
        if years(head.standards, country):
            first, last = place(head.standards, head.ages, country)
            assert head.ages[0] - WITHIN <= first <= last <= head.ages[1] + WITHIN, head.id


def test_the_ages_of_every_set_agree_with_the_years_of_both_countries_together() -> None:
    """Where one teaches it earlier, the ages reach from the one to the other, and no further."""
    for head in catalogue.heads():
        spans = [place(head.standards, head.ages, each) for each in COUNTRIES if years(head.standards, each)]
        first = min((span.first for span in spans), default=head.ages[0])
        last = max((span.last for span in spans), default=head.ages[1])
        assert first - WITHIN <= head.ages[0] <= head.ages[1] <= last + WITHIN, (head.id, head.ages, spans)


def test_what_a_parent_reads() -> None:
    assert label(["Y2 number", "2.OA.B.2"], (6, 8), "england") == "Year 2, ages 6 to 7"
    assert label(["Y2 number", "Y3 number"], (6, 8), "england") == "Years 2 to 3, ages 6 to 8"
    assert label(["Y4 mult/div", "MTC"], (8, 9), "england") == "Year 4, ages 8 to 9"
    assert label(["1.OA.C.6"], (6, 8), "us") == "Grade 1, ages 6 to 7"
    assert label(["K.OA.A.5", "1.OA.C.6"], (6, 8), "us") == "Kindergarten to Grade 1, ages 5 to 7"
    assert label(["1.OA.C.6"], (6, 8), "england") == "ages 6 to 8"
    assert label(["1.OA.C.6"], (6, 6), AGES) == "age 6"
    assert label(["1.OA.C.6"], (6, 8), "of another version") == "ages 6 to 8"
    assert short_label(["K.OA.A.5", "1.OA.C.6"], (6, 8), "us") == "K to 1"
    assert short_label(["Y2 number"], (6, 8), "england") == "2"
    assert short_label([], (6, 8), "england") == "ages 6 to 8"


def test_a_heading_for_every_age() -> None:
    assert [heading(age, "england") for age in (4, 5, 6)] == [
        "ages 4 to 5",
        "Year 1, ages 5 to 6",
        "Year 2, ages 6 to 7",
    ]
    assert [heading(age, "us") for age in (4, 5, 6)] == [
        "ages 4 to 5",
        "Kindergarten, ages 5 to 6",
        "Grade 1, ages 6 to 7",
    ]


def test_the_choices() -> None:
    assert CHOICES == ("england", "us", "ages")
