"""The log's other events: what they say of the children, and today's plan as an event."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from typing import Any

from review.core import days
from review.core.amendments import amended
from review.core.model import CHOICES, STANDARD, Child, Chosen, Event, Words
from review.core.warmup import Plan, PlanItem, Suspicion

MINUTES = (1, 30)  # of a warm-up, that a family may choose from


def children(events: Iterable[Event]) -> tuple[Child, ...]:
    """Every child, in the order they were added, as the events up to now leave them."""
    found, last = dict[str, Child](), dict[str, int]()
    for row in amended(events):
        child = found.get(row.child) or Child(row.child, "", 0, row.day)
        found[row.child] = APPLY.get(row.kind, unchanged)(child, row)
        last[row.child] = max(last.get(row.child, 0), row.day)
    days = ((child, max(child.last_day, last[key])) for key, child in found.items())
    known = [child._replace(last_day=day) for child, day in days if child.name]
    return tuple(told_apart(with_words(known)))


def with_words(children: Sequence[Child]) -> list[Child]:
    """All children are told the family's words; one who came from another copy of the book may not have been
    told yet."""
    words = next((child.words for child in children if child.words), {})
    return [child if child.words else child._replace(words=words) for child in children]


def told_apart(children: Iterable[Child]) -> Iterator[Child]:
    """Two copies of a book may each have a child of one name: the later one is told by a number."""
    taken: set[str] = set()
    for child in children:
        names = (child.name, *(f"{child.name} {number}" for number in range(2, 100)))
        name = next((one for one in names if one.casefold() not in taken), child.name)
        taken.add(name.casefold())
        yield child._replace(name=name)


def unchanged(child: Child, event: Event) -> Child:
    return child


PLAIN_FIELDS = ("name", "age", "zone", "untimed", "pace", "mode", "years", "focus", "focus_until")


def profile(child: Child, event: Event) -> Child:
    """A profile event names only what changes. Minutes are in whole seconds: the log has no fractions."""
    body: dict[str, Any] = dict(event.body)
    fields: dict[str, Any] = {name: body[name] for name in PLAIN_FIELDS if name in body}
    if "age" in body:
        fields["age_day"] = event.day
    if "seconds" in body:
        fields["minutes"] = body["seconds"] / 60
    if "likes" in body:
        fields["likes"] = liked({**child.likes, **body["likes"]})
    if "words" in body:
        fields["words"] = {**child.words, **body["words"]}
    return child._replace(**fields)


def liked(likes: Mapping[str, str]) -> dict[str, str]:
    """Likings as kind -> strategy, without those that were taken back, whose strategy is ""."""
    return {kind: strategy for kind, strategy in likes.items() if strategy}


def words_of(child: Child) -> Words:
    """The words the family chose. A choice that only a later version knows is passed over."""
    known = {name: choice for name, choice in child.words.items() if choice in CHOICES.get(name, ())}
    return Words(**known)


def words_of_all(children: Iterable[Child]) -> Words:
    """The words of a family: those of any child, since all are told the same."""
    return next((words_of(child) for child in children), STANDARD)


def as_written(text: str, words: Words) -> str:
    """Numbers and signs as the family writes them."""
    if words == STANDARD:
        return text
    from review.core.house_words import written  # nobody waits for it who chose nothing

    return written(text, words)


def reported(lines: Iterable[str], words: Words) -> list[str]:
    """Lines of a report with their counts and decimals as the family writes numbers."""
    if words == STANDARD:
        return list(lines)
    from review.core import house_words  # likewise

    return [house_words.reported(line, words) for line in lines]


def profile_body(child: Child) -> dict[str, object]:
    return {
        "name": child.name,
        "age": child.age,
        "seconds": round(child.minutes * 60),
        "zone": child.zone,
        "untimed": child.untimed,
        "pace": child.pace,
        **({"mode": child.mode} if child.mode else {}),
        **({"years": child.years} if child.years else {}),
        **({"words": dict(child.words)} if child.words else {}),
    }


def profile_change(child: Child, fields: Iterable[str]) -> dict[str, object]:
    """Some of it, by the names of the child's fields: only what changes is written."""
    whole = {**profile_body(child), "likes": dict(child.likes)}
    return {key: whole[key] for key in ("seconds" if name == "minutes" else name for name in fields)}


def years(children: Iterable[Child]) -> str:
    """Whose school years the family reads. All children are told the same; one who came from another copy of
    the book may not have been told yet. "": nobody chose.
    """
    return next((child.years for child in children if child.years), "")


def taught(child: Child, event: Event) -> Child:
    skills = [str(skill) for skill in _list(event.body, "skills")]
    timed = event.body.get("timed")
    kept = [skill for skill in child.timed if skill not in skills] if timed is False else list(child.timed)
    return child._replace(
        taught=tuple(dict.fromkeys([*child.taught, *skills])),
        timed=tuple(dict.fromkeys([*kept, *(skills if timed is True else [])])),
    )


def set_add(child: Child, event: Event) -> Child:
    body = event.body
    new = Chosen(str(body["set"]), str(body.get("aim", "")), str(body.get("text", "")))
    if any(chosen.set_id == new.set_id for chosen in child.sets):  # given again: it keeps its place
        return child._replace(sets=tuple(new if old.set_id == new.set_id else old for old in child.sets))
    return child._replace(sets=(*child.sets, new))


def set_drop(child: Child, event: Event) -> Child:
    return child._replace(sets=tuple(chosen for chosen in child.sets if chosen.set_id != event.body["set"]))


def away(child: Child, event: Event) -> Child:
    span = (int(str(event.body["from"])), int(str(event.body["to"])))
    return child._replace(away=(*child.away, span))


