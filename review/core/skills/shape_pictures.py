"""A rectangle and a box in text, with the lengths of their sides."""

WIDE = 14  # columns inside; our judgement: with a name beside it, it stays under 40


def rectangle(above: str, beside: str, inside: str = "") -> tuple[str, ...]:
    """Its upper side is called `above`, its right side `beside`; not to scale."""
    wide = max(WIDE, len(inside) + 2)
    edge = f"  +{'-' * wide}+"
    return (
        " " * 3 + above.center(wide).rstrip(),
        edge,
        f"  |{' ' * wide}|",
        f"  |{inside.center(wide)}| {beside}".rstrip(),
        f"  |{' ' * wide}|",
        edge,
    )


def box(long: int, deep: int, high: int) -> tuple[str, ...]:
    """Seen from the front and above; not to scale."""
    edge = "-" * WIDE
    return (
        f"    +{edge}+",
        f"   /{' ' * WIDE}/|",
        f"  +{edge}+ | {high} cm",
        f"  |{' ' * WIDE}| +",
        f"  |{' ' * WIDE}|/ {deep} cm",
        f"  +{edge}+",
        " " * 3 + f"{long} cm".center(WIDE).rstrip(),
    )
