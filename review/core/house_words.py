"""A family's own words: carry, regroup or exchange; maths or math; how decimals and two signs are written.

What is shown passes through here just before it is shown, and what is typed just after it is heard. All that
is between, and the log, holds the standard form: another choice tomorrow changes nothing of what was
answered.

Point and comma are both a decimal marker, and thousands are set apart by a space (ISO 80000-1, 7.3, and the
SI Brochure of 2019, 5.4.4). × and · are both signs of multiplication (ISO 80000-2, 9.5, from memory); schools
divide with ÷ or with a colon (common practice).
"""

import re
from collections.abc import Callable, Mapping
from typing import Any

from review.core.model import Help, Problem, SkillSet, Words
from review.core.pictures import Area
from review.core.warmup import (
    AskAgain,
    AskLiked,
    AskRecalled,
    Effect,
    End,
    Heard,
    Helped,
    Note,
    Say,
    Show,
    Typed,
)

Change = Callable[[str], str]


# --- numbers and signs --------------------------------------------------------------------------------

APART = "\u00a0"  # a space at which no line is broken
NUMBER = re.compile(r"(?<![\d.,:])(\d{1,3}(?:,\d{3})+|\d+)(?:\.(\d+))?(?!\d|[.,:]\d)", re.ASCII)
IN_A_LIST = re.compile(r"(?<=\d),(?= [\d□])")
SPACED = re.compile(r"\d[\d,]*(?: \d[\d,]*)+", re.ASCII)
HAS_DECIMAL = re.compile(r"\d,\d")
TIMES = re.compile(r"×(?= ?[\w□(−£$€])|^×$")  # of a task: the same sign may cross a counter out


def written(text: str, words: Words) -> str:
    """Numbers and signs as the family writes them. Each sign stays one column wide: pictures keep their
    shape."""
    text = TIMES.sub("·", text) if words.times == "dot" else text
    text = text.replace("÷", ":") if words.divide == "colon" else text
    return "\n".join(map(with_comma, text.split("\n"))) if words.decimals == "comma" else text


def with_comma(line: str) -> str:
    """0,5 and 1 250; where decimals stand in a list, it is parted by semicolons; where a space may stand in a
    number, by commas."""
    if "," in line and SPACED.fullmatch(line):
        return ", ".join(NUMBER.sub(_with_comma, part.rstrip(",")) for part in line.split(" "))
    changed = NUMBER.sub(_with_comma, line)
    return IN_A_LIST.sub(";", changed) if HAS_DECIMAL.search(changed) else changed


def reported(line: str, words: Words) -> str:
    """A line of a report: its counts and decimals. What is listed in it was written before, or is no list of
    decimals: “2, 5 and 10, usually 3,4 s”."""
    return NUMBER.sub(_with_comma, line) if words.decimals == "comma" else line


def _with_comma(found: re.Match[str]) -> str:
    whole, places = found[1].replace(",", APART), found[2]
    return f"{whole},{places}" if places else whole


NUMBER_WORDS = (
    "zero|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\\w+teen|twenty|thirty|forty|fifty|"
    "sixty|seventy|eighty|ninety|hundred|thousand|million"
)
POINT = re.compile(rf"\b({NUMBER_WORDS}) point (?={NUMBER_WORDS}\b)", re.IGNORECASE)


def spoken(text: str, words: Words) -> str:
    """Words to be read out: nine comma six four. Signs stay as they are; a voice knows them."""
    if words.decimals != "comma":
        return text
    return NUMBER.sub(_spoken, POINT.sub(r"\1 comma ", text))


def _spoken(found: re.Match[str]) -> str:
    """A voice for English would take a comma between digits for a pause."""
    whole = found[1].replace(",", "")
    return f"{whole} comma {' '.join(found[2])}" if found[2] else whole


def each_text(value: Any, change: Change) -> Any:
    """The same noun with every text in it changed, however deep."""
    if isinstance(value, str):
        return change(value)
    if not isinstance(value, tuple):
        return value
    parts = [each_text(part, change) for part in value]
    return type(value)(*parts) if hasattr(value, "_fields") else tuple(parts)


# --- ten for one --------------------------------------------------------------------------------------

