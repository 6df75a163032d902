"""Conversions: exact factors from two outside sources, every class small enough, properties for the rest."""

import re
from collections.abc import Iterator
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.skills.measures import known
from review.core.skills.units import NAMES, factor, unit
from review.core.skills.worked import worked
from tests.core.measure_space import (
    CONVERT,
    DECIMAL,
    IN_PINT,
    IN_TABLE,
    KEYS,
    MIXED,
    PAIRS,
    PARTED,
    PINT,
    SHIPPED,
    skill,
)
from tests.core.shown import SOURCES, assert_sound, assert_uniform, refuses, seen
from tests.tables import rows

# --- factors ------------------------------------------------------------------------------------------


def published() -> Iterator[tuple[str, str, Fraction]]:
    """units.csv: factors by SI prefix, NIST SP 811, NIST Handbook 44 or UK Weights and Measures; each agreed
    with GNU units and the UCUM library when it was made."""
    symbols = {IN_TABLE.get(symbol, one): symbol for symbol, (one, _) in NAMES.items()}
    for row in rows("units.csv"):
        if {row["from"], row["to"]} <= set(symbols) and row["system"] != "cross":
            size = Fraction(int(row["numerator"]), int(row["denominator"]))
            yield symbols[row["from"]], symbols[row["to"]], size


def test_every_factor_is_the_published_one() -> None:
    found = list(published())
    assert len(found) >= 20
    for source, target, ratio in found:
        assert factor(source, target) == ratio
        assert factor(target, source) == 1 / ratio


@pytest.mark.parametrize("pair", [pair for pair in PAIRS if unit(pair[0]).family != "calendar"], ids="-".join)
def test_every_factor_is_that_of_the_pint_library(pair: tuple[str, str]) -> None:
    """pint (BSD licence), in exact fractions."""
    source, target = (PINT.Unit(IN_PINT.get(symbol, NAMES[symbol][0].replace(" ", "_"))) for symbol in pair)
    assert PINT.Quantity(Fraction(1), source).to(target).magnitude == factor(*pair)


def test_twelve_months_make_a_year() -> None:
    """By the calendar (common knowledge, no source); pint's months are twelfths of a mean year."""
    assert factor("yr", "mo") == 12
    assert known("mo", "yr") == "1 year = 12 months"


# --- problems -----------------------------------------------------------------------------------------


IN_WORDS = {name: one for symbol, (one, many) in NAMES.items() for name in (symbol, one, many)} | {
    "L": "litre"
}


def by_pint(line: str) -> bool:
    """Whether an equation of amounts is true: "3 m 20 cm = 320 cm", "2 days make 48 hours."."""
    left, right = (
        sum(
            PINT.Quantity(Fraction(number.replace(",", "")), IN_WORDS[name])
            for number, name in re.findall(r"([\d,.]+) ([A-Za-z]+)", side)
        )
        for side in re.split(r" = |\smakes? ", line)
    )
    return bool(left == right)


def amounts(term: str) -> Fraction:
    """Amounts without their units, for the lines that calculate; the lines with units are pint's."""
    return Fraction(re.sub(r"[^0-9]", "", term) or "0")


@given(st.sampled_from([*KEYS, *MIXED, *DECIMAL]), SOURCES)
def test_what_is_drawn_is_sound(key: str, random: Random) -> None:
    problem = CONVERT.problem(key, CONVERT.draw(key, random))
    steps = problem.helps[-1].text.split("\n")
    calculations = [line for line in steps if not re.search("[A-Za-z]", line)]
    assert len(calculations) == len(steps) - 2
    shown = problem.helps[-1]._replace(text="\n".join(calculations))
    blank = problem.helps[-2].text.split("\n")
    bare = problem.helps[-2]._replace(text="\n".join(blank[1:]))
    assert blank[0] == steps[0]
    assert_sound(problem._replace(helps=(*problem.helps[:-2], bare, shown)))
    assert all(len(line) <= 40 for line in [*steps, *blank])


