"""What the help of facts says: as a teacher would say it, in numbers a child of that set knows.

Common practice, no source, but for what each line says holds in arithmetic: that is worked out again here.
"""

import re
from collections.abc import Callable
from random import Random

import pytest

from review.core.skills import draw, problem, traits
from review.core.skills.fact_cards import RULES, showings
from review.core.skills.wording import blocks_for
from tests.core.fact_space import ALL, shown, text


def test_one_that_is_left_is_left() -> None:
    for one in shown("difference"):
        assert not re.search(r"\b1 are\b|\b1 (counters|rows|tens|ones|steps)\b", text(one, "build")), (
            one.asked
        )
    assert text(problem("difference:5-_=1", "5-_=1"), "build").endswith("Take some until 1 is left.")


def test_no_bond_is_helped_by_nothing_and_all() -> None:
    """5 = 0 + 5 says nothing of 5 = 1 + □. Where a part is 0 itself, a part of 1 helps."""
    for one in shown("bond"):
        if "0" not in {one.asked.partition("=")[2].strip("+_"), one.expected}:
            assert not re.search(r"= 0 \+|\+ 0\.", text(one, "neighbour")), one.asked


BOND = re.compile(r"You know ([\d,]+) = ([\d,]+) \+ ([\d,]+)\.\n(.+)", re.DOTALL)
Step = Callable[[tuple[str, ...], int], int]
LEFT_TO_DO: tuple[tuple[str, Step], ...] = (  # from the other part of the known bond to the missing one
    (r"Now in (ten|hundred)s\.", lambda said, other: other * {"ten": 10, "hundred": 100}[said[0]]),
    (r"\d+ is (\d+) more than \d+\.", lambda said, other: other + int(said[0])),
    (r"\d+ and \d+ have \d tens? more\.", lambda said, other: other),
    (r"Then (\d) tens? more\.", lambda said, other: other + 10 * int(said[0])),
    (r"\d+ is 1 (more|less)\.", lambda said, other: other + (1 if said[0] == "more" else -1)),
    (
        r"\d+ is \d+ (?:more|less) than \d+\.\nThe other part is (\d+) (more|less)\.",
        lambda said, other: other + int(said[0]) * (1 if said[1] == "more" else -1),
    ),
)


def test_a_known_bond_leads_to_the_missing_part() -> None:
    led = 0
    for one in shown("bond"):
        found = BOND.fullmatch(text(one, "neighbour").replace(",", ""))
        if not found:
            continue
        whole, known, other = map(int, found.groups()[:3])
        assert whole == known + other
        ways = ((re.fullmatch(rest, found[4]), step) for rest, step in LEFT_TO_DO)
        assert [step(said.groups(), other) for said, step in ways if said] == [int(one.expected)], one.asked
        led += 1
    assert led > sum(len(showings(key)) for key in ALL["bond"]) / 2


@pytest.mark.parametrize("kind", ["sum", "double", "half", "bond"])
def test_more_than_twenty_counters_are_not_counted_out(kind: str) -> None:
    """To 20 a child lays counters, beyond that tens and ones (our judgement); sums of facts go to 24."""
    for one in shown(kind):
        for number in re.findall(r"(\d+) counters?", text(one, "build")):
            rows = 2 if "two rows" in text(one, "build") else 1
            assert int(number) * rows <= (24 if kind == "sum" else 20), one.asked


@pytest.mark.parametrize(
    ("key", "build", "neighbour", "steps"),
    [
        (
            "double:50",
            "Build 50 with tens.\nBuild it once more.",
            "5 tens and 5 tens.",
            "5 + 5 = 10\n50 + 50 = 100",
        ),
        (
            "double:35",
            "Build 35 with tens and ones.\nBuild it once more.",
            "You know 30 + 30 = 60.\nThen double 5.",
            "30 + 30 = 60\n5 + 5 = 10\n60 + 10 = 70",
        ),
        (
            "half:30",
            "Build 30 with tens.\nMake two equal parts.\nOpen a ten where you need to.",
            "30 is 20 and 10.\nTake half of each.",
            "Half of 20 is 10.\nHalf of 10 is 5.\n10 + 5 = 15",
        ),
        (
            "half:80",
            "Build 80 with tens.\nMake two equal parts.",
            "80 is 8 tens.\nWhat is half of 8 tens?",
            "Half of 8 is 4.\nHalf of 80 is 40.",
        ),
    ],
)  # fmt: skip
def test_doubles_and_halves_of_tens_are_found_in_tens(
    key: str, build: str, neighbour: str, steps: str
) -> None:
    one = problem(key, key.partition(":")[2])
    assert [text(one, step) for step in ("build", "neighbour", "steps")] == [build, neighbour, steps]


@pytest.mark.parametrize(
    ("key", "asked", "step", "says"),
    [
        ("bond:14=4+10", "14=4+_", "neighbour", "14 is 1 ten and 4 ones.\nCover the ones."),
        ("bond:14=4+10", "14=4+_", "steps", "14 is 10 and 4.\n14 − 4 = 10"),
        ("bond:15=5+10", "15=5+_", "steps", "15 is 10 and 5.\n15 − 5 = 10"),
        ("quotient:12/3", "12/3", "steps", "2 × 3 = 6\n6 + 6 = 12\n2 + 2 = 4"),
        ("fraction:compare/2-4-8", "1/4?7/8", "blank", "1/4 = 2/8\n2/8 □ 7/8"),
        ("fraction:compare/2-4-8", "1/4?7/8", "steps", "1/4 = 2/8\n2/8 < 7/8\n1/4 < 7/8"),
        ("fraction:compare/2-4-8", "1/4?2/8", "steps", "1/4 = 2/8\n2/8 = 2/8"),
        ("decimal:compare-equal/1-2", "2.2?2.20", "steps", "2.2 = 2.20\n2.20 = 2.20"),
        ("duration:later-within/5", "01:30+0:25", "blank", "30 + 25 = 55\n1:30 + 25 min = □"),
        ("duration:earlier-within/5", "02:20-0:20", "steps", "20 − 20 = 0\n2:20 − 20 min = 2:00"),
        ("duration:later-within/5", "04:00+0:45", "steps", "4:00 + 45 min = 4:45"),
    ],
)
def test_steps_lead_to_the_answer_one_idea_a_line(key: str, asked: str, step: str, says: str) -> None:
    assert text(problem(key, asked), step) == says


