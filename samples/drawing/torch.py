"""The head torch: four pictures."""

from __future__ import annotations

import math

from . import circuit, kit
from .sheet import Sheet, curve, cut, disc, rounded, shade, stroke

MAT = (74, 92, 98)
SHELL = (70, 76, 84)
A = [(318, 258), (1282, 258), (318, 942), (1282, 942)]
B = [(956, 316), (1216, 316)]


def _housing(s: Sheet) -> None:
    s.bench(MAT)
    s.lay(rounded(196, 480, 60, 240, 16), shade(SHELL, -0.2), lift=18, bevel=7)
    s.lay(rounded(1344, 480, 60, 240, 16), shade(SHELL, -0.2), lift=18, bevel=7)
    kit.tray(s, 240, 180, 1120, 840, SHELL, wall=54, r=120)
    kit.ribs(s, 300, 250, 1000, 700, SHELL, 84)
    groove = cut(rounded(262, 202, 1076, 796, 106), rounded(276, 216, 1048, 768, 96))
    s.lay(groove, (40, 42, 46), lift=3, bevel=2, sunk=True)
    for x, y in A:
        s.lay(disc(x, y, 46), shade(SHELL, -0.05), lift=5, bevel=4)
        kit.hole(s, x, y, 22, SHELL)


def _driver(s: Sheet, *, cell: bool = True) -> None:
    """The driver board in its place; `cell`: whether the cell's plug is in."""
    outline = rounded(910, 270, 350, 640, 18)
    circuit.board(s, outline, kit.GREEN, traces=90)
    floor = circuit.Floor(s, outline)
    for box in (
        (1004, 250, 164, 120),
        (918, 280, 76, 76),
        (1178, 280, 76, 76),
        (1010, 470, 110, 110),
        (930, 640, 92, 92),
        (1150, 400, 80, 110),
        (930, 780, 130, 70),
        (1090, 780, 140, 70),
        (1140, 610, 90, 110),
    ):
        floor.take(*box)
    s.lay(rounded(1008, 224, 156, 130, 12), (176, 178, 182), lift=12, bevel=6, brushed=True, grain=8)
    s.lay(rounded(1030, 224, 112, 34, 14), (30, 30, 32), lift=6, bevel=2, sunk=True)
    s.lay(rounded(1048, 236, 76, 10, 4), (206, 176, 96), lift=2, bevel=1)
    for x, y in B:
        s.lay(disc(x, y, 34), kit.GOLD, lift=1, bevel=1)
        kit.screw(s, x, y, 26, "PH", (58, 58, 60))
    circuit.chip(s, 1018, 478, 94, 94, ["BH 2107", "DRV-3A"])
    s.lay(rounded(936, 646, 80, 80, 8), (52, 52, 56), lift=12, bevel=4, grain=6)
    s.lay(disc(976, 686, 31), (70, 70, 74), lift=0, bevel=4)
    s.text(976, 686, "4R7", 20, (182, 182, 184))
    kit.can(s, 1190, 454, 38, "100u")
    circuit.chip(s, 1152, 622, 64, 84, ["CHG 1"], legs="sides")
    circuit.socket(s, 936, 786, 116, 56, 3, mate=cell)
    circuit.socket(s, 1098, 786, 124, 56, 2, mate=True)
    floor.label(994, 762, "CELL", 17)
    floor.label(1160, 762, "LIGHT", 17)
    floor.label(1086, 886, "BH-P3-07  rev C", 17)
    floor.fill(260)


def _pouch(s: Sheet, x: float, y: float) -> None:
    lines = ["BROCKHAVEN", "BH-P3-04   Li-ion polymer", "1800 mAh   3.7 V   6.66 Wh", "do not bend or pierce"]
    kit.cell(s, x, y, 470, 560, lines)


def _light_lead(s: Sheet) -> None:
    kit.wire(s, curve((1150, 826), (1160, 900), (1060, 936), (900, 930)), (196, 180, 60), 11)
    kit.wire(s, curve((1180, 826), (1196, 924), (1060, 956), (890, 948)), (60, 90, 150), 11)


