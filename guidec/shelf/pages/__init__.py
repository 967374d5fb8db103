"""The entries of a shelf -> its own pages, one kind of page a module."""
