"""The same answer is not asked for twice running where the plan has another card near."""

from itertools import pairwise

from review.core.warmup import PlanItem, Sitting
from tests.core.sittings import Played, due, item, play, usual

CARDS = ("difference:11-4", "mental-sum:2+1/regroup-ones", "quotient:45/9", "quantity:dots/1..5",
         "difference:15-8", "quantity:dots/6..10", "quotient:16/2", "bond:10=3+7")  # fmt: skip
COMPARED = ("compare:2/first", "fraction:compare-like/3-4-5-6-8-10")


def of_child(name: int, items: tuple[PlanItem, ...]) -> Sitting:
    return usual(*items)._replace(child=str(name))


def asked(played: Played) -> list[str]:
    return [show.problem.expected for show in played.shows if not show.copying]


def alike(answers: list[str]) -> int:
    return sum(one == other for one, other in pairwise(answers))


def test_no_answer_is_asked_for_twice_running() -> None:
    """Five dots after 45 ÷ 9: the cards share nothing but what they ask that day. Where one is left before
    the last, which stays the last, nothing can be done."""
    played = [play(of_child(n, due(*CARDS))) for n in range(300)]
    assert sum(alike(asked(one)[:-2]) for one in played) == 0
    assert all(len(one.shows) == len(CARDS) + 3 for one in played)  # and none is lost for it
    assert all({*CARDS} <= {*one.cards} for one in played)


def test_they_would_come_in_the_order_of_the_plan() -> None:
    """Of the same sittings one in ten had two: what each card asks does not hang on the order."""
    plain = 0
    for n in range(300):
        shown = {show.problem.card: show.problem.expected for show in play(of_child(n, due(*CARDS))).shows}
        plain += alike([shown[card] for card in CARDS])
    assert plain > 100


def test_no_new_card_is_moved_up_for_it() -> None:
    for n in range(300):
        played = play(of_child(n, (*due(*CARDS[:4]), item("product:7x8", "new"))))
        assert "product:7x8" not in played.cards[:3]


def test_what_has_two_or_three_choices_comes_as_it_falls() -> None:
    """Whoever saw that it never comes twice could answer without a look at the numbers."""
    played = [play(of_child(n, due(*COMPARED, *CARDS[:3]))) for n in range(60)]
    assert all(one.cards[2:4] == [*COMPARED] for one in played)
    twice = sum(alike(asked(one)[2:4]) for one in played)
    assert 10 < twice < 50
