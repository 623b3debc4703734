"""PDF files of the command-line tool, read by qpdf and poppler, which made none of them."""

import json
import pathlib
import re
import subprocess
import tempfile
import unittest

import printed_pages
import tool

MARGIN, OVERLAP = 12.7, 15.0  # mm, the usual ones
TOLERANCE = 0.1               # mm
POINT = 25.4 / 72.0           # mm
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4), "tabloid": (279.4, 431.8), "a0": (841.0, 1189.0)}
DATE = "2026-11-24"
# Quotes and signs of PDF's own, markup, other scripts, right to left, joined emoji, no place to break.
NAMES = ["O\"Brien’s <b>&amp;</b>", "]]><script>x</script>", "a)b(c\\d<e>f /OC BDC", "Käpt’n Ölzeug", "Боцман", "כלב הים", "犬のコート", "🐕‍🦺 Bosun", "x" * 60]


def run(*command):
    return subprocess.run([str(part) for part in command], check=True, capture_output=True, text=True).stdout


def objects(pdf):
    """Every object of a file, by qpdf."""
    answer = json.loads(run("qpdf", "--json", pdf))
    return {name: value.get("value", value.get("stream", {}).get("dict")) for name, value in answer["qpdf"][1].items() if name.startswith("obj:")}


def catalog(pdf):
    return next(one for one in objects(pdf).values() if isinstance(one, dict) and one.get("/Type") == "/Catalog")


def text_of(value):
    return value.removeprefix("u:")


