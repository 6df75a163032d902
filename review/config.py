"""Where things are kept: the book, the state of this computer, the catalogue of skill sets."""

import os
import sys
from collections.abc import Mapping
from functools import cache
from pathlib import Path

BOOK_NAME = "family.book"


def book_path(given: str | None, environ: Mapping[str, str] = os.environ) -> Path:
    """`--book`, else `REVIEW_BOOK`, else a file in the user's data folder."""
    chosen = given or environ.get("REVIEW_BOOK")
    if chosen:
        return Path(chosen).expanduser()
    return base("XDG_DATA_HOME", ".local/share", "user_data_path", environ) / BOOK_NAME


def state_folder(environ: Mapping[str, str] = os.environ) -> Path:
    """What belongs to this computer and not to the book: its device ids."""
    return base("XDG_STATE_HOME", ".local/state", "user_state_path", environ)


def base(variable: str, usual: str, elsewhere: str, environ: Mapping[str, str]) -> Path:
    """Our folder in a user's base folder. On Linux as the XDG Base Directory Specification 0.8 has it, by
    hand: the library that knows every system costs 8 ms of every command (measured here). A relative path in
    the variable is invalid, and ignored, says the specification."""
    if sys.platform != "linux":
        import platformdirs

        found: Path = getattr(platformdirs, elsewhere)("review", appauthor=False)
        return found
    told = Path(environ.get(variable, ""))
    return (told if told.is_absolute() else Path.home() / usual) / "review"


@cache
def catalogue_folder() -> Path:
    """The shipped skill sets: inside an installed package, else beside it in a clone."""
    package = Path(__file__).parent
    inside = package / "card_sets"
    return inside if inside.is_dir() else package.parent / "card_sets"
