"""Where both `review` and `python -m review` begin."""

# Not `signal`, which first builds its names for some milliseconds: then Ctrl-C was a traceback (measured).
import _signal as signal  # type: ignore[import-not-found]

if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # nothing is open yet: Ctrl-C ends it without a traceback

from review.cli import main

if __name__ == "__main__":
    main()
