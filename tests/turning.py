#!/usr/bin/env python3
"""Draws how a coat is turned, in sections through its layers: tests/turning.py COATWRIGHT > assets/turning.svg

How wide things are is read off drafted pieces; what lies on what is drawn by hand. The short strokes stand on
the right side of each cloth."""
import json
import math
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
INK, LINING, INSULATION, FACING, SEAM = "#23303a", "#b4562a", "#9aa7ae", "#2860c8", "#c0182b"
out = []
layers = []  # of the finished section that is drawn: points, and on which hand the right side lies


def pieces(demo, **choices):
    ticket = json.loads((ROOT / "assets/tickets" / f"{demo}.json").read_text())
    ticket["choices"] = choices
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "ticket.json"
        path.write_text(json.dumps(ticket))
        subprocess.run([sys.argv[1], "draft", path, "--out", folder], check=True, stdout=subprocess.DEVNULL)
        draft = json.loads((Path(folder) / "draft.json").read_text())
    return {p["id"]: p for p in draft["pieces"]}


def number(value):
    return f"{value:.1f}".rstrip("0").rstrip(".")


def stroke(points, colour, width=1.6, more=""):
    path = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)
    out.append(f'<path d="{path}" fill="none" stroke="{colour}" stroke-width="{width}"{more}/>')


def cloth(points, colour, right=1):
    """A layer; `right`: on which hand its right side lies, 1 to the left as it is drawn, 0 unsaid."""
    stroke(points, colour)
    layers.append((points, right))
    ticks, rest = [], 4.0
    for (x0, y0), (x1, y1) in zip(points, points[1:]):
        long = math.hypot(x1 - x0, y1 - y0)
        while right and rest < long:
            x, y = x0 + (x1 - x0) * rest / long, y0 + (y1 - y0) * rest / long
            nx, ny = (y1 - y0) / long * right, -(x1 - x0) / long * right
            ticks.append(f"M{number(x)} {number(y)}l{number(3 * nx)} {number(3 * ny)}")
            rest += 8.0
        rest -= long
    if ticks:
        out.append(f'<path d="{"".join(ticks)}" stroke="{colour}" stroke-width=".7"/>')


def sewn(*places):
    for x, y in places:
        out.append(f'<circle cx="{number(x)}" cy="{number(y)}" r="2.2" fill="{SEAM}"/>')


def words(x, y, text, size=9, more=""):
    out.append(f'<text x="{number(x)}" y="{number(y)}" font-size="{size}"{more}>{text}</text>')


def bend(x, y, radius, first, last):
    """Points of an arc; degrees, 0 to the right, 90 down."""
    return [(x + radius * math.cos(math.radians(a)), y + radius * math.sin(math.radians(a)))
            for a in [first + (last - first) * i / 8 for i in range(9)]]


def finished(section):
    """What is argued with each section: on the finished coat no wrong side is seen. Square to every stretch, in its
    middle, the wrong side of a layer lies on another wrong side, and its right side on nothing or on a right side."""
    def met(x, y, nx, ny):
        nearest = None
        for points, right in layers:
            for (x0, y0), (x1, y1) in zip(points, points[1:]):
                dx, dy = x1 - x0, y1 - y0
                across = nx * dy - ny * dx
                if abs(across) < 1e-9:
                    continue
                away = ((x0 - x) * dy - (y0 - y) * dx) / across
                along = ((x0 - x) * ny - (y0 - y) * nx) / across
                if away > 0.3 and 0 <= along <= 1 and (nearest is None or away < nearest[0]):
                    # The right side is met where the way goes against where that side looks.
                    nearest = (away, right and (dy * nx - dx * ny) * right < 0)
        return nearest
    for points, right in layers:
        for (x0, y0), (x1, y1) in zip(points, points[1:]):
            long = math.hypot(x1 - x0, y1 - y0)
            if not right or long < 20:
                continue
            for part in (0.4, 0.5, 0.6):
                x, y = x0 + (x1 - x0) * part, y0 + (y1 - y0) * part
                nx, ny = (y1 - y0) / long * right, -(x1 - x0) / long * right
                behind = met(x, y, -nx, -ny)
                if behind is None or behind[1] is True:
                    sys.exit(f"{section}: a wrong side is seen at {x:.0f}, {y:.0f}")
                before = met(x, y, nx, ny)
                if before is not None and before[1] is False:
                    sys.exit(f"{section}: a wrong side lies on a right side at {x:.0f}, {y:.0f}")


