"""Problems of a parent's own with letters for numbers: what is shown, how it is helped, what is amiss in one.

Which numbers belong stands in `template_classes`.
"""

import re
from collections.abc import Iterable, Iterator, Mapping

from review.core.expressions import (
    Refusal,
    condition,
    expression,
)
from review.core.model import BOX, Help, Problem, Skill, Traits
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import word
from review.core.skills.template_classes import (
    FIT,
    LISTED,
    MOST_UNDER,
    PLACES,
    WRITTEN,
    Template,
    answer_of,
    draw,
    holds,
    keys,
    letters_of,
    looked_at,
    parts_of,
    template,
    values_of,
)
from review.core.skills.template_lines import (
    MOST,
    SHOWN,
    Values,
    barred,
    plain,
    shown_tokens,
    spoken,
    written,
)
from review.core.skills.wording import EQUALS, MINUS, as_title, grouped, in_words

WIDEST = 40  # columns of the screen a child reads


# --- what is shown ------------------------------------------------------------------------------------


def prompt(of: Template, values: Values) -> str:
    """It ends where the answer goes: a sum with =, unless a box says where."""
    if len(of.show) == 1:
        text = written(shown_tokens(of.show[0], of.bars), values, of.bars)
        return text if BOX in text or text.endswith(EQUALS) else f"{text} {EQUALS}"
    text = _spaced(grouped(values[part]) if part in values else part for part in of.show)
    return text.replace(" / ", "/") if of.bars else text


def _spaced(parts: Iterable[str]) -> str:
    return re.sub(r" (?=[.,:;?!])", "", " ".join(parts))


def _say(of: Template, values: Values) -> str:
    if len(of.show) > 1 and of.bars:
        return _spaced([spoken(of.show, values, True)])
    if len(of.show) > 1:
        return _spaced(in_words(values[part]) if part in values else part for part in of.show)
    return spoken(shown_tokens(of.show[0], of.bars), values, of.bars)


def _told(line: str, answer: str) -> str:
    if BOX in line:
        whole = line.replace(BOX, answer)
    elif line.endswith(EQUALS):
        whole = f"{line.removesuffix(EQUALS)}makes {answer}."
    else:
        whole = f"{line} {answer}" if line.endswith(("?", ":")) else ""
    return whole if whole and len(whole) <= WIDEST else f"It is {answer}."


def _helps(of: Template, values: Values, line: str, answer: str) -> tuple[Help, ...]:
    """The sum that makes the answer; a blank of it only where the prompt is not that sum already."""
    tokens = barred(of.answer.tokens) if of.bars else of.answer.tokens
    calculation = written(tokens, values, of.bars)
    step = f"{calculation} {EQUALS} {answer}"
    plain_sum = len(tokens) > 1 and not {"//", "%"} & set(tokens) and calculation != answer
    if not plain_sum or len(step) > WIDEST:
        return (Help("steps", _told(line, answer)),)
    steps = Help("steps", step)
    echo = f"{calculation} {EQUALS}" == line
    return (steps,) if echo else (Help("blank", f"{calculation} {EQUALS} {BOX}"), steps)


def _printed(typed: str) -> str:
    """An answer as the numbers of its prompt are printed: −5,318 1/2."""
    return re.sub(r"\d+", lambda whole: grouped(int(whole[0])), typed, count=1).replace("-", MINUS)


def problem(key: str, asked: str) -> Problem:
    of = template(key)
    values = values_of(of, asked)
    line, typed = prompt(of, values), answer_of(of, values)
    answer = _printed(typed)
    form = of.form or ("whole" if of.answer.whole else "quantity")
    told, helps = _told(line, answer), _helps(of, values, line, answer)
    return Problem(key, "template", asked, line, _say(of, values), form, typed, told, helps)


def traits(key: str) -> Traits:
    of = template(key)
    letters = (
        _spaced(of.show) if len(of.show) > 1 else written(shown_tokens(of.show[0], of.bars), {}, of.bars)
    )
    reading, reckoning = 0.5 * len(letters.split()), 1.5 * len(of.answer.tokens)
    return Traits(
        as_title(letters), False, min(30.0, 3.0 + reading + reckoning), frozenset({f"procedure-{key}"})
    )


# --- what cannot be -----------------------------------------------------------------------------------


def check(skill: Skill) -> Iterable[tuple[str, str, str]]:
    """Of texts that cannot be read, with the letters of those that can; only then of the numbers, where no
    range is empty."""
    names = frozenset(name for name, _ in letters_of(skill))
    unreadable, uses = [*_unreadable(skill)], _uses(skill)
    if unreadable:
        return [*unreadable, *_rangeless(uses, names)]
    amiss = [*_rangeless(uses, names), *_strangers(skill, uses, names)]
    if amiss or not all(span for _, span in letters_of(skill)):
        return amiss
    (key,) = keys(skill)
    return [*_misfits(template(key))]


