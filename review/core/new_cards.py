"""New cards: how many may come on a day and in a week, and which come first."""

from collections.abc import Collection, Iterable, Sequence

from review.core import focus
from review.core.model import CardMemory, Settings
from review.core.standing import Look

USUAL_MINUTES = 5.0  # of a day, unless a parent says otherwise
RECENT = 10  # first tries that say how it goes lately
WELL = 9  # of them right: it goes well (our judgement)
RECENT_RIGHT = 8  # of them right, or new cards wait (our judgement)
SLIPS, SLIPS_AT_FIRST = 1, 2
"""Of the last ten missed, with which a sitting still lets new cards in; and before there are ten (our
judgement)."""

MORE = 3  # times the pace, where it goes well and minutes are left (measured here: see the bench)
OFFERED_MOST = 8  # new cards made ready at most, times the pace (our judgement)

TURNS = 3
"""Sets whose new cards come in turns. With all sets of a child at once, long work crowded out the facts and
half as much was learned (measured here)."""

WINDOW = 12  # new products are chosen unlike each other among so many next ones
ALIKE = 1  # shared digit pairs among a week's new products, where possible


# --- how many -----------------------------------------------------------------------------------------


def pace(settings: Settings, minutes: float = USUAL_MINUTES) -> int:
    """New cards a day: the parent's, or 2 at 6 and 7, 3 at 8 and 9, 4 from 10, and more where a day has more
    than the usual minutes (our judgement)."""
    by_age = 2 if settings.age < 8 else 3 if settings.age < 10 else 4
    return settings.pace or round(by_age * max(1.0, minutes / USUAL_MINUTES))


def left_today(
    memories: Iterable[CardMemory], settings: Settings, day: int, minutes: float, recent: Sequence[bool]
) -> tuple[int, int]:
    """New cards that may still prove unknown today: by the pace, and where it goes well."""
    started = sum(m.intro_day == day == m.met_day for m in memories)
    usual = pace(settings, minutes)
    most = MORE * usual if _goes_well(recent) and not settings.pace else usual
    return max(0, usual - started), max(0, most - started)


def products_a_week(settings: Settings, minutes: float, recent: Sequence[bool]) -> int:
    """New products a week: 4, or 7 from age 10, for the usual minutes (our judgement); more once 8 of the
    last 10 were right (measured here: with 9, long procedures took the place of the facts that waited)."""
    usual = round((7 if settings.age >= 10 else 4) * max(1.0, minutes / USUAL_MINUTES))
    return MORE * usual if (of_ten(recent) or 0) >= RECENT_RIGHT and not settings.pace else usual


def _goes_well(recent: Sequence[bool]) -> bool:
    """Whether more new cards may come than the pace, once nothing else is left to ask."""
    return (of_ten(recent) or 0) >= WELL


def of_ten(recent: Sequence[bool]) -> int | None:
    """How many of the last ten first tries were right; None before there are ten."""
    return sum(recent[-RECENT:]) if len(recent) >= RECENT else None


def many_missed(recent: Sequence[bool]) -> bool:
    """Whether too many of the last ten were missed for anything new."""
    right = of_ten(recent)
    return right is not None and right < RECENT_RIGHT


def went_badly(recent: Sequence[bool]) -> bool:
    """Whether the sitting itself would let no new card in until more has gone well."""
    return recent[-RECENT:].count(False) > slips_allowed(len(recent))


def slips_allowed(known: int) -> int:
    """Misses among the last ten with which a sitting lets new cards in; `known`: first tries before it."""
    return SLIPS if known >= RECENT else SLIPS_AT_FIRST


# --- which, the first to come first -------------------------------------------------------------------


def offered(
    new: Sequence[Look],
    every: Sequence[Look],
    a_week: int,
    day: int,
    left: int,
    first: Collection[str] = (),
) -> list[Look]:
    """As many of the new cards as may be offered, in teaching order, those of the week's focus first; among
    products, few a week and unlike each other."""
    if left == 0 or not new:
        return []
    week = [x for x in every if x.card.kind == "product" and started_this_week(x.memory, day)]
    if not first:
        return _few(new, week, every, a_week, left)
    front = _few([x for x in new if focus.holds(x.card, first)], week, every, a_week, left)
    begun = [*week, *(x for x in front if x.card.kind == "product")]
    others = [x for x in new if not focus.holds(x.card, first)]
    return [*front, *_few(others, begun, every, a_week, left)][: OFFERED_MOST * left]


def _few(
    new: Sequence[Look], week: Sequence[Look], every: Sequence[Look], a_week: int, left: int
) -> list[Look]:
    """As many as may be offered, with no more products than the week still allows."""
    allowed = max(0, a_week - len(week))
    limit = allowed if allowed < left else OFFERED_MOST * left
    unlike = iter(_unlike([x for x in new if x.card.kind == "product"], week, limit))
    order = (next(unlike, None) if x.card.kind == "product" else x for x in new)
    turns = _in_turns([look for look in order if look is not None], every)
    return turns[: OFFERED_MOST * left]


def started_this_week(memory: CardMemory | None, day: int) -> bool:
    return memory is not None and memory.intro_day > 0 and day - memory.intro_day < 7


def _in_turns(new: Sequence[Look], every: Sequence[Look]) -> list[Look]:
    """The first few sets take turns, first the one that has waited longest for its last new card; the others
    come when one of these has no new card left."""
    first = list(dict.fromkeys(look.card.set_id for look in new))[:TURNS]
    now = [look for look in new if look.card.set_id in first]
    return [*_turned(now, every), *(look for look in new if look.card.set_id not in first)]


def _turned(new: Sequence[Look], every: Sequence[Look]) -> list[Look]:
    last: dict[str, int] = {}
    for look in every:
        if look.memory is not None and look.memory.met_day > last.get(look.card.set_id, 0):
            last[look.card.set_id] = look.memory.met_day
    turn: dict[str, int] = {}
    order: list[tuple[int, int, Look]] = []
    for look in new:
        turn[look.card.set_id] = turn.get(look.card.set_id, 0) + 1
        order.append((turn[look.card.set_id], last.get(look.card.set_id, 0), look))
    return [look for _, _, look in sorted(order, key=lambda one: one[:2])]


def _unlike(products: Sequence[Look], week: Sequence[Look], limit: int) -> list[Look]:
    """The next products, those first that share few digit pairs with the week's.

    Dissimilar weekly sets were learned better, and still were seven weeks later (interference study with
    first-graders; the index follows De Visscher & Noel 2014, its rule from memory).
    """
    taken = [look.traits.digit_pairs for look in week]
    load = sum(len(a & b) for n, a in enumerate(taken) for b in taken[:n])
    next_ones = products[: WINDOW + limit]
    left = [(look, sum(len(look.traits.digit_pairs & pairs) for pairs in taken)) for look in next_ones]
    chosen: list[Look] = []
    while left and len(chosen) < limit:
        best = min(range(min(WINDOW, len(left))), key=lambda n: (max(0, load + left[n][1] - ALIKE), n))
        look, shared = left.pop(best)
        load += shared
        chosen.append(look)
        left = [(x, n + len(x.traits.digit_pairs & look.traits.digit_pairs)) for x, n in left]
    return chosen
