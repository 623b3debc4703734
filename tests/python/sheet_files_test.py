"""The sheets and the pattern as files: well-formed, at true size, safe from what a ticket's text may hold.

The files are read by Python's XML parser and measured by librsvg, which made none of them.
"""

import json
import pathlib
import re
import subprocess
import tempfile
import unittest
import xml.etree.ElementTree as ElementTree

import tool

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = "<script>alert('1')</script>]]>&\"<!--"


def made(ticket, *arguments):
    """The text of each file that print and draft write for a ticket."""
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "ticket.json"
        path.write_text(json.dumps(ticket), encoding="utf-8")
        for command in (("draft",), ("print", *arguments)):
            answer = tool.run(command[0], path, "--out", folder, *command[1:])
            assert answer.returncode == 0, answer.stderr
        return {name: (pathlib.Path(folder) / name).read_text(encoding="utf-8")
                for name in ("pattern.svg", "sheets.svg", "sheets.html")}


def texts(root):
    return ["".join(element.itertext()) for element in root.iter(SVG + "text")]


class SheetFiles(unittest.TestCase):
    def test_every_demo_ticket_gives_well_formed_files(self):
        self.assertTrue(tool.DEMO_TICKETS)
        for path in tool.DEMO_TICKETS:
            files = made(json.loads(path.read_text(encoding="utf-8")))
            for name in ("pattern.svg", "sheets.svg"):
                root = ElementTree.fromstring(files[name])
                self.assertEqual(root.tag, SVG + "svg", path.name)
                self.assertGreater(len(texts(root)), 5, path.name)

    def test_numbers_have_at_most_three_decimals(self):
        for name, text in made(tool.demo()).items():
            self.assertIsNone(re.search(r"\d\.\d{4}", text), name)
            self.assertIsNone(re.search(r"\b(nan|inf)\b|\de[+-]?\d", re.sub(r"<style>.*?</style>|>[^<]*<", "", text, flags=re.S)), name)

    def test_a_unit_is_a_millimetre(self):
        for name in ("pattern.svg", "sheets.svg"):
            root = ElementTree.fromstring(made(tool.demo())[name])
            _, _, width, height = map(float, root.get("viewBox").split())
            self.assertEqual(root.get("width"), f"{width:g}mm")
            self.assertEqual(float(root.get("height").removesuffix("mm")), height)

    def test_each_sheet_is_one_nested_drawing_of_the_papers_size(self):
        for paper, sides in (("a4", {210.0, 297.0}), ("letter", {215.9, 279.4}), ("legal", {215.9, 355.6}),
                             ("tabloid", {279.4, 431.8}), ("a3", {297.0, 420.0}), ("a0", {841.0, 1189.0}),
                             ("228.6x304.8mm", {228.6, 304.8})):
            files = made(tool.demo(), "--paper", paper)
            root = ElementTree.fromstring(files["sheets.svg"])
            sheets = root.findall(SVG + "svg")
            for i, sheet in enumerate(sheets):
                self.assertEqual({float(sheet.get("width")), float(sheet.get("height"))}, sides, paper)
                self.assertAlmostEqual(float(sheet.get("y")), i * float(sheet.get("height")), 3)
            self.assertEqual(files["sheets.html"].count("<section>"), len(sheets), paper)

    def test_librsvg_and_poppler_measure_the_check_on_every_sheet(self):
        with tempfile.TemporaryDirectory() as folder:
            svg, pdf = pathlib.Path(folder) / "sheets.svg", pathlib.Path(folder) / "sheets.pdf"
            svg.write_text(made(tool.demo())["sheets.svg"], encoding="utf-8")
            sheets = len(ElementTree.parse(svg).getroot().findall(SVG + "svg"))
            subprocess.run(["rsvg-convert", "-f", "pdf", "-o", pdf, svg], check=True)
            drawn = subprocess.run(["pdftocairo", "-svg", pdf, "-"], check=True, capture_output=True, text=True).stdout
        lengths = {"x": [], "y": []}
        number = r"(-?[\d.]+)"
        for line in re.finditer(rf'd="M {number} {number} L {number} {number} "[^>]*transform="matrix\(([^)]*)\)"', drawn):
            x0, y0, x1, y1 = map(float, line.groups()[:4])
            a, b, c, d, _, _ = map(float, line.group(5).split(","))
            dx, dy = ((a * (x1 - x0) + c * (y1 - y0)) * 25.4 / 72, (b * (x1 - x0) + d * (y1 - y0)) * 25.4 / 72)
            if abs(dy) < 0.01:
                lengths["x"].append(abs(dx))
            if abs(dx) < 0.01:
                lengths["y"].append(abs(dy))
        for axis, found in lengths.items():
            for wanted in (100.0, 101.6):
                near = [got for got in found if abs(got - wanted) < 0.5]
                self.assertGreaterEqual(len(near), sheets, f"{wanted} mm along {axis}")
                exact = [got for got in near if abs(got - wanted) < 0.01]
                self.assertEqual(len(exact), sheets, f"{wanted} mm along {axis}: {near}")

    def test_hostile_names_are_shown_as_text(self):
        ticket = tool.demo()
        ticket["dog"] = HOSTILE[:40]
        ticket["name"] = HOSTILE
        files = made(ticket)
        for name in ("pattern.svg", "sheets.svg"):
            root = ElementTree.fromstring(files[name])
            self.assertTrue(any(HOSTILE in text for text in texts(root)) or HOSTILE in root.findtext(SVG + "title"), name)
        for name, text in files.items():
            self.assertNotIn("<script", text, name)
            self.assertNotIn("<!--", text, name)

    def test_the_document_to_print_asks_for_nothing(self):
        html = made(tool.demo())["sheets.html"]
        self.assertIn("default-src 'none'", html)
        for part in ("<script", "<link", "<img", "src=", "href", "url(", "@import"):
            self.assertNotIn(part, html)


if __name__ == "__main__":
    unittest.main()