def _unreadable(skill: Skill) -> Iterator[tuple[str, str, str]]:
    reads = {"answer": expression(word(skill, "answer"))}
    where = condition(word(skill, "where")) if word(skill, "where") else None
    for name, found in (*reads.items(), ("where", where)):
        if isinstance(found, Refusal):
            yield name, f"the {'answer' if name == 'answer' else 'condition'}: {found.wrong}", found.instead
    show = parts_of(skill)
    if len(show) == 1:
        bars = word(skill, "as") != "number"
        yield from (("show", wrong, instead) for wrong, instead in _unshowable(show[0], bars))


def _unshowable(text: str, bars: bool) -> Iterator[tuple[str, str]]:
    rest = SHOWN.sub("", plain(text, bars)).split()
    words = [token for token in shown_tokens(text, bars) if token.isalpha() and len(token) > 1]
    if rest or words:
        found = (rest or words)[0][:20]
        yield (
            f"“{found}” cannot stand in a sum",
            'write words and letters as a list, like ["Double", "a", ":"]',
        )


def _uses(skill: Skill) -> dict[str, frozenset[str]]:
    """The letters of each text that can be read. Among the parts of a line a letter may also be a word."""
    read = {"answer": expression(word(skill, "answer")), "where": condition(word(skill, "where"))}
    uses = {name: found.letters for name, found in read.items() if not isinstance(found, Refusal)}
    show, bars = parts_of(skill), word(skill, "as") != "number"
    if len(show) == 1 and not [*_unshowable(show[0], bars)]:
        uses["show"] = _shown_letters(show, bars)
    return uses


def _shown_letters(show: tuple[str, ...], bars: bool) -> frozenset[str]:
    shown = shown_tokens(show[0], bars) if len(show) == 1 else show
    return frozenset(part for part in shown if len(part) == 1 and part.isalpha() and part.islower())


def _rangeless(uses: Mapping[str, frozenset[str]], names: frozenset[str]) -> Iterator[tuple[str, str, str]]:
    for option, letters in uses.items():
        for letter in sorted(letters - names):
            yield option, f"the letter {letter} has no range", f"add {letter} = [1, 10] to the letters"


def _strangers(
    skill: Skill, uses: Mapping[str, frozenset[str]], names: frozenset[str]
) -> Iterator[tuple[str, str, str]]:
    """Ranges without a use, nothing that ever changes."""
    shown = _shown_letters(parts_of(skill), word(skill, "as") != "number")
    for letter in sorted(names.difference(shown, *uses.values())):
        yield "letters", f"the letter {letter} is used nowhere", "take it out"
    if not names & shown:
        yield "show", "it shows no letter, so it would always look alike", 'show one, like "a + b"'


def _misfits(of: Template) -> Iterator[tuple[str, str, str]]:
    held = [values for values in looked_at(of) if holds(of, values)]
    least = 1 if of.choices <= LISTED else FIT
    if len(held) < least:
        few = "no numbers" if of.choices <= LISTED else "no numbers, or hardly any,"
        yield "where", f"{few} fit the condition", "loosen it, or change the ranges of the letters"
        return
    answers = [(values, answer_of(of, values)) for values in held]
    unsayable = next((values for values, answer in answers if not answer), None)
    if unsayable is not None:
        yield "answer", f"for {_named(unsayable)} it cannot be typed", _tamed(of)
        return
    yield from _two_answers(of, answers)
    widest = max(len(prompt(of, values)) for values in held)
    if widest > WIDEST:
        yield "show", f"a line of {widest} characters", f"shorten it to {WIDEST} at most"


def _named(values: Values) -> str:
    return ", ".join(f"{name} = {number}" for name, number in values.items())


def _tamed(of: Template) -> str:
    if of.form:
        return f"keep the number below the line at {MOST_UNDER} or less, and never at 0"
    if "/" in of.answer.tokens:
        return 'let it come out whole, like where = "a % b == 0", or add as = "fraction"'
    return f"keep it under 1,000,000,000,000, with {PLACES} decimals at most"


def _two_answers(of: Template, answers: Iterable[tuple[Values, str]]) -> Iterator[tuple[str, str, str]]:
    seen: dict[str, str] = {}
    for values, answer in answers:
        line = prompt(of, values)
        if seen.setdefault(line, answer) != answer:
            yield "show", f"“{line}” would have two answers", "show every letter that the answer needs"
            return


# --- the kind -----------------------------------------------------------------------------------------

OPTIONS: Mapping[str, Option] = {
    "show": Option(
        "phrase",
        "what is asked: a sum with letters, or a list of words and letters",
        None,
        1,
        200,
        example='"a + b"',
    ),
    "letters": Option(
        "letters", "a range for each letter", None, -MOST, MOST, example="{ a = [1, 9], b = [1, 9] }"
    ),
    "answer": Option("word", "the answer, as a sum with the letters", None, 1, 120, example='"a + b"'),
    "as": Option(
        "word", "the answer as a number, as any equal fraction, in simplest form, or as a mixed number",
        "number", choices=tuple(WRITTEN), example='"fraction"',
    ),
    "where": Option("word", "what the numbers must fit; any if left out", "", 0, 120, example='"a > b"'),
}  # fmt: skip

KINDS: tuple[Kind, ...] = (
    Kind(
        "template",
        "problems of your own, with letters for numbers",
        OPTIONS,
        keys,
        traits,
        draw,
        problem,
        check,
    ),
)
