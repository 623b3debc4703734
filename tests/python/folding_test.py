"""The tables of core/base/folding.cpp against Python's own copy of the Unicode data."""

import pathlib
import re
import unicodedata
import unittest

SOURCE = (pathlib.Path(__file__).parents[2] / "core/base/folding.cpp").read_text(encoding="utf-8")
STRING = r'u"((?:[^"\\]|\\.)*)"'
# Read as a plain letter although they have no decomposition (common practice, no source).
PLAIN = {"æ": "ae", "œ": "oe", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "ħ": "h", "ı": "i", "ĸ": "k", "ł": "l", "ŉ": "n", "ŋ": "n", "ŧ": "t",
         "ŀ": "l", "’": "'", "‘": "'", "ʼ": "'"}


def text_of(literals):
    body = "".join(re.findall(STRING, literals))
    return re.sub(r"\\u([0-9A-F]{4})|\\(.)", lambda m: chr(int(m[1], 16)) if m[1] else m[2], body)


def tables():
    folded = {}
    begin, end = SOURCE.index("kBlocks[]"), SOURCE.index("kOthers =")
    for first, literals in re.findall(r"\{0x([0-9A-F]{4}),\s*((?:" + STRING.replace("(", "(?:", 1) + r"\s*)+)\}", SOURCE[begin:end]):
        for i, letter in enumerate(text_of(literals)):
            if letter != " ":
                folded[int(first, 16) + i] = letter
    for word in text_of(SOURCE[end : SOURCE.index("struct Series")]).split(" "):
        if word:
            folded[ord(word[0])] = word[1:]
    for first, last, away in re.findall(r"\{0x(\w{4}), 0x(\w{4}), (-?\d+)\}", SOURCE):
        for c in range(int(first, 16), int(last, 16) + 1):
            folded[c] = chr(c + int(away))
    ignored = set()
    for first, last in re.findall(r"\{0x(\w{4}), 0x(\w{4})\}", SOURCE):
        ignored.update(range(int(first, 16), int(last, 16) + 1))
    return folded, ignored


def is_mark(c):
    k = unicodedata.combining(chr(c))
    return unicodedata.category(chr(c)) == "Mn" and (k >= 200 or 10 <= k <= 36)


class Folding(unittest.TestCase):
    def test_marks_that_are_passed_over_are_the_accents_and_points_of_unicode(self):
        unseen = {0xAD, 0x640, *range(0x200B, 0x200E), *range(0xFE00, 0xFE10)}
        _, ignored = tables()
        marks = {c for c in range(0x10000) if is_mark(c)}
        self.assertEqual({hex(c) for c in ignored - marks - unseen}, set())
        self.assertEqual({hex(c) for c in marks - ignored if unicodedata.ucd_3_2_0.category(chr(c)) != "Cn"}, set())

    def test_every_letter_of_a_living_script_is_folded_as_its_decomposition_and_case_say(self):
        folded, ignored = tables()

        def ours(text):
            return "".join(folded.get(ord(c), chr(ord(c) | 32) if "A" <= c <= "Z" else c) for c in text if ord(c) not in ignored)

        def theirs(c):
            text = unicodedata.normalize("NFKD" if 0xFF01 <= c <= 0xFFDC else "NFD", chr(c))
            for _ in range(3):
                text = "".join(PLAIN.get(x, x) for x in text if ord(x) not in ignored).casefold()
                text = unicodedata.normalize("NFD", text)
            return "".join(x for x in text if ord(x) not in ignored)

        living = [(0xC0, 0x24F), (0x370, 0x58F), (0x590, 0x6FF), (0x900, 0xDFF), (0xE00, 0xEFF), (0x10A0, 0x10C5), (0x1E00, 0x1FFC), (0x3040, 0x30FF),
                  (0xAB70, 0xABBF), (0xFB1D, 0xFB4E), (0xFF01, 0xFFDC)]
        looked_at = 0
        for first, last in living:
            for c in range(first, last + 1):
                if unicodedata.category(chr(c)) == "Cn" or " " in theirs(c) or c in (0x37E, 0x387):
                    continue
                self.assertEqual(ours(chr(c)), theirs(c), hex(c))
                looked_at += ours(chr(c)) != chr(c)
        self.assertGreater(looked_at, 1200)
        for c, letters in folded.items():
            self.assertEqual(ours(letters), letters, hex(c))


if __name__ == "__main__":
    unittest.main()
