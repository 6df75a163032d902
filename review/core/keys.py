"""The grammar of card keys and of `asked`, for every kind: pinned, because the log keeps them for ever.

A key is `kind:content`. It is ASCII, has no spaces, and says all there is to know: a problem is rebuilt
from (key, asked) alone. Signs: `+` `-` `x` `/` as in sums, `_` a missing number, `n` any number, `>` from-to,
`?` compare, `,` a list, `lo..hi` a closed range. Free text is percent-encoded UTF-8.
Kinds that are not built yet have their grammar here already, so that no later one takes it.
"""

import re
from typing import NamedTuple
from urllib.parse import quote, unquote


class Shape(NamedTuple):
    key: str  # what follows `kind:`, a regular expression
    asked: str  # likewise
    example: tuple[str, str]


N = r"(?:0|[1-9][0-9]*)"
D = r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?"
T = rf"(?:{D}|_)"
RANGE = rf"{N}\.\.{N}"
WORD = r"[a-z0-9]+(?:-[a-z0-9]+)*"
TEXT = r"(?:[A-Za-z0-9_.~-]|%[0-9A-F]{2})+"
PAIR = rf"{TEXT}={TEXT}"
UNIT = r"[A-Za-z][A-Za-z-]*"
LETTER = rf"[a-z]=-?{N}\.\.-?{N}"

