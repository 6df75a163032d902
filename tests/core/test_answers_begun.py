"""Answers as some children begin them: with an equals sign, or with all of a fraction."""

import pytest

from review.core.answers import FORMS, judge
from review.core.model import Problem
from tests.core.test_answers import problem

BEGINNING = {
    name: form.example or {"truth": "true", "odd-even": "odd", "yes-no": "yes"}.get(name, "24")
    for name, form in FORMS.items()
    if name not in ("sign", "term")
}


@pytest.mark.parametrize("name", BEGINNING)
@pytest.mark.parametrize("begun", ["=", "= ", " = ", "\uff1d"])
def test_an_equals_sign_before_an_answer_changes_nothing(name: str, begun: str) -> None:
    """Some children begin with it, also where the problem ends with one."""
    asked = problem(name, BEGINNING[name], {"quantity": "cm", "mixed-quantity": "m+cm"}.get(name, ""))
    assert judge(asked, begun + BEGINNING[name]) == "right"
    assert judge(asked, begun) != "right"


@pytest.mark.parametrize(
    ("prompt", "expected", "text", "verdict"),
    [
        ("1/10 = □/20", "2", "2/20", "right"),
        ("1/10 = □/20", "2", "= 2 / 20", "right"),
        ("1/10 = □/20", "2", "3/20", "other"),
        ("1/10 = □/20", "2", "1/10", "unreadable"),
        ("1/10 = □/20", "2", "2/2", "unreadable"),
        ("4/5 = 8/□", "10", "8/10", "right"),
        ("4/5 = 8/□", "10", "8/12", "other"),
        ("4/5 = 8/□", "10", "10/8", "unreadable"),
        ("8 ÷ 2 =", "4", "4/20", "unreadable"),
    ],
)
def test_a_fraction_may_be_written_whole_where_one_number_of_it_is_asked_for(
    prompt: str, expected: str, text: str, verdict: str
) -> None:
    assert judge(Problem("a:b", "a", "b", prompt, "", "whole", expected, ""), text) == verdict


def test_an_equals_sign_that_is_the_answer_is_read_as_one() -> None:
    assert judge(problem("sign", "="), "=") == "right"
    assert judge(problem("sign", "<"), "=") == "other"
    assert judge(problem("sign", "<"), "=<") == "unreadable"
    assert judge(problem("spelt", "=SUM"), "=sum") == "right"
    assert judge(problem("spelt", "=SUM"), "sum") == "other"
    assert judge(problem("spelt", "="), "=") == "right"
    assert judge(problem("spelt", "<"), "=<") == "other"
    assert judge(problem("term", "sum", "sum;total"), "= total") == "right"
