"""The order in which a warm-up shows its cards: sure ones at both ends, new ones spread, like ones apart."""

from collections import Counter
from collections.abc import Mapping, Sequence
from random import Random

from review.core.warmup import PlanItem

LEAD = 3
"""No new card among the first three or at the last place (our judgement; endings shape how children
remember a sitting, Finn 2010)."""

SMALL = 7
"""Up to so many cards every order is tried; more are placed one by one, then mended."""

Groups = Mapping[str, frozenset[str]]
Items = tuple[PlanItem, ...]


def arranged(items: Sequence[PlanItem], groups: Groups, openers: int, random: Random) -> Items:
    """All items, `openers` sure ones first and one last, no two that share a group side by side if that can
    be.

    `groups` gives the groups of each key. New cards keep the order they have in `items`, which is the order
    they are taught in; that of the others does not matter, the random source does.
    """
    wanted, lead = _wanted(sorted(items), [item for item in items if item.why == "new"], openers, random)
    if len(wanted) <= SMALL:
        found = _small(wanted, groups, lead)
        if found is not None:
            return found
    return _mended(_placed(wanted, groups, lead), groups, lead)


def clash(a: PlanItem, b: PlanItem, groups: Groups) -> bool:
    return not groups.get(a.key, frozenset()).isdisjoint(groups.get(b.key, frozenset()))


def _wanted(items: list[PlanItem], new: list[PlanItem], openers: int, random: Random) -> tuple[Items, int]:
    """The order one would like if nothing clashed, and how many places at the front no new card takes."""
    old = [item for item in items if item.why != "new"]
    surest = sorted((i for i in old if i.recall is not None), key=lambda i: (-(i.recall or 0), i.key))
    first, last = [*surest[:1], *surest[2 : openers + 1]], surest[1:2]
    middle = [item for item in old if item not in first and item not in last]
    random.shuffle(middle)
    return (*first, *_spread(middle, new), *last), min(LEAD, max(0, len(old) - 1))


def _spread(middle: list[PlanItem], new: list[PlanItem]) -> list[PlanItem]:
    """New cards at even distances among the others."""
    places = [((n + 0.5) / len(middle), item) for n, item in enumerate(middle)]
    places += [((n + 1) / (len(new) + 1), item) for n, item in enumerate(new)]
    return [item for _, item in sorted(places)]


def _fits(item: PlanItem, place: int, size: int, lead: int) -> bool:
    """Whether a card may stand at a place: new ones not at the front, nor last where another could."""
    return item.why != "new" or (place >= lead and (place < size - 1 or lead == 0))


# --- few cards: every order ---------------------------------------------------------------------------


def _small(wanted: Items, groups: Groups, lead: int) -> Items | None:
    """The first order without a clash: with the wanted last card, else any; at last new cards anywhere."""
    if not wanted:
        return ()
    *others, last = wanted
    return (
        _search((), tuple(others), (last,), groups, lead)
        or _search((), wanted, (), groups, lead)
        or _search((), wanted, (), groups, 0)
    )


def _search(done: Items, left: Items, last: Items, groups: Groups, lead: int) -> Items | None:
    """Depth first, in the wanted order."""
    size = len(done) + len(left) + len(last)
    if not left and last:
        done, left, last = done, last, ()
    if not left:
        return done
    for n, item in enumerate(left):
        apart = not done or not clash(done[-1], item, groups)
        if apart and _fits(item, len(done), size, lead):
            found = _search((*done, item), left[:n] + left[n + 1 :], last, groups, lead)
            if found is not None:
                return found
    return None


# --- many cards: one by one, then mended --------------------------------------------------------------


def _placed(wanted: Items, groups: Groups, lead: int) -> list[PlanItem]:
    """The next wanted card that fits beside the last; a group that fills half of what is left goes first."""
    left, size = list(wanted[:-1]), len(wanted)
    count = Counter(group for item in left for group in groups.get(item.key, ()))
    out: list[PlanItem] = []
    while left:
        crowded = {group for group, n in count.items() if 2 * n > len(left)}
        item = _next(left, out, crowded, groups, size, lead)
        left.remove(item)
        count.subtract(groups.get(item.key, ()))
        out.append(item)
    return [*out, *wanted[-1:]]


def _next(
    left: list[PlanItem], out: list[PlanItem], crowded: set[str], groups: Groups, size: int, lead: int
) -> PlanItem:
    def is_apart(item: PlanItem) -> bool:
        return not out or not clash(out[-1], item, groups)

    fits = (item for item in left if _fits(item, len(out), size, lead))
    if not crowded and (first := next(filter(is_apart, fits), None)):
        return first  # nearly always: no more of them are looked at
    fitting = [item for item in left if _fits(item, len(out), size, lead)] or left
    apart = [*filter(is_apart, fitting)] or fitting
    pressing = (item for item in apart if not crowded.isdisjoint(groups.get(item.key, ())))
    return next(pressing, apart[0])


def _mended(order: list[PlanItem], groups: Groups, lead: int) -> Items:
    """Moves each card that clashes with the one before it to the first place where it clashes with none."""
    for place in range(1, len(order)):
        if clash(order[place - 1], order[place], groups):
            order = _moved(order, place, groups, lead)
    return tuple(order)


def _moved(order: list[PlanItem], place: int, groups: Groups, lead: int) -> list[PlanItem]:
    item, rest = order[place], order[:place] + order[place + 1 :]
    if place < len(rest) and clash(rest[place - 1], rest[place], groups):
        return order
    for to in range(1, len(rest)):
        moved = [*rest[:to], item, *rest[to:]]
        apart = not clash(rest[to - 1], item, groups) and not clash(item, rest[to], groups)
        if apart and all(_fits(other, n, len(moved), lead) for n, other in enumerate(moved)):
            return moved
    return order
