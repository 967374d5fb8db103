"""Shelves of 1,000 and 10,000 guides: making, leaving alone, one edit, memory, search in Chromium, page weight."""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

from bench import shelves
from bench.floors import bare_parse
from bench.rendered import Rendered, rendered
from bench.row import Figure, Ratio

__all__ = ["ROWS"]

SOME = 12
MANY = 1000
MOST = 10_000


# ---------------------------------------------------------------- making, against parsing and rendering bare


@cache
def _jobs() -> list[Any]:
    return [shelves.job(at) for at in range(SOME)]


def _make() -> None:
    from guidec.shelf.unit import make

    for job in _jobs():
        assert make(job).entry


@cache
def _rendered() -> Rendered:
    """Every template of the same guides with its values."""
    return rendered(_make)


def _floor() -> None:
    for at in range(SOME):
        bare_parse(shelves.text(at))
    for template, values in _rendered():
        template.render(**values)


def _alone() -> None:
    """The same notes read, checked and made into pages and data one by one, as `guidec compile` does it."""
    from guidec import compile as compiler
    from guidec.edge.load import of_bytes

    for job in _jobs():
        assert compiler.build(of_bytes(job.note, job.data, Path()), compiler.Options(pdf=False)).files


# ---------------------------------------------------------------- rebuilds of 1,000


@cache
def _place() -> tuple[Path, Path]:
    home = Path(tempfile.mkdtemp(prefix="guidec-bench-"))
    return shelves.folder(home / "notes", MANY), home / "site"


def _build() -> float:
    """Seconds that one build takes, in a process of its own, as a call of the command does."""
    notes, site = _place()
    start = time.perf_counter()
    run = subprocess.run(
        [sys.executable, "-m", "guidec", "shelf", str(notes), "-o", str(site), "--no-pdf"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stdout + run.stderr
    return time.perf_counter() - start


@cache
def _full() -> float:
    return _build()


def _unchanged() -> float:
    _full()
    return min(_build() for _ in range(3))


def _edited(text: Callable[[int], str]) -> float:
    """Seconds that a rebuild takes after one note became another text, which differs from turn to turn."""
    _full()
    found = []
    for turn in range(3):
        (_place()[0] / "n00017.md").write_text(text(turn), encoding="utf-8")
        found.append(_build())
    return min(found)


def _remark(turn: int) -> str:
    return f"{shelves.text(17)}\nA remark, number {turn}.\n"


def _part(turn: int) -> str:
    """Another year, and a part more: on the pages of makers, kinds and years, of classes, in the comparison."""
    text = re.sub(r"year: \d+", f"year: {2015 + turn}", shelves.text(17))
    return f"{text}\n## Take out the bracket {turn}\n\n1. Lift out {{part spare bracket {turn}; class=cover}}.\n"


# ---------------------------------------------------------------- 10,000


SHARED = """
import resource, sys
from pathlib import Path
from bench import shelves
from guidec.shelf.catalogue import write_data
from guidec.shelf.settings import Settings
from guidec.shelf.site import shared
from guidec.shelf.state import GuideState, State, dumped, loaded
found = shelves.entries(int(sys.argv[1]))
files = {name: (1, 1, "0" * 64) for name in found[0].files}
state = State(guides={one.slug: GuideState(one, "", files) for one in found})
again = loaded(dumped(state).splitlines(keepends=True))
entries = [one.entry for one in again.guides.values()]
out = Path(sys.argv[2])
for file in shared(entries, Settings("Bench", address="https://x.example")):
    (out / file.name).parent.mkdir(parents=True, exist_ok=True)
    (out / file.name).write_bytes(file.make())
write_data(entries, out)
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""
"""What holds all guides at a time; the guides themselves are made a few at a time, however many there are."""


@cache
def _large() -> tuple[Path, float]:
    """The shared pages of 10,000 guides, and the most memory (MB) that the process took."""
    out = Path(tempfile.mkdtemp(prefix="guidec-bench-"))
    run = subprocess.run(
        [sys.executable, "-c", SHARED, str(MOST), str(out)], capture_output=True, text=True, check=True
    )
    return out, float(run.stdout.split()[-1])


def _weight(name: str) -> float:
    import gzip

    return len(gzip.compress((_large()[0] / name).read_bytes(), 6)) / 1000


def _heaviest() -> float:
    return max(path.stat().st_size for path in _large()[0].rglob("*.html")) / 1000


QUERIES = (
    "cell pack",
    "kestral",
    "amplifer board",
    "T8 driver",
    "nordhavn 4711",
    "upper bracket",
    "hot-air gun",
    "batery",
    "lable printer",
    "main boart",
)


@cache
def _search() -> tuple[float, float, float]:
    """The slowest and the mean answer in Chromium, and what it takes until it can; ms of its thread's time."""
    from tests.outputs.browser import browser

    with browser(Path(tempfile.mkdtemp(prefix="guidec-bench-"))) as window:
        window.driver.execute_cdp_cmd("Performance.enable", {"timeDomain": "threadTicks"})
        window.window(1200)
        window.open(_large()[0] / "search.html")

        def spent() -> float:
            metrics = window.driver.execute_cdp_cmd("Performance.getMetrics", {})["metrics"]
            return next(1000 * float(one["value"]) for one in metrics if one["name"] == "TaskDuration")

        ready, took = spent(), []
        for query in (*QUERIES, *QUERIES):
            start = spent()
            window.run("found(arguments[0])", query)
            took.append(spent() - start)
        warm = took[len(QUERIES) :]
        return max(warm), sum(warm) / len(warm), ready


ROWS = (
    Ratio("shelf: 20-action guides made / bare parse, pages rendered", _make, _floor, 1.5, runs=5),
    Ratio("shelf: 20-action guides made / each compiled alone", _make, _alone, 1.5, runs=9),
    Figure("shelf: 1,000 guides, all made, two jobs", _full, "s"),
    Figure("shelf: 1,000 guides, nothing changed", _unchanged, "s", 3.0),
    Figure("shelf: 1,000 guides, a remark more in one", lambda: _edited(_remark), "s", 1.5),
    Figure("shelf: 1,000 guides, a part and a year in one", lambda: _edited(_part), "s", 1.5),
    Figure("shelf: shared pages and data of 10,000, memory", lambda: _large()[1], "MB", 2000),
    Figure("shelf: front page of 10,000, gzipped", lambda: _weight("index.html"), "KB"),
    Figure("shelf: comparison of 10,000, gzipped", lambda: _weight("compare/index.html"), "KB"),
    Figure("shelf: search index of 10,000, gzipped", lambda: _weight("assets/search-index.js"), "KB"),
    Figure("shelf: heaviest page of 10,000", _heaviest, "KB"),
    Figure("shelf: slowest answer of a search in 10,000", lambda: _search()[0], "ms", 50),
    Figure("shelf: mean answer of a search in 10,000", lambda: _search()[1], "ms"),
    Figure("shelf: search page of 10,000 ready", lambda: _search()[2], "ms"),
)
