"""Which public standards the catalogue serves, which not, and why.

    python -m pytest tests/test_standards.py -s         prints the table

Sources: the statements collected in `data/standards.csv`, read from the US Common Core State Standards for
Mathematics (2010) and the national curriculum in England (2013); rows marked MEMORY are from memory.
"""

from review import catalogue
from tests.tables import rows

NOT_SERVED: dict[str, str] = {
    "none": "says only that there is no such standard",
}


# Which kinds serve a row: a year's code covers several skills, and a set of another skill serves none.
KINDS: dict[str, set[str]] = {
    "addition and subtraction facts": {"sum", "difference"},
    "arrays": {"quantity", "product"},
    "column addition": {"column-sum", "column-difference"},
    "counting": {"count-by", "sequence"},
    "factors and multiples": {"number-property"},
    "measures": {"convert", "pairs"},
    "mental addition": {"mental-sum", "mental-difference", "place-value"},
    "money": {"money"},
    "multiplication": {"mental-product"},
    "multiplication and division facts": {"product", "quotient"},
    "multiplication check": {"product"},
    "multiplication unknowns": {"product", "quotient"},
    "number bonds": {"bond"},
    "number writing": {"number-name", "quantity"},
    "odd, even, doubles": {"number-property", "double", "half"},
    "place value": {"place-value"},
    "place value compare": {"compare"},
    "read and write numbers": {"number-name"},
    "read, write, compare": {"number-name", "compare"},
    "Roman numerals": {"roman"},
    "rounding": {"rounding", "decimal"},
    "running totals": {"add-several"},
    "skip counting": {"count-by"},
    "subtraction": {"mental-difference"},
    "telling time": {"clock", "duration", "convert", "pairs"},
    "two-digit addition": {"mental-sum"},
    "unit conversion": {"convert", "word-problem"},
}


def serving(row: dict[str, str]) -> list[str]:
    """The sets that name the row's code and have a skill of a kind that serves it."""
    return [
        each.id
        for each in catalogue.whole()
        if row["code"] in each.standards and KINDS[row["skill"]] & {skill.kind for skill in each.skills}
    ]


def test_every_standard_in_scope_is_served() -> None:
    missing = []
    for row in rows("standards.csv"):
        sets, why = serving(row), NOT_SERVED.get(row["code"], "")
        told = ", ".join(sets) or f"not served: {why or '?'}"
        print(f"{row['code']:18} {row['skill'][:34]:34} {told}")
        missing += [] if sets or why else [f"{row['code']}: {row['skill']} ({row['numeric_range']})"]
    assert not missing, "\n".join(missing)


def test_no_set_names_a_standard_that_is_not_in_the_table() -> None:
    known = {row["code"] for row in rows("standards.csv")}
    named = {(each.id, code) for each in catalogue.whole() for code in each.standards}
    assert not [(name, code) for name, code in named if code not in known]


def test_what_is_not_served_says_why_and_is_not_served_indeed() -> None:
    for row in rows("standards.csv"):
        assert row["code"] not in NOT_SERVED or not serving(row)


def test_money_comes_at_one_age_whatever_it_is_called() -> None:
    """Pounds with a point came a year before dollars and euros, as of year 2, whose money is of one unit."""
    for sort in ("coins-{}", "change-{}", "change-{}-notes"):
        ages = {catalogue.shipped(sort.format(name)).ages for name in ("pounds", "dollars", "euros")}
        assert len(ages) == 1, sort
    assert "Y2 measurement" not in catalogue.shipped("change-pounds-notes").standards
