"""The nouns of `review`, and what each word means.

Glossary
--------
record book   one SQLite file of one family: children, chosen skill sets, every answer ever given
skill set     a TOML file in `card_sets/`, or a parent's own: a title, an aim, a list of skills
skill         one kind of thing to learn: "multiples of 6", "two-digit sums that regroup the ones"
card          what memory is kept of. A fact card has one problem for ever (6 x 7); a procedure card is a
              narrow class of problems, and each showing draws a fresh one
problem       what is shown once; a pure function of (card key, `asked`)
asked         the numbers of one showing in ASCII, as logged: `47+25`
answer        what the child gave, when, how fast, with which help, how it was taken
aim           what a set asks for: familiarity (to recognise it), accuracy (right, in one's own time),
              fluency (right, and from memory)
mark          right, right_slow, right_helped, not_yet, shown, void: a fact of the log
recall        the predicted chance, 0 to 1, that a card would be answered right and unaided today
gap           the days the plan leaves between two first tries of a card
due           the planned gap is over
fading        past its planned day, and recall under what the aim asks (fluency .90, accuracy .85)
overdue       fading for more than 2 days, or a quarter of its gap, whichever is more
holding       recalled on 3 different days, and the gap it has now is 2 weeks or more
warm-up       one sitting a day, bounded by minutes
practice day  the child's local date, turning at 03:00; an ordinal as `datetime.date.toordinal` gives it
first try     the first answer to a card on a practice day: the only one that measures memory
second look   a later showing of the same card the same day: it teaches
strategy      a way of working out, by its name in research: bridging, near-doubles
way           what a strategy makes of one problem: the steps of help that follow it
words         how a family says and writes things: carry or regroup, 0.5 or 0,5; what is shown, never logged
taught        the parent says the idea has been taught; only then do a skill's cards come

Here stand the nouns that several stages pass on, in the order of the flow. What a kind of skill is made of
is in `core/skills/kinds.py`; a warm-up, from its plan to what is said, in `core/warmup.py`; pictures in
`core/pictures.py`; what only one room makes stands in that room, and what a command replies with in
`replies.py`.

Units: every time is an integer of milliseconds, every day an ordinal, unless a name says otherwise.
The nouns are named tuples: as immutable as frozen dataclasses and far cheaper to define at start-up
(thirty frozen dataclasses cost 12 ms of every command, measured here).
"""

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Literal, NamedTuple

if TYPE_CHECKING:
    from review.core.pictures import Picture

Aim = Literal["familiarity", "accuracy", "fluency"]
AIMS: tuple[Aim, ...] = ("familiarity", "accuracy", "fluency")  # least strict first

Mark = Literal["right", "right_slow", "right_helped", "not_yet", "shown", "void"]
MARKS: tuple[Mark, ...] = ("right", "right_slow", "right_helped", "not_yet", "shown", "void")
RIGHT: tuple[Mark, ...] = ("right", "right_slow")
FOUND: tuple[Mark, ...] = (*RIGHT, "right_helped")  # by the child itself, with help or without

Role = Literal["ask", "intro", "copy", "probe"]
"""ask: a plain question; intro: the first meeting of a new card; copy: typed after it was shown;
probe: placement."""

Taken = Literal["typed", "aloud", "paper"]
Mode = Literal["", "typed", "aloud"]

Sort = Literal["", "extra", "gentle", "copying"]
"""Which sitting an answer belongs to: "": the day's warm-up, or a placement; extra: a few more of one kind;
gentle: sure cards on a hard day; copying: the exercise in copying numbers. All but the first never move the
memory of a card."""

EventKind = Literal[
    "answer", "sitting", "profile", "taught", "set_add", "set_drop",
    "undo", "correct", "known", "away", "fit",
]  # fmt: skip
EVENT_KINDS: tuple[EventKind, ...] = (
    "answer", "sitting", "profile", "taught", "set_add", "set_drop",
    "undo", "correct", "known", "away", "fit",
)  # fmt: skip


# --- text file -> skill set ---------------------------------------------------------------------------


