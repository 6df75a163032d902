"""Every mistake in a set is told: where, what, and what to write instead. Of any text at all."""

import re

import pytest

from review.core.card_sets import cards, read_set
from review.core.set_tables import MOST_SKILLS
from review.core.set_troubles import MOST_CARDS
from review.core.skills import KINDS
from tests.core.small_sets import HEAD, SKILL, mistakes, sound

# --- mistakes -----------------------------------------------------------------------------------------

TEMPLATE = 'kind = "template"\nshow = "a + b"\nanswer = "a + b"\n'
WRONG = [
    # what stands in place of what, line, path, what is wrong, what to write instead
    ('id = "our-sums"', 'id = "Our Sums!"', 2, "set.id", "cannot be a name", '"our-sums"'),
    ('id = "our-sums"', 'id = ""', 2, "set.id", "empty", "Write something"),
    ('id = "our-sums"', "id = 3", 2, "set.id", "the number 3", "our-sums"),
    ('title = "Our sums"', "", 1, "set.title", "missing", "Add title"),
    ('title = "Our sums"', f'title = "{"x" * 61}"', 3, "set.title", "61 characters", "60"),
    ('title = "Our sums"', 'titel = "Our sums"\ntitle = "a"', 3, "set.titel", "titel", "Did you mean title?"),
    ('aim = "accuracy"', 'aim = "fluent"', 4, "set.aim", "fluent", "Did you mean fluency?"),
    ('aim = "accuracy"', "aim = true", 4, "set.aim", "true or false", "fluency"),
    ("ages = [7, 9]", "ages = [8, 7]", 5, "set.ages", "ends before it begins", "[7, 8]"),
    ("ages = [7, 9]", "ages = [2, 9]", 5, "set.ages[1]", "the number 2", "4 to 14"),
    ("ages = [7, 9]", "ages = [7, 99]", 5, "set.ages[2]", "the number 99", "4 to 14"),
    ("ages = [7, 9]", "ages = [7]", 5, "set.ages", "two whole numbers", "[7, 9]"),
    ("ages = [7, 9]", "ages = 7", 5, "set.ages", "the number 7", "[7, 7]"),
    ("ages = [7, 9]", 'ages = [7, 9]\nstandards = "2.OA"', 6, "set.standards", "“2.OA”", '["'),
    ('kind = "double"', 'kind = "doubel"', 10, "skill[1].kind", "doubel", "Did you mean double?"),
    ('kind = "double"', "", 7, "skill[1].kind", "missing", "Add kind"),
    ("numbers = [1, 10]", "", 7, "skill[1].numbers", "missing", "[1, 10]"),
    ("numbers = [1, 10]", "numbers = [0, 10]", 11, "skill[1].numbers[1]", "the number 0", "1 to 100"),
    (
        "numbers = [1, 10]",
        "numbers = [1, 10]\nstep = 1.5",
        12,
        "skill[1].step",
        "a decimal number",
        "Write 1",
    ),
    ("numbers = [1, 10]", "numbers = [1, true]", 11, "skill[1].numbers", "two whole numbers", "[1, 10]"),
    ("numbers = [1, 10]", "numbers = [1, 1e999]", 11, "skill[1].numbers", "two whole numbers", "[1, 10]"),
    ("numbers = [1, 10]", f"numbers = [1, {'9' * 400}]", 11, "skill[1].numbers[2]", "very large", "1 to 100"),
    ("numbers = [1, 10]", "numbers = 2026-01-05", 11, "skill[1].numbers", "a date", "[1, 10]"),
    ("numbers = [1, 10]", "numbers = [1, 10]\nnumber = 1", 12, "skill[1].number", "number", "numbers?"),
    ("numbers = [1, 10]", 'numbers = [1, 10]\nafter = ["doubles"]', 12, "skill[1].after", "itself", "out"),
    (
        "numbers = [1, 10]",
        'numbers = [1, 10]\nafter = ["a", "a"]',
        12,
        "skill[1].after[2]",
        "second time",
        "out",
    ),
    (
        "numbers = [1, 10]",
        'numbers = [1, 10]\nstrategies = ["duobles"]',
        12,
        "skill[1].strategies[1]",
        "duobles",
        "doubles?",
    ),
    ("[set]", "[sett]", 1, "sett", "no key “sett”", "Did you mean set?"),
    ('title = "Our sums"', 'titel = "Our sums"', 3, "set.titel", "titel", "Did you mean title?"),
    ("ages = [7, 9]", 'ages = ["7", "9"]', 5, "set.ages", "not a list", "Write [7, 9], without quotes"),
    ("ages = [7, 9]", "ages = [6,5, 8]", 5, "set.ages", "not [6, 5, 8]", "Write [7, 9]"),
    ("ages = [7, 9]", 'ages = "6-8"', 5, "set.ages", "not “6-8”", "Write [6, 8]"),
    ("ages = [7, 9]", 'ages = [7, 9]\nstandards = "2.OA"', 6, "set.standards", "“2.OA”", 'Write ["2.OA"]'),
    ('kind = "double"', 'kind = "Addition"', 10, "skill[1].kind", "Addition", "Did you mean sum?"),
    ('kind = "double"', 'kind = "times-table"', 10, "skill[1].kind", "table", "Did you mean product?"),
    ('kind = "double"', 'Kind = "double"', 10, "skill[1].Kind", "no key “Kind”", "Did you mean kind?"),
    (
        'kind = "double"\nnumbers = [1, 10]',
        'kind = "roman"\nranges = [1, 12]',
        11,
        "skill[1].ranges",
        "not [1, 12]",
        "Write [[1, 12]]",
    ),
    (
        'kind = "double"\nnumbers = [1, 10]',
        'kind = "sum"\nzero = "no"',
        11,
        "skill[1].zero",
        "“no”",
        "Write false",
    ),
    (
        'kind = "double"\nnumbers = [1, 10]',
        'kind = "product"\ntables = "7"',
        11,
        "skill[1].tables",
        "“7”",
        "Write [7], without quotes",
    ),
    (
        'kind = "double"\nnumbers = [1, 10]',
        f"{TEMPLATE}letters = {{ a = [1, 9], b = [1, 9,5] }}",
        13,
        "skill[1].letters.b",
        "not [1, 9, 5]",
        "Write b = [1, 9]",
    ),
    ("numbers = [1, 10]", 'numbers = [1, 10]\nstep = "2"', 12, "skill[1].step", "“2”", "Write 2, without"),
    ("[[skill]]", "[skill]", 7, "skill", "not written like this", "[[skill]]"),
    ("[[skill]]", "[[skills]]", 7, "skills", "skills", "Did you mean skill?"),
]


