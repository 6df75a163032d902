"""Place value and comparing: whole classes where small, properties where large."""

import re
import tomllib
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.core.answers import asks_for, judge
from review.core.skills import compare, place_value
from tests.core.shown import SOURCES, assert_sound, assert_uniform, refuses, seen
from tests.core.spaces import skill_of
from tests.tables import rows

(PLACE_VALUE,), (COMPARE,) = place_value.KINDS, compare.KINDS
TOP = Path(__file__).parents[2]


ALL_TASKS = tuple(PLACE_VALUE.options["task"].choices)
SUMS_UP = ("value", "more", "less")
ALL_KEYS = [
    key
    for digits in range(2, 8)
    for key in PLACE_VALUE.keys(
        skill_of(PLACE_VALUE, task=ALL_TASKS if digits < 6 else SUMS_UP, digits=digits)
    )
]
COMPARE_KEYS = [
    key
    for digits in range(2, 8)
    for key in COMPARE.keys(skill_of(COMPARE, digits=digits, where=COMPARE.options["where"].choices))
]


def asked_for(key: str, number: int) -> str:
    return f"{number}@{key.rpartition('/')[2]}" if ":value/" in key else str(number)


def members(key: str, digits: int) -> list[str]:
    every = [asked_for(key, number) for number in range(10**digits)]
    strangers = set(every) - set(refuses(PLACE_VALUE, key, every))
    return [asked for asked in every if asked not in strangers]


# --- exact counts of classes: closed forms, by the rule of product ------------------------------------

CLOSED_FORMS = [
    # value: the digit d is 1 to 9; the leading place leaves 9 digits to each other place; another place
    # leaves 8 to the leading one
    ("place-value:value/2/10", 9 * 9),
    ("place-value:value/2/1", 9 * 8),
    ("place-value:value/3/100", 9 * 9**2),
    ("place-value:value/3/10", 9 * 8 * 9),
    ("place-value:value/4/100", 9 * 8 * 9**2),
    # no zero anywhere; then all the others but those with a single part
    ("place-value:expand/2", 9**2),
    ("place-value:expand/3", 9**3),
    ("place-value:expand/3/zero", 900 - 9**3 - 9),
    ("place-value:expand/4/zero", 9000 - 9**4 - 9),
    ("place-value:compose/4", 9**4),
    # a digit under 9 in that place; across: a 9 there, less those that would take one digit more
    ("place-value:more/2/10", 8 * 10),
    ("place-value:more/3/10", 9 * 9 * 10),
    ("place-value:more/3/10/across", 8 * 10),
    ("place-value:more/4/10/across", 9 * 10 * 10 - 10),
    ("place-value:more/4/1000", 8 * 1000),
    ("place-value:less/2/10", 9 * 10),
    ("place-value:less/3/10/across", 9 * 10),
    ("place-value:less/3/1/across", 9 * 10),
]


@pytest.mark.parametrize(("key", "count"), CLOSED_FORMS)
def test_a_class_has_as_many_members_as_its_closed_form_says(key: str, count: int) -> None:
    assert len(members(key, int(key.split("/")[1]))) == count


@pytest.mark.parametrize("key", ["place-value:value/2/1", "place-value:expand/3/zero",
                                 "place-value:more/3/10/across", "place-value:less/2/10"])  # fmt: skip
def test_every_member_is_equally_likely(key: str) -> None:
    assert_uniform(PLACE_VALUE, key, members(key, int(key.split("/")[1])))


@pytest.mark.parametrize("key", [key for key in ALL_KEYS if "/2" in key])
def test_every_two_digit_number_is_sound(key: str) -> None:
    for asked in members(key, 2):
        assert_sound(PLACE_VALUE.problem(key, asked))


@given(st.sampled_from(ALL_KEYS), SOURCES)
def test_what_is_drawn_is_sound(key: str, random: Random) -> None:
    assert_sound(PLACE_VALUE.problem(key, PLACE_VALUE.draw(key, random)))


# --- answers by another way ---------------------------------------------------------------------------


def worth(number: int) -> list[int]:
    """What the digits of a number are worth, by the decimal library."""
    digits = Decimal(number).as_tuple().digits
    return [
        int(Decimal((0, (digit,), at))) for at, digit in zip(range(len(digits))[::-1], digits, strict=True)
    ]


