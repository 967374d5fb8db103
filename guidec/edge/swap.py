"""A finished folder and the place it belongs -> the folder in that place, in one move where the system can."""

from __future__ import annotations

import ctypes
import os
import sys
from pathlib import Path

__all__ = ["exchange"]

_AT_FDCWD = -100
_EXCHANGE = 2  # RENAME_EXCHANGE (Linux) and RENAME_SWAP (macOS) are the same number


def exchange(new: Path, old: Path) -> None:
    """Let two folders change names. Linux and macOS do it at once; elsewhere there is a moment between renames.

    Raises OSError, with both folders whole, where neither can be done.
    """
    if _at_once(os.fsencode(new), os.fsencode(old)):
        return
    aside = old.with_name(f"{new.name}.aside")
    old.rename(aside)
    try:
        new.rename(old)
    except OSError:
        aside.rename(old)
        raise
    aside.rename(new)


def _at_once(new: bytes, old: bytes) -> bool:
    """True where the system has the call and the file system can do it."""
    try:
        system = ctypes.CDLL(None, use_errno=True)
        if sys.platform == "darwin":
            return bool(system.renamex_np(new, old, ctypes.c_uint(_EXCHANGE)) == 0)
        return bool(system.renameat2(_AT_FDCWD, new, _AT_FDCWD, old, ctypes.c_uint(_EXCHANGE)) == 0)
    except (AttributeError, OSError, TypeError):
        return False