@pytest.mark.parametrize(
    ("old", "new", "line", "path", "wrong", "instead"), WRONG, ids=lambda part: str(part)[:30]
)
def test_a_mistake_is_told(old: str, new: str, line: int, path: str, wrong: str, instead: str) -> None:
    text = (HEAD + SKILL).replace(old, new, 1)
    told = [one for one in mistakes(text) if one.path == path]
    assert len(told) == 1, mistakes(text)
    assert (told[0].file, told[0].line) == ("ours.toml", line)
    assert wrong in told[0].wrong
    assert instead in told[0].instead
    assert told[0].wrong.endswith((".", "?"))
    assert told[0].instead[0].isupper() or not told[0].instead[0].isalpha()


@pytest.mark.parametrize(
    ("old", "new"), [('title = "O', 'titel = "O'), ("[set]", "[Set]"), ("[[skill]]", "[[skills]]")]
)
def test_a_slip_of_the_pen_is_told_once(old: str, new: str) -> None:
    assert len(mistakes((HEAD + SKILL).replace(old, new, 1))) == 1


@pytest.mark.parametrize(
    ("line", "told", "instead"),
    [
        ("title = “Ours”", "curly", 'Write title = "Ours".'),
        ('title = "Ours”', "curly", 'Write title = "Ours".'),
        ("title = »Ours«", "curly", 'Write title = "Ours".'),
        ('title: "Ours"', "an = is meant", 'Write title = "Ours".'),
        ("title: Ours", "an = is meant", 'Write title = "Ours".'),
        ("title = Ours, the small", "cannot be read", 'Put text in quotes, like "this"'),
        ("title = Ours again", "cannot be read", 'Write title = "Ours again".'),
        ("title = No", "cannot be read", "Write title = false."),
        ("title = TRUE", "cannot be read", "Write title = true."),
        ('title = "Ours', "not closed", 'Put a " at its end'),
        ("title = Ours “or” yours", "cannot be read", 'Put text in quotes, like "this"'),
        ("title = “Ours” or", "curly", 'Write straight ones, like "this"'),
    ],
)
def test_what_cannot_be_read_is_told_by_what_stands_there(line: str, told: str, instead: str) -> None:
    (one,) = mistakes((HEAD + SKILL).replace('title = "Our sums"', line, 1))
    assert (one.line, told in one.wrong) == (3, True), one
    assert one.instead.startswith(instead)


