"""`python -m bench.whole [COUNT] [JOBS] [ACTIONS]`: a shelf built whole, once: time, memory, size.

Without words, 10,000 notes of 20 actions with two jobs. Not among the rows: that takes a quarter of an hour and
some 9 GB of disk. The bound is 2 GB of memory.
"""

from __future__ import annotations

import resource
import shutil
import sys
import tempfile
import time
from pathlib import Path

from bench import shelves

__all__ = ["main"]

MOST_MB = 2000


def main(arguments: list[str]) -> int:
    """Build in this process and its workers; status 1 where they take too much memory together."""
    count, jobs, actions = (int(one) for one in (*arguments, *("10000", "2", "20")[len(arguments) :]))
    home = Path(tempfile.mkdtemp(prefix="guidec-bench-"))
    try:
        notes = shelves.folder(home / "notes", count, actions)
        return _built(notes, home / "site", jobs)
    finally:
        shutil.rmtree(home)


def _built(notes: Path, site: Path, jobs: int) -> int:
    from guidec.cli import main as command

    start = time.perf_counter()
    status = command(["shelf", str(notes), "-o", str(site), "--no-pdf", "--jobs", str(jobs)])
    took = time.perf_counter() - start
    own, one_worker = (
        resource.getrusage(who).ru_maxrss / 1024 for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    )
    files = [path.stat().st_size for path in site.rglob("*") if path.is_file()]
    print(f"{took:,.0f} s with {jobs} jobs; {len(files):,} files, {sum(files) / 1e9:.1f} GB")
    print(f"memory at most: {own:,.0f} MB, and {one_worker:,.0f} MB in a worker")
    return int(bool(status) or own + jobs * one_worker > MOST_MB)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
