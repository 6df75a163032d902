"""One picture and more of every noun, and how each is kept in a golden file."""

from collections.abc import Mapping
from pathlib import Path

from review.core.drawn import drawn
from review.core.picture_words import sentence
from review.core.pictures import (
    Area,
    Array,
    Bar,
    Bars,
    Box,
    ClockFace,
    Coins,
    Exchange,
    Jump,
    Lines,
    Mark,
    Mat,
    NumberLine,
    Part,
    Picture,
    Rectangle,
    Strip,
    Strips,
    Table,
    TenFrames,
    Thermometer,
)
from review.signs import fit

GOLDEN = Path(__file__).parent / "golden" / "pictures"

TENS = ("tens", "ones")
THOUSANDS = ("thousands", "hundreds", *TENS)


def marks(*named: int, asked: int | None = None, among: range = range(0)) -> tuple[Mark, ...]:
    places = sorted({*named, *among, *(() if asked is None else (asked,))})
    names = {at: f"{at:,}".replace("-", "−") for at in named}
    if asked is not None:
        names[asked] = "□"
    return tuple(Mark(at, names.get(at, "")) for at in places)


SAMPLES: Mapping[str, Picture] = {
    "ten-frame": TenFrames(7),
    "ten-frames-two-kinds": TenFrames(8, 5),
    "ten-frames-crossed-out": TenFrames(13, 0, 5),
    "mat": Mat(TENS, ((4, 7), (2, 5))),
    "mat-of-four-places": Mat(THOUSANDS, ((4, 0, 7, 9), (2, 9, 5, 1))),
    "mat-with-a-ring": Mat(TENS, ((4, 7),), ringed=(0, 1)),
    "exchange-of-ten-ones": Exchange(TENS, (6, 12), 1),
    "exchange-of-ten-hundreds": Exchange(THOUSANDS, (4, 18, 7, 9), 1),
    "exchange-opened": Exchange(TENS, (7, 2), 0, opened=True),
    "array": Array(6, 7, 5, 5),
    "array-not-full": Array(3, 4, rest=2, asked="rows"),
    "number-line-with-jumps": NumberLine(
        marks(47, 50, asked=72), (Jump(47, 50, "+3"), Jump(50, 70, "+20"), Jump(70, 72, "+2"))
    ),
    "number-line-there-and-back": NumberLine(marks(58, asked=85), (Jump(58, 88, "+30"), Jump(88, 85, "−3"))),
    "number-line-with-steps": NumberLine(marks(5, 10, 12, among=range(5, 12)), (Jump(5, 10), Jump(10, 12))),
    "number-line-with-an-arrow": NumberLine(marks(6900, 6950, 7000), arrow=6991),
    "number-line-below-zero": NumberLine(marks(2, 0, asked=-7, among=range(-7, 2)), (Jump(2, -7, "−9"),)),
    "bar": Bar((Part(5, "5"), Part(7, "□")), "12"),
    "bar-in-equal-parts": Bar((*[Part(1, "□")] * 3, Part(1)), "24"),
    "bars": Bars((Part(16, "16"), Part(7, "7")), "□"),
    "clock-face": ClockFace(3, 25),
    "clock-face-with-minutes": ClockFace(7, 52, marked=True),
    "coins": Coins((("£5", True), ("£1", False), ("20p", False), ("2p", False))),
    "strip": Strips((Strip(3, 4),)),
    "strips": Strips((Strip(3, 4, "3/4"), Strip(5, 8, "5/8"))),
    "area": Area((20, 3), (4,)),
    "area-of-four-parts": Area((20, 3), (30, 5)),
    "table": Table(("ones", "tenths", "hundredths"), (("4", "7", ""), ("4", "9", "1"))),
    "table-upright": Table(
        ("millions", "hundred-thousands", "ten-thousands", "thousands"),
        (("6", "4", "3", "3"), ("6", "4", "3", "2")),
    ),
    "thermometer": Thermometer(-10, 5, 1, 5, -6, "C"),
    "rectangle": Rectangle("12 cm", "5 cm"),
    "rectangle-square": Rectangle("9 cm", ""),
    "box": Box("10 cm", "5 cm", "4 cm"),
    "lines": Lines(("  4 7 8", "+ 2 5 6", "-------")),
}


def in_words_and_signs(picture: Picture) -> str:
    """The drawing, the same in ASCII, and its sentence."""
    lines = "\n".join(drawn(picture))
    return f"{lines}\n\n{fit(lines, 'ascii')}\n\n{sentence(picture)}\n"
