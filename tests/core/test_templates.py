"""Templates: what is drawn is what ranges and condition say, each alike; hopeless ones are told."""

import re
import tomllib
from fractions import Fraction
from itertools import product
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import judge
from review.core.card_sets import read_set
from review.core.expressions import Expression, expression
from review.core.keys import well_formed
from review.core.model import BOX, Skill
from review.core.skills import shown_answer
from review.core.skills.template_classes import LISTED, MOST_UNDER, draw, template
from review.core.skills.template_lines import barred, written
from review.core.skills.templates import KINDS, WIDEST, problem
from tests.core.shown import SOURCES, assert_uniform, holds, in_order, refuses, value_of
from tests.core.spaces import amount

(TEMPLATE,) = KINDS


def skill(
    show: object, letters: dict[str, tuple[int, int]], answer: str, where: str = "", form: str = "number"
) -> Skill:
    spans = tuple(letters.items())
    options = {"show": show, "letters": spans, "answer": answer, "where": where, "as": form}
    return Skill("s", "S", "template", "accuracy", options)


def key_of(
    show: object, letters: dict[str, tuple[int, int]], answer: str, where: str = "", form: str = "number"
) -> str:
    one = skill(show, letters, answer, where, form)
    assert not list(TEMPLATE.check(one)), list(TEMPLATE.check(one))
    (key,) = TEMPLATE.keys(one)
    return key


def told(
    show: object, letters: dict[str, tuple[int, int]], answer: str, where: str = "", form: str = "number"
) -> list[str]:
    """Options with a mistake."""
    return [name for name, *_ in TEMPLATE.check(skill(show, letters, answer, where, form))]


NINE = {"a": (1, 9), "b": (1, 9)}

# --- what is drawn ------------------------------------------------------------------------------------


def test_every_choice_that_fits_is_drawn_alike_and_no_other() -> None:
    """Oracle: the pairs written out by a comprehension."""
    key = key_of("a + b", NINE, "a + b", "a > b and (a + b) % 3 == 0")
    members = [f"a={a},b={b}" for a, b in product(range(1, 10), repeat=2) if a > b and (a + b) % 3 == 0]
    assert_uniform(TEMPLATE, key, members)
    every = [f"a={a},b={b}" for a, b in product(range(12), repeat=2)]
    assert set(every) - set(refuses(TEMPLATE, key, every)) == set(every) - set(members)


def test_a_class_larger_than_is_listed_is_drawn_alike_too() -> None:
    key = key_of("a - b", {"a": (1, 40), "b": (1, 40)}, "a - b", "a >= b and a - b <= 2")
    assert template(key).choices > LISTED
    assert_uniform(TEMPLATE, key, [f"a={a},b={b}" for a in range(1, 41) for b in range(max(1, a - 2), a + 1)])


def test_what_cannot_be_typed_is_never_drawn() -> None:
    """A third has no end: only where the condition leaves none is the template taken."""
    assert told("a ÷ b", NINE, "a / b") == ["answer"]
    key = key_of("a ÷ b", NINE, "a / b", "a % b == 0")
    assert {problem(key, draw(key, Random(n))).expected.isdigit() for n in range(50)} == {True}
    assert problem(key_of("a ÷ 8", {"a": (1, 9)}, "a / 8"), "a=1").expected == "0.125"


@pytest.mark.parametrize(
    "asked", ["a=3", "b=4,a=5", "a=5,b=4,c=1", "a=05,b=4", "a=4,b=5", "a=10,b=1", "a=5.0,b=4"]
)
def test_a_strangers_numbers_are_refused(asked: str) -> None:
    with pytest.raises(ValueError, match=r".+"):
        problem(key_of("a + b", NINE, "a + b", "a > b"), asked)


LETTERS = st.dictionaries(
    st.sampled_from("abc"),
    st.tuples(st.integers(-9, 30), st.integers(0, 20)).map(lambda p: (p[0], sum(p))),
    min_size=1,
)


