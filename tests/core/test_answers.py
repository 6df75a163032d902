"""What is read as an answer, and what is asked again."""

import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from review.core import answers
from review.core.answers import FORMS, ROOMS, asks_for, judge, keys_to_type, list_readings
from review.core.forms import Verdict
from review.core.model import Problem


def problem(form: str, expected: str, unit: str = "") -> Problem:
    return Problem("sum:1+1", "sum", "1+1", "?", "?", form, expected, "?", unit=unit)


def test_the_forms_are_these() -> None:
    """Problems name their form, and other front ends know them by these names."""
    assert list(FORMS) == [
        "whole", "list", "parts", "sign", "roman-additive", "roman-subtractive", "quantity",
        "text", "mixed-quantity", "money", "coins", "clock-time", "clock-digits",
        "clock-words", "clock-24", "clock-am-pm", "time-span", "fraction", "fraction-lowest",
        "fraction-mixed", "decimal", "decimals", "about", "percent", "square-cm", "cubic-cm",
        "degrees", "remainder", "truth", "number-word", "odd-even", "yes-no",
        "numbers", "counted", "term", "spelt", "unit", "temperature",
    ]  # fmt: skip


def test_every_form_of_a_room_is_known_by_it() -> None:
    folder = Path(answers.__file__).parent
    rooms = [import_module(f"review.core.{path.stem}").FORMS for path in folder.glob("forms_*.py")]
    assert {"mixed-quantity"}.union(*rooms) == set(ROOMS)
    assert all(FORMS[name] == form for room in rooms for name, form in room.items())


def test_a_whole_number_is_judged_without_the_rooms_of_other_forms() -> None:
    """A process of its own: here every room is imported by now."""
    line = (
        "import sys; from review.core import answers, skills;"
        "problem = skills.undrawn('product:6x7', '6x7'); assert answers.judge(problem, '42') == 'right';"
        "print(*(name for name in sys.modules if name.startswith('review.core.forms_')))"
    )
    done = subprocess.run([sys.executable, "-c", line], capture_output=True, text=True, check=True)
    assert done.stdout == "\n"


@pytest.mark.parametrize("name", FORMS)
def test_a_form_asks_in_a_childs_words_and_reads_its_own_example(name: str) -> None:
    form = FORMS[name]
    assert len(form.asks.split()) < 8
    assert form.example in form.asks
    assert not form.example or form.read(form.example) is not None
    assert not form.another or form.read(form.another) not in (None, form.read(form.example))


# --- whole numbers ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "1000",
        "1,000",
        "1 000",
        " 1000 ",
        "1000.",
        "= 1000",
        "+1000",
        "01000",
        "1\u2009000",
        "1\u00a0000",
        "1\u202f000",
        "\u0661\u0660\u0660\u0660",
        "\uff11\uff10\uff10\uff10",
        "\uff11\uff0c\uff10\uff10\uff10",
        "\u200f1000",
        "\ufeff1000",
        "\u0967\u0966\u0966\u0966",
        "1000\n",
    ],
)
def test_one_thousand_in_many_hands(text: str) -> None:
    assert judge(problem("whole", "1000"), text) == "right"


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "10,00",
        "1,0000",
        ",100",
        "1,00",
        "4\u00b2",
        "\u2074",
        "\u2462",
        "\u00bd",
        "3.5",
        "1e3",
        "1_000",
        "0x2",
        "4 2 ",
        "tenn",
        "--3",
        "3-",
        "42\x00",
        "1.000,5",
        "9" * 16,
        "9" * 10_000,
        "4" + "\u0301" * 50,
        "None",
    ],
)
def test_what_is_no_whole_number_is_asked_again(text: str) -> None:
    assert judge(problem("whole", "42"), text) == "unreadable"


@pytest.mark.parametrize("minus", ["-", "\u2212", "\u2013", "\uff0d", "- "])
def test_below_nothing(minus: str) -> None:
    assert FORMS["whole"].read(f"{minus}3") == -3


@given(st.integers(-(10**15) + 1, 10**15 - 1))
def test_every_number_is_read_back(number: int) -> None:
    read = FORMS["whole"].read
    assert read(str(number)) == read(f"{number:,}") == read(f"{number:,}".replace(",", " ")) == number


# --- lists --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "21 28 35",
        "21,28,35",
        "21, 28, 35",
        "21 , 28 ,35",
        "21; 28; 35",
        "21, 28 and 35",
        "21 28, 35",
        "21,28,35.",
    ],
)
def test_three_numbers_in_many_hands(text: str) -> None:
    assert FORMS["list"].read(text) == (21, 28, 35)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("100, 200, 300", "100, 200, 300"),
        ("100,200,300", "100, 200, 300"),
        ("1,000, 1,100, 1,200", "1000, 1100, 1200"),
        ("1,000,1,100,1,200", "1000, 1100, 1200"),
        ("1 000, 1 100, 1 200", "1000, 1100, 1200"),
        ("1,000 1,100 1,200", "1000, 1100, 1200"),
        ("950 1,000 1,050", "950, 1000, 1050"),
        ("0 7 14", "0, 7, 14"),
        ("-7 0 7", "-7, 0, 7"),
    ],
)
def test_thousands_in_lists(text: str, expected: str) -> None:
    assert judge(problem("list", expected), text) == "right"
    assert judge(problem("list", "1, 2, 4"), text) == "other"


