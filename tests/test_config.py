"""Where things are kept: the short way on Linux says what the library says."""

import sys
from pathlib import Path

import platformdirs
import pytest
from hypothesis import given
from hypothesis import strategies as st

from review import config

NAMES = st.text(st.characters(codec="utf-8", exclude_characters="\x00"), max_size=6)
FOLDERS = st.one_of(
    st.none(),
    st.sampled_from(("", "/", "//", "/home/mira", "/home/mira/", "~", "~/x", "/a/../b", "a/b", " /x", "/x ")),
    NAMES.map("/{}".format),
)


@pytest.mark.skipif(sys.platform != "linux", reason="only there is a short way")
@given(FOLDERS, FOLDERS, FOLDERS)
def test_the_folders_are_those_of_the_library(home: str | None, data: str | None, state: str | None) -> None:
    named = {"HOME": home, "XDG_DATA_HOME": data, "XDG_STATE_HOME": state}
    with pytest.MonkeyPatch.context() as monkeypatch:
        monkeypatch.delenv("REVIEW_BOOK", raising=False)
        for name, folder in named.items():
            if folder is None:
                monkeypatch.delenv(name, raising=False)
            else:
                monkeypatch.setenv(name, folder)
        kept = platformdirs.user_data_path("review", appauthor=False)
        assert config.book_path(None) == kept / "family.book"
        assert config.state_folder() == platformdirs.user_state_path("review", appauthor=False)


@pytest.mark.parametrize(
    ("environ", "found"),
    [
        ({"HOME": "/home/mira"}, "/home/mira/.local/state"),
        ({"HOME": "/home/mira", "XDG_STATE_HOME": "/s"}, "/s"),
        ({"HOME": "/home/mira", "XDG_STATE_HOME": "s"}, None),
        ({"HOME": "/home/mira", "ANDROID_ROOT": "/system"}, None),
        ({}, None),
    ],
)
def test_what_is_not_plain_is_left_to_the_library(environ: dict[str, str], found: str | None) -> None:
    plain = config.plain_folder("XDG_STATE_HOME", ".local/state", environ)
    assert plain == (Path(found) if found else None)
