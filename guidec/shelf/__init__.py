"""A folder of notes -> a static site of their guides, with data files; what did not change is not made again."""
