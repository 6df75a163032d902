"""The equal sign: whole small classes told by plain integers, half of them true; what is shown of each."""

from collections import Counter
from itertools import product
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import FORMS, judge
from review.core.forms_truth import FALSE, TRUE, read_truth
from review.core.model import Problem, Skill
from review.core.skills.equality import KINDS, SORTS
from tests.core.arithmetic import value
from tests.core.shown import SOURCES, assert_sound, assert_uniform, refuses

(EQUALITY,) = KINDS
SAID = {"true": True, "false": False}


def is_true(asked: str) -> bool:
    left, right = asked.split("=")
    return value(left) == value(right)


SMALL = {
    "sum": [f"{a}+{b}={c}" for a, b, c in product(range(8), range(8), range(20))],
    "turned": [f"{c}={a}+{b}" for a, b, c in product(range(8), range(8), range(20))],
    "difference": [f"{a}-{b}={c}" for a, b, c in product(range(8), range(8), range(20))],
    "product": [f"{a}x{b}={c}" for a, b, c in product(range(8), range(8), range(60))],
    "quotient": [f"{a}/{b}={c}" for a, b, c in product(range(40), range(8), range(9))],
    "sides": [f"{a}+{b}={c}+{d}" for a, b, c, d in product(range(7), range(7), range(8), range(17))],
    "balance": [
        f"{a}+{b}={c}+{d}"
        for a, b, c, d in product(["_", *range(7)], ["_", *range(7)], ["_", *range(7)], ["_", *range(7)])
    ],
}


def members(name: str) -> list[str]:
    return refuses(EQUALITY, f"true-false:{name}/2..6", SMALL[name])


@pytest.mark.parametrize(
    ("name", "facts"),
    [
        ("sum", sum(t - 1 for t in range(2, 7))),
        ("turned", sum(t - 1 for t in range(2, 7))),
        ("difference", sum(t - 1 for t in range(2, 7))),
        ("product", 5 * 5),
        ("quotient", 5 * 5),
        ("sides", sum((t - 1) ** 2 for t in range(2, 7))),
    ],
)
def test_half_of_a_class_is_true(name: str, facts: int) -> None:
    """As many true ones as there are facts, and one false one of each."""
    assert Counter(map(is_true, members(name))) == {True: facts, False: facts}


def test_a_balance_has_its_gap_in_every_place() -> None:
    found = members("balance")
    facts = sum((t - 1) ** 2 for t in range(2, 7))
    assert len(found) == len(set(found)) == 4 * facts
    gaps = Counter(
        "".join("_" if part == "_" else "n" for part in asked.replace("=", "+").split("+")) for asked in found
    )
    assert gaps == {"_nnn": facts, "n_nn": facts, "nn_n": facts, "nnn_": facts}


@pytest.mark.parametrize("name", SORTS)
def test_every_statement_is_equally_likely(name: str) -> None:
    assert_uniform(EQUALITY, f"true-false:{name}/2..6", members(name))


def solves(one: Problem) -> bool:
    """The answer, told by plain integers from what was asked."""
    if "_" in one.asked:
        return is_true(one.asked.replace("_", one.expected))
    return is_true(one.asked) == SAID[one.expected]


@pytest.mark.parametrize("name", SORTS)
def test_every_statement_of_a_small_class_is_sound(name: str) -> None:
    for asked in members(name):
        one = EQUALITY.problem(f"true-false:{name}/2..6", asked)
        assert_sound(one)
        assert solves(one), asked


KEYS = [
    f"true-false:{name}/{span}"
    for name, sort in SORTS.items()
    for span in (("2..12", "5..9") if sort.sign in "x/" else ("2..20", "11..20", "90..100"))
]


@given(st.sampled_from(KEYS), SOURCES)
def test_what_is_drawn_is_sound_and_told_as_it_is(key: str, random: Random) -> None:
    one = EQUALITY.problem(key, EQUALITY.draw(key, random))
    assert_sound(one)
    assert solves(one)
    if one.form == "truth":
        answers = {"true": TRUE, "false": FALSE}
        other = answers["false" if one.expected == "true" else "true"]
        assert all(judge(one, text) == "right" for text in answers[one.expected])
        assert all(judge(one, text) == "other" for text in other)


