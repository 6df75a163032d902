"""Where both `review` and `python -m review` begin."""

import _signal as signal  # the bare one: `signal` builds its names first, and Ctrl-C then was a traceback

if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # nothing is open yet: Ctrl-C ends it without a traceback

from review.cli import main

if __name__ == "__main__":
    main()
