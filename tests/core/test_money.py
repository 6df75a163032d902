"""Money: ways to make an amount against published counts, whole classes, the table of error rules."""

import re
from fractions import Fraction
from itertools import combinations_with_replacement
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.currencies import CURRENCIES
from review.core.keys import well_formed
from review.core.model import Skill
from review.core.skills.money import KINDS
from review.core.skills.money_classes import class_of, fewest, hands, pieces
from review.core.skills.wording import EQUALS
from review.signs import fit
from tests.core.shown import SOURCES, assert_sound, assert_uniform, refuses, seen
from tests.tables import rows

(MONEY,) = KINDS

SPANS = {  # smallest coin or step, largest total or what is paid, in the minor unit
    "count": [(1, 20), (5, 100), (10, 500)],
    "same": [(5, 50), (10, 100)],
    "make": [(1, 20), (1, 99), (5, 200)],
    "to-minor": [(1, 500), (10, 999)],
    "to-major": [(1, 500), (5, 100)],
    "add": [(5, 50), (5, 100), (5, 500), (1, 10_000)],
    "change": [(1, 20), (5, 100), (5, 500), (1, 1000)],
}


def skill(**options: object) -> Skill:
    return Skill("s", "S", "money", "accuracy", {"coins": 4, **options})


KEYS = [
    key
    for ask, spans in SPANS.items()
    for code in CURRENCIES
    for span in spans
    for one in [skill(ask=ask, currency=code, range=span)]
    if not list(MONEY.check(one))
    for key in MONEY.keys(one)
]


def money_term(term: str) -> Fraction:
    """In the minor unit: £2.35, 35p, 35c, $2; a bare number as it is."""
    if sign := re.fullmatch(r"[£$€](\d+(?:\.\d\d)?)", term):
        return Fraction(sign[1]) * 100
    return Fraction(term.rstrip("pc"))


# --- what is shown ------------------------------------------------------------------------------------


@given(st.sampled_from(KEYS), SOURCES)
def test_what_is_drawn_is_sound(key: str, random: Random) -> None:
    problem = MONEY.problem(key, MONEY.draw(key, random))
    assert_sound(problem, money_term)
    assert all(len(fit(line, "ascii")) <= 40 for line in seen(problem))
    assert key.split("/")[1] == problem.unit[:3]


def test_like_coins_are_counted_in_steps_before_any_table_is_known() -> None:
    """Coins of one sort come at six to eight, products later (2.MD.C.8 and 3.OA.C.7)."""
    helps = {
        ",".join(["0.05"] * 9): "In 5s: 5, 10, 15, 20, 25|30, 35, 40|40p + 5p = 45p",
        "0.05,0.05,0.05": "In 5s: 5, 10|10p + 5p = 15p",
        "0.05,0.05": "5p + 5p = 10p",
    }
    for asked, steps in helps.items():
        blank, worked = MONEY.problem("money:same/GBP/0.05..0.5", asked).helps[-2:]
        assert worked.text == steps.replace("|", "\n")
        assert blank.text == worked.text.rpartition(" ")[0] + " □"
    ten = MONEY.problem("money:same/GBP/0.1..1", ",".join(["0.1"] * 10)).helps[-1].text
    assert ten.endswith("90p + 10p = 100p")


@given(st.sampled_from([key for key in KEYS if ":count" in key or ":same" in key]), SOURCES)
def test_the_answer_is_what_lies_on_the_table(key: str, random: Random) -> None:
    problem = MONEY.problem(key, MONEY.draw(key, random))
    coins = re.findall(r"[(\[]([^)\]]+)[)\]]", " ".join(seen(problem)))
    answer = Fraction(problem.expected) * (1 if problem.unit.endswith("-minor") else 100)
    assert sum(map(money_term, coins)) == answer
    assert len(coins) >= 2