def at_place(number: int, place: int) -> int:
    (found,) = [part for part in worth(number) if len(str(part)) == len(str(place)) and part]
    return found


BY_ANOTHER_WAY: dict[str, Callable[[int, int], object]] = {
    "value": at_place,
    "expand": lambda number, _: " ".join(str(part) for part in worth(number) if part),
    "more": lambda number, place: Decimal(number) + place,
    "less": lambda number, place: Decimal(number) - place,
}


@given(st.sampled_from([key for key in ALL_KEYS if "compose" not in key]), SOURCES)
def test_the_answer_is_what_the_decimal_library_says(key: str, random: Random) -> None:
    problem = PLACE_VALUE.problem(key, PLACE_VALUE.draw(key, random))
    task, _, *rest = key.partition(":")[2].split("/")
    place = int(rest[0]) if task != "expand" else 0
    number = int(problem.asked.partition("@")[0])
    assert problem.expected == str(BY_ANOTHER_WAY[task](number, place))


@given(st.sampled_from([key for key in ALL_KEYS if "compose" in key]), SOURCES)
def test_the_parts_of_compose_are_the_worth_of_its_digits(key: str, random: Random) -> None:
    problem = PLACE_VALUE.problem(key, PLACE_VALUE.draw(key, random))
    shown = [int(part.replace(",", "")) for part in problem.prompt.removesuffix(" =").split(" + ")]
    assert shown == [part for part in worth(int(problem.expected)) if part]


def test_as_a_teacher_would_write_it() -> None:
    problem = PLACE_VALUE.problem("place-value:value/4/100", "3456@100")
    assert problem.prompt == "What is the 4 worth in 3,456?"
    assert (problem.expected, problem.told) == ("400", "The 4 in 3,456 is worth 400.")
    assert problem.say == "What is the four worth in three thousand four hundred and fifty-six?"
    assert PLACE_VALUE.problem("place-value:expand/4/zero", "3056").expected == "3000 50 6"
    assert PLACE_VALUE.problem("place-value:compose/4/zero", "3406").prompt == "3,000 + 400 + 6 ="
    assert PLACE_VALUE.problem("place-value:more/4/10", "3456").expected == "3466"
    assert PLACE_VALUE.problem("place-value:less/3/10/across", "304").expected == "294"


NAMED = {"ones": 1, "tens": 10, "hundreds": 100, "thousands": 1000, "ten-thousands": 10_000}


@given(st.sampled_from([key for key in ALL_KEYS if "expand" in key]), SOURCES)
def test_which_parts_are_meant_stands_above_the_prompt(key: str, random: Random) -> None:
    """31 is 1 + 30 and 20 + 11 too: the parts that are not zero are named, a gap each."""
    problem = PLACE_VALUE.problem(key, PLACE_VALUE.draw(key, random))
    named = re.findall(r"[a-z][a-z-]+(?<!and)", " ".join(seen(problem)).lower().replace(" and ", ", "))
    assert [10 ** (len(part) - 1) for part in problem.expected.split()] == [NAMED[name] for name in named]
    assert problem.prompt.count("□") == len(named)
    assert all(len(line) <= 40 for line in seen(problem))


def test_parts_as_a_teacher_would_ask_for_them() -> None:
    one = PLACE_VALUE.problem("place-value:expand/2", "31")
    assert (seen(one), one.prompt) == (("Tens and ones:",), "31 = □ + □")
    assert one.say == "Split thirty-one into tens and ones."
    assert seen(PLACE_VALUE.problem("place-value:expand/3/zero", "305")) == ("Hundreds and ones:",)
    longest = PLACE_VALUE.problem("place-value:expand/5", "12345")
    assert seen(longest) == ("Ten-thousands, thousands, hundreds, tens", "and ones:")
    told = {"30 1": "right", "1 30": "right", "30 + 1": "right", "30+1": "right", "1 and 30": "right",
            "30, 1": "right", "20 11": "other", "31": "other", "30 1 1": "other", "3 1": "other",
            "30 x 1": "unreadable"}  # fmt: skip
    assert {text: judge(one, text) for text in told} == told
    assert asks_for(one) == "Type the parts, like 40 + 2."
    assert asks_for(PLACE_VALUE.problem("place-value:expand/2", "42")) == "Type the parts, like 50 + 3."


