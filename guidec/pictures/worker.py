"""Photos on standard input -> derived pictures on standard output: one process of a crew.

A question is a line of JSON (`length`, `box`) and the photo; an answer a line of JSON (`length`, or `error`)
and what `types.packed` makes of the pictures. The process bounds its own memory, so that a hostile photo ends
it alone.
"""

from __future__ import annotations

import contextlib
import json
import sys
from typing import BinaryIO

from guidec.pictures.derive import derive
from guidec.pictures.types import UnreadableError, packed

__all__ = ["MEMORY", "main", "serve"]

MEMORY = 2 << 30
"""The most address space that a worker takes, in bytes."""


def main() -> None:
    """Serve until the input ends."""
    with contextlib.suppress(ImportError, ValueError, OSError):  # not every system knows such bounds
        import resource  # here: the module is missing on some systems

        hard = resource.getrlimit(resource.RLIMIT_AS)[1]
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, hard))
    with contextlib.suppress(BrokenPipeError):
        serve(sys.stdin.buffer, sys.stdout.buffer)


def serve(questions: BinaryIO, answers: BinaryIO) -> None:
    """Answer all questions."""
    while line := questions.readline():
        asked = json.loads(line)
        photo = questions.read(asked["length"])
        try:
            made = packed(derive(photo, tuple(asked["box"]) if asked["box"] else None))
        except UnreadableError as error:
            answers.write(json.dumps({"error": str(error)}).encode() + b"\n")
        else:
            answers.write(json.dumps({"length": len(made)}).encode() + b"\n" + made)
        answers.flush()