@pytest.mark.parametrize("text", ["", ",", "a b c", "21 28 x", "1.5 2", "- - -", "000", "9" * 199])
def test_what_is_no_list_is_asked_again(text: str) -> None:
    assert judge(problem("list", "21, 28, 35"), text) == "unreadable"


@given(st.lists(st.integers(0, 9999), min_size=2, max_size=8), st.sampled_from([" ", ",", ", ", " , ", ";"]))
def test_every_list_is_among_its_readings(numbers: list[int], between: str) -> None:
    assert tuple(numbers) in list_readings(between.join(map(str, numbers)))


# --- signs --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        ("<", "<"),
        ("\uff1c", "<"),
        ("less", "<"),
        ("Less than", "<"),
        ("greater", ">"),
        ("MORE", ">"),
        (" > ", ">"),
        ("equal", "="),
        ("equals", "="),
        ("is equal to.", "="),
        ("\uff1d", "="),
    ],
)
def test_signs_and_their_words(text: str, sign: str) -> None:
    assert FORMS["sign"].read(text) == sign


@pytest.mark.parametrize("way", ["{}", "{} than", "is {} than", "Is {} than."])
def test_whichever_word_compares_two_numbers_it_may_stand_with_than(way: str) -> None:
    """Comparatives of size and number, as any dictionary of English has them."""
    words = {"<": ("less", "smaller", "fewer"), ">": ("greater", "more", "bigger", "larger")}
    read = {sign: {FORMS["sign"].read(way.format(one)) for one in some} for sign, some in words.items()}
    assert read == {"<": {"<"}, ">": {">"}}


@pytest.mark.parametrize("text", ["", "<>", "<=", "\u2264", "lesser", "3 < 4"])
def test_what_is_no_sign_cannot_be_read(text: str) -> None:
    assert FORMS["sign"].read(text) is None


# --- Roman numerals -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("form", "text", "verdict"),
    [
        ("subtractive", "xiv", "right"),
        ("subtractive", " XiV. ", "right"),
        ("subtractive", "XVI", "other"),
        ("subtractive", "XIIII", "unreadable"),
        ("additive", "XIIII", "right"),
        ("additive", "XIV", "unreadable"),
        ("subtractive", "14", "unreadable"),
        ("subtractive", "x\u0131v", "unreadable"),
        ("subtractive", "", "unreadable"),
    ],
)
def test_numerals_in_any_case(form: str, text: str, verdict: Verdict) -> None:
    expected = {"subtractive": "XIV", "additive": "XIIII"}[form]
    assert judge(problem(f"roman-{form}", expected), text) == verdict


# --- quantities ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "verdict"),
    [
        ("300", "right"),
        ("300 cm", "right"),
        ("300cm", "right"),
        ("300 centimetres", "right"),
        ("300 Centimeters.", "right"),
        ("300.0 cm", "right"),
        ("3 m", "unreadable"),
        ("3000 mm", "unreadable"),
        ("0.003 km", "unreadable"),
        ("300 m", "other"),
        ("300 g", "other"),
        ("300 cl", "other"),
        ("30", "other"),
        ("300 bananas", "unreadable"),
        ("300,5", "unreadable"),
        ("cm", "unreadable"),
        ("", "unreadable"),
        ("-300", "other"),
        ("3 m 20 cm", "unreadable"),
    ],
)
def test_a_length_with_its_unit_and_without(text: str, verdict: Verdict) -> None:
    assert judge(problem("quantity", "300", "cm"), text) == verdict


def test_decimals_have_a_point() -> None:
    assert judge(problem("quantity", "0.5", "m"), "0.50") == "right"
    assert judge(problem("quantity", "0.5", "m"), ".5 m") == "right"
    assert judge(problem("quantity", "0.5", "m"), "0,5") == "unreadable"
    assert judge(problem("quantity", "1500", "g"), "1,500 g") == "right"


def test_a_pint_is_of_the_system_asked_for() -> None:
    assert judge(problem("quantity", "2", "us-pt"), "2 pints") == "right"
    assert judge(problem("quantity", "2", "imperial-pt"), "2 pints") == "right"
    assert judge(problem("quantity", "40", "imperial-floz"), "2 pints") == "unreadable"
    assert judge(problem("quantity", "32", "us-floz"), "2 pints") == "unreadable"


def test_a_unit_of_ones_own_is_compared_as_a_word() -> None:
    assert judge(problem("quantity", "3", "marbles"), "3 marbles") == "right"
    assert judge(problem("quantity", "3", "marble"), "3 Marbles") == "right"
    assert judge(problem("quantity", "3", "marbles"), "3 cm") == "other"


