"""Rules of the house: who may include whom, what may stand where, how the sources are laid out."""

import pathlib
import re
import subprocess
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]

# Each module of core may include itself and those before it.
MODULES = ["base", "units", "geometry", "body", "draft", "fit", "cut", "drape", "lay", "sheet", "make", "ticket", "slip", "rack"]
# Core draws, waits, prints and opens nothing.
FORBIDDEN_IN_CORE = re.compile(
    r"^(shell/|web/|tests/|SDL|imgui|GL|emscripten|iostream|ostream|istream|sstream|fstream|filesystem|chrono|ctime|time\.h"
    r"|thread|random_device|unistd\.h|sys/)")
TOP_LEVEL = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "core", "web", "shell", "tests", "assets"}
INCLUDE = re.compile(r'^\s*#\s*include\s*[<"]([^">]+)[">]', re.MULTILINE)


def include_faults(path, text):
    """The includes of a core file (path below the root, as text) that the order of the modules forbids."""
    faults = []
    module = path.split("/")[1]
    if module not in MODULES:
        return [f"{path}: '{module}' is no module of core"]
    for included in INCLUDE.findall(text):
        if FORBIDDEN_IN_CORE.match(included):
            faults.append(f"{path} includes {included}")
        elif included.startswith("core/"):
            other = included.split("/")[1]
            if other not in MODULES or MODULES.index(other) > MODULES.index(module):
                faults.append(f"{path} includes {included}, which stands after it")
    return faults


def tracked(*patterns):
    """Files of the work tree that git knows or would add, so that build folders stay out."""
    command = ["git", "-C", str(ROOT), "ls-files", "--cached", "--others", "--exclude-standard", "--", *patterns]
    names = subprocess.run(command, check=True, capture_output=True, text=True).stdout.split("\n")
    return [n for n in names if n and (ROOT / n).exists()]


def read(name):
    return (ROOT / name).read_text(encoding="utf-8")


class House(unittest.TestCase):
    def test_core_modules_include_only_modules_before_them(self):
        files = tracked("core/*.h", "core/*.cpp")
        self.assertGreater(len(files), 1)
        self.assertEqual([], [f for name in files for f in include_faults(name, read(name))])

    def test_the_include_check_finds_what_it_looks_for(self):
        for line, fault in [
            ('#include "core/cut/cut.h"', True), ('#include "shell/studio.h"', True), ("#include <SDL.h>", True),
            ("  #  include <iostream>", True), ("#include <imgui.h>", True), ('#include "core/fancy/fancy.h"', True),
            ('#include "core/body/map.h"', False), ('#include "core/draft/draft.h"', False), ("#include <vector>", False),
        ]:
            with self.subTest(line):
                self.assertEqual(fault, bool(include_faults("core/draft/draft.h", "#pragma once\n" + line + "\n")))

    def test_shell_includes_nothing_of_web_or_tests(self):
        faults = []
        for name in tracked("shell/*.h", "shell/*.cpp"):
            for included in INCLUDE.findall(read(name)):
                if included.startswith(("web/", "tests/")):
                    faults.append(f"{name} includes {included}")
        self.assertEqual([], faults)

    def test_the_top_level_holds_only_the_plan_of_the_house(self):
        entries = {name.split("/")[0] for name in tracked()}
        self.assertEqual(set(), {e for e in entries if not e.startswith(".")} - TOP_LEVEL)

    def test_every_source_is_in_a_file_list(self):
        for folder in ["core", "shell", "tests", "web"]:
            lists = "\n".join(read(n) for n in tracked(f"{folder}/CMakeLists.txt", f"{folder}/*/CMakeLists.txt"))
            # Fuzz targets are listed by name, and each name stands for fuzz/NAME.cpp; the options' folder is read.
            read_whole = "core/draft/options/" if "draft/options/*.cpp" in lists else None
            missing = [n for n in tracked(f"{folder}/*.cpp")
                       if n.removeprefix(folder + "/") not in lists and not n.startswith("tests/fuzz/")
                       and not (read_whole and n.startswith(read_whole))]
            self.assertEqual([], missing)

    def test_headers_say_pragma_once_and_includes_start_at_the_root(self):
        faults = []
        for name in tracked("*.h", "*.cpp"):
            text = read(name)
            if name.endswith(".h") and "#pragma once" not in text:
                faults.append(f"{name} lacks #pragma once")
            for included in re.findall(r'#\s*include\s*"([^"]+)"', text):
                if not (ROOT / included).exists():
                    faults.append(f'{name} includes "{included}", which is no path from the root')
        self.assertEqual([], faults)

    def test_sources_are_formatted(self):
        files = tracked("*.h", "*.cpp")
        done = subprocess.run(["clang-format", "--dry-run", "-Werror", *files], cwd=ROOT, capture_output=True, text=True)
        places = [line for line in done.stderr.splitlines() if "error:" in line]
        self.assertEqual([], places[:20], "clang-format -i mends it")
        self.assertEqual(0, done.returncode, done.stderr)
