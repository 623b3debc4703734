"""`coatwright lay` as a user runs it: the file by its schema, every piece where the file says, refusals with a sentence."""

import json
import math
import pathlib
import tempfile
import unittest

import jsonschema
import tool

TICKETS = sorted((tool.ROOT / "assets" / "tickets").glob("*.json"))


def in_place(outline, placement):
    angle = math.radians(placement["rotation_deg"])
    for x, y in outline:
        y = -y if placement["mirrored"] else y
        yield (math.cos(angle) * x - math.sin(angle) * y + placement["x"], math.sin(angle) * x + math.cos(angle) * y + placement["y"])


def turn(a, b, c):
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def holds(outline, p):
    ends = zip(outline, outline[1:] + outline[:1])
    return sum((a[1] > p[1]) != (b[1] > p[1]) and p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) for a, b in ends) % 2 == 1


def overlap(one, other):
    """Whether two outlines have anything in common: lines that cross, or one within the other."""
    for axis in (0, 1):
        if max(p[axis] for p in one) < min(p[axis] for p in other) or max(p[axis] for p in other) < min(p[axis] for p in one):
            return False
    for a, b in zip(one, one[1:] + one[:1]):
        for c, d in zip(other, other[1:] + other[:1]):
            if turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0:
                return True
    return holds(one, other[0]) or holds(other, one[0])


