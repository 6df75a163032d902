"""Why a child misses: in words for a parent, and as tables of JSON."""

from collections.abc import Sequence

from review.core import days, family, given, skills
from review.core.family import as_written
from review.core.findings import Confused, Counting, Evidence, Fact, Found, Helped, Misses, Unsaid
from review.core.model import STANDARD, Words
from review.core.text import clean, in_words, plural
from review.render.phrases import CAUTION, answered
from review.shell import word

SHOWN = 4  # answers of the evidence that are shown, the latest (our judgement)
SOME = 60  # answers from which it is told that nothing shows, rather than that it is early (our judgement)
YOUNG = 7  # up to this age counting on is told to be as it should be (common practice)

TOGETHER = (
    "At the table: Lay both as rows of counters, one beneath the other, and let the child say what "
    "is the same and what differs."
)
TRY = "At the table: read some out, ask what comes to mind first, and let any try do."  # common practice
TRY_FIRST = "At the table: let a first try come before any help, and let any try do."  # common practice
NEXT_STRATEGY = (
    "When you like, teach one step more: making ten. 9 + 6 on two ten-frames: one counter moves "
    "over, and it is 10 + 5. Then doubles, and one more than a double."
)


def report(found: Sequence[Misses]) -> list[str]:
    blocks = [line for n, one in enumerate(found) for line in ([""] if n else []) + of_child(one)]
    return [*blocks, "", CAUTION]


def of_child(one: Misses) -> list[str]:
    name, words, counting = clean(one.child.name), family.words_of(one.child), one.found.counting
    parts = [
        *(rule_lines(name, rule, words) for rule in one.found.rules),
        *(confused_lines(pair, words) for pair in one.found.confused),
        *([family.reported(counting_lines(name, one.age, counting), words)] if counting else []),
    ]
    if one.found.unsaid:
        parts.append(unsaid_lines(name, one.found.unsaid))
    if one.found.helped:
        parts.append(helped_lines(name, one.found.helped))
    if not parts:
        return [name, f"  {nothing(one)}"]
    told = [line for n, lines in enumerate(parts) for line in ([""] if n else []) + lines]
    return [name, *(f"  {line}" if line else "" for line in told)]


def nothing(one: Misses) -> str:
    """No evidence, in a calm sentence."""
    if one.answers < SOME:
        return "Too early to say: this needs some weeks of warm-ups."
    return "No way of thinking stands behind the misses. They look like slips, or facts not learned yet."


# --- error rules --------------------------------------------------------------------------------------


def rule_lines(name: str, found: Found, words: Words = STANDARD) -> list[str]:
    from review.core import miss_words  # nobody waits for the words of whom no rule is named
    from review.core.house_words import told

    every = [miss_words.words(found.family, rule) for rule in found.rules]
    seems = in_words(list(dict.fromkeys(told(one.seems, words) for one in every)), "or")
    shown = found.evidence[-SHOWN:]
    return [
        f"{miss_words.place(found.family)}: {name} seems to {seems}.",
        *(f"  {answer_line(one, words)}" for one in shown),
        f"  This explains {found.explained} of the last {plural(found.missed, 'miss')}.",
        f"  At the table: {told(every[0].table, words)}",
    ]


def answer_line(one: Evidence, words: Words = STANDARD) -> str:
    """What stood there, what was given, what was expected."""
    problem = skills.undrawn(one.card, one.asked)._replace(expected=one.expected)
    stood = (problem.prompt, given.as_written(problem, one.given), skills.shown_answer(problem))
    prompt, came, expected = (clean(as_written(text, words)) for text in stood)
    return f"{answered(prompt, came)} (expected {expected}), {days.words(one.day)}"


# --- facts taken for each other -----------------------------------------------------------------------


def confused_lines(found: Confused, words: Words) -> list[str]:
    return [
        f"Times tables: {as_written(taken(found), words)}",
        *(f"  {answer_line(one, words)}" for one in found.evidence[-SHOWN:]),
        f"  {TOGETHER}",
    ]


def taken(found: Confused) -> str:
    fact, others = fact_words(found.fact), in_words([fact_words(other) for other in found.others], "or")
    if len({one.card for one in found.evidence}) > 1:
        return f"{fact} and {others} are taken for each other."
    return f"for {fact}, the answer of {others} was given."


def fact_words(fact: Fact) -> str:
    return f"{fact[0]} × {fact[1]}"


# --- counting -----------------------------------------------------------------------------------------


def counting_lines(name: str, age: int, found: Counting) -> list[str]:
    normal = (
        f"At {age} that is as it should be." if age <= YOUNG else "It works; it only takes long, and tires."
    )
    return [
        f"Sums: {name} probably counts on. {normal}",
        f"  9 + 2 and the like took {found.few:.1f} seconds to begin, 9 + 7 and the like {found.many:.1f}: "
        f"{found.step:.1f} more for each one to count ({plural(found.answers, 'answer')}).",
        f"  {NEXT_STRATEGY}",
    ]


# --- no answer tried ----------------------------------------------------------------------------------


def unsaid_lines(name: str, found: Unsaid) -> list[str]:
    return [
        f"Of the last {plural(found.missed, 'miss')} {name} asked to see {found.shown} without an answer, so "
        "they say little of the thinking.",
        f"  {TRY}",
        f"  On a hard day a gentle warm-up has sure cards alone: review warmup {word(name)} --gentle",
    ]


def helped_lines(name: str, found: Helped) -> list[str]:
    return [
        f"In {found.helped} of the last {plural(found.tries, 'first try')} {name} looked at help before an "
        "answer. What is found with help counts as not known yet, so more may seem not to stick than is so.",
        f"  {TRY_FIRST}",
    ]


# --- JSON ---------------------------------------------------------------------------------------------


def row(one: Misses) -> dict[str, object]:
    """The keys are a promise; they are only ever added to."""
    rules, confused, counting = one.found.rules, one.found.confused, one.found.counting
    return {
        "child": one.child.name,
        "answers": one.answers,
        "rules": [rule_row(rule) for rule in rules],
        "confused": [confused_row(pair) for pair in confused],
        "counting": counting_row(counting) if counting else None,
        "unsaid": one.found.unsaid and one.found.unsaid._asdict(),
        "helped": one.found.helped and one.found.helped._asdict(),
    }


def rule_row(found: Found) -> dict[str, object]:
    from review.core import miss_words  # likewise

    words = miss_words.words(found.family, found.rules[0])
    return {
        "family": found.family,
        "rules": list(found.rules),
        "seems": words.seems,
        "table": words.table,
        "since": date(found.since),
        "missed": found.missed,
        "explained": found.explained,
        "answers": [evidence_row(one) for one in found.evidence],
    }


def confused_row(found: Confused) -> dict[str, object]:
    return {
        "fact": fact_words(found.fact),
        "others": [fact_words(other) for other in found.others],
        "answers": [evidence_row(one) for one in found.evidence],
    }


def evidence_row(one: Evidence) -> dict[str, object]:
    prompt = skills.undrawn(one.card, one.asked).prompt
    day = date(one.day)
    return {"day": day, "card": one.card, "prompt": prompt, "given": one.given, "expected": one.expected}


def counting_row(found: Counting) -> dict[str, object]:
    return {
        "seconds_a_step": round(found.step, 2),
        "answers": found.answers,
        "last_day": date(found.last_day),
    }


def date(day: int) -> str:
    return days.date_of(day).isoformat()
