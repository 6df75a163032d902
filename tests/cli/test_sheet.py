"""`review sheet`: what it writes, what it keeps, and what it says when something cannot be."""

import json
import re
import stat
from datetime import date
from functools import partial
from pathlib import Path

import pytest

from review import config, gather, writes
from review.core import days, pages, sheets
from review.gather import Outside
from tests.cli.conftest import Review, sentence
from tests.render.reading import of_class, read, texts

SUNDAY = ("--on", "2026-01-11")
MONDAY = ("--on", "2026-01-12")


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def orla(review: Review, here: Path) -> Review:
    """One child with two sets, and a warm-up behind her."""
    for arguments in (
        ("child", "add", "Orla", "--age", "7", "--on", "2026-01-05"),
        ("set", "add", "addition-facts-10", "Orla", "--taught", "--on", "2026-01-05"),
        ("set", "add", "times-2-5-10", "Orla", "--taught", "--on", "2026-01-05"),
    ):
        assert review(*arguments).code == 0
    return review


def number_of(out: str) -> int:
    found = re.match(r"Sheet (\d+)", out)
    assert found, out
    return int(found[1])


def prompts(path: Path) -> list[str]:
    return texts(of_class(read(path.read_text(encoding="utf-8")), "box"))


def test_todays_warm_up_on_paper(orla: Review, here: Path) -> None:
    done = orla("sheet", *MONDAY)
    number = number_of(done.out)
    assert (done.code, done.err) == (0, "")
    assert f"review enter {number}" in done.out
    path = here / f"sheet-{number}.html"
    assert prompts(path)
    if hasattr(stat, "S_IMODE"):
        assert stat.S_IMODE(path.stat().st_mode) & 0o077 == 0, "a child's page is for the family alone"


def test_the_same_day_gives_the_same_sheet_under_its_number(orla: Review, here: Path) -> None:
    first = orla("sheet", "--today", "--out", "a.html", *MONDAY)
    again = orla("sheet", "--today", "--out", "b.html", *MONDAY)
    assert number_of(first.out) == number_of(again.out)
    assert (here / "a.html").read_bytes() == (here / "b.html").read_bytes()


def test_a_number_prints_it_again_whatever_came_since(orla: Review, here: Path) -> None:
    number = number_of(orla("sheet", "--week", "--out", "a.html", *SUNDAY).out)
    for line in ('{"answer":"3","seconds":3}\n' * 9, ""):
        orla("warmup", "--jsonl", *MONDAY, typed=line)
    orla("set", "drop", "times-2-5-10", *MONDAY)
    done = orla("sheet", "--number", str(number), "--out", "b.html")
    assert done.code == 0
    assert (here / "a.html").read_bytes() == (here / "b.html").read_bytes()
    large = orla("sheet", "--number", str(number), "--large", "--out", "c.html")
    assert large.code == 0
    assert prompts(here / "c.html") == prompts(here / "a.html")


def test_what_changed_since_gives_another_number(orla: Review, here: Path) -> None:
    first = number_of(orla("sheet", "--out", "a.html", *MONDAY).out)
    assert orla("set", "drop", "times-2-5-10", *MONDAY).code == 0
    second = number_of(orla("sheet", "--out", "b.html", *MONDAY).out)
    assert first != second
    assert prompts(here / "a.html") != prompts(here / "b.html")


TINY = """
[set]
id = "tiny"
title = "Tiny"
aim = "accuracy"
ages = [7, 9]

[[skill]]
id = "a-week"
title = "A week"
kind = "pairs"
pairs = [["days in a week", "7"]]
"""


def test_where_every_card_had_its_turn_no_sheet_is_made(review: Review, here: Path) -> None:
    """It was an empty page with a number, whose marks nobody could enter. A week's begins a day later."""
    (here / "tiny.toml").write_text(TINY, encoding="utf-8")
    assert review("child", "add", "Mo", "--age", "9", *SUNDAY).code == 0
    assert review("set", "add", "tiny.toml", "Mo", "--taught", *SUNDAY).code == 0
    assert review("warmup", "Mo", *MONDAY, typed="7\n").code == 0
    before = (here / "family.book").read_bytes()
    sentence(review("sheet", "Mo", *MONDAY), 1, "There is nothing to ask Mo on paper now")
    assert (here / "family.book").read_bytes() == before
    assert [*here.glob("*.html")] == []
    week = review("sheet", "Mo", "--week", "--out", "week.html", *MONDAY)
    assert week.code == 0
    assert prompts(here / "week.html")


