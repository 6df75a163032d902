"""The family's own words by command: chosen once for all, shown where the program speaks for itself."""

import json
from pathlib import Path

import pytest

from review.app import profiles
from review.core.model import CHOICES
from review.gather import Outside
from review.render import word_lines
from tests.cli.conftest import Review

DAY = ("--on", "2026-01-06")


def chosen(review: Review, *options: str) -> str:
    done = review("words", *options, *DAY)
    assert (done.code, done.err) == (0, "")
    return done.out


def test_without_a_choice_all_is_the_programs_own(review: Review) -> None:
    told = review("words")
    assert (told.code, told.err) == (0, "")
    assert "Times: 6 × 7.\n" in told.out
    for name, choices in CHOICES.items():
        assert f"--{name} {', '.join(choices[:-1])} or {choices[-1]}\n" in told.out
    assert json.loads(review("words", "--json").out) == {name: some[0] for name, some in CHOICES.items()}


def test_every_choice_has_its_sentence() -> None:
    assert {name: tuple(told) for name, told in word_lines.TOLD.items()} == dict(CHOICES)


def test_a_choice_needs_a_child_to_be_kept_with(review: Review, tmp_path: Path) -> None:
    done = review("words", "--carry", "regroup")
    assert done.code == 1
    assert "no record book" in done.err
    assert not (tmp_path / "family.book").exists()


def test_a_word_that_cannot_be_chosen_is_refused_in_a_sentence(family: Review) -> None:
    done = family("words", "--carry", "bring")
    assert done.code == 2
    assert "'any', 'carry', 'regroup', 'exchange'" in done.err
    assert len(done.err.strip().splitlines()) == 1


def test_one_choice_leaves_the_others_and_can_be_taken_back(family: Review) -> None:
    chosen(family, "--carry", "EXCHANGE")
    assert "Decimals and thousands: 0,5" in chosen(family, "--decimals", "comma")
    assert json.loads(family("words", "--json").out) == {
        "carry": "exchange", "maths": "maths", "decimals": "comma", "times": "cross", "divide": "dash",
    }  # fmt: skip
    chosen(family, "--carry", "any", "--decimals", "point")
    assert "Ten for one: carry, regroup or exchange" in family("words").out


def test_the_words_are_every_childs_also_of_one_who_comes_later(family: Review, tmp_path: Path) -> None:
    chosen(family, "--times", "dot")
    assert family("child", "add", "Nuri", "--age", "8", *DAY).code == 0
    found = profiles.list_children(Outside(tmp_path / "family.book", tmp_path, 0))
    assert [child.words for child in found] == [{"times": "dot"}] * 3
    shown = family("child", "show", "Nuri")
    assert "Your family's words. Times: 6 · 7.\n" in shown.out
    assert json.loads(family("child", "show", "Nuri", "--json").out)["words"]["times"] == "dot"
    assert {row["words"]["times"] for row in json.loads(family("child", "list", "--json").out)} == {"dot"}


def test_nothing_is_said_of_words_to_a_child_whose_family_chose_none(family: Review) -> None:
    assert "Your family's words" not in family("child", "show", "Mira").out


def test_words_go_with_the_book_and_the_book_stays_sound(family: Review, tmp_path: Path) -> None:
    chosen(family, "--divide", "colon")
    assert family("export", str(tmp_path / "all.jsonl")).code == 0
    other = str(tmp_path / "other.book")
    assert family("--book", other, "import", str(tmp_path / "all.jsonl")).code == 0
    assert json.loads(family("words", "--book", other, "--json").out)["divide"] == "colon"
    assert family("verify").code == 0


@pytest.mark.parametrize(
    ("carry", "title"),
    [
        ("any", "Regrouping once, like 428 + 356"),
        ("carry", "Carrying once, like 428 + 356"),
        ("exchange", "Exchanging once, like 428 + 356"),
    ],
)
def test_sets_and_skills_are_told_in_the_familys_words(family: Review, carry: str, title: str) -> None:
    chosen(family, "--carry", carry)
    assert family("set", "add", "column-sums-to-999", "Mira", *DAY).code == 0
    assert title in family("set", "show", "column-sums-to-999").out
    assert title in family("taught", "column-sums-that-regroup-once", "Mira", *DAY).out
    assert title in family("focus", "column-sums-that-regroup-once", "Mira", *DAY).out
    as_json = json.loads(family("set", "show", "column-sums-to-999", "--json").out)
    assert "Regrouping once, like 428 + 356" in {skill["title"] for skill in as_json["skills"]}


def test_a_warm_up_of_the_family_is_in_its_signs_and_the_log_in_ours(family: Review, tmp_path: Path) -> None:
    assert family("set", "add", "times-2-5-10", "Jonah", "--taught", *DAY).code == 0
    chosen(family, "--times", "dot", "--decimals", "comma")
    shown = family("warmup", "Jonah", "--plain", *DAY, typed="7\n" * 3)
    assert " · " in shown.out
    assert " × " not in shown.out
    assert " · " in family("log", "Jonah", *DAY).out
    assert family("export", str(tmp_path / "log.jsonl")).code == 0
    rows = (tmp_path / "log.jsonl").read_text(encoding="utf-8")
    assert '"product:' in rows
    assert "·" not in rows