TOGETHER, APART_AGAIN = "carry", "borrow"  # what a family that carries says of sums, and of differences
BENT: Mapping[str, tuple[str, str, str, str, str]] = {
    # what one does, done, doing; and as a thing, one and several
    "carry": ("carry", "carried", "carrying", "carry", "carries"),
    "borrow": ("borrow", "borrowed", "borrowing", "borrow", "borrows"),
    "regroup": ("regroup", "regrouped", "regrouping", "regrouping", "regroupings"),
    "exchange": ("exchange", "exchanged", "exchanging", "exchange", "exchanges"),
}
AT = {form: at for forms in BENT.values() for at, form in reversed([*enumerate(forms)])}
ROOTS = {form: root for root, forms in BENT.items() for form in forms}
WORD = re.compile(
    rf"\b(?:(without an|an|one|each) )?({'|'.join(sorted(ROOTS, key=len, reverse=True))})\b", re.I
)
OF_DIFFERENCES = re.compile(r"differen|minus|−", re.IGNORECASE)
NOT_OF_DIFFERENCES = re.compile(r"÷|\bshare|\bsums?\b|\bsixty\b", re.IGNORECASE)


def told(text: str, words: Words) -> str:
    """A sentence of the program's own for a parent, in the family's words."""
    return written(with_marker(named(text, words), words), words)


MARKER = re.compile(r"\bpoint under point\b|(?<!around )\b(?:the|a) point\b", re.IGNORECASE)


def with_marker(text: str, words: Words) -> str:
    """The decimal point, called a comma; other points are no markers."""
    if words.decimals != "comma":
        return text
    return MARKER.sub(lambda found: found[0].replace("point", "comma"), text)


def named(text: str, words: Words) -> str:
    """Ten for one, called as the family calls it. For texts of the program's own: a parent's are theirs."""
    if words.carry == "any":
        return text
    return FROM.sub(r"\1 from \2", WORD.sub(lambda found: _named(found, text, words.carry), text))


PARENTS_OWN = frozenset(("pairs", "template", "vocabulary"))
"""Kinds whose cards are called by the very words of whoever wrote the set."""


def card_title(key: str, title: str, words: Words) -> str:
    own = key.partition(":")[0] in PARENTS_OWN
    return written(title, words) if own else told(title, words)


def own_words(found: SkillSet, words: Words) -> SkillSet:
    """A set of the catalogue, called as the family calls it."""
    skills = tuple(skill._replace(title=told(skill.title, words)) for skill in found.skills)
    return found._replace(title=told(found.title, words), about=told(found.about, words), skills=skills)


FROM = re.compile(r"\b(borrow) (the tens|the hundreds|tens and hundreds)\b", re.IGNORECASE)


def _named(found: re.Match[str], text: str, choice: str) -> str:
    before, form = found[1] or "", found[2].casefold()
    root = ROOTS[form]
    wanted = _called(root, text) if choice == "carry" else choice
    if wanted == root:
        return found[0]
    if before.casefold() == "without an":
        return f"{before.removesuffix(' an')} {BENT[wanted][2]}"
    at = 3 if before and AT[form] == 0 else AT[form]
    new = BENT[wanted][at]
    if before.casefold() == "an" and wanted != "exchange":
        before = before[:1] + before[2:]
    return f"{before} {new}" if before else _like(found[2], new)


def _called(root: str, text: str) -> str:
    """By a family that carries in sums and borrows in differences. The catalogue regroups in both; it
    exchanges in differences, and in division, which carries what is left."""
    if root == "regroup":
        return APART_AGAIN if OF_DIFFERENCES.search(text) else TOGETHER
    if root == "exchange":
        return TOGETHER if NOT_OF_DIFFERENCES.search(text) else APART_AGAIN
    return root


def _like(old: str, new: str) -> str:
    return new.capitalize() if old[:1].isupper() else new


LINES: Mapping[str, Mapping[str, str]] = {
    "Ten of one kind: swap for one.": {
        "carry": "Ten of one kind: carry one.",
        "regroup": "Ten of one kind: regroup as one.",
        "exchange": "Ten of one kind: exchange for one.",
    },
    "Too few? Open one for ten.": {
        "carry": "Too few? Borrow one. It is ten.",
        "regroup": "Too few? Regroup one as ten.",
        "exchange": "Too few? Exchange one for ten.",
    },
    "What is left: open each for ten.": {
        "carry": "What is left: carry each as ten.",
        "regroup": "What is left: regroup each as ten.",
        "exchange": "What is left: exchange each for ten.",
    },
    "Do you need to open a ten?": {
        "carry": "Do you need to borrow a ten?",
        "regroup": "Do you need to regroup a ten?",
        "exchange": "Do you need to exchange a ten?",
    },
    "Which ten can you open?": {
        "carry": "Which ten can you borrow?",
        "regroup": "Which ten can you regroup?",
        "exchange": "Which ten can you exchange?",
    },
    "Which hundred can you open?": {
        "carry": "Which hundred can you borrow?",
        "regroup": "Which hundred can you regroup?",
        "exchange": "Which hundred can you exchange?",
    },
    "Open a ten where you need to.": {
        "regroup": "Regroup a ten where you need to.",
        "exchange": "Exchange a ten where you need to.",
    },
}
"""Lines of help for a child, said in things to hold, and how a family says them; where it has no word of its
own, the things to hold stay."""

