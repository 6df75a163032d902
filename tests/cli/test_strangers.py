"""What a stranger types, and the one sentence each gets: what is wrong, where, and what to do.

`GOLDEN=write python -m pytest tests/cli/test_strangers.py` writes the table anew; read it before it is kept.
"""

import os
from pathlib import Path

import pytest

from review.app import demo
from review.book.store import Book
from tests.cli.conftest import Review

GOLDEN = Path(__file__).parent / "golden" / "strangers.txt"
LONG = "x" * 5000
GROW_UP = demo.grow_up

TYPED: tuple[str, ...] = (
    "overdew",
    "-x",
    "--nonsense",
    "--book",
    "--on 2026-01-06 overdue",
    "set",
    "child",
    "set lst",
    "child ad Mira",
    "warmup Mirra",
    "warmup Zebedee",
    "warmup",
    "warmup Mira --minutes many",
    "warmup Mira --minutes 0",
    "warmup Mira --minutes 99",
    "warmup Mira --on yesterday",
    "warmup Mira --on 2026-13-01",
    "warmup Mira extra",
    "warmup Mira --on 2020-01-01",
    "warmup Mira --aloud --jsonl",
    "warmup Mira --explain --jsonl",
    "taught",
    "taught sums",
    "taught zzz Mira",
    "taught zzz Jonah",
    "extra",
    "extra zzz Mira",
    "extra sums-to-5 Mira --count 0",
    "extra sums-to-5 Mira --count many",
    "undo Zebedee",
    "undo Mira --yes",
    "undo Mira --card 6x7 --yes",
    "undo Mira --redo --yes",
    "undo Mira --slip --sitting --yes",
    "known",
    "known zzz Mira",
    "known --card 99x99 Mira",
    "known --card ☃ Mira",
    "teach Zebedee",
    "focus zzz Mira",
    "focus",
    "away Mira",
    "away --from 2026-02-07 --to 2026-02-01 Mira",
    "away --from soon --to later Mira",
    "brief Zebedee",
    "placement",
    "placement zzz Mira",
    "placement roman-early Mira --known zzz",
    "overdue Zebedee",
    "overdue --colour",
    "overdue Mira --square zzz",
    "misses Zebedee",
    "stuck Zebedee",
    "progress Mira --since soon",
    "progress Mira --since 2026-02-01 --until 2026-01-01",
    "progress --html",
    "progress --html gone/x.html",
    "pacing Mira --minutes 0",
    "pacing Zebedee",
    "log --format xml",
    "log --since 2026-02-01 --until 2026-01-01",
    "log --out gone/x.html",
    "sheet Mira --out x.docx",
    "sheet Mira --out gone/x.html",
    "sheet --practice zzz --out x.html",
    "sheet --blank zzz --out x.html",
    "sheet --grid zzz --out x.html",
    "sheet --slips zzz --out x.html",
    "sheet Zebedee --out x.html",
    "enter",
    "enter zzz",
    "enter 0",
    "enter 4711",
    "enter 1000000",
    "fit Zebedee",
    "fit Jonah",
    "export",
    "export gone/x.jsonl",
    "export text.txt",
    "import",
    "import gone.jsonl",
    "import text.txt",
    "import .",
    "import pipe",
    "merge",
    "merge gone.book",
    "merge text.txt",
    "merge .",
    "merge family.book",
    "merge pipe",
    "backup text.txt",
    "backup gone/x.book",
    "restore gone.book",
    "restore text.txt --yes",
    "restore pipe --yes",
    "verify more",
    "set show zzz",
    "set show",
    "set add",
    "set add zzz Mira",
    "set add adition-facts-10 Mira",
    "set add roman-early Zebedee",
    "set add gone.toml Mira",
    "set drop roman-early Jonah",
    "set drop zzz Mira",
    "set add times-2-5-10 Mira --aim perfect",
    "set check",
    "set check gone.toml",
    "set check text.txt",
    "set check .",
    "set check pipe",
    "child add",
    "child add Mira --age 7",
    "child add Ida",
    "child add Ida --age old",
    "child add Ida --age 70",
    "child add Ida --age 7 --minutes 0",
    "child add Ida --age 7 --zone Mars/Base",
    f"child add {LONG} --age 7",
    "child show Zebedee",
    "child edit Mi --age 8",
    "child edit Mira",
    "child edit Mira --age 0",
    "child forget Mi",
    "child forget Zebedee",
    "completion zzz",
    "demo --folder text.txt",
    "demo --folder .",
    "--book gone.book overdue",
    "--book text.txt overdue",
    "--book . overdue",
    "--book pipe overdue",
    f"warmup {LONG}",
)


def answered(review: Review) -> list[str]:
    found = []
    for line in TYPED:
        done = review(*line.split(), typed="")
        if "This computer says" in done.err:  # the family's days are of last winter
            done = review(*line.split(), "--on", "2026-01-06", typed="")
        shown = line if len(line) < 60 else f"{line[:30]}..."
        where = done.err.replace(str(Path.cwd()) + os.sep, "").replace(str(Path.cwd()), ".").strip()
        found.append(f"$ review {shown}\n[{done.code}] {where or done.out.strip().splitlines()[0]}\n")
    return found


def two_days(book: Book, role: demo.Role, first_day: int, days: int, seed: int) -> None:
    """The last two of a demo's days, for its sentences alone."""
    GROW_UP(book, role, first_day + days - 2, 2, seed)


@pytest.fixture
def stranger(family: Review, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Review:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(demo, "grow_up", two_days)  # README's test plays all 90
    Path("text.txt").write_text("Dear diary.\n", encoding="utf-8")
    os.mkfifo("pipe")
    return family


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs named pipes")
def test_each_gets_its_sentence(stranger: Review) -> None:
    found = answered(stranger)
    if os.environ.get("GOLDEN") == "write":
        GOLDEN.write_text("\n".join(found), encoding="utf-8")
    assert found == [f"{one}\n" for one in GOLDEN.read_text(encoding="utf-8").rstrip("\n").split("\n\n")]
    for one in found:
        assert "Traceback" not in one
        assert len(one) < 700, one


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs named pipes")
def test_nothing_typed_so_changes_the_book(stranger: Review) -> None:
    before = stranger("export", "a.jsonl"), Path("a.jsonl").read_bytes()
    for line in (
        "taught zzz Mira",
        "set add zzz Mira",
        "import text.txt",
        "merge text.txt",
        "restore text.txt --yes",
    ):
        assert stranger(*line.split()).code != 0
    stranger("export", "b.jsonl")
    assert Path("b.jsonl").read_bytes() == before[1]
