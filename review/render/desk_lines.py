"""What has faded, what did not stick and the squares of facts, as lines for a parent and tables of JSON."""

from collections.abc import Mapping, Sequence

from review import replies
from review.core import days, family, squares
from review.core.looks import Firmness
from review.core.model import STANDARD, Skill, Words
from review.core.reports import AtTable, Faded, work_of
from review.core.squares import Rule, Sign, Square
from review.core.stuck import Earlier, Stuck, StuckCard, begin_with
from review.core.text import clean, ended, in_words, kept_apart, plural
from review.render.lines import capital, is_ready, unready
from review.render.phrases import CAUTION, MARK_WORDS, date, missed_more, missed_more_often
from review.shell import word

REASONS = {"stuck": "Did not stick", "faded": "Faded", "ready": "Ready to teach"}
FIRMNESS_WORDS: Mapping[Firmness, str] = {
    "not taught": "not taught yet",
    "not met": "taught, and not met in a warm-up yet",
    "stuck": "did not stick either",
    "faded": "faded",
    "growing": "growing",
    "holding": "holding",
}


# --- the decision --------------------------------------------------------------------------------------


def decision(report: replies.Overdue) -> list[str]:
    """What to do at the table this week, each thing with its reason; and what the warm-ups do."""
    found, child = report.decision, report.child
    name, who = clean(child.name), word(child.name)
    if not is_ready(child, report.skills):
        return unready(name, who, len(child.sets))
    more = (
        [f"    {found.stuck_more} more did not stick. See them all: review stuck {who}"]
        if found.stuck_more
        else []
    )
    return [
        name,
        "  At the table this week:" if found.table else "  At the table this week: nothing needs it.",
        *(f"    {at_table(one, who)}" for one in found.table),
        *more,
        *(f"  {clean(sentence)}" for sentence in found.rest),
        *([f"  {for_paper(found.on_paper)} review sheet {who}"] if found.on_paper else []),
    ]


def for_paper(cards: int) -> str:
    takes = "takes over a minute, so it comes" if cards == 1 else "take over a minute each, so they come"
    return f"{cards} of what is overdue {takes} on paper alone:"


def at_table(one: AtTable, who: str) -> str:
    named = kept_apart(one.what) if one.reason == "faded" else "; ".join(one.what)  # titles have commas
    what = ended(f"{REASONS[one.reason]}: {capital(clean(named))}")
    if one.reason == "ready":
        return f"{what} Then: {clean(one.work)} {who}"
    begin = ended(f" Begin with: {clean('; '.join(one.begin))}") if one.begin else ""
    return f"{what} {one.work}{begin}"


# --- what has faded ------------------------------------------------------------------------------------

FADED_HEADS = ("card", "chance today", "overdue", "last answer")


def skill_title(skill: Skill) -> str:
    """In a table, whose first column is too narrow for ids as well."""
    return clean(skill.title)


def skill_head(skill: Skill) -> str:
    return f"{clean(skill.title)} ({clean(skill.id)})"


def faded_cells(row: Faded) -> tuple[str, ...]:
    late = plural(row.days_overdue, "day") if row.state == "overdue" else "fading"
    last = last_words(row)
    chance = f"{row.recall:.0%}{' from memory' if row.from_memory else ''}"
    return f"  {capital(clean(row.prompt))}", chance, late, last


def faded_sentence(row: Faded) -> str:
    card, chance, late, last = faded_cells(row)
    overdue = "fading" if late == "fading" else f"{late} overdue"
    return f"{card}: chance today {chance}, {overdue}. Last answer: {last}."


def last_words(row: Faded | StuckCard) -> str:
    """A second look that went well is no sign that the card was known."""
    before = "not yet, then " if row.missed_first else ""
    return f"{before}{MARK_WORDS[row.last_mark]}, {days.words(row.last_day)}"


def faded_row(row: Faded) -> dict[str, object]:
    """The keys are a promise; they are only ever added to."""
    return {
        "child": row.child,
        "card": row.card,
        "prompt": row.prompt,
        "skill": row.skill,
        "set": row.set_id,
        "aim": row.aim,
        "recall": row.recall,
        "days_overdue": row.days_overdue,
        "last_day": date(row.last_day),
        "last_mark": row.last_mark,
        "teach": row.teach,
        "from_memory": row.from_memory,
        "state": row.state,
        "missed_first": row.missed_first,
    }


def overdue_foot(found: Sequence[replies.Overdue], everything: bool) -> list[str]:
    faded = any(report.overdue or report.fading for report in found)
    more = ["Every card that has faded: review overdue --all"] if faded and not everything else []
    return [*more, CAUTION]


# --- what did not stick --------------------------------------------------------------------------------


def stuck(found: replies.StuckOf) -> list[str]:
    child = found.child
    name = clean(child.name)
    if not child.sets or not child.taught:
        return unready(name, word(child.name), len(child.sets))
    if not found.stuck:
        return [f"{name}: nothing is stuck."]
    words = family.words_of(child)
    return [name, *(line for one in found.stuck for line in stuck_lines(one, words))]


def stuck_lines(one: Stuck, words: Words = STANDARD) -> list[str]:
    return [
        "",
        skill_head(one.skill),
        *(f"  {line}" for card in one.cards for line in [stuck_card(card), *harder_lines(card, words)]),
        *(f"  {line}" for line in back_lines(one)),
        f"  At the table: {work_of(one)}",
    ]


