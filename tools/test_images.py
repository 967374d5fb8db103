"""Gets the images of Pillow's own tests into `.cache/pillow/images`: its source package, from the registry."""

from __future__ import annotations

import re
import subprocess
import sys
import tarfile
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
TARGET = ROOT / ".cache" / "pillow"


def main() -> None:
    """Do nothing where they are there already."""
    found = re.search(r"^pillow==(\S+)", (ROOT / "requirements" / "run.txt").read_text(encoding="utf-8"), re.M)
    assert found, "requirements/run.txt pins Pillow"
    stamp = TARGET / "version"
    if stamp.is_file() and stamp.read_text(encoding="utf-8") == found[1]:
        return
    with tempfile.TemporaryDirectory() as folder:
        asked = [f"pillow=={found[1]}", "--no-binary", ":all:", "--no-deps", "-q", "-d", folder]
        subprocess.run([sys.executable, "-m", "pip", "download", *asked], check=True)
        (package,) = Path(folder).glob("*.tar.gz")
        with tarfile.open(package) as archive:
            for member in archive:
                place = re.search(r"/Tests/images/(.+)", member.name)
                if member.isfile() and place and ".." not in place[1]:
                    path = TARGET / "images" / place[1]
                    path.parent.mkdir(parents=True, exist_ok=True)
                    data = archive.extractfile(member)
                    assert data
                    path.write_bytes(data.read())
    stamp.write_text(found[1], encoding="utf-8")


if __name__ == "__main__":
    main()
