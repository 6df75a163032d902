"""The nouns of a warm-up: its plan, what is heard in it, and what comes of that.

What sits, places or copies speaks in these nouns, and so do the fronts that carry them out. What each word
means stands at the top of `core/model.py`.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Literal, NamedTuple

from review.core.model import STANDARD, Answer, Card, Help, Mark, Problem, Sort, Words

if TYPE_CHECKING:
    from review.core.pictures import Picture

# --- the plan ------------------------------------------------------------------------------------------

Why = Literal["due", "early", "new", "slip", "meet", "sure"]
"""due: its gap is over; early: it will be on a coming day off; new: never met; slip: not due, but likely to
slip; meet: a familiarity card's meeting; sure: certain to succeed, for the two ends and after misses."""


class PlanItem(NamedTuple):
    key: str
    why: Why
    seconds: float  # expected
    recall: float | None  # None: never measured


Suspicion = tuple[tuple[str, int], ...]
"""Error rules that may be behind a child's answers, each with its chance in thousandths, likeliest first."""


class Plan(NamedTuple):
    """Today's warm-up: items in showing order, and sure cards kept back for after two misses."""

    day: int
    minutes: float
    items: tuple[PlanItem, ...]
    reserve: tuple[PlanItem, ...] = ()
    pace: int = 0  # new cards that prove unknown, at most
    waiting: int = 0  # due cards that did not fit the minutes
    too_much: bool = False  # new cards wait: too much in play
    timed: tuple[str, ...] = ()  # keys of cards whose time counts today
    copy_ms: tuple[int, ...] = ()  # the child's own copying time by number of digits; (): by age
    slow_ms: int = 0  # net time over which an answer is slow for this child; 0: by age
    alone: bool = False  # next to nothing else is left to ask: one new card comes whatever the last days were
    likes: Mapping[str, str] = {}  # what the child liked when the day began: kind -> strategy
    suspected: Mapping[str, Suspicion] = {}  # card -> error rules to be told apart by what it asks


class Sitting(NamedTuple):
    """All a session needs to know; nothing in it changes while it runs."""

    book: str
    child: str
    name: str
    age: int
    plan: Plan
    cards: Mapping[str, Card]
    timed: frozenset[str] = frozenset()  # card keys whose time counts today
    copy_ms: tuple[int, ...] = ()  # the child's own copying time by number of digits; (): by age
    slow_ms: int = 0  # net time over which an answer is slow for this child; 0: by age
    recent_right: tuple[bool, ...] = ()  # the last first tries, oldest first, at most 10
    lately: Mapping[str, tuple[str, ...]] = {}  # what procedure cards asked on earlier days, oldest first
    harder: Mapping[str, str] = {}  # fact -> the order that is missed more often: what it asks more often
    keep: bool = True  # False: a trial, nothing moves memory
    untimed: bool = False  # the parent turned time off; each answer is logged so
    person: bool = False  # somebody sits there who may be asked a small question between problems
    sort: Sort = ""  # beside the day's warm-up: which
    aloud: bool = False  # the child's usual way: a parent reads out, and keys what came
    words: Words = STANDARD


# --- what is heard -------------------------------------------------------------------------------------


class Typed(NamedTuple):
    """An answer, as a front end hears it."""

    text: str
    first_ms: int = 0
    end_ms: int = 0
    suspended: bool = False  # the process was stopped meanwhile: the time means nothing
    helped: int = 0  # help steps a line-by-line front end showed by itself
    recalled: Literal["", "yes", "no"] = ""
    liked: str = ""  # the strategy the child likes here, where another program says so by itself


class AskHelp(NamedTuple):
    end_ms: int = 0  # since the problem was shown


class PassOn(NamedTuple):
    """`pass`: please show me."""

    end_ms: int = 0


class Stop(NamedTuple):
    pass


Word = Literal["memory", "worked", "not_yet"]


class Told(NamedTuple):
    """What a parent says of an answer given aloud: from memory, worked out, not yet. It has no time."""

    word: Word


Heard = Typed | Told | AskHelp | PassOn | Stop


class TakeBack(NamedTuple):
    """A parent's thumb slipped: the last answer of this sitting is not to count."""


# --- what comes of it ----------------------------------------------------------------------------------


class Show(NamedTuple):
    """Show a problem and wait for an answer."""

    n: int
    problem: Problem  # without the pictures of its help, which nobody sees yet
    first_meeting: bool = False
    second_look: bool = False
    copying: bool = False  # it was shown a moment ago; hide that, then ask
    dots: tuple[int, int] = (0, 0)  # filled, of
    helped: int = 0  # help steps it had before the sitting was stopped
    named: tuple[str, ...] = ()  # strategies that help keeps to, where the card's skills name some
    liked: str = ""  # the strategy it follows where that suits


class AskAgain(NamedTuple):
    """The answer could not be read, or nothing was typed: say what is meant, and wait again."""

    text: str
    picture: "Picture | None" = None  # drawn above the text


class AskRecalled(NamedTuple):
    """Ask whether the answer came from memory or was worked out; what is heard next says so, or nothing."""

    text: str


class AskLiked(NamedTuple):
    """Ask which of these ways the child likes; what is heard next says so by its number, or nothing."""

    text: str
    ways: tuple[tuple[str, str], ...]  # each in words, and its worked steps


class Helped(NamedTuple):
    """Show one help step more, and wait again."""

    help: Help


class Record(NamedTuple):
    """Keep this answer before anything else is said."""

    answer: Answer


class Say(NamedTuple):
    """Tell the child what came of the answer. With `hold`, let them read it in their own time."""

    card: str
    mark: Mark
    expected: str
    text: str
    hold: bool = False


class Note(NamedTuple):
    """A sentence between problems."""

    text: str


class Summary(NamedTuple):
    seconds: float
    first_tries: int
    right: int
    new: int
    finished: bool


class End(NamedTuple):
    lines: tuple[str, ...]
    summary: Summary


Effect = Show | AskAgain | AskRecalled | AskLiked | Helped | Record | Say | Note | End
Effects = tuple[Effect, ...]
"""What comes of one thing heard, in the order in which it is carried out."""