GRAMMAR: dict[str, Shape] = {
    # facts: one problem for ever; the smaller number first where the order does not matter
    "sum": Shape(rf"{N}\+{N}|n\+[0-9]+|_\+{N}={N}", rf"{N}\+{N}|_\+{N}={N}|{N}\+_={N}", ("6+7", "7+6")),
    "difference": Shape(
        rf"{N}-{N}|n-0|n-n|_-{N}={N}|{N}-_={N}", rf"{N}-{N}|_-{N}={N}|{N}-_={N}", ("13-6", "13-6")
    ),
    "product": Shape(rf"{N}x{N}|nx[01]|_x{N}={N}", rf"{N}x{N}|_x{N}={N}|{N}x_={N}", ("6x7", "7x6")),
    "quotient": Shape(
        rf"{N}/{N}|n/1|n/n|_/{N}={N}|{N}/_={N}", rf"{N}/{N}|_/{N}={N}|{N}/_={N}", ("42/6", "42/6")
    ),
    "bond": Shape(rf"{D}={D}\+{D}", rf"{D}={D}\+_|{D}=_\+{D}", ("10=3+7", "10=7+_")),
    "double": Shape(N, N, ("7", "7")),
    "half": Shape(N, N, ("14", "14")),
    # counting
    "count-by": Shape(
        rf"{N}/(?:on|gaps|next)/(?:up|down)/{RANGE}(?:/any)?",
        rf"(?:{N}|_)(?:,(?:{N}|_))+",
        ("7/on/up/0..84", "14,21,28,_,_,_"),
    ),
    "sequence": Shape(
        rf"(?:before|after|between)/{RANGE}(?:/(?:within|across))?",
        rf"(?:{N}|_)(?:,(?:{N}|_))+",
        ("between/0..100", "47,_,49"),
    ),
    "quantity": Shape(rf"{WORD}/{RANGE}", TEXT, ("dots/1..10", "7")),
    # place value
    "place-value": Shape(
        rf"(?:value/{N}/{N}|(?:expand|compose)/{N}(?:/zero)?|(?:more|less)/{N}/{N}(?:/across)?)",
        rf"{N}(?:@{N})?",
        ("value/4/100", "3456@100"),
    ),
    "compare": Shape(rf"{WORD}/{WORD}", rf"{D}\?{D}", ("4/tens", "3456?3465")),
    "order": Shape(rf"{N}/{WORD}", rf"{D}(?:,{D})+", ("3/4", "3456,3465,3345")),
    "number-name": Shape(
        rf"(?:read|write)/{RANGE}(?:/(?:full|zero))?(?:/no-and)?", N, ("read/100..999", "345")
    ),
    "rounding": Shape(rf"{D}/{RANGE}(?:/(?:half|roll))?", D, ("100/0..9999", "3456")),
    "roman": Shape(rf"(?:additive|subtractive)/(?:read|write)/{RANGE}", N, ("subtractive/read/1..12", "9")),
    # sums in the head and on paper
    "mental-sum": Shape(rf"{N}\+{N}/{WORD}(?:/{RANGE})?", rf"{N}\+{N}", ("2+2/regroup-ones", "47+25")),
    "mental-difference": Shape(rf"{N}-{N}/{WORD}", rf"{N}-{N}", ("2-2/regroup", "52-29")),
    "mental-product": Shape(rf"{N}x{N}/{WORD}", rf"{N}x{N}", ("2x1/near-ten", "29x3")),
    "mental-quotient": Shape(rf"{N}/{N}/{WORD}", rf"{N}/{N}", ("3/1/by-place", "420/7")),
    "column-sum": Shape(rf"{N}\+{N}/{WORD}", rf"{N}\+{N}", ("3+3/2", "478+256")),
    "column-difference": Shape(rf"{N}-{N}/{WORD}", rf"{N}-{N}", ("3-3/zero", "904-237")),
    "column-product": Shape(rf"{N}x{N}/{WORD}", rf"{N}x{N}", ("2x1/carry", "24x7")),
    "division-written": Shape(rf"{N}/{N}/{WORD}", rf"{N}/{N}", ("3/1/remainder", "437/6")),
    "add-several": Shape(rf"{N}x{N}/{WORD}", rf"{N}(?:\+{N})+", ("4x1/within-50", "7+5+9+3")),
    "true-false": Shape(
        rf"{WORD}/{RANGE}", rf"{T}(?:[+x/-]{T}){{0,2}}={T}(?:[+x/-]{T})?", ("sum/0..20", "7+5=13")
    ),
    # measures
    "convert": Shape(
        rf"{UNIT}(?:\+{UNIT})?>{UNIT}(?:\+{UNIT})?/{D}(?:\.\.{D})(?:/{D})?(?:/{RANGE})?",
        rf"{D}(?:\+{D})?",
        ("m>cm/1..20", "7"),
    ),
    "money": Shape(rf"{WORD}/[A-Z]{{3}}/{D}\.\.{D}", rf"{D}(?:[+,-]{D})*", ("change/GBP/0.05..5", "5-3.65")),
    "clock": Shape(rf"{WORD}/{N}", r"[0-2][0-9]:[0-5][0-9]", ("read/5", "03:25")),
    "duration": Shape(
        rf"{WORD}/{N}", r"[0-2][0-9]:[0-5][0-9][>+-][0-9]+:[0-5][0-9]", ("later/5", "03:50+0:25")
    ),
    "timetable": Shape(
        rf"{WORD}/{N}-{N}-{N}",
        rf"[0-2][0-9]:[0-5][0-9](?:\+{N}){{2,3}}/{N}@{N}:{N}>{N}",
        ("reach/3-5-24", "09:40+15+25/40@2:1>3"),
    ),
    "temperature": Shape(rf"{WORD}/{N}-{N}-{N}", rf"{D}(?:[?,+-]{D})?", ("read-c/10-30-2", "-6")),
    "shape-measure": Shape(rf"{WORD}/{RANGE}", rf"{D}(?:,{D})*", ("perimeter/1..20", "7,4")),
    # parts of a whole
    "fraction": Shape(rf"{WORD}/{WORD}", r"[0-9/+x,?_ -]+", ("equivalent/12", "3/4,_/8")),
    "decimal": Shape(rf"{WORD}/{WORD}", r"[0-9.+x,?_/@-]+", ("add/2", "0.35+0.4")),
    "percent": Shape(rf"{WORD}/{WORD}", r"[0-9.,/_]+", ("of/10", "30,50")),
    "negative": Shape(rf"{WORD}/{RANGE}", rf"{D}[+?,-]{D}", ("up/1..10", "-3+7")),
    "operations": Shape(rf"{WORD}/{RANGE}", r"[0-9+x/()-]+", ("product-last/2..10", "3+4x5")),
    "estimate": Shape(rf"{WORD}/{N}", rf"{N}[+x-]{N}", ("sum/100", "398+207")),
    "number-property": Shape(rf"{WORD}/{RANGE}", rf"{N}(?:,{N})*", ("prime/1..100", "91")),
    # the exercise in copying numbers: no kind of a set, its rows only tell how long a child takes to type
    "copying": Shape(RANGE, N, ("10..99", "47")),
    # words: prompt and answer both stand in the key, so that a mended answer is a new card with no memory of
    # the old one; `asked` is the same text, and `=` cannot occur inside either half
    "word-problem": Shape(rf"{WORD}/{WORD}", r"[a-z0-9.,-]+", ("change/20", "3,12,5")),
    "vocabulary": Shape(PAIR, PAIR, ("the%20answer%20to%20a%20sum=total",) * 2),
    "pairs": Shape(PAIR, PAIR, ("days%20in%20a%20week=7",) * 2),
    # all of a template stands in its key, for the same reason: what is shown = what is the answer / the
    # letters with their ranges / the condition
    "template": Shape(
        rf"{TEXT}(?:,{TEXT})*={TEXT}/{LETTER}(?:,{LETTER})*(?:/{TEXT})?",
        r"[a-z]=-?[0-9.]+(?:,[a-z]=-?[0-9.]+)*",
        ("a%2Bb=a%2Bb/a=1..9,b=1..9/a%3Eb", "a=4,b=3"),
    ),
}


NO_KIND = frozenset({"copying"})  # in the log's answers, but no kind of skill


def kind_of(key: str) -> str:
    return key.partition(":")[0]


def content_of(key: str) -> str:
    return key.partition(":")[2]


def well_formed(key: str, asked: str | None = None) -> bool:
    """Whether a key, and an `asked` for it, obey the grammar."""
    shape = GRAMMAR.get(kind_of(key))
    if shape is None or not re.fullmatch(shape.key, content_of(key)):
        return False
    return asked is None or re.fullmatch(shape.asked, asked) is not None


def encode(text: str) -> str:
    """Free text as it stands in a key."""
    return quote(text, safe="")


def decode(text: str) -> str:
    return unquote(text, errors="strict")
