"""Money: counting coins, laying an amount, pounds and pence, adding, and change; by currency."""

from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from review.core.currencies import CURRENCIES
from review.core.model import BOX, Help, Problem, Skill, Traits
from review.core.pictures import Picture
from review.core.skills.kinds import Kind, Option
from review.core.skills.money_classes import (
    MEMBERS,
    MOST_COINS,
    Class,
    amounts_of,
    asked_as,
    belongs,
    class_of,
    draw,
    fewest,
    members,
    pieces,
    plain,
)
from review.core.skills.money_steps import (
    added_steps,
    change_errors,
    change_steps,
    coins_errors,
    decimal,
    made_steps,
    pictured,
    running,
    said,
    same_steps,
    small_change_errors,
    stops_to,
    sum_errors,
    to_major_errors,
    to_minor_errors,
    turned_steps,
    written,
)
from review.core.skills.options import whole, wholes, word
from review.core.skills.wording import EQUALS, PLUS, in_words
from review.core.skills.worked import without_echo, worked

MOST = 10_000  # our judgement: 100 pounds


# --- problems -----------------------------------------------------------------------------------------


class Shown(NamedTuple):
    """What differs from one question to the next."""

    prompt: str
    say: str
    expected: str
    told: str
    question: str
    build: str
    steps: tuple[str, ...]
    unit: str  # "" for the currency, "-minor" for its smaller unit
    form: str = "money"
    picture: Picture | None = None
    blank: str = ""  # "" for the last step without its result


def _answered(amount: int, minor: bool) -> str:
    return str(amount) if minor else decimal(amount)


def _counted(of: Class, amounts: tuple[int, ...]) -> Shown:
    currency, total = of.currency, sum(amounts)
    minor = of.high <= 100
    where = f"in {currency.minor_names[1]}:" if minor else currency.sign
    same = len(set(amounts)) == 1
    steps = same_steps(amounts[0], len(amounts), currency) if same else running(amounts, currency)
    return Shown(
        f"All together, {where}" if minor else f"All together: {where}",
        f"How much is it all together: {', '.join(said(amount, currency) for amount in amounts)}?",
        _answered(total, minor),
        f"All together it is {written(total, currency)}.",
        "Can you count in steps?" if same else "What are the first two together?",
        "Lay the same with real money.",
        steps,
        "-minor" if minor else "",
        picture=pictured(amounts, currency),
    )


def _laid(of: Class, amounts: tuple[int, ...]) -> Shown:
    currency = of.currency
    coins = fewest(amounts[0], pieces(of))
    amount = written(amounts[0], currency)
    return Shown(
        f"Coins that make {amount}:",
        f"Which coins make {said(amounts[0], currency)}?",
        " ".join(written(coin, currency) for coin in coins),
        f"These make {amount}:\n{' '.join(written(coin, currency) for coin in coins)}",
        "Which is the greatest coin that fits?",
        "Lay it with real coins.",
        made_steps(coins, currency),
        "",
        "coins",
    )


def _to_minor(of: Class, amounts: tuple[int, ...]) -> Shown:
    currency, (amount,) = of.currency, amounts
    major = currency.sign + decimal(amount)
    return Shown(
        f"{major} {EQUALS} {BOX} {currency.minor}",
        f"How many {currency.minor_names[1]} are {said(amount, currency)}?",
        str(amount),
        f"{major} is {amount}{currency.minor}.",
        f"How many {currency.minor_names[1]} make one {currency.major_names[0]}?",
        "Lay it with real coins.",
        turned_steps(amount, currency, True),
        "-minor",
    )


def _to_major(of: Class, amounts: tuple[int, ...]) -> Shown:
    currency, (amount,) = of.currency, amounts
    minor = f"{amount}{currency.minor}"
    return Shown(
        f"{minor} {EQUALS} {currency.sign}",
        f"How much is {in_words(amount)} {currency.minor_names[1]}, in {currency.major_names[1]}?",
        decimal(amount),
        f"{minor} is {currency.sign}{decimal(amount)}.",
        f"How many whole {currency.major_names[1]} are there?",
        "Lay it with real coins.",
        turned_steps(amount, currency, False),
        "",
    )