def test_curly_quotes_of_a_whole_file_are_counted() -> None:
    """Of the syntax of TOML the first mistake is told; a word processor makes it everywhere."""
    text = re.sub('"([^"]*)"', "“\\1”", HEAD + SKILL)
    (one,) = mistakes(text.replace("“accuracy”", '"for “us”"'))
    curled = sum("“" in line for line in text.split("\n"))
    assert one.wrong == f"the quotes in this line are curly, and in {curled - 2} more lines."


def test_no_skills_at_all() -> None:
    for text in (HEAD, "skill = []\n" + HEAD, "skill = [1]\n" + HEAD, ""):
        assert any(one.path == "skill" for one in mistakes(text))


def test_all_mistakes_come_together_by_their_lines() -> None:
    changed = (HEAD + SKILL + SKILL).replace('"accuracy"', '"acuracy"').replace("[7, 9]", "[9, 7]")
    told = mistakes(changed.replace("numbers = [1, 10]", "numbers = [10, 1]"))
    paths = ["set.aim", "set.ages", "skill[1].numbers", "skill[2].id", "skill[2].numbers"]
    assert [one.path for one in told] == paths
    assert [one.line for one in told] == [4, 5, 11, 14, 17]


def test_what_no_problem_fits_is_impossible() -> None:
    impossible = '[[skill]]\nid = "s"\ntitle = "S"\nkind = "sum"\naddends = [1, 3]\ntotal = [10, 12]\n'
    (told,) = mistakes(HEAD + impossible)
    assert (told.line, told.path) == (6, "skill[1]")
    assert "no problem fits" in told.wrong
    assert "total" in told.instead


def counting(number: int, steps: range) -> str:
    return (
        f'[[skill]]\nid = "s{number}"\ntitle = "S"\nkind = "count-by"\nsteps = {[*steps]}\n'
        'forms = ["on", "gaps", "next"]\ndirections = ["up", "down"]\n'
    )


def test_too_many_cards() -> None:
    """Six cards a step: 833 steps fit under five thousand, 834 do not."""
    assert len(cards([sound(HEAD + counting(1, range(1, 501)) + counting(2, range(501, 834)))])) == 4998
    (told,) = mistakes(HEAD + counting(1, range(1, 501)) + counting(2, range(501, 835)))
    assert (told.path, told.line) == ("skill[1]", 6)
    assert f"{MOST_CARDS:,}" in told.wrong
    twice = HEAD + counting(1, range(1, 800)) + counting(2, range(1, 800))
    assert len(cards([sound(twice)])) == 6 * 799


def test_too_many_skills() -> None:
    text = HEAD + "".join(SKILL.replace('"doubles"', f'"d{number}"') for number in range(MOST_SKILLS + 1))
    assert [one.path for one in mistakes(text)] == [f"skill[{MOST_SKILLS + 1}]"]


def test_no_fluency_where_guessing_is_one_in_three() -> None:
    skill = '[[skill]]\nid = "s"\ntitle = "S"\nkind = "compare"\n'
    digits = next(
        option.example or f'"{option.choices[0]}"' for option in [KINDS["compare"].options["digits"]]
    )
    text = HEAD + skill + f"digits = {digits}\n"
    sound(text)
    for fluent, line in ((text + 'aim = "fluency"\n', 11), (text.replace('"accuracy"', '"fluency"'), 6)):
        (told,) = mistakes(fluent)
        assert (told.path, told.line) == ("skill[1].aim", line)
        assert "accuracy" in told.instead


