"""Simulated children hold an error rule, or two, or none: how soon and how rightly is it named?

`python -m tests.benchmarks.misses --help` tells what can be run.

classes    the families, the cards of each, the rules its problems can show
children   how a child answers who holds rules, and slips
naming     answers one by one until a rule is named
counting   children who count on, and children who recall
adults     open data: confused facts, marks
"""
