"""The tool `coatwright` as a user runs it: its files, its exit codes, and what it says when it refuses."""

import html
import json
import math
import os
import pathlib
import re
import tempfile
import unittest
import xml.etree.ElementTree as ET

import tool

SVG = "{http://www.w3.org/2000/svg}"

# Promises of which more may be kept than was wanted.
AT_LEAST = {"hem-above-belly", "collar-over-head", "collar-room", "dart-off-edges", "foreleg-clearance", "band-ahead-of-belly-end", "strap-off-foreleg", "strap-ahead-of-belly", "panel-between-legs"}

# Of the demo tickets that are no plain wrap coats.
DEMO_PIECES = {
    "purser": {"body", "body.lining", "strap", "collar", "collar.lining"},
    "pennant": {"body", "body.lining", "panel", "panel.lining", "collar", "collar.lining"},
}


class CommandLine(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def ticket(self, content, name="t.json"):
        path = self.folder / name
        if isinstance(content, bytes):
            path.write_bytes(content)
        else:
            path.write_text(content if isinstance(content, str) else json.dumps(content), encoding="utf-8")
        return path

    def assert_refused(self, answer, key):
        self.assertEqual(2, answer.returncode, answer.stderr)
        self.assertEqual(key, tool.code_of(answer.stderr), answer.stderr)

    # ---- done ----

    def test_check_prints_values_and_findings(self):
        answer = tool.run("check", tool.ROOT / "assets/tickets/bosun.json")
        self.assertEqual((0, ""), (answer.returncode, answer.stderr))
        printed = json.loads(answer.stdout)
        self.assertEqual({"name": "Ferry deck coat", "dog": "Bosun"}, printed["ticket"])
        values = {v["id"]: v for v in printed["values"]}
        self.assertAlmostEqual(22.5625 * 25.4, values["back"]["value_mm"], delta=0.0005001)  # the median of two
        self.assertEqual(round(26.375 * 25.4, 3), values["chest"]["value_mm"])
        self.assertEqual(3, values["chest"]["readings"])
        self.assertEqual(round(0.25 * 25.4, 3), values["chest"]["spread_mm"])
        self.assertEqual(round(45 * 0.45359237, 3), values["weight"]["value_kg"])
        self.assertTrue(values["withers-height"]["estimated"])
        self.assertEqual([], [f for f in printed["findings"] if f["level"] != "note"])

    def test_check_says_which_reading_is_odd(self):
        ticket = tool.demo()
        ticket["readings"]["neck"] = ["21 1/2 in"]  # 0.815 of the chest
        answer = tool.run("check", self.ticket(ticket))
        self.assertEqual(0, answer.returncode, answer.stderr)
        odd = [f for f in json.loads(answer.stdout)["findings"] if f["level"] == "check"]
        self.assertIn(("ratio-high", "neck", "chest"), [(f["code"], f["subject"], f["other"]) for f in odd])
        self.assertTrue(any(f["words"].startswith("Neck girth reads 21½ in, more than expected: most dogs with 26⅜ in of chest girth") for f in odd), odd)

    def test_draft_writes_the_pieces(self):
        out = self.folder / "made/by/the/tool"
        for path in tool.DEMO_TICKETS:
            with self.subTest(path.stem):
                answer = tool.run("draft", path, "--out", out)
                self.assertEqual((0, "", ""), (answer.returncode, answer.stdout, answer.stderr))
                self.assertEqual(["draft.json", "pattern.svg"], sorted(os.listdir(out)))
                draft = json.loads((out / "draft.json").read_text(encoding="utf-8"))
                pieces = {p["id"]: p for p in draft["pieces"]}
                self.assertEqual(DEMO_PIECES.get(path.stem, {"body", "body.lining", "band", "band.lining"}), set(pieces))
                for piece in pieces.values():
                    self.check_piece(piece)
                for invariant in draft["invariants"]:
                    self.assertEqual(invariant["id"] in AT_LEAST, invariant["relation"] == "at-least", invariant)
                    if invariant["relation"] == "at-least":
                        self.assertGreaterEqual(invariant["got_mm"], invariant["wanted_mm"] - 0.1)
                    else:
                        self.assertAlmostEqual(invariant["wanted_mm"], invariant["got_mm"], delta=0.1)

    def test_a_step_names_the_pieces_edges_marks_and_notions_that_it_works_on(self):
        named = 0
        for path in tool.DEMO_TICKETS:
            with self.subTest(path.stem):
                self.assertEqual(0, tool.run("draft", path, "--out", self.folder).returncode)
                draft = json.loads((self.folder / "draft.json").read_text(encoding="utf-8"))
                there = {
                    "pieces": {p["id"] for p in draft["pieces"]},
                    "edges": {e["id"] for p in draft["pieces"] for e in p["edges"]},
                    "marks": {m["id"] for p in draft["pieces"] for m in p["marks"]},
                    "notions": {n["id"] for n in draft["notions"]},
                }
                self.assertEqual(len(draft["notions"]), len(there["notions"]))
                for kind, ids in there.items():
                    of_steps = [name for step in draft["steps"] for name in step[kind]]
                    self.assertEqual(set(), set(of_steps) - ids, kind)
                    named += len(of_steps)
                cut, = (s for s in draft["steps"] if s["id"] == "cut-pieces")
                self.assertEqual({p["id"] for p in draft["pieces"]}, set(cut["pieces"]))
                used = [name for step in draft["steps"] for name in step["notions"]]
                self.assertEqual(sorted(there["notions"]), sorted(used), "each notion is used at one step")
                # Nothing is sewn that no step tells of, but for the layers that lie under what is.
                told = {name for step in draft["steps"] for name in step["edges"]}
                shown = {e["id"] for p in draft["pieces"] if p["layer"] == "shell" for e in p["edges"] if e["allowance_mm"] > 0}
                self.assertEqual(set(), shown - told)
        self.assertGreater(named, 100)

    def check_piece(self, piece):
        net, cut = piece["net"], piece["cut"]
        self.assertGreater(area(net), 0)
        self.assertGreater(area(cut), area(net))
        # The edges go round the net outline: their lengths add up to its own.
        self.assertAlmostEqual(perimeter(net), sum(e["length_mm"] for e in piece["edges"]), delta=0.1)
        seams = {e["id"]: e["allowance_mm"] for e in piece["edges"]}
        for notch in piece["notches"]:
            gap = math.dist(notch["on_net"], notch["on_cut"])
            self.assertAlmostEqual(seams[notch["edge"]], gap, delta=0.01)
        if piece["on_fold"]:
            self.assertEqual([0.0, 0.0], [p[1] for p in piece["fold"]])

    def test_full_opens_the_fold(self):
        path = tool.ROOT / "assets/tickets/purser.json"
        halves, whole = self.folder / "halves", self.folder / "whole"
        self.assertEqual(0, tool.run("draft", path, "--out", halves).returncode)
        self.assertEqual(0, tool.run("draft", path, "--full", "--out", whole).returncode)
        half, full = (json.loads((f / "draft.json").read_text())["pieces"][0] for f in (halves, whole))
        self.assertTrue(half["on_fold"])
        self.assertFalse(full["on_fold"])
        self.assertIsNone(full["fold"])
        self.assertAlmostEqual(2 * area(half["net"]), area(full["net"]), delta=1.0)
        self.assertAlmostEqual(2 * area(half["cut"]), area(full["cut"]), delta=1.0)

    def test_the_pattern_is_drawn_in_millimetres(self):
        self.assertEqual(0, tool.run("draft", tool.DEMO_TICKETS[0], "--out", self.folder).returncode)
        svg = ET.parse(self.folder / "pattern.svg").getroot()
        self.assertEqual(SVG + "svg", svg.tag)
        box = [float(n) for n in svg.get("viewBox").split()]
        self.assertEqual([f"{n}mm" for n in svg.get("viewBox").split()[2:]], [svg.get("width"), svg.get("height")])
        body = json.loads((self.folder / "draft.json").read_text())["pieces"][0]["cut"]
        self.assertGreater(box[2], max(p[0] for p in body) - min(p[0] for p in body))

    def test_print_writes_sheets_on_every_paper(self):
        path = tool.ROOT / "assets/tickets/hawser.json"
        sizes = {"a4": {210, 297}, "letter": {215.9, 279.4}, "legal": {215.9, 355.6}, "tabloid": {279.4, 431.8},
                 "a3": {297, 420}, "a0": {841, 1189}, "600x900mm": {600, 900}}
        for paper, sides in sizes.items():
            with self.subTest(paper):
                out = self.folder / paper
                answer = tool.run("print", path, "--paper", paper, "--out", out)
                self.assertEqual((0, "", ""), (answer.returncode, answer.stdout, answer.stderr))
                self.assertEqual(["sheets.html", "sheets.svg"], sorted(os.listdir(out)))
                sheets = [e for e in ET.parse(out / "sheets.svg").getroot().iter(SVG + "svg") if e.get("viewBox")]
                one = [e for e in sheets if {round(float(n), 1) for n in e.get("viewBox").split()[2:]} == sides]
                self.assertGreater(len(one), 1)

    def test_recipe_writes_steps_for_every_piece_in_the_tickets_unit(self):
        for path in tool.DEMO_TICKETS:
            with self.subTest(path.stem):
                answer = tool.run("recipe", path, "--out", self.folder, "--date", "2031-05-06")
                self.assertEqual((0, "", ""), (answer.returncode, answer.stdout, answer.stderr))
                html = (self.folder / "recipe.html").read_text(encoding="utf-8")
                text = re.sub(r"<[^>]+>", "", html)
                self.assertIn("2031-05-06", text)
                self.assertIn("then square out", text)
                self.assertNotRegex(text, r"\{\d\}")
                tool.run("draft", path, "--out", self.folder)
                draft = json.loads((self.folder / "draft.json").read_text(encoding="utf-8"))
                for piece in draft["pieces"]:
                    if piece["layer"] == "shell":
                        self.assertIn(f"<h2>{piece['name']}</h2>", html)
                unit = json.loads(path.read_text(encoding="utf-8"))["unit"]
                self.assertRegex(text, rf"\d\s{unit} along the base line")

    def test_names_of_points_in_a_recipes_drawings_do_not_overlap(self):
        seen = 0
        for path in tool.DEMO_TICKETS:
            tool.run("recipe", path, "--out", self.folder)
            html = (self.folder / "recipe.html").read_text(encoding="utf-8")
            for drawing in re.findall(r"<svg .*?</svg>", html, re.S):
                size = float(re.search(r'font-size="([\d.]+)"', drawing)[1])
                names = [(float(x), float(y), 0.31 * size * len(name))
                         for x, y, name in re.findall(r'<text x="([-\d.]+)" y="([-\d.]+)"[^>]*>([^<]+)</text>', drawing)]
                for i, (x, y, half) in enumerate(names):
                    for x2, y2, half2 in names[:i]:
                        seen += 1
                        apart = abs(x - x2) > half + half2 or abs(y - y2) > 0.7 * size
                        self.assertTrue(apart, f"{path.stem}: two names at {x}, {y}")
        self.assertGreater(seen, 200)

    def test_make_writes_every_piece_and_every_step_in_the_order_of_the_work(self):
        stages = [tool.words()["stage." + s] for s in ["prepare", "cut", "pieces", "join", "edges", "close", "try"]]
        for path in tool.DEMO_TICKETS:
            with self.subTest(path.stem):
                answer = tool.run("make", path, "--out", self.folder, "--date", "2031-05-06")
                self.assertEqual((0, "", ""), (answer.returncode, answer.stdout, answer.stderr))
                html = (self.folder / "make.html").read_text(encoding="utf-8")
                self.assertIn("2031-05-06", html)
                self.assertIn(tool.words()["caution.vet"], html)
                tool.run("draft", path, "--out", self.folder)
                draft = json.loads((self.folder / "draft.json").read_text(encoding="utf-8"))
                shown = [re.sub(r"&#39;", "'", item) for item in re.findall(r"<li>(.*?)</li>", html, re.S)]
                for step, item in zip(draft["steps"], shown[-len(draft["steps"]):], strict=True):
                    item = item.replace("\u00a0", " ")
                    self.assertIn(f". {step['words']}<small>".replace("\u00a0", " "), item)
                    self.assertIn(f"Why: {step['why']}</small>".replace("\u00a0", " "), item)
                self.assertTrue(any("Allowance " in item for item in shown))
                self.assertGreater(len(draft["steps"]), 6)
                heads = re.findall(r"<h3>(.*?)</h3>", html)
                self.assertEqual([s for s in stages if s in heads], heads)
                for piece in draft["pieces"]:
                    if piece["layer"] in ("shell", "webbing"):
                        self.assertTrue(any(item.startswith(piece["name"] + ": ") for item in shown), piece["id"])

    def test_every_cover_gives_the_cautions(self):
        # Lines may break anywhere between words.
        how, vet = (tool.words()[key].replace(" ", "") for key in ["cover.how", "caution.vet"])
        covers = 0
        for path in tool.DEMO_TICKETS:
            for paper in ["a4", "letter", "legal", "tabloid"]:
                for turn in ["portrait", "landscape"]:
                    answer = tool.run("print", path, "--paper", paper, "--turn", turn, "--out", self.folder)
                    self.assertEqual(0, answer.returncode, answer.stderr)
                    text = "".join("".join(ET.parse(self.folder / "sheets.svg").getroot().itertext()).split())
                    if how in text:
                        covers += 1
                        self.assertIn(vet, text, f"{path.stem} {paper} {turn}")
        self.assertGreater(covers, 40)

    def test_turn_and_date_are_obeyed(self):
        path = tool.ROOT / "assets/tickets/hawser.json"
        for turn, wide in [("portrait", False), ("landscape", True)]:
            out = self.folder / turn
            answer = tool.run("print", path, "--turn", turn, "--paper", "a4", "--date", "2031-05-06", "--out", out)
            self.assertEqual(0, answer.returncode, answer.stderr)
            text = (out / "sheets.svg").read_text(encoding="utf-8")
            self.assertIn("2031-05-06", text)
            boxes = [e.get("viewBox").split() for e in ET.fromstring(text).iter(SVG + "svg") if e.get("viewBox")]
            self.assertIn(["297", "210"] if wide else ["210", "297"], [b[2:] for b in boxes])

    def test_the_same_ticket_gives_the_same_files(self):
        path = tool.DEMO_TICKETS[0]
        texts = []
        for n in "12":
            out = self.folder / n
            self.assertEqual(0, tool.run("draft", path, "--out", out).returncode)
            self.assertEqual(0, tool.run("print", path, "--date", "x", "--out", out).returncode)
            texts.append({p.name: p.read_bytes() for p in out.iterdir()})
        self.assertEqual(4, len(texts[0]))
        self.assertEqual(*texts)

    def test_fit_writes_the_trial_coat_and_the_card(self):
        note = {"place": "tail", "kind": "short", "by": "gap", "found": 12.7}
        longer = self.folder / "longer.json"
        longer.write_text(json.dumps({**tool.demo(), "fittings": [{"notes": [note]}]}), encoding="utf-8")
        self.assertEqual(0, tool.run("fit", longer, "--out", self.folder, "--date", "2031-05-06").returncode)
        card = (self.folder / "fit.html").read_text(encoding="utf-8")
        self.assertIn("2031-05-06", card)
        for place in [key for key in tool.words() if key.startswith("look.")]:
            self.assertIn(tool.words()[place], html.unescape(card).replace("\u00a0", " "))
        self.assertIn("<svg", (self.folder / "trial.html").read_text(encoding="utf-8"))
        # What was noted is drafted: half an inch longer.
        edges = {}
        for name, path in [("plain", tool.ROOT / "assets/tickets/bosun.json"), ("longer", longer)]:
            self.assertEqual(0, tool.run("draft", path, "--out", self.folder / name).returncode)
            draft = json.loads((self.folder / name / "draft.json").read_text(encoding="utf-8"))
            edges[name] = {e["id"]: e["length_mm"] for p in draft["pieces"] for e in p["edges"]}
        self.assertAlmostEqual(12.7, edges["longer"]["body.fold"] - edges["plain"]["body.fold"], places=2)

    def test_help_and_version(self):
        answer = tool.run("--help")
        self.assertEqual((0, ""), (answer.returncode, answer.stderr))
        self.assertTrue(answer.stdout.startswith("usage: coatwright check TICKET"))
        self.assertRegex(tool.run("--version").stdout, r"^coatwright \d+\.\d+\.\d+\n$")

    # ---- wrong use ----

    def test_wrong_use_ends_with_1_and_the_usage(self):
        t = tool.DEMO_TICKETS[0]
        out = self.folder / "out"
        for arguments in [
            [], ["check"], ["draft"], ["draw", t], ["check", t, t], ["check", ""], ["draft", t], ["print", t],
            ["draft", t, "--out"], ["draft", t, "--out", "--full"], ["draft", t, "--out", ""],
            ["draft", t, "--out", out, "--out", out], ["draft", t, "--out", out, "--paper", "a4"],
            ["print", t, "--out", out, "--turn", "sideways"], ["print", t, "--out", out, "--colour"],
            ["check", t, "--out", out], ["check", t, "--full"], ["check", "--help"], ["--help", t], ["-h"],
            ["print", t, "--out", out, "--full", "--full"], ["recipe", t], ["recipe", t, "--out", out, "--full"],
            ["recipe", t, "--out", out, "--paper", "a4"], ["draft", t, "--out", out, "--date", "x"],
        ]:
            with self.subTest(arguments):
                answer = tool.run(*arguments)
                self.assertEqual((1, ""), (answer.returncode, answer.stdout))
                self.assertIn("usage: coatwright check TICKET", answer.stderr)
        self.assertFalse(out.exists())

    # ---- refused ----

    def test_a_ticket_that_cannot_be_read_is_refused(self):
        self.assert_refused(tool.run("check", self.folder / "none.json"), "tool.no-reading")
        self.assert_refused(tool.run("check", self.folder), "tool.no-reading")
        self.assert_refused(tool.run("check", "a\nb\x1b[31m"), "tool.no-reading")

    def test_a_bad_ticket_is_refused_in_one_sentence(self):
        small = tool.demo()
        for content, key in [
            (b"", "ticket-not-json"), (b"\xff\xfe", "ticket-text-unclean"), (b"\x00" * 40, "ticket-not-json"),
            (b"[" * 60000, "ticket-too-deep"), (b" " * 150000, "ticket-too-large"), ("[1, 2]", "ticket-not-ticket"),
            (json.dumps(small)[:-9], "ticket-not-json"), ({**small, "coatwright": 2}, "ticket-from-future"),
            ({**small, "tail": 1}, "ticket-field-unknown"), ({**small, "sex": "tom"}, "ticket-choice-unknown"),
            ({**small, "dog": "x" * 61}, "ticket-text-too-long"), ({**small, "dog": "\x07"}, "ticket-text-unclean"),
            ({**small, "notes": 4}, "ticket-field-type"), ({k: small[k] for k in small if k != "unit"}, "ticket-field-missing"),
            (json.dumps(small)[:-1] + ', "dog": "two"}', "ticket-field-twice"),
            ({**small, "birth": "2025-11", "measured": "2025-10"}, "birth-after-measuring"),
        ]:
            with self.subTest(key):
                path = self.ticket(content)
                for order in [["check", path], ["draft", path, "--out", self.folder / "o"],
                              ["print", path, "--out", self.folder / "o"]]:
                    answer = tool.run(*order)
                    self.assert_refused(answer, key)
                    self.assertEqual("", answer.stdout)
        self.assertFalse((self.folder / "o").exists())

    def test_readings_that_cannot_be_drafted_are_refused_by_name(self):
        for readings, key, subject in [
            ({"neck": []}, "reading-missing", "Neck girth"),
            ({"neck": ["16 9/8 in"]}, "number-fraction-improper", "neck girth"),
            ({"neck": ["16 3/4 yd"]}, "number-unit-unknown", "neck girth"),
            ({"chest": ["26 in", "90 in"]}, "reading-out-of-range", "Chest girth"),
            ({"weight": ["45 in"]}, "number-unit-unknown", "weight"),
            ({"neck": ["1 in"] * 6}, "reading-too-many", "Neck girth"),
            ({"breast": ["12 in"]}, None, None),
            ({"drop": ["14 in"]}, None, None),
        ]:
            with self.subTest(readings):
                ticket = tool.demo()
                ticket["readings"].update(readings)
                path = self.ticket(ticket)
                out = self.folder / "o"
                answer = tool.run("draft", path, "--out", out)
                self.assertEqual(2, answer.returncode, answer.stdout)
                self.assertIsNotNone(tool.code_of(answer.stderr), answer.stderr)
                if key:
                    self.assert_refused(answer, key)
                    self.assertIn(subject, answer.stderr)
                self.assertFalse(out.exists())
                self.assertEqual(answer.stderr, tool.run("check", path).stderr)

    def test_check_prints_its_findings_when_the_readings_are_refused_too(self):
        ticket = tool.demo()
        del ticket["readings"]["neck"]
        answer = tool.run("check", self.ticket(ticket))
        self.assert_refused(answer, "reading-missing")
        printed = json.loads(answer.stdout)
        self.assertEqual([], printed["values"])
        self.assertEqual(("refused", "reading-missing", "neck"),
                         tuple(printed["findings"][-1][k] for k in ("level", "code", "subject")))

    def test_a_paper_that_does_not_do_is_refused(self):
        path = tool.ROOT / "assets/tickets/bollard.json"
        for paper, key in [("a5", "paper-unknown"), ("A4 ", "paper-unknown"), ("0x0mm", "paper-too-small"),
                           ("nanxinfmm", "paper-unknown"), ("90x90mm", "paper-too-small"),
                           ("99999x99999mm", None), ("<b>", "paper-unknown"), ("x" * 5000, "paper-unknown")]:
            with self.subTest(paper):
                out = self.folder / "o"
                answer = tool.run("print", path, "--paper", paper, "--out", out)
                self.assertEqual(2, answer.returncode, answer.stdout)
                self.assertIsNotNone(tool.code_of(answer.stderr), answer.stderr)
                if key:
                    self.assert_refused(answer, key)
                self.assertFalse(out.exists())

    def test_a_date_that_cannot_be_shown_is_refused(self):
        for date in ["\x1b[31m", "d" * 31, "\u202e2025"]:
            answer = tool.run("print", tool.DEMO_TICKETS[0], "--date", date, "--out", self.folder / "o")
            self.assert_refused(answer, "tool.bad-date")
        self.assertFalse((self.folder / "o").exists())

    def test_a_folder_that_cannot_be_written_is_refused_and_nothing_is_left(self):
        t = tool.DEMO_TICKETS[0]
        (self.folder / "file").write_text("")
        self.assert_refused(tool.run("draft", t, "--out", self.folder / "file"), "tool.no-folder")
        self.assert_refused(tool.run("draft", t, "--out", self.folder / "file/below"), "tool.no-folder")
        self.assert_refused(tool.run("print", t, "--out", "/proc/nowhere"), "tool.no-folder")
        taken = self.folder / "taken"
        (taken / "pattern.svg").mkdir(parents=True)
        self.assert_refused(tool.run("draft", t, "--out", taken), "tool.no-writing")
        self.assertEqual(["pattern.svg"], os.listdir(taken))

    def test_a_full_disk_is_noticed(self):
        with open("/dev/full", "w") as full:
            answer = tool.subprocess.run([os.environ["COATWRIGHT"], "check", tool.DEMO_TICKETS[0]], stdout=full,
                                         stderr=tool.subprocess.PIPE, text=True)
        self.assert_refused(answer, "tool.no-writing")

    # ---- hostile text ----

    def test_markup_in_names_stays_text_in_every_file(self):
        ticket = tool.demo()
        ticket["dog"] = "<script>alert(1)</script>&\"'"
        ticket["name"] = "]]><svg onload=x>"
        path = self.ticket(ticket)
        self.assertEqual(0, tool.run("draft", path, "--out", self.folder).returncode)
        self.assertEqual(0, tool.run("print", path, "--out", self.folder).returncode)
        for name in ["pattern.svg", "sheets.svg"]:
            root = ET.parse(self.folder / name).getroot()
            tags = {e.tag.removeprefix(SVG) for e in root.iter()}
            self.assertNotIn("script", tags)
            self.assertEqual([], [e for e in root.iter() if any(k.startswith("on") for k in e.keys())])
        self.assertEqual(0, tool.run("recipe", path, "--out", self.folder).returncode)
        self.assertEqual(0, tool.run("make", path, "--out", self.folder).returncode)
        for name in ["sheets.html", "recipe.html", "make.html"]:
            html = (self.folder / name).read_text(encoding="utf-8")
            self.assertNotIn("<script>alert", html)
            self.assertNotIn("<svg onload", html)
            self.assertIn("alert(1)", html)


def area(points):
    following = points[1:] + points[:1]
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(points, following)) / 2


def perimeter(points):
    return sum(map(math.dist, points, points[1:] + points[:1]))
