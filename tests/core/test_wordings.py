"""What help says: as a teacher would say it, in numbers a child of that set knows.

Common practice, no source, but for what each line says holds in arithmetic: that is worked out again here.
"""

import re
from collections.abc import Callable
from random import Random

import pytest

from review import catalogue
from review.core import card_sets
from review.core.answers import asks_for, judge
from review.core.keys import encode
from review.core.model import Problem
from review.core.pictures import Array, TenFrames
from review.core.skills import draw, problem, traits
from review.core.skills.fact_cards import RULES, showings
from review.core.skills.wording import blocks_for
from tests.core.fact_space import ALL, shown


def text(one: Problem, step: str) -> str:
    return next(help.text for help in one.helps if help.step == step)


# --- facts --------------------------------------------------------------------------------------------


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


# --- answers ------------------------------------------------------------------------------------------


def test_another_number_of_totals_is_asked_again() -> None:
    one = problem("add-several:4x1/within-50", "7+5+9+3")
    for given in ("24", "7 12 21 24", "12 21"):
        assert judge(one, given) == "unreadable", given
    assert judge(one, "12 21 25") == "other"
    assert judge(one, "12, 21, 24") == "right"
    assert asks_for(one) == "Type 3 numbers, like 5 6 7."
    assert asks_for(problem("add-several:3x1/within-20", "2+3+1")) == "Type 2 numbers, like 8 9."


def test_thousands_apart_are_no_list_of_another_length() -> None:
    one = problem("count-by:1000/on/up/0..20000", "1000,2000,3000,_,_,_")
    assert judge(one, "4,000, 5,000, 7,000") == "other"
    assert judge(one, "4 000, 5 000, 6 000") == "right"
    assert judge(one, "4,000") == "unreadable"


@pytest.mark.parametrize("given", ["-7", "minus 7", "Minus 7", "negative 7", "− 7", "NEGATIVE 7."])
def test_a_number_below_zero_may_be_in_words(given: str) -> None:
    one = problem("negative:down/1..10", "1-8")
    assert (one.expected, judge(one, given)) == ("-7", "right")
    assert judge(one, given.replace("7", "6")) == "other"
    assert judge(problem("negative:up/1..10", "-3+9"), "minus") == "unreadable"


# --- the head -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("asked", ["1+409", "409+1"])
def test_just_to_the_next_ten_goes_by_the_bond_of_ten(asked: str) -> None:
    sizes = "+".join(str(len(part)) for part in asked.split("+"))
    one = problem(f"mental-sum:{sizes}/regroup-ones", asked)
    assert text(one, "blank") == "9 + 1 = 10\n400 + 10 = □"


# --- Roman numerals -----------------------------------------------------------------------------------


def test_longer_numerals_take_longer() -> None:
    """1 to 12 have 2.2 letters in the middle, 13 to 20 have 3.3 (counted by hand)."""
    for way in ("read", "write"):
        small, teens, all_of_them = (
            traits(f"roman:subtractive/{way}/{span}").seconds for span in ("1..12", "13..20", "1..3999")
        )
        assert small < teens < all_of_them
    assert traits("roman:subtractive/read/1..12").seconds < traits("roman:subtractive/write/1..12").seconds


@pytest.mark.parametrize(
    ("key", "asked", "question"),
    [
        ("roman:subtractive/read/1..12", "9", "Is a letter taken away from another?"),
        ("roman:subtractive/read/1..12", "11", "What is each letter worth?"),
        ("roman:subtractive/write/1..12", "4", "Which letter is 1 more?"),
        ("roman:subtractive/write/21..50", "40", "Which letter is 10 more?"),
        ("roman:subtractive/write/1..12", "8", "Which letters add up to it?"),
        ("roman:subtractive/write/1..12", "5", "Is there a letter for it?"),
        ("roman:subtractive/write/13..20", "14", "What is each digit worth?"),
    ],
)
def test_what_is_asked_first_of_a_numeral(key: str, asked: str, question: str) -> None:
    """No "small letter": a child would look for i and v."""
    assert text(problem(key, asked), "question") == question


def test_a_question_asks() -> None:
    """What comes first of help is a question, but for words that are shown at work, and for ranges."""
    for card in card_sets.cards(catalogue.whole()):
        if card.kind not in ("vocabulary", "pairs", "template"):
            one = problem(card.key, draw(card.key, Random(card.key)))
            asked = [help.text for help in one.helps if help.step == "question"]
            assert all("?" in question for question in asked), (card.key, asked)