COLUMNS = (10, 260, 510)


def section_of_sides(y):
    """An underpanel coat across, at the girth: half, panel, half, from back edge to back edge."""
    coat = pieces("pennant", lining="whole")
    girth = next(n["on_net"] for n in coat["body"]["notches"] if n["name"] == "girth-line")
    below = next(n["on_net"] for n in coat["panel"]["notches"] if n["name"] == "girth-line")
    scale = 200 / (2 * girth[1] + 2 * below[1])
    half, panel = girth[1] * scale, 2 * below[1] * scale
    for column, state in zip(COLUMNS, range(3)):
        x, gap = column, 12
        a, b, c, d = x + half, x + half + gap, x + half + gap + panel, x + half + 2 * gap + panel
        end = d + half
        if state == 0:  # right sides together: shell above, lining below
            cloth([(x, y - 5), (a, y - 5)], INK, -1)
            cloth([(x, y + 5), (a, y + 5)], LINING, 1)
            cloth([(b, y - 5), (c, y - 5)], INK, -1)
            cloth([(b, y + 5), (c, y + 5)], LINING, 1)
            cloth([(d, y - 5), (end, y - 5)], INK, -1)
            cloth([(d, y + 5), (end, y + 5)], LINING, 1)
            sewn((x, y), (end, y))
            stroke([(x, y - 5), (x, y + 5)], SEAM, 1)
            stroke([(end, y - 5), (end, y + 5)], SEAM, 1)
            words(x, y + 28, "Right sides together. Sewn at the back edges,")
            words(x, y + 39, "the leg openings and all ends; both sides open.")
        if state == 1:  # the left half rolls back over itself, out through its open side
            m = x + 0.45 * half
            cloth([(m, y - 4), (a - 6, y - 4)] + bend(a - 6, y - 9, 5, 90, -90) + [(x + 8, y - 14)], INK, -1)
            cloth([(m, y + 4), (a - 6, y + 4)] + bend(a - 6, y + 9, 5, -90, 90) + [(x + 8, y + 14)], LINING, 1)
            stroke([(m, y - 4), (m, y + 4)], SEAM, 1)
            sewn((m, y))
            stroke([(m + 8, y), (a + 8, y)], INK, 0.8, ' marker-end="url(#to)"')
            cloth([(b, y - 5), (c, y - 5)], INK, -1)
            cloth([(b, y + 5), (c, y + 5)], LINING, 1)
            cloth([(d, y - 5), (end, y - 5)], INK, -1)
            cloth([(d, y + 5), (end, y + 5)], LINING, 1)
            stroke([(end, y - 5), (end, y + 5)], SEAM, 1)
            sewn((end, y))
            words(x, y + 28, "Each part is drawn out through the open sides:")
            words(x, y + 39, "what lay inside comes out, end last.")
        if state == 2:  # turned, shell joined at the sides, lining folded in and closed over it
            layers.clear()
            b, c, d = a, a + panel, a + panel
            end = d + half
            cloth([(x, y - 5), (a, y - 5), (a, y - 1)], INK, 1)
            cloth([(b + 2, y - 1), (b + 2, y - 5), (c, y - 5), (c, y - 1)], INK, 1)
            cloth([(d + 2, y - 1), (d + 2, y - 5), (end, y - 5)], INK, 1)
            cloth([(x, y + 5), (a, y + 5), (a, y + 2)], LINING, -1)
            cloth([(b + 2, y + 2), (b + 2, y + 5), (c, y + 5), (c, y + 2)], LINING, -1)
            cloth([(d + 2, y + 2), (d + 2, y + 5), (end, y + 5)], LINING, -1)
            stroke([(x, y - 5), (x, y + 5)], SEAM, 1)
            stroke([(end, y - 5), (end, y + 5)], SEAM, 1)
            sewn((x, y), (end, y), (a + 1, y - 3), (c + 1, y - 3), (a + 1, y + 5), (c + 1, y + 5))
            finished("sides")
            words(x, y + 28, "Turned. The shell’s sides are sewn from inside,")
            words(x, y + 39, "then the lining is closed over them.")


