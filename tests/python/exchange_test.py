"""Files for other workrooms and machines, read by libraries that others wrote: ezdxf, librsvg, Python's csv and XML.

The rules of DXF in the manner of ASTM D6673-10 stand in dxf_faults(), each with a file in which it is broken. They come
from guides to the standard and an independent reading of it (its section 4.3); its full text was not read.
"""

import collections
import csv
import io
import itertools
import json
import math
import pathlib
import re
import subprocess
import tempfile
import unittest
import xml.etree.ElementTree as ET

import ezdxf

import tool

SVG = "{http://www.w3.org/2000/svg}"
FILES = {"pattern.dxf", "cutting.svg", "readings.csv", "pieces.csv"}
Coat = collections.namedtuple("Coat", "name ticket unit dxf drawing pieces")
STYLES = ["wrap", "strap", "underpanel"]
HUNDREDTH = 0.01  # mm
NAMES = ["O\"Brien's <b>&amp;</b>", "]]><script>x</script>", "Käpt’n Ölzeug", "Боцман", "כלב כלב", "犬のコート", "🐕‍🦺 Bosun", "=1+1", "@x", "-7", "+7",
         "100%%d \\U+0041 ^J", "x" * 60, "EOF"]

# By layer: what it may hold.
ENTITIES = {"1": {"POLYLINE", "TEXT"}, "2": {"POINT"}, "3": {"POINT"}, "4": {"POINT"}, "5": {"LINE"}, "6": {"LINE"}, "7": {"LINE"}, "8": {"POLYLINE", "LINE"},
            "9": {"LINE"}, "10": {"LINE"}, "11": {"POLYLINE"}, "13": {"POINT", "TEXT"}, "14": {"POLYLINE"}, "15": {"TEXT"},
            **{notch: {"POINT"} for notch in ("80", "81", "82", "83")}, **{copy: {"POLYLINE"} for copy in ("84", "85", "86", "87")}}
STYLE_TEXTS = ["Style Name", "Creation Date", "Creation Time", "Author", "Sample Size", "Grade Rule Table", "Units", "ASTM/D13Proposal 1 Version"]
DECIMALS = {"METRIC": 2, "ENGLISH": 4}
COORDINATES = {10, 11, 20, 21, 30, 31, 39, 40}


def read(data):
    return ezdxf.read(io.StringIO(data.decode("ascii"), newline=None))


def tags_of(text):
    lines = text.split("\r\n")
    return [(int(code), value) for code, value in zip(lines[0:-1:2], lines[1::2], strict=True)]


def entities_of(tags):
    """(section, block or None, type, [(code, value)]) of each entity; vertices stand in their polylines' "vertices"."""
    section = block = None
    out, own = [], None
    for code, value in tags:
        if code != 0:
            if own is not None:
                own.append((code, value))
            continue
        own = []
        out.append((value, own))
    entities = []
    for kind, own in out:
        first = dict(reversed(own))
        if kind == "SECTION":
            section = first[2]
        elif kind == "BLOCK":
            block = first[2]
        elif kind == "ENDBLK":
            block = None
        elif kind == "VERTEX":
            entities[-1]["vertices"].append((first[10], first[20]))
        elif kind not in ("ENDSEC", "SEQEND", "EOF"):
            entities.append({"section": section, "block": block, "type": kind, "tags": own, **{str(c): v for c, v in first.items()}, "vertices": []})
    return entities


