"""Everything a user can be told went wrong: one tree, a sentence and an exit code a class."""


class ReviewError(Exception):
    """Base of all. `str(error)` is one sentence that says what, where and what to do."""

    exit_code = 1


class Mendable(ReviewError):
    """A mistake the user can mend: a name, a date, a file."""


class UnknownName(Mendable):
    """No child, set or skill of that name; the sentence offers the nearest."""


class SetMistakes(Mendable):
    """A skill set that cannot be used; every mistake is in the message, a line each."""


class BookMissing(Mendable):
    """There is no record book at that place."""


class BookError(ReviewError):
    """The record book cannot be used. Nothing in it was changed."""

    exit_code = 3


class BookForeign(BookError):
    """Not a record book of ours: a text file, a folder, another program's database."""


class BookNewer(BookError):
    """Written by a newer version."""


class BookDamaged(BookError):
    """The file's own proofs do not hold."""


class BookUnwritable(BookError):
    """Read-only, full disk, no permission, or busy too long."""


class BookUnknownFate(BookError):
    """An error at COMMIT, and the row could not be looked up: stored or not is not known."""


class Interrupted(ReviewError):
    """Ctrl-C, or a signal. Everything acknowledged is kept, but in a trial."""

    exit_code = 130

    def __init__(self, sentence: str, exit_code: int = exit_code) -> None:
        super().__init__(sentence)
        self.exit_code = exit_code
