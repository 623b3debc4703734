"""The lay on the cutting table: what `coatwright lay --light` draws for a projector, thrown onto a table by a projector and
measured by a camera that numpy makes up. No homography of ours is asked: rays are cut with planes, and maps are solved from
points by least squares (Hartley and Zisserman, Multiple View Geometry, 2nd ed., algorithm 4.1)."""

import json
import math
import pathlib
import re
import tempfile
import unittest
import xml.etree.ElementTree

import numpy
import tool

PX = numpy.array([1920.0, 1080.0])
RECTANGLE = numpy.array([[0, 0], [841, 0], [841, 594], [0, 594]], float)  # A1
DISTANCE = 1700.0  # mm, of the lens from the middle of the rectangle
FOCUS = 2200.0     # px
KEY_STEP = 0.5     # px, by which an arrow key moves a pin (web/cloth.js)


def lamp(across_deg, along_deg):
    """A pinhole over the rectangle's middle, turned about the table's two axes: table points to pixels."""
    a, b = math.radians(across_deg), math.radians(along_deg)
    about_x = numpy.array([[1, 0, 0], [0, math.cos(a), -math.sin(a)], [0, math.sin(a), math.cos(a)]])
    about_y = numpy.array([[math.cos(b), 0, math.sin(b)], [0, 1, 0], [-math.sin(b), 0, math.cos(b)]])
    turn = about_x @ about_y
    middle = RECTANGLE.mean(axis=0)

    def to_pixels(points):
        flat = numpy.column_stack([points - middle, numpy.zeros(len(points))])
        seen = flat @ turn.T + [0, 0, DISTANCE]
        return FOCUS * seen[:, :2] / seen[:, 2:] + PX / 2

    return to_pixels


def stepped(points, step):
    return numpy.round(points / step) * step


def solved(source, image):
    """The map from four or more pairs of points, by the singular vector of least value."""
    rows = []
    for (x, y), (u, v) in zip(source, image):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y, -u], [0, 0, 0, x, y, 1, -v * x, -v * y, -v]]
    h = numpy.linalg.svd(numpy.array(rows) / numpy.abs(rows).max(axis=0))[2][-1]
    h = (h / numpy.abs(rows).max(axis=0)).reshape(3, 3)

    def through(points):
        out = numpy.column_stack([points, numpy.ones(len(points))]) @ h.T
        return out[:, :2] / out[:, 2:]

    return through


def shapes(svg):
    """Kind to contours, in pixels."""
    out = {}
    for path in xml.etree.ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}path"):
        for contour in path.get("d").strip("Z").split("Z"):
            points = numpy.array([[float(n) for n in p.split()] for p in re.split("[ML]", contour)[1:]])
            out.setdefault(path.get("class"), []).append(points)
    return out


def middle_lines(contours):
    """Of straight strokes, which are contours of four corners, the two ends of the middle line."""
    return [((c[0] + c[3]) / 2, (c[1] + c[2]) / 2) for c in contours if len(c) == 4]


def distance_to(outline, points):
    """Of each point to the closed outline, mm."""
    a, b = outline, numpy.roll(outline, -1, axis=0)
    along = b - a
    t = numpy.clip(((points[:, None] - a) * along).sum(2) / numpy.maximum((along ** 2).sum(1), 1e-12), 0, 1)
    return numpy.sqrt((((a + t[..., None] * along) - points[:, None]) ** 2).sum(2)).min(1)