def section_of_hood(y):
    """A hood from neck to face, and where it is sewn to the neckline of a coat that is turned."""
    hood = pieces("bosun", hood="hood")["hood"]["net"]
    wide = max(p[0] for p in hood) - min(p[0] for p in hood)
    deep = 100 * wide / 300
    x = COLUMNS[0]
    cloth([(x + 4, y - 5), (x + deep, y - 5)], INK, -1)
    cloth([(x + 4, y + 5), (x + deep, y + 5)], LINING, 1)
    stroke([(x + deep, y - 5), (x + deep, y + 5)], SEAM, 1)
    sewn((x + deep, y))
    stroke([(x + deep - 8, y), (x - 4, y)], INK, 0.8, ' marker-end="url(#to)"')
    words(x + 120, y - 4, "face sewn, neck open;")
    words(x + 120, y + 7, "turned through the neck")
    words(x, y + 28, "Hood and lining right sides together.")
    x = COLUMNS[1]
    cloth([(x, y - 9), (x + 150, y - 9)], INK, -1)
    cloth([(x, y + 9), (x + 150, y + 9)], LINING, 1)
    cloth([(x + 150 - deep, y - 3), (x + 150, y - 3)], INK, 1)
    cloth([(x + 150 - deep, y + 3), (x + 150, y + 3)], LINING, -1)
    stroke([(x + 150 - deep, y - 3), (x + 150 - deep, y + 3)], SEAM, 1)
    stroke([(x + 144, y - 11), (x + 144, y + 11)], SEAM, 1)
    sewn((x + 144, y))
    words(x + 156, y - 4, "neckline")
    words(x, y + 28, "Turned, and laid between shell and lining of the")
    words(x, y + 39, "coat, its shell on the shell: one seam takes all four.")
    layers.clear()
    x = COLUMNS[2]
    cloth([(x, y - 4), (x + 104, y - 4)] + [(x + 110, y - 2), (x + 98, y - 1)], INK, 1)
    cloth([(x, y + 4), (x + 104, y + 4)] + [(x + 110, y + 2), (x + 98, y + 1)], LINING, -1)
    cloth([(x + 98, y - 0.4), (x + 112, y - 2), (x + 112 + deep, y - 4)], INK, 1)
    cloth([(x + 98, y + 0.4), (x + 112, y + 2), (x + 112 + deep, y + 4)], LINING, -1)
    stroke([(x + 112 + deep, y - 4), (x + 112 + deep, y + 4)], SEAM, 1)
    sewn((x + 108, y))
    finished("hood")
    words(x, y + 28, "Coat turned: the hood stands up at the neckline,")
    words(x, y + 39, "all raw edges lie between shell and lining.")


def section_of_opening(y):
    """A faced opening across its line."""
    facing = pieces("bosun", opening="leash")["opening.facing"]["net"]
    reach = 0.5 * (max(p[1] for p in facing) - min(p[1] for p in facing))
    side = 62 * reach / 20
    for column, state in zip(COLUMNS, range(3)):
        x, m = column, column + 110
        if state == 0:
            cloth([(x, y), (m - 2, y)], INK, 1)
            cloth([(m + 2, y), (x + 220, y)], INK, 1)
            cloth([(m - side, y - 9), (m - side + 8, y - 7), (m - 2, y - 7)], FACING, -1)
            cloth([(m + 2, y - 7), (m + side - 8, y - 7), (m + side, y - 9)], FACING, -1)
            for at in (m - 9, m + 9):
                stroke([(at, y - 9), (at, y + 2)], SEAM, 1)
                sewn((at, y - 3.5))
            words(x, y + 28, "The facing lies on the shell, right sides together;")
            words(x, y + 39, "stitched round, then cut between the rows.")
        else:
            layers.clear()
            for way in (-1, 1):
                end, lip = m + way * 110, m + way * 9
                cloth([(end, y - 4), (lip, y - 4), (lip, y - 1), (lip + way * 8, y - 1)], INK, -way)
                cloth([(lip + way * 8, y + 1), (lip - way * 1.5, y + 1), (lip - way * 1.5, y - 3), (lip - way * 1.5, y + 5),
                       (m + way * side, y + 5)][1:], FACING, 0)
                sewn((lip, y - 2))
                if state == 2:
                    stroke([(end, y + 1), (lip + way * 16, y + 1)], INSULATION, 4)
                    cloth([(end, y + 12), (lip, y + 12), (lip, y + 9), (lip + way * 7, y + 9)], LINING, way)
                    stroke([(lip + way * 5, y - 7), (lip + way * 5, y + 15)], SEAM, 1)
            if state == 2:
                finished("opening")
            told = (("The facing is drawn through to the inside:", "raw edges lie under it."),
                    ("The insulation goes under the facing; the lining is", "folded under round it and stitched through all."))
            words(x, y + 28, told[state - 1][0])
            words(x, y + 39, told[state - 1][1])


