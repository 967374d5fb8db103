"""The program: `guidec` once it is installed, and `python -m guidec`."""

import sys
from typing import NoReturn

from guidec.collector import paused, spared

with paused():
    from guidec.cli import main

__all__ = ["run"]


def run() -> NoReturn:
    """Carry out the call and end the process with its exit status."""
    status = main()
    spared()
    sys.exit(status)


if __name__ == "__main__":
    run()