@given(LETTERS, SOURCES)
def test_the_answer_is_the_value_of_what_is_shown(
    letters: dict[str, tuple[int, int]], random: Random
) -> None:
    """Oracle: the evaluator of the tests, on the prompt as a child reads it."""
    text = " + ".join(f"{name} * 3" for name in letters)
    key = key_of(text, letters, text)
    asked = draw(key, random)
    one = problem(key, asked)
    assert well_formed(key, asked)
    shown = one.prompt.removesuffix(" =").replace("−", "-").replace(" - ", " − ")
    assert value_of(shown) == int(one.expected)
    assert judge(one, one.expected) == "right"
    assert judge(one, str(int(one.expected) + 1)) == "other"
    assert one.say


# --- what is shown ------------------------------------------------------------------------------------


def test_as_a_parent_would_write_it() -> None:
    one = problem(key_of("a × b + c", {**NINE, "c": (1, 5)}, "a * b + c"), "a=7,b=8,c=2")
    assert (one.prompt, one.expected, one.form) == ("7 × 8 + 2 =", "58", "whole")
    assert one.say == "seven times eight plus two"
    assert one.told == "7 × 8 + 2 makes 58."
    assert [help.step for help in one.helps] == ["steps"]


def test_words_and_letters() -> None:
    show = ("In each box:", "b", ". Boxes:", "a", ". In all:")
    one = problem(key_of(show, NINE, "a * b"), "a=3,b=4")
    assert one.prompt == "In each box: 4. Boxes: 3. In all:"
    assert one.say == "In each box: four. Boxes: three. In all:"
    assert [help.text for help in one.helps] == [f"3 × 4 = {BOX}", "3 × 4 = 12"]
    assert in_order(one)
    assert holds(one.helps[-1].text)


def test_a_box_anywhere_and_brackets() -> None:
    one = problem(key_of("a + _ = c", {"a": (1, 9), "c": (10, 20)}, "c - a"), "a=7,c=12")
    assert (one.prompt, one.told, one.expected) == ("7 + □ = 12", "7 + 5 = 12", "5")
    two = problem(key_of("2 * (a + b)", NINE, "2 * (a + b)"), "a=7,b=1")
    assert (two.prompt, two.say) == ("2 × (7 + 1) =", "two times open bracket seven plus one close bracket")


def test_a_result_below_zero_is_told_and_judged_with_either_sign() -> None:
    one = problem(key_of("a - b", NINE, "a - b"), "a=2,b=5")
    assert (one.expected, one.told) == ("-3", "2 − 5 makes −3.")
    assert judge(one, "-3") == judge(one, "−3") == "right"


@pytest.mark.parametrize(
    ("show", "answer", "told"),
    [
        ("a + b", "a + b", "1,200 + 3,400 makes 4,600."),
        ("a - 10 * b", "a - 10 * b", "1,200 − 10 × 3,400 makes −32,800."),
        ("a + b + 1/2", "a + b + 1/2", "1,200 + 3,400 + 1 ÷ 2 makes 4,600.5."),
    ],
)
def test_thousands_of_an_answer_stand_apart_as_in_its_prompt(show: str, answer: str, told: str) -> None:
    one = problem(key_of(show, {"a": (1000, 1999), "b": (3000, 3999)}, answer), "a=1200,b=3400")
    assert one.told == told
    assert one.helps[-1].text == told.replace("makes", "=").removesuffix(".")
    assert judge(one, shown_answer(one)) == "right"
    assert shown_answer(one) in told


# --- fractions ----------------------------------------------------------------------------------------

PARTS = {"a": (1, 7), "b": (2, 8), "c": (1, 7), "d": (2, 8)}


