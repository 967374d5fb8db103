"""The folding pocket phone, part by part: where each lies, and how it looks."""

from __future__ import annotations

from . import circuit, kit
from .sheet import Sheet, curve, cut, disc, polygon, rounded, shade, stroke

MAT = (86, 84, 98)
FRAME = (58, 74, 92)
FLOOR = (44, 46, 50)
A = [(500, 330), (640, 330)]
B = [(392, 268), (790, 480), (392, 560)]
C = [(760, 262), (1010, 262)]
D = [(394, 968), (760, 968), (394, 1096), (1090, 1096)]
E = [(436, 176), (560, 176), (1040, 176), (1164, 176)]
BOARD = polygon([(370, 240), (1040, 240), (1040, 510), (830, 510), (830, 590), (370, 590)])
PLUGS = {
    "battery lead": (560, 405, 120, 40),
    "port flex": (400, 490, 110, 36),
    "fold cable plug": (880, 290, 116, 38),
    "rear camera plug": (900, 400, 96, 34),
    "key flex": (382, 360, 34, 84),
    "aerial lead": (548, 552, 26, 26),
}


def middle(name: str) -> tuple[float, float]:
    x, y, w, h = PLUGS[name]
    return x + w / 2, y + h / 2


def _leaf(s: Sheet) -> None:
    """The lower leaf: frame, rim with rests of glue, hollow; the hinge and a strip of the upper leaf above it."""
    s.bench(MAT)
    s.lay(rounded(306, -120, 988, 250, 30), shade(FRAME, 0.05), lift=22, bevel=10)
    s.lay(rounded(360, 104, 880, 96, 20), (150, 153, 158), lift=16, bevel=12, brushed=True, grain=8)
    for x in (500, 800, 1100):
        s.lay(rounded(x - 2, 106, 4, 92, 1), (60, 60, 64), lift=1, bevel=1, sunk=True)
    kit.tray(s, 306, 186, 988, 986, FRAME, wall=34, r=80)
    rim = cut(rounded(322, 202, 956, 954, 66), rounded(334, 214, 932, 930, 56))
    s.lay(rim, (30, 30, 32), lift=2, bevel=2, grain=14)
    s.lay(rounded(342, 222, 916, 914, 46), FLOOR, lift=14, bevel=3, sunk=True, brushed=True)
    for y in (330, 430):
        s.lay(rounded(1278, y, 26, 70, 8), (150, 153, 158), lift=8, bevel=5)
        s.lay(rounded(1250, y + 8, 18, 54, 5), (86, 88, 92), lift=5, bevel=3)


def main(s: Sheet, *, covered: bool = True, plugged: bool = True, screws: bool = True) -> None:
    circuit.board(s, BOARD, kit.BLUE, traces=120)
    floor = circuit.Floor(s, BOARD)
    for x, y in (*B, *C):
        floor.take(x - 24, y - 24, 48, 48)
    for box in PLUGS.values():
        floor.take(*box, gap=12)
    for box in (
        (450, 296, 240, 76),
        (540, 390, 170, 70),
        (700, 300, 160, 150),
        (540, 470, 220, 70),
        (600, 556, 210, 30),
    ):
        floor.take(*box)
    circuit.shield(s, 704, 304, 150, 140, "AV-SOC")
    circuit.shield(s, 556, 474, 190, 62)
    floor.label(690, 574, "L2-MB  rev 5", 15)
    _connectors(s, plugged=plugged)
    floor.fill(330)
    for points, tone in ((B, kit.STEEL), (C, (40, 40, 42))):
        for x, y in points:
            s.lay(disc(x, y, 19), kit.GOLD, lift=1, bevel=1)
            if screws:
                kit.screw(s, x, y, 14, "PH", tone)
            else:
                s.lay(disc(x, y, 11), (16, 16, 18), lift=3, bevel=2, sunk=True)
    if covered:
        s.lay(rounded(456, 300, 246, 156, 10), (186, 188, 192), lift=10, bevel=4, brushed=True, grain=9)
        s.lay(rounded(520, 392, 166, 50, 8), (176, 178, 182), lift=2, bevel=3)
        for x, y in A:
            kit.screw(s, x, y, 13, "PH")


