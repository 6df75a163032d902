"""Words for the error rules of fractions, decimals and percents.

The ideas with things to hold are common practice, no source.
"""

from review.core.miss_words.rows import Row

_STRIPS = "Fold paper strips of one length into the parts, and lay them one above the other."
_SAME = "Fold both strips into equal parts first; then count parts of one size."
_BARS = "Draw wholes as bars, cut each into the parts, and count all the parts."
_SHARE = "Share counters out into as many cups as the bottom says, then take as many cups as the top says."
_COLOUR = "Colour a bar: how many parts in all? That is the bottom. How many coloured? That is the top."
_GRID = "Colour it on a grid of a hundred squares: a column is a tenth, a square a hundredth."
_PLACES = "Write the numbers on squared paper, point under point, and fill empty places with 0."
_MOVE = (
    "Lay the digits on a strip with places and slide them: each step makes it ten times as much, or a tenth."
)
_PLACES_FILLED = (
    "Lay tenths and hundredths on a grid of a hundred squares: ten squares are swapped for a column, "
    "ten columns for a whole."
)
_HUNDRED = "Colour it on a grid of a hundred squares: 30% are 30 of each hundred."
_MIXED = (
    "Draw wholes and parts apart, put wholes to wholes and parts to parts; a full bar of parts is a whole."
)

