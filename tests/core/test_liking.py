"""Which way help follows, and the question which one a child likes."""

from collections import Counter
from collections.abc import Sequence
from random import Random

import pytest

from review.core import family, liking, sayings, session, skills
from review.core.model import Answer
from review.core.queue import State
from review.core.warmup import (
    AskHelp,
    AskLiked,
    Effect,
    End,
    Heard,
    Helped,
    PassOn,
    Plan,
    Record,
    Say,
    Show,
    Sitting,
    Stop,
    Typed,
)
from tests.core.sittings import PROCEDURE, due, play, right, usual

NEAR = "mental-sum:2+2/near-ten"


def a_sitting(*keys: str, book: str = "a-book", age: int = 9, person: bool = True) -> Sitting:
    sitting = usual(*due(*(keys or (NEAR,))), age=age)
    return sitting._replace(book=book, person=person)


def hear(state: State, *many: Heard) -> tuple[State, list[Effect]]:
    effects: list[Effect] = []
    for heard in many:
        state, said = session.step(state, heard)
        effects += said
    return state, effects


def with_help(sitting: Sitting, steps: int = 1) -> tuple[State, list[Effect]]:
    """Every procedure is answered as it should be, with help, until a question comes or the end."""
    state, effects = session.start(sitting)
    everything = list(effects)
    while not state.ended and not isinstance(everything[-1], AskLiked):
        show = next(effect for effect in reversed(everything) if isinstance(effect, Show))
        presses = [AskHelp()] * steps if ":" in show.problem.card and not fact(show) else []
        state, said = hear(state, *presses, *right(show))
        everything += said
    return state, everything


def fact(show: Show) -> bool:
    return skills.traits(show.problem.card).fact


def asking(**options: object) -> tuple[Sitting, State, AskLiked]:
    """The first book of which it is drawn that the child is asked."""
    for n in range(200):
        sitting = a_sitting(book=f"book-{n}", **options)  # type: ignore[arg-type]
        state, effects = with_help(sitting)
        if isinstance(effects[-1], AskLiked):
            return sitting, state, effects[-1]
    raise AssertionError("never asked")


def kept(effects: Sequence[Effect]) -> list[Answer]:
    return [effect.answer for effect in effects if isinstance(effect, Record)]


# --- when it is asked ---------------------------------------------------------------------------------


def asked_in(many: int, **options: object) -> int:
    found = (with_help(a_sitting(book=f"book-{n}", **options))[1][-1] for n in range(many))  # type: ignore[arg-type]
    return sum(isinstance(effect, AskLiked) for effect in found)


def test_it_is_asked_of_about_half_the_occasions() -> None:
    """Of 200 draws with a chance of a half, five standard deviations (7.1) to either side."""
    assert 100 - 36 <= asked_in(200) <= 100 + 36


def test_a_liking_makes_it_rare() -> None:
    liked = a_sitting()
    liked = liked._replace(plan=liked.plan._replace(likes={"mental-sum": "rounding"}))
    found = (with_help(liked._replace(book=f"book-{n}"))[1][-1] for n in range(200))
    assert 0 < sum(isinstance(effect, AskLiked) for effect in found) <= 20 + 22


@pytest.mark.parametrize("options", [{"age": 6}, {"person": False}])
def test_neither_a_child_of_six_nor_a_program_is_asked(options: dict[str, object]) -> None:
    assert asked_in(40, **options) == 0


def test_nobody_is_asked_without_help_or_without_two_ways() -> None:
    for n in range(40):
        plain = play(a_sitting(book=f"book-{n}"))
        assert not any(isinstance(effect, AskLiked) for effect in plain.effects)
        units = with_help(a_sitting("mental-sum:3+3/all-hundreds", book=f"book-{n}"))[1]
        assert not any(isinstance(effect, AskLiked) for effect in units)


def test_once_a_sitting_at_most_also_where_nothing_was_chosen() -> None:
    for n in range(40):
        keys = (NEAR, PROCEDURE, "mental-sum:2+2/regroup-both", "mental-difference:2-2/near-ten")
        state, effects = with_help(a_sitting(*keys, book=f"book-{n}"))
        while not state.ended:
            assert isinstance(effects[-1], AskLiked)
            state, said = hear(state, Typed(""))
            effects += said
            while not state.ended and not isinstance(effects[-1], AskLiked):
                show = next(effect for effect in reversed(effects) if isinstance(effect, Show))
                state, said = hear(state, *([] if fact(show) else [AskHelp()]), *right(show))
                effects += said
        assert sum(isinstance(effect, AskLiked) for effect in effects) <= 1


# --- what is asked and kept ---------------------------------------------------------------------------


