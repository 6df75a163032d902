"""Words for the error rules of sums in columns, in the head, and in stories.

The ideas with things to hold are common practice, no source.
"""

from review.core.miss_words.rows import Row

_MAT = "On a mat with places, put the ones together first; ten of them go back to the box for one ten."
_BORROW = (
    "Build the upper number on a mat with places. To take more ones than there are, bring a ten over "
    "and swap it for ones: one ten less, ten ones more."
)
_ZERO = (
    "Build a number like 304 on the mat: no tens to fetch from. Fetch a hundred, make it ten tens, "
    "leave nine there, make one into ones."
)
_LINE = "Draw an empty number line. Jump the tens first, then the ones, and write each stop."
_NEXT_TEN = (
    "Lay the round number on the line, then ask: did we jump too far, or not far enough? Mend it by "
    "that much."
)
_AREA = (
    "Draw a rectangle, cut it into tens and ones, write each part's product inside, then put the "
    "parts together."
)
_SIGN = "Ring the sign in colour, and say the task as a small story before reckoning."
_NOUGHTS = (
    "Say it in tens: four tens times seven are 28 tens. Lay the tens out, then write what 28 tens make."
)
_SHARE = "Share tens first, swap the tens that are left for ones, then share the ones."
_REST = "Share counters into cups. The ones that do not fill a cup lie beside: say cups and rest."
_STORY = (
    "Act the story with counters before any number is written. What happens: more, fewer, or equal groups?"
)

