"""The folding pocket phone: seven pictures, all of one layout."""

from __future__ import annotations

import math

from . import circuit, kit
from . import phone_inside as inside
from .sheet import Sheet, cut, disc, rounded


def lower_leaf(s: Sheet) -> None:
    """The lower leaf, its back cover off."""
    inside.whole(s)
    s.pin("screw A", *inside.A)
    s.pin("lead cover", (579, 372))
    s.pin("battery lead", (620, 520))
    s.pin("battery", (704, 820))
    s.pin("rim glue", (326, 800))


def battery_out(s: Sheet) -> None:
    """The lower leaf without its battery."""
    inside.whole(s, battery=False, covered=False)
    s.pin("pull tabs", (548, 820), (868, 820))
    s.pin("battery lead", inside.middle("battery lead"))


def plugs(s: Sheet) -> None:
    """The main board's connectors, near."""
    s.view(1.72, 330, 108)
    inside.whole(s, battery=False, covered=False)
    for name in inside.PLUGS:
        if name != "battery lead":
            s.pin(name, inside.middle(name))
    s.pin("battery lead", inside.middle("battery lead"))


def port_end(s: Sheet) -> None:
    """The lower end without the sound box, near."""
    s.view(1.62, 336, 470)
    inside.whole(s, battery=False, covered=False, box=False)
    s.pin("screw D", *inside.D)
    s.pin("port board", (880, 1094))
    s.pin("main microphone", (1031, 1013))
    s.pin("buzz motor", (1190, 1040))


def main_board(s: Sheet) -> None:
    """The main board beside the leaf."""
    s.bench(inside.MAT)
    s.view(1.72, 240, 60)
    s.lay(rounded(210, 640, 1000, 400, 60), inside.FRAME, lift=22, bevel=9)
    s.lay(rounded(244, 676, 940, 360, 40), inside.FLOOR, lift=14, bevel=3, sunk=True, brushed=True)
    for k, x in enumerate((330, 470, 760, 960)):
        kit.hole(s, x, 716 if k % 2 else 730, 12, inside.FLOOR if k < 2 else (26, 26, 28))
    inside.main(s, covered=False, plugged=False, screws=False)
    s.lay(rounded(888, 530, 150, 132, 6), (172, 174, 178), lift=8, bevel=4, brushed=True, grain=9)
    s.lay(rounded(904, 546, 118, 100, 4), (206, 208, 210), lift=2, bevel=3, sunk=True)
    for k in range(3):
        s.lay(rounded(716 + k * 46, 316, 38, 38, 2), (34, 34, 36), lift=3, bevel=2)
    s.lay(rounded(722, 366, 112, 66, 4), (196, 170, 180), lift=4, bevel=3, alpha=0.9, grain=10)
    s.pin("main board", (640, 505))
    s.pin("screw B", *inside.B)
    s.pin("screw C", *inside.C)
    s.pin("shield can", (963, 596))
    s.pin("shield foil", (778, 398))


