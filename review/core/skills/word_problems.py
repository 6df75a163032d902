"""One-step problems in words: change, combine, compare, equal groups, sharing, the rest in context.

The kinds of situation are those of research on word problems (Riley, Greeno & Heller 1983; Carpenter et al.
1999; the names from memory); what is unknown is part of the kind. A class is one kind with its numbers:
every scene and every pair of numbers equally likely. No number of a story is under 2, so that its nouns stay
several.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from random import Random
from typing import NamedTuple

from review.core.keys import content_of
from review.core.model import Help, Problem, Skill, Traits
from review.core.pictures import Lines
from review.core.skills.kinds import Kind, Option
from review.core.skills.options import whole, wholes, words
from review.core.skills.stories import STORIES, Story
from review.core.skills.wording import DIVIDED, EQUALS, MINUS, PLUS, TIMES, equation, in_words, lines
from review.core.skills.worked import worked

ON_A_TABLE = 50  # counters; our judgement, as for the tables
SMALL = 20  # totals to 20 are made of numbers from 2, greater ones of two-digit numbers
TABLES = range(2, 13)
TIMES_TO = 10  # groups, or things in a group: tables are met to ten times (common practice, no source)


class Sort(NamedTuple):
    """A kind of situation. `a` and `b` are the numbers in the order of the story."""

    title: str
    sign: str  # of what is reckoned: + − × ÷
    question: str
    build: str
    parts: tuple[str, str, str]  # what a, b and the answer are, in a drawing of parts and whole
    turned: bool = False  # it is reckoned from b and a, not from a and b
    rest: str = ""  # over, full, needed


LAY_PARTS = "Lay counters for both parts."
LAY_ALL = "Lay counters for all of them."
LAY_ROWS = "Lay two rows, one below the other."
LAY_GROUPS = "Lay one group, then the others."
WITH_TENS = "Build the numbers with tens and ones."
DEAL = "Deal counters into equal groups."
MORE_OR_FEWER = "Does the other have more, or fewer?"
DRAWN = "Draw the groups on squared paper."

SORTS: Mapping[str, Sort] = {
    "join-result": Sort(
        "something comes", PLUS, "Are there more now, or fewer?", LAY_PARTS, ("part", "part", "whole")
    ),
    "take-result": Sort(
        "something goes", MINUS, "Are there more now, or fewer?", LAY_ALL, ("whole", "part", "part")
    ),
    "join-change": Sort(
        "how many came",
        MINUS,
        "How far from first to last?",
        LAY_PARTS,
        ("part", "whole", "part"),
        turned=True,
    ),
    "take-change": Sort(
        "how many went", MINUS, "How far from last to first?", LAY_ALL, ("whole", "part", "part")
    ),
    "join-start": Sort(
        "how many there were before some came",
        MINUS,
        "What if they went again?",
        LAY_ALL,
        ("part", "whole", "part"),
        turned=True,
    ),
    "take-start": Sort(
        "how many there were before some went",
        PLUS,
        "What if they came back?",
        LAY_PARTS,
        ("part", "part", "whole"),
    ),
    "combine-total": Sort(
        "two parts together", PLUS, "Which two parts make the whole?", LAY_PARTS, ("part", "part", "whole")
    ),
    "combine-part": Sort(
        "the other part", MINUS, "Which number is the whole?", LAY_ALL, ("whole", "part", "part")
    ),
    "compare-difference": Sort(
        "how many more", MINUS, "Which number is greater?", LAY_ROWS, ("more", "fewer", "difference")
    ),
    "compare-more": Sort("so many more", PLUS, MORE_OR_FEWER, LAY_ROWS, ("fewer", "difference", "more")),
    "compare-fewer": Sort("so many fewer", MINUS, MORE_OR_FEWER, LAY_ROWS, ("more", "difference", "fewer")),
    "groups": Sort(
        "equal groups",
        TIMES,
        "How many groups? How many in each?",
        LAY_GROUPS,
        ("groups", "in each", "in all"),
    ),
    "share": Sort(
        "sharing", DIVIDED, "What is shared, and among how many?", DEAL, ("in all", "groups", "in each")
    ),
    "measure": Sort(
        "how many groups", DIVIDED, "How many make one group?", LAY_ALL, ("in all", "in each", "groups")
    ),
    "rest-over": Sort(
        "what is left over",
        DIVIDED,
        "How many make one full group?",
        LAY_ALL,
        ("in all", "in each", "left over"),
        rest="over",
    ),
    "rest-full": Sort(
        "how many are full",
        DIVIDED,
        "Does a part of one count?",
        LAY_ALL,
        ("in all", "in each", "full groups"),
        rest="full",
    ),
    "rest-needed": Sort(
        "how many are needed",
        DIVIDED,
        "Where do the last ones go?",
        LAY_ALL,
        ("in all", "in each", "groups for all"),
        rest="needed",
    ),
}

Pair = tuple[int, int]

# --- which numbers belong -----------------------------------------------------------------------------


def _least(limit: int) -> int:
    return 2 if limit <= SMALL else 11


def _parts(limit: int) -> Iterator[Pair]:
    """Two parts whose whole is within the limit."""
    least = _least(limit)
    return ((x, y) for x in range(least, limit + 1) for y in range(least, limit - x + 1))


def _in_groups(tables: tuple[int, ...]) -> Iterator[Pair]:
    """So many groups, and how many in each: one of them stands in the tables."""
    return ((many, table) for table in tables for many in range(2, TIMES_TO + 1))


def _pairs(name: str, limit: str) -> Iterator[Pair]:
    """The numbers of the story, in its order."""
    sort = SORTS[name]
    if sort.sign in (PLUS, MINUS):
        parts = _parts(int(limit))
        if sort.sign == PLUS:
            yield from parts
        else:
            yield from ((x, x + y) if sort.turned else (x + y, x) for x, y in parts)
        return
    groups = _in_groups(tuple(map(int, limit.split("-"))))
    if sort.sign == TIMES:
        yield from groups
    elif not sort.rest:
        yield from ((many * table, table) for many, table in groups)
    else:
        yield from ((many * table + rest, table) for many, table in groups for rest in range(1, table))


@lru_cache(maxsize=256)
def members(key: str) -> tuple[Pair, ...]:
    """Every pair of numbers of a card; each goes with each scene."""
    name, limit = content_of(key).split("/")
    return tuple(_pairs(name, limit))


def draw(key: str, random: Random) -> str:
    a, b = random.choice(members(key))
    return f"{random.choice([*STORIES[content_of(key).split('/')[0]]])},{a},{b}"


# --- the answer and its steps -------------------------------------------------------------------------


def answer(sort: Sort, a: int, b: int) -> int:
    left, right = (b, a) if sort.turned else (a, b)
    results: Mapping[str, Callable[[], int]] = {
        PLUS: lambda: left + right,
        MINUS: lambda: left - right,
        TIMES: lambda: left * right,
        DIVIDED: lambda: {"over": left % right, "needed": -(-left // right)}.get(sort.rest, left // right),
    }
    return results[sort.sign]()


def _by_places(left: int, sign: str, right: int) -> tuple[str, ...]:
    """First the tens, then the ones of the second number."""
    tens, ones = right - right % 10, right % 10
    way = 1 if sign == PLUS else -1
    if left < 10 or not (tens and ones):
        return (equation(left, sign, right, left + way * right),)
    middle = left + way * tens
    return equation(left, sign, tens, middle), equation(middle, sign, ones, middle + way * ones)


def steps(sort: Sort, a: int, b: int) -> tuple[str, ...]:
    left, right = (b, a) if sort.turned else (a, b)
    if sort.sign in (PLUS, MINUS):
        return _by_places(left, sort.sign, right)
    if not sort.rest:
        return (equation(left, sort.sign, right, answer(sort, a, b)),)
    full, over = divmod(left, right)
    shared = (f"{left} {EQUALS} {full * right} {PLUS} {over}", equation(full * right, DIVIDED, right, full))
    if sort.rest == "over":
        return equation(full, TIMES, right, full * right), equation(left, MINUS, full * right, over)
    return shared if sort.rest == "full" else (*shared, equation(full, PLUS, 1, full + 1))


def _told(sort: Sort, a: int, b: int) -> str:
    left, right = (b, a) if sort.turned else (a, b)
    if not sort.rest:
        verb = "leaves" if sort.sign == MINUS else "makes"
        return f"{left} {sort.sign} {right} {verb} {answer(sort, a, b)}."
    full, over = divmod(left, right)
    told = f"{left} {DIVIDED} {right} makes {full}, {over} left over."
    return lines([told, f"So {full + 1} are needed." if sort.rest == "needed" else ""])


# --- a problem ----------------------------------------------------------------------------------------


def _told_story(story: Story, a: int | str, b: int | str) -> tuple[str, ...]:
    return tuple(line.format(a=a, b=b) for line in story.lines)


def _build(sort: Sort, a: int, b: int) -> str:
    """What is laid out; where it would take too many counters, what is built or drawn instead."""
    if sort.sign in (PLUS, MINUS):
        return sort.build if max(a, b, a + b if sort.sign == PLUS else 0) <= SMALL else WITH_TENS
    return sort.build if max(a, b, a * b if sort.sign == TIMES else 0) <= ON_A_TABLE else DRAWN


def problem(key: str, asked: str) -> Problem:
    name, _ = content_of(key).split("/")
    scene, *numbers = asked.split(",")
    a, b = map(int, numbers)
    sort, story = SORTS[name], STORIES[name].get(scene)
    if story is None or (a, b) not in members(key) or asked != f"{scene},{a},{b}":
        raise ValueError(f"{asked} does not belong to {key}")
    helps = (
        Help("question", sort.question),
        Help("build", _build(sort, a, b)),
        *worked(*steps(sort, a, b)),
    )
    spoken = (line[:1].upper() + line[1:] for line in _told_story(story, in_words(a), in_words(b)))
    say = " ".join([*spoken, story.question])
    return Problem(
        key,
        "word-problem",
        asked,
        story.question,
        say,
        "counted",
        str(answer(sort, a, b)),
        _told(sort, a, b),
        helps,
        story.unit,
        Lines(_told_story(story, a, b)),
    )


# --- what one would write -----------------------------------------------------------------------------


def predict(key: str, asked: str) -> Mapping[str, str]:
    """The rules of the family the story comes down to."""
    sort = SORTS[content_of(key).split("/")[0]]
    a, b = map(int, asked.split(",")[1:])
    left, right = (b, a) if sort.turned else (a, b)
    right_answer = answer(sort, a, b)
    found = RULES[sort.rest or sort.sign](left, right, right_answer)
    return {rule: str(value) for rule, value in found.items() if value != right_answer and value >= 0}


def _of_sums(a: int, b: int, sum_: int) -> Mapping[str, int]:
    dropped = {"ten_dropped": sum_ - 10} if a % 10 + b % 10 >= 10 else {}
    return {"took_away": abs(a - b), "one_short": sum_ - 1, "one_over": sum_ + 1, **dropped}


def _of_differences(a: int, b: int, rest: int) -> Mapping[str, int]:
    kept = {"ten_kept": rest + 10} if a % 10 < b % 10 else {}
    return {"added": a + b, "one_short": rest - 1, **kept}


RULES: Mapping[str, Callable[[int, int, int], Mapping[str, int]]] = {
    PLUS: _of_sums,
    MINUS: _of_differences,
    TIMES: lambda a, b, product: {"added": a + b, "doubled_only": 2 * max(a, b)},
    DIVIDED: lambda a, b, each: {
        "step_short": each - 1,
        "step_over": each + 1,
        "took_away": a - b,
        "divisor": b,
    },
    "over": lambda a, b, over: {"to_next": b - over},
    "full": lambda a, b, full: {"step_short": full - 1, "step_over": full + 1},
    "needed": lambda a, b, needed: {"remainder_dropped": a // b},
}


# --- the kind -----------------------------------------------------------------------------------------


def _is_sum(name: str) -> bool:
    return SORTS[name].sign in (PLUS, MINUS)


def keys(skill: Skill) -> Iterator[str]:
    tables = "-".join(map(str, sorted(wholes(skill, "tables"))))
    for name in words(skill, "sorts"):
        yield f"word-problem:{name}/{whole(skill, 'to') if _is_sum(name) else tables}"


def check(skill: Skill) -> Iterator[tuple[str, str, str]]:
    to, tables = whole(skill, "to"), wholes(skill, "tables")
    for name in words(skill, "sorts"):
        if _is_sum(name) and not to:
            yield "to", f"{name} needs a largest total", "add to = 20, or to = 100"
        elif _is_sum(name) and to < 2 * _least(to):
            yield "to", f"no two numbers of a story stay within {to}", "write 4 to 20, or 22 to 100"
        elif not _is_sum(name) and not tables:
            yield "tables", f"{name} needs tables", "add tables = [2, 5, 10]"


def traits(key: str) -> Traits:
    """Seconds are our judgement: two or three lines are read first."""
    name, limit = content_of(key).split("/")
    sort = SORTS[name]
    long = sort.rest or (_is_sum(name) and int(limit) > SMALL)
    within = f"to {limit}" if _is_sum(name) else f"tables {limit.replace('-', ', ')}"
    groups = frozenset({"story", f"story-{sort.sign}", f"procedure-{key}"})
    return Traits(f"a story: {sort.title}, {within}", False, 28.0 if long else 18.0, groups)


OPTIONS: Mapping[str, Option] = {
    "sorts": Option(
        "words",
        "which kinds of story; a card each",
        choices=tuple(SORTS),
        example='["join-result", "take-result"]',
    ),
    "to": Option(
        "whole", "the largest total, for stories of adding and taking away", 0, 0, 100, example="20"
    ),
    "tables": Option(
        "wholes", "the tables, for stories of equal groups", (), TABLES[0], TABLES[-1], example="[2, 5]"
    ),
}

KINDS: tuple[Kind, ...] = (
    Kind(
        "word-problem",
        "one-step problems in words",
        OPTIONS,
        keys,
        traits,
        draw,
        problem,
        check,
        predict=predict,
    ),
)
