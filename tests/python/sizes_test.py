"""A run of sizes by the command-line tool: what it writes, what it refuses."""

import json
import pathlib
import re
import tempfile
import unittest
import xml.etree.ElementTree as ET

import tool

BOSUN = tool.ROOT / "assets/tickets/bosun.json"


def sizes(folder, *arguments):
    return tool.run("sizes", BOSUN, *arguments, "--date", "1 May", "--out", folder)


class Sizes(unittest.TestCase):
    def test_each_size_is_a_ticket_that_drafts_and_stands_in_table_and_nest(self):
        with tempfile.TemporaryDirectory() as folder:
            done = sizes(folder, "--chests", "S = 50 cm; <b>&\"M = 60 cm; ☃ = 70 cm")
            self.assertEqual((done.returncode, done.stderr), (0, ""))
            files = {p.name for p in pathlib.Path(folder).iterdir()}
            self.assertEqual(files, {"size-1-S.json", "size-2-bM.json", "size-3.json", "sizes.html", "nest.svg"})
            for name, chest in (("size-1-S", "50 cm"), ("size-2-bM", "60 cm"), ("size-3", "70 cm")):
                ticket = pathlib.Path(folder, f"{name}.json")
                self.assertEqual(json.loads(ticket.read_text(encoding="utf-8"))["readings"]["chest"], [chest])
                self.assertEqual(tool.run("check", ticket).returncode, 0)
            nest = ET.fromstring(pathlib.Path(folder, "nest.svg").read_text(encoding="utf-8"))
            texts = {t.text for t in nest.iter("{http://www.w3.org/2000/svg}text")}
            page = pathlib.Path(folder, "sizes.html").read_text(encoding="utf-8")
            for name, shown in (("S", "S"), ("<b>&\"M", "&lt;b&gt;&amp;"), ("☃", "☃")):
                self.assertIn(name, texts)
                self.assertIn(shown, page)
            self.assertNotIn("<b>", page)
            back = tool.words()["measure.back"]
            self.assertRegex(page, re.escape(back) + r"</td>\n<td>.+</td>\n<td>.+</td>\n<td>.+</td>")

    def test_a_table_of_ones_own_is_read_from_a_file(self):
        with tempfile.TemporaryDirectory() as folder:
            table = pathlib.Path(folder, "table.txt")
            table.write_text("Size\tBack length\tNeck girth\tChest girth\tSide drop\tBreast length\n"
                             "A\t12 in\t9\t14 1/2\t5\t14\nB\t16\t12\t20\t7\t19\n", encoding="utf-8")
            done = sizes(pathlib.Path(folder, "out"), "--table", table)
            self.assertEqual((done.returncode, done.stderr), (0, ""))
            b = json.loads(pathlib.Path(folder, "out/size-2-B.json").read_text(encoding="utf-8"))
            self.assertEqual(b["readings"]["neck"], ["12 in"])

    def test_what_is_no_run_is_refused_and_nothing_is_written(self):
        with tempfile.TemporaryDirectory() as folder:
            out = pathlib.Path(folder, "out")
            for arguments, code in ((["--weights", "5 kg; 5 kg"], "size-twice"), (["--weights", "5 kg; x"], "size-unreadable"),
                                    (["--chests", ";"], "sizes-missing"), (["--table", "/nowhere"], "tool.no-reading")):
                done = sizes(out, *arguments)
                self.assertEqual((done.returncode, tool.code_of(done.stderr)), (2, code))
                self.assertFalse(out.exists())
            tiny = sizes(out, "--chests", "S = 50 cm; XXS = 9 cm")
            self.assertEqual(tiny.returncode, 2)
            self.assertTrue(tiny.stderr.startswith("Size XXS cannot be drafted."), tiny.stderr)
            self.assertFalse(out.exists())

    def test_just_one_way_to_name_sizes_is_asked_for(self):
        for ways in ([], ["--chests", "50 cm", "--weights", "5 kg"]):
            done = sizes("/tmp/none", *ways)
            self.assertEqual(done.returncode, 1)
            self.assertIn("sizes needs one of", done.stderr)
