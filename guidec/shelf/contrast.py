"""Two colours -> their contrast, after WCAG 2.2 (relative luminance and contrast ratio)."""

from __future__ import annotations

__all__ = ["LEAST", "contrast"]

LEAST = 4.5
"""The least contrast of text with its ground (WCAG 2.2, success criterion 1.4.3, level AA)."""

_WEIGHTS = (0.2126, 0.7152, 0.0722)


def contrast(first: str, second: str) -> float:
    """The contrast ratio of two colours `#rrggbb`, from 1 to 21. Raises ValueError for what is no such colour."""
    high, low = sorted((_luminance(first), _luminance(second)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def _luminance(colour: str) -> float:
    if len(colour) != 7 or colour[0] != "#":
        raise ValueError(f"no colour: {colour}")
    channels = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    linear = (one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in channels)
    return sum(weight * one for weight, one in zip(_WEIGHTS, linear, strict=True))