def upper_leaf(s: Sheet) -> None:
    """The upper leaf from the front, the display off and laid beside it."""
    s.bench(inside.MAT)
    kit.tray(s, 120, 90, 820, 1010, inside.FRAME, wall=30, r=80)
    s.lay(rounded(150, 120, 760, 950, 54), (70, 72, 76), lift=14, bevel=3, sunk=True, brushed=True, grain=8)
    bead = cut(rounded(134, 104, 792, 982, 66), rounded(146, 116, 768, 958, 58))
    s.lay(bead, (28, 28, 30), lift=2, bevel=2, grain=16)
    s.lay(rounded(220, 330, 620, 560, 14), (96, 98, 102), lift=3, bevel=3, brushed=True, grain=8)
    for x, y in ((200, 300), (860, 300), (200, 930), (860, 930)):
        s.lay(disc(x, y, 17), (40, 42, 44), lift=3, bevel=2, sunk=True)
    s.lay(rounded(150, 1062, 760, 60, 14), (150, 153, 158), lift=10, bevel=9, brushed=True, grain=8)
    kit.flex(s, [(640, 1100), (640, 300), (640, 250)], 96, ways=11)
    kit.flex(s, [(690, 320), (770, 320), (800, 240)], 36, ways=5)
    kit.flex(s, [(600, 262), (560, 262)], 40, ways=4)
    circuit.snap(s, 560, 560, 160, 52, plugged=False)
    circuit.snap(s, 668, 296, 92, 40)
    inside.camera(s, 800, 206, 50)
    s.lay(rounded(380, 160, 190, 56, 26), (52, 54, 58), lift=8, bevel=5)
    for k in range(9):
        s.lay(rounded(404 + k * 17, 172, 7, 32, 3), (22, 22, 24), lift=2, bevel=1, sunk=True)
    s.lay(rounded(506, 238, 56, 46, 6), (36, 36, 38), lift=5, bevel=3)
    s.lay(disc(534, 261, 12), (92, 40, 60), lift=2, bevel=3, sunk=True)
    s.lay(rounded(1010, 110, 540, 960, 50), (160, 163, 168), lift=16, bevel=7, brushed=True, grain=8)
    s.lay(rounded(1040, 150, 480, 880, 20), (142, 146, 152), lift=2, bevel=3, brushed=True, grain=7)
    s.lay(rounded(1090, 560, 360, 250, 10), (24, 26, 30), lift=5, bevel=3)
    s.text(1270, 660, "AMBERVALE  L2-DA", 24, (150, 152, 156))
    s.text(1270, 706, "OLED 4.1 in   1080 x 1180", 18, (150, 152, 156))
    kit.flex(s, [(1270, 560), (1270, 430), (1200, 380)], 110, ways=11)
    circuit.snap(s, 1130, 350, 150, 50)
    s.pin("front camera", (800, 206))
    s.pin("front camera plug", (714, 316))
    s.pin("earpiece", (475, 188))
    s.pin("light sensor", (534, 261))
    s.pin("display plug", (640, 586))
    s.pin("display", (1270, 900))
    s.pin("fold cable", (640, 900))


def hinge(s: Sheet) -> None:
    """The hinge between the leaves, near."""
    s.bench(inside.MAT)
    s.lay(rounded(60, -300, 1480, 720, 60), inside.FRAME, lift=24, bevel=10)
    s.lay(rounded(110, -260, 1380, 620, 40), inside.FLOOR, lift=14, bevel=3, sunk=True, brushed=True)
    s.lay(rounded(60, 780, 1480, 700, 60), inside.FRAME, lift=24, bevel=10)
    s.lay(rounded(110, 840, 1380, 700, 40), inside.FLOOR, lift=14, bevel=3, sunk=True, brushed=True)
    kit.flex(s, [(860, -20), (860, 1240)], 210, ways=16)
    spots = [(260, 300), (560, 300), (260, 900), (560, 900)]
    for x in (160, 1120):
        long = 500 if x == 160 else 320
        for y in (210, 690):
            s.lay(rounded(x, y, long, 300, 18), (172, 175, 180), lift=14, bevel=6, brushed=True, grain=9)
    for y in (480, 620):
        s.lay(rounded(100, y, 1400, 120, 58), (186, 189, 194), lift=20, bevel=22, brushed=True, grain=8)
    s.lay(rounded(100, 584, 1400, 52, 10), (112, 115, 120), lift=6, bevel=6, brushed=True, grain=8)
    for x in (230, 420, 680, 1060, 1240, 1390):
        s.lay(rounded(x, 486, 6, 250, 2), (54, 56, 60), lift=2, bevel=2, sunk=True)
    for k in range(10):
        a = k * math.tau / 10
        for y in (540, 680):
            s.lay(disc(1470 + 22 * math.cos(a), y + 22 * math.sin(a), 4), (70, 72, 76), lift=1, bevel=1, sunk=True)
    for x, y in spots:
        kit.screw(s, x, y, 30, "T")
        s.flat(disc(x + 30, y + 30, 8), (40, 90, 190), 0.5)
    for x, y in ((1210, 290), (1360, 290), (1210, 910), (1360, 910)):
        s.lay(disc(x, y, 17), (120, 122, 126), lift=4, bevel=5)
    s.pin("screw E", *spots)
    s.pin("hinge", (470, 610))
    s.pin("fold cable", (860, 120))
