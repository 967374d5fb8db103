"""One command a file: what it takes, and what it prints."""
