"""What is asked once more before it counts, and what never is."""

import re
from itertools import pairwise, product
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core import answers, skills, slips
from review.core.answers import judge
from review.core.model import Answer, Problem
from review.core.slips import asks_check, first_given, looks_like_slip, settled
from tests.tables import rows

PRODUCTS = [(f"product:{min(a, b)}x{max(a, b)}", f"{a}x{b}") for a, b in product(range(2, 13), repeat=2)]
SUMS = [(f"sum:{min(a, b)}+{max(a, b)}", f"{a}+{b}") for a, b in product(range(2, 10), repeat=2)]
FACTS = [skills.problem(*fact) for fact in (*PRODUCTS, *SUMS)]
DIGITS = "0123456789"


def edits(one: str, other: str) -> int:
    """Keys to add, drop, change or turn round: optimal string alignment (Damerau 1964; Wagner & Fischer
    1974), written down from the definition."""
    far = [[i + j for j in range(len(other) + 1)] for i in range(len(one) + 1)]
    for i, j in product(range(1, len(one) + 1), range(1, len(other) + 1)):
        changed = far[i - 1][j - 1] + (one[i - 1] != other[j - 1])
        far[i][j] = min(far[i - 1][j] + 1, far[i][j - 1] + 1, changed)
        if i > 1 and j > 1 and one[i - 1] == other[j - 2] and one[i - 2] == other[j - 1]:
            far[i][j] = min(far[i][j], far[i - 2][j - 2] + 1)
    return far[-1][-1]


def mistyped(expected: str) -> set[str]:
    """Every text one key more or another key away, or with two keys turned round."""
    more = {expected[:at] + key + expected[at:] for at, key in product(range(len(expected) + 1), DIGITS)}
    other = {expected[:at] + key + expected[at + 1 :] for at, key in product(range(len(expected)), DIGITS)}
    turned = {
        expected[:at] + expected[at : at + 2][::-1] + expected[at + 2 :] for at in range(len(expected) - 1)
    }
    return (more | other | turned) - {expected}


# --- what is a slip -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("card", "asked", "text", "slip"),
    [
        ("product:6x7", "6x7", "422", True),  # a doubled key
        ("product:6x7", "6x7", "442", True),
        ("product:6x7", "6x7", "482", True),  # a stray one
        ("product:6x7", "6x7", "72", True),  # 4 and 7 stand above each other
        ("product:7x7", "7x7", "40", True),  # 9 and 0 side by side
        ("product:6x7", "6x7", "43", False),  # one more
        ("product:6x7", "6x7", "52", False),  # ten more
        ("product:6x7", "6x7", "142", False),  # a hundred more
        ("product:6x7", "6x7", "420", False),  # a nought too many
        ("product:6x7", "6x7", "24", False),  # digits turned round, which a rule of products predicts
        ("product:3x9", "3x9", "24", False),  # the product before in the table; 7 and 4 are neighbours
        ("product:6x7", "6x7", "67", False),  # written side by side
        ("sum:8+9", "8+9", "71", True),  # digits turned round
        ("sum:8+9", "8+9", "177", True),
        ("sum:2+5", "2+5", "77", True),
        ("sum:2+5", "2+5", "4", False),  # one digit for another
        ("sum:2+5", "2+5", "17", False),
        ("mental-sum:2+2/regroup-ones", "47+25", "712", False),  # the exchanged one written out
        ("mental-sum:2+2/regroup-ones", "47+25", "62", False),  # and forgotten
        ("mental-sum:2+2/regroup-ones", "47+25", "27", True),
    ],
)
def test_a_slip_is_one_key_away_and_no_way_of_thinking(card: str, asked: str, text: str, slip: bool) -> None:
    """Common practice, no source, but for the rules of `error_rules.csv`."""
    assert looks_like_slip(skills.problem(card, asked), text) is slip


def test_neighbours_are_those_of_the_keyboards() -> None:
    """Above each other on the numeric section (ISO/IEC 9995-4: 789, 456, 123, and a 0 of two keys' width), or
    side by side on the top row, 1 to 9 and 0 (ISO/IEC 9995-2); both from memory."""
    pad, row = ("789", "456", "123", "00."), "1234567890"
    above = {frozenset(pair) for one, other in pairwise(pad) for pair in zip(one, other, strict=True)}
    beside = {frozenset(pair) for pair in pairwise(row)}
    off_by_one = {frozenset((str(n), str(n + 1))) for n in range(9)}
    found = {pair for pair in above | beside if "." not in pair} - off_by_one
    assert found == slips.NEIGHBOURS


@pytest.mark.parametrize("problem", FACTS[::3], ids=lambda problem: problem.asked)
def test_every_slip_is_one_key_off_and_never_a_way_of_reckoning(problem: Problem) -> None:
    """The whole space of texts one key away, and of all numbers of up to three digits."""
    expected, rules = problem.expected, skills.kind(problem.card).predict(problem.card, problem.asked)
    found = [text for text in (*mistyped(expected), *map(str, range(1000))) if looks_like_slip(problem, text)]
    assert found
    for text in found:
        assert edits(expected, text) == 1, text
        assert judge(problem, text) == "other", text
        assert text not in rules.values(), text
        assert abs(int(text) - int(expected)) not in (1, 10, 100, 1000), text
        assert text not in re.findall(r"\d+", problem.asked), text


def test_of_one_digit_each_other_digit_may_be_meant() -> None:
    for problem in (fact for fact in FACTS if len(fact.expected) == 1):
        assert not any(looks_like_slip(problem, digit) for digit in DIGITS)


