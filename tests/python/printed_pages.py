"""Measures printed sheets in a PDF with poppler, which made none of them. Lengths in mm, y down, from each page's corner.

    measure(pdf, width, height, margin, overlap) -> {"pages": [...], "joins": [...]}
    python3 tests/python/printed_pages.py FILE.pdf WIDTH HEIGHT MARGIN OVERLAP    prints that as JSON

WIDTH and HEIGHT are the paper's, as turned.

pages: width, height, text; row and column if it is a sheet of the pattern; check_x and check_y, the lengths of the straight
lines along each axis that come within 1 mm of 100 mm, nearest first; cut_mm, the length of cut line on it.
joins: for each two sheets side by side or one above the other, how far (worst) the cut lines of one lie from those of the
other on the strip that both show, over how many samples.
"""
import json
import math
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree

MM = 25.4 / 72.0
CUT_WIDTH = 0.7  # mm, core/draw/pen.cpp: the pen of cut lines and of nothing else
STEP = 0.5       # mm between samples along a cut line
SVG = "{http://www.w3.org/2000/svg}"


def run(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def product(m, n):
    a, b, c, d, e, f = m
    g, h, i, j, k, l = n
    return (a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f)


def matrix(element):
    numbers = re.findall(r"-?[\d.]+(?:e-?\d+)?", element.get("transform", ""))
    return tuple(map(float, numbers)) if len(numbers) == 6 else (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def polylines(path, m):
    """The path's runs of straight lines; curves (round marks) are left out, since no cut line or check has one."""
    runs, here = [], None
    for command, numbers in re.findall(r"([MLHVCZ])([^MLHVCZ]*)", path):
        values = list(map(float, numbers.split()))
        points = list(zip(values[0::2], values[1::2]))
        if command == "M":
            here = [points[0]]
            runs.append(here)
        elif command == "L":
            here.extend(points)
        elif command == "Z" and here:
            here.append(here[0])
        else:
            here = [points[-1]] if points else []
            runs.append(here)
    a, b, c, d, e, f = m
    moved = [[((a * x + c * y + e) * MM, (b * x + d * y + f) * MM) for x, y in run] for run in runs]
    return [run for run in moved if len(run) > 1]


def strokes(element, m=(1.0, 0.0, 0.0, 1.0, 0.0, 0.0)):
    """(pen width, polyline) of everything stroked below the element."""
    m = product(m, matrix(element))
    if element.tag == SVG + "defs":
        return
    width = re.search(r"stroke-width:([\d.]+)", element.get("style", ""))
    if element.tag == SVG + "path" and width:
        scale = math.sqrt(abs(m[0] * m[3] - m[1] * m[2])) * MM
        for line in polylines(element.get("d", ""), m):
            yield float(width.group(1)) * scale, line
    for child in element:
        yield from strokes(child, m)


def checks(lines, axis):
    found = []
    for line in lines:
        (x0, y0), (x1, y1) = line[0], line[-1]
        along, across = (abs(x1 - x0), abs(y1 - y0)) if axis == 0 else (abs(y1 - y0), abs(x1 - x0))
        if len(line) == 2 and across < 0.05 and abs(along - 100.0) < 1.0:
            found.append(along)
    return sorted(found, key=lambda length: abs(length - 100.0))


def length(line):
    return sum(math.dist(p, q) for p, q in zip(line, line[1:]))


def samples(line):
    for p, q in zip(line, line[1:]):
        n = max(1, math.ceil(math.dist(p, q) / STEP))
        for i in range(n):
            yield (p[0] + (q[0] - p[0]) * i / n, p[1] + (q[1] - p[1]) * i / n)


def distance(p, lines):
    best = math.inf
    for line in lines:
        for (x0, y0), (x1, y1) in zip(line, line[1:]):
            dx, dy = x1 - x0, y1 - y0
            size = dx * dx + dy * dy
            t = 0.0 if size == 0.0 else max(0.0, min(1.0, ((p[0] - x0) * dx + (p[1] - y0) * dy) / size))
            best = min(best, math.hypot(p[0] - x0 - t * dx, p[1] - y0 - t * dy))
    return best


def page(pdf, number, printer=(1.0, 1.0)):
    """What a page shows, as a printer puts it on paper that makes everything so much larger along x and y."""
    root = ElementTree.fromstring(run("pdftocairo", "-svg", "-noshrink", "-nocenter", "-f", str(number), "-l", str(number), pdf, "-"))
    drawn = list(strokes(root, (printer[0], 0.0, 0.0, printer[1], 0.0, 0.0)))
    text = run("pdftotext", "-f", str(number), "-l", str(number), pdf, "-")
    size = re.search(rf"^Page +{number} size: +([\d.]+) x ([\d.]+)", run("pdfinfo", "-f", str(number), "-l", str(number), pdf), re.M)
    lines = [line for _, line in drawn]
    cut = [line for width, line in drawn if abs(width - CUT_WIDTH) < 0.02]
    label = re.search(r"row ([A-Z]+), column (\d+)", text)
    return {"width": float(size.group(1)) * MM, "height": float(size.group(2)) * MM, "text": text,
            "row": ord(label.group(1)[-1]) - ord("A") if label else None, "column": int(label.group(2)) - 1 if label else None,
            "check_x": checks(lines, 0), "check_y": checks(lines, 1), "cut_mm": sum(map(length, cut)), "cut": cut}


def join(first, second, shift, axis, margin, overlap):
    """Compares cut lines of two sheets, `shift` mm apart along the axis, on the strip that both show."""
    low = shift + margin + 0.6  # a line's end may lie half a pen inside the strip's edge
    high = low + overlap - 1.2
    moved = [[(x + shift * (1 - axis), y + shift * axis) for x, y in line] for line in second["cut"]]
    worst, count = 0.0, 0
    for lines, others in ((first["cut"], moved), (moved, first["cut"])):
        for p in (p for line in lines for p in samples(line) if low < p[axis] < high):
            worst = max(worst, distance(p, others))
            count += 1
    return worst, count


def measure(pdf, width, height, margin, overlap):
    count = int(re.search(r"^Pages: +(\d+)", run("pdfinfo", pdf), re.M).group(1))
    pages = [page(pdf, number) for number in range(1, count + 1)]
    sheets = {(p["row"], p["column"]): p for p in pages if p["row"] is not None}
    joins = []
    for (row, column), first in sheets.items():
        for axis, beside in ((0, (row, column + 1)), (1, (row + 1, column))):
            if beside not in sheets:
                continue
            shift = (height if axis else width) - 2.0 * margin - overlap
            worst, n = join(first, sheets[beside], shift, axis, margin, overlap)
            joins.append({"first": [row, column], "second": list(beside), "worst_mm": worst, "samples": n})
    for p in pages:
        del p["cut"]
    return {"pages": pages, "joins": joins}


if __name__ == "__main__":
    print(json.dumps(measure(sys.argv[1], *map(float, sys.argv[2:6]))))
