"""Words for the error rules of numbers: counting, places, names, order, rounding, signs.

The ideas with things to hold are common practice, no source.
"""

from review.core.miss_words.rows import Row

_JUMPS = (
    "Walk or jump it on a number line on the floor: say the number you stand on, then jump, then say "
    "the next."
)
_CARDS = (
    "Lay the number with place cards, 3000 and 400 and 50 and 6, and pull them apart: what is under "
    "each digit?"
)
_MAT = "Build both numbers on a mat with places and compare the biggest place first."
_ZERO = "Lay the number with place cards. An empty place still has its card: a 0."
_TEENS = "Build sixteen as ten and six, sixty as six tens, side by side. Say each while touching it."
_BETWEEN = "Mark the two round neighbours on a line, put a finger on the number, and ask which one is nearer."
_LETTERS = (
    "Lay I, V, X, L and C on slips with their values. A smaller one before a larger is taken away, "
    "behind it is added."
)
_SIGN = (
    "Use a pair of scales: both sides must weigh the same. What is on the left, what must be on the right?"
)
_RING = "Ring the part that comes first, work it out, write it beneath, then go on."
_THERMOMETER = (
    "Put a finger on a thermometer or an upright number line and move it step by step through zero."
)

ROWS: tuple[Row, ...] = (
    # --- counting ---
    ("count-by", "own_start", "go to the numbers of the table, whatever the start", _JUMPS),
    ("count-by sequence", "repeated", "say the last number once more", _JUMPS),
    ("count-by sequence", "skipped", "leave one number out", _JUMPS),
    (
        "count-by",
        "step_over",
        "slide to a step that is one larger",
        "Lay the step as a strip of squares and mark each end: each strip has the same length.",
    ),
    (
        "count-by",
        "by_ones",
        "count by ones whatever the step",
        "Lay the step as a strip of squares and mark each end: say only what stands at the ends.",
    ),
    (
        "count-by sequence",
        "wrong_way",
        "count the other way",
        "Point the way first, up or down, then say the numbers.",
    ),
    (
        "count-by sequence",
        "ten_not_moved",
        "move the ones on and leave the tens",
        "Count with tens and ones on a mat: when the ones reach ten, the tens change too.",
    ),
    # --- places ---
    (
        "place-value/value decimal/value",
        "face",
        "name the digit alone, not what it is worth in its place",
        _CARDS,
    ),
    ("place-value/value decimal/value", "place_only", "name the place without how many there are", _CARDS),
    ("place-value/value decimal/value", "place_small", "take the digit one place too small", _CARDS),
    ("place-value/value decimal/value", "place_large", "take the digit one place too large", _CARDS),
    ("place-value/value decimal/value", "head", "read the number up to that digit", _CARDS),
    ("place-value/more", "by_one", "change the ones, whatever the place that is meant", _CARDS),
    ("place-value/more", "place_next", "change the place beside the one that is meant", _CARDS),
    (
        "place-value/more",
        "no_roll",
        "roll the digit over and leave its neighbour",
        (
            "Build the number on a mat, lay one more in that place, swap ten of them for one, and read "
            "the number again."
        ),
    ),
    ("place-value/compose number-name/read", "zero_dropped", "leave out a nought that holds a place", _ZERO),
    ("number-name/read", "zero_extra", "write a nought too many, as the number is said", _ZERO),
    (
        "number-name/read number-name/write",
        "teen_ty",
        "confuse the teens with the tens, like sixteen with sixty",
        _TEENS,
    ),
    # --- order ---
    ("compare", "first_digit", "compare by the first digit, whatever the length", _MAT),
    ("order", "first_digit", "order by the first digit, whatever the length", _MAT),
    ("compare order", "last_digit", "compare by the last digit", _MAT),
    (
        "compare",
        "reversed",
        "turn the sign round",
        "The open side looks at the greater heap: lay counters on both sides of a paper sign.",
    ),
    (
        "order",
        "reversed",
        "start with the largest",
        "Say what is asked first, smallest or largest, and lay the numbers on slips in a row.",
    ),
    # --- rounding and estimates ---
    ("rounding decimal/round", "down", "always round down", _BETWEEN),
    ("rounding decimal/round", "up", "always round up", _BETWEEN),
    ("rounding", "place_small", "round to a smaller place than is asked", _BETWEEN),
    ("rounding", "place_large", "round to a larger place than is asked", _BETWEEN),
    ("rounding decimal/round", "rest_kept", "round one digit and leave the digits behind it", _BETWEEN),
    (
        "rounding decimal/round",
        "five_down",
        "round down what lies exactly half way",
        "Agree on the rule of half way: it goes up. Mark it on the line with a small arrow.",
    ),
    (
        "rounding decimal/round",
        "digit_off",
        "leave the noughts out, or the point",
        "Build the rounded number on a mat: which places are there, and which are empty?",
    ),
    (
        "estimate",
        "not_rounded",
        "reckon exactly in place of about",
        "Ask before any reckoning: about 500, or about 900? Round each number on the line first.",
    ),
    ("estimate", "down", "always round down", _BETWEEN),
    # --- Roman numerals ---
    ("roman/read roman/write", "additive", "add every letter, also a smaller one before a larger", _LETTERS),
    ("roman/read", "always_less", "take the smaller letter away on whichever side it stands", _LETTERS),
    ("roman/read", "five_ten", "confuse V and X", _LETTERS),
    ("roman/read", "fifty_hundred", "confuse L and C", _LETTERS),
    ("roman/write", "wrong_order", "turn the pairs round, like VI for IV", _LETTERS),
    ("roman/write", "before_all", "put a small letter before any larger one, like IC for 99", _LETTERS),
    ("roman/write", "no_five", "leave out the letters for five, fifty and five hundred", _LETTERS),
    # --- signs ---
    ("true-false", "result_next", "read the equal sign as “here comes the result”", _SIGN),
    ("true-false", "added", "add all the numbers that stand there", _SIGN),
    ("operations", "from_the_left", "work from the left, whatever comes first", _RING),
    ("operations", "from_the_right", "work from the right", _RING),
    ("operations", "brackets_ignored", "pass over the brackets", _RING),
    (
        "negative temperature",
        "reversed",
        "take the larger figure for the greater number, also below zero",
        _THERMOMETER,
    ),
    ("negative temperature", "sign_lost", "leave the minus out of the answer", _THERMOMETER),
    ("negative temperature", "wrong_way", "go up in place of down, or down in place of up", _THERMOMETER),
    ("negative temperature", "sign_ignored", "not see the minus in front of the first number", _THERMOMETER),
    (
        "temperature",
        "marks_as_ones",
        "count each mark of the thermometer as one degree",
        "Say the numbers from one printed number to the next on a real thermometer, a finger on each mark: "
        "which steps come out?",
    ),
    ("negative temperature", "one_over", "count the number one starts from too", _THERMOMETER),
    (
        "number-property/square",
        "added",
        "double where squared is meant, or triple where cubed is",
        "Lay a square of counters: five rows of five. Then two rows of five beside it: is that the same?",
    ),
)
