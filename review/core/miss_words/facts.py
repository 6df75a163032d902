"""Words for the error rules of facts: what seems to happen, and what to do at the table.

The ideas with things to hold are common practice, no source.
"""

from review.core.miss_words.rows import Row

_NEXT = (
    "Put out the first number of counters and cover them. Say that number, then touch and count only "
    "the new ones."
)
_PARTS = (
    "Put out the whole in counters, hide one part under a cup, and ask how many are hidden. Lift it and look."
)
_SIGN = "Say the task as a small story and let it be acted with counters before anything is written."
_ROWS = "Lay the product as rows of counters and say it: so many rows of so many."
_SHARE = "Deal counters out in equal rows, and say what is asked: how many rows, or how many in a row?"

ROWS: tuple[Row, ...] = (
    # --- sums and differences ---
    (
        "sum difference/missing",
        "counted_first",
        "count the first number again when counting on, and end one short",
        _NEXT,
    ),
    ("sum difference/missing", "one_over", "count one too many when counting on", _NEXT),
    (
        "sum difference/missing",
        "next_number",
        "say the number that follows the last one, without adding",
        "Let two small heaps be pushed together and counted as one, then say the sum over them.",
    ),
    (
        "sum",
        "took_away",
        "take away where the sign says plus",
        f"Ring the sign in colour before each task. {_SIGN}",
    ),
    (
        "difference/missing",
        "took_away",
        "take the two numbers that stand there from each other, where the missing one is the larger",
        (
            "Act it: some were there, some were taken, these are left. Put the taken ones back and "
            "look how many there were."
        ),
    ),
    (
        "sum difference/missing",
        "multiplied",
        "multiply where a sum is meant",
        "Put plus and times tasks side by side with counters: two heaps pushed together, or so many rows.",
    ),
    (
        "sum difference/missing double",
        "joined",
        "write the numbers side by side in place of reckoning",
        (
            "Build each number with counters, push them together, and let the child guess first: "
            "nearer to 10 or to 50?"
        ),
    ),
    (
        "sum difference/missing",
        "doubled",
        "double the larger number where a near double is meant",
        "Build the double in two rows, then put one counter more or take one away, and say what changed.",
    ),
    (
        "sum/missing difference difference/missing",
        "ten_kept",
        "end a ten too high when counting across a ten",
        "On a ten-frame, take as many as reach the ten first, then the others.",
    ),
    (
        "sum/missing difference difference/missing",
        "one_short",
        "end one short, counting the number one starts from",
        (
            "On a number line made of steps, jump back: the first jump lands on the number before, "
            "not where you stand."
        ),
    ),
    (
        "difference",
        "added",
        "add where the sign says minus",
        f"Ring the sign in colour before each task. {_SIGN}",
    ),
    (
        "sum/missing difference/missing",
        "added",
        "add the two numbers that stand there, where a part is missing",
        _PARTS,
    ),
    ("bond", "counted_first", "count the part that stands there too, and end one too high", _PARTS),
    ("bond", "one_short", "end one short when counting up to the whole", _PARTS),
    ("bond", "same_again", "say the part that stands there once more", _PARTS),
    ("bond", "added", "add the part to the whole", _PARTS),
    (
        "bond",
        "places_to_ten",
        "make each digit up to ten, so that there is a ten too many",
        (
            "Build the known part with tens and ones. Add ones until they make a ten, swap them for it, "
            "then count the tens that are left to fill."
        ),
    ),
    (
        "double",
        "ten_dropped",
        "lose the ten that the ones make",
        (
            "Build the number twice with tens and ones; when the ones reach ten, swap them for a "
            "ten and count the tens again."
        ),
    ),
    (
        "double",
        "two_added",
        "add two in place of doubling",
        "Hold a mirror beside counters: how many do you see now?",
    ),
    (
        "half",
        "five_dropped",
        "halve an odd number of tens without the five that is left",
        ("Build it with tens and ones and share between two: swap the last ten for ones before sharing it."),
    ),
    (
        "half",
        "two_taken",
        "take two away in place of halving",
        "Share counters between two plates, one here, one there, until none is left.",
    ),
    (
        "half",
        "doubled",
        "double in place of halving",
        "Share counters between two plates. Is half more or less than before? Let the child say it first.",
    ),
    # --- products and quotients ---
    ("product quotient/missing", "added", "add the two numbers in place of multiplying", _ROWS),
    ("product quotient/missing", "joined", "write the two factors side by side", _ROWS),
    (
        "product quotient/missing",
        "doubled_only",
        "double once and stop there, where three or four times are meant",
        "Lay the double in two rows, then lay the rows that are missing, and count on from the double.",
    ),
    (
        "product",
        "times_zero",
        "leave a number as it is when it is multiplied by 0",
        "Count plates with nothing on them: four plates of no counters. How many counters are there?",
    ),
    (
        "product",
        "times_one",
        "change a number when it is multiplied by 1, or answer 1",
        "Lay one row of seven: how many rows, how many counters? Then seven rows of one.",
    ),
    (
        "quotient product/missing quotient/missing",
        "took_away",
        "take the two numbers from each other in place of dividing",
        _SHARE,
    ),
    (
        "quotient product/missing quotient/missing",
        "divisor",
        "give the number back that it is divided by",
        _SHARE,
    ),
)