class Mistake(NamedTuple):
    """Something a parent has to mend in a file: where it is, what is wrong, what to write instead."""

    file: str
    line: int  # 1-based; 0 when the file as a whole is meant
    path: str  # the key path, like "skill[2].tables"
    wrong: str
    instead: str


class Skill(NamedTuple):
    id: str
    title: str
    kind: str
    aim: Aim
    options: Mapping[str, object]  # the kind's own keys, checked and with defaults filled in
    after: tuple[str, ...] = ()  # skill ids to meet first
    strategies: tuple[str, ...] = ()
    set_id: str = ""
    keys: tuple[str, ...] = ()  # of its cards, where they are written down; (): the kind makes them
    note: str = ""  # one line that helps to remember, said where an answer is told


class SkillSet(NamedTuple):
    id: str
    title: str
    about: str
    aim: Aim
    ages: tuple[int, int]
    standards: tuple[str, ...]
    skills: tuple[Skill, ...]


# --- skill set -> cards -> problems -------------------------------------------------------------------


class Traits(NamedTuple):
    """What the planner knows of a card without looking at a problem."""

    title: str  # for a parent, short: "6 × 7", "two-digit sums that regroup the ones"
    fact: bool  # one problem for ever
    seconds: float  # expected seconds until the child's own are known (our judgement)
    groups: frozenset[str] = frozenset()  # two cards that share one are not shown one after the other
    family: str = ""  # partner facts share it; only one of a family a day: 6 × 7 and 42 ÷ 6
    partner: str = ""  # the key of the fact that must be known first
    choices: int = 0  # 2 or 3 when the answer is one of so few
    digit_pairs: frozenset[str] = frozenset()  # for products: likeness to others of the week


TraitsOf = Callable[[str], Traits]  # of a card key


class Card(NamedTuple):
    key: str
    kind: str
    skill: str
    set_id: str
    aim: Aim
    order: int  # teaching order over all of a child's sets
    also: tuple[str, ...] = ()  # other skills of the child's sets that hold the same card
    strategies: tuple[str, ...] = ()  # those its skills name: help keeps to them where they suit
    note: str = ""  # of its skills, the first that has one

    @property
    def skills(self) -> tuple[str, ...]:
        """Every skill of the child's sets that holds it."""
        return self.skill, *self.also


HelpStep = Literal["written", "question", "build", "neighbour", "picture", "exchange", "blank", "steps"]
HELP_STEPS: tuple[HelpStep, ...] = (
    "written", "question", "build", "neighbour", "picture", "exchange", "blank", "steps",
)  # fmt: skip


class Help(NamedTuple):
    step: HelpStep
    text: str  # may have several lines, each at most 40 characters
    picture: "Picture | None" = None  # drawn above the text


class Way(NamedTuple):
    """What one strategy makes of a problem: the steps of help that follow it."""

    strategy: str
    helps: tuple[Help, ...]


BOX = "□"
"""Stands for what is asked, in a prompt that does not end where its answer goes, in help and in pictures."""


class Problem(NamedTuple):
    """What is shown once. Everything in it follows from `card` and `asked`."""

    card: str
    kind: str
    asked: str
    prompt: str  # one line, ends where the answer goes: "6 × 7 ="
    say: str  # the same in words to read aloud: "six times seven"
    form: str  # the answer form, a name in `answers.FORMS`
    expected: str  # the answer as one would write it: "42"
    told: str  # the whole fact in a short sentence: "6 × 7 makes 42."
    helps: tuple[Help, ...] = ()  # least to most
    unit: str = ""  # for quantities
    picture: "Picture | None" = None  # shown above the prompt


# --- a family's own words -----------------------------------------------------------------------------


class Words(NamedTuple):
    """How a family says and writes things, each by a name in `CHOICES`."""

    carry: str = "any"  # ten for one: carry and borrow, regroup, exchange; any: as the catalogue has it
    maths: str = "maths"
    decimals: str = "point"
    times: str = "cross"
    divide: str = "dash"


STANDARD = Words()
"""As everything is made, judged and kept."""