def test_most_doubled_and_stray_keys_are_seen() -> None:
    """Measured: 4 of 5 stray keys on products and sums; the fifth is a 0, a 1, or foretold by a rule."""
    stray = [
        (fact, text) for fact in FACTS for text in mistyped(fact.expected) if len(text) > len(fact.expected)
    ]
    assert sum(looks_like_slip(*one) for one in stray) / len(stray) > 0.75


SIGNS = {"mul_fact": ("product", "x"), "add_fact": ("sum", "+"), "div_fact": ("quotient", "/")}


def _facts_of_rules() -> list[tuple[str, str, str]]:
    """Card, asked and predicted of each example that is a fact with a card of its own."""
    return [
        (_card(row), re.sub(r"[^\dx+/]", "", row["example"]), text)
        for row in rows("error_rules.csv")
        if row["family"] in SIGNS
        for text in row["predicted"].split(" or ")
        if row["right"].isdigit() and not re.search(r"x [01]$", row["example"])
    ]


def _card(row: dict[str, str]) -> str:
    kind, sign = SIGNS[row["family"]]
    numbers = re.findall(r"\d+", row["example"])
    return f"{kind}:{sign.join(numbers)}"


@pytest.mark.parametrize(("card", "asked", "predicted"), _facts_of_rules())
def test_what_an_error_rule_predicts_is_never_asked_again(card: str, asked: str, predicted: str) -> None:
    """Examples of the table of error rules, with its sources."""
    assert not looks_like_slip(skills.problem(card, asked), predicted)


@pytest.mark.parametrize("key", ["number-name:read/100..999", "place-value:compose/4"])
def test_digits_turned_round_count_at_once_where_their_place_is_the_idea(key: str) -> None:
    problems = [skills.problem(key, skills.draw(key, Random(f"{key}{n}"))) for n in range(50)]
    turned = [(one, one.expected[:-2] + one.expected[-2:][::-1]) for one in problems]
    assert any(judge(*one) == "other" for one in turned)
    assert not any(looks_like_slip(*one) for one in turned if judge(*one) == "other")


def test_no_sign_word_letter_or_choice_is_a_slip_and_all_that_is_written_in_digits_may_be() -> None:
    left_alone = {"sign", "truth", "yes-no", "odd-even", "text", "number-word", "roman-additive",
                  "roman-subtractive", "spelt", "unit", "term", "clock-words", "clock-am-pm"}  # fmt: skip
    assert set(answers.FORMS) - slips.FORMS == left_alone
    assert set(answers.FORMS) >= slips.FORMS


def test_one_of_two_numbers_to_choose_from_is_no_slip_of_the_keys() -> None:
    warmer = skills.problem("temperature:which-warmer-c/20-20-1", "-12?16")
    read = skills.problem("sum:8+8", "8+8")
    assert (warmer.expected, read.expected) == ("16", "16")
    assert looks_like_slip(read, "61")
    assert not any(looks_like_slip(warmer, text) for text in mistyped("16"))


@given(st.sampled_from(FACTS), st.text(max_size=12))
def test_any_text_may_come(problem: Problem, text: str) -> None:
    looks_like_slip(problem, text)


@given(st.sampled_from(FACTS), st.sampled_from(["{} ", " {}", "={}", "{}."]))
def test_the_answer_itself_is_none(problem: Problem, way: str) -> None:
    assert not looks_like_slip(problem, way.format(problem.expected))


# --- what is kept -------------------------------------------------------------------------------------

ROW = Answer("product:6x7", "6x7", "42", "422", "not_yet", first_ms=900, end_ms=2000)


@pytest.mark.parametrize("mark", ["right", "right_slow"])
def test_right_after_a_slip_is_right_without_a_time(mark: str) -> None:
    last = ROW._replace(given="42", mark=mark, end_ms=9000)  # type: ignore[arg-type]
    assert settled(ROW, last) == ROW._replace(given="42", mark="right", first_ms=0, end_ms=0, slipped="422")


def test_not_right_after_a_slip_keeps_both() -> None:
    last = ROW._replace(given="40", end_ms=9000)
    assert settled(ROW, last) == last._replace(slipped="422")
    assert first_given(settled(ROW, last)) == "422"


@pytest.mark.parametrize("given", ["42", "41", ""])
def test_what_was_right_at_once_stands_with_its_time(given: str) -> None:
    first = ROW._replace(given="42", mark="right")
    last = ROW._replace(given=given, mark="shown" if not given else "not_yet", end_ms=9000)
    assert settled(first, last) == first._replace(given=given or "42", slipped="42")


def test_an_answer_that_is_right_is_asked_once_more_about_as_often_as_one_slips() -> None:
    problem, right = FACTS[0], ROW._replace(mark="right")
    asked = sum(asks_check(problem, right, 0, 9, Random(n)) for n in range(4000))
    assert 60 <= asked <= 140  # 100 on average, and four standard deviations on each side
    assert not any(asks_check(problem, right, 1, 9, Random(n)) for n in range(400))
    assert not any(asks_check(problem, right, 0, 4, Random(n)) for n in range(400))
    assert not any(asks_check(problem, ROW, 0, 9, Random(n)) for n in range(400))
    sign = skills.problem("compare:2/first", "27?72")  # no slip of it is asked once more either
    chosen = right._replace(card=sign.card, asked=sign.asked, expected="<", given="<")
    assert not any(asks_check(sign, chosen, 0, 9, Random(n)) for n in range(400))