def test_as_a_teacher_would_write_it() -> None:
    one = EQUALITY.problem("true-false:sides/2..20", "7+5=8+4")
    assert (one.prompt, one.expected) == ("7 + 5 = 8 + 4. True or false?", "true")
    assert one.told == "7 + 5 makes 12.\n8 + 4 makes 12."
    assert one.say == "seven plus five equals eight plus four: true or false"
    gap = EQUALITY.problem("true-false:balance/2..20", "7+5=_+4")
    assert (gap.prompt, gap.expected, gap.form) == ("7 + 5 = □ + 4", "8", "whole")
    assert gap.helps[-1].text == "7 + 5 = 12\n12 − 4 = 8"
    (off,) = refuses(EQUALITY, "true-false:sum/2..20", [f"7+5={c}" for c in range(40) if c != 12])
    told = EQUALITY.problem("true-false:sum/2..20", off)
    assert (told.expected, told.told) == ("false", f"7 + 5 makes 12.\nThat is not {off.rpartition('=')[2]}.")


def test_what_belongs_to_another_class_is_refused() -> None:
    strangers = [
        "7+5", "7+5=12=12", "7+5=_", "_+5=12", "_/5=1", "7-5=2", "7+5=6+6", "12=7+5", "07+5=12", "7+5=99", "",
        "=", "7+0=7", "15+6=21", "7+5=\u0661\u0662",
    ]  # fmt: skip
    assert refuses(EQUALITY, "true-false:sum/2..20", strangers) == []
    assert refuses(EQUALITY, "true-false:balance/2..20", ["7+5=8+4", "_+5=8+_", "7+5=_+12", "7+5=_"]) == []
    assert refuses(EQUALITY, "true-false:quotient/2..10", ["7/2=3", "6/0=0", "_/5=5", "5/_=5"]) == []


def test_two_choices_and_one_that_is_written() -> None:
    assert EQUALITY.traits("true-false:sum/2..20").choices == 2
    assert EQUALITY.traits("true-false:balance/2..20").choices == 0
    titles = [EQUALITY.traits(key).title for key in KEYS]
    assert len(set(titles)) == len(titles)


def test_keys_and_impossible_conditions() -> None:
    wide = Skill("s", "S", "true-false", "accuracy", {"forms": ("sum", "product"), "numbers": (2, 20)})
    assert list(EQUALITY.keys(wide)) == ["true-false:sum/2..20", "true-false:product/2..20"]
    ((key, _, hint),) = EQUALITY.check(wide)
    assert (key, hint) == ("numbers", "write 12 at most, or leave those forms out")
    sums = Skill("s", "S", "true-false", "accuracy", {"forms": ("sum",), "numbers": (2, 20)})
    assert list(EQUALITY.check(sums)) == []


# --- the answer form ----------------------------------------------------------------------------------


@given(st.sampled_from([*TRUE, *FALSE]), st.sampled_from(["", " ", "."]), st.booleans())
def test_capitals_spaces_and_a_full_stop_make_no_difference(word: str, end: str, loud: bool) -> None:
    text = f" {word.upper() if loud else word}{end}"
    assert read_truth(text) is (word in TRUE)


@given(st.text())
def test_any_other_text_is_asked_again(text: str) -> None:
    words = " ".join(text.casefold().split()).rstrip(".! ")
    if words.isascii() and words not in {*TRUE, *FALSE}:
        assert read_truth(text) is None
    assert FORMS["truth"].read(text) in (True, False, None)


@pytest.mark.parametrize("text", ["", "12", "1", "0", "maybe", "true false", "no yes", "tr"])
def test_what_says_neither_is_asked_again(text: str) -> None:
    assert read_truth(text) is None


def test_nothing_is_drawn_outside_its_numbers() -> None:
    random = Random(5)
    totals = {value(EQUALITY.draw("true-false:sum/19..20", random).split("=")[0]) for _ in range(50)}
    assert totals == {19, 20}