class Pdf(unittest.TestCase):
    def setUp(self):
        holder = tempfile.TemporaryDirectory()
        self.addCleanup(holder.cleanup)
        self.folder = pathlib.Path(holder.name)

    def written(self, form, ticket, *arguments, date=DATE):
        """The file of a form, which qpdf finds nothing wrong with; and what the tool said."""
        if isinstance(ticket, dict):
            (self.folder / "ticket.json").write_text(json.dumps(ticket), encoding="utf-8")
            file = self.folder / "ticket.json"
        else:
            file = tool.ROOT / f"assets/tickets/{ticket}.json"
        answer = tool.run("print", file, *arguments, "--as", form, "--date", date, "--out", self.folder)
        self.assertEqual(answer.returncode, 0, answer.stderr)
        pdf = self.folder / form
        checked = subprocess.run(["qpdf", "--check", pdf], capture_output=True, text=True)
        self.assertEqual((checked.returncode, checked.stderr), (0, ""), checked.stdout)
        return pdf, answer.stdout

    def test_sheets_have_exactly_the_size_of_their_paper_and_meet_at_true_scale(self):
        samples = 0
        for paper, ticket in (("a4", "hawser"), ("letter", "bosun"), ("a0", "bollard")):
            with self.subTest(paper):
                pdf, _ = self.written("sheets.pdf", ticket, "--paper", paper, "--turn", "portrait")
                width, height = PAPERS[paper]
                measured = printed_pages.measure(str(pdf), width, height, MARGIN, OVERLAP)
                self.assertGreater(len(measured["pages"]), 0)
                boxes = re.findall(r"MediaBox:\s+0\.00\s+0\.00\s+([\d.]+)\s+([\d.]+)", run("pdfinfo", "-box", "-l", "400", pdf))
                self.assertEqual(len(boxes), len(measured["pages"]))
                for box in boxes:  # pdfinfo writes hundredths of a point
                    self.assertAlmostEqual(float(box[0]) * POINT, width, delta=0.005)
                    self.assertAlmostEqual(float(box[1]) * POINT, height, delta=0.005)
                for page in measured["pages"]:
                    for axis in ("check_x", "check_y"):
                        self.assertTrue(page[axis], f"no check along {axis}")
                        self.assertAlmostEqual(page[axis][0], 100.0, delta=0.01)
                for join in measured["joins"]:
                    self.assertLessEqual(join["worst_mm"], TOLERANCE, join)
                samples += sum(join["samples"] for join in measured["joins"])
        self.assertGreater(samples, 500)

    def test_the_whole_pattern_lies_on_one_page_as_wide_as_the_roll(self):
        for width, mm in (("36 in", 914.4), ("60 cm", 600.0)):
            pdf, _ = self.written("roll.pdf", "hawser", "--roll", width)
            measured = printed_pages.measure(str(pdf), mm, 0.0, MARGIN, OVERLAP)
            [page] = measured["pages"]
            self.assertAlmostEqual(page["width"], mm, delta=0.01)
            for axis in ("check_x", "check_y"):
                self.assertAlmostEqual(page[axis][0], 100.0, delta=0.01)
            self.assertIn(tool.words()["caution.vet"].split()[0], page["text"])
            # As much cut line as the pieces side by side have.
            answer = tool.run("draft", tool.ROOT / "assets/tickets/hawser.json", "--out", self.folder)
            self.assertEqual(answer.returncode, 0, answer.stderr)
            svg = (self.folder / "pattern.svg").read_text(encoding="utf-8")
            cut = 0.0
            for path in re.findall(r'<path d="([^"]*)" data-piece=', svg):
                for line in printed_pages.polylines(path.replace("M", " M ").replace("L", " L ").replace("Z", " Z "), (1, 0, 0, 1, 0, 0)):
                    cut += printed_pages.length(line) / printed_pages.MM
            self.assertGreater(cut, 1000.0)
            sample = 16.0  # mm of cut line in the key to the lines
            self.assertAlmostEqual(page["cut_mm"] - sample, cut, delta=1.0)

    def test_a_roll_that_no_piece_has_room_on_is_refused(self):
        answer = tool.run("print", tool.ROOT / "assets/tickets/hawser.json", "--as", "roll.pdf", "--roll", "15 cm", "--out", self.folder)
        self.assertEqual((answer.returncode, tool.code_of(answer.stderr)), (2, "roll-too-narrow"))

    def test_typefaces_are_embedded_in_part_and_their_text_can_be_found(self):
        for form in ("sheets.pdf", "make.pdf", "recipe.pdf"):
            with self.subTest(form):
                pdf, _ = self.written(form, "bosun")
                rows = run("pdffonts", pdf).splitlines()[2:]
                self.assertGreater(len(rows), 1)
                for row in rows:
                    self.assertRegex(row, r"^[A-Z]{6}\+\S+ .* yes +yes +yes +\d+ +0$")
        text = " ".join(run("pdftotext", "-layout", self.folder / "make.pdf", "-").split())
        for key in ("make.title", "make.pieces", "caution.belly"):
            self.assertIn(tool.words()[key], text)
        count = int(re.search(r"^Pages: +(\d+)", run("pdfinfo", self.folder / "make.pdf"), re.M).group(1))
        self.assertIn(f"page {count} of {count}", text)

    def test_names_of_every_kind_are_found_as_they_were_written_and_lacking_letters_are_told(self):
        for name in NAMES:
            with self.subTest(name):
                pdf, told = self.written("sheets.pdf", {**tool.demo(), "dog": name}, "--paper", "a0")
                text = re.sub("[\u202a-\u202e\u2066-\u2069\f]", "", run("pdftotext", pdf, "-"))  # marks that poppler adds
                self.assertIn(name, text)
                self.assertNotIn("?????", text)
                self.assertTrue(text_of(next(one["/Title"] for one in objects(pdf).values() if isinstance(one, dict) and "/Title" in one)).startswith(name))
                lacking = {letter for letter in name if not (letter.isascii() or letter in "Käpt’nÖ")}
                self.assertEqual(bool(told), bool(lacking), told)
                for letter in lacking - {"\u200d"}:  # joins emoji, and is shown by no reader
                    self.assertIn(letter, told)

    def test_lines_and_pieces_are_layers_that_a_reader_can_switch(self):
        pdf, _ = self.written("sheets.pdf", "bosun", "--paper", "a0")
        root, all_objects = catalog(pdf), objects(pdf)
        name_of = lambda reference: text_of(all_objects[f"obj:{reference}"]["/Name"])
        lines, pieces = root["/OCProperties"]["/D"]["/Order"]
        self.assertEqual([text_of(lines[0]), text_of(pieces[0])], [tool.words()["kind.title"], tool.words()["cover.pieces"]])
        self.assertIn(tool.words()["kind.cut"], map(name_of, lines[1:]))
        self.assertIn(tool.words()["piece.body"], map(name_of, pieces[1:]))
        self.assertEqual(sorted(root["/OCProperties"]["/OCGs"]), sorted(lines[1:] + pieces[1:]))

        # With the layer of the cut lines off, poppler draws none of them and all of the scale check.
        cut = next(one for one in lines[1:] if name_of(one) == tool.words()["kind.cut"])
        data = pdf.read_bytes()
        self.assertEqual(data.count(b"/BaseState /ON"), 1)
        number = cut.split()[0].encode()
        off = data.replace(b"/BaseState /ON", b"/OFF [ %s 0 R ]" % number)
        (self.folder / "off.pdf").write_bytes(off)
        before = printed_pages.page(str(pdf), 1)
        run("qpdf", "--warning-exit-0", self.folder / "off.pdf", self.folder / "mended.pdf")
        after = printed_pages.page(str(self.folder / "mended.pdf"), 1)
        self.assertGreater(before["cut_mm"], 1000.0)
        self.assertEqual(after["cut_mm"], 0.0)
        self.assertAlmostEqual(after["check_x"][0], 100.0, delta=0.01)

    def test_the_same_ticket_and_date_give_the_same_bytes(self):
        for form in ("sheets.pdf", "make.pdf"):
            first = self.written(form, "bosun")[0].read_bytes()
            self.assertEqual(first, self.written(form, "bosun")[0].read_bytes())
            self.assertNotEqual(first, self.written(form, "bosun", date="2026-11-25")[0].read_bytes())

    def test_the_document_says_what_it_is_and_how_it_is_printed(self):
        pdf, _ = self.written("sheets.pdf", "bosun")
        said = run("pdfinfo", "-isodates", pdf)
        self.assertRegex(said, r"(?m)^Title: +Bosun.*: pattern sheets$")
        self.assertRegex(said, r"(?m)^Subject: +Bosun")
        self.assertRegex(said, rf"(?m)^CreationDate: +{DATE}")
        wanted = catalog(pdf)["/ViewerPreferences"]
        self.assertEqual((wanted["/PrintScaling"], wanted["/PickTrayByPDFSize"], wanted["/Duplex"]), ("/None", True, "/Simplex"))
        pdf, _ = self.written("sheets.pdf", "bosun", date="late in November")
        self.assertNotIn("CreationDate", run("pdfinfo", pdf))

    def test_a_bad_printer_that_was_measured_prints_true(self):
        for across, along in ((0.96, 0.97), (1.03, 0.995)):
            for turn in ("portrait", "landscape"):
                with self.subTest(turn, across=across, along=along):
                    printer = (across, along) if turn == "portrait" else (along, across)
                    pdf, _ = self.written("sheets.pdf", "bosun", "--paper", "a4", "--turn", turn)
                    self.assertFalse(any(abs(length - 100.0) <= 0.2 for length in printed_pages.page(str(pdf), 1, printer)["check_x"]))
                    pdf, _ = self.written("sheets.pdf", "bosun", "--paper", "a4", "--turn", turn, "--printed", f"{100 * across:g}x{100 * along:g}")
                    width, height = PAPERS["a4"] if turn == "portrait" else PAPERS["a4"][::-1]
                    box = re.search(r"MediaBox:\s+0\.00\s+0\.00\s+([\d.]+)\s+([\d.]+)", run("pdfinfo", "-box", pdf))
                    self.assertAlmostEqual(float(box[1]) * POINT, width, delta=0.005)
                    self.assertAlmostEqual(float(box[2]) * POINT, height, delta=0.005)
                    for number in range(1, int(re.search(r"^Pages: +(\d+)", run("pdfinfo", pdf), re.M).group(1)) + 1):
                        paper = printed_pages.page(str(pdf), number, printer)
                        for axis in ("check_x", "check_y"):
                            self.assertTrue(paper[axis], (number, axis))
                            self.assertAlmostEqual(paper[axis][0], 100.0, delta=0.2)

    def boxes(self, pdf):
        """Width and height of each page, mm."""
        said = run("pdfinfo", "-l", "-1", "-box", pdf)
        return [(float(w) * POINT, float(h) * POINT) for w, h in re.findall(r"MediaBox:\s+0\.00\s+0\.00\s+([\d.]+)\s+([\d.]+)", said)]

    def texts(self, pdf):
        """The text of each page, in one line."""
        return [" ".join(page.split()) for page in run("pdftotext", "-layout", pdf, "-").split("\f")[:-1]]

    def chapters(self, pdf):
        return [text_of(one["/Title"]) for one in objects(pdf).values() if isinstance(one, dict) and "/Dest" in one]

    def test_what_is_a_document_is_one_on_exact_pages_with_text_and_faces_cut_down(self):
        words = tool.words()
        for form, held in (("lay.pdf", ["lay.page", "shop.title"]), ("shopping.pdf", ["lay.list-page", "shop.title"]),
                           ("measuring.pdf", ["measuring.how", "measure.breast.tape"]), ("handout.pdf", ["handout.measuring", "recipe.blank", "make.title"])):
            with self.subTest(form):
                pdf, _ = self.written(form, "bosun", "--paper", "a4")
                for box in self.boxes(pdf):
                    self.assertAlmostEqual(box[0], 210.0, delta=0.005)
                    self.assertAlmostEqual(box[1], 297.0, delta=0.005)
                text = " ".join(self.texts(pdf))
                for key in held:
                    # Words, not lines: a paragraph is broken where its page ends.
                    for word in words[key].split():
                        self.assertIn(word, text, key)
                for row in run("pdffonts", pdf).splitlines()[2:]:
                    self.assertRegex(row, r"^[A-Z]{6}\+\S+ .* yes +yes +yes +\d+ +0$")
                self.assertEqual(catalog(pdf)["/ViewerPreferences"]["/PrintScaling"], "/None")
        self.assertLess(len(self.boxes(self.folder / "shopping.pdf")), len(self.boxes(self.folder / "lay.pdf")))

    def test_cutting_diagrams_show_every_cloth_and_each_of_its_pieces(self):
        laid = tool.run("lay", tool.ROOT / "assets/tickets/bosun.json", "--steps", "1200", "--out", self.folder / "laid")
        self.assertEqual(laid.returncode, 0, laid.stderr)
        lays = json.loads((self.folder / "laid/lay.json").read_text(encoding="utf-8"))["lays"]
        pdf, _ = self.written("lay.pdf", "bosun")
        text = " ".join(self.texts(pdf))
        self.assertGreater(len(lays), 1)
        for lay in lays:
            for piece in lay["placements"]:
                self.assertIn(tool.words()[f"piece.{piece['piece']}"], text)

    def test_a_quote_is_a_pdf_once_every_price_is_known_and_refused_before(self):
        ticket = tool.demo()
        (self.folder / "open.json").write_text(json.dumps({**ticket, "quote": {}}), encoding="utf-8")
        answer = tool.run("print", self.folder / "open.json", "--as", "quote.pdf", "--out", self.folder)
        self.assertEqual((answer.returncode, tool.code_of(answer.stderr)), (2, "form-quote-open"))

    def test_several_tickets_are_one_job_each_with_its_own_cover(self):
        dogs = ["bosun", "capstan", "purser"]
        alone = []
        for dog in dogs:
            pdf, _ = self.written("sheets.pdf", dog)
            alone.append(self.texts(pdf))
        others = [tool.ROOT / f"assets/tickets/{dog}.json" for dog in dogs[1:]]
        pdf, _ = self.written("sheets.pdf", "bosun", *others)
        self.assertEqual(self.texts(pdf), sum(alone, []))
        chapters = self.chapters(pdf)
        self.assertEqual([title.split(",")[0].lower() for title in chapters], dogs)
        # Each dog's pieces are layers of their own.
        order = catalog(pdf)["/OCProperties"]["/D"]["/Order"]
        names = [text_of(objects(pdf)[f"obj:{one}"]["/Name"]) for one in order[1][1:]]
        self.assertEqual(len(names), len(set(names)))
        for title in chapters:
            self.assertIn(f"{title}: {tool.words()['piece.body']}", names)

    def test_a_class_packet_holds_a_handout_of_each_style_and_every_dogs_sheets_at_true_scale(self):
        dogs = ["bosun", "capstan", "purser"]
        tickets = [json.loads((tool.ROOT / f"assets/tickets/{dog}.json").read_text(encoding="utf-8")) for dog in dogs]
        styles = list(dict.fromkeys(ticket.get("style", "wrap") for ticket in tickets))
        pdf, _ = self.written("class.pdf", dogs[0], *[tool.ROOT / f"assets/tickets/{dog}.json" for dog in dogs[1:]], "--paper", "a4", "--studio", "Slipway")
        chapters = self.chapters(pdf)
        self.assertEqual(len(chapters), 4 * len(styles) + len(dogs))
        pages, boxes = self.texts(pdf), self.boxes(pdf)
        covers = [number for number, text in enumerate(pages, 1) if tool.words()["cover.how"] in text]
        self.assertEqual(len(covers), len(dogs))
        handouts = " ".join(pages[:covers[0] - 1])
        for ticket in tickets:
            self.assertNotIn(ticket["dog"], handouts)
        self.assertIn("Slipway", handouts)
        for number in covers:
            page = printed_pages.page(str(pdf), number)
            for axis in ("check_x", "check_y"):
                self.assertAlmostEqual(page[axis][0], 100.0, delta=0.01)
        for box in boxes:
            self.assertAlmostEqual(min(box), 210.0, delta=0.005)
        first = pdf.read_bytes()
        self.assertEqual(first, self.written("class.pdf", dogs[0], *[tool.ROOT / f"assets/tickets/{dog}.json" for dog in dogs[1:]], "--paper", "a4", "--studio", "Slipway")[0].read_bytes())

    def test_sizes_are_a_table_and_a_nest_whose_page_is_true_to_scale(self):
        made = tool.run("sizes", tool.ROOT / "assets/tickets/bosun.json", "--chests", "S = 50 cm; M = 60 cm; L = 70 cm", "--out", self.folder / "run")
        self.assertEqual(made.returncode, 0, made.stderr)
        sizes = [self.folder / f"run/size-{n}-{name}.json" for n, name in enumerate("SML", 1)]
        pdf, _ = self.written("sizes.pdf", "bosun", *sizes)
        text = " ".join(self.texts(pdf))
        for measure in ("back", "neck", "chest"):
            self.assertIn(tool.words()[f"measure.{measure}"], text)
        pdf, _ = self.written("nest.pdf", "bosun", *sizes)
        boxes = self.boxes(pdf)
        self.assertEqual(len(boxes), 1)
        nest = (self.folder / "run/nest.svg").read_text(encoding="utf-8")
        # As large as the drawing is, with 10 mm round it; the SVG has 5.
        wide, high = (float(re.search(rf'{side}="([\d.]+)mm"', nest)[1]) for side in ("width", "height"))
        self.assertAlmostEqual(boxes[0][0], wide + 10.0, delta=0.01)
        self.assertAlmostEqual(boxes[0][1], high + 10.0, delta=0.01)
        alone = tool.run("print", tool.ROOT / "assets/tickets/bosun.json", "--as", "sizes.pdf", "--out", self.folder)
        self.assertEqual((alone.returncode, tool.code_of(alone.stderr)), (2, "sizes-missing"))

    def test_a_form_of_one_coat_refuses_several(self):
        bosun = tool.ROOT / "assets/tickets/bosun.json"
        for form in ("pattern.dxf", "sheets.html"):
            answer = tool.run("print", bosun, bosun, "--as", form, "--out", self.folder / "none")
            self.assertEqual((answer.returncode, tool.code_of(answer.stderr)), (2, "form-of-one-coat"))
        self.assertFalse((self.folder / "none").exists())

    def test_a_printer_that_is_more_than_five_per_cent_off_is_refused(self):
        for wrong in ("94x100", "100x105.5", "100", "axb", "1e2x100"):
            answer = tool.run("print", tool.ROOT / "assets/tickets/bosun.json", "--printed", wrong, "--out", self.folder)
            self.assertEqual(answer.returncode, 1, wrong)
            self.assertIn("95 to 105", answer.stderr)

    def test_a_form_that_does_not_exist_is_refused_with_the_list_of_those_that_do(self):
        answer = tool.run("print", tool.ROOT / "assets/tickets/bosun.json", "--as", "sheets.doc", "--out", self.folder)
        self.assertEqual(answer.returncode, 1)
        self.assertIn("roll.pdf", answer.stderr)


if __name__ == "__main__":
    unittest.main()