def test_as_a_teacher_would_write_it() -> None:
    sums = MONEY.problem("money:add/GBP/0.05..5", "1.8+0.45")
    assert (sums.prompt, sums.expected) == ("£1.80 + £0.45 = £", "2.25")
    assert sums.helps[-1].text == "80p + 45p = £1.25\n£1 + £1.25 = £2.25"
    assert [judge(sums, text) for text in ("2.25", "£2.25", "225p", "225", "$2.25", "2,25")] == [
        "right", "right", "right", "other", "unreadable", "right",
    ]  # fmt: skip
    minor = MONEY.problem("money:add/EUR/0.05..1", "0.4+0.55")
    assert minor.helps[-1].text == "40c + 50c = 90c\n90c + 5c = 95c"
    change = MONEY.problem("money:change/USD/0.05..5", "5-3.65")
    assert (change.prompt, change.expected) == ("Paid $5, price $3.65. Change: $", "1.35")
    assert (
        change.helps[-1].text == "$3.65 + 5c = $3.70\n$3.70 + 30c = $4\n$4 + $1 = $5\n5c + 30c + $1 = $1.35"
    )
    coins = MONEY.problem("money:count-4/GBP/0.05..1", "0.5,0.2,0.2")
    assert (seen(coins), coins.prompt, coins.expected) == (
        ("(50p) (20p) (20p)",), "All together, in pence:", "90",
    )  # fmt: skip
    assert [judge(coins, text) for text in ("90", "90p", "£0.90", "0.90", "90c", "9")] == [
        "right", "right", "right", "right", "unreadable", "other",
    ]  # fmt: skip
    made = MONEY.problem("money:make/USD/0.01..0.99", "0.37")
    assert (made.prompt, made.expected) == ("Coins that make 37c:", "25c 10c 1c 1c")
    assert [judge(made, text) for text in ("25 10 1 1", "quarter dime 2 pennies", "10 5 2", "37", "10")] == [
        "right", "right", "unreadable", "unreadable", "other",
    ]  # fmt: skip
    turned = MONEY.problem("money:to-major/EUR/0.01..5", "2.05")
    assert (turned.prompt, turned.expected) == ("205c = €", "2.05")
    assert MONEY.problem("money:to-minor/GBP/0.01..5", "2.05").prompt == "£2.05 = □ p"


def helped(key: str, asked: str) -> dict[str, str]:
    return {help.step: help.text for help in MONEY.problem(key, asked).helps}


def test_no_help_gives_the_change_before_the_last_step() -> None:
    for key in ("money:change/GBP/0.01..0.2", "money:change/USD/0.05..1", "money:change/EUR/0.05..0.5"):
        for asked in {MONEY.draw(key, Random(seed)) for seed in range(40)}:
            blank, steps = helped(key, asked)["blank"], helped(key, asked)["steps"]
            assert "\n" in steps or f" + □ {EQUALS} " in blank, asked
    assert helped("money:change/GBP/0.05..1", "1-0.3")["blank"] == "30p + □ = £1"
    assert helped("money:change/GBP/0.01..0.2", "0.2-0.15")["blank"] == "15p + □ = 20p"


PUT_TOGETHER = [key for key in KEYS if re.match("money:(count|same|add)", key) and class_of(key).high <= 100]


@pytest.mark.parametrize("key", PUT_TOGETHER)
def test_where_pence_are_asked_for_the_last_line_tells_pence(key: str) -> None:
    """To type the 1 of "£1" would be another answer."""
    for asked in {MONEY.draw(key, Random(seed)) for seed in range(60)}:
        problem = MONEY.problem(key, asked)
        answer = problem.expected + CURRENCIES[problem.unit[:3]].minor
        assert problem.told.endswith(f" {answer}."), asked
        assert problem.helps[-1].text.endswith(f" {answer}"), asked


def test_a_question_of_change_names_the_first_stop() -> None:
    for key, asked, question in (
        ("money:change/GBP/0.01..0.2", "0.2-0.12", "How far from 12p to 20p?"),
        ("money:change/EUR/0.05..5", "5-3.65", "How far from €3.65 to €3.70?"),
        ("money:change/USD/0.05..1", "1-0.3", "How far from 30c to $1?"),
        ("money:change/GBP/0.05..20", "20-2.5", "How far from £2.50 to £3?"),
    ):
        found = helped(key, asked)
        assert found["question"] == question
        assert found["steps"].split("\n")[0].endswith(f" {EQUALS} {question.split()[-1].rstrip('?')}")


def test_a_sum_of_pence_is_not_helped_by_saying_it_again() -> None:
    assert "blank" not in helped("money:add/GBP/0.05..1", "0.2+0.8")
    assert helped("money:add/GBP/0.05..1", "0.1+0.45")["blank"] == "10p + 40p = 50p\n50p + 5p = □"