def _added(of: Class, amounts: tuple[int, ...]) -> Shown:
    currency, (a, b) = of.currency, amounts
    minor = of.high <= 100
    left = (
        " + ".join(f"{amount}{currency.minor}" for amount in amounts)
        if minor
        else " + ".join(f"{currency.sign}{decimal(amount)}" for amount in amounts)
    )
    end = f"{BOX} {currency.minor}" if minor else currency.sign
    return Shown(
        f"{left} {EQUALS} {end}",
        f"{said(a, currency)} plus {said(b, currency)}",
        _answered(a + b, minor),
        f"Together it is {written(a + b, currency)}.",
        f"What do the {currency.minor_names[1]} make?",
        "Lay both with real coins.",
        added_steps(a, b, currency),
        "-minor" if minor else "",
    )


def _changed(of: Class, amounts: tuple[int, ...]) -> Shown:
    currency, (paid, price) = of.currency, amounts
    minor = of.high <= 100
    end = f"Change in {currency.minor_names[1]}:" if minor else f"Change: {currency.sign}"
    steps = change_steps(paid, price, currency)
    jump = f"{written(price, currency)} {PLUS} {BOX} {EQUALS} {written(paid, currency)}"
    return Shown(
        f"Paid {written(paid, currency)}, price {written(price, currency)}. {end}",
        f"You pay {said(paid, currency)} for something that is {said(price, currency)}. What is the change?",
        _answered(paid - price, minor),
        f"The change is {written(paid - price, currency)}.",
        f"How far from {written(price, currency)} to {written(stops_to(paid, price)[1], currency)}?",
        "Count up with real coins.",
        steps,
        "-minor" if minor else "",
        blank=jump if len(steps) == 1 else "",  # of one jump, its result is known and the jump is asked
    )


SHOWN: Mapping[str, Callable[[Class, tuple[int, ...]], Shown]] = {
    "count": _counted,
    "same": _counted,
    "make": _laid,
    "to-minor": _to_minor,
    "to-major": _to_major,
    "add": _added,
    "change": _changed,
}


def problem(key: str, asked: str) -> Problem:
    of = class_of(key)
    amounts = amounts_of(of, asked)
    if not belongs(of, amounts) or asked_as(of, amounts) != asked:
        raise ValueError(f"{asked} does not belong to {key}")
    shown = SHOWN[of.ask](of, amounts)
    if shown.unit and of.ask in ("count", "same", "add"):
        shown = _in_minor(of, shown)
    return Problem(
        key, "money", asked, shown.prompt, shown.say, shown.form, shown.expected, shown.told,
        _helps(of, shown), of.code + shown.unit, shown.picture,
    )  # fmt: skip


def _in_minor(of: Class, shown: Shown) -> Shown:
    """100p where pence are asked for: who is told £1 would type the 1."""
    one, hundred = written(100, of.currency), f"100{of.currency.minor}"
    steps = tuple(step.replace(one, hundred) for step in shown.steps)
    return shown._replace(told=shown.told.replace(one, hundred), steps=steps)


def _helps(of: Class, shown: Shown) -> tuple[Help, ...]:
    blank, steps = worked(*shown.steps)
    blank = Help("blank", shown.blank) if shown.blank else blank
    prompt = shown.prompt.removesuffix(f" {of.currency.minor}")
    return without_echo(prompt, (Help("question", shown.question), Help("build", shown.build), blank, steps))


# --- what one would write under an error rule ---------------------------------------------------------


Errors = Callable[..., Iterator[tuple[str, str]]]