UP = re.compile(r"^10 \S+ make 1 \S+\.$")
DOWN = re.compile(r"^1 \S+ makes 10 \S+\.$")


def help_line(line: str, words: Words) -> str:
    return LINES[line].get(words.carry, line) if line in LINES else line


def exchange_line(line: str, words: Words) -> str:
    """Under the picture that shows it the family's word stands before the sentence."""
    roots = {"carry": (TOGETHER, APART_AGAIN)}.get(words.carry, (words.carry, words.carry))
    heads = (root for root, told in zip(roots, (UP, DOWN), strict=True) if told.match(line))
    return "".join(f"{root.capitalize()}: {line}" for root in heads) or line


def helped(help: Help, words: Words) -> Help:
    text = help.text
    if words.carry != "any":
        change = exchange_line if help.step == "exchange" else help_line
        text = "\n".join(change(line, words) for line in text.split("\n"))
    return Help(help.step, written(with_marker(text, words), words), pictured(help.picture, words))


def pictured(picture: Any, words: Words) -> Any:
    """A picture with its names as the family writes them."""
    if isinstance(picture, Area):
        return picture._replace(apart=APART) if words.decimals == "comma" else picture
    return each_text(picture, lambda text: written(text, words))


# --- a sitting ----------------------------------------------------------------------------------------


def problem(of: Problem, words: Words) -> Problem:
    """The problem as it is shown. Its key, what it asks and its form stay."""
    return of._replace(
        prompt=written(of.prompt, words),
        say=spoken(of.say, words),
        expected=written(of.expected, words),
        told=written(of.told, words),
        helps=tuple(helped(help, words) for help in of.helps),
        picture=pictured(of.picture, words),
    )


def shown(effect: Effect, words: Words) -> Effect:
    """What a sitting asks for, as the family sees it; what is kept stays as it is."""
    match effect:
        case Show():
            return effect._replace(problem=problem(effect.problem, words))
        case Helped(help):
            return Helped(helped(help, words))
        case AskAgain(text, picture):
            return AskAgain(written(text, words), pictured(picture, words))
        case AskLiked(text, ways):
            return AskLiked(text, tuple((way, _steps(steps, words)) for way, steps in ways))
        case AskRecalled(text) | Note(text):
            return effect._replace(text=written(text, words))
        case Say():
            return effect._replace(expected=written(effect.expected, words), text=written(effect.text, words))
        case End():
            return effect._replace(lines=tuple(written(line, words) for line in effect.lines))
        case _:
            return effect


def _steps(steps: str, words: Words) -> str:
    return helped(Help("steps", steps), words).text


# --- what is typed ------------------------------------------------------------------------------------

WITH_DECIMALS = frozenset({
    "decimal", "decimals", "about", "percent", "quantity", "money", "square-cm", "cubic-cm", "degrees",
    "temperature",
})  # fmt: skip
"""Answer forms that can hold decimals. In all others a comma is what it was: 1,000 is a thousand."""
COMMA = re.compile(r"[,\u060c\u066b\uff0c](?=\d)")
WITH_POINT = re.compile(r"\.\d")


def heard(said: Heard, of: Problem | None, words: Words) -> Heard:
    """What was typed, in the standard form it is judged and kept in."""
    if of is None or not isinstance(said, Typed):
        return said
    return said._replace(text=standard(said.text, of, words))


def standard(text: str, of: Problem, words: Words) -> str:
    """A point for a comma before a digit, where the answer may hold decimals and no point stands already.
    What is shown as the answer is always the answer."""
    from review.core.forms import plain  # the answer forms wait for the first answer

    if plain(text) and plain(text) == plain(written(of.expected, words)):
        return of.expected
    if words.decimals != "comma" or of.form not in WITH_DECIMALS or WITH_POINT.search(text):
        return text
    return COMMA.sub(".", text)
