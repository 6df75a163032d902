"""The pictures in the README: real screens as SVG, a line of text for a line of the screen.

python -m tests.screens        (writes them anew, by the demo's book)
"""

import shutil
import sys
import tempfile
from html import escape
from pathlib import Path
from typing import NamedTuple

PLACE = Path(__file__).parent.parent / "docs"
ACROSS, DOWN, MARGIN = 8.4, 18, 14  # of a sign, of a line, around all of it, in pixels
STYLE = "font: 14px ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace"
SPACES = 'xml:space="preserve" style="white-space: pre"'
"""On each line: a browser's own rule for text comes before what a line would inherit, and folds spaces."""


DEMO = "review demo --folder lighthouse --on 2026-11-25"
BOOK = "review --book lighthouse/demo.book"
SIZE = (44, 30)  # columns and rows of the terminal that is pressed in


class Screen(NamedTuple):
    typed: str  # the command as one would type it
    arguments: str  # as it is run for the picture
    keys: str = ""  # pressed one after the other, at a terminal of its own


SCREENS = {
    "square": Screen("review overdue Fenn --square --on 2026-09-15", "overdue Fenn --square --on 2026-09-15"),
    "help": Screen("review warmup Fenn", "warmup Fenn --try --on 2026-11-26", "????"),
}
"""By the name of the file. The day after the demo begins with a product that has rows of counters."""


def svg(title: str, lines: list[str]) -> str:
    """The lines as a picture: black on white, with a title for those who cannot see it."""
    wide = max(map(len, lines), default=0) * ACROSS + 2 * MARGIN
    high = len(lines) * DOWN + 2 * MARGIN
    text = "\n".join(
        f'<text x="{MARGIN}" y="{MARGIN + DOWN * n + 13}" {SPACES}>{escape(line)}</text>'
        for n, line in enumerate(lines)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 {wide:.0f} {high:.0f}" '
        f'width="{wide:.0f}" height="{high:.0f}" style="{STYLE}">\n<title>{escape(title)}</title>\n'
        f'<rect width="100%" height="100%" fill="white" stroke="#999"/>\n{text}\n</svg>\n'
    )


def drawn(name: str, folder: Path) -> str:
    """The screen as it is seen now, in a folder where the demo has been played."""
    from tests.test_docs import run

    screen = SCREENS[name]
    if screen.keys:
        return svg(screen.typed, pressed(screen, folder))
    lines = run(f"{BOOK} {screen.arguments}", folder).stdout.rstrip().splitlines()
    return svg(screen.typed, [f"$ {screen.typed}", *(line.rstrip() for line in lines)])


def pressed(screen: Screen, folder: Path) -> list[str]:
    """The page that stands on a terminal after the keys."""
    from tests.terminal.seat import Seat, sat

    book = folder / "lighthouse" / "demo.book"
    arguments = ["-m", "review", "--book", str(book), *screen.arguments.split()]
    home = {"XDG_STATE_HOME": str(folder / "state"), "NO_COLOR": "1"}
    with sat(Seat(sys.executable, arguments, *SIZE, home)) as taken:
        taken.waits().settle(0.5)
        for key in screen.keys:
            before = taken.text
            taken.press(key)
            taken.changed(before).settle(0.5)
        return taken.text.rstrip().splitlines()


def main() -> None:
    from tests.test_docs import run

    folder = Path(tempfile.mkdtemp())
    run(DEMO, folder)
    PLACE.mkdir(exist_ok=True)
    for name in SCREENS:
        (PLACE / f"{name}.svg").write_text(drawn(name, folder), encoding="utf-8")
    shutil.rmtree(folder)


if __name__ == "__main__":
    main()