def test_what_is_one_is_said_of_one() -> None:
    """'1 are crossed out', 'Are there 1?' would teach a child so."""
    one = problem("bond:5=1+4", "5=1+_")
    assert "1 is crossed out." in text(one, "picture")
    assert "Is there 1?" in text(problem("true-false:difference/2..10", "4-3=1"), "picture")


def test_a_story_read_out_begins_each_sentence_as_written() -> None:
    stories = (card.key for card in card_sets.cards(catalogue.whole()) if card.kind == "word-problem")
    for key in stories:
        say = problem(key, draw(key, Random(key))).say
        assert all(part[:1].isupper() for part in re.split(r"(?<=[.?]) ", say)), say


@pytest.mark.parametrize(
    ("key", "asked"),
    [("product:_x4=28", "4x_=28"), ("product:_x4=28", "_x4=28"), ("quotient:28/_=4", "28/_=4")],
)
def test_counters_and_picture_lie_in_the_same_rows(key: str, asked: str) -> None:
    """Rows of the number that is known, as the steps go."""
    one = problem(key, asked)
    (picture,) = [help.picture for help in one.helps if help.step == "picture"]
    assert "Make rows of 4." in text(one, "build")
    assert isinstance(picture, Array)
    assert (picture.rows, picture.columns, picture.asked) == (7, 4, "rows")


def test_five_percent_goes_by_ten_percent() -> None:
    assert text(problem("percent:of/5-15-35", "15,800"), "steps").splitlines() == [
        "800 ÷ 10 = 80", "80 ÷ 2 = 40", "40 × 3 = 120",
    ]  # fmt: skip


def test_the_greater_number_lies_in_the_frame_first() -> None:
    """9 + 1 = 10, 10 + 3 = 13 are its steps: the picture shows the same (4 + 9)."""
    for asked in ("4+9", "9+4"):
        (picture,) = [help.picture for help in problem("sum:4+9", asked).helps if help.step == "picture"]
        assert picture == TenFrames(9, 4)


@pytest.mark.parametrize(
    ("prompt", "answer", "question"),
    [
        ("The day after Monday:", "Tuesday", "Can you say the days in order?"),
        ("The month before May:", "April", "Can you say the months in order?"),
        ("Days in June:", "30", "Can you find it on your knuckles?"),
        ("Days in a week:", "7", "Is it more or less than 5?"),  # no month
        ("The leap year after 2024:", "2028", "How many years apart are leap years?"),
        ("The capital after Monday:", "Rome", ""),  # a parent's own list
    ],
)
def test_of_the_calendar_a_grown_up_would_ask_more_than_how_a_word_begins(
    prompt: str, answer: str, question: str
) -> None:
    content = f"{encode(prompt)}={encode(answer)}"
    helps = problem(f"pairs:{content}", content).helps
    assert [help.text for help in helps if help.step == "question"] == ([question] if question else [])


@pytest.mark.parametrize(
    ("number", "steps"),
    [
        (2, "1 + 1 = 2"),
        (3, "2 + 1 = 3"),
        (4, "A full row has 5.\n5 − 1 = 4"),
        (5, "4 + 1 = 5"),
        (7, "A full row has 5.\n5 + 2 = 7"),
        (9, "A full frame has 10.\n10 − 1 = 9"),
    ],
)
def test_two_dots_are_one_more_than_one_and_not_five_less_three(number: int, steps: str) -> None:
    one = problem(f"quantity:dots/{'1..5' if number <= 5 else '6..10'}", str(number))
    assert text(one, "steps") == steps
    assert text(one, "blank") == re.sub(r"\d+(?=\D*$)", "□", steps)


@pytest.mark.parametrize(
    ("card", "asked", "said"),
    [
        ("money:change/GBP/0.05..1", "1-0.35", "Type a number, like 25."),  # "Change in pence:"
        ("money:change/GBP/0.05..1", "1-0.75", "Type a number, like 40."),
        ("money:change/GBP/0.05..5", "5-1.5", "Type money, like 2.35."),
        ("convert:min>h+min/65..300/5", "85", "Type both numbers, like 2 5."),
        ("convert:min>h+min/65..300/5", "125", "Type both numbers, like 4 10."),
    ],
)
def test_the_form_that_is_meant_is_told_in_what_is_asked_for(card: str, asked: str, said: str) -> None:
    """An example in pounds, where pence are asked for, would lead astray; so would metres among hours."""
    assert asks_for(problem(card, asked)) == said


def test_an_order_may_be_typed_as_it_is_told() -> None:
    one = problem("order:3/2", "86,65,57")
    assert judge(one, one.told) == judge(one, "57<65<86") == "right"
    assert judge(one, "57 < 86 < 65") == "other"
