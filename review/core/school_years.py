"""Codes of public standards -> the school years a set belongs to, and what they are called.

A family chooses once whose years it reads, or goes by ages alone. Years order the sets and are told to a
parent; nothing that a child does depends on them.
"""

import re
from collections.abc import Collection, Iterable, Mapping
from typing import NamedTuple

AGES = "ages"  # by ages alone: what is chosen where nobody chose


class Span(NamedTuple):
    """School years, or ages, from and to."""

    first: int
    last: int


class Country(NamedTuple):
    name: str
    standard: str
    begins: re.Pattern[str]  # how its codes begin: what tells the year, its number last
    told: Mapping[str, int]  # the year of a code that tells it without a number
    word: str
    youngest: int  # age on the first day of year 0; each year a year older
    names: Mapping[int, str] = {}  # of years that are not called by their number


# The national curriculum in England (2013): years 1 and 2 are key stage 1, ages 5 to 7; the multiplication
# tables check is taken in year 4. The Common Core State Standards (2010): kindergarten, then grades.
COUNTRIES: Mapping[str, Country] = {
    "england": Country(
        "England", "the national curriculum", re.compile(r"(Y[1-6]|MTC)\b"), {"MTC": 4}, "Year", 4
    ),
    "us": Country(
        "the United States", "the common core", re.compile(r"([1-8]|K)\."), {"K": 0}, "Grade", 5,
        {0: "Kindergarten"},
    ),
}  # fmt: skip
CHOICES = (*COUNTRIES, AGES)


def year_of(code: str, country: str) -> int | None:
    """The year in which that country's standard puts it; None: it is no code of that country."""
    found = COUNTRIES[country].begins.match(code)
    if not found:
        return None
    told = COUNTRIES[country].told
    return told[found[1]] if found[1] in told else int(found[1][-1])


def years(codes: Iterable[str], choice: str) -> Span | None:
    """The earliest and the latest year of its codes; None: no code is of that country, or ages are chosen."""
    if choice not in COUNTRIES:
        return None
    found = [year for code in codes if (year := year_of(code, choice)) is not None]
    return Span(min(found), max(found)) if found else None


def ages_in(span: Span, country: str) -> Span:
    """How old children are in these years, from the first day of the first to the last of the last."""
    youngest = COUNTRIES[country].youngest
    return Span(span.first + youngest, span.last + youngest + 1)


def place(codes: Iterable[str], ages: tuple[int, int], choice: str) -> Span:
    """Where a set stands among others: the ages of its school years, else its own."""
    found = years(codes, choice)
    return ages_in(found, choice) if found else Span(*ages)


def is_over(codes: Collection[str], ages: tuple[int, int], choice: str, age: int) -> bool:
    """Whether a child of that age has left its school years behind. Where it has none there, or ages were
    chosen, the child has come to the last of its ages, and some country that has it has it behind."""
    found = years(codes, choice)
    if found:
        return ages_in(found, choice).last < age
    return ages[1] <= age and min(lasts(codes), default=age - 1) < age


def is_over_everywhere(codes: Collection[str], age: int) -> bool:
    """Whether all countries that have it have it behind a child of that age; one at least has it."""
    return max(lasts(codes), default=age) < age


def lasts(codes: Collection[str]) -> list[int]:
    """How old children are at the end of its years, for each country that has it."""
    spans = {country: years(codes, country) for country in COUNTRIES}
    return [ages_in(span, country).last for country, span in spans.items() if span]


# --- in words -----------------------------------------------------------------------------------------


def label(codes: Iterable[str], ages: tuple[int, int], choice: str) -> str:
    """ "Year 2, ages 6 to 7"; "ages 9 to 11" where there is no year."""
    found = years(codes, choice)
    return with_ages(found, choice) if found else ages_words(Span(*ages))


def bare_label(codes: Iterable[str], ages: tuple[int, int], choice: str) -> str:
    """The same below a heading: "Year 2"."""
    found = years(codes, choice)
    return years_words(found, choice) if found else ages_words(Span(*ages))


def short_label(codes: Iterable[str], ages: tuple[int, int], choice: str) -> str:
    """In a column that says what is counted: "2", "K to 1"; "ages 9 to 11" where there is no year."""
    found = years(codes, choice)
    if not found:
        return ages_words(Span(*ages))
    letters = {year: name[0] for year, name in COUNTRIES[choice].names.items()}
    return " to ".join(letters.get(year, str(year)) for year in dict.fromkeys(found))


def heading(age: int, country: str) -> str:
    """Above sets that begin at that age: "Year 2, ages 6 to 7"; its ages alone where no year begins then."""
    year = age - COUNTRIES[country].youngest
    if year < min(COUNTRIES[country].names, default=1):
        return ages_words(Span(age, age + 1))
    return with_ages(Span(year, year), country)


def with_ages(span: Span, country: str) -> str:
    """ "Years 2 to 3, ages 6 to 8", "Kindergarten to Grade 1, ages 5 to 7"."""
    return f"{years_words(span, country)}, {ages_words(ages_in(span, country))}"


def years_words(span: Span, country: str) -> str:
    word, names = COUNTRIES[country].word, COUNTRIES[country].names
    first, last = (names.get(year, f"{word} {year}") for year in span)
    if span.first == span.last:
        return first
    return f"{first} to {last}" if span.first in names else f"{word}s {span.first} to {span.last}"


def ages_words(span: Span) -> str:
    return f"age {span.first}" if span.first == span.last else f"ages {span.first} to {span.last}"
