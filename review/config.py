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
    return user_folder("XDG_DATA_HOME", ".local/share", environ) / BOOK_NAME


def state_folder() -> Path:
    """What belongs to this computer and not to the book: its device ids."""
    return user_folder("XDG_STATE_HOME", ".local/state", os.environ)


def user_folder(named: str, otherwise: str, environ: Mapping[str, str]) -> Path:
    """The program's folder among the user's own: of data, or of state."""
    found = plain_folder(named, otherwise, environ) if sys.platform == "linux" else None
    if found is not None:
        return found / "review"
    import platformdirs

    known = {"XDG_DATA_HOME": platformdirs.user_data_path, "XDG_STATE_HOME": platformdirs.user_state_path}
    return known[named]("review", appauthor=False)


def plain_folder(named: str, otherwise: str, environ: Mapping[str, str]) -> Path | None:
    """Where Linux keeps it (XDG Base Directory Specification 0.8), if its variable, or else HOME, says so
    plainly; None: the library knows. A test holds it against the library."""
    # The library can do it as well, but every start would wait 5 ms for it, with what makes temporary files.
    given, home = environ.get(named), environ.get("HOME", "")
    if "ANDROID_ROOT" in environ:
        return None
    if given:
        return Path(given) if is_rooted(given) else None
    return Path(home, otherwise) if is_rooted(home) else None


def is_rooted(path: str) -> bool:
    return path.startswith("/") and not path.startswith("//") and path == path.strip()


def locale_name(environ: Mapping[str, str] = os.environ) -> str:
    """What this computer says of money and country, in the order of POSIX; "" where it says nothing."""
    return next((environ[name] for name in ("LC_ALL", "LC_MONETARY", "LANG") if environ.get(name)), "")


@cache
def catalogue_folder() -> Path:
    """The shipped skill sets: inside an installed package, else beside it in a clone."""
    package = Path(__file__).parent
    inside = package / "card_sets"
    return inside if inside.is_dir() else package.parent / "card_sets"