PAIRS = '[[skill]]\nid = "p"\ntitle = "P"\nkind = "pairs"\npairs = [\n  ["a", "b"], # one\n  %s,\n]\n'


@pytest.mark.parametrize(
    "pair",
    [
        '["c", "pass"]',
        '["c", "STOP."]',
        '["c", "?"]',
        '["c", ""]',
        '["", "c"]',
        '["c", " "]',
        f'["{"c" * 41}", "d"]',
        f'["c", "{"d" * 31}"]',
        '["A", "c"]',
        '["a", "c"]',
    ],
)
def test_pairs_that_cannot_be_asked(pair: str) -> None:
    (told,) = mistakes(HEAD + PAIRS % pair)
    assert (told.path, told.line) == ("skill[1].pairs[2]", 12)


def test_one_prompt_with_two_answers_in_two_skills() -> None:
    other = (PAIRS % '["c", "d"]').replace('"p"', '"q"').replace('["a", "b"]', '["a", "x"]')
    (told,) = mistakes(HEAD + PAIRS % '["c", "d"]' + other)
    assert (told.path, told.line) == ("skill[2].pairs[1]", 19)


def test_one_prompt_with_two_answers_in_one_skill() -> None:
    for first, second in (("dup", "dup"), ("É?", "é?"), ("a =", "A  =")):
        text = (PAIRS % f'["{second}", "1"]').replace('"a"', f'"{first}"')
        (told,) = mistakes(HEAD + text)
        assert (told.path, told.line) == ("skill[1].pairs[2]", 12)
        assert "another answer" in told.wrong


def test_a_pair_that_is_none_is_told_at_its_place() -> None:
    for pair in ('["c"]', '["c", "d", "e"]', "[]", '"c"', "7", '["c", 3.5]', '["c", ["d"]]'):
        (told,) = mistakes(HEAD + PAIRS % pair)
        assert (told.path, told.line) == ("skill[1].pairs[2]", 12)
        assert "two texts" in told.wrong


def test_one_bad_pair_hides_no_other() -> None:
    told = mistakes(HEAD + PAIRS % '["c"],\n["d", "pass"],\n["e", ""],\n["a", "x"],\n["f", "g"]')
    assert [(one.path, one.line) for one in told] == [
        (f"skill[1].pairs[{place}]", 10 + place) for place in range(2, 6)
    ]


@pytest.mark.parametrize(
    ("kind", "line", "place"),
    [
        ("count-by", 'steps = [2, "5", 10]', "steps[2]"),
        ("count-by", 'steps = [2]\nforms = ["on", 3]', "forms[2]"),
        ("template", 'show = ["Boxes:", 3]\nletters = {a = [1, 9]}\nanswer = "a"', "show[2]"),
    ],
)
def test_an_entry_of_the_wrong_type_is_told_at_its_place(kind: str, line: str, place: str) -> None:
    (told,) = mistakes(HEAD + f'[[skill]]\nid = "s"\ntitle = "S"\nkind = "{kind}"\n{line}\n')
    assert told.path == f"skill[1].{place}"
    assert "is meant" in told.wrong


def test_what_is_amiss_elsewhere_hides_nothing() -> None:
    """Of the set, of another skill, and of the keys that every skill has."""
    kilos = '[[skill]]\nid = "m"\ntitle = "M"\nkind = "convert"\nfrom = "m"\nto = "kg"\nrange = [1, 20]\n'
    (alone,) = mistakes(HEAD + kilos)
    text = (
        HEAD.replace("Our sums", "")
        + (PAIRS % '["c", "pass"]').replace('"P"', f'"{"P" * 99}"')
        + (PAIRS % '["d", ""]').replace('"p"', '"q"')
        + SKILL.replace("[1, 10]", "[10, 1]")
        + kilos
        + (PAIRS % '["c", "stop"]')
    )
    assert [one.path for one in mistakes(text)] == [
        "set.title",
        "skill[1].title",
        "skill[1].pairs[2]",
        "skill[2].pairs[2]",
        "skill[3].numbers",
        alone.path.replace("[1]", "[4]"),
        "skill[5].id",
        "skill[5].pairs[2]",
        "skill[5].pairs[2]",
    ]


