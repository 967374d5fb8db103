"""Times against their floors, in one run: `make bench`."""