ROWS: tuple[Row, ...] = (
    # --- in columns ---
    ("column-sum", "sums_whole", "write each column's sum whole, side by side", _MAT),
    (
        "column-sum",
        "digits_added",
        "add all the digits together, whatever their place",
        "Build both numbers with tens and ones. Ask what the 4 of 47 is worth before adding anything.",
    ),
    (
        "column-sum",
        "carry_always",
        "carry one into every column, needed or not",
        "On the mat, swap only when ten ones lie there. No ten ones: nothing to carry.",
    ),
    (
        "column-sum",
        "ones_to_all",
        "add the one-digit number to every digit",
        "Build both numbers on the mat: ones go only to ones. Are there any tens to add?",
    ),
    (
        "column-sum",
        "carry_far",
        "put what is carried one place too far to the left",
        "Swap ten ones on the mat for a ten and lay it where it belongs: right beside the ones.",
    ),
    ("column-sum", "carry_dropped", "leave out what is carried", _MAT),
    (
        "column-sum",
        "wrong_digit",
        "write the ten and carry the ones",
        "Lay the twelve as one ten and two ones: which may stay in the ones place?",
    ),
    ("column-sum", "took_away", "take away where the sign says plus", _SIGN),
    ("column-difference", "added", "add where the sign says minus", _SIGN),
    ("column-sum", "left_to_right", "work from the left, and carry to the right", _MAT),
    (
        "column-difference",
        "smaller_from_larger",
        "take the smaller digit from the larger in each column, whichever is above",
        _BORROW,
    ),
    ("column-difference", "not_reduced", "borrow a ten without paying it back", _BORROW),
    ("column-difference", "across_zero", "borrow past a zero, which stays a zero", _ZERO),
    (
        "column-difference",
        "from_zero",
        "make a nine of a zero, and take nothing from the place before it",
        _ZERO,
    ),
    ("column-difference", "stops_at_zero", "borrow from a zero and leave it a zero", _ZERO),
    (
        "column-difference",
        "zero_takes_n",
        "write the lower digit where the upper one is 0",
        (
            "Build the upper number on the mat and look at the empty place: can we take from nothing? "
            "Then fetch from the place before it."
        ),
    ),
    ("column-difference", "zero_for_short", "write 0 where the upper digit is too small", _BORROW),
    (
        "column-difference",
        "borrow_always",
        "borrow in every column, needed or not",
        "Before each column ask: is there enough here? Swap on the mat only where there is not.",
    ),
    ("column-difference", "leftmost", "borrow from the place furthest left, not from the next one", _BORROW),
    (
        "column-product",
        "carry_dropped",
        "leave out what is carried",
        "Write each part of the product whole under the other, 28 and 140, and add them: nothing is lost.",
    ),
    ("column-product", "whole", "write each digit's product whole, side by side", _AREA),
    (
        "column-product",
        "carry_first",
        "add what is carried before multiplying",
        "Say it in order, pointing: times first, then add the small one above.",
    ),
    ("column-product", "ones_only", "multiply the ones only, and copy the other digits", _AREA),
    (
        "column-product",
        "wrong_digit",
        "write the tens and carry the ones",
        "Lay the 28 as two tens and eight ones: which may stay in the ones place?",
    ),
    ("column-product", "same_place", "add all digit products as if they were ones", _AREA),
    (
        "column-product",
        "zero_n",
        "take 0 times a number for the number",
        "Count plates with nothing on them: five plates of none. How many are there?",
    ),
    ("column-product mental-product", "added", "add where times is meant", _SIGN),
    (
        "division-written word-problem/share word-problem/measure",
        "step_short",
        "stop one step too early when dividing",
        _SHARE,
    ),
    (
        "division-written word-problem/share word-problem/measure",
        "step_over",
        "go one step too far when dividing",
        _SHARE,
    ),
    (
        "division-written mental-quotient word-problem/share word-problem/measure",
        "took_away",
        "take the numbers from each other in place of dividing",
        _REST,
    ),
    (
        "division-written mental-quotient word-problem/share word-problem/measure",
        "divisor",
        "give the number back that it is divided by",
        _REST,
    ),
    ("division-written", "remainder_dropped", "leave the remainder out", _REST),
    (
        "division-written",
        "to_next",
        "write how much is missing to the next full share, in place of the remainder",
        _REST,
    ),
    # --- in the head ---
    (
        "mental-sum word-problem/join word-problem/take word-problem/combine word-problem/compare",
        "ten_dropped",
        "lose a ten when the ones pass ten",
        _LINE,
    ),
    ("mental-sum", "ten_extra", "add a ten too many", _LINE),
    ("mental-sum mental-difference", "wrong_way", "round, and then adjust the other way", _NEXT_TEN),
    ("mental-sum mental-product", "not_adjusted", "round, and leave the rounding in", _NEXT_TEN),
    ("mental-sum mental-difference", "ones_left_out", "leave out the ones of the second number", _LINE),
    ("mental-sum mental-difference", "tens_left_out", "leave out the tens of the second number", _LINE),
    ("mental-sum", "one_short", "end one short, counting the number one starts from", _LINE),
    ("mental-sum", "one_over", "count one too many", _LINE),
    ("mental-sum", "took_away", "take away where the sign says plus", _SIGN),
    ("mental-difference", "ten_kept", "end a ten too high where the ones do not suffice", _LINE),
    ("mental-difference", "one_short", "end one short, counting the number one starts from", _LINE),
    ("mental-difference", "added", "add where the sign says minus", _SIGN),
    ("mental-product", "first_part_only", "multiply the tens only, and add the ones as they are", _AREA),
    ("mental-product", "last_part_only", "multiply the ones only, and add the tens as they are", _AREA),
    ("mental-product", "rest_left_out", "multiply the tens, and leave the ones out", _AREA),
    ("mental-product mental-quotient", "zero_dropped", "drop a nought", _NOUGHTS),
    ("mental-product mental-quotient", "zero_extra", "write a nought too many", _NOUGHTS),
    (
        "mental-product",
        "adjusted_once",
        "round, and adjust once where it must be adjusted as many times",
        "Lay three rows of 30 counters or beads and take one from each row: how many came away?",
    ),
    # --- in stories ---
    ("word-problem/groups", "added", "add the numbers of a story of equal groups", _STORY),
    ("word-problem/groups", "doubled_only", "double once where there are more groups", _STORY),
    ("word-problem/rest", "step_short", "stop one group too early", _REST),
    ("word-problem/rest", "step_over", "go one group too far", _REST),
    (
        "word-problem/rest",
        "remainder_dropped",
        "leave out the group that is not full",
        "Act it: everybody must have a place. Where do those sit who are left over?",
    ),
    (
        "word-problem/rest",
        "to_next",
        "say how many are missing to a full group, in place of how many are left",
        _REST,
    ),
    (
        "word-problem/take word-problem/combine word-problem/compare word-problem/join",
        "added",
        "add where something is taken, missing or compared",
        _STORY,
    ),
    (
        "word-problem/join word-problem/combine word-problem/compare word-problem/take",
        "took_away",
        "take away where things come together",
        _STORY,
    ),
    (
        "word-problem/join word-problem/combine word-problem/compare word-problem/take",
        "one_short",
        "end one short (counting)",
        _LINE,
    ),
    (
        "word-problem/join word-problem/combine word-problem/compare word-problem/take",
        "one_over",
        "end one too high (counting)",
        _LINE,
    ),
    (
        "word-problem/take word-problem/compare word-problem/combine word-problem/join",
        "ten_kept",
        "end a ten too high where the ones do not suffice",
        _LINE,
    ),
)