def dxf_faults(data):
    """What in a file breaks a rule."""
    faults = []
    if any(byte > 126 or byte < 32 and byte not in (10, 13) for byte in data):
        return ["a character that is not of 7 bits"]
    text = data.decode("ascii")
    tags = tags_of(text)
    sections = [tags[i + 1][1] for i, tag in enumerate(tags) if tag == (0, "SECTION")]
    if sections != ["HEADER", "BLOCKS", "ENTITIES"]:
        faults.append("sections other than an empty header, blocks and entities")
    if tags[-1] != (0, "EOF"):
        faults.append("no end")
    all_entities = entities_of(tags)
    blocks = collections.defaultdict(list)
    for entity in all_entities:
        if entity["section"] == "BLOCKS":
            blocks[entity["block"]].append(entity)
    outside = [e for e in all_entities if e["section"] == "ENTITIES"]

    texts = [e["1"] for e in outside if e["type"] == "TEXT"]
    for name in STYLE_TEXTS:
        if sum(t.startswith(name + ":") for t in texts) != 1:
            faults.append(f"not one style text {name}")
    if any(e.get("8") != "1" for e in outside):
        faults.append("a style text that is not on layer 1")
    units = next((t.removeprefix("Units:") for t in texts if t.startswith("Units:")), None)
    if units not in DECIMALS:
        faults.append("units that are neither METRIC nor ENGLISH")
    elif not all(re.fullmatch(rf"-?\d+\.\d{{{DECIMALS[units]}}}", v) for c, v in tags if c in COORDINATES):
        faults.append("a number without the decimals of its unit")
    day = next((t.removeprefix("Creation Date:") for t in texts if t.startswith("Creation Date:")), "")
    if day and not re.fullmatch(r"\d\d-\d\d-\d{4}", day):
        faults.append("a day that is not dd-mm-yyyy")
    if [e["2"] for e in outside if e["type"] == "INSERT"] != list(blocks):
        faults.append("not one INSERT for each block")
    if any(not re.fullmatch(r"[A-Z0-9_$-]{1,31}", name) for name in blocks):
        faults.append("a name that no block of release 12 may have")
    if any(e["type"] in ("LWPOLYLINE", "SPLINE", "ARC", "ELLIPSE") for e in all_entities):
        faults.append("a curve that release 12 or the standard does not have")
    names = []
    for name, block in blocks.items():
        faults += [f"{name}: {fault}" for fault in piece_faults(block, names)]
    if len(set(names)) != len(names):
        faults.append("two pieces of one name")
    return faults


def piece_faults(block, names):
    on = collections.defaultdict(list)
    for entity in block:
        on[entity["8"]].append(entity)
        if entity["type"] not in ENTITIES.get(entity["8"], set()):
            yield f"a {entity['type']} on layer {entity['8']}"
        if any(code == 42 for code, _ in entity["tags"]):
            yield "a bulge"
        if len(entity.get("1", "")) > 255:
            yield "a text of more than 255 characters"
    outlines = [e for e in on["1"] if e["type"] == "POLYLINE"]
    if len(outlines) != 1 or outlines[0].get("70") != "1" or len(outlines[0]["vertices"]) < 3:
        yield "layer 1 is not one closed polygon"
    vertices = {v for layer in ("1", "8", "11", "14") for e in on[layer] for v in e["vertices"]}
    turns, curves = ([(e["10"], e["20"]) for e in on[layer]] for layer in ("2", "3"))
    if set(turns) | set(curves) != vertices:
        yield "layers 2 and 3 are not the vertices of 1, 8, 11 and 14"
    if len(turns) + len(curves) != len(set(turns) | set(curves)):
        yield "a vertex that is both a turn and a curve point, or twice"
    for line in (e for layer in ("1", "8", "11", "14") for e in on[layer] if e["type"] == "POLYLINE"):
        for corner in corners_of(line):
            if corner not in turns:
                yield "a corner that is no turn point"
    piece_texts = [e["1"] for e in on["1"] if e["type"] == "TEXT"]
    named = [t.removeprefix("Piece Name:") for t in piece_texts if t.startswith("Piece Name:")]
    names += named
    if len(named) != 1 or not 1 <= len(named[0]) <= 20:
        yield "not one piece name of 1 to 20 characters"
    for form in (r"Quantity:\d+,\d+", r"Fold:[YN]"):
        if sum(bool(re.fullmatch(form, t)) for t in piece_texts) != 1:
            yield f"no text like {form}"
    outline = [point(v) for v in outlines[0]["vertices"]] if outlines else []
    for notch in on["4"]:
        if not {"30", "39", "50"} <= set(notch):
            yield "a notch without depth, width or angle"
        elif outline and distance_to(outline, (float(notch["10"]), float(notch["20"]))) > 0.05:
            yield "a notch off the boundary"
    for mirror in (e for e in on["6"] if e["type"] == "LINE"):
        ends = [(float(mirror["10"]), float(mirror["20"])), (float(mirror["11"]), float(mirror["21"]))]
        if outline and max(distance_to(outline, end) for end in ends) > 0.02:
            yield "a mirror line off the boundary"