@given(st.sampled_from("+-×÷"), SOURCES)
def test_fractions_have_the_value_of_what_is_shown(sign: str, random: Random) -> None:
    """Oracle: `Fraction` on the numbers of the prompt, as a child reads them."""
    answer = f"(a/b) {'*' if sign == '×' else '/' if sign == '÷' else sign} (c/d)"
    key = key_of(f"a/b {sign} c/d", PARTS, answer, "a < b and c < d", "fraction")
    asked = draw(key, random)
    one = problem(key, asked)
    assert well_formed(key, asked)
    left, shown, right = one.prompt.removesuffix(" =").split(" ")
    reckoned = {
        "+": Fraction(left) + Fraction(right), "−": Fraction(left) - Fraction(right),
        "×": Fraction(left) * Fraction(right), "÷": Fraction(left) / Fraction(right),
    }[shown]  # fmt: skip
    minus, digits = one.expected.startswith("-"), one.expected.removeprefix("-")
    assert sum(map(Fraction, digits.split(" "))) * (-1 if minus else 1) == reckoned
    assert judge(one, one.expected) == judge(one, str(reckoned)) == "right"
    assert judge(one, str(reckoned + Fraction(1, 7))) == "other"
    assert holds(one.helps[-1].text.replace("(", "").replace(")", ""), amount) if sign in "+-" else True


def test_a_fraction_as_a_parent_would_write_it() -> None:
    one = problem(key_of("a/b + c/d", PARTS, "a/b + c/d", "a < b and c < d", "fraction"), "a=3,b=4,c=1,d=2")
    assert (one.prompt, one.say, one.expected) == ("3/4 + 1/2 =", "three quarters plus one half", "1 1/4")
    assert (one.form, one.told) == ("fraction", "3/4 + 1/2 makes 1 1/4.")
    assert [judge(one, text) for text in ("1 1/4", "5/4", "10/8", "1.25", "4/6")] == [
        "right", "right", "right", "unreadable", "other",
    ]  # fmt: skip
    two = problem(
        key_of("n a/b + c/d", {"n": (1, 3), **PARTS}, "n + a/b + c/d", "", "mixed"), "n=2,a=1,b=4,c=2,d=4"
    )
    assert (two.prompt, two.say, two.expected) == (
        "2 1/4 + 2/4 =", "two and one quarter plus two quarters", "2 3/4",
    )  # fmt: skip
    assert [judge(two, text) for text in ("2 3/4", "11/4", "3 3/4")] == ["right", "unreadable", "other"]
    show = ("What is", "a", "/", "b", "of", "n", "?")
    three = problem(
        key_of(show, {"a": (1, 4), "b": (2, 5), "n": (2, 9)}, "a/b*n", "a < b", "simplest"), "a=2,b=3,n=5"
    )
    assert (three.prompt, three.say) == ("What is 2/3 of 5?", "What is two thirds of five?")
    assert (three.expected, three.helps[-1].text) == ("3 1/3", "2/3 × 5 = 3 1/3")
    assert [judge(three, text) for text in ("3 1/3", "10/3", "20/6")] == ["right", "right", "other"]


@pytest.mark.parametrize(
    ("answer", "shown"),
    [
        ("a / b / c", "1/2 ÷ 3"), ("a / b / c / d", "1/2 ÷ 3 ÷ 4"), ("(a / b) / (c / d)", "(1/2) ÷ (3/4)"),
        ("(a + b) / c", "(1 + 2) ÷ 3"), ("a * b / c", "1 × 2/3"), ("a - c / d", "1 − 3/4"),
    ],
)  # fmt: skip
def test_bars_stand_where_they_change_no_value(answer: str, shown: str) -> None:
    """Each shown sum has the value of the answer it stands for, a bar binding closer than × and ÷."""
    found = expression(answer)
    assert isinstance(found, Expression)
    values = {"a": 1, "b": 2, "c": 3, "d": 4}
    assert written(barred(found.tokens), values, True) == shown
    python = re.sub(r"(\d)/(\d)", r"F(\1, \2)", shown).translate(str.maketrans("×÷−", "*/-"))
    assert eval(python, {"F": Fraction}) == found.reckon(values)


