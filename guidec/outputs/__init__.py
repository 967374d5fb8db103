"""A checked guide -> bytes: one module a format, and the views and drawings that formats share."""
