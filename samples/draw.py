"""The samples' layouts -> their pictures, `NAME/pics/*.jpg`, and the pin marks for the notes.

python samples/draw.py            draws all
python samples/draw.py light      draws those whose name holds a word
python samples/draw.py --pins     prints each picture's pin marks
"""

from __future__ import annotations

import sys
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))

from drawing import phone, plate, torch  # noqa: E402
from drawing.sheet import Sheet  # noqa: E402

SCENES: Mapping[str, Mapping[str, Callable[[Sheet], None]]] = {
    "head-torch": {
        "rear-open": torch.rear_open,
        "cell-out": torch.cell_out,
        "driver-board": torch.driver_board,
        "light": torch.light,
    },
    "induction-plate": {
        "open": plate.open_,
        "measure": plate.measure,
        "power-unit": plate.power_unit,
        "heat-sink": plate.heat_sink,
    },
    "pocket-phone": {
        "lower-leaf": phone.lower_leaf,
        "battery-out": phone.battery_out,
        "plugs": phone.plugs,
        "port-end": phone.port_end,
        "main-board": phone.main_board,
        "upper-leaf": phone.upper_leaf,
        "hinge": phone.hinge,
    },
}


def draw(sample: str, name: str) -> Sheet:
    """One picture, drawn afresh; the same every time."""
    sheet = Sheet(zlib.crc32(f"{sample}/{name}".encode()))
    SCENES[sample][name](sheet)
    return sheet


def layout(sample: str, name: str) -> Mapping[str, list[tuple[float, float]]]:
    """Where a picture has what can be pinned, without drawing it."""
    sheet = Sheet(zlib.crc32(f"{sample}/{name}".encode()), dry=True)
    SCENES[sample][name](sheet)
    return sheet.pins


def pin_marks(pins: Mapping[str, list[tuple[float, float]]]) -> list[str]:
    """The pin marks of a picture, one a thing."""
    return [f"{{pin {' '.join(f'{x},{y}' for x, y in points)}: {thing}}}" for thing, points in pins.items()]


def main(words: list[str]) -> None:
    """Draw what the words ask for."""
    only_pins = "--pins" in words
    wanted = [word for word in words if not word.startswith("--")]
    for sample, scenes in SCENES.items():
        for name in scenes:
            if wanted and not any(word in f"{sample}/{name}" for word in wanted):
                continue
            if only_pins:
                print(f"{sample}/{name}", *pin_marks(layout(sample, name)), sep="\n")
                continue
            sheet = draw(sample, name)
            path = HERE / sample / "pics" / f"{name}.jpg"
            path.parent.mkdir(parents=True, exist_ok=True)
            data = sheet.jpeg()
            path.write_bytes(data)
            print(f"{path.relative_to(HERE)}  {len(data) / 1000:.0f} kB")


if __name__ == "__main__":
    main(sys.argv[1:])
