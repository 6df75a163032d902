"""Every sort of sheet, and the pages of the desk, as a browser prints them: nothing runs over its place, and
pages break where they should.

    python -m tests.looks [FOLDER]

It needs Chromium and poppler's `pdftoppm`, which the tests do not, and leaves the pages as pictures in FOLDER
to be looked at. OVER tells how many places of a sheet are too small for what they hold.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from review.core.paper import Sheet
from review.render import sheet_page, sheet_pdf
from tests import looks_desk
from tests.render.sheets import everything, small_ones

CHROMIUM = (
    "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-extensions",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip
PLACES = (
    ".page, .blocks > *, .box, .box > div, .line, .shown, .entry, .slip, td, th, .words p, .top p, .top h1, "
    ".start *"
)
COUNT = f"""<script>
const over = [...document.querySelectorAll({PLACES!r})].filter(one =>
  one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display != "inline" ||
  one.scrollHeight > one.clientHeight + 2 && getComputedStyle(one).display != "inline");
const inside = [...document.querySelectorAll(".box, .entry, .slip, .box svg")].filter(one => {{
  const place = one.getBoundingClientRect();
  return [...one.querySelectorAll("*")].some(part => {{
    const taken = part.getBoundingClientRect();
    const beside = taken.right > place.right + 1 || taken.left < place.left - 1;
    return taken.width && (beside || taken.bottom > place.bottom + 1);
  }});
}});
document.title = "OVER " + (over.length + inside.length) + " " +
  [...over, ...inside].slice(0, 3).map(one => one.getAttribute("class") + ": " + one.textContent.slice(0, 40))
    .join(" | ");
</script>"""
"""Set into a copy of the page, whose own policy lets no script run."""


def overflowing(page: str, folder: Path) -> str:
    """How many places hold more than they have room for, and the first of them; "" for none."""
    copy = folder / "copy.html"
    bare = re.sub(r"<meta http-equiv[^>]*>", "", page)
    copy.write_text(bare.replace("</body>", f"{COUNT}</body>"), encoding="utf-8")
    told = browsed(folder, "--dump-dom", copy.as_uri())
    found = re.search(r"<title>OVER (\d+) ([^<]*)</title>", told)
    assert found, told[:200]
    return "" if found[1] == "0" else f"{found[1]}: {found[2]}"


def browsed(folder: Path, *words: str) -> str:
    profile = f"--user-data-dir={folder / 'profile'}"
    done = subprocess.run([*CHROMIUM, profile, *words], capture_output=True, text=True, timeout=120)
    return done.stdout


def console(folder: Path, *words: str) -> str:
    """What the browser says while it shows a page."""
    command = [*CHROMIUM, f"--user-data-dir={folder / 'profile'}", "--enable-logging=stderr", "--dump-dom"]
    return subprocess.run([*command, *words], capture_output=True, text=True, timeout=120).stderr


def desk(folder: Path) -> int:
    """The pages a parent prints; how many troubles there were."""
    found = [
        one
        for name, page in looks_desk.pages(folder)
        for one in looks_desk.troubles(name, page, folder, browsed, console)
    ]
    for one in found or ["the pages of the desk: sound"]:
        print(one, flush=True)
    return len(found)


def printed(name: str, page: str, folder: Path) -> int:
    """Printed by the browser; how many pages came out, each as a picture beside."""
    source, target = folder / f"{name}.html", folder / f"{name}.pdf"
    source.write_text(page, encoding="utf-8")
    browsed(folder, "--no-pdf-header-footer", f"--print-to-pdf={target}", source.as_uri())
    subprocess.run(["pdftoppm", "-r", "60", "-png", target, folder / f"{name}-browser"], check=True)
    return len(list(folder.glob(f"{name}-browser-*.png")))


def typeset(name: str, sheet: Sheet, folder: Path) -> None:
    for n, picture in enumerate(sheet_pdf.typeset(sheet, "a4", "png", 60.0), 1):
        (folder / f"{name}-typeset-{n:02}.png").write_bytes(picture)


def sheets() -> Iterator[tuple[str, Sheet]]:
    yield from small_ones()
    yield "everything", everything()
    yield "everything, large", everything(True)


def main(folder: Path) -> int:
    folder.mkdir(parents=True, exist_ok=True)
    if shutil.which(CHROMIUM[0]) is None:
        print("Chromium is not here: nothing was looked at.")
        return 1 if os.environ.get("CI") == "true" else 0
    troubles = desk(folder)
    for title, sheet in sheets():
        name = re.sub(r"\W+", "-", title)
        page = sheet_page.html(sheet)
        over, count = overflowing(page, folder), printed(name, page, folder)
        typeset(name, sheet, folder)
        right = not over and count == len(sheet.pages)
        troubles += not right
        print(f"{title}: {count} of {len(sheet.pages)} pages{'' if right else f', OVER {over}'}", flush=True)
    shutil.rmtree(folder / "profile", ignore_errors=True)
    print(f"Look at them: {folder}")
    return 1 if troubles else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1] if len(sys.argv) > 1 else tempfile.mkdtemp(prefix="looks-"))))
