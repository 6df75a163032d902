"""A list of prompts and answers of a parent's own: "days in a week" and 7.

Prompt and answer both stand in the key: a mended answer is a new card, with no memory of the old one.
"""

import re
from collections.abc import Iterable, Iterator
from decimal import ROUND_FLOOR, Decimal
from random import Random
from typing import cast

from review.core.forms import read_text, read_whole
from review.core.keys import content_of, decode, encode
from review.core.model import BOX, Help, Problem, Skill, Traits
from review.core.skills.kinds import Kind, Option
from review.core.skills.units import NAMES
from review.core.skills.wording import as_title, grouped
from review.core.units import SPELLED

SECONDS = 6.0  # our judgement
WIDEST_PROMPT = 40  # characters: a line of the screen a child reads
WIDEST_ANSWER = 30

SIGNS = "-+"  # of a number
DECIMAL = re.compile(r"-?\d{1,15}\.\d{1,6}", re.ASCII)

COUNTED = re.compile(r"(?:How many )?([A-Za-z]{2,}s) (?:are )?(?:there )?in ")  # what a number is of
OFFERED = re.compile(r"\w+")
SCALES = {"°C": "degrees Celsius", "°F": "degrees Fahrenheit"}
BY_SIGN = re.compile(r"(?<!\S)([−-]?\d+ |in )(mm|cm|km|kg|mg|ml|cl|°[CF])(?!\w)")
"""Signs of a unit that are no word or letter of their own."""

# What a child types to do something else than answer.
COMMANDS = frozenset({"pass", "stop", "?"})


def _written(skill: Skill) -> tuple[tuple[str, str], ...]:
    return tuple(
        (prompt, answer) for prompt, answer in cast(Iterable[tuple[str, str]], skill.options["pairs"])
    )


def _keys(skill: Skill) -> Iterator[str]:
    return (f"pairs:{encode(prompt)}={encode(answer)}" for prompt, answer in _written(skill))


def pair_of(key: str) -> tuple[str, str]:
    """Prompt and answer of a card key."""
    prompt, _, answer = content_of(key).partition("=")
    return decode(prompt), decode(answer)


def _draw(key: str, random: Random) -> str:
    return content_of(key)


def _traits(key: str) -> Traits:
    prompt, answer = pair_of(key)
    return Traits(as_title(prompt), True, SECONDS, frozenset({f"answer-{read_text(answer)}"}))


def _problem(key: str, asked: str) -> Problem:
    if asked != content_of(key):
        raise ValueError(f"{asked!r} does not belong to {key!r}")
    prompt, answer = pair_of(key)
    form, unit = _form(prompt, answer)
    return Problem(
        card=key,
        kind="pairs",
        asked=asked,
        prompt=prompt,
        say=_say(prompt, form),
        form=form,
        expected=answer,
        told=_told(prompt, answer),
        helps=_helps(prompt, answer),
        unit=unit,
    )


def _say(prompt: str, form: str) -> str:
    """Units by their names, where the prompt offers them, or where they stand behind a number or "in". All
    else as it is: a list of one's own may be in any language."""
    offer, mark, thing = prompt.partition("?")
    if form == "unit":
        offer = OFFERED.sub(lambda unit: NAMES[unit[0]][1] if unit[0] in NAMES else unit[0], offer)
    return BY_SIGN.sub(_unit_said, offer + mark + thing)


def _unit_said(found: re.Match[str]) -> str:
    before, sign = found.groups()
    return before + (SCALES.get(sign) or NAMES[sign][before != "1 "])


def _form(prompt: str, answer: str) -> tuple[str, str]:
    """A number, exact or about, degrees, so many of what is counted ("Days in a week:"), one of the units
    that a prompt offers ("g or kg? An apple: 150"), or text; with what the form is told beside it."""
    exact = DECIMAL.fullmatch(answer) or read_whole(answer) is not None
    if exact and prompt.endswith("about:"):
        return "about", ""
    if read_whole(answer) is not None:
        if scale := re.search("°[CF]", prompt):
            return "temperature", scale[0]
        counted = COUNTED.match(prompt)
        return ("counted", counted[1].casefold()) if counted else ("whole", "")
    offer, _, thing = prompt.partition("?")
    offered = re.split(", | or ", offer)
    if thing and answer in offered and all(name in SPELLED for name in offered):
        beside = thing.rpartition(" ")[2]
        return "unit", beside if beside.isdecimal() else ""
    return ("decimal", "") if DECIMAL.fullmatch(answer) else ("spelt", answer)


