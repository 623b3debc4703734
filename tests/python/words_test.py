"""The word tables of assets/: every line is asked for somewhere."""

import re
import unittest

import tool

# Groups whose keys are ids of core, made up where they are asked for: tests/shell/say_test.cpp holds them against core's
# own tables, both ways.
OF_CORE = {"measure", "choice", "estimate", "unit", "sex", "build", "coat", "level", "need", "layer", "piece", "edge", "notch",
           "mark", "trace", "invariant", "style", "option", "notion", "step"}


def asked_for(key, sources):
    """True if the sources hold the key, or the beginning of it up to a dot or hyphen as a string to which an id is added."""
    if f'"{key}"' in sources:
        return True
    return any(f'"{key[:end.end()]}"' in sources for end in re.finditer(r"[.-]", key) if key[:end.end()] != "ui.")


class Words(unittest.TestCase):
    def setUp(self):
        names = [*tool.ROOT.glob("core/**/*.cpp"), *tool.ROOT.glob("core/**/*.h"), *tool.ROOT.glob("shell/**/*.cpp"),
                 *tool.ROOT.glob("shell/**/*.h"), *tool.ROOT.glob("web/*.js"), *tool.ROOT.glob("web/*.cpp")]
        self.sources = "\n".join(n.read_text(encoding="utf-8") for n in names).replace("'", '"')

    def test_every_line_is_asked_for(self):
        codes = set(re.findall(r'X\(\w+, "([a-z-]+)"\)', self.sources))
        options = {choice + "." for choice in re.findall(r'ChoiceInfo k\w+ = \{\s*\.id = "([a-z-]+)",\s*\.options', self.sources)}
        self.assertGreater(len(codes), 40)
        self.assertLessEqual({"hem-line.", "tail-line."}, options)
        # A line may also stand in another, by its name.
        named = set(re.findall(r"\{([a-z]+\.[a-z.-]+)\}", "\n".join(tool.words().values())))
        self.assertLessEqual(named, set(tool.words()))
        self.assertIn("care.iron", named)
        unused = []
        for key in [*tool.words(), *tool.words("studio"), *tool.words("slip"), *tool.words("cloth")]:
            group = key.split(".")[0]
            if key in codes or group in codes or group in OF_CORE or group + "." in options or key in named:
                continue
            if not asked_for(key, self.sources):
                unused.append(key)
        self.assertEqual([], unused)

    def test_every_key_that_is_asked_for_has_a_line(self):
        tables = {**tool.words(), **tool.words("studio"), **tool.words("slip"), **tool.words("cloth")}
        asked = set(re.findall(r'"((?:ui|tool|light)\.[a-z0-9.-]+)"', self.sources))
        self.assertGreater(len(asked), 250)
        missing = [key for key in sorted(asked) if key not in tables and
                   not (key[-1] in ".-" and any(line.startswith(key) for line in tables))]
        self.assertEqual([], missing)

    def test_no_key_stands_in_two_tables(self):
        tables = [tool.words(table) for table in ("words", "studio", "slip", "cloth")]
        self.assertEqual(sum(map(len, tables)), len(set().union(*tables)))

    def test_the_check_finds_a_line_that_nobody_asks_for(self):
        self.assertTrue(asked_for("station.fit", 'words("station." + id)'))
        self.assertTrue(asked_for("tool.no-folder", 'f("tool.no-folder", x)'))
        self.assertFalse(asked_for("tool.no-folders", 'f("tool.no-folder", x)'))
        self.assertFalse(asked_for("ui.other", 'words("ui." + id)'))
        self.assertFalse(asked_for("other.fit", 'words("station." + id)'))
