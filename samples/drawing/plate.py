"""The induction plate: four pictures."""

from __future__ import annotations

import math

from . import kit
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


def _pan(s: Sheet) -> None:
    s.bench(MAT)
    kit.tray(s, 120, 110, 1380, 1010, PAN, wall=30, r=70)
    for y in range(600, 1040, 44):
        s.lay(rounded(140, y, 54, 16, 8), (20, 20, 22), lift=4, bevel=2, sunk=True)
    for x, y in ((180, 170), (1440, 170), (180, 1060), (1440, 1060), (810, 170), (810, 1068)):
        kit.hole(s, x, y, 15, PAN)


def _lead(s: Sheet) -> None:
    kit.wire(s, curve((1240, 30), (1236, 130), (1240, 190)), (34, 34, 36), 40)
    s.lay(rounded(1196, 150, 90, 70, 10), (224, 222, 214), lift=10, bevel=5)
    for x in (1208, 1274):
        kit.screw(s, x, 185, 13, "PH")


def _fan(s: Sheet, cx: float, cy: float) -> None:
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


def _power(s: Sheet, *, stripped: bool = False, mated: bool = False) -> None:
    """The power unit; `stripped`: out of the housing and without its heat sink."""
    kit.board(s, BOARD, (150, 122, 70), traces=60)
    floor = kit.Floor(s, BOARD)
    for box in TAKEN:
        floor.take(*box)
    for x, y in E:
        s.lay(disc(x, y, 26), kit.TIN, lift=1, bevel=1)
        if stripped:
            s.lay(disc(x, y, 13), (38, 34, 28), lift=4, bevel=2, sunk=True)
        else:
            kit.screw(s, x, y, 19, "PH")
    _mains_side(s)
    kit.socket(s, *FAN, 2, mate=not stripped)
    kit.socket(s, *SENSOR, 2, mate=mated)
    kit.socket(s, *RIBBON, 9, mate=mated)
    for x, y in ((900, 655), (900, 960)):
        s.lay(disc(x, y, 25), (206, 182, 110), lift=8, bevel=4)
        s.lay(disc(x, y, 10), (30, 28, 22), lift=3, bevel=2, sunk=True)
    kit.chip(s, 1136, 886, 38, 78, legs="sides")
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
    _choke(s, 1234, 736, 42, 20, 5.5, 20)
    for k, x in enumerate((1216, 1266, 1316)):
        s.lay(rounded(x, 590, 22, 40, 3), (196, 198, 200), lift=9, bevel=3)
        s.text(x + 11, 646, ("L", "N", "PE")[k], 15, (240, 236, 220))
    s.lay(rounded(1304, 836, 104, 40, 18), (226, 224, 214), lift=10, bevel=5)
    for x in (1304, 1386):
        s.lay(rounded(x, 836, 22, 40, 10), (200, 202, 204), lift=2, bevel=3)


def _choke(s: Sheet, cx: float, cy: float, r: float, inner: float, wire: float, turns: int) -> None:
    """A ring core with its winding."""
    s.lay(disc(cx, cy, r), (36, 36, 38), lift=r / 3, bevel=r / 8)
    for k in range(turns):
        x, y = math.cos(k * math.tau / turns), math.sin(k * math.tau / turns)
        turn = stroke([(cx + inner * x, cy + inner * y), (cx + r * x, cy + r * y)], wire)
        s.lay(turn, kit.COPPER, lift=wire / 3, bevel=wire * 0.28)
    s.lay(disc(cx, cy, inner * 0.76), (22, 20, 18), lift=4, bevel=2, sunk=True)


def _cooled(s: Sheet) -> None:
    """The heat sink in its place, screwed and tied."""
    _sink(s, 924, 654, 176, 330)
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


def _sink(s: Sheet, x: float, y: float, w: float, h: float, colour: Colour = (168, 171, 176)) -> None:
    s.lay(rounded(x, y, w, h, 5), shade(colour, -0.25), lift=18, bevel=4)
    step = w / 9
    for k in range(9):
        s.lay(rounded(x + k * step + 2, y, step * 0.42, h, 2), colour, lift=7, bevel=2.5, brushed=False, sheen=0.2)


def _coil(s: Sheet, cx: float, cy: float) -> None:
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


def _mains(s: Sheet) -> None:
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