CHOICES: Mapping[str, tuple[str, ...]] = {
    "carry": ("any", "carry", "regroup", "exchange"),
    "maths": ("maths", "math"),
    "decimals": ("point", "comma"),
    "times": ("cross", "dot"),
    "divide": ("dash", "colon"),
}
"""What a family may choose of its words, the first where it chose nothing."""


# --- the log ------------------------------------------------------------------------------------------


class Answer(NamedTuple):
    """One answer as it is logged. Times are raw; whether they count is `slow_ms`."""

    card: str
    asked: str
    expected: str
    given: str
    mark: Mark
    role: Role = "ask"
    first_ms: int = 0  # to the first key
    end_ms: int = 0  # to the end
    help: str = ""  # the furthest help step used, "" for none
    taken: Taken = "typed"
    aim: Aim = "accuracy"
    age: int = 0  # the age rule it was judged by, in whole years
    copy_ms: int = 0  # the copying time it was judged by
    slow_ms: int = 0  # net time over which it was slow; 0: time did not count
    recalled: Literal["", "yes", "no"] = ""  # from memory or worked out, where the child said
    showing: int = 0  # which showing of the card this day, from 0: with `asked`, what was drawn
    rule: int = 1  # version of the marking rule
    untimed: int = 0  # 1: the parent turned time off, so no time moves memory
    slipped: str = ""  # what was typed first, where it looked like a slip of the keys and was asked once more
    sitting: Sort = ""  # beside the day's warm-up: which
    liked: str = ""  # the strategy the child chose when asked after it
    sheet: int = 0  # the number of the sheet it was written on; 0: none
    part: int = 0  # and which of its sittings, from 1


class Draft(NamedTuple):
    """An event before the book gives it an identity."""

    child: str  # hex of the child's random key
    kind: EventKind
    day: int
    raw_ms: int  # UTC instant in milliseconds since 1970
    offset_min: int  # local time minus UTC
    card: str
    body: Mapping[str, object]  # JSON: strings, integers, booleans, lists and tables of them; no floats


Place = tuple[int, int, int, int]
"""Where a row stands in the one total order of the log: (day, at_ms, device, seq)."""


class Event(NamedTuple):
    """One row of the log."""

    device: int
    seq: int
    child: str
    kind: EventKind
    day: int
    raw_ms: int
    at_ms: int  # raw_ms, never falling within a child and device
    offset_min: int
    card: str
    body: Mapping[str, object]


# --- memory -------------------------------------------------------------------------------------------


class CardMemory(NamedTuple):
    """What the fold over all of a child's answers holds of one card; can be thrown away."""

    card: str
    stability: float | None = None  # days until recall falls to 0.9; None: met, not yet measured
    difficulty: float | None = None  # 1 to 10
    last_day: int = 0  # of the last first try that was folded; 0: none
    met_day: int = 0  # first shown
    seen_day: int = 0  # last shown, in any role
    seen_day_shows: int = 0  # showings on that day
    seen_day_misses: int = 0  # not yet or shown, on that day
    looked: bool = False  # a second look was folded on seen_day
    intro_day: int = 0  # a new fact that was not known on that day: unrated until the next
    beside_day: int = 0  # last asked beside the warm-up: what is answered after it that day is no recall
    tries: int = 0  # first tries
    right: int = 0  # first tries right and unaided
    right_days: int = 0  # days with a retrieved first try
    miss_days: int = 0  # days with a first try not retrieved, since it was last set aside
    miss_run: int = 0  # first tries missed running
    placed: int = 0  # 1: right and quick at first sight; 2: and again; 0: otherwise
    gap: int = 0  # days between the last two first tries
    capped: int = 0  # times right in a row when the gap had reached the cap
    aside_day: int = 0  # set aside to teach on that day; 0: not
    known: bool = False  # a parent said so
    known_day: int = 0  # first right and unaided at a first try, or said to be known; 0: never
    held_day: int = 0  # first trusted for two weeks, after three days right; 0: never
    last_mark: str = ""
    passed_ms: int = 0  # running mean, right and unaided
    passed_n: int = 0
    other_ms: int = 0  # running mean, everything else
    other_n: int = 0
    orders: tuple[tuple[str, int, int], ...] = ()  # (asked, tries, misses) of facts shown in either order
    recent: tuple[str, ...] = ()  # what a procedure card asked lately, oldest first: "739901 47+25"
    at: Place = (0, 0, 0, 0)  # of the last row folded


