"""What tests of a parent's own sets share: a set in pieces, a refusal in one breath, a list beside a set."""

import json
from pathlib import Path
from typing import Any

from tests.cli.conftest import Done, Review

HEAD = """\
[set]
id = "our-words"
title = "Our words"
aim = "accuracy"
ages = [7, 9]
"""
PAIRS = """
[[skill]]
id = "animals"
title = "Animals"
kind = "pairs"
{what}
"""
TEMPLATE = """
[[skill]]
id = "areas"
title = "Areas"
kind = "template"
show = ["A field", "a", "by", "b", "has the area"]
letters = { a = [2, 9], b = [2, 9] }
answer = "a * b"
where = "a > b"
"""


def mend(done: Done, *words: str) -> None:
    assert (done.code, done.out) == (1, ""), done
    for word in words:
        assert word in done.err, done.err
    assert "Traceback" not in done.err


WITH_LIST = HEAD + PAIRS.format(what='file = "animals.csv"  # beside this file')


def listed(text: str, content: str | bytes | None, name: str = "animals.csv") -> Path:
    if content is not None:
        Path(name).write_bytes(content if isinstance(content, bytes) else content.encode())
    Path("ours.toml").write_text(text, encoding="utf-8")
    return Path("ours.toml")


def given(review: Review, *sets: str) -> None:
    review("child", "add", "Mira", "--age", "8", "--minutes", "30", "--on", "2026-01-05")
    for name in sets:
        done = review("set", "add", name, "Mira", "--taught", "--on", "2026-01-05")
        assert done.code == 0, done.err


def asked(review: Review, day: str, answers: int = 12) -> set[str]:
    """Keys of the cards of a sitting whose answers are all asked to be shown."""
    typed = json.dumps({"pass": True}) + "\n"
    done = review("warmup", "Mira", "--jsonl", "--on", day, typed=typed * answers)
    assert done.code == 0, done.err
    told: list[dict[str, Any]] = [json.loads(line) for line in done.out.splitlines()]
    return {one["card"] for one in told if one["type"] == "problem"}
