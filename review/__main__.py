"""Where both `review` and `python -m review` begin."""

# Not `signal`, which first builds its names for some milliseconds: then Ctrl-C was a traceback (measured).
import _signal as signal  # type: ignore[import-not-found]
import gc

if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # nothing is open yet: Ctrl-C ends it without a traceback

if gc.isenabled():
    # Things made before Python looks for those that hold each other: a command makes many, and keeps them to
    # its end (measured here: looking every 700 took a twentieth of a report).
    gc.set_threshold(100_000)

from review.cli import main

if __name__ == "__main__":
    main()