def point(vertex):
    return tuple(map(float, vertex))


def corners_of(line):
    """Vertices at which the line turns by more than 30 degrees between segments of more than 1 mm, and an open one's ends."""
    closed, vertices = line.get("70") == "1", line["vertices"]
    if not closed:
        yield from (vertices[0], vertices[-1])
    for i in range(len(vertices)):
        if closed or 0 < i < len(vertices) - 1:
            a, b, c = (point(vertices[(i + k) % len(vertices)]) for k in (-1, 0, 1))
            if min(math.dist(a, b), math.dist(b, c)) > 1:
                turn = math.atan2(c[1] - b[1], c[0] - b[0]) - math.atan2(b[1] - a[1], b[0] - a[0])
                if abs(math.remainder(turn, math.tau)) > math.radians(30):
                    yield vertices[i]


def distance_to(outline, p):
    def to_segment(a, b):
        length2 = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2
        t = max(0, min(1, ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / length2)) if length2 else 0
        return math.dist(p, (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))
    return min(to_segment(a, b) for a, b in zip(outline, outline[1:] + outline[:1], strict=True))


def area(points):
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True))) / 2


def length(points, closed=False):
    return sum(map(math.dist, points, points[1:])) + (math.dist(points[0], points[-1]) if closed else 0)


