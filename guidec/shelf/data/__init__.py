"""Entries of guides -> tables, and the files that hold them."""
