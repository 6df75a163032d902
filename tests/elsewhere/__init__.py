"""Other systems, imitated on this one: what they lack, and what they forbid.

No proof that the program runs there: each stands for something that is written of those systems,
with its source beside it.
"""