@pytest.mark.parametrize("show", ["a/", "/a", "a//b", "(a)/(b)", "a/b/b", "1/2 a", "_/a = b"])
def test_any_place_of_a_bar_can_be_said(show: str) -> None:
    (key,) = TEMPLATE.keys(skill(show, NINE, "a + b", "", "fraction"))
    one = problem(key, "a=2,b=3")
    assert one.prompt
    assert one.say


def test_what_is_no_fraction_in_bounds_is_never_drawn() -> None:
    wide = {"a": (1, 9), "b": (1, 40), "c": (1, 40)}
    assert told("a/b + a/c", wide, "a/b + a/c", "", "fraction") == ["answer"]
    key = key_of("a/b + a/c", wide, "a/b + a/c", "b * c <= 200", "fraction")
    drawn = [problem(key, draw(key, Random(n))).expected for n in range(200)]
    assert all(Fraction(text.split(" ")[-1]).denominator <= MOST_UNDER for text in drawn)
    assert told("a/b", {"a": (1, 3), "b": (0, 3)}, "a/b", "", "fraction") == ["answer"]


def test_the_form_of_the_answer_is_part_of_the_key_and_old_keys_stay() -> None:
    plain, exact = (
        key_of("a/b", {"a": (1, 4), "b": (1, 2)}, "a/b", "", form) for form in ("number", "fraction")
    )
    assert plain == "template:a%2Fb=a%2Fb/a=1..4,b=1..2"
    assert exact == "template:a%2Fb=a%2Fb~fraction/a=1..4,b=1..2"
    assert (problem(plain, "a=3,b=2").prompt, problem(plain, "a=3,b=2").expected) == ("3 ÷ 2 =", "1.5")
    assert (problem(exact, "a=3,b=2").prompt, problem(exact, "a=3,b=2").expected) == ("3/2 =", "1 1/2")


# --- the key ------------------------------------------------------------------------------------------


def test_the_key_is_the_content_whatever_the_spaces() -> None:
    keys = {key_of(show, NINE, answer, where) for show, answer, where in (
        ("a + b", "a + b", "a > b"), ("a+b", "a+b", "a>b"), (" a +  b", "a  + b", "a  >b"))}  # fmt: skip
    assert keys == {"template:a%2Bb=a%2Bb/a=1..9,b=1..9/a%3Eb"}
    assert key_of("a + b", NINE, "b + a") not in keys
    assert key_of("a + b", {"a": (1, 9), "b": (1, 8)}, "a + b", "a > b") not in keys


@given(
    st.lists(
        st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1, max_size=6),
        max_size=4,
    )
)
def test_any_words_go_into_a_key_and_come_back(parts: list[str]) -> None:
    show = (*parts, "a", ":")
    (key,) = TEMPLATE.keys(skill(show, {"a": (1, 9)}, "a"))
    assert well_formed(key, "a=4")
    assert template(key).show == show


# --- what cannot be -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("show", "letters", "answer", "where", "option"),
    [
        ("a + b", NINE, "a + c", "", "answer"),
        ("a + c", NINE, "a + b", "", "show"),
        ("a + b", NINE, "a + b", "c > 1", "where"),
        ("a + b", NINE, "open(a)", "", "answer"),
        ("a + b", NINE, "a + b", "a", "where"),
        ("a + b", NINE, "a ** b", "", "answer"),
        ("Double a", NINE, "a + b", "", "show"),
        ("a + b", {**NINE, "c": (1, 2)}, "a + b", "", "letters"),
        ("2 + 2", {"a": (1, 9)}, "a", "", "show"),
        (("Add them:", "b"), NINE, "a + b", "", "show"),  # a is not shown: several answers to one prompt
        ("a + b", NINE, "a + b", "a > 9", "where"),
        ("a + b", NINE, "a + b", "a / (b - b) > 1", "where"),
        ("a + b", {"a": (1, 999), "b": (1, 999)}, "a + b", "a > b and b > a", "where"),
        ("a + b", {"a": (1, 999_999), "b": (1, 999_999)}, "a + b", "a = b", "where"),  # hardly ever
        ("a × b × b", {"a": (999_998, 999_999), "b": (999_998, 999_999)}, "a * b * b", "", "answer"),
        (("A great many words before a number:", "a", "and after"), {"a": (1, 9)}, "a", "", "show"),
    ],
)  # fmt: skip
def test_a_mistake_is_told_of_its_key(
    show: object, letters: dict[str, tuple[int, int]], answer: str, where: str, option: str
) -> None:
    assert told(show, letters, answer, where)[:1] == [option]


