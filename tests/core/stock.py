"""Small cards and events of the tests' own, so that what is tested here stands without any kind of skill."""

from typing import Literal

from review.core.answer_bodies import answer_body
from review.core.model import Aim, Answer, Card, CardMemory, Event, Habits, Mark, Role, Traits

DAY = 739_000
DAY_MS = 86_400_000
UNCORRECTED = Habits(weights=(0.0,) * 5)  # of a child for whom the forgetting curve is right as it is


def card(number: int, aim: Aim = "accuracy", kind: str = "sum", skill: str = "sums") -> Card:
    return Card(f"{kind}:1+{number}", kind, skill, "set", aim, number)


def plain(key: str) -> Traits:
    return Traits(key, True, 5.0)


def row(seq: int, day: int, body: dict[str, object], key: str = "sum:1+1", device: int = 1) -> Event:
    at = day * DAY_MS + seq
    return Event(device, seq, "child", "answer", day, at, at, 0, key, body)


def told(
    seq: int,
    day: int,
    mark: Mark = "right",
    role: Role = "ask",
    *,
    aim: Aim = "accuracy",
    age: int = 9,
    help: str = "",
    slow_ms: int = 0,
    end_ms: int = 2500,
    copy_ms: int = 1500,
    recalled: Literal["", "yes", "no"] = "",
    key: str = "sum:1+1",
    asked: str = "1+1",
    device: int = 1,
) -> Event:
    """An answer event with that mark."""
    answer = Answer(
        key, asked, "2", "2", mark, role, 900, end_ms, help, aim=aim, age=age, copy_ms=copy_ms,
        slow_ms=slow_ms, recalled=recalled,
    )  # fmt: skip
    return row(seq, day, dict(answer_body(answer)), key, device)


def event(seq: int, day: int, kind: str, body: dict[str, object], device: int = 1) -> Event:
    return row(seq, day, body, "", device)._replace(kind=kind)  # type: ignore[arg-type]


def grown(key: str, stability: float, last_day: int, gap: int = 1, **fields: object) -> CardMemory:
    """A measured card, seen last on its last day."""
    memory = CardMemory(
        key, stability, 5.0, last_day, met_day=last_day - gap, seen_day=last_day, gap=gap, tries=3, right=3,
        right_days=3, last_mark="right",
    )  # fmt: skip
    return memory._replace(**fields)  # type: ignore[arg-type]
