"""An answer to its mark, and a mark to what it does to memory."""

from typing import Literal

from review.core.model import Answer, Card, CardMemory, Mark, Settings, Traits

RULE = 2
"""Version of the marking rule, logged with every mark. 2: the slow limit and the copying time are the child's
own where known, and a slip of the keys is asked once more."""

_COPY_TWO_DIGITS_MS = {7: 3500, 8: 2900, 9: 2300, 10: 1900, 11: 1700}
"""Time to copy a number of two digits, by age; 6 counts as 7, older as 11. Our judgement from published
aims for typing speed at school. Adults took 1.46 to 1.74 s (quartiles of 118, Soh Mei Ling 2025, open
data)."""

_SLOW_NET_MS = 3000
"""Net of copying. A retrieved fact takes about one second, counting 0.4 s a step on top (Groen & Parkman
1972): three seconds leave a child time to look, and no time to count five steps. Our judgement."""

_SLOW_TIMES_TENTHS = {7: 15, 8: 12}
"""Younger children are given more: 1.5 times at 6 and 7, 1.2 times at 8 (our judgement)."""

_TOO_FAST_MS = 250
"""Nobody reads a problem and reacts in a quarter of a second: the key was under way before (common
practice)."""

_TOO_SLOW_MS = 30_000
"""Slow whatever the copying time says (our judgement)."""

RETRIEVED_DAYS = 3
"""Time counts only after first tries from memory on this many separate days (our judgement): a child who
still counts is learning, not lapsing."""

_NO_HELP = ("", "written")  # help steps that show no more than the problem did


def _rung(age: int, oldest: int) -> int:
    return min(max(age, 7), oldest)


def copying_ms(age: int, digits: int, own: tuple[int, ...] = ()) -> int:
    """Milliseconds to copy an answer of so many digits: the child's own where measured, else by age.

    `own` holds the child's times for 1, 2, ... digits. Beyond it, and for other lengths than two, half of the
    two-digit time is for looking and Enter, and each digit takes a quarter of it (our judgement).
    """
    if own and 1 <= digits <= len(own):
        return own[digits - 1]
    known, length = (own[-1], len(own)) if own else (_COPY_TWO_DIGITS_MS[_rung(age, 11)], 2)
    return known * (2 + max(digits, 1)) // (2 + length)


def slow_ms(age: int) -> int:
    """The net time over which an answer was not retrieved, by age."""
    return _SLOW_NET_MS * _SLOW_TIMES_TENTHS.get(_rung(age, 9), 10) // 10


def is_believable(first_ms: int, end_ms: int) -> bool:
    """Whether a time can be believed: there is one, and nobody was faster than a reaction allows."""
    return end_ms >= _TOO_FAST_MS and (first_ms == 0 or first_ms >= _TOO_FAST_MS)


def took_long(first_ms: int, end_ms: int, copy_ms: int, limit_ms: int) -> bool:
    return is_believable(first_ms, end_ms) and (end_ms - copy_ms > limit_ms or end_ms > _TOO_SLOW_MS)


def mark(
    verdict: Literal["right", "other"],
    *,
    help: str,
    first_ms: int,
    end_ms: int,
    copy_ms: int,
    slow_ms: int,
    suspended: bool,
    fact: bool,
) -> Mark:
    """The mark of one answer; `slow_ms` of 0 says that time does not count.

    Seeing the problem written again, or hearing it again, is no help. A guiding question leaves a procedure
    right: the work was the child's own. On a fact the question is most of the answer, so it helped.
    A time across a suspended process, or faster than a reaction, means nothing: the first voids the answer,
    since the child may have been elsewhere; with the second the answer stands, without its time.
    """
    if suspended:
        return "void"
    if verdict != "right":
        return "not_yet"
    if help not in _NO_HELP and (fact or help != "question"):
        return "right_helped"
    slow = slow_ms > 0 and took_long(first_ms, end_ms, copy_ms, slow_ms)
    return "right_slow" if slow else "right"


def left_open(answer: Answer) -> bool:
    """Help was asked for, then the sitting stopped before an answer: kept so that it is not forgotten."""
    return answer.mark == "void" and not answer.given and answer.help != ""


def timed(card: Card, traits: Traits, memory: CardMemory | None, settings: Settings) -> bool:
    """Whether time counts for this card: by evidence and the parent's yes, skill by skill, not by a birthday.

    Of a card of several skills one yes is enough, as one of them taught lets it come. With two or three
    answers to choose from, a quick answer may be a guess: such cards are never timed.
    """
    wished = settings.timed is None or not settings.timed.isdisjoint(card.skills)
    wished = wished and card.aim == "fluency" and not settings.untimed
    return wished and traits.choices == 0 and memory is not None and memory.right_days >= RETRIEVED_DAYS


