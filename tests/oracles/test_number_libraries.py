"""Number words, factors and primes against libraries that know nothing of this one.

num2words (0.5.14 when written) for English names; sympy (1.14) for divisors, primes and perfect powers.
"""

from random import Random

import pytest
from num2words import num2words
from sympy import divisors, integer_nthroot, isprime, prevprime

from review.core.answers import judge
from review.core.forms_words import read_number_words
from review.core.skills import problem
from review.core.skills.wording import in_words
from tests.core.shown import refuses
from tests.core.test_properties import PROPERTY


def test_every_name_to_ten_thousand_is_the_librarys() -> None:
    for number in range(10_001):
        name = num2words(number).replace(",", "")
        assert in_words(number) == name
        assert read_number_words(num2words(number)) == number


def test_a_thousand_longer_names_are_the_librarys() -> None:
    random = Random(7)
    for _ in range(1000):
        number = random.randrange(10_000, 1_000_000)
        one = problem("number-name:write/10000..999999", str(number))
        assert one.expected == num2words(number).replace(",", "")
        assert judge(one, num2words(number)) == "right"
        assert judge(one, num2words(number + 1)) == "other"
    for number in (1_000_000, 1_000_005, 1_234_567, 9_999_999, 7_070_700):
        assert in_words(number) == num2words(number).replace(",", "")


def test_factors_of_every_number_to_100() -> None:
    for number in range(1, 101):
        found = problem("number-property:factors/1..100", str(number)).expected
        assert [int(factor) for factor in found.split()] == divisors(number)


def test_primes_to_100() -> None:
    for number in range(1, 101):
        found = problem("number-property:prime/1..100", str(number)).expected
        assert found == ("yes" if isprime(number) else "no")
    assert prevprime(101) == 97


@pytest.mark.parametrize("step", range(2, 13))
def test_multiples_of_every_table(step: int) -> None:
    key = f"number-property:multiple-{step}/1..150"
    for asked in refuses(PROPERTY, key, map(str, range(151))):
        assert (problem(key, asked).expected == "yes") == (step in divisors(int(asked)))


def test_squares_and_cubes() -> None:
    for what, power, most in (("square", 2, 12), ("cube", 3, 10)):
        for number in range(1, most + 1):
            found = int(problem(f"number-property:{what}/{number}..{number}", str(number)).expected)
            assert integer_nthroot(found, power) == (number, True)