def rear_open(s: Sheet) -> None:
    """The housing with its rear door off."""
    _housing(s)
    _pouch(s, 330, 330)
    _driver(s)
    kit.wire(s, curve((820, 356), (862, 420), (868, 640), (880, 760), (960, 812)), (178, 36, 34), 13)
    kit.wire(s, curve((800, 372), (838, 430), (846, 660), (866, 786), (966, 830)), (36, 36, 38), 13)
    _light_lead(s)
    s.lay(rounded(866, 392, 30, 62, 3), (238, 238, 234), lift=2, bevel=1)
    s.flat(disc(881, 423, 9), (206, 206, 204))
    gasket = cut(rounded(258, 198, 1084, 804, 108), rounded(280, 220, 1040, 760, 94))
    s.lay(gasket, (146, 150, 152), lift=5, bevel=4)
    s.pin("screw A", *A)
    s.pin("battery pack", (560, 500))
    s.pin("driver board", (1070, 660))
    s.pin("cell lead", (994, 814))
    s.pin("door gasket", (800, 208))
    s.pin("damp marker", (881, 423))


def cell_out(s: Sheet) -> None:
    """The cell lying beside its tray, the tape still in it."""
    _housing(s)
    _driver(s, cell=False)
    _light_lead(s)
    kit.tape(s, 352, 356, 400, 62)
    kit.tape(s, 352, 778, 400, 62)
    s.lay(rounded(330, 470, 430, 250, 10), shade(SHELL, -0.36), lift=4, bevel=3, sunk=True)
    s.text(545, 536, "LAY WIRES TO SOCKET", 24, shade(SHELL, 0.12))
    _pouch(s, 24, 606)
    kit.wire(s, curve((494, 640), (560, 606), (604, 650), (590, 700), (566, 728)), (178, 36, 34), 13)
    kit.wire(s, curve((494, 662), (540, 640), (574, 672), (560, 706), (544, 730)), (36, 36, 38), 13)
    circuit.socket(s, 512, 716, 90, 46, 3)
    s.lay(rounded(790, 470, 26, 400, 12), (60, 150, 140), lift=9, bevel=4, alpha=0.96)
    s.lay(rounded(780, 430, 46, 60, 14), (60, 150, 140), lift=9, bevel=4, alpha=0.96)
    s.pin("cell tape", (552, 387), (650, 809))
    s.pin("battery pack", (259, 990))
    s.pin("cell lead", (557, 739))


def driver_board(s: Sheet) -> None:
    """The driver board on the mat, large."""
    s.bench(MAT)
    s.view(1.24, 150, 118)
    outline = cut(rounded(260, 300, 1080, 600, 26), disc(330, 370, 20), disc(330, 830, 20))
    circuit.board(s, outline, kit.GREEN, traces=170)
    floor = circuit.Floor(s, outline)
    for box in (
        (230, 500, 190, 200),
        (290, 330, 80, 80),
        (290, 790, 80, 80),
        (560, 470, 190, 190),
        (480, 720, 150, 130),
        (800, 380, 130, 130),
        (1140, 350, 150, 210),
        (1140, 650, 150, 210),
        (820, 640, 150, 120),
        (1000, 440, 110, 300),
    ):
        floor.take(*box)
    for y in (370, 830):
        kit.ring(s, 330, y, 36, 20, kit.GOLD, 1)
    s.lay(rounded(214, 508, 200, 186, 16), (178, 180, 184), lift=16, bevel=8, brushed=True, grain=9)
    s.lay(rounded(214, 536, 44, 130, 20), (28, 28, 30), lift=8, bevel=3, sunk=True)
    s.lay(rounded(232, 556, 12, 90, 5), (210, 178, 98), lift=2, bevel=1)
    for y in (520, 660):
        for x in (300, 372):
            s.lay(rounded(x, y - (26 if y == 520 else -20), 24, 26, 8), kit.TIN, lift=3, bevel=3)
    circuit.chip(s, 580, 490, 150, 150, ["BH 2107", "DRV-3A", "wk 1124"])
    s.lay(rounded(494, 732, 120, 110, 10), (52, 52, 56), lift=16, bevel=5, grain=6)
    s.lay(disc(554, 787, 44), (72, 72, 76), lift=0, bevel=5)
    s.text(554, 787, "4R7", 26, (188, 188, 190))
    kit.can(s, 864, 444, 58, "100u 10V")
    circuit.chip(s, 836, 654, 120, 92, ["CHG 1", "1.0 A"], legs="sides")
    circuit.socket(s, 1170, 370, 80, 170, 3)
    circuit.socket(s, 1170, 670, 80, 170, 2)
    floor.label(1126, 455, "CELL", 22, turn=90)
    floor.label(1126, 755, "LIGHT", 22, turn=90)
    s.lay(rounded(1010, 470, 88, 88, 8), (46, 46, 50), lift=8, bevel=3)
    s.lay(disc(1054, 514, 28), (196, 196, 198), lift=8, bevel=5, sheen=0.2)
    floor.label(740, 868, "BH-P3-07  rev C", 22)
    floor.fill(420)
    s.pin("driver board", (760, 600))
    s.pin("charging socket", (314, 600))
    s.pin("level switch", (1054, 514))
    s.pin("cell lead", (1210, 455))
    s.pin("light lead", (1210, 755))


