"""Coins to choose from, pounds and pence in a table, change as jumps from the price to what is paid."""

from review.core.currencies import Currency
from review.core.model import BOX, Help, Problem
from review.core.pictures import Table
from review.core.skills.money_classes import amounts_of, class_of, fewest, pieces
from review.core.skills.money_steps import decimal
from review.core.skills.money_steps import pictured as coins
from review.core.skills.picture_help import Pictures, how_long, pictured, reached

WHOLE = 100
TEN = 10


def _money(problem: Problem) -> tuple[Help, ...]:
    of = class_of(problem.card)
    amounts = amounts_of(of, problem.asked)
    currency = of.currency
    match of.ask:
        case "make":
            fitting = tuple(piece for piece in pieces(of) if piece <= amounts[0])
            return pictured(coins(fitting, currency), "Which of these do you need?")
        case "add":
            return _added(currency, amounts)
        case "change":
            return _change(currency, *amounts)
        case _:
            return _turned(currency, amounts[0], of.ask == "to-minor")


def _added(currency: Currency, amounts: tuple[int, ...]) -> tuple[Help, ...]:
    if max(amounts) < WHOLE:
        laid = tuple(coin for amount in amounts for coin in fewest(amount, currency.coins[::-1]))
        return pictured(coins(laid, currency), "Count the greatest coins first.")
    rows = tuple((str(amount // WHOLE), str(amount % WHOLE)) for amount in amounts)
    small = currency.minor_names[1]
    return pictured(Table(_heads(currency), rows), f"Put the {small} together first.")


def _heads(currency: Currency) -> tuple[str, str]:
    return currency.major_names[1], currency.minor_names[1]


def _change(currency: Currency, paid: int, price: int) -> tuple[Help, ...]:
    """By the next ten and the next whole."""
    at = [price]
    for step in (TEN, WHOLE):
        following = (at[-1] // step + 1) * step
        if at[-1] % step and following < paid:
            at.append(following)
    small = paid <= WHOLE
    line = reached([*at, paid], str if small else _bare)
    unit = (currency.minor_names if small else currency.major_names)[1]
    return pictured(line, f"In {unit}. {how_long([*at, paid])}")


def _bare(amount: int) -> str:
    """Without its sign, which needs more room in ASCII."""
    return decimal(amount) if amount % WHOLE else str(amount // WHOLE)


def _turned(currency: Currency, amount: int, to_minor: bool) -> tuple[Help, ...]:
    row = (decimal(amount), BOX) if to_minor else (BOX, str(amount))
    return pictured(Table(_heads(currency), (("1", str(WHOLE)), row)), "Go down the table.")


PICTURES: Pictures = {"money": _money}
