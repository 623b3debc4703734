"""The document that `coatwright print` writes, printed by headless Chromium and measured by poppler."""

import os
import pathlib
import subprocess
import tempfile
import unittest
import xml.etree.ElementTree as ElementTree

import printed_pages
import tool

MARGIN, OVERLAP = 12.7, 15.0  # mm, the usual ones
TOLERANCE = 0.1               # mm
POINT = 25.4 / 72.0           # mm


def chromium(html, pdf):
    subprocess.run(["chromium", "--headless", *(["--no-sandbox"] if os.getuid() == 0 else []), "--disable-gpu", "--no-first-run",
                    "--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-pdf-header-footer",
                    f"--print-to-pdf={pdf}", pathlib.Path(html).as_uri()],
                   check=True, capture_output=True, timeout=120)


class SheetsPrinted(unittest.TestCase):
    def printed(self, ticket, *arguments):
        """Prints a demo ticket; checks pages, scale and joins; gives back how many samples of cut line met."""
        with tempfile.TemporaryDirectory() as folder:
            folder = pathlib.Path(folder)
            answer = tool.run("print", tool.ROOT / f"assets/tickets/{ticket}.json", *arguments, "--out", folder)
            self.assertEqual(answer.returncode, 0, answer.stderr)
            first = ElementTree.parse(folder / "sheets.svg").getroot().find("{http://www.w3.org/2000/svg}svg")
            sheets = (folder / "sheets.html").read_text(encoding="utf-8").count("<section>")
            width, height = float(first.get("width")), float(first.get("height"))
            chromium(folder / "sheets.html", folder / "sheets.pdf")
            measured = printed_pages.measure(str(folder / "sheets.pdf"), width, height, MARGIN, OVERLAP)
        self.assertEqual(len(measured["pages"]), sheets)
        for page in measured["pages"]:
            for got, wanted in ((page["width"], width), (page["height"], height)):
                # Chromium makes pages of whole points, so that a side may be half a point off.
                rounded = round(wanted / POINT) * POINT
                self.assertTrue(abs(got - wanted) <= TOLERANCE or abs(got - rounded) <= 0.05, (got, wanted))
            for axis in ("check_x", "check_y"):
                self.assertTrue(page[axis], f"no check along {axis}")
                self.assertAlmostEqual(page[axis][0], 100.0, delta=TOLERANCE)
        for join in measured["joins"]:
            self.assertLessEqual(join["worst_mm"], TOLERANCE, join)
        return sum(join["samples"] for join in measured["joins"])

    def test_every_paper_prints_at_true_scale_and_its_sheets_meet(self):
        samples = 0
        for paper in ("a4", "letter", "legal", "tabloid", "a3", "a0"):
            with self.subTest(paper):
                samples += self.printed("hawser", "--paper", paper)
        self.assertGreater(samples, 500)

    def test_whole_pieces_on_their_side_print_at_true_scale_and_meet(self):
        self.assertGreater(self.printed("bollard", "--paper", "a4", "--turn", "landscape", "--full"), 200)


if __name__ == "__main__":
    unittest.main()