@pytest.mark.parametrize("how", [(), ("--marks", "all"), ("--day", "1")])
def test_an_empty_sheet_of_an_earlier_version_has_no_marks(
    orla: Review, here: Path, how: tuple[str, ...]
) -> None:
    day = days.day_of(date(2026, 1, 12))
    outside = Outside(
        here / "family.book", config.state_folder(), (day - days.day_of(date(1970, 1, 1))) * 86_400_000, day
    )
    with writes.writing(outside) as book:
        (child,) = gather.family_of(book)
        body = sheets.made_body(sheets.Made(4711, "today", child.key, day, ()))
        writes.write(book, outside, child, "sitting", body, day)
    done = orla("enter", "4711", *how, *MONDAY)
    assert (done.code, done.err) == (1, "Sheet 4711 asks nothing, so it has no marks.\n")


def test_a_week_is_five_strips(orla: Review, here: Path) -> None:
    orla("sheet", "--week", "--out", "w.html", *SUNDAY)
    tags = texts(of_class(read((here / "w.html").read_text(encoding="utf-8")), "tag"))
    assert [tag[-5:] for tag in tags] == [f"day {n}" for n in range(1, 6)]


def test_printing_is_no_practice(orla: Review) -> None:
    """A sheet that was only printed leaves the warm-up at the computer and the front door as they were."""
    before = orla("warmup", "--explain", "--json", *MONDAY).out
    orla("sheet", "--out", "a.html", *MONDAY)
    orla("sheet", "--week", "--out", "b.html", *MONDAY)
    assert orla("warmup", "--explain", "--json", *MONDAY).out == before
    assert json.loads(orla("--json", *MONDAY).out)[0]["done"] is False
    told = orla("warmup", "--jsonl", *MONDAY, typed='{"stop":true}\n').out.splitlines()
    assert json.loads(told[0])["type"] == "problem"


def test_practice_for_a_child_and_for_nobody(orla: Review, here: Path) -> None:
    own = orla("sheet", "--practice", "table-of-5", "--count", "12", "--out", "a.html", *MONDAY)
    number = number_of(own.out)
    assert "Orla" in own.out
    assert len(prompts(here / "a.html")) == 12
    again = orla("sheet", "--number", str(number), "--out", "b.html")
    assert again.code == 0
    assert prompts(here / "b.html") == prompts(here / "a.html")
    taken = orla("sheet", "--practice", "table-of-5", "--number", str(number), "--out", "c.html", *MONDAY)
    assert (taken.code, "made already" in taken.err) == (1, True)


