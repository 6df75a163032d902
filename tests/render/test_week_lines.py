"""What to teach next, in lines."""

import pytest

from review.core.model import Child, Chosen, Skill
from review.core.teaching import Lesson, Why
from review.render import week_lines
from review.replies import Lessons

MIRA = Child("ab" * 16, "Mira", 8, 0, sets=(Chosen("times-2-5-10", "", ""),))
MORE = "is waiting to be taught. More sets: review set list"


def lessons(*whys: Why) -> list[str]:
    skill = Skill("table-of-2", "The table of 2", "product", "fluency", {})
    found = tuple(Lesson(skill, why, (), (), 0, 0) for why in whys)
    return week_lines.lessons(Lessons(MIRA, found, False), False)


@pytest.mark.parametrize(
    ("whys", "last"),
    [((), f"  Nothing {MORE}"), (("stuck",), f"  Nothing else {MORE}")],
)
def test_who_has_nothing_new_left_is_sent_to_the_list_of_sets(whys: tuple[Why, ...], last: str) -> None:
    assert lessons(*whys)[-1] == last


@pytest.mark.parametrize("whys", [("ready",), ("behind",), ("stuck", "ready")])
def test_while_something_waits_nobody_is(whys: tuple[Why, ...]) -> None:
    assert not any("More sets" in line for line in lessons(*whys))