class Table(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def light(self, pins, rectangle="841x594"):
        corners = " ".join(f"{x:.9g},{y:.9g}" for x, y in pins)
        return tool.run("lay", tool.ROOT / "assets/tickets/bosun.json", "--steps", 20, "--out", self.folder,
                        "--light", f"{rectangle} {PX[0]:.0f}x{PX[1]:.0f} {corners}")

    def lit(self, pins, name):
        self.assertEqual("", self.light(pins).stderr)
        return shapes((self.folder / f"table-{name}.svg").read_text(encoding="utf-8"))

    def test_drawn_lengths_are_true_within_half_a_pixel_at_every_keystone_up_to_thirty_degrees(self):
        measured, worst = 0, 0.0
        for across, along in ((0, 0), (30, 0), (0, -30), (21, 21), (-17, 24)):
            to_pixels = lamp(across, along)
            pins = stepped(to_pixels(RECTANGLE), KEY_STEP)
            check = self.lit(pins, "check")["check"]
            lines = middle_lines(check)
            self.assertEqual(5, len(lines))  # the four sides and a diagonal
            # The camera: where the drawn pixels really fall, found from the lamp by pairs of points.
            grid = numpy.array([[x, y] for x in range(0, 842, 29) for y in range(0, 595, 27)], float)
            to_table = solved(to_pixels(grid), grid)
            side = 500.0
            for start, end in lines:
                on = to_table(numpy.array([start, end]))
                wanted = side if numpy.abs(on[0] - on[1]).min() < 100 else side * math.sqrt(2)
                # A length of the picture, beside that of the same line thrown by a lamp whose pins had no pixels.
                steps = numpy.linspace(0, 1, 41)[:, None]
                drawn = start + steps * (end - start)
                fallen = to_table(drawn)
                length = numpy.linalg.norm(fallen[-1] - fallen[0])
                pixel = numpy.linalg.norm(fallen[1:] - fallen[:-1], axis=1).sum() / numpy.linalg.norm(end - start)
                worst = max(worst, abs(length - wanted) / pixel)
                measured += 1
        self.assertEqual(25, measured)
        self.assertGreater(worst, 0.01)
        self.assertLess(worst, 0.5)

    def test_every_outline_lies_on_the_table_as_the_lay_says(self):
        """Through other maps and other files than the drawing's: lay.json and draft.json say where the outlines are."""
        to_pixels = lamp(24, -15)
        pins = to_pixels(RECTANGLE)
        cut = self.lit(pins, "shell")["cut"]
        grid = numpy.array([[x, y] for x in range(0, 842, 29) for y in range(0, 595, 27)], float)
        to_table = solved(to_pixels(grid), grid)
        drawn = numpy.concatenate([to_table(numpy.array(line)) for line in middle_lines(cut)])
        lay = next(one for one in json.loads((self.folder / "lay.json").read_text())["lays"] if one["cloth"] == "shell")
        self.assertEqual("", tool.run("draft", tool.ROOT / "assets/tickets/bosun.json", "--out", self.folder, "--full").stderr)
        pieces = {p["id"]: p for p in json.loads((self.folder / "draft.json").read_text())["pieces"]}
        nearest = numpy.full(len(drawn), numpy.inf)
        for placement in lay["placements"]:
            points = numpy.array(pieces[placement["piece"]]["cut"], float)
            if placement["mirrored"]:
                points[:, 1] *= -1
            angle = math.radians(placement["rotation_deg"])
            turn = numpy.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
            outline = points @ turn.T + [placement["x"], placement["y"]]
            nearest = numpy.minimum(nearest, distance_to(outline, drawn))
        inside = ((drawn >= 0) & (drawn <= RECTANGLE[2])).all(axis=1)
        self.assertGreater(inside.sum(), 200)
        # Thousandths of a pixel in the file, three of them a millimetre's thousandths; and lines with fewer points.
        self.assertLess(nearest[inside].max(), 0.03)

    def test_pins_set_in_half_pixels_hold_every_point_within_half_a_pixel(self):
        dice = numpy.random.default_rng(1)
        grid = numpy.array([[x, y] for x in range(0, 842, 58) for y in range(0, 595, 54)], float)
        for step, point_most, length_most in ((KEY_STEP, 0.5, 0.55), (1.0, 1.0, 1.1)):
            points, lengths = [], []
            for _ in range(300):
                to_pixels = lamp(*dice.uniform(-30, 30, 2))
                true, set_so = to_pixels(grid), solved(RECTANGLE, stepped(to_pixels(RECTANGLE), step))(grid)
                points.append(numpy.abs(true - set_so).max())
                pairs = dice.integers(0, len(grid), (50, 2))
                long, drawn = (numpy.linalg.norm(p[pairs[:, 0]] - p[pairs[:, 1]], axis=1) for p in (true, set_so))
                lengths.append(numpy.abs(long - drawn))
            print(f"  pins in steps of {step} px: points {max(points):.2f} px off at the most, "
                  f"lengths {numpy.max(lengths):.2f} px, {numpy.sqrt(numpy.mean(numpy.square(lengths))):.2f} px on the whole")
            self.assertLess(max(points), point_most)
            self.assertLess(numpy.max(lengths), length_most)

    def test_what_holds_no_picture_is_refused(self):
        good = lamp(10, 0)(RECTANGLE)
        self.assertEqual(0, self.light(good).returncode)
        dented = good.copy()
        dented[2] = (good[0] + good[2]) / 2 - (good[2] - good[0]) / 10
        for pins, rectangle in ((dented, "841x594"), (good[[0, 2, 1, 3]], "841x594"), (good[::-1], "841x594"), (good, "84x594"),
                                (good, "841xnan"), (good[:3], "841x594"), (good * numpy.nan, "841x594")):
            answer = self.light(pins, rectangle)
            self.assertEqual((2, "tool.no-light"), (answer.returncode, tool.code_of(answer.stderr)), (pins, rectangle))


if __name__ == "__main__":
    unittest.main()
