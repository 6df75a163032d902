"""Facts with a number missing in any place, bonds of 100 and 1,000, and the error rules of facts.

That every showing has one answer, found by trying numbers in the box, and help that is true, is told with
all other facts, over the whole space.
"""

import pytest

from review.core.skills.fact_cards import numbers, showings
from tests.core.fact_space import BY_NAME, keys, problem, shown
from tests.core.shown import assert_uniform, refuses
from tests.tables import rows


def test_a_missing_number_in_any_place() -> None:
    assert keys("sum", addends=(5, 7), total=(12, 12), unknown=("first",)) == [
        "sum:_+5=12",
        "sum:_+7=12",
        "sum:_+6=12",
    ]
    assert keys("sum", addends=(6, 6), total=(12, 12), unknown=("result", "second")) == [
        "sum:6+6",
        "sum:_+6=12",
    ]
    assert keys("difference", whole=(12, 12), take=(5, 5), unknown=("second", "first")) == [
        "difference:12-_=7",
        "difference:_-5=7",
    ]
    assert keys("product", tables=(7,), times=(6, 6), unknown=("first",)) == [
        "product:_x6=42",
        "product:_x7=42",
    ]
    assert keys("quotient", tables=(7,), times=(6, 6), unknown=("first", "second")) == [
        "quotient:_/7=6",
        "quotient:_/6=7",
        "quotient:42/_=6",
        "quotient:42/_=7",
    ]
    assert showings("product:_x6=42") == ("_x6=42", "6x_=42")
    assert_uniform(BY_NAME["sum"], "sum:_+5=12", {"_+5=12", "5+_=12"})
    assert refuses(BY_NAME["quotient"], "quotient:42/_=7", ["_/6=7", "42/6", "42/7=_", "42/_=6"]) == []


@pytest.mark.parametrize(
    ("key", "asked", "prompt", "expected", "told", "build"),
    [
        ("sum:_+5=12", "5+_=12", "5 + □ = 12", "7", "5 + 7 makes 12.", "Put out 12 counters.\nCover 5."),
        ("difference:_-5=7", "_-5=7", "□ − 5 = 7", "12", "12 − 5 leaves 7.", "Put out the 7 left."),
        ("difference:12-_=7", "12-_=7", "12 − □ = 7", "5", "12 − 5 leaves 7.", "Put out 12 counters."),
        ("product:_x6=42", "_x6=42", "□ × 6 = 42", "7", "7 × 6 makes 42.", "Put out 42 counters."),
        ("quotient:_/6=7", "_/6=7", "□ ÷ 6 = 7", "42", "42 ÷ 6 makes 7.", "Build it with your counters:"),
        ("quotient:42/_=7", "42/_=7", "42 ÷ □ = 7", "6", "42 ÷ 6 makes 7.", "Put out 42 counters."),
    ],
)
def test_a_missing_number_is_found_by_the_operation_that_undoes(
    key: str, asked: str, prompt: str, expected: str, told: str, build: str
) -> None:
    one = problem(key, asked)
    assert (one.prompt, one.expected, one.told) == (prompt, expected, told)
    assert next(help.text for help in one.helps if help.step == "build").startswith(build)


def test_bonds_of_a_hundred_and_a_thousand_are_laid_in_tens_and_hundreds() -> None:
    one = problem("bond:1000=350+650", "1000=350+_")
    assert (one.prompt, one.told) == ("1,000 = 350 + □", "350 and 650 make 1,000.")
    assert one.helps[-1].text == "350 + 50 = 400\n400 + 600 = 1,000\n50 + 600 = 650"
    assert problem("bond:100=37+63", "100=37+_").helps[-1].text == "37 + 3 = 40\n40 + 60 = 100\n3 + 60 = 63"
    assert problem("bond:100=30+70", "100=30+_").helps[1].text.startswith("Build 100 with tens.")


# --- what one would write under an error rule ----------------------------------------------------------


OF_REMAINDERS = ("remainder_dropped", "to_next")  # rules for quotients that leave something over


@pytest.mark.parametrize(
    ("kind", "family"), [("sum", "add_fact"), ("product", "mul_fact"), ("quotient", "div_fact")]
)
def test_an_error_rule_gives_what_its_example_says(kind: str, family: str) -> None:
    """error_rules.csv: of these families `added` is from Miller & Paredes, all others from memory."""
    for row in rows("error_rules.csv", family=family):
        if row["rule"] in OF_REMAINDERS:
            continue
        asked = row["example"].replace(" ", "")
        small, large = sorted(numbers(asked))
        key = (
            f"{kind}:nx{small}"
            if small < 2
            else f"sum:{small}+{large}"
            if kind == "sum"
            else f"{kind}:{asked}"
        )
        found = {
            text
            for rule, text in BY_NAME[kind].predict(key, asked).items()
            if rule.partition("/")[0] == row["rule"]
        }
        assert found == set(row["predicted"].split(" or ")), row


def test_error_rules_of_a_missing_number_are_those_of_the_operation_that_undoes() -> None:
    def predict(key: str, asked: str) -> dict[str, str]:
        return dict(BY_NAME[key.partition(":")[0]].predict(key, asked))

    assert predict("sum:_+5=12", "5+_=12") == {"ten_kept": "17", "one_short": "6", "added": "17"}
    assert predict("difference:_-5=7", "_-5=7")["took_away"] == "2"
    assert predict("product:_x6=42", "6x_=42")["took_away"] == "36"
    assert predict("quotient:_/6=7", "_/6=7")["added"] == "13"
    assert predict("bond:10=3+7", "10=3+_")["same_again"] == "3"


@pytest.mark.parametrize("kind", ["sum", "difference", "product", "quotient"])
def test_error_rules_never_say_the_answer(kind: str) -> None:
    for one in shown(kind):
        for text in BY_NAME[kind].predict(one.card, one.asked).values():
            assert text != one.expected
            assert text.isdecimal()