def test_an_unknown_key_hides_nothing_where_it_can_stand_for_none() -> None:
    text = HEAD + PAIRS % '["c", "pass"]' + 'colour = "x"\n'
    assert [one.path for one in mistakes(text)] == ["skill[1].pairs[2]", "skill[1].colour"]
    impossible = '[[skill]]\nid = "s"\ntitle = "S"\nkind = "sum"\naddends = [1, 3]\n'
    (told,) = mistakes(HEAD + impossible + "totl = [2, 6]\n")
    assert (told.path, told.instead) == ("skill[1].totl", "Did you mean total?")


@pytest.mark.parametrize("known", [(), ("bonds-of-10", "elsewhere")])
def test_a_skill_that_nobody_knows_is_told_where_it_is_named(known: tuple[str, ...]) -> None:
    text = HEAD + SKILL + 'after = ["elsewere", "twos"]\n' + SKILL.replace("doubles", "twos")
    assert read_set(text, "ours.toml")[1] == ()
    (told,) = read_set(text, "ours.toml", frozenset(known))[1]
    assert (told.path, told.line) == ("skill[1].after[1]", 12)
    assert "elsewere" in told.wrong
    assert told.instead == ("Did you mean elsewhere?" if known else "Take it out, or write a skill there is.")
    assert read_set(text.replace("elsewere", "elsewhere"), "ours.toml", {"elsewhere"})[1] == ()


def test_every_circle_is_told_once() -> None:
    """Two apart, two that share a skill, and one of a skill with itself."""
    after = {"a": "b", "b": "a", "c": "d", "d": "ce", "e": "d", "f": "f", "g": "ab"}
    text = HEAD + "".join(
        SKILL.replace('"doubles"', f'"{name}"') + f"after = {[*names]}\n".replace("'", '"')
        for name, names in after.items()
    )
    told = mistakes(text)
    assert [one.wrong.partition(": ")[2] for one in told] == ["a, b, a.", "c, d, c.", "e, d, e.", ""]
    assert told[3].wrong == "a skill cannot come after itself."
    assert [one.path for one in told] == [f"skill[{n}].after" for n in (1, 3, 5, 6)]


HIDDEN = [
    ('kind = "double"', 'kind = "double\\u202e"', "skill[1].kind"),
    ('kind = "double"', 'kind = "dou\u200bble"', "skill[1].kind"),
    ('kind = "double"', 'kind = "\u00a0double"', "skill[1].kind"),
    ('aim = "accuracy"', 'aim = "accuracy\ufeff"', "set.aim"),
    ('id = "doubles"', 'id = "dou\u00adbles"', "skill[1].id"),
    ("numbers =", '"num\u200dbers" =', "skill[1].num\u200dbers"),
    ("[set]", '"set\u200b" = 1\n[set]', "set\u200b"),
    ("numbers =", 'after = ["twos\u200b"]\nnumbers =', "skill[1].after[1]"),
]


@pytest.mark.parametrize(("old", "new", "path"), HIDDEN)
def test_a_character_that_nobody_sees_is_named(old: str, new: str, path: str) -> None:
    _, found = read_set((HEAD + SKILL).replace(old, new, 1), "ours.toml", {"twos"})
    (told,) = (one for one in found if one.path == path)
    assert "an invisible character in “" in told.wrong
    assert told.instead == "Write it again by hand."


def test_a_space_or_a_letter_that_looks_like_another() -> None:
    (told,) = mistakes((HEAD + SKILL).replace('"double"', '"double "'))
    assert told.wrong == "there is a space too many in “double ”."
    (told,) = mistakes((HEAD + SKILL).replace('"double"', '"d\u043euble"'))
    assert told.instead == "Did you mean double? Write it again by hand."


def test_skills_that_wait_for_each_other() -> None:
    one = SKILL + 'after = ["two"]\n'
    two = SKILL.replace('"doubles"', '"two"') + 'after = ["doubles", "elsewhere"]\n'
    (told,) = mistakes(HEAD + one + two)
    assert told.path == "skill[1].after"
    assert "doubles, two, doubles" in told.wrong
