"""A code -> what can be found wrong under it: the finding as data, and the page that puts it in words."""