def section_of_collar(y):
    """A collar that is turned over, from roll to neck: its stand between the fall and the neckline."""
    coat = pieces("bosun", collar="turned")
    high = lambda id: math.dist(*coat[id]["fold"][:2])
    scale = 84 / high("fall")
    stand, fall = scale * high("collar"), scale * high("fall")
    # The fall, made up, between collar and lining: one seam takes all four along the roll.
    x = COLUMNS[0] + 100
    cloth([(x - stand, y - 9), (x, y - 9)], INK, -1)
    cloth([(x - fall, y - 3), (x, y - 3)], FACING, 1)
    cloth([(x - fall, y + 3), (x, y + 3)], INK, -1)
    cloth([(x - stand, y + 9), (x, y + 9)], LINING, 1)
    stroke([(x - fall, y - 3), (x - fall, y + 3)], SEAM, 1)
    stroke([(x - 6, y - 11), (x - 6, y + 11)], SEAM, 1)
    sewn((x - fall, y), (x - 6, y))
    words(x + 6, y - 4, "roll line; the neck")
    words(x + 6, y + 7, "edges are at the left")
    words(COLUMNS[0], y + 28, "The fall lies between collar and lining,")
    words(COLUMNS[0], y + 39, "the under fall on the collar’s shell.")
    # Turned: the stand comes right sides out on the other side of the roll.
    x = COLUMNS[1] + fall + 10
    cloth([(x - fall, y - 4), (x - 2, y - 4), (x + 8, y - 1)], FACING, 1)
    cloth([(x - fall, y + 4), (x - 2, y + 4), (x + 8, y + 1)], INK, -1)
    cloth([(x + 8, y - 2), (x + 2, y - 4), (x + stand, y - 4)][1:], INK, 1)
    cloth([(x + 8, y + 2), (x + 2, y + 4), (x + stand, y + 4)][1:], LINING, -1)
    stroke([(x - fall, y - 4), (x - fall, y + 4)], SEAM, 1)
    sewn((x - fall, y), (x, y))
    words(x - 0.7 * fall, y - 9, "fall")
    words(x + 0.4 * stand, y - 9, "stand")
    words(COLUMNS[1], y + 28, "Turned at its ends: the fall stands up from the roll,")
    words(COLUMNS[1], y + 39, "the raw edges of the roll lie in the stand.")
    # Sewn to the coat as a hood is, and folded over to the outside.
    layers.clear()
    x = COLUMNS[2] + 8
    neck = x + stand
    cloth([(x + fall, y - 14), (x + 3, y - 14)], INK, -1)
    cloth([(x + fall, y - 8), (x + 3, y - 8)], FACING, 1)
    cloth([(x + 3, y - 2), (neck, y - 2), (neck + 4, y + 1)], INK, 1)
    cloth([(x + 3, y + 6), (neck, y + 6), (neck + 4, y + 3)], LINING, -1)
    cloth([(x + 3, y - 14)] + bend(x + 3, y - 4, 10, -90, -270), INK, 0)
    cloth([(x + 3, y - 8)] + bend(x + 3, y - 5, 3, -90, -270), FACING, 0)
    cloth([(neck + 6, y + 1), (neck + 2, y - 2), (x + 230, y - 2)], INK, 1)
    cloth([(neck + 6, y + 3), (neck + 2, y + 6), (x + 230, y + 6)], LINING, -1)
    stroke([(x + fall, y - 14), (x + fall, y - 8)], SEAM, 1)
    sewn((x + fall, y - 11), (x + 3, y + 2), (neck + 1, y + 2))
    finished("collar")
    words(COLUMNS[2], y + 28, "On the coat, turned over: the larger upper layer lies")
    words(COLUMNS[2], y + 39, "outside, over the neckline’s seam.")