def light(s: Sheet) -> None:
    """The front with the lens ring off."""
    s.bench(MAT)
    cx, cy = 520, 600
    s.lay(rounded(60, 180, 940, 840, 190), SHELL, lift=28, bevel=12, grain=7)
    for k in range(7):
        s.lay(rounded(866, 396 + k * 62, 92, 24, 12), shade(SHELL, -0.2), lift=5, bevel=4, sunk=True)
    s.lay(disc(cx, cy, 326), shade(SHELL, -0.14), lift=10, bevel=6, sunk=True)
    kit.ring(s, cx, cy, 304, 276, (150, 154, 156), 4)
    thirds = [-math.pi / 2, math.pi / 6, 5 * math.pi / 6]
    left = [(cx - 244, cy), (cx + 244, cy)]
    s.lay(disc(cx, cy, 270), (150, 153, 158), lift=6, bevel=4, brushed=True)
    for k in range(9):
        tone = shade((214, 216, 220), -0.06 * (k % 2) - 0.015 * k)
        s.lay(disc(cx, cy, 214 - k * 16), tone, lift=5, bevel=5, sunk=True, grain=2, sheen=0.3)
    s.flat(stroke(curve((cx - 166, cy - 36), (cx - 130, cy - 114), (cx - 52, cy - 162)), 14), (255, 255, 255), 0.5)
    s.lay(rounded(cx - 56, cy - 56, 112, 112, 12), (236, 236, 230), lift=3, bevel=3)
    s.lay(rounded(cx - 33, cy - 33, 66, 66, 8), (230, 206, 92), lift=6, bevel=6, sheen=0.25)
    for a in thirds:
        kit.hole(s, cx + 290 * math.cos(a), cy + 290 * math.sin(a), 19, SHELL)
    for x, y in left:
        kit.screw(s, x, y, 22, "T", (172, 174, 178))
    rx, ry = 1270, 800
    kit.ring(s, rx, ry, 304, 240, (84, 90, 98), 16)
    kit.ring(s, rx, ry, 268, 244, (66, 70, 76), 2)
    for a in thirds:
        s.lay(disc(rx + 286 * math.cos(a), ry + 286 * math.sin(a), 12), (24, 24, 26), lift=4, bevel=2, sunk=True)
    s.lay(disc(1300, 250, 206), (206, 222, 226), lift=10, bevel=9, alpha=0.5, sheen=0.3)
    s.lay(disc(1300, 250, 178), (214, 228, 232), lift=2, bevel=4, alpha=0.35, sheen=0.3)
    s.flat(stroke(curve((1160, 236), (1196, 150), (1280, 104)), 14), (255, 255, 255), 0.55)
    s.pin("screw C", *((cx + 290 * math.cos(a), cy + 290 * math.sin(a)) for a in thirds), *left)
    s.pin("reflector", (cx - 100, cy + 110))
    s.pin("lens ring", (rx, ry - 272))
    s.pin("lens", (1330, 280))
