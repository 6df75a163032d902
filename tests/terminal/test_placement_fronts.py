"""A placement through each front: the same answers leave the same rows."""

import json

from review.core.model import Answer
from review.terminal import json_lines, lines
from tests.core.probes import a_probing
from tests.terminal.streams import stream, written

ANSWERS = ("0", "what?", "7", "", "pass", "?", "stop")


def untimed(rows: list[Answer]) -> list[Answer]:
    return [row._replace(first_ms=0, end_ms=0) for row in rows]


def by_lines() -> tuple[list[Answer], str]:
    out, kept = stream(), list[Answer]()
    lines.play(a_probing(), (), kept.append, source=stream("".join(f"{a}\n" for a in ANSWERS)), out=out)
    return untimed(kept), written(out)


def by_json() -> tuple[list[Answer], str]:
    actions = {"pass": {"pass": True}, "stop": {"stop": True}, "?": {"help": True}}
    said = [actions.get(one, {"answer": one}) for one in ANSWERS]
    out, kept = stream(), list[Answer]()
    json_lines.play(
        a_probing(), (), kept.append, source=stream("".join(json.dumps(a) + "\n" for a in said)), out=out
    )
    return untimed(kept), written(out)


def test_lines_and_json_keep_the_same_rows() -> None:
    assert by_lines()[0] == by_json()[0]
    assert by_lines()[0]


def test_no_front_tells_what_an_answer_was_worth() -> None:
    assert '"type": "mark"' not in by_json()[1]
    assert " makes " not in by_lines()[1]
    assert all(len(line) <= 40 for line in by_lines()[1].splitlines())