# --- what a mark does to memory -----------------------------------------------------------------------

Effect = Literal["retrieved", "weighed", "hold", "halve", "not retrieved", ""]
"""retrieved: memory grows; weighed: between growing and falling, by how likely it came from memory; hold: it
stays as it is, from today; halve: its gap halves; not retrieved: it falls; "": nothing."""

Stage = Literal["familiarity", "accuracy", "early", "fluency"]
"""The aim, and for fluency how far it has come: early, while time does not count."""

_LEFT = {"": "", "written": "", "question": "guided", "steps": "steps"}
"""Help steps by what they leave to the child; every other shows a way to the answer, as a picture does."""

TABLE: dict[Stage, dict[str, Effect]] = {
    "familiarity": {},
    "accuracy": {
        "right": "retrieved", "slow": "retrieved", "guided": "hold", "hinted": "hold",
        "picture": "halve", "steps": "not retrieved", "miss": "not retrieved",
    },
    "early": {
        "right": "retrieved", "slow": "hold", "guided": "hold", "hinted": "not retrieved",
        "picture": "not retrieved", "steps": "not retrieved", "miss": "not retrieved",
    },
    "fluency": {
        "right": "weighed", "slow": "weighed", "guided": "hold", "hinted": "not retrieved",
        "picture": "not retrieved", "steps": "not retrieved", "miss": "not retrieved",
    },
}  # fmt: skip
"""The one table from marks to memory.

Familiarity is not scheduled by memory, so nothing moves it. For fluency, once time counts, a right answer is
weighed by its time, so that there is no cliff at any second. For accuracy a right answer that took a
guiding question holds (the child did the work); one that took a picture, counters or a neighbour is not yet
independent: to hold it would let a card that always needs its picture keep a gap of weeks, to let it fall
would punish asking for help, so its gap halves. After the worked steps nothing was left to recall. For
fluency, help means not from memory.
"""


def as_it_counts(answer: Answer) -> Mark:
    """The mark as memory takes it: corrected by what the child says of it, from memory or worked out (for
    fluency only).

    Where the parent has turned time off, only the child's own word makes an answer slow.
    """
    if answer.aim != "fluency" or answer.mark not in ("right", "right_slow"):
        return answer.mark
    if answer.recalled:
        return "right" if answer.recalled == "yes" else "right_slow"
    return "right" if answer.untimed else answer.mark


def as_said(answer: Answer) -> Mark:
    """The mark for a person to read, whatever the aim: who said how an answer was found knows it best. A dot
    on paper was once kept as right alone, with that word beside it."""
    if not answer.recalled or answer.mark not in ("right", "right_slow"):
        return answer.mark
    return "right" if answer.recalled == "yes" else "right_slow"


def is_right(answer: Answer) -> bool:
    """By its mark: a guiding question leaves a procedure right, for the work was the child's own. By this a
    sitting, and the plan of the next day, tell whether new cards may come; what is counted as known, and in
    reports, is `unaided` as well."""
    return answer.mark in ("right", "right_slow")


def unaided(answer: Answer) -> bool:
    return is_right(answer) and not helped(answer)


def helped(answer: Answer) -> bool:
    """Whether a step of help was looked at that shows more than the problem did."""
    return answer.help not in _NO_HELP


def effect(answer: Answer) -> Effect:
    """What a first try does to memory."""
    return TABLE.get(_stage(answer), {}).get(_column(answer), "")


def quick(answer: Answer) -> bool:
    """Whether a right answer at first sight was surely known, so that it may start far out.

    Only for fluency is that a question: to work out is what accuracy asks for. The child's own word decides,
    where there is one. Else time does, where it was typed and believable, and where the parent has not turned
    time off; by the limit of its age if none was set.
    """
    if answer.slipped and not answer.end_ms:  # asked once more: right, but how quickly is not known
        return False
    if answer.aim != "fluency":
        return True
    if answer.recalled or answer.untimed or answer.taken != "typed":
        return answer.recalled != "no"
    copy = answer.copy_ms or copying_ms(answer.age, len(answer.expected))
    limit = answer.slow_ms or slow_ms(answer.age)
    return not took_long(answer.first_ms, answer.end_ms, copy, limit)


def _stage(answer: Answer) -> Stage:
    if answer.aim != "fluency":
        return answer.aim
    return "early" if answer.slow_ms == 0 or answer.untimed else "fluency"


def _column(answer: Answer) -> str:
    """The column of the table: the mark, and with help what that help left to the child."""
    said = as_it_counts(answer)
    left = _LEFT.get(answer.help, "picture")
    if said == "right_helped":
        return {"guided": "hinted", "": "picture"}.get(left, left)
    if said in ("right", "right_slow"):
        return left or ("slow" if said == "right_slow" else "right")
    return "miss" if said in ("not_yet", "shown") else ""
