"""Technicians' Markdown notes of a teardown -> a checked, structured guide."""

__version__ = "0.1.0"