def test_two_ways_in_plain_words_with_their_steps() -> None:
    _, state, asked = asking()
    assert state.turn
    assert state.turn.waiting
    assert asked.text == sayings.WHICH_WAY
    (first, steps), (second, others) = asked.ways
    assert first != second
    assert steps != others
    problem = skills.problem(NEAR, state.turn.asked)
    assert steps == problem.helps[-1].text  # the way that was followed comes first
    assert all(text.split(" ")[-1] == problem.expected for text in (steps, others))


@pytest.mark.parametrize(("text", "place"), [("1", 0), (" 2 ", 1), ("", None), ("3", None), ("both", None)])
def test_a_number_chooses_and_anything_else_leaves_it_open(text: str, place: int | None) -> None:
    _, state, _ = asking()
    assert state.turn
    ways = state.turn.offered
    after, effects = hear(state, Typed(text))
    (row,) = kept(effects)
    assert row.liked == ("" if place is None else ways[place])
    assert (row.mark, row.help) == ("right", "question")
    assert isinstance(effects[0], Record)  # before anything is said
    assert after.likes == ({} if place is None else {"mental-sum": row.liked})


@pytest.mark.parametrize("heard", [AskHelp(), PassOn(10)])
def test_help_and_pass_are_no_choice(heard: Heard) -> None:
    _, state, _ = asking()
    (row,) = kept(hear(state, heard)[1])
    assert row.liked == ""


def test_a_stop_keeps_the_answer() -> None:
    _, state, _ = asking()
    state, effects = hear(state, Stop())
    (row,) = kept(effects)
    assert (row.liked, row.mark) == ("", "right")
    assert isinstance(effects[-1], End)


def test_the_chosen_way_is_followed_at_once_and_after_a_stop() -> None:
    """Also in the worked steps a miss is answered with."""
    for n in range(40):
        sitting = a_sitting(NEAR, PROCEDURE, book=f"book-{n}")
        state, effects = with_help(sitting)
        if state.ended or state.turn is None or state.turn.offered[1] != "rounding":
            continue
        state, said = hear(state, Typed("2"))
        rows = kept([*effects, *said])
        again, _ = session.start(sitting, rows)
        assert again == state
        one = skills.problem(NEAR, "58+27")
        assert liking.helps(again, one) == skills.helps(one, liked="rounding") != one.helps
        return
    raise AssertionError("never offered")


def test_what_was_liked_before_leads_help_and_lesson() -> None:
    sitting = a_sitting()
    liked = sitting._replace(plan=sitting.plan._replace(likes={"mental-sum": "partitioning"}))
    for of, strategy in ((sitting, None), (liked, "partitioning")):
        state, effects = session.start(of)
        while (show := effects[-1]) and isinstance(show, Show) and show.problem.card != NEAR:
            state, effects = session.step(state, *right(show))
        assert isinstance(show, Show)
        drawn = skills.problem(show.problem.card, show.problem.asked)
        wanted = skills.helps(drawn, liked=strategy or "")
        shown = [
            effect.help for effect in hear(state, *[AskHelp()] * len(wanted))[1] if isinstance(effect, Helped)
        ]
        assert shown == list(wanted)
        (said,) = [effect for effect in hear(state, Typed("1"))[1] if isinstance(effect, Say)]
        assert said.text == f"{wanted[-1].text}\n{show.problem.told}"


def test_help_keeps_to_what_the_skill_names() -> None:
    sitting = a_sitting()
    card = sitting.cards[NEAR]._replace(strategies=("counting-on",))
    state, _ = session.start(sitting._replace(cards={**sitting.cards, NEAR: card}))
    one = skills.problem(NEAR, "58+27")
    assert liking.helps(state, one)[-1].text == "58 + 20 = 78\n78 + 7 = 85"
    row = Answer(NEAR, "58+27", "85", "85", "right_helped", help="steps")
    assert liking.offered(state, row, Random(1)) == ()  # there is nothing to choose


def test_every_other_way_is_offered_now_and_then() -> None:
    state, _ = session.start(a_sitting())
    row = Answer(NEAR, "58+27", "85", "85", "right_helped", help="question")
    found = Counter(liking.offered(state, row, Random(n)) for n in range(400))
    others = {name for pair in found if pair for name in pair[1:]}
    assert others == {"partitioning", "counting-on", "bridging", "rounding"}
    assert {pair[0] for pair in found if pair} == {"compensating"}


# --- the log ------------------------------------------------------------------------------------------


def test_the_plan_keeps_what_was_liked_when_the_day_began() -> None:
    plan = Plan(739_000, 5.0, (), likes={"sum": "make-ten"})
    assert family.sitting_plan_of(739_000, family.sitting_body(plan)) == plan
    assert "likes" not in family.sitting_body(Plan(739_000, 5.0, ()))


def test_an_answer_says_what_is_liked_of_its_kind() -> None:
    row = Answer(NEAR, "58+27", "85", "85", "right_helped", liked="rounding")
    assert liking.liked_in(row) == {"mental-sum": "rounding"}
    assert liking.liked_in(row._replace(liked="")) == {}
