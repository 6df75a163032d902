"""What one would write of measures of shapes under an error rule: of a member of a class, rule -> text.

Perimeter and area taken for each other, and only the sides that are told added up: Hart 1981, Kouba et al.
1988 (from memory). One layer of a box, its sides added, another total of angles: common practice, no source.
What happens to be the right answer is dropped by the kind.
"""

from collections.abc import Callable, Mapping

from review.core.skills.tasks import Numbers

Written = Mapping[str, str]


def _above_zero(**found: int) -> Written:
    return {rule: str(value) for rule, value in found.items() if value > 0}


def perimeter_errors(sizes: Numbers, member: Numbers) -> Written:
    long, short = member
    return _above_zero(area_for_around=long * short, half_around=long + short)


def square_perimeter_errors(sizes: Numbers, member: Numbers) -> Written:
    (side,) = member
    return _above_zero(area_for_around=side * side, half_around=2 * side)


def area_errors(sizes: Numbers, member: Numbers) -> Written:
    long, short = member
    return _above_zero(around_for_area=2 * (long + short), sides_added=long + short)


def square_area_errors(sizes: Numbers, member: Numbers) -> Written:
    (side,) = member
    return _above_zero(around_for_area=4 * side, sides_added=2 * side)


def side_of_area_errors(sizes: Numbers, member: Numbers) -> Written:
    known, other = member
    area = known * other
    halved = {} if area % 2 else _above_zero(around_for_area=area // 2 - known)
    return {**_above_zero(took_away=area - known), **halved}


def side_of_perimeter_errors(sizes: Numbers, member: Numbers) -> Written:
    known, other = member
    around = 2 * (known + other)
    shared = {} if around % known else _above_zero(area_for_around=around // known)
    return {**_above_zero(one_side_taken=around - known, not_halved=around - 2 * known), **shared}


def volume_errors(sizes: Numbers, member: Numbers) -> Written:
    long, deep, high = member
    faces = 2 * (long * deep + long * high + deep * high)
    return _above_zero(sides_added=long + deep + high, one_layer=long * deep, faces_for_inside=faces)


def angle_errors(total: int, other: int) -> Callable[[Numbers, Numbers], Written]:
    """`other`: the total it is taken for, a full turn for a line and the reverse."""

    def errors(sizes: Numbers, member: Numbers) -> Written:
        given = sum(member)
        second = {"second_ignored": total - member[0]} if len(member) > 1 else {}
        return _above_zero(other_total=other - given, added=given if second else 0, **second)

    return errors
