"""Daily warm-ups in elementary maths, chosen by what this child still recalls."""

__version__ = "0.1.0"