METRIC = [key for key in [*KEYS, *MIXED, *DECIMAL] if unit(re.split("[+>]", key[8:])[0]).family in
          ("length", "mass", "capacity", "time")]  # fmt: skip


@given(st.sampled_from(METRIC), SOURCES)
def test_amounts_are_equal_by_pint(key: str, random: Random) -> None:
    problem = CONVERT.problem(key, CONVERT.draw(key, random))
    start, *_, closing = problem.helps[-1].text.split("\n")
    assert by_pint(start)
    assert by_pint(closing)
    assert by_pint(problem.prompt.replace("□", problem.expected))
    assert by_pint(problem.told)


PARTED_METRIC = [key for key in PARTED if unit(key[8:].partition(">")[0]).family in
                 ("length", "mass", "capacity", "time")]  # fmt: skip


@given(st.sampled_from(PARTED), SOURCES)
def test_an_answer_in_two_units_is_sound(key: str, random: Random) -> None:
    problem = CONVERT.problem(key, CONVERT.draw(key, random))
    start, *even, rest, closing = problem.helps[-1].text.split("\n")
    assert not re.search("[A-Za-z]", rest)
    assert_sound(problem._replace(helps=(*problem.helps[:-2], *worked(rest))))
    assert problem.expected == closing.partition(" = ")[2]
    if key in PARTED_METRIC:
        assert all(map(by_pint, (start, *even, closing, problem.told)))


def test_a_litre_beside_figures_is_a_capital_and_is_read_in_every_spelling() -> None:
    """SI Brochure, table 8: l and L are both signs of the litre (from memory). 5 l looks like 51."""
    there, back = (
        CONVERT.problem("convert:l>ml/1..20", "5"),
        CONVERT.problem("convert:ml>l/1000..20000", "5000"),
    )
    parted = CONVERT.problem("convert:ml>l+ml/1001..9999", "2300")
    assert (there.prompt, back.prompt) == ("5 L = □ ml", "5,000 ml = □ L")
    assert (parted.prompt, parted.expected) == ("2,300 ml = □ L □ ml", "2 L 300 ml")
    for litre in ("l", "L", "litre", "litres", "liter", "liters"):
        assert judge(back, f"5 {litre}") == "right"
        assert judge(parted, f"2 {litre} 300 ml") == "right"
    for one in (there, back, parted):
        shown = [one.prompt, one.told, *seen(one), *(help.text for help in one.helps)]
        assert not re.search(r"\bl\b", "\n".join(shown))


def test_answers_in_two_units_and_with_decimals_as_a_teacher_would_write_them() -> None:
    parted = CONVERT.problem("convert:cm>m+cm/101..999", "320")
    assert (parted.prompt, parted.expected) == ("320 cm = □ m □ cm", "3 m 20 cm")
    assert parted.say == "How many metres and centimetres are three hundred and twenty centimetres?"
    told = {"3 m 20 cm": "right", "3m20": "right", "3 20": "right", "20 cm and 3 metres": "right",
            "3 m 2 cm": "other", "320 cm": "unreadable", "2 m 120 cm": "unreadable", "3.2 m": "unreadable",
            "320": "unreadable", "3 l 20 ml": "other", "3 kg 20 cm": "other"}  # fmt: skip
    assert {text: judge(parted, text) for text in told} == told
    there, back = (
        CONVERT.problem("convert:m>cm/0..3/0.1", "0.5"),
        CONVERT.problem("convert:cm>m/1..300/0.1", "50"),
    )
    assert (there.prompt, there.expected, there.say) == (
        "0.5 m = □ cm", "50", "How many centimetres are zero point five metres?"
    )  # fmt: skip
    assert (back.prompt, back.expected) == ("50 cm = □ m", "0.5")
    assert [judge(back, text) for text in ("0.5", "0.50 m", ".5", "5", "50 cm")] == [
        "right", "right", "right", "other", "unreadable",
    ]  # fmt: skip