def test_letters_are_told_beside_a_text_that_cannot_be_read() -> None:
    assert told("a + d", NINE, "a * c", "a >") == ["where", "answer", "show"]
    assert told("a + d", NINE, "a *", "b > 2") == ["answer", "show"]
    assert told("Double a", NINE, "a + c", "") == ["show", "answer"]


HEAD = """\
[set]
id = "s"
title = "S"
aim = "accuracy"
ages = [7, 9]
[[skill]]
id = "t"
title = "T"
kind = "template"
"""


@pytest.mark.parametrize(
    ("line", "path"),
    [
        ("letters = { a = [1, 1000000000000] }", "skill[1].letters.a[2]"),
        ("letters = { a = [9, 1] }", "skill[1].letters.a"),
        ("letters = { ab = [1, 9] }", "skill[1].letters.ab"),
        ("letters = { A = [1, 9] }", "skill[1].letters.A"),
        ("letters = {}", "skill[1].letters"),
        ("letters = { a = 3 }", "skill[1].letters.a"),
        ('letters = { a = ["1", "2"] }', "skill[1].letters.a"),
        ("letters = 3", "skill[1].letters"),
        ("letters = { " + ", ".join(f"{name} = [1, 2]" for name in "abcdef") + " }", "skill[1].letters"),
    ],
)
def test_letters_that_are_none(line: str, path: str) -> None:
    tomllib.loads(line)
    found, mistakes = read_set(HEAD + 'show = "a"\nanswer = "a"\n' + line + "\n", "s.toml")
    assert found is None
    assert path in [mistake.path for mistake in mistakes]
    assert mistakes[-1].line == 12


@pytest.mark.parametrize("span", ["[9, 1]", "[1, 1000000000000]"])
@pytest.mark.parametrize(
    ("show", "answer", "where", "others"),
    [
        ("a + b", "a * c", "", ["answer"]),
        ("a + b", "a *", "b >", ["answer", "where"]),
        ("a + d", "a + d", "e > 1", ["answer", "letters", "show", "where"]),
        ("2 + 2", "a + b", "", ["show"]),
        ("a + b", "a + b", "a > b", []),  # of the numbers nothing can be said
    ],
)
def test_a_range_that_is_amiss_hides_no_other_mistake(
    span: str, show: str, answer: str, where: str, others: list[str]
) -> None:
    lines = f'show = "{show}"\nanswer = "{answer}"\nwhere = "{where}"\n'
    _, mistakes = read_set(f"{HEAD}{lines}letters = {{ a = {span}, b = [1, 9] }}\n", "s.toml")
    found = [mistake.path.removeprefix("skill[1].") for mistake in mistakes]
    assert sorted(path for path in found if not path.startswith("letters.")) == others
    assert len([path for path in found if path.startswith("letters.a")]) == 1


def test_the_prompt_of_the_widest_numbers_fits() -> None:
    assert told(("x" * (WIDEST - 5), "a"), {"a": (1, 999)}, "a") == []
    assert told(("x" * (WIDEST - 3), "a"), {"a": (1, 999)}, "a") == ["show"]
