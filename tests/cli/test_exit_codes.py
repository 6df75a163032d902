"""The exit codes that README promises to whoever calls the program from another one."""

from review import errors
from review.cli import SIGNALS


def classes(of: type[errors.ReviewError]) -> list[type[errors.ReviewError]]:
    return [of, *(below for one in of.__subclasses__() for below in classes(one))]


def test_what_can_be_mended_is_1_the_book_3_and_an_interrupt_130() -> None:
    assert {one.exit_code for one in classes(errors.Mendable)} == {1}
    assert {one.exit_code for one in classes(errors.BookError)} == {3}
    assert errors.Interrupted.exit_code == 130
    assert {one.exit_code for one in classes(errors.ReviewError)} == {1, 3, 130}


def test_a_signal_leaves_with_128_and_its_number() -> None:
    """As a shell tells it (POSIX.1-2017, XCU 2.8.2: greater than 128; the sum is common practice)."""
    assert {"SIGTERM": 143, "SIGHUP": 129}.items() <= SIGNALS.items()