@given(st.sampled_from([*KEYS, *MIXED, *PARTED, *DECIMAL]), SOURCES)
def test_what_is_predicted_can_be_read_and_differs(key: str, random: Random) -> None:
    asked = CONVERT.draw(key, random)
    problem = CONVERT.problem(key, asked)
    assert {judge(problem, text) for text in CONVERT.predict(key, asked).values()} <= {"other"}


def rules() -> dict[str, dict[str, str]]:
    return {row["rule"]: row for row in rows("error_rules.csv", family="convert")}


# The examples of the table in our units: from memory, wrong_way after Hart (CSMS), from memory.
EXAMPLES = {
    "8 big 0 small to small (x60)": ("convert:h>min/1..12", "8"),
    "3 big 20 small to small (x100)": ("convert:m+cm>cm/1..9/10", "3+20"),
    "3 m 20 cm -> 23": ("convert:m+cm>cm/1..9/10", "3+20"),
    "3 m 5 cm": ("convert:m+cm>cm/1..9/1..9", "3+5"),
}


@pytest.mark.parametrize("rule", rules())
def test_every_rule_of_the_table_shows_as_in_its_example(rule: str) -> None:
    """error_rules.csv; what has no end there is told to six decimals here."""
    row = rules()[rule]
    key, asked = EXAMPLES[row["example"]]
    assert CONVERT.problem(key, asked).expected == row["right"]
    assert float(CONVERT.predict(key, asked)[rule]) == pytest.approx(float(row["predicted"]), abs=1e-6)


def test_as_a_teacher_would_write_it() -> None:
    problem = CONVERT.problem("convert:m>cm/1..20", "7")
    assert (problem.prompt, problem.expected, problem.unit) == ("7 m = □ cm", "700", "cm")
    assert problem.say == "How many centimetres are seven metres?"
    assert [judge(problem, text) for text in ("700", "700 cm", "700 centimetres", "70")] == [
        "right", "right", "right", "other",
    ]  # fmt: skip
    back = CONVERT.problem("convert:cm>m/100..2000", "700")
    assert (back.prompt, back.expected, back.unit) == ("700 cm = □ m", "7", "m")
    mixed = CONVERT.problem("convert:m+cm>cm/1..9/10", "3+20")
    assert (mixed.prompt, mixed.expected) == ("3 m 20 cm = □ cm", "320")
    assert mixed.say == "How many centimetres are three metres and twenty centimetres?"
    single = CONVERT.problem("convert:m+cm>cm/1..9/1..9", "3+5")
    assert (single.prompt, single.expected) == ("3 m 5 cm = □ cm", "305")
    assert [help.text for help in single.helps if help.step in ("question", "neighbour", "steps")] == [
        "How many centimetres make one metre?",
        "1 m = 100 cm",
        "1 m = 100 cm\n3 × 100 = 300\n300 + 5 = 305\n3 m 5 cm = 305 cm",
    ]
    pints = CONVERT.problem("convert:us-gal>us-pt/1..9", "2")
    assert (pints.prompt, pints.expected) == ("2 gallons = □ pints", "16")
    assert judge(pints, "16 pints") == "right"


# --- how long it takes --------------------------------------------------------------------------------


def expected(key: str) -> float:
    return CONVERT.traits(key).seconds


def test_seconds_grow_with_the_arithmetic() -> None:
    """Our judgement of how long; what must hold is the order: ten, a table, a number beyond the tables."""
    up = [f"convert:{units}/1..12" for units in ("m>cm", "ft>in", "st>lb")]
    down = ["convert:cm>m/100..1200", "convert:in>ft/12..144", "convert:lb>st/14..168"]
    for keys in (up, down):
        assert [expected(key) for key in keys] == sorted({expected(key) for key in keys})
    assert min(expected(f"convert:{units}/1..9") for units in ("st>lb", "lb>oz", "d>h")) >= 15
    assert expected("convert:yd>ft/1..20") > expected("convert:yd>ft/1..12")


