"""`coatwright pack` as a user runs it: layouts checked by plain arithmetic of our own, refusals with a sentence."""

import json
import math
import pathlib
import tempfile
import unittest

import tool


def plank(**change):
    piece = {"id": 0, "demand": 3, "allowed_rotations_deg": [0, 90], "polygon": [[0, 0], [30, 0], [30, 10], [0, 10]]}
    return {**piece, **change}


def task(*pieces, **change):
    return {"name": "quay", "strip_width": 40, "pieces": list(pieces), **change}


WEDGE = {"id": "wedge", "demand": 4, "allowed_rotations_deg": [0, 90, 180, 270], "polygon": [[0, 0], [20, 0], [0, 15]]}


class Packing(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def pack(self, content, *options):
        path = self.folder / "task.json"
        path.write_text(content if isinstance(content, str) else json.dumps(content), encoding="utf-8")
        return tool.run("pack", path, "--out", self.folder / "layout.json", *options)

    def layout(self):
        return json.loads((self.folder / "layout.json").read_text(encoding="utf-8"))

    def check(self, instance):
        """Convex pieces only: two do not overlap if a line along an edge of one has them on its two sides."""
        layout = self.layout()
        pieces = {p["id"]: p for p in instance["pieces"]}
        outlines = []
        for place in layout["placements"]:
            piece = pieces[place["piece"]]
            self.assertIn(place["rotation_deg"], piece["allowed_rotations_deg"])
            angle = math.radians(place["rotation_deg"])
            outlines.append([(x * math.cos(angle) - y * math.sin(angle) + place["x"],
                              x * math.sin(angle) + y * math.cos(angle) + place["y"]) for x, y in piece["polygon"]])
        counts = {i: sum(place["piece"] == i for place in layout["placements"]) for i in pieces}
        self.assertEqual({i: p["demand"] for i, p in pieces.items()}, counts)
        xs = [x for outline in outlines for x, _ in outline]
        ys = [y for outline in outlines for _, y in outline]
        self.assertGreaterEqual(min(xs), -1e-9)
        self.assertGreaterEqual(min(ys), -1e-9)
        self.assertLessEqual(max(ys), instance["strip_width"] + 1e-9)
        self.assertAlmostEqual(layout["length"], max(xs), delta=1e-4)
        for k, a in enumerate(outlines):
            for b in outlines[:k]:
                self.assertTrue(parted(a, b) or parted(b, a), (a, b))
        return layout

    def test_a_layout_is_complete_and_nothing_overlaps(self):
        instance = task(plank(), WEDGE)
        answer = self.pack(instance, "--steps", 3000)
        self.assertEqual((0, "", ""), (answer.returncode, answer.stdout, answer.stderr))
        layout = self.check(instance)
        self.assertEqual(("quay", 3000, 1), (layout["instance"], layout["steps"], layout["seed"]))
        area = 3 * 300 + 4 * 150
        self.assertAlmostEqual(100 * area / (40 * layout["length"]), layout["density_pct"], delta=1e-6)
        self.assertGreater(layout["density_pct"], 85)

    def test_turned_by_any_angle_it_does_not_overlap_either(self):
        instance = task(plank(allowed_rotations_deg=[17, 203.5]), {**WEDGE, "allowed_rotations_deg": [-30, 12.25]})
        self.assertEqual(0, self.pack(instance, "--steps", 500).returncode)
        self.check(instance)

    def test_the_same_steps_and_seed_give_the_same_file(self):
        files = []
        for seed in [5, 5, 6]:
            self.assertEqual(0, self.pack(task(plank(), WEDGE), "--steps", 800, "--seed", seed).returncode)
            files.append((self.folder / "layout.json").read_bytes())
        self.assertEqual(files[0], files[1])
        self.assertNotEqual(files[0], files[2])

    def test_seconds_are_kept(self):
        self.assertEqual(0, self.pack(task(plank()), "--seconds", "0.1").returncode)
        self.assertGreater(self.layout()["steps"], 10)

    def test_what_cannot_be_packed_is_refused_with_a_sentence(self):
        for content, key, said in [
            ("", "pack-not-json", "JSON"),
            ("[]", "pack-field-type", "group of fields"),
            (task(), "pack-nothing", "nothing"),
            (task(plank(demand=0)), "pack-nothing", "nothing"),
            (task(plank(), strip_width=5), "pack-piece-too-wide", "is 10 wide at its narrowest, and the strip only 5"),
            (task(plank(polygon=[[0, 0], [9, 9], [9, 0], [0, 9]])), "pack-outline-unsound", "piece “0”"),
            (task(plank(), plank()), "pack-id-twice", "/pieces/1/id"),
            (task(plank(demand="many")), "pack-field-type", "/pieces/0/demand"),
            (task(plank(demand=1001)), "pack-number-out-of-range", "/pieces/0/demand"),
            (task(plank(demand=600), plank(id=1, demand=600)), "pack-too-much", "1000 copies"),
            (task(plank(), strip_width=None), "pack-field-missing", "/strip_width"),
        ]:
            with self.subTest(key):
                answer = self.pack(content, "--steps", 10)
                self.assertEqual(2, answer.returncode)
                self.assertEqual(key, tool.code_of(answer.stderr), answer.stderr)
                self.assertIn(said, answer.stderr)
                self.assertFalse((self.folder / "layout.json").exists())

    def test_wrong_use_is_told(self):
        for options in [[], ["--steps", "x"], ["--steps", "-1"], ["--steps", "1.5"], ["--seconds", "nan"],
                        ["--seconds", "1", "--steps", "1"], ["--steps", "1", "--seed", "4294967296"],
                        ["--steps", "1", "--paper", "a4"]]:
            with self.subTest(options):
                answer = self.pack(task(plank()), *options)
                self.assertEqual(1, answer.returncode)
                self.assertIn("usage:", answer.stderr)


def parted(a, b):
    """True if an edge of the counter-clockwise outline a has all of b on its right, give or take a millionth."""
    for (px, py), (qx, qy) in zip(a, a[1:] + a[:1]):
        length = math.hypot(qx - px, qy - py)
        if all(((qx - px) * (y - py) - (qy - py) * (x - px)) / length < 1e-6 for x, y in b):
            return True
    return False
