"""Faults on purpose: what the book promises, kept under power cuts and damage.

Each test has a control: a fault planted on purpose that the same check must find.
"""