@pytest.mark.parametrize("units", ["m>cm", "ft>in", "lb>oz", "h>min"])
def test_two_steps_take_longer_than_one(units: str) -> None:
    great, small = units.split(">")
    apart = int(factor(great, small))
    one = expected(f"convert:{units}/1..9")
    assert expected(f"convert:{great}+{small}>{small}/1..9") >= one + 5
    back = expected(f"convert:{small}>{great}/{apart}..{9 * apart}")
    assert expected(f"convert:{small}>{great}+{small}/{apart + 1}..{9 * apart}") >= back + 5


def test_no_conversion_is_for_paper() -> None:
    """Over 30 seconds at most one card a sitting is typed."""
    assert max(map(expected, SHIPPED)) <= 30
    assert min(map(expected, SHIPPED)) >= 7


# --- classes ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "members"),
    [
        ("convert:m>cm/1..20", [str(number) for number in range(1, 21)]),
        ("convert:cm>m/1..2000", [str(number) for number in range(100, 2001, 100)]),
        ("convert:g>kg/1500..9000", [str(number) for number in range(2000, 9001, 1000)]),
        ("convert:m>cm/1..100/10", [str(number) for number in range(10, 101, 10)]),
        ("convert:m+cm>cm/1..4/10", [f"{m}+{cm}" for m in range(1, 5) for cm in range(10, 100, 10)]),
        ("convert:m+cm>cm/1..4/1..9", [f"{m}+{cm}" for m in range(1, 5) for cm in range(1, 10)]),
        ("convert:kg+g>g/1..2/5/12..30", [f"{kg}+{g}" for kg in (1, 2) for g in (15, 20, 25, 30)]),
        ("convert:h+min>min/1..2/55..90", [f"{h}+{m}" for h in (1, 2) for m in range(55, 60)]),
        ("convert:cm>m+cm/100..320/10", [str(n) for n in range(110, 321, 10) if n % 100]),
        ("convert:min>h+min/61..75", [str(number) for number in range(61, 76)]),
        ("convert:m>cm/0..2/0.1", [f"{tenths / 10:.1f}" for tenths in range(1, 20) if tenths != 10]),
        ("convert:cm>m/1..99/0.1", [str(number) for number in range(10, 91, 10)]),
        ("convert:mm>cm/1..30/0.1", [str(number) for number in range(1, 30) if number % 10]),
        ("convert:h+min>min/1..3/15", [f"{h}+{m}" for h in range(1, 4) for m in (15, 30, 45)]),
    ],
)
def test_every_amount_of_a_class_is_equally_likely(key: str, members: list[str]) -> None:
    assert_uniform(CONVERT, key, members)


def test_an_amount_of_another_class_is_refused() -> None:
    taken = [
        *refuses(CONVERT, "convert:m>cm/1..20", ["0", "21", "7+20"]),
        *refuses(CONVERT, "convert:cm>m/100..2000", ["150", "2100"]),
        *refuses(CONVERT, "convert:m+cm>cm/1..9/10", ["3", "3+0", "3+15", "3+100"]),
        *refuses(CONVERT, "convert:m+cm>cm/1..9/1..9", ["3", "3+0", "3+10", "10+1"]),
        *refuses(CONVERT, "convert:cm>m+cm/101..999/10", ["100", "300", "325", "1000", "320+1"]),
        *refuses(CONVERT, "convert:m>cm/0..3/0.1", ["1", "0.50", "0.55", "3.1", "0"]),
        *refuses(CONVERT, "convert:cm>m/1..300/0.1", ["100", "55", "310"]),
    ]
    assert taken == []


