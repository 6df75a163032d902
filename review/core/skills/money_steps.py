"""How amounts of money are written, said and drawn, and how they are worked out: step by step,
or under an error rule.

Amounts are in the minor unit of a currency: pence or cents.
"""

from collections.abc import Iterator
from itertools import pairwise

from review.core.currencies import Currency
from review.core.pictures import Coins
from review.core.skills.wording import EQUALS, MINUS, PLUS, TIMES, in_words


def decimal(amount: int) -> str:
    """235 -> 2.35"""
    return f"{amount // 100}.{amount % 100:02}"


def written(amount: int, currency: Currency) -> str:
    """35p, £2, £2.35."""
    if amount < 100:
        return f"{amount}{currency.minor}"
    return currency.sign + (decimal(amount) if amount % 100 else str(amount // 100))


def said(amount: int, currency: Currency) -> str:
    """Two pounds and thirty-five pence."""
    parts = ((amount // 100, currency.major_names), (amount % 100, currency.minor_names))
    named = [f"{in_words(number)} {names[number != 1]}" for number, names in parts if number]
    return " and ".join(named) or f"no {currency.minor_names[1]}"


def pictured(coins: tuple[int, ...], currency: Currency) -> Coins:
    return Coins(tuple((written(coin, currency), coin in currency.notes) for coin in coins))


# --- steps --------------------------------------------------------------------------------------------


def _equation(a: int, sign: str, b: int, result: int, currency: Currency) -> str:
    left, right, total = (written(amount, currency) for amount in (a, b, result))
    return f"{left} {sign} {right} {EQUALS} {total}"


def running(amounts: tuple[int, ...], currency: Currency) -> tuple[str, ...]:
    """Each new total: 50p + 20p = 70p, 70p + 5p = 75p."""
    totals = [sum(amounts[:place]) for place in range(1, len(amounts) + 1)]
    return tuple(
        _equation(total, PLUS, coin, total + coin, currency)
        for total, coin in zip(totals, amounts[1:], strict=False)
    )


MOST_SAID = 12  # coins whose steps are said; our judgement
IN_A_LINE = 5  # numbers


def same_steps(coin: int, many: int, currency: Currency) -> tuple[str, ...]:
    """Counted in steps, as before any table is known, and the last coin added."""
    total = coin * many
    if many > MOST_SAID:
        return (f"{many} {TIMES} {written(coin, currency)} {EQUALS} {written(total, currency)}",)
    step = coin // 100 if coin % 100 == 0 else coin
    said = [str(step * at) for at in range(1, many)] if many > 2 else []
    counted = [", ".join(said[at : at + IN_A_LINE]) for at in range(0, len(said), IN_A_LINE)]
    begun = [f"In {step}s: {counted[0]}", *counted[1:]] if counted else []
    return (*begun, _equation(total - coin, PLUS, coin, total, currency))


def made_steps(coins: tuple[int, ...], currency: Currency) -> tuple[str, ...]:
    """What is left after each coin: 37p − 20p = 17p."""
    left = [sum(coins[place:]) for place in range(len(coins))]
    return tuple(
        _equation(total, MINUS, coin, total - coin, currency)
        for total, coin in zip(left, coins[:-1], strict=False)
    )


def added_steps(a: int, b: int, currency: Currency) -> tuple[str, ...]:
    """To one pound, tens then ones; beyond, pence by themselves, then pounds, then both."""
    if a + b <= 100 and b > 10 and b % 10:
        tens = b - b % 10
        return (
            _equation(a, PLUS, tens, a + tens, currency),
            _equation(a + tens, PLUS, b % 10, a + b, currency),
        )
    minor, major = a % 100 + b % 100, a - a % 100 + b - b % 100
    steps = [_equation(a % 100, PLUS, b % 100, minor, currency)] if a % 100 and b % 100 else []
    if a >= 100 and b >= 100:
        steps += [_equation(a - a % 100, PLUS, b - b % 100, major, currency)]
    apart = (bool(minor) and bool(major)) or not steps
    return tuple(steps + [_equation(major, PLUS, minor, a + b, currency)] * apart)


def stops_to(paid: int, price: int) -> list[int]:
    """From the price to the next ten, to the next whole, to what was paid."""
    stops = [price]
    for step in (10, 100, paid):
        stop = -(-stops[-1] // step) * step
        stops += [stop] if stops[-1] < stop <= paid else []
    return stops


def change_steps(paid: int, price: int, currency: Currency) -> tuple[str, ...]:
    """Counting up from the price, stop by stop."""
    stops = stops_to(paid, price)
    jumps = [after - before for before, after in pairwise(stops)]
    counted = tuple(
        _equation(before, PLUS, jump, before + jump, currency)
        for before, jump in zip(stops, jumps, strict=False)
    )
    together = f" {PLUS} ".join(written(jump, currency) for jump in jumps)
    return counted + ((f"{together} {EQUALS} {written(sum(jumps), currency)}",) if len(jumps) > 1 else ())


def turned_steps(amount: int, currency: Currency, to_minor: bool) -> tuple[str, ...]:
    """Pounds into pence and back, through one pound."""
    start = f"{currency.sign}1 {EQUALS} 100{currency.minor}"
    whole, rest = amount - amount % 100, amount % 100
    minor, major = f"{amount}{currency.minor}", currency.sign + decimal(amount)
    if to_minor:
        steps = [start, f"{currency.sign}{whole // 100} {EQUALS} {whole}{currency.minor}"]
        steps += [f"{whole}{currency.minor} {PLUS} {rest}{currency.minor} {EQUALS} {minor}"] if rest else []
        return tuple(dict.fromkeys(steps))
    parts = f"{whole}{currency.minor} {PLUS} {rest}{currency.minor}"
    return start, *([f"{minor} {EQUALS} {parts}"] if whole and rest else []), f"{minor} {EQUALS} {major}"


# --- what one would write under an error rule ---------------------------------------------------------


def sum_errors(a: int, b: int) -> Iterator[tuple[str, str]]:
    units, cents = a // 100 + b // 100, a % 100 + b % 100
    if cents >= 100:
        yield "not_carried", f"{units}.{cents}"
    if cents >= 60:
        yield "base_60", decimal((units + 1) * 100 + cents - 60)
    yield "point_dropped", str(a + b)
    yield "cents_ignored", decimal(units * 100)
    yield "took_away", decimal(abs(a - b))


def change_errors(paid: int, price: int) -> Iterator[tuple[str, str]]:
    units, cents = paid // 100 - price // 100, price % 100
    if cents and paid % 100 == 0:
        yield "unit_extra", decimal(units * 100 + 100 - cents)
        yield "cents_copied", decimal(units * 100 + cents)
    yield "cents_ignored", decimal(units * 100)
    yield "added", decimal(paid + price)


def coins_errors(*coins: int) -> Iterator[tuple[str, str]]:
    """How many coins there are, not what they are worth; common practice, no source."""
    yield "coins_counted", str(len(coins))


def small_change_errors(paid: int, price: int) -> Iterator[tuple[str, str]]:
    """Of small coins: ones made up to ten, and tens as well, as of 100 = 65 + □."""
    if price % 10 and price > 10:
        yield "ten_extra", str(paid - price + 10)
    yield "added", str(paid + price)


def to_minor_errors(amount: int) -> Iterator[tuple[str, str]]:
    """The noughts not read, or pounds and pence added; common practice, no source."""
    major, minor = divmod(amount, 100)
    if major and minor < 10:
        yield "nought_dropped", f"{major}{minor}"
    if major:
        yield "added", str(major + minor)


def to_major_errors(amount: int) -> Iterator[tuple[str, str]]:
    """405 as 4.5, or the point a place too late."""
    major, minor = divmod(amount, 100)
    if minor % 10 and minor < 10:
        yield "nought_dropped", f"{major}.{minor}"
    if amount % 10:
        yield "point_late", f"{amount // 10}.{amount % 10}"