ROWS: tuple[Row, ...] = (
    # --- fractions ---
    ("fraction/add fraction/subtract", "tops_and_bottoms", "work with tops and bottoms by themselves", _SAME),
    ("fraction/add fraction/subtract", "tops_only", "work with the tops and keep one of the bottoms", _SAME),
    ("fraction/add", "tops_kept", "find the new bottom and leave the tops as they were", _SAME),
    (
        "fraction/subtract",
        "added",
        "add where the sign says minus",
        "Ring the sign, and say it as a story: some of the bar is eaten.",
    ),
    (
        "fraction/compare",
        "bigger_bottom",
        "take the fraction with the bigger bottom for the greater",
        _STRIPS,
    ),
    ("fraction/compare", "bigger_top", "take the fraction with the bigger top for the greater", _STRIPS),
    (
        "fraction/compare",
        "smaller_gap",
        "compare by how many parts are missing to one whole, whatever their size",
        _STRIPS,
    ),
    (
        "fraction/compare",
        "reversed",
        "turn the sign round",
        "The open side looks at the longer strip: lay both strips at a paper sign.",
    ),
    ("fraction/equivalent", "added_alike", "add the same to top and bottom", _STRIPS),
    ("fraction/equivalent", "top_kept", "leave the top as it was", _STRIPS),
    ("fraction/equivalent", "bottom_kept", "leave the bottom as it was", _STRIPS),
    ("fraction/simplest", "top_divided", "divide only the top", _STRIPS),
    ("fraction/simplest", "bottom_divided", "divide only the bottom", _STRIPS),
    ("fraction/to", "wholes_ignored", "leave the wholes aside", _BARS),
    ("fraction/to", "rest_as_bottom", "write the parts that are left beneath a 1", _BARS),
    ("fraction/to", "whole_added", "add the wholes to the top", _BARS),
    ("fraction/to", "whole_times_top", "multiply the wholes by the top", _BARS),
    ("fraction/to", "not_added", "count the parts of the wholes and leave out the others", _BARS),
    ("fraction/to", "bottom_dropped", "write the number of parts alone", _BARS),
    ("fraction/times", "both_multiplied", "multiply top and bottom alike", _STRIPS),
    ("fraction/times", "bottom_multiplied", "multiply only the bottom", _STRIPS),
    ("fraction/of", "one_part", "find one part and stop there", _SHARE),
    ("fraction/of", "bottom_taken_off", "take the bottom away from the number", _SHARE),
    ("fraction/shaded", "part_to_part", "set the shaded parts against the others, not against all", _COLOUR),
    ("fraction/shaded", "other_part", "name the part that is not shaded", _COLOUR),
    (
        "fraction/line",
        "marks_counted",
        "count the marks in place of the steps between them",
        "Walk it on a line on the floor: from 0, count steps, not marks.",
    ),
    ("fraction/to", "point_between", "write a point between top and bottom", _GRID),
    ("fraction/to", "bottom_after_point", "write the bottom behind the point", _GRID),
    ("fraction/from", "always_tenths", "write the digits over ten whatever their places", _GRID),
    ("fraction/from", "digits_below_one", "write the digits beneath a 1", _GRID),
    ("fraction/add fraction/subtract", "wholes_ignored", "leave the wholes aside", _MIXED),
    ("fraction/add fraction/subtract", "parts_ignored", "leave the parts aside", _MIXED),
    ("fraction/add", "whole_left_out", "leave out the whole that the parts make", _MIXED),
    (
        "fraction/subtract",
        "smaller_from_larger",
        "take the smaller parts from the larger, whichever stands first",
        _MIXED,
    ),
    ("fraction/subtract", "not_reduced", "exchange a whole for parts without taking it off", _MIXED),
    # --- decimals ---
    (
        "decimal/round",
        "place_small",
        "round to a smaller place than is asked",
        "Mark the two neighbours on a line and ask which one is nearer.",
    ),
    (
        "decimal/round",
        "place_large",
        "round to a larger place than is asked",
        "Mark the two neighbours on a line and ask which one is nearer.",
    ),
    ("decimal/compare", "after_point", "read the digits behind the point as a whole number", _PLACES),
    ("decimal/compare", "first_digit", "compare by the first digit", _PLACES),
    ("decimal/compare", "last_digit", "compare by the last digit", _PLACES),
    ("decimal/compare", "reversed", "turn the order round", _PLACES),
    ("decimal/compare", "longer", "take the longer number for the greater", _PLACES),
    ("decimal/compare", "shorter", "take the shorter number for the greater", _PLACES),
    ("decimal/compare", "point_ignored", "not see the point", _PLACES),
    (
        "decimal/add decimal/subtract",
        "apart_at_point",
        "work on both sides of the point as if they were two whole numbers",
        _PLACES_FILLED,
    ),
    (
        "decimal/add decimal/subtract",
        "lined_up_right",
        "put last digit under last digit, not point under point",
        _PLACES,
    ),
    ("decimal/add", "carry_dropped", "leave out what is carried", _PLACES_FILLED),
    ("decimal/subtract", "not_reduced", "borrow a ten without paying it back", _PLACES_FILLED),
    (
        "decimal/bond",
        "places_to_ten",
        "make each digit up to ten, so that there is one too many of the next place",
        "Colour the known part on a grid of a hundred squares, and count the columns and squares left over.",
    ),
    (
        "decimal/add",
        "took_away",
        "take away where the sign says plus",
        "Ring the sign in colour before each task.",
    ),
    (
        "decimal/subtract",
        "added",
        "add where the sign says minus",
        "Ring the sign in colour before each task.",
    ),
    (
        "decimal/subtract",
        "smaller_from_larger",
        "take the smaller digit from the larger in each place, whichever is above",
        _PLACES,
    ),
    ("decimal/times", "wrong_way", "move the digits the other way", _MOVE),
    ("decimal/times", "power_large", "move the digits one place too far", _MOVE),
    # --- percents ---
    ("percent/from", "point_dropped", "leave the point out", _HUNDRED),
    ("percent/from percent/to", "by_ten", "move one place only", _HUNDRED),
    ("percent/to", "point_in_front", "put the point in front, whatever the places", _HUNDRED),
    ("percent/from", "bottom_itself", "write the bottom as the percent", _HUNDRED),
    ("percent/from", "digits_joined", "write top and bottom side by side", _HUNDRED),
    ("percent/from", "one_part", "find one part and stop there", _HUNDRED),
    ("percent/to", "percent_as_bottom", "write the percent beneath a 1", _HUNDRED),
    ("percent/of", "number_off", "take the percent away as if it were a number", _HUNDRED),
    ("percent/of", "percent_itself", "write the percent as it stands", _HUNDRED),
    ("percent/of", "divided_by_percent", "divide by the percent", _HUNDRED),
    ("percent/of", "rest", "find what is left over", _HUNDRED),
)