def test_keys_say_units_range_and_step() -> None:
    metres = {"from": "m", "to": "cm"}
    assert list(CONVERT.keys(skill(**metres, range=(1, 20)))) == ["convert:m>cm/1..20"]
    assert list(CONVERT.keys(skill(**metres, range=(1, 9), mixed=True, step=10))) == [
        "convert:m+cm>cm/1..9/10"
    ]
    few = skill(**metres, range=(1, 9), mixed=True, beside=(1, 9))
    assert list(CONVERT.keys(few)) == ["convert:m+cm>cm/1..9/1..9"]
    both = skill(**metres, range=(1, 9), mixed=True, step=5, beside=(5, 20))
    assert list(CONVERT.keys(both)) == ["convert:m+cm>cm/1..9/5/5..20"]
    back = {"from": "cm", "to": "m"}
    assert list(CONVERT.keys(skill(**back, range=(101, 999), mixed=True))) == ["convert:cm>m+cm/101..999"]
    assert list(CONVERT.keys(skill(**back, range=(1, 300), places=2))) == ["convert:cm>m/1..300/0.01"]


@pytest.mark.parametrize(
    ("options", "wrong"),
    [
        (
            {"from": "m", "to": "g"},
            ("to", "m and g are no two units of one system, one a multiple of the other"),
        ),
        (
            {"from": "m", "to": "m"},
            ("to", "m and m are no two units of one system, one a multiple of the other"),
        ),
        ({"from": "us-pt", "to": "imperial-pt"}, ("to",)),
        ({"from": "d", "to": "mo"}, ("to",)),
        ({"from": "t", "to": "mg"}, ("to", "one t is more mg than there are words for")),
        ({"from": "cm", "to": "m"}, ("range", "no number from 1 to 20 makes whole metres")),
        ({"from": "cm", "to": "m", "mixed": True}, ("range", "every number from 1 to 20 comes out even")),
        ({"from": "h", "to": "min", "places": 3}, ("places", "parts of min would be needed")),
        ({"from": "m", "to": "cm", "places": 1, "mixed": True}, ("places", "two units and decimals")),
        ({"from": "m", "to": "cm", "mixed": True, "step": 100}, ("step", "100 is more than 99 cm")),
        (
            {"from": "m", "to": "cm", "mixed": True, "step": 10, "beside": (1, 9)},
            ("beside", "no number from 1 to 9 fits", "take from 10 to 90"),
        ),
        (
            {"from": "h", "to": "min", "mixed": True, "beside": (60, 90)},
            ("beside", "no number from 60 to 90 fits", "take from 1 to 59"),
        ),
        ({"from": "m", "to": "cm", "beside": (1, 9)}, ("beside", "no smaller unit stands beside")),
        (
            {"from": "cm", "to": "m", "mixed": True, "range": (101, 999), "beside": (1, 9)},
            ("beside", "no smaller unit stands beside"),
        ),
    ],
)
def test_impossible_conditions_are_told_in_words(options: dict[str, object], wrong: tuple[str, ...]) -> None:
    (found,) = CONVERT.check(skill(**{"range": (1, 20), **options}))
    assert all(part.startswith(start) for part, start in zip(found, wrong, strict=False))


def test_possible_conditions_are_not_complained_of() -> None:
    assert list(CONVERT.check(skill(**{"from": "cm", "to": "m"}, range=(1, 2000)))) == []


def test_there_and_back_do_not_follow_each_other() -> None:
    there, back = (CONVERT.traits(key) for key in ("convert:m>cm/1..20", "convert:cm>m/100..2000"))
    assert there.groups & back.groups
    assert (there.title, back.title) == ("metres to centimetres", "centimetres to metres")
    assert not there.fact


def test_a_nought_is_only_dropped_where_one_is_due() -> None:
    """3 m 20 cm is 320 by writing the numbers side by side, and no rule would tell that from knowing it."""
    wholes = {"second_ignored", "added", "power_large"}
    assert set(CONVERT.predict("convert:m+cm>cm/1..9/10", "3+20")) == wholes
    assert set(CONVERT.predict("convert:km+m>m/1..9/100", "3+200")) == wholes
    assert not {"zero_dropped", "zero_behind"} & {*CONVERT.predict("convert:h+min>min/1..3", "2+5")}
    grams = CONVERT.predict("convert:kg+g>g/1..9", "3+50")
    assert (grams["zero_dropped"], grams["zero_behind"]) == ("350", "3500")
