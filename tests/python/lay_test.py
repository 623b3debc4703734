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


class Laying(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def lay(self, ticket, *options):
        return tool.run("lay", ticket, "--out", self.folder / "lay", "--steps", "300", "--widths", "shell=160 cm, lining=160 cm", *options)

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
