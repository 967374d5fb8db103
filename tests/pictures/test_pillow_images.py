"""The broken and unusual images of Pillow's own tests: no crash, no hang, memory bounded.

They come with Pillow's source package, which `tools/test_images.py` gets from the registry into `.cache/`.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

REPOSITORY = Path(__file__).parent.parent.parent
IMAGES = Path(os.environ.get("GUIDEC_TEST_IMAGES", REPOSITORY / ".cache" / "pillow" / "images"))
PICTURES = (
    ".jpg",
    ".jpeg",
    ".png",
    ".apng",
    ".webp",
    ".avif",
    ".gif",
    ".mpo",
    ".heic",
    ".svg",
    ".tif",
    ".tiff",
    ".bmp",
)

READ_ALL = r"""
import re, resource, signal, sys
from pathlib import Path
from guidec.pictures.derive import derive
from guidec.pictures.types import UnreadableError
from guidec.pictures.worker import MEMORY

resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
good = bad = 0
for line in sys.stdin:
    signal.alarm(60)
    try:
        made = derive(Path(line.rstrip("\n")).read_bytes())
    except UnreadableError as error:
        bad += 1
        assert str(error) and "\n" not in str(error)
    else:
        good += 1
        assert made.screen and made.fallback.data and made.printed.data
most = re.search(r"VmHWM:\s+(\d+)", open("/proc/self/status").read())
print(good, bad, int(most[1]) // 1024)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="the size of a process is counted otherwise elsewhere")
def test_every_image_is_derived_or_refused_in_bounded_time_and_memory():
    images = sorted(path for path in IMAGES.rglob("*") if path.suffix.lower() in PICTURES)
    assert len(images) > 400, "run `make test`, which gets them, or `python tools/test_images.py`"
    asked = "\n".join(map(str, images))
    run = subprocess.run(
        [sys.executable, "-c", READ_ALL], input=asked, capture_output=True, text=True, timeout=600
    )
    assert run.returncode == 0, run.stderr[-3000:]
    good, bad, megabytes = map(int, re.findall(r"\d+", run.stdout))
    assert good + bad == len(images)
    assert good > 150
    assert bad > 50
    assert megabytes < 600