def open_(s: Sheet) -> None:
    """The glass top tilted back, everything in place."""
    _pan(s)
    _lead(s)
    _fan(s, 1276, 384)
    for x, y in D:
        kit.screw(s, x, y, 15, "PH")
    _power(s, mated=True)
    _coil(s, 520, 690)
    for x, y in ((232, 520), (812, 520), (520, 1030)):
        s.lay(rounded(x - 46, y - 34, 92, 68, 14), (44, 44, 46), lift=14, bevel=5)
        kit.screw(s, x, y, 22, "PH")
    kit.wire(s, curve((806, 640), (850, 620), (900, 655)), (190, 180, 168), 24)
    kit.wire(s, curve((790, 820), (850, 920), (900, 960)), (190, 180, 168), 24)
    kit.wire(
        s, curve((548, 690), (700, 600), (800, 470), (980, 490), (1100, 590), (1140, 632)), (228, 226, 220), 9
    )
    kit.wire(
        s, curve((548, 702), (706, 614), (806, 486), (976, 506), (1096, 600), (1156, 638)), (228, 226, 220), 9
    )
    _mains(s)
    top = [(130, 0), (1500, 0), (1456, 150), (174, 150)]
    s.lay(polygon(top), (24, 25, 28), lift=30, bevel=8, sheen=0.2, grain=3)
    s.flat(polygon([(420, 0), (620, 0), (520, 150), (340, 150)]), (255, 255, 255), 0.07)
    s.lay(rounded(560, 44, 430, 84, 8), (26, 72, 54), lift=6, bevel=3)
    for k in range(5):
        s.lay(disc(620 + k * 76, 86, 22), (190, 176, 120), lift=1, bevel=1)
    kit.wire(s, curve((1160, 520), (1146, 540), (1146, 576)), (180, 40, 36), 8)
    kit.wire(s, curve((1174, 520), (1164, 544), (1164, 576)), (36, 36, 38), 8)
    for band in ([(842, 112), (842, 471)], [(823, 452), (1061, 452)], [(1042, 433), (1042, 590)]):
        kit.flex(s, band, 38, (216, 214, 206), 9)
    s.pin("glass top", (330, 84))
    s.pin("panel ribbon", (842, 300))
    s.pin("coil", (400, 820))
    s.pin("screw C", (232, 520), (812, 520), (520, 1030))
    s.pin("coil lugs", (900, 655), (900, 960))
    s.pin("sensor plug", (1156, 634))
    s.pin("smoothing capacitor", (1282, 980))
    s.pin("power unit", (1390, 920))
    s.pin("fan", (1276, 384))
    s.pin("mains lead", (1240, 165))


def measure(s: Sheet) -> None:
    """The corner of the power unit, with the meter's probes on the capacitor."""
    s.bench(MAT)
    s.lay(rounded(-80, -80, 1760, 1360, 40), PAN, lift=0, bevel=0)
    s.lay(rounded(-60, -60, 1720, 1320, 40), shade(PAN, -0.3), lift=0, bevel=0, grain=7)
    outline = rounded(140, 140, 1560, 1160, 24)
    kit.board(s, outline, (150, 122, 70), traces=110)
    floor = kit.Floor(s, outline)
    for box in (
        (560, 470, 520, 300),
        (480, 560, 80, 120),
        (1080, 560, 100, 120),
        (220, 180, 240, 700),
        (620, 200, 420, 180),
        (1180, 200, 340, 320),
        (1200, 760, 320, 330),
        (700, 880, 260, 130),
    ):
        floor.take(*box)
    _sink(s, 236, 196, 210, 660)
    s.lay(rounded(236, 500, 210, 30, 5), (228, 226, 218), lift=10, bevel=3)
    s.lay(rounded(630, 220, 390, 140, 8), (40, 40, 42), lift=18, bevel=6)
    s.text(825, 278, "GBR 25", 40, (182, 182, 184))
    s.text(825, 324, "~   +   -   ~", 30, (182, 182, 184))
    for k in range(4):
        s.lay(rounded(672 + k * 92, 356, 20, 46, 3), kit.TIN, lift=5, bevel=3)
    for x in (520, 1120):
        s.lay(disc(x, 620, 44), kit.TIN, lift=3, bevel=3)
        s.lay(disc(x, 620, 22), (206, 208, 212), lift=9, bevel=9, sheen=0.3)
        s.lay(rounded(min(x, x + (60 if x < 800 else -60)), 612, 60, 16, 4), kit.TIN, lift=5, bevel=4)
    s.lay(rounded(570, 480, 500, 280, 26), (208, 178, 72), lift=40, bevel=14, sheen=0.2)
    s.flat(rounded(600, 500, 430, 34, 16), (255, 255, 255), 0.18)
    s.text(820, 588, "MKP  5 uF ±5 %", 48, (70, 56, 22))
    s.text(820, 650, "400 V DC", 44, (70, 56, 22))
    s.text(820, 704, "smoothing only", 28, (70, 56, 22))
    s.lay(rounded(1190, 216, 310, 280, 16), (44, 92, 148), lift=34, bevel=10)
    s.text(1345, 330, "X2", 62, (226, 230, 234))
    s.text(1345, 408, "2.2 uF 275~", 36, (226, 230, 234))
    _choke(s, 1350, 920, 130, 62, 15, 24)
    for x in (760, 850):
        s.lay(rounded(x, 900, 50, 110, 14), (70, 128, 160), lift=9, bevel=8)
        for k, tone in enumerate(((200, 60, 40), (230, 190, 40), (60, 60, 60))):
            s.flat(rounded(x, 922 + k * 24, 50, 10, 0), tone, 0.9)
    floor.label(820, 812, "+  C12  -", 34)
    floor.fill(330, (160, 160, 1580, 1190))
    for x, base, tone in ((520, (120, 1180), (176, 34, 32)), (1120, (1130, 1230), (34, 34, 36))):
        dx, dy = base[0] - x, base[1] - 620
        long = math.hypot(dx, dy)
        ux, uy = dx / long, dy / long
        s.lay(stroke([(x, 620), (x + ux * 130, 620 + uy * 130)], 9), (206, 208, 212), lift=9, bevel=3)
        s.lay(stroke([(x + ux * 130, 620 + uy * 130), (x + ux * 300, 620 + uy * 300)], 30), tone, lift=18, bevel=8)
        s.lay(stroke([(x + ux * 176, 620 + uy * 176), (x + ux * 190, 620 + uy * 190)], 58), tone, lift=18, bevel=9)
        s.lay(
            stroke([(x + ux * 300, 620 + uy * 300), (x + ux * 700, 620 + uy * 700)], 44),
            shade(tone, -0.1),
            lift=22,
            bevel=12,
        )
    s.pin("smoothing capacitor", (520, 620), (1120, 620))
    s.pin("multimeter", (324, 900), (1126, 960))


