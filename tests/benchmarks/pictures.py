"""All forms of pictures on one page, to be looked at.

    python -m tests.benchmarks.pictures FOLDER [keep]

Writes FOLDER/pictures.html and, where Chromium is installed, FOLDER/pictures.png. With `keep`, what the
golden files hold is written anew: look at the page first.
"""

import shutil
import subprocess
import sys
from pathlib import Path

from review.core.picture_words import sentence
from review.render.svg import svg
from tests.core.picture_samples import GOLDEN, SAMPLES, in_words_and_signs

BROWSERS = ("chromium", "chromium-browser", "google-chrome")


def page() -> str:
    drawn = "\n".join(
        f"<figure>{svg(picture)}<figcaption>{name}: {sentence(picture)}</figcaption></figure>"
        for name, picture in SAMPLES.items()
    )
    style = "figure{display:inline-block;width:22rem;vertical-align:top;font:0.8rem sans-serif}"
    head = f'<meta charset="utf-8"><title>Pictures</title><style>{style}</style>'
    return f'<!doctype html><html lang="en">{head}{drawn}'


def keep() -> None:
    for name, picture in SAMPLES.items():
        (GOLDEN / f"{name}.txt").write_text(in_words_and_signs(picture), encoding="utf-8")
        (GOLDEN / f"{name}.svg").write_text(svg(picture) + "\n", encoding="utf-8")


def main(folder: str, *options: str) -> None:
    path = Path(folder) / "pictures.html"
    path.write_text(page(), encoding="utf-8")
    browser = next(filter(None, map(shutil.which, BROWSERS)), None)
    if browser:
        to = f"--screenshot={path.with_suffix('.png')}"
        shot = [browser, "--headless", "--no-sandbox", "--window-size=1200,2400", to]
        subprocess.run([*shot, path.absolute().as_uri()], check=True, capture_output=True)
    if "keep" in options:
        keep()


if __name__ == "__main__":
    main(*sys.argv[1:])