def stuck_card(card: StuckCard) -> str:
    why = (
        f"set aside on {days.words(card.aside_day)}"
        if card.aside_day
        else f"missed on {plural(card.miss_days, 'day')}"
    )
    tries = f"; {card.right} of {plural(card.tries, 'first try')} right" if card.tries else ""
    return f"{capital(clean(card.prompt))}: {why}{tries}. Last answer: {last_words(card)}."


def harder_lines(card: StuckCard, words: Words = STANDARD) -> list[str]:
    """What was set aside is asked in neither order until it comes back."""
    if card.harder is None:
        return []
    then = "." if card.aside_day else ", so it is asked that way more often."
    return [f"  {missed_more(card.card, card.harder, words)}{then}"]


def back_lines(one: Stuck) -> list[str]:
    """The way back, and where on it to begin."""
    if not one.back:
        return ["It stands on nothing earlier of this child's sets: begin with the objects."]
    begin = "; ".join(clean(skill.title) for skill in begin_with(one))
    return [*(f"It stands on: {back_step(step)}." for step in one.back), ended(f"Begin with: {begin}")]


def back_step(step: Earlier) -> str:
    return f"{clean(step.skill.title)} ({FIRMNESS_WORDS[step.firmness]})"


def stuck_row(child: str, one: Stuck) -> dict[str, object]:
    return {
        "child": child,
        "skill": one.skill.id,
        "title": one.skill.title,
        "set": one.skill.set_id,
        "cards": [
            {
                "card": card.card,
                "prompt": card.prompt,
                "first_tries": card.tries,
                "right": card.right,
                "days_missed": card.miss_days,
                "set_aside": date(card.aside_day),
                "last_day": date(card.last_day),
                "last_mark": card.last_mark,
                "missed_first": card.missed_first,
                "missed_more_often": missed_more_often(card.card, card.harder),
            }
            for card in one.cards
        ],
        "stands_on": [
            {"skill": step.skill.id, "title": step.skill.title, "state": step.firmness} for step in one.back
        ],
        "begin_with": [skill.id for skill in begin_with(one)],
        "at_the_table": work_of(one),
    }


# --- squares -------------------------------------------------------------------------------------------

CORNERS = {"addition": "+", "multiplication": "×"}


def squares_of(found: replies.SquaresOf, plain: bool) -> list[str]:
    """Each square with its rules below it; in plain lines for those who hear them."""
    name = clean(found.child.name)
    if not found.squares:
        return [f"{name} has no addition or multiplication facts. See the sets: review set list"]
    words = family.words_of(found.child)
    signs = {square: family.as_written(sign, words) for square, sign in CORNERS.items()}
    told = (square_lines(name, one, signs[one.name], plain) for one in found.squares)
    return [line for some in told for line in (*some, "")][:-1]


def square_lines(name: str, one: Square, sign: str, plain: bool) -> list[str]:
    rows = spoken_rows(one) if plain else drawn_rows(one, sign)
    beyond = [f"  {plural(one.beyond, 'fact')} beyond twelve."] if one.beyond else []
    return [f"{name}: {one.name} facts", *rows, *(rule_line(rule, plain) for rule in one.rules), *beyond]


def drawn_rows(one: Square, sign: str) -> list[str]:
    """Three columns a number: twelve of them stay under 40."""
    across = "".join(f"{number:3}" for number in one.numbers)
    rows = (
        f"{down:3}" + "".join(f"{one.cells.get((down, right), ' '):>3}" for right in one.numbers)
        for down in one.numbers
    )
    return [f"{sign:>3}{across}", *(row.rstrip() for row in rows)]


def spoken_rows(one: Square) -> list[str]:
    """Row by row: "6: holding with 2, 3 and 5; fading with 7"."""
    return [f"  {down}: {row}" for down in one.numbers if (row := spoken_row(one, down))]


def spoken_row(one: Square, down: int) -> str:
    by_sign: dict[Sign, list[str]] = {
        sign: [str(right) for right in one.numbers if one.cells.get((down, right)) == sign]
        for sign in squares.WORDS
    }
    return "; ".join(
        f"{squares.SHORT[sign]} with {in_words(numbers)}" for sign, numbers in by_sign.items() if numbers
    )


def rule_line(rule: Rule, plain: bool) -> str:
    title = clean(rule.title)
    return f"  {capital(title)}: {squares.SHORT[rule.sign]}" if plain else f"  {rule.sign} {title}"


def legend() -> list[str]:
    told = [f"{sign} {words}" for sign, words in squares.WORDS.items()]
    return [*told, "An empty place: not in this child's sets."]


def square_rows(child: str, one: Square) -> list[dict[str, object]]:
    """A row a fact, the smaller number first; a rule, which is one card for a whole row, has no numbers."""
    facts = [(fact.card, fact.left, fact.right, fact.sign) for fact in one.facts]
    rules = [(rule.card, None, None, rule.sign) for rule in one.rules]
    return [
        {
            "child": child,
            "square": one.name,
            "card": card,
            "left": left,
            "right": right,
            "sign": sign,
            "state": squares.SHORT[sign],
        }
        for card, left, right, sign in (*facts, *rules)
    ]
