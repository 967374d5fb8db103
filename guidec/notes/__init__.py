"""Note text -> located syntax: front matter and blocks, every mark, name and value with its place."""

from guidec.notes.reader import read

__all__ = ["read"]
