"""Money and coins as they are typed: every way of writing an amount, other amounts, and any string."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import FORMS, judge
from review.core.currencies import CURRENCIES
from review.core.forms_money import read_coins, read_money
from review.core.model import Problem
from tests.core.shown import NEVER

AMOUNTS = st.integers(1, 99_999)  # in the minor unit
CODES = st.sampled_from(sorted(CURRENCIES))


def problem(expected: str, unit: str, form: str = "money") -> Problem:
    return Problem("money:x", "money", "1", "?", "?", form, expected, "?", unit=unit)


def ways(amount: int, code: str) -> list[str]:
    """An amount in pounds, dollars or euros as children, tills and phones write it."""
    currency = CURRENCIES[code]
    major, minor = divmod(amount, 100)
    number, wide = f"{major}.{minor:02}", f"{major:,}.{minor:02}"
    full = "".join(chr(ord("０") + int(one)) if one.isdigit() else "．" for one in number)
    named = [f"{number} {name}" for name in (*currency.major_names, code, code.lower())]
    both = [f"{major} {currency.major_names[1]} {minor} {currency.minor_names[1]}"] * bool(major)
    both += [f"{currency.sign}{major} {minor:02}{currency.minor}"] * bool(major)
    return [
        number, wide, full, f" {number} ", f"{number}.", f"= {number}", f"{currency.sign}{number}",
        f"{currency.sign} {number}", f"{major},{minor:02}", f"{amount}{currency.minor}",
        f"{amount} {currency.minor_names[1]}", *named, *both,
    ]  # fmt: skip


@given(AMOUNTS, CODES)
def test_every_way_of_writing_an_amount_is_it(amount: int, code: str) -> None:
    asked = problem(f"{amount // 100}.{amount % 100:02}", code)
    assert {way: judge(asked, way) for way in ways(amount, code)} == dict.fromkeys(
        ways(amount, code), "right"
    )


@given(AMOUNTS, AMOUNTS, CODES)
def test_another_amount_is_another(amount: int, other: int, code: str) -> None:
    asked = problem(f"{amount // 100}.{amount % 100:02}", code)
    expected = "right" if amount == other else "other"
    assert {judge(asked, way) for way in ways(other, code)} == {expected}


@given(st.integers(1, 99), CODES)
def test_in_the_smaller_unit_a_number_alone_is_of_it(amount: int, code: str) -> None:
    currency = CURRENCIES[code]
    asked = problem(str(amount), f"{code}-minor")
    for text in (
        f"{amount}",
        f"{amount} {currency.minor}",
        f"0.{amount:02}",
        f"{currency.sign}0.{amount:02}",
    ):
        assert judge(asked, text) == "right"
    assert judge(asked, str(amount + 1)) == "other"
    assert judge(problem(f"0.{amount:02}", code), str(amount)) == "other"  # so many pounds


@pytest.mark.parametrize(
    "text", ["", "£", "2 35", "£2.35p", "2.3.5", "two", "2 pounds 350", "$2.35", "35c", "-2"]
)
def test_what_is_no_amount_of_pounds_is_asked_again(text: str) -> None:
    assert read_money(text, "GBP") is None


@given(st.text(), st.sampled_from(["", "GBP", "USD-minor", "EUR"]))
def test_any_string_is_survived(text: str, unit: str) -> None:
    read_money(text, unit)
    read_coins(text, unit)


def test_more_decimals_are_an_amount_nobody_can_pay() -> None:
    found = read_money("1.125", "GBP")
    assert found
    assert found.major == Fraction(9, 8)


# --- coins --------------------------------------------------------------------------------------------


@given(st.data(), CODES)
def test_every_way_of_writing_coins_is_their_total(data: st.DataObject, code: str) -> None:
    currency = CURRENCIES[code]
    small = st.sampled_from([coin for coin in currency.coins if coin < 100])
    coins = data.draw(st.lists(small, min_size=1, max_size=12))
    named = [f"{coin}{currency.minor}" for coin in coins]
    spaced = [f"{coin} {currency.minor}" for coin in coins]
    asked = problem(" ".join(named), code, "coins")
    for apart in (" ", ",", ", ", " + ", "+", " and "):
        for way in (list(map(str, coins)), named, spaced):
            assert judge(asked, apart.join(way)) == "right"
            assert judge(asked, apart.join([*way, "5"])) == "other"


@pytest.mark.parametrize(
    ("text", "total"),
    [
        ("quarter dime nickel penny", 41),
        ("2 dimes and a penny", 21),
        ("a quarter, 3 pennies", 28),
        ("half dollar", 50),
        ("$1 25", 125),
        ("25 10 37", None),
        ("3", None),
        ("dimes and", None),
    ],
)
def test_coins_of_the_united_states_have_names(text: str, total: int | None) -> None:
    found = read_coins(text, "USD")
    assert (found.total if found else None) == total


@pytest.mark.parametrize("name", ["money", "coins"])
def test_what_is_said_to_a_child(name: str) -> None:
    form = FORMS[name]
    assert len(form.asks.split()) < 8
    assert not NEVER.search(form.asks)
    assert form.read(form.example) != form.read(form.another) is not None


# --- euros --------------------------------------------------------------------------------------------


def test_euro_coins_and_notes_are_those_that_are_issued() -> None:
    """Coins: Council Regulation (EU) 729/2014, before it (EC) 975/98; notes: the European Central Bank, which
    no longer issues the one of 500. From memory."""
    euro = CURRENCIES["EUR"]
    assert euro.coins == (1, 2, 5, 10, 20, 50, 100, 200)
    assert (*euro.notes, *euro.seldom) == (500, 1000, 2000, 5000, 10_000, 20_000)


@pytest.mark.parametrize(
    "text",
    ["€2.50", "2,50 €", "2.50", "2,50", "€ 2,50", "2.50 EUR", "2€50", "2 euros 50", "250 cents", "250c"],
)
def test_euros_are_read_as_they_are_written_in_any_of_their_countries(text: str) -> None:
    """Sign before or behind, point or comma: the Interinstitutional Style Guide, 7.3.3 (from memory)."""
    assert judge(problem("2.50", "EUR"), text) == "right"


@pytest.mark.parametrize("text", ["£2.50", "$2.50", "250p", "2,500 €€"])
def test_another_currency_is_asked_again(text: str) -> None:
    assert judge(problem("2.50", "EUR"), text) == "unreadable"