AMOUNTS: Mapping[str, Errors] = {
    "count": coins_errors,
    "same": coins_errors,
    "to-minor": to_minor_errors,
    "to-major": to_major_errors,
}
ERRORS: Mapping[str, Errors] = {**AMOUNTS, "add": sum_errors, "change": change_errors}
SMALL_ERRORS: Mapping[str, Errors] = {**AMOUNTS, "change": small_change_errors}
"""Up to one pound, where there is no point to mind."""


def predict(key: str, asked: str) -> Mapping[str, str]:
    of = class_of(key)
    errors = (SMALL_ERRORS if of.high <= 100 else ERRORS).get(of.ask)
    if errors is None:
        return {}
    expected = problem(key, asked).expected
    found = errors(*amounts_of(of, asked))
    return {rule: text for rule, text in found if float(text) != float(expected)}


# --- the kind -----------------------------------------------------------------------------------------

TITLES = {
    "count": "up to {} coins counted, to {}",
    "same": "{2} {3} counted, to {1}",
    "make": "coins that make an amount, to {1}",
    "to-minor": "pounds to pence, to {1}",
    "to-major": "pence to pounds, to {1}",
    "add": "amounts added, to {1}",
    "change": "change from {1}",
}
SECONDS = {  # our judgement
    "count": 8.0, "same": 8.0, "make": 14.0, "to-minor": 7.0, "to-major": 8.0, "add": 12.0, "change": 14.0,
}  # fmt: skip
SECONDS_A_COIN = 1.5  # our judgement
MOST_LAID = 200


def keys(skill: Skill) -> Iterator[str]:
    low, high = wholes(skill, "range")
    ask, coins = word(skill, "ask"), whole(skill, "coins")
    name = f"{ask}-{coins}" if ask == "count" else ask
    yield f"money:{name}/{word(skill, 'currency')}/{plain(low)}..{plain(high)}"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    of = class_of(next(keys(skill)))
    coins = (*of.currency.coins, *of.currency.notes)
    if of.ask == "same" and of.low not in coins:
        yield "range", f"there is no coin of {of.low}", f"begin with one of {', '.join(map(str, coins))}"
    elif of.ask == "make" and of.high > MOST_LAID:
        yield "range", f"{of.high} is much to lay in coins", f"write at most {MOST_LAID}"
    elif of.ask == "change" and of.high % of.low:
        yield "range", f"prices in steps of {of.low} do not reach {of.high}", "write a step that divides it"
    elif not (of.high // of.low > 1 if of.ask == "add" else members(of)):
        yield "range", "no amount fits", "begin lower or end higher"


def traits(key: str) -> Traits:
    of = class_of(key)
    laid = "notes" if of.low in of.currency.notes else "coins"
    amounts = [written(amount, of.currency) for amount in (of.high, of.low)]
    title = TITLES[of.ask].format(of.coins, *amounts, laid)
    if of.ask in ("to-minor", "to-major"):
        title = title.replace("pounds", of.currency.major_names[1]).replace(
            "pence", of.currency.minor_names[1]
        )
    groups = frozenset({f"procedure-{key}", f"money-{of.ask}"})
    return Traits(title, False, SECONDS[of.ask] + SECONDS_A_COIN * of.coins, groups)


KINDS: tuple[Kind, ...] = (
    Kind(
        "money",
        "coins, amounts and change",
        {
            "ask": Option(
                "word",
                "count or lay coins, turn pounds into pence or back, add, or give change",
                choices=tuple(MEMBERS),
                example='"change"',
            ),
            "currency": Option("word", "which money", choices=tuple(CURRENCIES), example='"GBP"'),
            "range": Option(
                "range",
                "in pence or cents: the smallest coin or step, and the largest total or what is paid",
                low=1,
                high=MOST,
                example="[5, 500]",
            ),
            "coins": Option(
                "whole", "how many coins to count at most", default=4, low=2, high=MOST_COINS, example="4"
            ),
        },
        keys, traits, draw, problem, check, predict=predict,
    ),
)  # fmt: skip