APPLY: Mapping[str, Callable[[Child, Event], Child]] = {
    "profile": profile,
    "taught": taught,
    "set_add": set_add,
    "set_drop": set_drop,
    "away": away,
}


def away_until(child: Child, day: int) -> int:
    """The last of the days off that a day belongs to, one span after the other; 0 where it is none."""
    last = day - 1
    while to := max((to for start, to in child.away if start <= last + 1 <= to), default=0):
        last = to
    return last if last >= day else 0


ALOUD_UNDER = 8
"""Below this age keys and reading cost a child more than the sum does (our judgement)."""


def age_on(child: Child, day: int) -> int:
    """Whole years on that day, counted from the day it was said: birthdays are not asked for."""
    said = days.date_of(max(1, child.age_day))
    now = max(said, days.date_of(day))
    return child.age + now.year - said.year - ((now.month, now.day) < (said.month, said.day))


def is_aloud(child: Child, age: int) -> bool:
    """Whether a parent usually reads out and keys what comes: as the family chose, else by age."""
    return age < ALOUD_UNDER if not child.mode else child.mode == "aloud"


# --- today's plan as an event --------------------------------------------------------------------------


def sitting_body(plan: Plan) -> dict[str, object]:
    """The plan in whole numbers. What says nothing is left out: every day has a plan, and most are long."""
    planned = [item.key for item in (*plan.items, *plan.reserve)]
    told = plan.timed == tuple(key for key in planned if key in plan.timed)  # where they stand
    timed = frozenset(plan.timed if told else ())
    may_lack: dict[str, object] = {
        "reserve": [_written(item, timed) for item in plan.reserve],
        "pace": plan.pace,
        "waiting": plan.waiting,
        "too_much": plan.too_much,
        "timed": [] if told else list(plan.timed),
        "copy_ms": list(plan.copy_ms),
        "slow_ms": plan.slow_ms,
        "alone": plan.alone,
        "likes": dict(plan.likes),
        "suspected": _suspected_body(plan),
    }
    return {
        "seconds": round(plan.minutes * 60),
        "items": [_written(item, timed) for item in plan.items],
        **{name: value for name, value in may_lack.items() if value},
    }


def sitting_plan(event: Event) -> Plan:
    return sitting_plan_of(event.day, event.body)


def sitting_plan_of(day: int, body: Mapping[str, object]) -> Plan:
    return Plan(
        day,
        int(str(body["seconds"])) / 60,
        tuple(_item(row) for row in _list(body, "items")),
        tuple(_item(row) for row in _list(body, "reserve")),
        int(str(body.get("pace", 0))),
        int(str(body.get("waiting", 0))),
        bool(body.get("too_much", False)),
        tuple(_timed(body)),
        tuple(int(str(ms)) for ms in _list(body, "copy_ms")) if "copy_ms" in body else (),
        int(str(body.get("slow_ms", 0))),
        bool(body.get("alone", False)),
        {str(kind): str(strategy) for kind, strategy in _table(body, "likes").items()},
        _suspected(body.get("suspected")),
    )


def _suspected_body(plan: Plan) -> dict[str, object]:
    return {card: [list(rule) for rule in rules] for card, rules in plan.suspected.items()}


def _suspected(body: Any) -> dict[str, Suspicion]:
    return {
        str(card): tuple((str(rule), int(chance)) for rule, chance in rules)
        for card, rules in (body or {}).items()
    }


def promised(body: Mapping[str, object]) -> Iterator[tuple[str, float]]:
    """What a plan promised, by card, without making the plan; a card never measured was promised nothing."""
    for key, _, _, recall in map(_parts, _planned(body)):
        if recall >= 0:
            yield key, recall / 1_000_000


TIMED = "timed"


def _written(item: PlanItem, timed: Collection[str]) -> str:
    """A line of the plan: the card, why it comes, the milliseconds expected, its recall in millionths where
    it was ever measured, and whether its time counts. As a list it took more room."""
    recall = [] if item.recall is None else [round(item.recall * 1_000_000)]
    marked = [TIMED] if item.key in timed else []
    return " ".join(map(str, (item.key, item.why, round(item.seconds * 1000), *recall, *marked)))


def _parts(row: Any) -> tuple[str, Any, int, int]:
    """The card, why, milliseconds, millionths (-1: never measured): from a line, or from the list that it was
    up to version 2 of the schema."""
    if not isinstance(row, str):
        key, why, milliseconds, recall = row
        return key, why, milliseconds, recall
    key, why, milliseconds, *rest = row.removesuffix(f" {TIMED}").split(" ")
    return key, why, int(milliseconds), int(rest[0]) if rest else -1


def _item(row: Any) -> PlanItem:
    key, why, milliseconds, recall = _parts(row)
    return PlanItem(key, why, milliseconds / 1000, None if recall < 0 else recall / 1_000_000)


def _timed(body: Mapping[str, object]) -> Iterator[str]:
    """The cards whose time counts: those that say so, or the list they stood in."""
    yield from map(str, _list(body, "timed"))
    yield from (row.split(" ", 1)[0] for row in _planned(body) if str(row).endswith(f" {TIMED}"))


def _planned(body: Mapping[str, object]) -> list[Any]:
    return [*_list(body, "items"), *_list(body, "reserve")]


def _table(body: Mapping[str, object], name: str) -> Mapping[Any, Any]:
    value = body.get(name, {})
    return value if isinstance(value, Mapping) else {}


def _list(body: Mapping[str, object], name: str) -> list[Any]:
    value = body.get(name, [])
    return list(value) if isinstance(value, (list, tuple)) else []