def _among(problem: Problem, others: Iterable[str]) -> Problem:
    """What answers another card of the child is no misspelling of this one."""
    if problem.form != "spelt":
        return problem
    answers = (pair_of(key)[1] for key in others if key.startswith("pairs:"))
    return problem._replace(unit="\n".join(dict.fromkeys([problem.expected, *answers])))


def _told(prompt: str, answer: str) -> str:
    if _form(prompt, answer)[0] == "unit":
        return f"{prompt.partition('?')[2].strip()} {answer}"  # An apple: 150 g
    whole = f"{prompt} {answer}" if prompt.endswith((":", "?", "=")) else f"{prompt}: {answer}"
    return whole if len(whole) <= WIDEST_PROMPT else f"It is {answer}."


QUESTIONS = tuple(
    (re.compile(pattern), question)
    for pattern, question in (
        ("The day (?:after|before) ", "Can you say the days in order?"),
        ("The month (?:after|before) ", "Can you say the months in order?"),
        (r"Month number \d", "Can you count the months on fingers?"),
        ("Days in (?:[A-Z])", "Can you find it on your knuckles?"),
        ("Pence in a pound:", "How many 10p coins make a pound?"),
        ("Cents in a euro:", "How many 10c coins make a euro?"),
        ("Cents in a dollar:", "How many dimes make a dollar?"),
        ("The leap year (?:after|before) ", "How many years apart are leap years?"),
        ("(?:Pence|Cents) in two ", "How many are in one? Double it."),
    )
)
"""What a grown-up would ask, where the prompts of the calendar and of coins are known: common practice, no
source."""


def _helps(prompt: str, answer: str) -> tuple[Help, ...]:
    """A list of one's own has no strategies: how a word or a number begins, then all of it."""
    whole = Help("steps", _told(prompt, answer))
    if known := next((ask for pattern, ask in QUESTIONS if pattern.match(prompt)), ""):
        return Help("question", known), whole
    number = read_whole(answer)
    if number is not None:
        small = abs(number) < 10
        return Help("question", _beside_five(number)) if small else _begun(answer), whole
    if DECIMAL.fullmatch(answer):
        return Help("question", _between(Decimal(answer))), whole
    if _form(prompt, answer)[0] == "unit":
        return Help("question", "How much is one of each?"), whole
    return (_begun(answer), whole) if len(answer) > 1 else (whole,)


def _begun(answer: str) -> Help:
    """As it begins, with a box for each letter or digit to come: "T□□□□□□", "3□□"."""
    at = 2 if answer[0] in SIGNS and answer[1].isdecimal() else 1  # a sign is no beginning
    return Help("blank", answer[:at] + "".join(BOX if one.isalnum() else one for one in answer[at:]))


def _beside_five(number: int) -> str:
    return f"Is it more or less than {4 if number == 5 else 5}?"


def _between(number: Decimal) -> str:
    """Between which whole numbers; they are not as far from it on both sides: 2.5 lies between 2 and 4."""
    low = int(number.to_integral_value(ROUND_FLOOR))
    high = low + (2 if 2 * number == 2 * low + 1 else 1)
    return f"It is more than {grouped(low)}.\nIt is less than {grouped(high)}."


# --- what cannot be ----------------------------------------------------------------------------------


def _check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    for place, (prompt, answer) in enumerate(_written(skill), start=1):
        yield from ((f"pairs[{place}]", wrong, instead) for wrong, instead in _mistakes(prompt, answer))


def _mistakes(prompt: str, answer: str) -> Iterator[tuple[str, str]]:
    read = read_text(answer)
    if not prompt or not read:
        yield "an empty prompt or answer", 'write both, like ["days in a week", "7"]'
    if read in COMMANDS:
        yield f"the answer {answer} means something else to a child at the keyboard", "choose another answer"
    if len(prompt) > WIDEST_PROMPT:
        yield f"a prompt of {len(prompt)} characters", f"write at most {WIDEST_PROMPT}"
    if len(answer) > WIDEST_ANSWER:
        yield f"an answer of {len(answer)} characters", f"write at most {WIDEST_ANSWER}"


OPTIONS = {
    "pairs": Option(
        "pairs",
        'each prompt with its answer (or, instead, file = "words.csv" beside the set); one slip of '
        "spelling in a long word counts",
        None,
        example='[["days in a week", "7"], ["toes", "10"]]',
    )
}

KINDS: tuple[Kind, ...] = (
    Kind(
        "pairs",
        "prompts and answers of your own",
        OPTIONS,
        _keys,
        _traits,
        _draw,
        _problem,
        _check,
        among=_among,
    ),
)