class Exchange(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        """Every demo ticket in every style that its dog can wear: its draft, its DXF in either unit by turns and that as ezdxf reads it."""
        cls.coats = []
        with tempfile.TemporaryDirectory() as folder:
            cls.folder = pathlib.Path(folder)
            for path in tool.DEMO_TICKETS:
                for style in STYLES:
                    ticket = cls.ticket(path.stem, style=style)
                    if tool.run("draft", ticket, "--out", folder).returncode != 0:
                        continue
                    unit = ("mm", "in")[len(cls.coats) % 2]
                    data = cls.written(ticket, "--unit", unit)["pattern.dxf"]
                    draft = json.loads((cls.folder / "draft.json").read_text(encoding="utf-8"))
                    cls.coats.append(Coat(f"{path.stem} {style}", ticket.read_bytes(), unit, data, read(data), draft["pieces"]))

    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        type(self).folder = pathlib.Path(folder.name)

    @classmethod
    def ticket(cls, demo, **changes):
        path = cls.folder / "t.json"
        path.write_text(json.dumps({**tool.demo(demo), **changes}), encoding="utf-8")
        return path

    @classmethod
    def written(cls, path, *options):
        """The four files, as bytes by name; what was said stands in cls.told."""
        answer = tool.run("exchange", path, "--out", cls.folder / "out", "--date", "2031-05-06", *options)
        if (answer.returncode, answer.stderr) != (0, ""):
            raise AssertionError(answer.stderr)
        files = {p.name: p.read_bytes() for p in (cls.folder / "out").iterdir()}
        if set(files) != FILES:
            raise AssertionError(sorted(files))
        cls.told = answer.stdout
        return files

    def each_coat(self):
        """Each coat with its ticket as a file."""
        self.assertGreater(len(self.coats), 12)
        for coat in self.coats:
            path = self.folder / "coat.json"
            path.write_bytes(coat.ticket)
            yield coat, path

    def draft(self, path):
        self.assertEqual(0, tool.run("draft", path, "--full", "--out", self.folder).returncode)
        return json.loads((self.folder / "draft.json").read_text(encoding="utf-8"))

    def opened(self, path):
        return self.draft(path)["pieces"]

    # ---- DXF ----

    def test_ezdxf_reads_every_coat_and_no_rule_is_broken(self):
        for coat, _ in self.each_coat():
            self.assertEqual([], dxf_faults(coat.dxf), coat.name)
            self.assertEqual("AC1009", coat.drawing.dxfversion)
            audit = coat.drawing.audit()
            self.assertEqual([], [e.message for e in audit.errors], coat.name)
            # The reader drops the ends of polylines, which it does not need, and mends nothing else.
            self.assertEqual(set(), {f.message.split("(")[0] for f in audit.fixes} - {"Deleted SEQEND"}, coat.name)

    def test_areas_lengths_and_counts_by_ezdxf_are_those_of_the_draft(self):
        for coat, _ in self.each_coat():
            # In millimetres the two decimals of the standard are a grid as wide as the tolerance, and both ends of a line lie on it.
            scale, delta = {"mm": (1.0, 2 * HUNDREDTH), "in": (25.4, HUNDREDTH)}[coat.unit]
            for piece in coat.pieces:
                where = f"{coat.name} {piece['id']}"
                block = coat.drawing.blocks.get(piece["id"].upper().replace(".", "_"))
                lines = {layer: [[(scale * v.dxf.location.x, -scale * v.dxf.location.y) for v in e.vertices]
                                 for e in block.query(f'POLYLINE[layer=="{layer}"]')] for layer in (1, 8, 14)}
                outline, = lines[1]
                # No place of the outline is further off than a hundredth: a strip so wide along it bounds the area.
                self.assertLess(abs(area(outline) - area(piece["cut"])), HUNDREDTH * length(piece["cut"], True), where)
                self.assertAlmostEqual(length(piece["cut"], True), length(outline, True), delta=delta, msg=where)
                for vertex in outline[::29]:
                    self.assertLess(distance_to(piece["cut"], vertex), HUNDREDTH, where)
                sewn = [e["length_mm"] for e in piece["edges"] if e["allowance_mm"] > 0]
                for wanted, line in zip(sewn, lines[14], strict=True):
                    self.assertAlmostEqual(wanted, length(line), delta=delta, msg=where)
                for mark, line in zip(piece["marks"], lines[8], strict=True):
                    self.assertAlmostEqual(length(mark["line"], mark["closed"]), length(line, mark["closed"]), delta=2 * delta, msg=where)
                self.assertEqual(len(piece["notches"]), len(block.query('POINT[layer=="4"]')), where)
                self.assertEqual(piece["on_fold"], len(block.query('LINE[layer=="6"]')) == 1, where)
                text, = (e.dxf.text for e in block.query("TEXT") if e.dxf.text.startswith("Quantity:"))
                up, down = map(int, text.removeprefix("Quantity:").split(","))
                self.assertEqual(piece["cut_count"], up + down, where)
                if piece["mirrored_pair"]:
                    self.assertEqual(up, down, where)

    def test_every_rule_that_is_broken_is_caught(self):
        # Of one coat the collar, which has a fold and notches, and its lining.
        text = self.written(tool.ROOT / "assets/tickets/pennant.json", "--unit", "mm")["pattern.dxf"].decode("ascii")
        text = re.sub(r"  0\r\nBLOCK\r\n  8\r\n1\r\n  2\r\n(?!COLLAR).*?ENDBLK\r\n  8\r\n1\r\n", "", text, flags=re.S)
        text = re.sub(r"  0\r\nINSERT\r\n  8\r\n1\r\n  2\r\n(?!COLLAR).*?(?=  0\r\n)", "", text, flags=re.S)
        self.assertEqual([], dxf_faults(text.encode()))

        def first(pattern, replacement, flags=re.S):
            changed, count = re.subn(pattern, replacement, text, count=1, flags=flags)
            self.assertEqual(1, count, pattern)
            return changed.encode("latin-1")

        nl = "\r\n"
        line = f"  0{nl}POLYLINE{nl}  8{nl}{{}}{nl} 66{nl}1{nl} 70{nl}0{nl} 10{nl}0.00{nl} 20{nl}0.00{nl} 30{nl}0.00{nl}  0{nl}SEQEND{nl}  8{nl}{{}}{nl}"
        broken = {
            "7 bits": first("Style Name:", "Style Name:\xe4"),
            "sections": first("HEADER", "TABLES"),
            "no end": first(r"EOF\r\n", f"COMMENT{nl}"),
            "Sample Size": first("Sample Size:", "Samples:"),
            "Grade Rule Table": first("Grade Rule Table:", "Rules:"),
            "style text Units": first("Units:METRIC", "Unit:METRIC"),
            "neither METRIC": first("Units:METRIC", "Units:CUBITS"),
            "Author": first("Author:", "Maker:"),
            "Version": first("1 Version:", "1 Edition:"),
            "dd-mm-yyyy": first("Creation Date:06-05-2031", "Creation Date:2031-05-06"),
            "decimals": first(r"(VERTEX\r\n  8\r\n1\r\n 10\r\n-?\d+\.\d\d)", r"\g<1>5"),
            "style text that is not on layer 1": first(r"(ENTITIES\r\n  0\r\nTEXT\r\n  8\r\n)1", r"\g<1>15"),
            "INSERT": first(r"  0\r\nINSERT\r\n  8\r\n1\r\n  2\r\nCOLLAR\r\n 10\r\n\S+\r\n 20\r\n\S+\r\n 30\r\n\S+\r\n", ""),
            "name that no block": text.replace(f"{nl}COLLAR{nl}", f"{nl}COL LAR{nl}").encode(),
            "release 12": first(r"  0\r\nLINE\r\n  8\r\n7", f"  0{nl}LWPOLYLINE{nl}  8{nl}7"),
            "two pieces of one name": first("Piece Name:collar.lining", "Piece Name:collar"),
            "not one closed polygon": first(r"( 70\r\n)1(\r\n)", r"\g<1>0\g<2>"),
            "layers 2 and 3 are not": first(r"  0\r\nPOINT\r\n  8\r\n3\r\n 10\r\n\S+\r\n 20\r\n\S+\r\n 30\r\n\S+\r\n", ""),
            "both a turn and a curve": first(r"(  0\r\nPOINT\r\n  8\r\n)2(\r\n 10\r\n\S+\r\n 20\r\n\S+\r\n 30\r\n\S+\r\n)", r"\g<1>2\g<2>\g<1>3\g<2>"),
            "corner that is no turn point": re.sub(r"(POINT\r\n  8\r\n)2\r", r"\g<1>3\r", text).encode(),
            "a bulge": first(r"(POLYLINE\r\n  8\r\n1\r\n)", rf"\g<1> 42{nl}0.5{nl}"),
            "255 characters": first(r"(  8\r\n15\r\n.*?  1\r\n)", r"\g<1>" + "x" * 256),
            "piece name": first("Piece Name:collar", "Piece Name:" + "x" * 21),
            "Quantity": first("Quantity:1,", "Quantity:one,"),
            "Fold": first("Fold:N", "Fold:maybe"),
            "depth, width or angle": first(r"(POINT\r\n  8\r\n4\r\n 10\r\n\S+\r\n 20\r\n\S+\r\n 30\r\n\S+\r\n) 39\r\n\S+\r\n", r"\g<1>"),
            "notch off the boundary": first(r"(POINT\r\n  8\r\n4\r\n 10\r\n)\S+", r"\g<1>-99.00"),
            "mirror line off": first(r"(LINE\r\n  8\r\n6\r\n 10\r\n)\S+", r"\g<1>-99.00"),
            "LINE on layer 14": first(r"LINE\r\n  8\r\n7", f"LINE{nl}  8{nl}14"),
            "POINT on layer 12": first(r"POINT\r\n  8\r\n4", f"POINT{nl}  8{nl}12"),
        }
        for layer in ("5", "6", "7", "9", "10", "13"):
            broken[f"POLYLINE on layer {layer}"] = first(r"  0\r\nENDBLK", line.format(layer, layer).replace("\\", "") + f"  0{nl}ENDBLK")
        for fault, changed in broken.items():
            with self.subTest(fault):
                self.assertTrue(any(fault in f for f in dxf_faults(changed)), dxf_faults(changed)[:5])

    # ---- SVG for cutting ----

    def pieces_of(self, svg):
        """Of each copy: piece id, face, and the points of its cut line."""
        out = []
        for group in ET.fromstring(svg).iter(SVG + "g"):
            if group.get("class") != "piece":
                continue
            cut, = (g for g in group if g.get("class") == "cut")
            path, = cut
            numbers = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", path.get("d"))]
            out.append((group.get("data-piece"), group.get("data-face"), list(zip(numbers[::2], numbers[1::2], strict=True))))
        return out

    def test_every_copy_is_cut_as_drafted_and_half_a_kerf_further_out(self):
        for _, ticket in self.each_coat():
            plain, kerf = (self.pieces_of(self.written(ticket, "--kerf", k)["cutting.svg"]) for k in ("0", "0.4"))
            draft = {p["id"]: p for p in self.opened(ticket) if p["layer"] != "webbing"}
            self.assertEqual({id: p["cut_count"] for id, p in draft.items()}, collections.Counter(id for id, _, _ in plain))
            for (id, face, outline), (_, _, wider) in zip(plain, kerf, strict=True):
                self.assertAlmostEqual(length(draft[id]["cut"], True), length(outline, True), delta=0.05)
                self.assertLess(abs(area(outline) - area(draft[id]["cut"])), HUNDREDTH * length(outline, True))
                # Steiner: the parallel of an outline at k/2, smooth or with its corners kept sharp: a mitre of a turn t adds
                # k^2/4 (tan(t/2) - t/2) to the round corner's, hollow corners take as much away.
                k = 0.4
                sharp = sum(math.tan(t / 2) - t / 2 for t in turns(outline) if abs(t) > 0.3) * k * k / 4
                steiner = area(outline) + length(outline, True) * k / 2 + math.pi * k * k / 4 + sharp
                self.assertLess(abs(area(wider) - steiner), 0.005 * length(outline, True), id)
                self.assertIn(face, ("up", "down"))
            pairs = [id for id, p in draft.items() if p["mirrored_pair"]]
            for id in pairs:
                self.assertEqual(["down", "up"], sorted({face for i, face, _ in plain if i == id}))

    def test_librsvg_draws_the_cut_lines_alone_where_they_are(self):
        svg = self.written(tool.DEMO_TICKETS[0], "--kerf", "0")["cutting.svg"]
        root = ET.fromstring(svg)
        whole = [float(n) for n in root.get("viewBox").split()]
        self.assertEqual([f"{root.get('viewBox').split()[2]}mm", f"{root.get('viewBox').split()[3]}mm"], [root.get("width"), root.get("height")])
        self.assertEqual([], list(root.iter(SVG + "text")))
        # Filled, so that areas can be counted.
        for group in root.iter(SVG + "g"):
            if group.get("class") == "draw":
                group.set("display", "none")
            if group.get("class") == "cut":
                group.set("fill", "#000000")
                group.set("stroke", "none")
        (self.folder / "cut.svg").write_bytes(ET.tostring(root))
        subprocess.run(["rsvg-convert", "-f", "pdf", "-o", self.folder / "cut.pdf", self.folder / "cut.svg"], check=True)
        subprocess.run(["pdftoppm", "-gray", "-r", "25.4", self.folder / "cut.pdf", self.folder / "cut"], check=True)  # a pixel a mm
        picture, = self.folder.glob("cut*.pgm")
        dark = darkness(picture.read_bytes())
        wanted = sum(area(points) for _, _, points in self.pieces_of(svg))
        self.assertAlmostEqual(1, dark / wanted, delta=0.003)

    # ---- CSV ----

    def rows(self, data):
        self.assertTrue(data.startswith(b"\xef\xbb\xbf"))
        return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline=""), strict=True))

    def test_readings_come_back_as_check_says_them(self):
        for path in tool.DEMO_TICKETS:
            rows = {r["measure"]: r for r in self.rows(self.written(path, "--unit", "mm")["readings.csv"])}
            values = json.loads(tool.run("check", path).stdout)["values"]
            self.assertEqual([v["id"] for v in values], list(rows))
            for value in values:
                row = rows[value["id"]]
                unit = "kg" if "value_kg" in value else "mm"
                self.assertEqual((value["name"], unit, "estimated" if value["estimated"] else "taken"), (row["name"], row["unit"], row["from"]))
                self.assertAlmostEqual(value[f"value_{unit}"], float(row["value"]), delta=0.006)
                self.assertEqual(value["readings"], sum(bool(row[f"reading_{n}"]) for n in range(1, 6)))

    def test_the_cut_list_comes_back_as_drafted(self):
        join = 2 * 6.35 * math.sqrt(2)  # a seam of 1/4 in across two strips at 45 degrees
        tickets = itertools.chain((ticket for _, ticket in self.each_coat()),
                                  (self.ticket("pennant", style=style, choices={"finish": "bound"}) for style in STYLES))
        bound = 0
        for ticket in tickets:
            rows = self.rows(self.written(ticket, "--unit", "mm")["pieces.csv"])
            draft = self.draft(ticket)
            binding = sum(n["count"] * n["length_mm"] for n in draft["notions"] if n.get("from_cloth"))
            if binding:
                strips = rows.pop()
                self.assertEqual(("binding", "shell", "0"), (strips["piece"], strips["cloth"], strips["turned_over"]))
                count, each = int(strips["cut"]), float(strips["length"])
                self.assertAlmostEqual(binding, count * each - (count - 1) * join, delta=0.01 * count)
                bound += 1
            for row, piece in zip(rows, draft["pieces"], strict=True):
                self.assertEqual((piece["id"], piece["name"], piece["layer"], str(piece["cut_count"])), (row["piece"], row["name"], row["cloth"], row["cut"]))
                self.assertAlmostEqual(length(piece["cut"], True), float(row["cut_line"]), delta=0.05)
                self.assertAlmostEqual(area(piece["cut"]), float(row["area"]), delta=HUNDREDTH * length(piece["cut"], True))
        self.assertGreaterEqual(bound, 3)

    # ---- names, and how it is asked for ----

    def test_no_name_breaks_a_file(self):
        for name in NAMES:
            with self.subTest(name):
                path = self.ticket("bosun", dog=name, name="")
                files = self.written(path)
                self.assertEqual([], dxf_faults(files["pattern.dxf"]))
                drawing = read(files["pattern.dxf"])
                self.assertEqual([], drawing.audit().errors)
                style = next(e.dxf.text for e in drawing.modelspace() if e.dxf.text.startswith("Style Name:"))
                self.assertRegex(style, "[A-Za-z0-9]")
                # What 7 bits change is told.
                self.assertEqual("" if style.removeprefix("Style Name:").startswith(name) else "exchange.seven-bit", tool.code_of(self.told) or "")
                title = ET.fromstring(files["cutting.svg"]).find(SVG + "title").text
                self.assertTrue(title.startswith(name), title)
                for row in self.rows(files["pieces.csv"]):
                    self.assertIn(name, row["coat"])
                    self.assertNotRegex(row["coat"], r"\A[=+\-@\t]")

    def test_the_same_ticket_and_day_give_the_same_bytes(self):
        first = self.written(tool.DEMO_TICKETS[0])
        self.assertEqual(first, self.written(tool.DEMO_TICKETS[0]))

    def test_what_is_no_unit_kerf_or_day_is_not_taken(self):
        path, out = tool.DEMO_TICKETS[0], self.folder / "none"
        for options in (["--unit", "ell"], ["--kerf", "5.1"], ["--kerf", "-1"], ["--kerf", "x"], ["--full"], []):
            answer = tool.run("exchange", path, *(["--out", out] if options else []), *options)
            self.assertEqual(1, answer.returncode, options)
        for day in ("6 May 2031", "2031-5-6", "2031-05-06x"):
            answer = tool.run("exchange", path, "--out", out, "--date", day)
            self.assertEqual((2, "tool.bad-day"), (answer.returncode, tool.code_of(answer.stderr)))
        self.assertFalse(out.exists())


def turns(closed):
    """At each point, positive where the outline bulges."""
    signed = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(closed, closed[1:] + closed[:1], strict=True))
    for a, b, c in zip(closed[-1:] + closed[:-1], closed, closed[1:] + closed[:1], strict=True):
        turn = math.remainder(math.atan2(c[1] - b[1], c[0] - b[0]) - math.atan2(b[1] - a[1], b[0] - a[0]), math.tau)
        yield math.copysign(turn, turn * signed)


def darkness(pgm):
    """How many pixels are black; grey ones count in part."""
    header = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", pgm)
    pixels = pgm[header.end():]
    assert len(pixels) == int(header[1]) * int(header[2])
    return sum((255 - grey) * count for grey, count in collections.Counter(pixels).items()) / 255
