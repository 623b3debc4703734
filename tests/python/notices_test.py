"""Every part that ships has its notice, and the studio names it."""

import pathlib
import re
import sys
import tempfile
import unittest

import tool

sys.path.insert(0, str(tool.ROOT / "web"))
import make_notices  # noqa: E402

OF_THE_COMPILER = {"emscripten", "libcxx", "musl"}


class Notices(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.shipped = make_notices.shipped((tool.ROOT / "web/sources.txt").read_text(encoding="utf-8"))
        cls.notices = make_notices.notices()

    def test_what_ships_is_what_the_program_and_the_pages_are_built_from(self):
        lists = [tool.ROOT / "CMakeLists.txt", *(tool.ROOT / name / "CMakeLists.txt" for name in ("core", "shell", "web"))]
        built = set(re.findall(r"coatwright_source\(\w+ fetch\.sh ([\w-]+)\)", "\n".join(p.read_text(encoding="utf-8") for p in lists)))
        built |= set(re.findall(r'fetch\.sh" ([\w-]+)', (tool.ROOT / "web/sdl.sh").read_text(encoding="utf-8")))
        self.assertIn("libsdl2", built)
        self.assertEqual(built - {"googletest"}, set(self.shipped))

    def test_every_part_that_ships_has_its_notice_and_no_other(self):
        self.assertEqual({*self.shipped, *OF_THE_COMPILER}, set(self.notices))
        for name, text in self.notices.items():
            with self.subTest(name):
                self.assertGreater(len(text), 500)
                self.assertRegex(text, r"(?i)copyright|public domain")
                self.assertRegex(text, r"(?i)permission|granted|redistribut|licen[sc]e")

    def test_each_notice_is_of_the_licence_that_the_studio_names(self):
        titles = make_notices.titles((tool.ROOT / "assets/studio.txt").read_text(encoding="utf-8"))
        self.assertEqual(set(self.notices), set(titles))
        words = {"MIT": "without restriction", "zlib": "altered source versions", "Open Font": "SIL OPEN FONT LICENSE",
                 "Vera": "Bitstream", "ISC": "with or without fee", "NCSA": "Redistributions in binary form", "Apache": "Apache License"}
        for name, title in titles.items():
            with self.subTest(name):
                named = [said for licence, said in words.items() if licence in title]
                self.assertTrue(named, title)
                text = " ".join(self.notices[name].split()).lower()
                for said in named:
                    self.assertIn(said.lower(), text)

    def test_the_file_holds_every_notice_whole(self):
        with tempfile.TemporaryDirectory() as folder:
            file = pathlib.Path(folder) / "notices.txt"
            make_notices.main(file)
            written = file.read_text(encoding="utf-8")
        for name, text in self.notices.items():
            with self.subTest(name):
                self.assertIn(text, written)


if __name__ == "__main__":
    unittest.main()
