"""A located document -> the model of a guide: `build`, and the types in `guidec.model.types`.

`build` is imported by whoever calls it (`from guidec.model.build import build`) or through this package.
"""

from __future__ import annotations

from guidec.model.build import build

__all__ = ["build"]
