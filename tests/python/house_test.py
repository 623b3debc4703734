"""Rules of the house: who may include whom, what may stand where, how the sources are laid out."""

import pathlib
import re
import subprocess
import unittest

ROOT = pathlib.Path(__file__).resolve().parents[2]

# The picture of DEVELOPERS.md: each module of core, and each room of shell, may include itself and those before it; no
# station includes another, and nothing but itself the command-line tool.
MODULES = ["base", "units", "geometry", "body", "draft", "fit", "cut", "pattern", "drape", "pack", "lay", "draw", "exchange", "sheet", "table", "make", "ticket", "sizes", "slip", "rack"]
STATIONS = ["measure", "draft", "fit", "lay", "print", "make"]
ROOMS = ["words", "pages", "tool", "rack", "desk", "kit", "counter", *STATIONS, "app", "hosts"]
TO_COME = {"core/drape"}
# Core draws, waits, prints and opens nothing.
FORBIDDEN_IN_CORE = re.compile(
    r"^(shell/|web/|tests/|SDL|imgui|GL|emscripten|iostream|ostream|istream|sstream|fstream|filesystem|chrono|ctime|time\.h"
    r"|thread|random_device|unistd\.h|sys/)")
TOP_LEVEL = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "core", "web", "shell", "tests", "assets"}
INCLUDE = re.compile(r'^\s*#\s*include\s*[<"]([^">]+)[">]', re.MULTILINE)


# Within core/draft: what a draft is and the geometry that it is drawn with; the options, each by itself; the styles that
# have them.
DRAFT = ["core/draft/", "core/draft/options/", "core/draft/styles/"]


def draft_fault(path, included):
    """Why a file of core/draft may not include another of it; None if it may."""
    own, other = (name.rsplit("/", 1)[0] + "/" for name in (path, included))
    if own not in DRAFT or other not in DRAFT:
        return None
    if DRAFT.index(other) > DRAFT.index(own):
        return f"{path} includes {included}, which stands after it"
    if own == other == DRAFT[1] and path.endswith(".h"):
        return f"{path} includes {included}: an option's header knows no other option"
    return None


def out_of_order(folder, order, path, included):
    """Why the file at `path` may not include `included`, both below the root and in `folder`; None if it may."""
    own, other = path.split("/")[1], included.split("/")[1]
    if other not in order or order.index(other) > order.index(own):
        return f"{path} includes {included}, which stands after it"
    if folder == "shell" and own != other and (other == "tool" or own in STATIONS and other in STATIONS):
        return f"{path} includes {included}, which is for '{other}' alone"
    return draft_fault(path, included)


def include_faults(path, text):
    """The includes of a file of core or shell (path below the root, as text) that the plan of the house forbids."""
    faults = []
    folder, own = path.split("/")[:2]
    order = MODULES if folder == "core" else ROOMS
    if own not in order:
        return [f"{path}: '{own}' is no part of {folder}"]
    for included in INCLUDE.findall(text):
        if folder == "core" and FORBIDDEN_IN_CORE.match(included) or included.startswith(("web/", "tests/")):
            faults.append(f"{path} includes {included}")
        elif included.startswith(folder + "/"):
            fault = out_of_order(folder, order, path, included)
            if fault:
                faults.append(fault)
    return faults


def tracked(*patterns):
    """Files of the work tree that git knows or would add, so that build folders stay out."""
    command = ["git", "-C", str(ROOT), "ls-files", "--cached", "--others", "--exclude-standard", "--", *patterns]
    names = subprocess.run(command, check=True, capture_output=True, text=True).stdout.split("\n")
    return [n for n in names if n and (ROOT / n).exists()]


def read(name):
    return (ROOT / name).read_text(encoding="utf-8")