def test_a_false_statement_of_small_numbers_is_off_by_a_step() -> None:
    """In a set to 10 nobody is asked whether 3 + 2 makes 15."""
    for sort in ("sum", "turned", "difference", "sides"):
        key = f"true-false:{sort}/3..10"
        for seed in range(200):
            asked = draw(key, Random(seed))
            sides = [sum(map(int, side.split("+"))) for side in asked.split("=") if "-" not in side]
            assert max(sides) <= 12, asked


def test_a_unit_is_told_with_its_thing() -> None:
    one = problem("pairs:g%20or%20kg%3F%20An%20apple%3A%20150=g", "g%20or%20kg%3F%20An%20apple%3A%20150=g")
    assert one.told == "An apple: 150 g"
    assert [(help.step, help.text) for help in one.helps] == [
        ("question", "How much is one of each?"),
        ("steps", "An apple: 150 g"),
    ]


def test_a_story_lays_out_no_more_counters_than_a_table_holds() -> None:
    """50 in groups, 20 to add and take away: our judgement, as for the facts."""
    for sort, most in (("combine-total/100", 20), ("join-result/100", 20), ("rest-over/6-7-8-9", 50),
                       ("groups/6-7-9", 50), ("share/6-7-9", 50), ("measure/6-7-9", 50)):  # fmt: skip
        for seed in range(60):
            one = problem(f"word-problem:{sort}", draw(f"word-problem:{sort}", Random(seed)))
            a, b = map(int, one.asked.split(",")[1:])
            laid = {"groups/6-7-9": a * b, "combine-total/100": a + b, "join-result/100": a + b}
            many = laid.get(sort, max(a, b))
            assert ("ounters" in text(one, "build") or "Lay" in text(one, "build")) == (many <= most), one


def test_no_blank_of_a_half_says_the_half() -> None:
    for one in shown("half"):
        assert one.expected not in re.findall(r"\d+", text(one, "blank").rpartition("\n")[2]), one.asked
        assert f"{one.expected} + {one.expected} =" not in text(one, "blank"), one.asked


def test_blocks_are_those_a_number_has() -> None:
    built = {
        (50,): "tens",
        (35,): "tens and ones",
        (7,): "ones",
        (100, 30): "tens",
        (100, 37): "tens and ones",
    }
    built |= {(1000, 300): "hundreds", (1000, 350): "hundreds and tens", (304,): "hundreds, tens, ones"}
    assert {numbers: blocks_for(*numbers) for numbers in built} == built


def test_a_rule_card_stays_within_ten() -> None:
    """It is met in sets to ten; what the log may hold of larger ones is rebuilt all the same."""
    for key in RULES:
        assert max(int(n) for asked in showings(key) for n in re.findall(r"\d+", asked)) == 10
        assert all(draw(key, Random(seed)) in showings(key) for seed in range(50))
        assert all(problem(key, asked).asked == asked for asked in RULES[key])


def test_larger_wholes_take_longer() -> None:
    """Our judgement, and only the order is held here."""
    keys = ("bond:10=3+7", "bond:100=30+70", "bond:100=37+63")
    seconds = [traits(key).seconds for key in (*keys, "bond:1000=350+650")]
    assert seconds == sorted(seconds)
    assert seconds[0] < seconds[1] < seconds[2]
    assert traits("double:35").seconds > traits("double:40").seconds == traits("double:4").seconds


# --- tables -------------------------------------------------------------------------------------------

KNOWN = re.compile(r"You know (\d+) × (\d+) = (\d+)\.\n(.+)")


def test_a_quotient_is_helped_by_a_fact_of_its_own_table() -> None:
    """But not by the one that is its own answer turned round."""
    for one in shown("quotient"):
        if one.card in RULES or "_" in one.card:
            continue
        found = KNOWN.fullmatch(text(one, "neighbour"))
        if not found:
            continue
        dividend, divisor = map(int, one.asked.split("/"))
        times, table, known = map(int, found.groups()[:3])
        assert divisor in (times, table), one.asked
        rest = {
            f"{dividend} is half of it.": known == 2 * dividend,
            f"{dividend} is one {divisor} fewer.": known == dividend + divisor,
            f"How many more {divisor}s make {dividend}?": known < dividend,
        }
        assert rest[found[4]], (one.asked, found[0])
    sixty = problem("quotient:60/6", "60/6")
    assert text(sixty, "neighbour") == "You know 6 ÷ 6 = 1.\nNow in tens."
    assert sixty.helps[-1].text == "60 is 6 tens.\n6 ÷ 6 = 1\n60 ÷ 6 = 10"


def test_which_number_is_longer_is_said_in_words() -> None:
    one = problem("compare:3/length", "238?11")
    lines = ["238 has 3 digits.", "11 has 2 digits.", "More digits, greater number."]
    assert text(one, "blank").split("\n") == [*lines, "238 □ 11"]
    assert one.helps[-1].text.split("\n") == [*lines, "238 > 11"]