@given(st.sampled_from([key for key in ALL_KEYS if "expand" in key]), SOURCES)
def test_parts_count_in_any_order_and_however_they_are_parted(key: str, random: Random) -> None:
    problem = PLACE_VALUE.problem(key, PLACE_VALUE.draw(key, random))
    some = problem.expected.split()
    random.shuffle(some)
    for written in (some, [f"{int(part):,}" for part in some]):
        for apart in (" ", ", ", " + ", "+", " and ", "; "):
            assert judge(problem, apart.join(written)) == "right"
            assert judge(problem, apart.join(written[1:])) == "other"
            assert judge(problem, apart.join([*written, written[0]])) == "other"


def test_two_digits_are_helped_without_the_sign_for_times() -> None:
    """Y1 number and 1.NBT.B.2: tens and ones come a year before multiplication (standards.csv)."""
    for key in (key for key in ALL_KEYS if "/2" in key):
        for asked in members(key, 2):
            helps = PLACE_VALUE.problem(key, asked).helps
            assert not re.search("[×÷]", "".join(help.text for help in helps))
    value = PLACE_VALUE.problem("place-value:value/2/10", "87@10")
    assert value.helps[-1].text == "The 8 is in the tens place.\n8 tens = 80"
    assert PLACE_VALUE.problem("place-value:value/2/1", "81@1").helps[-1].text.endswith("1 one = 1")


def test_a_number_of_another_class_is_refused() -> None:
    taken = [
        *refuses(
            PLACE_VALUE, "place-value:value/4/100", ["3456", "3456@10", "4456@100", "3056@100", "456@100"]
        ),
        *refuses(PLACE_VALUE, "place-value:expand/3", ["305", "30", "3456", "300"]),
        *refuses(PLACE_VALUE, "place-value:expand/3/zero", ["345", "300"]),
        *refuses(PLACE_VALUE, "place-value:more/3/10", ["395", "995", "3456"]),
    ]
    assert taken == []


# --- the kind -----------------------------------------------------------------------------------------


def test_keys_come_in_the_order_they_are_met_and_leave_out_empty_classes() -> None:
    assert list(PLACE_VALUE.keys(skill_of(PLACE_VALUE, task=("value", "expand"), digits=2))) == [
        "place-value:value/2/1", "place-value:value/2/10", "place-value:expand/2",
    ]  # fmt: skip
    steps = skill_of(PLACE_VALUE, task=("more",), digits=3, places=(10, 100))
    assert list(PLACE_VALUE.keys(steps)) == [
        "place-value:more/3/10", "place-value:more/3/100", "place-value:more/3/10/across",
    ]  # fmt: skip
    assert "place-value:compose/3/zero" in PLACE_VALUE.keys(
        skill_of(PLACE_VALUE, task=("compose",), digits=3)
    )


def test_impossible_conditions_are_told_in_words() -> None:
    (too_high,) = PLACE_VALUE.check(skill_of(PLACE_VALUE, task=("value",), digits=3, places=(1000,)))
    assert too_high == ("places", "1,000 is no place of a number with 3 digits", "take from 1, 10, 100")
    (too_long,) = PLACE_VALUE.check(skill_of(PLACE_VALUE, task=("expand",), digits=6))
    assert too_long[0] == "digits"
    assert list(PLACE_VALUE.check(skill_of(PLACE_VALUE, task=ALL_TASKS, digits=5))) == []
    (nowhere,) = COMPARE.check(skill_of(COMPARE, digits=2, where=("hundreds",)))
    assert nowhere[0] == "where"


def test_traits_keep_like_cards_apart_and_never_call_them_facts() -> None:
    for kind, keys in ((PLACE_VALUE, ALL_KEYS), (COMPARE, COMPARE_KEYS)):
        for key in keys:
            traits = kind.traits(key)
            assert not traits.fact
            assert f"procedure-{key}" in traits.groups
            assert traits.seconds < 60
            assert traits.choices == (3 if kind is COMPARE else 0)
    titles = [PLACE_VALUE.traits(key).title for key in ALL_KEYS]
    assert len(set(titles)) == len(titles)


# --- compare ------------------------------------------------------------------------------------------


def pairs_of_two_digits(key: str) -> list[str]:
    every = [f"{a}?{b}" for a in range(100) for b in range(100)]
    strangers = set(every) - set(refuses(COMPARE, key, every))
    return [asked for asked in every if asked not in strangers]