def test_one_pound_is_turned_into_pence_once() -> None:
    assert helped("money:to-minor/GBP/0.05..5", "1.15")["steps"] == "£1 = 100p\n100p + 15p = 115p"
    assert helped("money:to-minor/GBP/0.05..5", "2.15")["steps"] == (
        "£1 = 100p\n£2 = 200p\n200p + 15p = 215p"
    )


# --- against outside sources --------------------------------------------------------------------------


WAYS = [row for row in rows("counts.csv") if row["class"].startswith("ways to make")]


@pytest.mark.parametrize(
    "row", [row for row in WAYS if int(row["count"]) < 5000], ids=lambda row: row["class"]
)
def test_there_are_as_many_ways_to_make_an_amount_as_the_table_counts(row: dict[str, str]) -> None:
    """counts.csv: by a dynamic programme and by sympy's generating function, which agree."""
    found = re.search(r"make (\d+) with (\w+) (?:cents|pence) ([\d,]+)", row["class"])
    assert found
    total, coins = int(found[1]), sorted(map(int, found[3].split(",")), reverse=True)
    ways = sum(sum(hand) == total for hand in hands(tuple(coins), total, total))
    assert ways == int(row["count"])


def test_the_coins_of_the_published_counts_are_ours() -> None:
    """The coin sets named in counts.csv; the half dollar is read and not drawn."""
    named = [row["class"] for row in WAYS]
    assert any(text.endswith(",".join(map(str, CURRENCIES["USD"].coins))) for text in named)
    assert any(text.endswith(",".join(map(str, CURRENCIES["GBP"].coins))) for text in named)
    assert 50 in CURRENCIES["USD"].seldom


@pytest.mark.parametrize("code", CURRENCIES)
def test_the_greatest_that_fits_takes_the_fewest_coins(code: str) -> None:
    """Against every amount's true least number, by a dynamic programme."""
    choice = tuple(sorted(CURRENCIES[code].coins, reverse=True))
    least = [0]
    for amount in range(1, 201):
        least.append(1 + min(least[amount - coin] for coin in choice if coin <= amount))
        coins = fewest(amount, choice)
        assert (len(coins), sum(coins)) == (least[amount], amount)


# --- classes ------------------------------------------------------------------------------------------


def _text(amount: int) -> str:
    return str(Fraction(amount, 100)) if amount % 100 == 0 else f"{amount / 100:.2f}".rstrip("0")


def _hands(coins: tuple[int, ...], most: int, total: int) -> list[str]:
    every = (
        hand
        for many in range(2, most + 1)
        for hand in combinations_with_replacement(sorted(coins, reverse=True), many)
    )
    return [",".join(map(_text, hand)) for hand in every if sum(hand) <= total]


def _sums(step: int, most: int) -> list[str]:
    amounts = range(step, most, step)
    return [f"{_text(a)}+{_text(b)}" for a in amounts for b in amounts if a + b <= most]


@pytest.mark.parametrize(
    ("key", "members"),
    [
        ("money:count-3/USD/0.05..1", _hands((5, 10, 25, 100), 3, 100)),
        ("money:count-4/GBP/0.1..0.5", _hands((10, 20, 50), 4, 50)),
        ("money:same/GBP/0.05..0.5", [",".join(["0.05"] * many) for many in range(2, 11)]),
        ("money:make/USD/0.01..0.2", [_text(n) for n in range(2, 21) if n not in (5, 10)]),
        ("money:to-minor/EUR/0.25..3", [_text(n) for n in range(125, 301, 25)]),
        (
            "money:add/GBP/0.5..5",
            [f"{_text(a)}+{_text(b)}" for a in range(50, 500, 50) for b in range(50, 501 - a, 50)],
        ),
        ("money:change/GBP/0.05..1", [f"1-{_text(n)}" for n in range(5, 100, 5)]),
    ],
)
def test_every_member_of_a_class_is_equally_likely(key: str, members: list[str]) -> None:
    assert_uniform(MONEY, key, members)


