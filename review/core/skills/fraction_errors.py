"""What one would write of fractions under an error rule: of a class and a member, rule -> text.

The rules are described in published work, named here from memory:
- tops and bottoms by themselves: Hart 1981, Kerslake 1986; also shaded parts set against the others
- the greater bottom taken as the greater fraction: Behr, Wachsmuth, Post & Lesh 1984; the smaller gap between
  top and bottom: Pearn & Stephens 2004
- the same number added to top and bottom: Hart 1981
- top and bottom written with a point between: Hiebert & Wearne 1986
- wholes left aside, the smaller parts taken from the larger, both multiplied: common practice, no source
What a rule does not show on is left out; what happens to be the right answer is dropped by the kind.
"""

from collections.abc import Mapping
from fractions import Fraction
from math import gcd, lcm

from review.core.skills.amounts import mixed, over, trimmed
from review.core.skills.tasks import Numbers
from review.core.skills.wording import sign_between

Written = Mapping[str, str]

# --- sums and differences -----------------------------------------------------------------------------


def sum_errors(sizes: Numbers, member: Numbers) -> Written:
    """Of a/b + c/d."""
    a, b, c, d = member
    unlike = {"tops_only": over(a + c, max(b, d)), "tops_kept": over(a + c, lcm(b, d))}
    return {"tops_and_bottoms": over(a + c, b + d), **(unlike if b != d else {})}


def difference_errors(sizes: Numbers, member: Numbers) -> Written:
    """Of a/b − c/d. Like bottoms would leave 0 below the line, which nobody writes."""
    a, b, c, d = member
    added = {"added": mixed(a * lcm(b, d) // b + c * lcm(b, d) // d, lcm(b, d))}
    if b == d:
        return added
    apart = {"tops_and_bottoms": over(abs(a - c), abs(b - d)), "tops_only": over(abs(a - c), max(b, d))}
    return added | (apart if a != c else {})


def mixed_sum_errors(sizes: Numbers, member: Numbers) -> Written:
    m, a, b, n, c, d = member
    under = lcm(b, d)
    top = a * under // b + c * under // d
    return {
        "wholes_ignored": mixed(top, under),
        "parts_ignored": str(m + n),
        "tops_and_bottoms": f"{m + n} {over(a + c, b + d)}",
        "whole_left_out": mixed((m + n) * under + top % under, under),
    }


def mixed_difference_errors(sizes: Numbers, member: Numbers) -> Written:
    m, a, b, n, c, d = member
    under = lcm(b, d)
    parts = abs(a * under // b - c * under // d)
    return {
        "wholes_ignored": over(parts, under),
        "parts_ignored": str(m - n),
        "smaller_from_larger": f"{m - n} {over(parts, under)}",
        "not_reduced": mixed((m - n) * under + (a * under // b - c * under // d) % under, under),
    }


def to_one_errors(sizes: Numbers, member: Numbers) -> Written:
    top, under = member
    return {"bottom_dropped": str(under - top)}


def times_errors(sizes: Numbers, member: Numbers) -> Written:
    times, top, under = member
    wide = times * under
    return {"both_multiplied": over(times * top, wide), "bottom_multiplied": over(top, wide)}


# --- compared -----------------------------------------------------------------------------------------


def compare_errors(sizes: Numbers, member: Numbers) -> Written:
    """Of a/b and c/d. A gap is what is missing to one whole, counted in parts of whatever size."""
    a, b, c, d = member
    by_bottom = {"bigger_bottom": sign_between(b, d)} if b != d else {}
    by_top = {"bigger_top": sign_between(a, c)} if a != c else {}
    first, second = Fraction(a, b), Fraction(c, d)
    turned = {"reversed": "<" if first > second else ">"} if first != second else {}
    return {**by_bottom, **by_top, "smaller_gap": sign_between(d - c, b - a), **turned}


# --- equal fractions, and mixed numbers ---------------------------------------------------------------


def finer_top_errors(sizes: Numbers, member: Numbers) -> Written:
    """Of top/under = □/other: 3/4 = 7/8, because 4 and 4 are 8."""
    top, under, other = member
    added = top + other - under
    return {"top_kept": str(top), **({"added_alike": str(added)} if added > 0 else {})}


def finer_under_errors(sizes: Numbers, member: Numbers) -> Written:
    top, under, more = member
    return {"bottom_kept": str(under), "added_alike": str(under + more - top)}


def simplest_errors(sizes: Numbers, member: Numbers) -> Written:
    top, under = member
    by = gcd(top, under)
    return {"top_divided": over(top // by, under), "bottom_divided": over(top, under // by)}


def to_mixed_errors(sizes: Numbers, member: Numbers) -> Written:
    top, under = member
    whole, rest = divmod(top, under)
    return {"wholes_ignored": over(rest, under), "rest_as_bottom": f"{whole} {over(1, rest)}"}


def to_improper_errors(sizes: Numbers, member: Numbers) -> Written:
    whole, top, under = member
    return {
        "wholes_ignored": str(top),
        "whole_added": str(whole + top),
        "whole_times_top": str(whole * top),
        "not_added": str(whole * under),
    }


# --- of a number, in a picture, with a point ----------------------------------------------------------


def of_errors(sizes: Numbers, member: Numbers) -> Written:
    under, number = member[-2:]
    return {"one_part": str(number // under), "bottom_taken_off": str(number - under)}


def shaded_errors(sizes: Numbers, member: Numbers) -> Written:
    top, under = member
    return {"part_to_part": over(top, under - top), "other_part": over(under - top, under)}


def line_errors(sizes: Numbers, member: Numbers) -> Written:
    """Marks counted, the one at 0 too, in place of steps."""
    top, under = member
    return {"marks_counted": over(top + 1, under + 1)}


def to_decimal_errors(sizes: Numbers, member: Numbers) -> Written:
    top, under = member
    return {"point_between": f"{top}.{under}", "bottom_after_point": f"0.{under}"}


def from_decimal_errors(sizes: Numbers, member: Numbers) -> Written:
    """Of the decimal that is top/under: 0.25 as 25/10, or as 1/25."""
    top, under = member
    digits = int(trimmed(top * 1000 // under, 3).partition(".")[2])
    return {"always_tenths": over(digits, 10), "digits_below_one": over(1, digits)}