def test_the_classes_of_two_digits_share_out_all_ordered_pairs() -> None:
    """8,100 ordered pairs of two-digit numbers: column `of` of counts.csv (brute force, transfer matrix)."""
    (every,) = {row["of"] for row in rows("counts.csv") if row["class"].startswith("2-digit + 2-digit (no")}
    found = [pairs_of_two_digits(f"compare:2/{where}") for where in ("first", "ones", "equal")]
    assert [len(pairs) for pairs in found] == [9 * 8 * 100, 9 * 10 * 9, 90]
    assert sum(map(len, found)) == len(set().union(*found)) == int(every)
    assert len(pairs_of_two_digits("compare:2/length")) == 2 * 90 * 9


@pytest.mark.parametrize("where", ["ones", "equal", "length"])
def test_every_pair_is_equally_likely(where: str) -> None:
    assert_uniform(COMPARE, f"compare:2/{where}", pairs_of_two_digits(f"compare:2/{where}"))


@given(st.sampled_from(COMPARE_KEYS), SOURCES)
def test_a_pair_is_sound_and_its_sign_is_true(key: str, random: Random) -> None:
    problem = COMPARE.problem(key, COMPARE.draw(key, random))
    assert_sound(problem)
    first, second = map(int, problem.asked.split("?"))
    assert {"<": first < second, "=": first == second, ">": first > second}[problem.expected]


@given(st.sampled_from(COMPARE_KEYS), SOURCES)
def test_a_pair_first_differs_where_its_class_says(key: str, random: Random) -> None:
    digits, where = key.partition(":")[2].split("/")
    first, second = COMPARE.draw(key, random).split("?")
    if where == "length":
        assert {len(first), len(second)} == {int(digits), int(digits) - 1}
        return
    unlike = [at for at, (a, b) in enumerate(zip(first, second, strict=True)) if a != b]
    names = ["ones", "tens", "hundreds", "thousands", "ten-thousands", "hundred-thousands"][
        : int(digits) - 1
    ][::-1]
    assert (["equal"] if not unlike else ["first", *names][unlike[0] : unlike[0] + 1]) == [where]


def test_a_pair_as_a_teacher_would_write_it() -> None:
    problem = COMPARE.problem("compare:4/tens", "3456?3465")
    assert (problem.prompt, problem.expected) == ("3,456 □ 3,465", "<")
    assert problem.told == "3,456 is less than 3,465."


@given(st.sampled_from(COMPARE_KEYS), SOURCES)
def test_the_gap_between_two_numbers_is_the_gap_of_every_prompt(key: str, random: Random) -> None:
    """An empty dot is a dot of the sitting; in ASCII it would be a minus sign."""
    problem = COMPARE.problem(key, COMPARE.draw(key, random))
    shown = [problem.prompt, problem.told, *(help.text for help in problem.helps)]
    assert "○" not in "".join(shown)
    assert "□" in problem.prompt
    assert "□" in problem.helps[-2].text


def test_comparing_takes_the_places_a_number_has() -> None:
    assert list(COMPARE.keys(skill_of(COMPARE, digits=2))) == [
        "compare:2/first", "compare:2/ones", "compare:2/equal",
    ]  # fmt: skip
    assert list(COMPARE.keys(skill_of(COMPARE, digits=4))) == [
        f"compare:4/{where}" for where in ("length", "first", "hundreds", "tens", "ones", "equal")
    ]


# --- the catalogue's sets and the standards -----------------------------------------------------------


def digits_by_code() -> dict[str, int]:
    """standards.csv: England 2013, "2-digit" in year 2 and so on; CCSS-M 2010, "10-99", "100-999"."""
    table = rows("standards.csv", skill="place value")
    named = ((row["code"], re.search(r"(\d)-digit|-(9+)\b", row["numeric_range"])) for row in table)
    return {code: int(found[1] or len(found[2])) for code, found in named if found}


@pytest.mark.parametrize("top", [99, 999, 9999])
def test_a_set_has_the_digits_of_the_standards_it_names(top: int) -> None:
    text = (TOP / "card_sets" / f"place-value-to-{top}.toml").read_text(encoding="utf-8")
    found = tomllib.loads(text)
    digits = {skill["digits"] for skill in found["skill"]}
    named = {
        many
        for code, many in digits_by_code().items()
        if any(standard.endswith(code) for standard in found["set"]["standards"])
    }
    assert digits == named == {len(str(top))}