# --- text ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("text", ["February", " february ", "FEBRUARY.", "Feb\u200bruary", "february\n"])
def test_words_in_many_hands(text: str) -> None:
    assert judge(problem("text", "February"), text) == "right"


def test_words_differ_by_letters_only() -> None:
    assert judge(problem("text", "Don\u2019t  know"), "don't know") == "right"
    assert judge(problem("text", "caf\u00e9"), "cafe\u0301") == "right"
    assert judge(problem("text", "caf\u00e9"), "cafe") == "other"
    assert judge(problem("text", "no"), "") == "unreadable"
    assert judge(problem("text", "no"), "n" * 201) == "unreadable"


# --- any text at all ----------------------------------------------------------------------------------

ANSWERS = [
    problem("whole", "42"), problem("list", "21, 28, 35"), problem("sign", "<"), problem("text", "May"),
    problem("roman-additive", "IIII"), problem("roman-subtractive", "IV"), problem("quantity", "300", "cm"),
    problem("quantity", "7"),
]  # fmt: skip
NUMBERLIKE = st.text("0123456789 ,.;-\u2212\u0663\uff15\u00b2cmkgIVX<=>\u200f\x00", max_size=40)


@given(st.text(max_size=300) | NUMBERLIKE | st.text(st.characters(codec=None), max_size=30))
@example("9" * 10_000)
@example("9," * 5_000)
@example("\x00" * 10_000)
@example("\u202e42\u202c")
@example("\ud800")
@example("- " * 99)
@example("1" + " 000" * 40)
def test_any_text_gets_a_verdict(text: str) -> None:
    for one in ANSWERS:
        assert judge(one, text) in ("right", "other", "unreadable")


def test_what_is_asked_for_never_names_the_answer() -> None:
    for name, form in FORMS.items():
        for expected in (form.example, form.another):
            if expected:
                one = problem(name, expected)
                assert expected not in asks_for(one)
                assert len(asks_for(one).split()) < 8
    assert asks_for(problem("whole", "7")) == "Type a number, like 42."
    assert asks_for(problem("whole", "42")) == "Type a number, like 35."
    assert asks_for(problem("quantity", "42", "cm")) == "How many centimetres? Type a number."
    assert asks_for(problem("quantity", "42", "us-pt")) == "How many pints? Type a number."


@pytest.mark.parametrize(
    ("form", "expected", "keys"),
    [
        ("whole", "42", 2),
        ("whole", "1,000", 4),
        ("list", "35, 42, 49", 8),
        ("sign", "<", 1),
        ("text", "May", 3),
        ("roman-subtractive", "XVI", 3),
        ("quantity", "300", 3),
        ("quantity", "0.5", 3),
        ("counted", "1,000", 4),
    ],
)
def test_keys_to_type(form: str, expected: str, keys: int) -> None:
    assert keys_to_type(problem(form, expected)) == keys


@pytest.mark.parametrize("text", ["April", "april.", " APRIL ", "April!", "April ?", "April!!"])
def test_a_sign_behind_a_word_makes_no_difference(text: str) -> None:
    assert judge(problem("text", "April"), text) == "right"
    assert judge(problem("spelt", "April", "April\nMay"), text) == "right"
    assert judge(problem("text", "May"), text) == "other"


@pytest.mark.parametrize(("text", "verdict"), [("!", "right"), ("?", "other"), (".", "unreadable")])
def test_a_sign_alone_may_be_the_answer(text: str, verdict: Verdict) -> None:
    assert judge(problem("text", "!"), text) == verdict


@pytest.mark.parametrize("text", ["9 cm", "9 pounds", "8 kg", "9 eggs"])
def test_a_unit_where_a_bare_number_is_meant_is_asked_again(text: str) -> None:
    """It was a miss for a unit that is known, and asked again for any other word."""
    assert judge(problem("quantity", "9"), text) == "unreadable"
    assert judge(problem("quantity", "9"), "9") == "right"
    assert judge(problem("quantity", "9"), "8") == "other"


@pytest.mark.parametrize(
    ("prompt", "expected", "asks"),
    [
        ("16.3 to the nearest whole number is", "16", "Type a number, like 7."),
        ("6.8 to the nearest whole number is", "7", "Type a number, like 4."),
        ("0.46 to the nearest tenth is", "0.5", "Type a number, like 0.7."),
        ("0.846 to the nearest hundredth is", "0.85", "Type a number, like 0.25."),
        ("0.2 + 0.3 =", "0.5", "Type a number, like 0.7."),
    ],
)
def test_an_example_of_a_decimal_has_the_places_that_are_asked_for(
    prompt: str, expected: str, asks: str
) -> None:
    assert asks_for(Problem("k", "k", "", prompt, prompt, "decimal", expected, "")) == asks