def power_unit(s: Sheet) -> None:
    """The housing with the coil out."""
    _pan(s)
    _lead(s)
    _fan(s, 1276, 384)
    for x, y in D:
        kit.screw(s, x, y, 15, "PH")
    s.lay(rounded(1070, 300, 36, 100, 4), (232, 230, 222), lift=2, bevel=1)
    s.flat(polygon([(1088, 388), (1076, 364), (1100, 364)]), (40, 40, 44))
    s.flat(rounded(1084, 314, 8, 52, 2), (40, 40, 44))
    _power(s)
    _mains(s)
    kit.wire(s, curve((1160, 520), (1146, 540), (1146, 576)), (180, 40, 36), 8)
    kit.wire(s, curve((1174, 520), (1164, 544), (1164, 576)), (36, 36, 38), 8)
    kit.ribs(s, 200, 300, 600, 720, PAN, 120)
    for x, y in C:
        s.lay(disc(x, y, 56), shade(PAN, -0.1), lift=14, bevel=7)
        kit.hole(s, x, y, 24, PAN)
    s.pin("power unit", (1370, 1010))
    s.pin("heat sink", (1012, 730))
    s.pin("fan", (1276, 384))
    s.pin("screw E", *E)
    s.pin("screw D", *D)
    s.pin("coil lugs", (900, 655), (900, 960))
    s.pin("airflow label", (1088, 350))
    s.pin("fan plug", (1156, 578))
    s.pin("mains tabs", (1227, 610), (1277, 610), (1327, 610))


def heat_sink(s: Sheet) -> None:
    """The power unit on the bench, its heat sink beside it."""
    s.bench(MAT)
    s.view(1.45, 395, 420)
    for x, y in E:
        s.lay(disc(x, y, 1), MAT, lift=0, bevel=0)
    _power(s, stripped=True)
    _sink(s, 480, 600, 300, 380)
    for x, y in F:
        s.lay(disc(x - 380, y, 11), (24, 24, 26), lift=5, bevel=2, sunk=True)
    for _ in range(9):
        s.lay(
            disc(s.random.uniform(560, 700), s.random.uniform(640, 940), s.random.uniform(5, 12)),
            (232, 232, 228),
            lift=1,
            bevel=1,
            alpha=0.7,
        )
    loose = [(520, 1066), (580, 1090)]
    for x, y in loose:
        kit.screw(s, x, y, 17, "T")
    kit.wire(s, curve((500, 500), (560, 470), (640, 520), (720, 480)), (228, 226, 218), 10)
    s.lay(rounded(486, 484, 30, 26, 5), (228, 226, 218), lift=8, bevel=4)
    s.pin("switching transistor", (1034, 748))
    s.pin("line fuse", (1356, 856))
    s.pin("heat sink", (630, 790))
    s.pin("paste film", (1020, 930))
    s.pin("screw F", *loose)
