"""Checking a note: cold and warm against the bare libraries, growth with length, memory."""

from __future__ import annotations

import math
import os
import statistics
import subprocess
import sys
import tempfile
from functools import cache, partial
from pathlib import Path

from bench.floors import BARE_CHECK, bare_parse
from bench.notes import note
from bench.row import Figure, Ratio, timed

__all__ = ["ROWS"]

LENGTHS = (100, 300, 1_000, 3_000, 10_000)


@cache
def _text(actions: int) -> str:
    return note(actions)


@cache
def _file(actions: int) -> Path:
    path = Path(tempfile.mkdtemp(prefix="bench-")) / f"{actions}.md"
    path.write_text(_text(actions), encoding="utf-8")
    return path


def _run(*arguments: str) -> None:
    """A process of its own, with the program's bytecode kept between runs, as an installed program has it."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    subprocess.run([sys.executable, *arguments], check=True, stdout=subprocess.DEVNULL, env=environment)


def _cold_check() -> None:
    _run("-m", "guidec", "check", str(_file(60)))


def _cold_floor() -> None:
    _run("-c", BARE_CHECK, str(_file(60)))


def _check(actions: int) -> None:
    from guidec import compile as compiler
    from guidec.edge.load import of_bytes

    checked = compiler.check(of_bytes("bench.md", _text(actions).encode(), Path()))
    assert checked.clean, "the benchmark's note must be clean"


def _exponent() -> float:
    """The slope of log time over log length, by least squares: 1 is time in proportion to length."""
    _check(LENGTHS[0])
    times = [min(timed(partial(_check, length)) for _ in range(3)) for length in LENGTHS]
    slope = statistics.linear_regression([*map(math.log, LENGTHS)], [*map(math.log, times)]).slope
    return float(slope)


PEAK = """
import resource, sys
from guidec.cli import main
main(["check", sys.argv[1]])
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1024 if sys.platform != "darwin" else 1024 ** 2))
"""


def _peak() -> float:
    run = subprocess.run(
        [sys.executable, "-c", PEAK, str(_file(10_000))], check=True, capture_output=True, text=True
    )
    return float(run.stdout.splitlines()[-1])


ROWS = (
    Ratio("cold check, 60 actions / libraries imported, parsed bare", _cold_check, _cold_floor, 1.5, runs=15),
    Ratio("check, 1,000 actions / bare parse", lambda: _check(1_000), lambda: bare_parse(_text(1_000)), 4.0),
    Figure("check, exponent of time over length, 100 to 10,000", _exponent, "", 1.1),
    Figure("check, peak memory, 10,000 actions", _peak, "MB"),
)
