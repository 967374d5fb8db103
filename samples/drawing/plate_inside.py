"""The induction plate, part by part: where each lies, and how it looks."""

from __future__ import annotations

import math

from . import circuit, kit
from .sheet import Colour, Sheet, curve, cut, disc, polygon, rounded, shade, stroke

MAT = (108, 98, 84)
PAN = (150, 152, 156)
SHELL = (48, 50, 54)
C = [(300, 560), (860, 560), (580, 1010)]
D = [(1150, 268), (1402, 500)]
E = [(880, 580), (1424, 590), (880, 1030), (1424, 1030), (1150, 812)]
F = [(1010, 690), (1010, 900)]
FAN, SENSOR, RIBBON = (1128, 562, 56, 32), (1128, 618, 56, 32), (984, 570, 116, 36)
BOARD = rounded(850, 550, 604, 520, 14)


def pan(s: Sheet) -> None:
    s.bench(MAT)
    kit.tray(s, 120, 110, 1380, 1010, PAN, wall=30, r=70)
    for y in range(600, 1040, 44):
        s.lay(rounded(140, y, 54, 16, 8), (20, 20, 22), lift=4, bevel=2, sunk=True)
    for x, y in ((180, 170), (1440, 170), (180, 1060), (1440, 1060), (810, 170), (810, 1068)):
        kit.hole(s, x, y, 15, PAN)


def lead(s: Sheet) -> None:
    kit.wire(s, curve((1240, 30), (1236, 130), (1240, 190)), (34, 34, 36), 40)
    s.lay(rounded(1196, 150, 90, 70, 10), (224, 222, 214), lift=10, bevel=5)
    for x in (1208, 1274):
        kit.screw(s, x, 185, 13, "PH")


def fan(s: Sheet, cx: float, cy: float) -> None:
    s.lay(rounded(cx - 150, cy - 150, 300, 300, 30), SHELL, lift=16, bevel=7)
    s.lay(disc(cx, cy, 136), (22, 22, 24), lift=14, bevel=4, sunk=True)
    for k in range(9):
        a = k * math.tau / 9
        blade = [
            (cx + r * math.cos(a + t), cy + r * math.sin(a + t))
            for r, t in ((52, 0), (92, 0.12), (128, 0.34), (128, 0.66), (88, 0.5), (52, 0.44))
        ]
        s.lay(polygon(blade), (66, 68, 72), lift=5, bevel=4, sheen=0.2)
    s.lay(disc(cx, cy, 56), (58, 60, 64), lift=6, bevel=5)
    s.lay(disc(cx, cy, 42), (214, 216, 218), lift=1, bevel=1)
    s.text(cx, cy - 10, "IK18-FN", 15, (40, 40, 44))
    s.text(cx, cy + 12, "18 V 0.2 A", 12, (40, 40, 44))


TAKEN = (
    *((x - 28, y - 28, 56, 56) for x, y in E),
    *(
        (920, 650, 190, 340),
        (1190, 920, 190, 120),
        (1290, 640, 140, 170),
        (1200, 580, 180, 80),
        (1110, 556, 84, 100),
    ),
    *((976, 562, 130, 56), (1300, 830, 110, 70), (870, 610, 60, 90), (870, 930, 50, 60), (1130, 880, 50, 90)),
    (1190, 690, 90, 90),
)


def power(s: Sheet, *, stripped: bool = False, mated: bool = False) -> None:
    """The power unit; `stripped`: out of the housing and without its heat sink."""
    circuit.board(s, BOARD, (150, 122, 70), traces=60)
    floor = circuit.Floor(s, BOARD)
    for box in TAKEN:
        floor.take(*box)
    for x, y in E:
        s.lay(disc(x, y, 26), kit.TIN, lift=1, bevel=1)
        if stripped:
            s.lay(disc(x, y, 13), (38, 34, 28), lift=4, bevel=2, sunk=True)
        else:
            kit.screw(s, x, y, 19, "PH")
    _mains_side(s)
    circuit.socket(s, *FAN, 2, mate=not stripped)
    circuit.socket(s, *SENSOR, 2, mate=mated)
    circuit.socket(s, *RIBBON, 9, mate=mated)
    for x, y in ((900, 655), (900, 960)):
        s.lay(disc(x, y, 25), (206, 182, 110), lift=8, bevel=4)
        s.lay(disc(x, y, 10), (30, 28, 22), lift=3, bevel=2, sunk=True)
    circuit.chip(s, 1136, 886, 38, 78, legs="sides")
    if stripped:
        _semiconductor(s, 700, "IGBT 40T", 3)
        _semiconductor(s, 870, "GBR 25", 4)
    else:
        _cooled(s)
    floor.label(1262, 900, "IK18-PU-230", 16)
    floor.fill(240)