def _connectors(s: Sheet, *, plugged: bool) -> None:
    for name, (x, y, w, h) in PLUGS.items():
        if name == "aerial lead":
            kit.ring(s, x + 13, y + 13, 13, 7, kit.GOLD, 3)
            s.lay(disc(x + 13, y + 13, 3), kit.GOLD, lift=2, bevel=1)
        elif name == "key flex":
            circuit.socket(s, x, y, w, h, 7)
            s.lay(rounded(x + 20, y - 2, 14, h + 4, 3), (44, 44, 46), lift=4, bevel=2)
        else:
            circuit.snap(s, x, y, w, h, plugged=plugged)


def camera(s: Sheet, x: float, y: float, r: float) -> None:
    s.lay(rounded(x - r, y - r, 2 * r, 2 * r, 12), (44, 46, 50), lift=12, bevel=5)
    for k, tone in enumerate(((92, 94, 98), (24, 24, 28), (54, 50, 84), (20, 20, 30))):
        s.lay(disc(x, y, r * (0.84 - k * 0.17)), tone, lift=4, bevel=4, sunk=bool(k), sheen=0.25)
    s.flat(disc(x - r * 0.2, y - r * 0.22, r * 0.11), (214, 222, 255), 0.8)
    s.flat(disc(x + r * 0.16, y + r * 0.2, r * 0.06), (150, 120, 220), 0.7)


def _battery(s: Sheet) -> None:
    kit.cell(
        s,
        384,
        612,
        640,
        318,
        ["AMBERVALE  L2-BA", "2950 mAh   3.85 V   11.36 Wh", "Li-ion polymer, keep below 60 °C"],
        (40, 42, 46),
    )
    for x in (500, 820):
        s.lay(rounded(x, 916, 96, 40, 8), (228, 228, 224), lift=3, bevel=2, alpha=0.95)
        s.text(x + 48, 938, "PULL", 15, (120, 120, 124))


def _lower_end(s: Sheet, *, box: bool = True) -> None:
    port = rounded(840, 970, 290, 150, 12)
    circuit.board(s, port, kit.BLUE, traces=40)
    floor = circuit.Floor(s, port)
    for taken in ((900, 1050, 150, 90), (1060, 1066, 60, 60), (860, 984, 90, 40), (1000, 984, 60, 60)):
        floor.take(*taken)
    s.lay(rounded(910, 1064, 124, 92, 12), (180, 182, 186), lift=10, bevel=5, brushed=True, grain=8)
    s.lay(rounded(928, 1128, 88, 28, 12), (24, 24, 26), lift=5, bevel=2, sunk=True)
    circuit.snap(s, 866, 990, 80, 30)
    s.lay(rounded(1006, 990, 50, 46, 6), (196, 172, 100), lift=5, bevel=3)
    s.lay(disc(1020, 1003, 4), (20, 20, 20), lift=2, bevel=1, sunk=True)
    floor.fill(60)
    s.lay(disc(1190, 1040, 54), (190, 192, 196), lift=14, bevel=7, brushed=True, grain=7)
    s.lay(disc(1190, 1040, 40), (176, 178, 184), lift=0, bevel=3)
    s.text(1190, 1040, "BUZZ", 15, (90, 92, 96))
    for k, tone in enumerate(((180, 40, 36), (40, 60, 160))):
        kit.wire(s, curve((1146, 1012 + k * 12), (1128, 1000 + k * 14), (1112, 1004 + k * 18)), tone, 6)
        s.lay(disc(1108, 1004 + k * 18, 7), kit.TIN, lift=3, bevel=3)
    kit.screw(s, *D[3], 14, "PH")
    if not box:
        s.lay(rounded(384, 962, 420, 158, 14), shade(FLOOR, -0.2), lift=6, bevel=3, sunk=True)
        for x, y in D[:3]:
            kit.hole(s, x, y, 12, FLOOR)
        kit.foam(s, 470, 984, 60, 60)
        kit.flex(s, [(362, 940), (362, 1064), (816, 1064), (816, 1006), (880, 1006)], 26)
        circuit.snap(s, 866, 990, 80, 30)
        return
    s.lay(rounded(372, 950, 430, 176, 18), (48, 50, 54), lift=12, bevel=6, grain=6)
    s.lay(rounded(470, 984, 220, 108, 40), (36, 36, 38), lift=4, bevel=4, sunk=True)
    s.lay(rounded(500, 1000, 160, 76, 30), (70, 72, 76), lift=4, bevel=5)
    s.text(580, 1038, "L2-SP  8 ohm", 17, (160, 162, 166))
    s.lay(rounded(700, 990, 92, 120, 10), (196, 160, 78), lift=3, bevel=2, alpha=0.9)
    for k in range(4):
        s.flat(stroke([(712, 1004 + k * 28), (780, 1004 + k * 28), (780, 1018 + k * 28)], 5), (120, 84, 30))
    for x, y in D[:3]:
        kit.screw(s, x, y, 14, "PH")


