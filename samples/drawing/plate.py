"""The induction plate: four pictures."""

from __future__ import annotations

import math

from . import circuit, kit
from . import plate_inside as inside
from .sheet import Sheet, curve, disc, polygon, rounded, shade, stroke


def open_(s: Sheet) -> None:
    """The glass top tilted back, everything in place."""
    inside.pan(s)
    inside.lead(s)
    inside.fan(s, 1276, 384)
    for x, y in inside.D:
        kit.screw(s, x, y, 15, "PH")
    inside.power(s, mated=True)
    inside.coil(s, 520, 690)
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
    inside.mains(s)
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
    s.bench(inside.MAT)
    s.lay(rounded(-80, -80, 1760, 1360, 40), inside.PAN, lift=0, bevel=0)
    s.lay(rounded(-60, -60, 1720, 1320, 40), shade(inside.PAN, -0.3), lift=0, bevel=0, grain=7)
    outline = rounded(140, 140, 1560, 1160, 24)
    circuit.board(s, outline, (150, 122, 70), traces=110)
    floor = circuit.Floor(s, outline)
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
    inside.sink(s, 236, 196, 210, 660)
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
    inside.choke(s, 1350, 920, 130, 62, 15, 24)
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
    inside.pan(s)
    inside.lead(s)
    inside.fan(s, 1276, 384)
    for x, y in inside.D:
        kit.screw(s, x, y, 15, "PH")
    s.lay(rounded(1070, 300, 36, 100, 4), (232, 230, 222), lift=2, bevel=1)
    s.flat(polygon([(1088, 388), (1076, 364), (1100, 364)]), (40, 40, 44))
    s.flat(rounded(1084, 314, 8, 52, 2), (40, 40, 44))
    inside.power(s)
    inside.mains(s)
    kit.wire(s, curve((1160, 520), (1146, 540), (1146, 576)), (180, 40, 36), 8)
    kit.wire(s, curve((1174, 520), (1164, 544), (1164, 576)), (36, 36, 38), 8)
    kit.ribs(s, 200, 300, 600, 720, inside.PAN, 120)
    for x, y in inside.C:
        s.lay(disc(x, y, 56), shade(inside.PAN, -0.1), lift=14, bevel=7)
        kit.hole(s, x, y, 24, inside.PAN)
    s.pin("power unit", (1370, 1010))
    s.pin("heat sink", (1012, 730))
    s.pin("fan", (1276, 384))
    s.pin("screw E", *inside.E)
    s.pin("screw D", *inside.D)
    s.pin("coil lugs", (900, 655), (900, 960))
    s.pin("airflow label", (1088, 350))
    s.pin("fan plug", (1156, 578))
    s.pin("mains tabs", (1227, 610), (1277, 610), (1327, 610))


def heat_sink(s: Sheet) -> None:
    """The power unit on the bench, its heat sink beside it."""
    s.bench(inside.MAT)
    s.view(1.45, 395, 420)
    for x, y in inside.E:
        s.lay(disc(x, y, 1), inside.MAT, lift=0, bevel=0)
    inside.power(s, stripped=True)
    inside.sink(s, 480, 600, 300, 380)
    for x, y in inside.F:
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