def _mains_side(s: Sheet) -> None:
    """Smoothing capacitor, suppressor, choke, tabs, fuse."""
    s.lay(rounded(1194, 926, 176, 104, 10), (206, 176, 70), lift=20, bevel=6, sheen=0.16)
    s.text(1282, 966, "5 uF 400 V", 22, (66, 54, 20))
    s.text(1282, 996, "MKP  DC only", 16, (66, 54, 20))
    s.lay(rounded(1298, 646, 124, 156, 8), (44, 92, 148), lift=18, bevel=5)
    s.text(1360, 704, "X2", 28, (224, 228, 232))
    s.text(1360, 742, "2.2 uF 275~", 16, (224, 228, 232))
    choke(s, 1234, 736, 42, 20, 5.5, 20)
    for k, x in enumerate((1216, 1266, 1316)):
        s.lay(rounded(x, 590, 22, 40, 3), (196, 198, 200), lift=9, bevel=3)
        s.text(x + 11, 646, ("L", "N", "PE")[k], 15, (240, 236, 220))
    s.lay(rounded(1304, 836, 104, 40, 18), (226, 224, 214), lift=10, bevel=5)
    for x in (1304, 1386):
        s.lay(rounded(x, 836, 22, 40, 10), (200, 202, 204), lift=2, bevel=3)


def choke(s: Sheet, cx: float, cy: float, r: float, inner: float, wire: float, turns: int) -> None:
    """A ring core with its winding."""
    s.lay(disc(cx, cy, r), (36, 36, 38), lift=r / 3, bevel=r / 8)
    for k in range(turns):
        x, y = math.cos(k * math.tau / turns), math.sin(k * math.tau / turns)
        turn = stroke([(cx + inner * x, cy + inner * y), (cx + r * x, cy + r * y)], wire)
        s.lay(turn, kit.COPPER, lift=wire / 3, bevel=wire * 0.28)
    s.lay(disc(cx, cy, inner * 0.76), (22, 20, 18), lift=4, bevel=2, sunk=True)


def _cooled(s: Sheet) -> None:
    """The heat sink in its place, screwed and tied."""
    sink(s, 924, 654, 176, 330)
    for x, y in F:
        kit.screw(s, x, y, 17, "T")
    s.lay(rounded(918, 776, 188, 16, 4), (228, 226, 218), lift=10, bevel=3)
    s.lay(rounded(1080, 766, 36, 36, 5), (228, 226, 218), lift=12, bevel=4)


def _semiconductor(s: Sheet, y: float, words: str, legs: int) -> None:
    """A power transistor or rectifier lying flat, with rests of heat-sink paste."""
    s.lay(rounded(948, y, 128, 96, 4), (38, 38, 40), lift=8, bevel=3)
    s.lay(rounded(948, y, 40, 96, 3), (182, 184, 188), lift=3, bevel=2)
    s.lay(disc(968, y + 48, 13), (60, 60, 62), lift=4, bevel=2, sunk=True)
    for leg in range(legs):
        s.lay(rounded(1076, y + 14 + leg * 64 / (legs - 1), 34, 8, 1), kit.TIN, lift=3, bevel=1)
    s.text(1034, y + 48, words, 15, (176, 176, 178))
    for _ in range(5):
        px, py = s.random.uniform(996, 1066), s.random.uniform(y + 12, y + 84)
        s.lay(disc(px, py, s.random.uniform(7, 19)), (232, 232, 228), lift=2, bevel=2, alpha=0.82)


def sink(s: Sheet, x: float, y: float, w: float, h: float, colour: Colour = (168, 171, 176)) -> None:
    s.lay(rounded(x, y, w, h, 5), shade(colour, -0.25), lift=18, bevel=4)
    step = w / 9
    for k in range(9):
        s.lay(rounded(x + k * step + 2, y, step * 0.42, h, 2), colour, lift=7, bevel=2.5, brushed=False, sheen=0.2)


def coil(s: Sheet, cx: float, cy: float) -> None:
    s.lay(disc(cx, cy, 350), (40, 40, 42), lift=22, bevel=6)
    for k in range(8):
        a = k * math.tau / 8 + 0.2
        bar = [
            (cx + r * math.cos(a) + o * math.sin(a), cy + r * math.sin(a) - o * math.cos(a))
            for r, o in ((90, 20), (346, 20), (346, -20), (90, -20))
        ]
        s.lay(polygon(bar), (58, 57, 60), lift=6, bevel=3, grain=10)
    turns = 15
    for k in range(turns):
        r = 322 - k * 16
        tone = shade((186, 118, 70), -0.06 * (k % 2))
        s.lay(cut(disc(cx, cy, r), disc(cx, cy, r - 15)), tone, lift=4, bevel=4.5, grain=7, sheen=0.16)
    for k in range(4):
        a = k * math.tau / 4 + 0.6
        tie = [
            (cx + r * math.cos(a) + o * math.sin(a), cy + r * math.sin(a) - o * math.cos(a))
            for r, o in ((78, 9), (334, 9), (334, -9), (78, -9))
        ]
        s.lay(polygon(tie), (214, 208, 190), lift=4, bevel=2.5, alpha=0.95)
    s.lay(disc(cx, cy, 62), (50, 50, 52), lift=6, bevel=5)
    s.lay(disc(cx, cy, 36), (226, 226, 222), lift=5, bevel=5)


def mains(s: Sheet) -> None:
    for k, (x, tone) in enumerate(((1227, (122, 74, 44)), (1277, (40, 84, 160)), (1327, (104, 156, 48)))):
        side = 1442 + k * 13
        bend = curve(
            (1236 + k * 9, 216),
            (1400, 214 - k * 6),
            (side, 290),
            (side, 480),
            (side - 40, 552 + k * 3),
            (x + 30, 566),
            (x, 604),
        )
        kit.wire(s, bend, tone, 13)
