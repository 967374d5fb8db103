"""Layouts of invented devices -> drawn pictures, and the points on them that the notes pin."""
