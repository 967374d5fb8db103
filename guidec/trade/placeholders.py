"""What a draft writes into its front matter until somebody says what belongs there: key -> placeholder."""

from __future__ import annotations

__all__ = ["PLACEHOLDERS"]

PLACEHOLDERS = {"title": "TITLE?", "maker": "MAKER?", "model": "MODEL?", "kind": "KIND?"}