def test_a_problem_of_another_class_is_refused() -> None:
    taken = [
        *refuses(MONEY, "money:change/GBP/0.05..5", ["5-5", "5-3.66", "10-3.65", "5-0", "5.00-3.65"]),
        *refuses(MONEY, "money:add/GBP/0.05..5", ["4+1.05", "1+0.03", "1+0", "1.80+0.45", "1"]),
        *refuses(MONEY, "money:count-3/GBP/0.05..1", ["0.05", "0.2,0.5", "0.02,0.02", "0.05,0.05,0.05,0.05"]),
    ]
    assert taken == []


@given(st.sampled_from(KEYS), SOURCES)
def test_keys_obey_the_grammar(key: str, random: Random) -> None:
    assert well_formed(key, MONEY.draw(key, random))
    assert 1 <= MONEY.traits(key).seconds <= 30
    assert MONEY.traits(key).title


@pytest.mark.parametrize(
    ("options", "wrong"),
    [
        ({"ask": "same", "range": (3, 30)}, "there is no coin of 3"),
        ({"ask": "make", "range": (1, 900)}, "900 is much to lay in coins"),
        ({"ask": "change", "range": (30, 100)}, "prices in steps of 30 do not reach 100"),
        ({"ask": "add", "range": (30, 50)}, "no amount fits"),
        ({"ask": "count", "range": (20, 30)}, "no amount fits"),
    ],
)
def test_impossible_conditions_are_told(options: dict[str, object], wrong: str) -> None:
    ((where, found, _),) = MONEY.check(skill(currency="GBP", **options))
    assert (where, found) == ("range", wrong)


def test_dollars_and_notes_are_laid_as_such() -> None:
    assert pieces(class_of("money:count-4/USD/0.25..5")) == (500, 100, 25)
    notes = MONEY.problem("money:count-4/USD/0.25..5", "1,1,0.25")
    assert seen(notes) == ("[$1] [$1] (25c)",)


# --- error rules --------------------------------------------------------------------------------------


RULES = [row for row in rows("error_rules.csv") if row["family"] in ("money", "change")]


@pytest.mark.parametrize("row", RULES, ids=lambda row: f"{row['family']}-{row['rule']}")
@pytest.mark.parametrize("code", CURRENCIES)
def test_every_rule_of_the_table_shows_as_in_its_example(code: str, row: dict[str, str]) -> None:
    """error_rules.csv: from memory, but 0 - n = n of Brown & VanLehn 1980."""
    a, sign, b = row["example"].split(" ")
    ask = {"+": "add", "-": "change"}[sign]
    key, asked = f"money:{ask}/{code}/0.05..5", f"{float(a):g}{sign}{float(b):g}"
    assert MONEY.problem(key, asked).expected == row["right"]
    assert MONEY.predict(key, asked)[row["rule"]] == row["predicted"]


@pytest.mark.parametrize(
    ("key", "asked", "predicted"),
    [
        ("same/USD/0.05..0.5", "0.05,0.05,0.05", {"coins_counted": "3"}),
        ("count-3/GBP/0.01..0.2", "0.1,0.05", {"coins_counted": "2"}),
        ("change/GBP/0.05..1", "1-0.65", {"ten_extra": "45", "added": "165"}),
        ("change/GBP/0.05..1", "1-0.7", {"added": "170"}),
        ("change/GBP/0.05..1", "1-0.05", {"added": "105"}),
        ("to-minor/GBP/0.05..5", "4.05", {"nought_dropped": "45", "added": "9"}),
        ("to-minor/GBP/0.05..5", "2.55", {"added": "57"}),
        ("to-major/GBP/0.05..5", "4.05", {"nought_dropped": "4.5", "point_late": "40.5"}),
        ("to-major/GBP/0.05..5", "4.2", {}),
        ("add/GBP/0.05..1", "0.25+0.25", {}),
    ],
)
def test_what_is_believed_of_coins_and_of_noughts(key: str, asked: str, predicted: dict[str, str]) -> None:
    """How many coins, not what they are worth; each digit made up to ten; a nought not read: common practice,
    no source."""
    assert dict(MONEY.predict(f"money:{key}", asked)) == predicted


@given(st.sampled_from(KEYS), SOURCES)
def test_what_is_predicted_can_be_read_and_differs(key: str, random: Random) -> None:
    asked = MONEY.draw(key, random)
    problem = MONEY.problem(key, asked)
    assert {judge(problem, text) for text in MONEY.predict(key, asked).values()} <= {"other"}
