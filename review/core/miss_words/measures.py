"""Words for the error rules of measures, money, time and shapes.

The ideas with things to hold are common practice, no source.
"""

from review.core.miss_words.rows import Row

_UNITS = (
    "Show one of each unit with your hands or things: how many small ones fit into the large one? "
    "Then say if the answer must be a larger or a smaller number."
)
_PLACES = (
    "Lay both parts, the metres and the centimetres beyond them, in a table with hundreds, tens and ones: "
    "which place is empty?"
)
_COINS = "Lay both amounts with coins. A hundred small ones are swapped for one large."
_CHANGE = "Count up from the price with real coins: first to the next whole one, then on to what was paid."
_HANDS = (
    "Turn the hands of a real clock slowly from the full hour: the short hand creeps on with the long one."
)
_TWICE = (
    "Draw a line for the whole day, noon in the middle: the hours go on after 12, so 1 is the thirteenth."
)
_TIMELINE = (
    "Draw a time line: jump to the next full hour first, then on. An hour has sixty minutes, not a hundred."
)
_STRING = (
    "Lay a string around the edge and measure it; then cover the inside with paper squares and count them."
)
_BOX = "Build the box from cubes, one layer first: how many in a layer, how many layers?"
_ANGLE = (
    "Fold a paper corner, a straight edge, a full turn. Lay the known angles inside: what is left to fill it?"
)

ROWS: tuple[Row, ...] = (
    ("convert", "wrong_way", "multiply where dividing is due, or divide where multiplying is", _UNITS),
    ("convert", "hundred", "take a hundred for every unit, also where it is 60, 12 or 1,000", _UNITS),
    ("convert", "ten", "take ten for every unit", _UNITS),
    (
        "convert",
        "second_ignored",
        "leave the second unit out",
        "Lay both parts: the metre, and the centimetres beyond it. Both belong to the length.",
    ),
    (
        "convert",
        "added",
        "add the two numbers without converting",
        "Lay both parts: the metre, and the centimetres beyond it. Turn the metre into centimetres first.",
    ),
    ("convert", "power_large", "write a nought too many", _UNITS),
    ("convert", "zero_dropped", "leave out the nought that holds an empty place", _PLACES),
    ("convert", "zero_behind", "write the nought behind, not in the empty place", _PLACES),
    ("money/add", "base_60", "exchange at sixty, as with minutes", _COINS),
    ("money/add", "not_carried", "write more than 99 small coins behind the point", _COINS),
    (
        "money/add",
        "point_dropped",
        "leave the point out",
        "Lay the amount with coins: which are whole ones, which are parts? The point stands between.",
    ),
    ("money/add money/change", "cents_ignored", "leave the small coins out", _COINS),
    ("money/add", "took_away", "take away where the amounts are added", _COINS),
    (
        "money/count money/same",
        "coins_counted",
        "count how many coins there are, not what they are worth",
        "Lay each coin on as many small ones as it is worth, and count on in its steps: 5, 10, 15.",
    ),
    ("money/change", "ten_extra", "make both digits up to ten, and give ten too much in change", _CHANGE),
    ("money/to", "nought_dropped", "leave out a nought among the small coins", _COINS),
    ("money/to", "added", "add whole ones and small coins as if they were of one kind", _COINS),
    ("money/to", "point_late", "put the point one place too late", _COINS),
    ("money/change", "unit_extra", "give one whole one too many in change", _CHANGE),
    ("money/change", "cents_copied", "copy the small coins of the price into the change", _CHANGE),
    ("money/change", "added", "add the price to what was paid", _CHANGE),
    ("clock", "hour_ahead", "read the next hour after half past", _HANDS),
    ("clock", "hour_ahead_always", "read the next hour whenever it is past the full hour", _HANDS),
    (
        "clock",
        "minute_face",
        "read the printed number as the minutes",
        "Write 5, 10, 15 on slips around a real clock, and count in fives with the long hand.",
    ),
    (
        "clock",
        "past_to",
        "confuse past and to",
        "Colour the right half of the clock “past”, the left half “to”, and turn the long hand through both.",
    ),
    (
        "clock",
        "hands_swapped",
        "take the short hand for the long one",
        "Cover the long hand of a real clock: about what time is it? Then look where the long hand is.",
    ),
    ("clock", "ten_for_twelve", "reckon with ten hours up to noon, not with twelve", _TWICE),
    ("clock", "hour_as_it_stands", "leave the hours of the afternoon as they stand on a clock", _TWICE),
    (
        "duration/later duration/earlier duration/between duration/timetable",
        "base_100",
        "reckon as if an hour had a hundred minutes",
        _TIMELINE,
    ),
    ("duration/later", "hour_kept", "get the minutes, and not move the hour on", _TIMELINE),
    (
        "duration/earlier duration/between duration/timetable",
        "hour_kept",
        "get the minutes, and leave the hour as it was",
        _TIMELINE,
    ),
    (
        "duration/earlier duration/between duration/timetable",
        "smaller_from_larger",
        "take the smaller minutes from the larger, whichever stands first",
        _TIMELINE,
    ),
    ("duration/later duration/earlier", "hour_part_lost", "leave the hours of the span out", _TIMELINE),
    ("duration/later duration/earlier", "minutes_lost", "leave the minutes of the span out", _TIMELINE),
    (
        "duration/later",
        "left_over_100",
        "take a hundred off the minutes where sixty make the hour",
        _TIMELINE,
    ),
    ("shape-measure/perimeter", "area_for_around", "find the area where the way around is asked", _STRING),
    (
        "shape-measure/perimeter",
        "half_around",
        "add only the sides that are told",
        "Walk a finger around all four sides and say each length.",
    ),
    ("shape-measure/area", "around_for_area", "find the way around where the area is asked", _STRING),
    (
        "shape-measure/area",
        "sides_added",
        "add the sides where the area is asked",
        "Cover it with paper squares: how many in a row, how many rows?",
    ),
    (
        "shape-measure/side",
        "took_away",
        "take the known side away from the area",
        "Lay the squares in rows as long as the known side: how many rows are there?",
    ),
    ("shape-measure/side", "around_for_area", "take the area for the way around", _STRING),
    (
        "shape-measure/side",
        "one_side_taken",
        "take one side away from the way around",
        "Lay a string of that length around two known sides, and share what is left between the other two.",
    ),
    (
        "shape-measure/side",
        "not_halved",
        "stop at both sides together",
        "Lay a string of that length around two known sides, and share what is left between the other two.",
    ),
    ("shape-measure/side", "area_for_around", "take the way around for the area", _STRING),
    ("shape-measure/volume", "sides_added", "add the sides in place of multiplying them", _BOX),
    ("shape-measure/volume", "one_layer", "count one layer only", _BOX),
    (
        "shape-measure/volume",
        "faces_for_inside",
        "count the squares of the faces, not the cubes inside",
        _BOX,
    ),
    ("shape-measure/angle", "other_total", "reckon from another total than that of this figure", _ANGLE),
    ("shape-measure/angle", "added", "add the angles that are told, and stop there", _ANGLE),
    ("shape-measure/angle", "second_ignored", "leave the second angle out", _ANGLE),
)