def section_of_flap(y):
    """A pocket and its flap, across the mouth; the spine is at the left."""
    coat = pieces("bosun", pocket="flap")
    deep = lambda id: max(p[1] for p in coat[id]["net"]) - min(p[1] for p in coat[id]["net"])
    scale = 90 / deep("pocket")
    lines = {m["label"]: m["line"] for m in coat["body"]["marks"]}
    gap = scale * (next(v for k, v in lines.items() if k.startswith("pocket"))[0][1]
                   - next(v for k, v in lines.items() if k.startswith("flap"))[0][1])
    pocket, flap = 90, scale * deep("flap")
    for column, state in zip(COLUMNS, range(3)):
        layers.clear()
        seam, mouth = column + 80, column + 80 + gap
        cloth([(column, y + 9), (column + 220, y + 9)], INK, 1)
        body = layers.pop()
        cloth([(mouth, y + 1), (mouth + pocket, y + 1)], INK, 1)
        cloth([(mouth, y + 5), (mouth + pocket, y + 5)], LINING, -1)
        for at in (mouth, mouth + pocket):
            stroke([(at, y + 1), (at, y + 5)], SEAM, 1)
        stroke([(mouth + pocket - 4, y - 1), (mouth + pocket - 4, y + 11)], SEAM, 1)
        sewn((mouth + pocket - 4, y + 7))
        if state == 0:
            raw = 0.8 * gap
            cloth([(seam - flap, y - 2), (seam + raw, y - 2)], LINING, 1)
            cloth([(seam - flap, y + 4), (seam + raw, y + 4)], INK, -1)
            stroke([(seam - flap, y - 2), (seam - flap, y + 4)], SEAM, 1)
            stroke([(seam, y - 4), (seam, y + 11)], SEAM, 1)
            sewn((seam - flap, y + 1), (seam, y + 6))
            words(column, y + 28, "The flap lies right side down above the mouth")
            words(column, y + 39, "and points away from it; sewn on its seam line.")
            continue
        raw = 0.45 * gap
        cloth([(seam + raw, y + 3), (seam, y + 3)], LINING, -1)
        cloth([(seam + raw, y + 6), (seam, y + 6)], INK, 1)
        cloth([(seam, y + 3)] + bend(seam, y - 1, 4, 90, 270), LINING, 0)
        cloth([(seam, y + 6)] + bend(seam, y - 2, 8, 90, 270), INK, 0)
        for _ in range(4):
            layers.pop()
        cloth([(seam, y - 10), (seam + flap, y - 10)], INK, 1)
        cloth([(seam, y - 5), (seam + flap, y - 5)], LINING, -1)
        stroke([(seam + flap, y - 10), (seam + flap, y - 5)], SEAM, 1)
        sewn((seam + flap, y - 7.5), (seam + 1, y + 7.5))
        if state == 2:
            row = seam + 0.6 * gap
            stroke([(row, y - 12), (row, y + 11)], SEAM, 1)
            layers.append(body)
            hang = layers.pop()  # the shell’s wrong side lies on the coat’s lining
            finished("flap")
            layers.append(hang)
        told = (("Trimmed, so that the raw edge ends short of the", "mouth, and folded down over it."),
                ("A second row below the fold: the raw edge lies", "between the rows, and the mouth stays free."))
        words(column, y + 28, told[state - 1][0])
        words(column, y + 39, told[state - 1][1])


def main():
    head = ' font-weight="bold"'
    for y, title, draw in ((30, "A coat with a panel, across at the girth", section_of_sides),
                           (126, "A hood, from neck to face", section_of_hood),
                           (222, "A faced opening, across its line", section_of_opening),
                           (318, "A collar that is turned over, from roll to neck", section_of_collar),
                           (414, "A pocket with a flap, across its mouth", section_of_flap)):
        words(10, y - 14, title, 10, head)
        draw(y + 14)
    y = 484
    for x, colour, name in ((10, INK, "shell"), (90, LINING, "lining"), (170, FACING, "facing, under fall")):
        cloth([(x, y), (x + 30, y)], colour, 1 if colour != FACING else 0)
        words(x + 36, y + 3, name)
    stroke([(300, y), (330, y)], INSULATION, 4)
    words(336, y + 3, "insulation")
    sewn((405, y))
    words(413, y + 3, "sewn")
    words(460, y + 3, "The short strokes stand on the right side of the cloth.")
    print('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 760 496" font-family="sans-serif" fill="#23303a">'
          '<defs><marker id="to" markerWidth="7" markerHeight="6" refX="5" refY="3" orient="auto">'
          '<path d="M0 0L7 3L0 6z"/></marker></defs><rect width="760" height="496" fill="#fff"/>')
    print("\n".join(out))
    print("</svg>")


main()
