"""Where things are kept: the book, the state of this computer, the catalogue of skill sets."""

import os
from collections.abc import Mapping
from functools import cache
from pathlib import Path

BOOK_NAME = "family.book"


def book_path(given: str | None, environ: Mapping[str, str] = os.environ) -> Path:
    """`--book`, else `REVIEW_BOOK`, else a file in the user's data folder."""
    chosen = given or environ.get("REVIEW_BOOK")
    if chosen:
        return Path(chosen).expanduser()
    from platformdirs import user_data_path  # 20 ms, and only needed here

    return user_data_path("review", appauthor=False) / BOOK_NAME


def state_folder() -> Path:
    """What belongs to this computer and not to the book: its device ids."""
    from platformdirs import user_state_path

    return user_state_path("review", appauthor=False)


def locale_name(environ: Mapping[str, str] = os.environ) -> str:
    """What this computer says of money and country, in the order of POSIX; "" where it says nothing."""
    return next((environ[name] for name in ("LC_ALL", "LC_MONETARY", "LANG") if environ.get(name)), "")


@cache
def catalogue_folder() -> Path:
    """The shipped skill sets: inside an installed package, else beside it in a clone."""
    package = Path(__file__).parent
    inside = package / "card_sets"
    return inside if inside.is_dir() else package.parent / "card_sets"
