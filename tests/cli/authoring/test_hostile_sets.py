"""A hostile set is harmless: refused in a sentence a mistake, without end neither in time nor in room."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.authoring.pieces import HEAD, PAIRS, TEMPLATE, WITH_LIST, listed
from tests.faults.costs import Cost, cost

MEGABYTES = 100  # what the whole command may take, start-up included

PLAIN_SKILL = '[[skill]]\nid = "s{n}"\ntitle = "S"\nkind = "{kind}"\n'


def template(n: int, letters: str, answer: str, where: str) -> str:
    skill = PLAIN_SKILL.format(n=n, kind="template")
    return f'{skill}show = "a + b"\nletters = {letters}\nanswer = "{answer}"\nwhere = "{where}"\n'


def waiting(n: int, others: range) -> str:
    skill = PLAIN_SKILL.format(n=n, kind="double")
    return f"{skill}numbers = [1, 2]\nafter = {json.dumps([f's{other}' for other in others])}\n"


def pairs(count: int) -> list[list[str]]:
    return [[f"{n} and 1", str(n + 1)] for n in range(count)]


WIDE = "{ a = [1, 999999], b = [1, 999999], c = [1, 999999], d = [1, 999999], e = [1, 999999] }"
SLOW = "(a/b/c/d/e)/(a/b/c/d/e)/(a/b/c/d/e) > (b/a/c/d/e)/(b/a/c/d/e) and a < b and b < a"
HOSTILE: dict[str, Callable[[], str]] = {
    "brackets in brackets": lambda: "a = " + "[" * 200_000 + "]" * 200_000,
    "brackets as deep as is borne": lambda: HEAD + "a = " + "[" * 300 + "]" * 300,
    "a hundred megabytes": lambda: "# padding\n" * 10_000_000,
    "a number of a million digits": lambda: HEAD + "a = " + "9" * 990_000,
    "a letter of a million digits": lambda: (
        HEAD + template(0, "{ a = [1, " + "9" * 400_000 + "] }", "a", "a > 1")
    ),
    "a range of a billion": lambda: (
        HEAD + template(0, "{ a = [1, 1000000000000], b = [1, 9] }", "a", "a > b")
    ),
    "a range of ages": lambda: HEAD.replace("[7, 9]", "[7, 1000000000000]") + TEMPLATE,
    "a range of facts": lambda: (
        HEAD + PLAIN_SKILL.format(n=0, kind="double") + "numbers = [1, 1000000000000]\n"
    ),
    "a condition that never holds": lambda: HEAD + template(0, WIDE, "a + b", "a > b and b > a"),
    "slow conditions": lambda: HEAD + "".join(template(n, WIDE, "a/b/c", SLOW) for n in range(40)),
    "too many templates": lambda: HEAD + "".join(template(n, WIDE, "a/b", SLOW) for n in range(200)),
    "skills that all wait for each other": lambda: HEAD + "".join(waiting(n, range(200)) for n in range(200)),
    "skills that nobody knows": lambda: HEAD + "".join(waiting(n, range(1000, 1100)) for n in range(200)),
    "a ring of skills": lambda: (
        HEAD + "".join(waiting(n, range(n + 1, n + 2)) for n in range(199)) + waiting(199, range(0, 200, 3))
    ),
    "names of control characters": lambda: (
        HEAD + waiting(0, range(1)).replace("s0", "s\\u001b[2J") + '"\\u001b[2J" = 1\n'
    ),
    "a key without end": lambda: HEAD + "a" * 400_000 + " = 1",
    "pairs that are none": lambda: HEAD + PAIRS.format(what=f"pairs = [{'[1], ' * 5000}]"),
    "an endless condition": lambda: HEAD + template(0, WIDE, "a", "a > b or " * 40_000 + "a > b"),
    "a deep sum": lambda: HEAD + template(0, WIDE, "(" * 50_000 + "a" + ")" * 50_000, "a > b"),
    "a tower of powers": lambda: HEAD + template(0, WIDE, "a ** b ** c ** d ** e", "a > b"),
    "a power in signs": lambda: HEAD + template(0, WIDE, "999999999*999999999*999999999*999999999", "a > b"),
    "a call": lambda: HEAD + template(0, WIDE, "__import__('os').system('true')", "a > b"),
    "a show without end": lambda: (
        HEAD + template(0, WIDE, "a", "a > b").replace('"a + b"', f'"{"a + " * 90_000}b"')
    ),
    "markup and escapes": lambda: (
        HEAD.replace("Our words", "[red]\\u001b[2J[/]") + template(0, WIDE, "\\u001b[2J", "[")
    ),
    "a path": lambda: HEAD + PAIRS.format(what='file = "../../../../../../etc/passwd"'),
    "a device": lambda: HEAD + PAIRS.format(what='file = "/dev/zero"'),
    "pairs without end": lambda: HEAD + PAIRS.format(what=f"pairs = [{'[1, 1], ' * 60_000}]"),
    "words without end": lambda: HEAD + PAIRS.format(what=f"pairs = [[{json.dumps('a' * 400_000)}, 1]]"),
    "a heading with many dots": lambda: "[" + "a." * 200_000 + "b]",
    "an inline table without end": lambda: (
        HEAD + "a = {" + ", ".join(f"a{n} = 1" for n in range(30_000)) + "}"
    ),
    "a text in three quotes without end": lambda: HEAD + 'a = """' + "a\n" * 200_000 + '"""',
    "texts in quotes in quotes": lambda: HEAD + "a = " + "\"'" * 200_000,
    "skills in a long row": lambda: HEAD + "".join(waiting(n, range(n + 1, n + 2)) for n in range(5_000)),
    "a skill that waits for itself": lambda: HEAD + waiting(0, range(1)),
    "one card too many": lambda: HEAD + PAIRS.format(what=f"pairs = {json.dumps(pairs(5_001))}"),
    "cards of two skills, one too many": lambda: (
        HEAD
        + PAIRS.format(what=f"pairs = {json.dumps(pairs(5_000))}")
        + PLAIN_SKILL.format(n=0, kind="double")
        + "numbers = [1, 2]\n"
    ),
    "the same key a thousand times": lambda: HEAD + "colour = 1\n" * 1000,
    "tables in tables": lambda: HEAD + "a = " + "{b = " * 5_000 + "1" + "}" * 5_000,
    "numbers of every sort": lambda: HEAD + "a = [" + "1e308, -inf, nan, 0x7fffffffffffffff, " * 9000 + "]",
    "dates without end": lambda: HEAD + "a = [" + "1979-05-27T07:32:00Z, " * 20_000 + "]",
    "a comment without end": lambda: HEAD + "#" + "x" * 490_000,
    "control characters": lambda: "\x00\x01\x1b[2J" * 1000,
}


def measured(command: list[str], folder: Path) -> Cost:
    return cost(command, folder, {"REVIEW_BOOK": str(folder / "b")})


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_file_is_refused_in_little_room(folder: Path, name: str) -> None:
    (folder / "h.toml").write_text(HOSTILE[name](), encoding="utf-8")
    code, text, _, megabytes = measured(["set", "check", "h.toml"], folder)
    assert code == 1, text[:500]
    assert "h.toml" in text
    assert "Traceback" not in text
    assert "\x1b" not in text
    assert len(text) < 20_000
    assert megabytes < MEGABYTES, megabytes


def test_a_hostile_list_is_refused_in_little_room(folder: Path) -> None:
    listed(WITH_LIST, ("x" * 90 + ",\n") * 4000)
    code, text, _, megabytes = measured(["set", "check", "ours.toml"], folder)
    assert (code, megabytes < MEGABYTES) == (1, True), (text[:300], megabytes)