class Habits(NamedTuple):
    """How a child answers, over all cards. A fold over the log like memory; can be thrown away."""

    fast: tuple[float, float, float] = (0.0, 0.0, 0.0)  # net times of answers from memory: count, mean and
    slow: tuple[float, float, float] = (0.0, 0.0, 0.0)  # variance of log seconds; and of those worked out
    copying: tuple[float, float] = (0.0, 0.0)  # count and mean of log(own copying time / usual at the age)
    weights: tuple[float, ...] = ()  # what the forgetting curve misses; (): nothing learned yet
    spread: tuple[float, ...] = ()  # their covariance, its lower half row by row
    at_sight: tuple[float, float] = (0.0, 0.0)  # facts with little to count, met: right and unaided, and not
    soon: tuple[float, float] = (0.0, 0.0)  # the same asked again, not yet recalled on two days
    parameters: tuple[float, ...] = ()  # of the memory model, fitted to the child; (): the published defaults
    at: Place = (0, 0, 0, 0)  # of the last row folded


class Remembered(NamedTuple):
    """All that the log says of a child's memory."""

    cards: Mapping[str, CardMemory]
    habits: Habits


class Chosen(NamedTuple):
    """A skill set a child has."""

    set_id: str
    aim: str  # overrides the set's own; "" leaves it
    text: str  # the TOML of a parent's own set; "" for the catalogue's


class Child(NamedTuple):
    """What the log's other events say of one child."""

    key: str
    name: str
    age: int  # in whole years on `age_day`
    age_day: int
    minutes: float = 5.0
    zone: str = ""  # an IANA name; "": the computer's own
    untimed: bool = False
    pace: int = 0  # new cards a day; 0: by age
    sets: tuple[Chosen, ...] = ()
    taught: tuple[str, ...] = ()  # skill ids
    timed: tuple[str, ...] = ()  # skills the parent lets be asked from memory
    away: tuple[tuple[int, int], ...] = ()  # first and last day
    last_day: int = 0  # of the last event of any kind
    mode: Mode = ""  # how the child's answers are usually taken; "": by age
    years: str = ""  # whose school years the family reads: a name of `school_years.CHOICES`; "": by ages
    words: Mapping[str, str] = {}  # the family's own words, where it chose: fields of `Words`
    focus: str = ""  # the skill that comes first, with what it stands on
    focus_until: int = 0  # the last day it does
    likes: Mapping[str, str] = {}  # kind -> the strategy help follows where it suits


class Settings(NamedTuple):
    """What the plan may know of a child besides memory."""

    age: int
    pace: int = 0  # new cards a day; 0: by age
    untimed: bool = False
    target: float = 0.0  # recall at which a card is due; 0: by age
    cap: int = 14  # longest gap in days, before a card has earned a longer one
    taught: frozenset[str] | None = None  # skill ids; None: all
    days_off: int = 0  # before the next practice day: what falls due on them may come today
    timed: frozenset[str] | None = None  # skill ids whose time may count; None: all
    habits: Habits = Habits()
    focus: frozenset[str] = frozenset()  # skill ids that come first this week


class Pupil(NamedTuple):
    """One child with all that is decided from, on one day."""

    child: Child
    day: int
    cards: tuple[Card, ...]
    skills: Mapping[str, Skill]
    memory: Mapping[str, CardMemory]
    settings: Settings
    recent: tuple[bool, ...] = ()  # the last first tries before that day, right or not
    sets: Mapping[str, str] = {}  # titles of the child's sets, by id
    traits: Mapping[str, Traits] = {}  # of the cards whose were written down beforehand