def test_a_sheet_of_practice_comes_back_in_the_order_it_was_kept_in(
    orla: Review, here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One that fills its pages as well as one that was made in another order."""
    assert orla("set", "add", "telling-time-minutes", "Orla", "--taught", *MONDAY).code == 0
    wish = ("sheet", "Orla", "--practice", "telling-time-minutes", "--count", "20", *MONDAY)
    shown = []
    for order in (pages.filling, lambda tasks, *_: tasks[::-1]):
        with monkeypatch.context() as patch:
            patch.setattr(pages, "filling", order)
            number = number_of(orla(*wish, "--out", "a.html", "--force").out)
        made = prompts(here / "a.html")
        for size in ((), ("--large",)):
            again = orla("sheet", "--number", str(number), *size, "--out", "b.html", "--force")
            assert (again.code, prompts(here / "b.html")) == (0, made)
        shown.append(made)
    assert shown[0] != shown[1]


def test_practice_needs_no_book_and_comes_again_by_its_number(review: Review, here: Path) -> None:
    wish = ("sheet", "--practice", "column-sums-to-999", "--count", "8")
    done = review(*wish, "--number", "4711", "--out", "a.html")
    assert (done.code, done.err) == (0, "")
    assert "--number 4711" in done.out
    review(*wish, "--number", "4711", "--out", "b.html")
    review(*wish, "--number", "4712", "--out", "c.html")
    assert prompts(here / "a.html") == prompts(here / "b.html")
    assert prompts(here / "a.html") != prompts(here / "c.html")
    assert not (here / "family.book").exists()


def test_in_a_larger_family_practice_without_a_name_is_nobodys(family: Review, here: Path) -> None:
    before = (here / "family.book").read_bytes()
    done = family("sheet", "--practice", "table-of-2", "--number", "5", "--out", "a.html")
    assert (done.code, "Mira" in done.out) == (0, False)
    assert (here / "family.book").read_bytes() == before


@pytest.mark.parametrize(
    "wish",
    [
        ("--slips", "times-2-5-10"),
        ("--slips", "times-2-5-10", "--large"),
        ("--grid", "products"),
        ("--grid", "sums", "--fill", "full", "--to", "20"),
        ("--blank", "ten-frames"),
        ("--blank", "mats", "--places", "4"),
        ("--blank", "lines", "--large"),
    ],
)
@pytest.mark.parametrize("name", ["x.html", "x.pdf"])
def test_what_needs_no_book(review: Review, here: Path, wish: tuple[str, ...], name: str) -> None:
    done = review("sheet", *wish, "--out", name)
    assert (done.code, done.err) == (0, "")
    start = (here / name).read_bytes()[:15]
    assert start == b"<!DOCTYPE html>" or start.startswith(b"%PDF-")
    assert not (here / "family.book").exists()


def test_a_childs_slips_and_overdue_square(orla: Review, here: Path) -> None:
    assert orla("sheet", "--slips", "times-2-5-10", "Orla", "--out", "s.html", *MONDAY).code == 0
    slips = (here / "s.html").read_text(encoding="utf-8")
    assert ("Tables of 2, 5 and 10" in slips, "times-2-5-10" in slips) == (True, False)
    none = orla("sheet", "--grid", "products", "--fill", "overdue", "--out", "g.html", *MONDAY)
    assert (none.code, "None of Orla's products is overdue" in none.err) == (1, True)
    number = str(number_of(orla("sheet", "--week", "--out", "w.html", *SUNDAY).out))
    for day in "12345":
        assert orla("enter", number, "--day", day, "--marks", "all").code == 0
    done = orla("sheet", "--grid", "products", "--fill", "overdue", "--out", "g.html", "--on", "2026-03-10")
    assert done.code == 0, done.err
    assert 'class="room fill"' in (here / "g.html").read_text(encoding="utf-8")


def test_slips_say_at_their_foot_how_to_make_them_again(review: Review, here: Path) -> None:
    def foot(name: str) -> list[str]:
        assert review("sheet", "--slips", name, "--number", "4711", "--out", "s.html", "--force").code == 0
        return texts(of_class(read((here / "s.html").read_text(encoding="utf-8")), "foot"))

    fronts = [f"review sheet --slips times-2-5-10 --number 4711 sheet {n} of 2" for n in (1, 2)]
    assert foot("times-2-5-10") == [f"{front}, {side}" for front in fronts for side in ("front", "back")]
    kept = (Path(__file__).parents[2] / "card_sets" / "times-2-5-10.toml").read_text(encoding="utf-8")
    long = here / f"{'a-long-name-' * 9}.toml"
    long.write_text(kept.replace('id = "times-2-5-10"', 'id = "ours"'), encoding="utf-8")
    assert foot(long.name)[0] == "Slips 4711 sheet 1 of 2, front"


# --- what cannot be -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wish", "code", "says"),
    [
        (("--week", "--today"), 2, "One sort of sheet at a time"),
        (("--grid", "products", "--blank", "mats"), 2, "One sort of sheet"),
        (("--count", "3"), 2, "--count goes with --practice"),
        (("--fill", "full"), 2, "--fill goes with --grid"),
        (("--to", "9"), 2, "--to goes with --grid"),
        (("--grid", "sums", "--places", "3"), 2, "--places goes with --blank"),
        (("--practice", "table-of-5", "--count", "0"), 1, "from 1 to 60"),
        (("--grid", "products", "--to", "99"), 1, "from 5 to 12"),
        (("--blank", "mats", "--places", "9"), 1, "from 2 to 4"),
        (("--practice", "table-of-fiev"), 1, "Did you mean table-of-five"),
        (("--slips", "place-value-to-99"), 1, "has no facts"),
        (("--slips", "times-2-5-11"), 1, "no skill set called"),
        (("--number", "12"), 1, "no sheet 12"),
        (("Fenn",), 1, "no child called"),
        (("--out", "x.doc"), 1, "ends in .html or .pdf"),
        (("--out", "."), 1, "ends in .html or .pdf"),
        (("--out", "no/such/x.html"), 1, "There is no folder"),
    ],
)
def test_one_sentence_for_what_cannot_be(
    orla: Review, here: Path, wish: tuple[str, ...], code: int, says: str
) -> None:
    before = (here / "family.book").read_bytes()
    done = orla("sheet", *wish, *MONDAY)
    assert done.code == code
    assert says.replace("-five", "") in done.err
    assert done.out == ""
    assert not list(here.glob("*.html"))
    assert (here / "family.book").read_bytes() == before, "no number for a sheet that cannot be"


def test_a_file_that_is_there_is_not_written_over_unasked(orla: Review, here: Path) -> None:
    (here / "mine.html").write_text("mine")
    book = (here / "family.book").read_bytes()
    done = orla("sheet", "--out", "mine.html", *MONDAY)
    assert (done.code, "--force" in done.err) == (1, True)
    assert (here / "mine.html").read_text() == "mine"
    assert (here / "family.book").read_bytes() == book
    assert orla("sheet", "--out", "mine.html", "--force", *MONDAY).code == 0
    assert prompts(here / "mine.html")


def test_a_folder_is_no_file(orla: Review, here: Path) -> None:
    (here / "x.html").mkdir()
    done = orla("sheet", "--out", "x.html", "--force", *MONDAY)
    assert (done.code, "is a folder" in done.err) == (1, True)


def test_a_place_that_cannot_be_written_is_told(
    orla: Review, here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from review import files

    def full(path: Path, data: bytes, sync: bool = True) -> None:
        raise OSError(28, "No space left on device")

    real = files.write_whole
    monkeypatch.setattr(
        files,
        "write_whole",
        lambda path, *rest: full(path, b"") if path.suffix == ".html" else real(path, *rest),
    )
    done = orla("sheet", "--blank", "mats", "--out", "x.html")
    assert (done.code, "cannot be written (no space left on device)" in done.err) == (1, True)


def test_a_pdf_without_the_typesetter_says_what_to_do_and_makes_no_sheet(
    orla: Review, here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from review.render import sheet_pdf

    monkeypatch.setattr(sheet_pdf, "find_spec", lambda name: None)
    book = (here / "family.book").read_bytes()
    done = orla("sheet", "--out", "x.pdf", *MONDAY)
    assert (done.code, "pip install typst" in done.err) == (1, True)
    assert (here / "family.book").read_bytes() == book


def test_letters_that_a_pdf_cannot_show_are_told_once(
    orla: Review, here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import typst

    monkeypatch.setattr(typst, "compile", partial(typst.compile, ignore_system_fonts=True))
    assert orla("child", "add", "漢字", "--age", "9", *MONDAY).code == 0
    assert orla("set", "add", "times-2-5-10", "漢字", "--taught", *MONDAY).code == 0
    done = orla("sheet", "漢字", "--out", "x.pdf", *MONDAY)
    assert done.code == 0
    told = " ".join(done.out.split())
    assert told.count("This computer has no letters for 漢 and 字: the PDF shows empty boxes there.") == 1
    assert "write --out x.html" in told
    for wish in (("Orla", "--out", "o.pdf"), ("漢字", "--out", "x.html")):
        assert "no letters" not in orla("sheet", *wish, *MONDAY).out


def wide(orla: Review, here: Path, *more: str) -> int:
    """Width of a page in points: 595 of A4, 612 of Letter."""
    from io import BytesIO

    from pypdf import PdfReader

    orla("sheet", "--blank", "mats", "--out", "x.pdf", "--force", *more)
    return int(PdfReader(BytesIO((here / "x.pdf").read_bytes())).pages[0].mediabox.width)


def test_letter_for_families_who_read_school_years_of_the_united_states(orla: Review, here: Path) -> None:
    assert wide(orla, here) == 595
    orla("set", "years", "us", *MONDAY)
    assert wide(orla, here) == 612
    assert wide(orla, here, "--paper", "a4") == 595


def test_paper_goes_by_money_where_only_ages_were_chosen(
    orla: Review, here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The computer's own country is not asked."""
    monkeypatch.setenv("LC_ALL", "en_US.UTF-8")
    for money, size in (("all", 595), ("dollars", 612), ("pounds", 595)):
        orla("set", "money", money, *MONDAY)
        assert wide(orla, here) == size


def test_practice_of_a_whole_set_is_called_like_the_set(orla: Review, here: Path) -> None:
    done = orla("sheet", "--practice", "times-2-5-10", "--out", "p.html", *MONDAY)
    assert done.code == 0
    assert "<h1" in (page := (here / "p.html").read_text("utf-8"))
    assert ">Tables of 2, 5 and 10</h1>" in page
    assert "--count" not in done.out, "twenty is what is made where no count is written"