def _cables(s: Sheet, *, battery: bool = True) -> None:
    kit.flex(s, [(455, 508), (455, 596), (376, 640), (362, 700), (362, 966)], 26)
    if battery:
        kit.flex(s, [(620, 622), (620, 425)], 74, ways=3)
    s.lay(rounded(884, 190, 108, 34, 8), (16, 16, 18), lift=6, bevel=3, sunk=True)
    kit.flex(s, [(938, 306), (938, 204)], 92, ways=11)
    kit.flex(s, [(948, 418), (1060, 418), (1096, 400)], 30)
    kit.flex(s, [(392, 400), (356, 400)], 64, ways=6)
    kit.wire(s, curve((561, 565), (600, 600), (1050, 600), (1060, 900), (830, 946), (760, 1000)), (30, 30, 32), 7)


def whole(s: Sheet, *, battery: bool = True, covered: bool = True, box: bool = True) -> None:
    _leaf(s)
    main(s, covered=False)
    _cables(s, battery=battery)
    circuit.snap(s, *PLUGS["port flex"])
    for name in ("fold cable plug", "rear camera plug"):
        circuit.snap(s, *PLUGS[name])
    if battery:
        circuit.snap(s, *PLUGS["battery lead"])
    s.lay(disc(561, 565, 13), kit.GOLD, lift=4, bevel=3)
    camera(s, 1150, 360, 84)
    kit.foam(s, 1086, 500, 130, 60)
    if battery:
        _battery(s)
    else:
        s.lay(rounded(384, 612, 640, 318, 12), shade(FLOOR, -0.12), lift=8, bevel=3, sunk=True)
        for x in (500, 820):
            s.lay(rounded(x, 700, 96, 250, 8), (226, 226, 222), lift=2, bevel=1.5, alpha=0.55, grain=9)
        s.text(704, 668, "STRIPS UP, PRINT TOWARDS YOU", 19, shade(FLOOR, 0.3))
    if covered:
        s.lay(rounded(456, 300, 246, 156, 10), (186, 188, 192), lift=10, bevel=4, brushed=True, grain=9)
        s.lay(rounded(520, 392, 166, 50, 8), (176, 178, 182), lift=2, bevel=3)
        for x, y in A:
            kit.screw(s, x, y, 13, "PH")
    _lower_end(s, box=box)
    s.lay(rounded(1060, 640, 150, 270, 12), (52, 54, 58), lift=6, bevel=4, grain=6)
    s.text(1135, 775, "L2  64 GB", 19, (132, 134, 138), turn=90)