def test_a_sheet_is_printed_in_the_familys_signs(family: Review, tmp_path: Path) -> None:
    chosen(family, "--times", "dot", "--decimals", "comma", "--carry", "carry")
    for name, skill in (("twos", "table-of-2"), ("tens", "thousandths-times-10-to-1000")):
        out = tmp_path / f"{name}.html"
        assert family("sheet", "--practice", skill, "--number", "4711", "--out", str(out)).code == 0
    assert " · 2" in (tmp_path / "twos.html").read_text(encoding="utf-8")
    page = (tmp_path / "tens.html").read_text(encoding="utf-8")
    body = page[page.index("<body") :]
    assert "×" not in body
    assert ",5" in body or ",2" in body


def test_the_title_of_a_sheet_too_but_not_in_the_book(family: Review, tmp_path: Path) -> None:
    """A child's own, and nobody's."""
    chosen(family, "--carry", "carry")
    given = ("set", "add", "column-sums-to-999", "Jonah", "--taught")
    assert family(*given, *DAY).code == 0
    for name, child in (("own", ["Jonah"]), ("any", [])):
        out = tmp_path / f"{name}.html"
        asked = ("--practice", "column-sums-that-regroup-once", "--number", "4711")
        assert family("sheet", *child, *asked, "--out", str(out), *(DAY if child else ())).code == 0
        assert "Carrying once, like 428 + 356</h1>" in out.read_text(encoding="utf-8")
    assert family("export", str(tmp_path / "all.jsonl")).code == 0
    assert "Carrying" not in (tmp_path / "all.jsonl").read_text(encoding="utf-8")


def test_the_record_names_the_subject_as_the_family_does(family: Review, tmp_path: Path) -> None:
    for choice in CHOICES["maths"]:
        chosen(family, "--maths", choice)
        out = tmp_path / f"{choice}.html"
        assert family("log", "Mira", "--out", str(out), *DAY).code == 0
        assert f"<h1>Record of {choice} practice: Mira</h1>" in out.read_text(encoding="utf-8")


def test_the_manual_too(family: Review) -> None:
    assert "elementary maths" in family("manual").out
    chosen(family, "--maths", "math")
    told = family("manual").out
    assert "elementary math\n" in told
    assert "elementary maths" not in told


def test_what_was_answered_is_looked_at_in_the_familys_signs(family: Review) -> None:
    """The desk of a child who multiplied: what is known, taken back, stuck, written down."""
    assert family("set", "add", "times-2-5-10", "Jonah", "--taught", *DAY).code == 0
    chosen(family, "--times", "dot")
    assert family("warmup", "Jonah", "--plain", *DAY, typed="7\n" * 6).code == 0
    for command in ("undo Jonah", "overdue Jonah --all", "log Jonah", "warmup Jonah --explain"):
        told = family(*command.split(), *DAY)
        assert "×" not in told.out, command
    assert " · " in family("undo", "Jonah", *DAY).out
    assert " · " in family("undo", "Jonah", "--card", "purple", *DAY).err
    assert " · " in family("warmup", "Jonah", "--explain", *DAY).out
    assert "2 · 5" in family("known", "--card", "2x5", "Jonah", *DAY).out


def test_the_square_has_the_familys_sign_in_its_corner(family: Review) -> None:
    assert family("set", "add", "times-2-5-10", "Jonah", "--taught", *DAY).code == 0
    assert "\n  ×  2" in family("overdue", "Jonah", "--square", *DAY).out.replace("  1", "")
    chosen(family, "--times", "dot")
    told = family("overdue", "Jonah", "--square", *DAY).out
    assert "×" not in told
    assert "\n  ·" in told


@pytest.mark.parametrize(
    ("command", "told"),
    [
        ("known --card purple Jonah", "like 2 · 2, or name"),
        ("known --card 2·7 Jonah", "review known --card '2 · 7' --not Jonah"),
        ("log Jonah", "Known already: 2 · 7"),
        ("undo Jonah --card purple", "Nothing was asked yet."),
        ("placement times-2-5-10 Jonah --show --known purple", "Write a card like 2 · 2, or a skill"),
        (
            "placement times-2-5-10 Jonah --show --known 2·7 --not 2·7",
            "2 · 7 is named as known and as not known.",
        ),
    ],
)
def test_a_card_is_suggested_as_the_family_writes_it_and_read_so(
    family: Review, command: str, told: str
) -> None:
    assert family("set", "add", "times-2-5-10", "Jonah", "--taught", *DAY).code == 0
    assert family("known", "--card", "2 x 7", "Jonah", *DAY).code == 0
    chosen(family, "--times", "dot")
    done = family(*command.split(), *DAY)
    assert told in " ".join((done.out + done.err).split())
    assert "×" not in done.out + done.err


def test_a_quotient_is_written_back_with_the_familys_colon(family: Review) -> None:
    for name in ("times-2-5-10", "division-2-5-10"):
        assert family("set", "add", name, "Jonah", "--taught", *DAY).code == 0
    chosen(family, "--divide", "colon")
    told = " ".join(family("known", "--card", "14 : 2", "Jonah", *DAY).out.split())
    assert "Known to Jonah already: 14 : 2." in told
    assert "--card '14 : 2' --not Jonah" in told
    assert family("known", "--card", "14 : 2", "--not", "Jonah", *DAY).code == 0


def test_the_titles_of_sets_are_the_familys_in_a_report_as_well(family: Review) -> None:
    assert family("set", "add", "place-value-to-9999", "Jonah", "--taught", *DAY).code == 0
    chosen(family, "--decimals", "comma")
    assert family("warmup", "Jonah", *DAY, typed="7\n").code == 0
    told = family("progress", "Jonah", *DAY).out
    assert "Place value to 9 999 (place-value-to-9999)" in told
