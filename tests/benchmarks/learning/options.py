"""What every command of the bench may be told: how many children, on how many processors."""

import argparse

FRESH = 100_000  # children from here on are for the last check only, never for tuning


def parser(room: str, about: str | None, children: int) -> argparse.ArgumentParser:
    """`room`: behind `tests.benchmarks.learning`, "" for the bench itself; `children`: if nothing is said."""
    found = argparse.ArgumentParser(
        prog=f"python -m tests.benchmarks.learning{room}",
        description=about,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    found.add_argument(
        "--children", type=int, default=children, help=f"of each model; {children} if left out"
    )
    found.add_argument("--workers", type=int, default=2, help="played side by side")
    return found
