"""The record book: one SQLite file of a family, from its bytes up to `store.Book`."""
