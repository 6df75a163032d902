"""The copying exercise before a placement, as a family meets it."""

import json
import re
from pathlib import Path

from tests.cli.conftest import Review
from tests.cli.test_undo import remembered
from tests.cli.test_week import Told, of

SET, DAY = "times-2-5-10", "2026-01-06"


def grown(review: Review) -> Review:
    """A child of nine with a set of tables, the only one in the book."""
    for arguments in (
        ("child", "add", "Fenn", "--age", "9", "--on", "2026-01-05"),
        ("set", "add", SET, "Fenn", "--on", "2026-01-05"),
    ):
        assert review(*arguments).code == 0
    return review


def begin(review: Review, *lines: str, more: tuple[str, ...] = ("--copying",)) -> Told:
    done = review("placement", SET, "Fenn", "--jsonl", "--on", DAY, *more, typed="".join(lines))
    assert done.code == 0, done.err
    return [json.loads(line) for line in done.out.splitlines()]


def numbers(review: Review) -> list[str]:
    """What the exercise asks: each is passed on, so that the next one comes."""
    told = begin(review, *['{"pass": true}\n'] * 20)
    return re.findall(r"Type (\d+):", " ".join(one["prompt"] for one in of(told, "problem")))[:20]


def test_the_childs_own_time_is_known_after_it(review: Review, tmp_path: Path) -> None:
    grown(review)
    asked = numbers(review)
    assert [len(one) for one in asked] == [1] * 10 + [2] * 10
    quick = {1: 1.035, 2: 1.38}  # six tenths of what is usual at nine
    typed = ({"answer": one, "seconds": quick[len(one)], "first_key": 0.6} for one in asked)
    begin(review, *[json.dumps(one) + "\n" for one in typed])
    cards, found = remembered(tmp_path)
    assert found.copying[0] >= 20
    assert not any(one.met_day for one in cards.values())
    told = review("placement", SET, "Fenn", "--show", "--on", DAY).out
    assert "Types a number of two digits in about 1.4 seconds." in told


def test_the_placement_follows_and_a_stop_stops_both(review: Review) -> None:
    grown(review)
    told = begin(review, *['{"pass": true}\n'] * 20)
    assert any(one["kind"] == "product" for one in of(told, "problem"))
    assert len(of(begin(review, '{"stop": true}\n'), "summary")) == 1


def test_it_is_left_out_where_nobody_asked_for_it_and_under_eight(family: Review, review: Review) -> None:
    family("set", "add", SET, "Jonah", "--on", "2026-01-05")
    done = family("placement", SET, "Jonah", "--jsonl", "--on", DAY, typed='{"stop": true}\n')
    assert '"kind": "copying"' not in done.out
    family("set", "add", SET, "Mira", "--on", "2026-01-05")
    done = family("placement", SET, "Mira", "--copying", "--on", DAY)
    assert (done.code, "from 8 on" in done.err) == (1, True)


def test_it_is_of_no_warm_up_and_can_be_taken_back(review: Review, tmp_path: Path) -> None:
    grown(review)
    asked = numbers(review)
    begin(review, *[json.dumps({"answer": one, "seconds": 1.2}) + "\n" for one in asked])
    assert review("set", "add", "number-bonds-10", "--taught", "--on", DAY).code == 0
    done = review("warmup", "--jsonl", "--on", DAY, typed="")
    assert json.loads(done.out.splitlines()[0])["n"] == 1
    told = json.loads(review("undo", "--sitting", "--json", "--yes", "--on", DAY).out)
    assert {one["card"].partition(":")[0] for one in told["answers"]} == {"copying"}
    assert remembered(tmp_path)[1].copying == (0.0, 0.0)
    assert review("verify").code == 0