class House(unittest.TestCase):
    def assert_includes_in_order(self, folder):
        files = tracked(f"{folder}/*.h", f"{folder}/*.cpp")
        self.assertGreater(len(files), 100)
        self.assertEqual([], [f for name in files for f in include_faults(name, read(name))])

    def test_core_modules_include_only_modules_before_them(self):
        self.assert_includes_in_order("core")

    def test_shell_rooms_include_only_rooms_before_them_and_no_station_another(self):
        self.assert_includes_in_order("shell")

    def test_the_guide_draws_the_order_that_is_checked_here(self):
        picture = read("DEVELOPERS.md").split("**The order of the rooms.**")[1].split("\n| ")[0]
        core, shell = picture.split("\n    core ")[1].split("\n    shell ")
        self.assertEqual(MODULES, core.split())
        # Column by column: what stands further right comes later, and the stations stand one under the other.
        drawn = {m.group(): m.start() - shell.rfind("\n", 0, m.start()) for m in re.finditer(r"(?<=[ -])[a-z]+\b", shell.split("\n\n")[0])}
        drawn["words"] -= len("\n    shell ")
        self.assertEqual(set(ROOMS), set(drawn))
        self.assertEqual(1, len({drawn[s] for s in STATIONS}))
        line = [r for r in ROOMS if r not in (*STATIONS[1:], "words", "pages", "tool")]
        self.assertEqual(line, sorted(line, key=drawn.get))
        self.assertTrue(drawn["words"] < drawn["pages"] < drawn["tool"])

    def test_every_folder_has_its_place_in_the_order_and_in_the_guide(self):
        guide = read("DEVELOPERS.md")
        for folder, order in (("core", MODULES), ("shell", ROOMS)):
            there = {name.split("/")[1] for name in tracked(f"{folder}/*.h", f"{folder}/*.cpp")}
            self.assertEqual({m for m in order if f"{folder}/{m}" not in TO_COME or m in there}, there)
            table = guide.split(f"| in {folder} |")[1].split("\n\n")[0]
            named = [word for row in table.split("\n") for word in re.findall(r"`(\w+)`", row.split("|")[1] if "|" in row else "")]
            self.assertEqual(sorted(order), sorted(named))

    def test_every_path_that_the_guides_name_is_there(self):
        for guide in ("DEVELOPERS.md", "README.md"):
            with self.subTest(guide):
                paths = re.findall(r"(?:`|\]\()((?:core|shell|web|tests|assets)/[\w./-]*)[`)]", read(guide))
                self.assertEqual([], [p for p in paths if not (ROOT / p).exists() and not re.search("[A-Z]{4}", p)])

    def test_the_include_check_finds_what_it_looks_for(self):
        for path, line, fault in [
            ("core/draft/draft.h", '#include "core/cut/cut.h"', True), ("core/draft/draft.h", '#include "shell/kit/ui.h"', True),
            ("core/draft/draft.h", "#include <SDL.h>", True), ("core/draft/draft.h", "  #  include <iostream>", True),
            ("core/draft/draft.h", "#include <imgui.h>", True), ("core/draft/draft.h", '#include "core/fancy/fancy.h"', True),
            ("core/draft/draft.h", '#include "core/body/map.h"', False), ("core/draft/draft.h", '#include "core/draft/cone.h"', False),
            ("core/draft/draft.h", "#include <vector>", False), ("core/pack/packer.h", '#include "core/lay/cloth.h"', True),
            ("core/draft/rear.h", '#include "core/draft/options/hem.h"', True), ("core/draft/options/hem.h", '#include "core/draft/rear.h"', False),
            ("core/draft/options/hem.cpp", '#include "core/draft/styles/style.h"', True), ("core/draft/styles/style.cpp", '#include "core/draft/options/hem.h"', False),
            ("core/draft/options/hem.h", '#include "core/draft/options/ease.h"', True), ("core/draft/options/hem.cpp", '#include "core/draft/options/ease.h"', False),
            ("core/cut/cut.h", '#include "core/pattern/pattern.h"', True),
            ("shell/kit/ui.h", '#include "shell/measure/panel.h"', True), ("shell/kit/ui.h", '#include "shell/desk/box.h"', False),
            ("shell/make/panel.h", '#include "shell/draft/panel.h"', True), ("shell/make/panel.h", '#include "shell/make/board.h"', False),
            ("shell/app/app.h", '#include "shell/make/panel.h"', False), ("shell/rack/rack.h", '#include "shell/tool/report.h"', True),
            ("shell/kit/ui.h", "#include <imgui.h>", False), ("shell/kit/ui.h", '#include "web/page.h"', True),
            ("shell/shed.h", "#include <vector>", True), ("shell/kit/ui.h", '#include "core/units/length.h"', False),
        ]:
            with self.subTest(f"{path}: {line}"):
                self.assertEqual(fault, bool(include_faults(path, "#pragma once\n" + line + "\n")))

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
