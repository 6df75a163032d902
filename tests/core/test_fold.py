"""What always holds of the fold, whatever was answered, taken back or put right."""

from itertools import pairwise
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from review.core import memory
from review.core.amendments import place
from review.core.model import MARKS, CardMemory, Event, Habits
from tests.core.stock import DAY, event, plain, row, told


@st.composite
def logs(draw: st.DrawFn) -> list[Event]:
    """Some weeks of a child's answers on two devices, of two cards."""
    events, seqs = [], {1: 0, 2: 0}
    day = DAY
    for _ in range(draw(st.integers(0, 14))):
        day += draw(st.sampled_from([0, 0, 1, 2, 6, 25]))
        device = draw(st.sampled_from([1, 2]))
        seqs[device] += 1
        events.append(
            told(
                seqs[device],
                day,
                draw(st.sampled_from(MARKS)),
                draw(st.sampled_from(["ask", "ask", "intro", "copy", "probe"])),
                aim=draw(st.sampled_from(["accuracy", "fluency", "familiarity"])),
                help=draw(st.sampled_from(["", "question", "picture"])),
                slow_ms=draw(st.sampled_from([0, 3000])),
                age=draw(st.sampled_from([6, 9])),
                key=draw(st.sampled_from(["sum:1+1", "sum:2+2"])),
                device=device,
            )
        )
    return events


@settings(deadline=None)
@given(logs(), st.randoms(use_true_random=False))
def test_the_fold_is_repeated_steps_in_any_order(events: list[Event], random: object) -> None:
    stepped, ways = dict[str, CardMemory](), Habits()
    for one in sorted(events, key=place):
        ways, stepped[one.card] = memory.follow(ways, stepped.get(one.card), one, plain)
    shuffled = list(events)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    assert memory.remembered(shuffled, plain) == memory.remembered(events, plain) == (stepped, ways)


@settings(deadline=None)
@given(logs(), st.data())
def test_undone_rows_are_as_if_never_given(events: list[Event], data: st.DataObject) -> None:
    gone = (
        data.draw(st.lists(st.sampled_from(events), unique_by=lambda e: (e.device, e.seq))) if events else []
    )
    undos = [event(900 + n, DAY + 99, "undo", {"device": e.device, "seq": e.seq}) for n, e in enumerate(gone)]
    assert memory.fold([*undos, *events], plain) == memory.fold([e for e in events if e not in gone], plain)


@settings(deadline=None)
@given(logs())
def test_what_always_holds_of_memory(events: list[Event]) -> None:
    ordered = sorted(events, key=place)
    seen = [memory.fold(ordered[:n], plain).get("sum:1+1") for n in range(len(events) + 1)]
    for known in filter(None, seen):
        assert (known.stability is None) == (known.difficulty is None)
        assert known.stability is None or known.stability >= 0.001
        assert known.stability == (known.stability and round(known.stability, 6))
        assert known.difficulty is None or 1 <= known.difficulty <= 10
        assert known.right_days <= known.tries
        assert known.right <= known.tries
    assert all(a is None or (b is not None and b.tries >= a.tries) for a, b in pairwise(seen))


# --- from a place in the log on ---

ROWS = st.lists(
    st.tuples(
        st.integers(0, 6),  # days after the first
        st.sampled_from(["sum:1+1", "sum:2+2", "product:6x7"]),
        st.sampled_from(MARKS),
        st.sampled_from([800, 2500, 5000, 9000]),
        st.sampled_from(["ask", "ask", "intro", "copy"]),
    ),
    min_size=1,
    max_size=25,
)


@given(ROWS, st.lists(st.tuples(st.sampled_from(["undo", "correct"]), st.integers(0, 24)), max_size=4))
@settings(max_examples=150, deadline=None)
def test_from_a_morning_on_it_is_the_same_as_from_the_beginning(
    rows: list[tuple[int, str, Any, int, Any]], amends: list[tuple[str, int]]
) -> None:
    """Bit for bit, whatever of the last day was taken back or put right."""
    answers = [
        told(n, DAY + day, mark, role, aim="fluency", slow_ms=3000, end_ms=ms, key=key)
        for n, (day, key, mark, ms, role) in enumerate(sorted(rows))
    ]
    last = answers[-1].day
    todays = [one for one in answers if one.day == last]
    said = [
        event(100 + n, last, kind, {"device": 1, "seq": todays[place % len(todays)].seq})
        for n, (kind, place) in enumerate(amends)
    ]
    morning = memory.remembered([one for one in answers if one.day < last])
    whole = memory.remembered([*answers, *said])
    assert memory.remembered_on(morning, [*answers, *said]) == whole
    assert memory.remembered_on(morning, [*todays, *said]) == whole


def test_the_one_total_order() -> None:
    """Day, then instant, then device, then sequence: each outweighs all that follow it."""
    rows = [
        row(seq, day, {}, device=device)._replace(at_ms=at)
        for day in (1, 2) for at in (1, 2) for device in (1, 2) for seq in (1, 2)
    ]  # fmt: skip
    assert sorted(sorted(rows, key=lambda one: one[::-1]), key=place) == rows