class Laying(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def lay(self, *options):
        return tool.run("lay", *options, "--out", self.folder / "lay", "--steps", "300", "--widths", "shell=160 cm, lining=160 cm")

    def test_every_demo_ticket_is_laid_inside_its_cloth_as_the_file_says(self):
        schema = jsonschema.Draft202012Validator(tool.schema("lay"))
        laid = 0
        for ticket in TICKETS:
            self.assertEqual(0, self.lay(ticket).returncode, ticket)
            content = json.loads((self.folder / "lay" / "lay.json").read_text(encoding="utf-8"))
            schema.validate(content)
            self.assertEqual(0, tool.run("draft", ticket, "--out", self.folder / "draft", "--full").returncode)
            draft = json.loads((self.folder / "draft" / "draft.json").read_text(encoding="utf-8"))
            cut = {piece["id"]: piece for piece in draft["pieces"]}
            for lay in content["lays"]:
                for placement in lay["placements"]:
                    points = list(in_place(cut[placement["piece"]]["cut"], placement))
                    self.assertGreaterEqual(min(x for x, _ in points), -0.01)
                    self.assertLessEqual(max(x for x, _ in points), lay["length_mm"] + 0.01)
                    self.assertGreaterEqual(min(y for _, y in points), lay["selvage_mm"] - 0.01)
                    self.assertLessEqual(max(y for _, y in points), lay["width_mm"] - lay["selvage_mm"] + 0.01)
                    laid += 1
            bought = {ware["ware"]: ware for ware in content["to_buy"]}
            for lay in content["lays"]:
                self.assertGreaterEqual(bought[lay["cloth"]]["to_buy_mm"], lay["length_mm"])
        self.assertGreater(laid, 4 * len(TICKETS) - 4)

    def test_several_coats_lie_on_one_length_each_with_its_own_pieces_and_names(self):
        schema = jsonschema.Draft202012Validator(tool.schema("lay"))
        alone, drafts = [], []
        for ticket in TICKETS[:3]:
            self.assertEqual(0, self.lay(ticket).returncode)
            alone.append(json.loads((self.folder / "lay" / "lay.json").read_text(encoding="utf-8")))
            self.assertEqual(0, tool.run("draft", ticket, "--out", self.folder / "draft", "--full").returncode)
            draft = json.loads((self.folder / "draft" / "draft.json").read_text(encoding="utf-8"))
            drafts.append({piece["id"]: piece for piece in draft["pieces"]})
        done = self.lay(*TICKETS[:3])
        self.assertEqual((0, ""), (done.returncode, done.stderr))
        content = json.loads((self.folder / "lay" / "lay.json").read_text(encoding="utf-8"))
        schema.validate(content)
        self.assertEqual([one["ticket"]["dog"] for one in alone], [coat["dog"] for coat in content["coats"]])
        self.assertEqual(alone[0]["ticket"], content["ticket"])

        def pieces(lays, coat):
            return sorted((lay["cloth"], lay["laminated"], place["piece"], place["mirrored"]) for lay in lays
                          for place in lay["placements"] if place["coat"] == coat)
        outlines = {}
        for lay in content["lays"]:
            for place in lay["placements"]:
                points = list(in_place(drafts[place["coat"]][place["piece"]]["cut"], place))
                outlines.setdefault((lay["cloth"], lay["laminated"]), []).append(points)
                self.assertGreaterEqual(min(y for _, y in points), lay["selvage_mm"] - 0.01)
                self.assertLessEqual(max(y for _, y in points), lay["width_mm"] - lay["selvage_mm"] + 0.01)
                self.assertLessEqual(max(x for x, _ in points), lay["length_mm"] + 0.01)
        pairs = 0
        for laid in outlines.values():
            for i, one in enumerate(laid):
                for other in laid[:i]:
                    self.assertFalse(overlap(one, other))
                    pairs += 1
        self.assertGreater(pairs, 10)
        self.assertTrue(overlap(laid[0], [(x + 1, y) for x, y in laid[0]]), "the check sees what it is for")
        for n, one in enumerate(alone):
            self.assertEqual(pieces(one["lays"], 0), pieces(content["lays"], n))
        for ware in content["to_buy"]:
            if "shares" in ware:
                self.assertAlmostEqual(1, sum(ware["shares"]), delta=0.01)
        self.assertGreater(min(content["to_buy"][0]["shares"]), 0.05)
        diagram = (self.folder / "lay" / "lay-shell.svg").read_text(encoding="utf-8")
        for coat in content["coats"]:
            self.assertIn(coat["dog"] + ": ", diagram)

    def test_a_ticket_that_is_refused_among_several_is_named_by_its_dog(self):
        def refused(change):
            ticket = json.loads(TICKETS[1].read_text(encoding="utf-8"))
            change(ticket)
            bad = self.folder / "bad.json"
            bad.write_text(json.dumps(ticket), encoding="utf-8")
            done = self.lay(TICKETS[0], bad)
            self.assertEqual(2, done.returncode)
            self.assertFalse((self.folder / "lay").exists())
            return done.stderr
        self.assertTrue(refused(lambda t: t.update(dog="Fender", readings={})).startswith("Fender, "))
        self.assertIn("bad.json: ", refused(lambda t: t.update(style="sail")))
        wide = {"back": ["86 cm"], "neck": ["64 cm"], "chest": ["107 cm"], "drop": ["39 cm"], "breast": ["104 cm"]}
        bosun = next(ticket for ticket in TICKETS if ticket.name == "bosun.json")
        done = tool.run("lay", bosun, self.giant(wide), "--out", self.folder / "lay", "--steps", "10", "--widths", "shell=70 cm")
        self.assertEqual(2, done.returncode)
        self.assertRegex(done.stderr, "^Windlass, .*: .*across the shell")
        self.assertEqual(1, tool.run("lay", *TICKETS[:1] * 5, "--out", self.folder / "lay", "--steps", "10").returncode, "four at most")

    def giant(self, readings):
        ticket = json.loads(TICKETS[0].read_text(encoding="utf-8"))
        ticket.update(dog="Windlass", readings=readings)
        file = self.folder / "giant.json"
        file.write_text(json.dumps(ticket), encoding="utf-8")
        return file

    def test_the_same_steps_write_the_same_file(self):
        self.lay(TICKETS[0])
        first = (self.folder / "lay" / "lay.json").read_bytes()
        self.lay(TICKETS[0])
        self.assertEqual(first, (self.folder / "lay" / "lay.json").read_bytes())

    def test_a_lay_by_hand_is_laid_as_it_stands_and_refused_with_a_sentence_while_pieces_overlap(self):
        ticket = json.loads(TICKETS[0].read_text(encoding="utf-8"))
        self.assertEqual(0, self.lay(TICKETS[0]).returncode)
        found = json.loads((self.folder / "lay" / "lay.json").read_text(encoding="utf-8"))["lays"][0]
        self.assertFalse(found["by_hand"])
        ids = [placement["piece"] for placement in found["placements"]]
        places = [{"piece": piece, "copy": ids[:n].count(piece), "x": 20 + 1500 * n, "y": 60} for n, piece in enumerate(ids)]
        self.assertGreater(len(places), 1)
        by_hand = self.folder / "by-hand.json"

        def write():
            lays = [{"cloth": found["cloth"], "laminated": found["laminated"], "places": places + [{"piece": "gone", "x": 0, "y": 0}]}]
            by_hand.write_text(json.dumps({**ticket, "lays": lays}), encoding="utf-8")

        write()
        self.assertEqual(0, self.lay(by_hand).returncode)
        content = json.loads((self.folder / "lay" / "lay.json").read_text(encoding="utf-8"))
        jsonschema.Draft202012Validator(tool.schema("lay")).validate(content)
        laid = content["lays"][0]
        self.assertTrue(laid["by_hand"])
        self.assertGreater(laid["length_mm"], 1500 * (len(places) - 1))
        self.assertGreaterEqual(content["to_buy"][0]["to_buy_mm"], laid["length_mm"])
        self.assertEqual(len(places), len(laid["placements"]))
        places[1].update(x=30)
        write()
        done = self.lay(by_hand)
        self.assertEqual(2, done.returncode)
        self.assertEqual("lay-hand-overlaps", tool.code_of(done.stderr))

    def test_a_piece_wider_than_the_cloth_is_refused_by_name_and_nothing_is_written(self):
        done = tool.run("lay", TICKETS[0], "--out", self.folder / "narrow", "--steps", "10", "--widths", "shell=20 cm")
        self.assertEqual(2, done.returncode)
        self.assertEqual("lay-piece-too-wide", tool.code_of(done.stderr))
        self.assertFalse((self.folder / "narrow").exists())

    def test_a_scrap_is_enough_or_lacks_a_length_and_a_piece_too_wide_for_it_is_named(self):
        def answer(scrap):
            done = tool.run("lay", TICKETS[0], "--out", self.folder / "scrap", "--steps", "200", "--widths", "lining=160 cm", "--scrap", scrap)
            return done, done.returncode or json.loads((self.folder / "scrap" / "lay.json").read_text(encoding="utf-8"))
        schema = jsonschema.Draft202012Validator(tool.schema("lay"))
        done, content = answer("shell=300 x 160 cm")
        self.assertIn("is enough", done.stdout)
        schema.validate(content)
        self.assertEqual(0, content["to_buy"][0]["to_buy_mm"])
        needed = content["to_buy"][0]["needed_mm"]
        done, content = answer("shell=30 x 160 cm")
        self.assertIn("too short", done.stdout)
        schema.validate(content)
        self.assertAlmostEqual(needed - 300, content["to_buy"][0]["lacks_mm"], delta=0.01)
        done, _ = answer("shell=300 x 20 cm")
        self.assertEqual((2, "lay-piece-too-wide"), (done.returncode, tool.code_of(done.stderr)))
        for scrap in ("shell=300", "shell=x 20 cm", "shell=300 x", "velvet=3 x 4 cm"):
            self.assertEqual(2, answer(scrap)[0].returncode, scrap)

    def test_widths_that_cannot_be_are_refused_with_a_sentence(self):
        for widths, code in (("shell=0", "number-not-positive"), ("velvet=10 cm", "cloth-unknown"), ("shell", "cloth-unknown"),
                             ("shell=4 cm", "cloth-length-out-of-range"), ("shell=wide", "number-unit-unknown")):
            done = tool.run("lay", TICKETS[0], "--out", self.folder / "no", "--steps", "10", "--widths", widths)
            self.assertEqual(2, done.returncode, widths)
            self.assertEqual(code, tool.code_of(done.stderr), widths)


if __name__ == "__main__":
    unittest.main()
