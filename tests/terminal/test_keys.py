"""Bytes to keys: nothing a terminal sends of its own ever enters an answer."""

import errno
import os
import signal
import threading
import time
from types import FrameType
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from review.errors import Interrupted
from review.terminal.keys import Decoder, Keys

# Sequences as terminals send them: ECMA-48 (fifth edition, 1991) for their forms, and the control sequences
# xterm documents for cursor, function and mouse keys, focus, and replies; written from memory.
SEQUENCES = (
    b"\x1b[A", b"\x1b[1;5C", b"\x1bOP", b"\x1b[15~", b"\x1b[200~\x1b[201~", b"\x1b[<0;12;7M", b"\x1b[?1;2c",
    b"\x1b[I", b"\x1b]11;rgb:0000/0000/0000\x07", b"\x1b]52;c;NDI=\x1b\\", b"\x1bP1$r0m\x1b\\", b"\x1bx",
    b"\x1b[[A", b"\xc2\x9b3~", b"\x1b[12;40R",
)  # fmt: skip


@pytest.mark.parametrize("sequence", SEQUENCES)
def test_an_escape_sequence_gives_no_key(sequence: bytes) -> None:
    decoder = Decoder()
    assert decoder.feed(sequence) == []
    assert decoder.feed(b"4") == ["4"]


PARTS = st.lists(st.sampled_from([*SEQUENCES, b"4", b"2", "×".encode(), "数".encode()]))


@given(PARTS, st.data())
def test_bytes_cut_anywhere_give_the_same_keys(parts: list[bytes], data: st.DataObject) -> None:
    whole = b"".join(parts)
    cuts = sorted(data.draw(st.sets(st.integers(0, len(whole)), max_size=8)))
    decoder = Decoder()
    pieces = [whole[a:b] for a, b in zip([0, *cuts], [*cuts, len(whole)], strict=True)]
    keys = [key for piece in pieces for key in decoder.feed(piece)]
    assert keys == [part.decode() for part in parts if part not in SEQUENCES]


@given(st.binary(max_size=200))
def test_any_bytes_give_printable_characters_or_named_keys(data: bytes) -> None:
    for key in Decoder().feed(data):
        assert len(key) > 1 or key.isprintable()


@pytest.mark.parametrize(
    ("data", "keys"),
    [
        (b"\r", ["enter"]), (b"\n", ["enter"]), (b"\x7f", ["erase"]), (b"\x08", ["erase"]),
        (b"\x15", ["clear"]),
        (b"?", ["help"]), (b"\t", ["help"]), (b"\x03", ["interrupt"]), (b"\x04", ["stop"]),
        ("？".encode(), ["help"]), (b"\x00\x01\x13\x7f", ["erase"]), (b"\xff\xfe4", ["4"]),
    ],
)  # fmt: skip
def test_bytes_are_read_as_the_keys_they_mean(data: bytes, keys: list[str]) -> None:
    assert Decoder().feed(data) == keys


def test_a_lone_escape_is_dropped_after_a_silence() -> None:
    decoder = Decoder()
    assert decoder.feed(b"\x1b") == []
    assert decoder.patience is not None
    decoder.settle()
    assert decoder.patience is None
    assert decoder.feed(b"42") == ["4", "2"]


def test_a_paste_gives_its_characters_and_no_key_that_acts() -> None:
    decoder = Decoder()
    assert decoder.feed(b"\x1b[200~4?\r\n\t\x032\x1b[201~\r") == ["4", "?", "2", "enter"]


def test_a_paste_that_never_ends_ends_after_a_silence() -> None:
    decoder = Decoder()
    assert decoder.feed(b"\x1b[200~4\r") == ["4"]
    assert decoder.patience is not None
    decoder.settle()
    assert decoder.feed(b"\r") == ["enter"]


def test_another_encoding_is_read_as_such() -> None:
    assert Decoder("latin-1").feed(b"\xe9") == ["é"]


def test_a_signal_in_between_leaves_no_terminal_raw(monkeypatch: pytest.MonkeyPatch) -> None:
    termios = pytest.importorskip("termios")
    master, slave = os.openpty()
    before, real, cut = termios.tcgetattr(slave), termios.tcsetattr, list[int]()

    def interrupted(fd: int, when: int, attributes: list[Any]) -> None:
        if len(cut) % 2 == 0:
            cut.append(when)
            raise termios.error(errno.EINTR, "Interrupted system call")
        cut.append(when)
        real(fd, when, attributes)

    monkeypatch.setattr(termios, "tcsetattr", interrupted)
    with Keys(slave, slave):
        assert termios.tcgetattr(slave)[3] & termios.ICANON == 0
    assert termios.tcgetattr(slave) == before
    assert cut == [termios.TCSADRAIN] * 2 + [termios.TCSAFLUSH] * 2
    os.close(slave)
    os.close(master)


def test_a_signal_in_the_moment_before_the_wait_is_heard_at_once() -> None:
    """Imitated by one that another thread takes: neither cuts the wait short."""
    pytest.importorskip("termios")
    master, slave = os.openpty()

    def heard(number: int, frame: FrameType | None) -> None:
        raise Interrupted("heard")

    def elsewhere() -> None:
        time.sleep(0.05)
        signal.pthread_kill(threading.get_ident(), signal.SIGUSR1)
        if not over.wait(5):
            os.write(master, b"4")  # only this ends the wait where the signal does not
            late.append("4")

    late: list[str] = []
    over, before = threading.Event(), signal.signal(signal.SIGUSR1, heard)
    other = threading.Thread(target=elsewhere)
    try:
        with Keys(slave, slave) as keys:
            other.start()
            with pytest.raises(Interrupted):
                keys.read()
    finally:
        over.set()
        other.join()
        signal.signal(signal.SIGUSR1, before)
    assert late == []
    assert signal.set_wakeup_fd(-1) == -1
    os.close(slave)
    os.close(master)


def test_what_is_typed_ahead_is_thrown_away_but_no_key_that_stops() -> None:
    """The terminal's own way to throw input away lost all twenty of them here (Linux 6.18)."""
    termios, fcntl = pytest.importorskip("termios"), pytest.importorskip("fcntl")
    master, slave = os.openpty()
    told, tell = os.pipe()
    child = os.fork()
    if child == 0:  # signals go to those whose terminal it is, which takes a session of its own
        heard = list[int]()
        os.setsid()
        fcntl.ioctl(slave, termios.TIOCSCTTY, 0)
        signal.signal(signal.SIGTSTP, lambda number, frame: heard.append(number))
        with Keys(slave, slave) as keys:
            for _ in range(20):
                os.write(master, b"42\x1a")
                keys.flush()
                time.sleep(0.02)
            os.write(master, b"7\r")
            read = [keys.read().name for _ in range(2)]
        os.write(tell, f"{len(heard)} {read}".encode())
        os._exit(0)
    os.waitpid(child, 0)
    assert os.read(told, 100).decode() == "20 ['7', 'enter']"
    for fd in (master, slave, told, tell):
        os.close(fd)
