"""A checked guide -> how well it can be repaired, by methods that are data."""

from guidec.scoring.assess import Assessment, assess

__all__ = ["Assessment", "assess"]
