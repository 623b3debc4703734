"""Changes one line of the program at a time and asks whether a test notices.

    python3 tests/mutate/mutate.py                     # the faults in table.py
    python3 tests/mutate/mutate.py --random 100        # as many made by rule instead, the same for the same --seed
    python3 tests/mutate/mutate.py hem dart            # those with one of these words in their line
    python3 tests/mutate/mutate.py --list              # only tell which there are

It works on a copy of the tree (--folder), so that the tree itself is never changed; with one job and at low priority, so that it
can run beside other work. For each change it builds what the next tests need and runs them until one fails: those that table.py
names for it, those of the changed module, all quick ones of core and shell, and the python tests. --reach near stops behind the
module, where time is short; --reach all goes on to the slow ones (the population and the long packings, SLOW below), which may
see what survives else. A line tells each result as it is known; the last one sums up. The exit code is 1 if something survived
that table.py does not explain.
"""

import argparse
import os
import pathlib
import random
import re
import resource
import shutil
import subprocess
import sys
import time

from generate import Mutation, sites
from table import EXPLAINED, TABLE

ROOT = pathlib.Path(__file__).resolve().parents[2]
PROGRAMS = ("core_tests", "shell_tests")
GENERATED_FROM = ("core/*.cpp", "shell/desk/*.cpp", "shell/pages/*.cpp", "shell/rack/*.cpp", "shell/words/*.cpp")
MOST_MEMORY = 4 << 30
# Tests that take many seconds each.
SLOW = ("*Population*", "Packer*", "Together*", "*Combinations*", "*Ahead*")
# Python tests that look at the sources themselves and would see any change.
OF_THE_SOURCES = ("house_test", "fetch_test", "notices_test")
FAILED = re.compile(r"^\[  FAILED  \] (\w+\.\w+)|^FAIL (.*)$", re.MULTILINE)


def tracked(*patterns):
    command = ["git", "-C", str(ROOT), "ls-files", "--", *patterns]
    return [n for n in subprocess.run(command, check=True, capture_output=True, text=True).stdout.split("\n") if n]


def bounded():
    """A change that lets a loop run on must not fill the machine."""
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))


class Copy:
    """The tree that is changed, and its build."""

    def __init__(self, folder, limit):
        self.tree, self.build, self.limit = folder, folder / "build-native", limit
        self.patience = {}  # seconds that the quick tests of a program may take
        names = tracked()
        for name in names:
            source, copy = ROOT / name, self.tree / name
            if not source.exists() or copy.exists() and copy.read_bytes() == source.read_bytes():
                continue
            copy.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(source, copy)
        for old in [p for p in self.tree.rglob("*") if p.is_file()]:
            if old.relative_to(self.tree).parts[0] not in (".git", "build-native") and str(old.relative_to(self.tree)) not in set(names):
                old.unlink()
        if not (self.tree / ".git").exists():  # some tests ask git for the sources
            subprocess.run(["git", "init", "-q"], cwd=self.tree, check=True)
        subprocess.run(["git", "add", "-A"], cwd=self.tree, check=True)
        if not (self.build / "build.ninja").exists():
            configure = ["cmake", "-S", self.tree, "-B", self.build, "-G", "Ninja"]
            subprocess.run(configure, check=True, stdout=subprocess.DEVNULL)

    def made(self, *targets):
        """Whether these build. What was changed back has to be built again, too: its time tells."""
        return self.run(["ninja", "-j1", "-C", self.build, *targets], self.limit).returncode == 0

    def run(self, command, seconds, folder=None):
        """The finished command with its output; code 124 if it took longer, as of timeout(1)."""
        with subprocess.Popen(command, cwd=folder or self.tree, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace",
                              start_new_session=True, preexec_fn=bounded) as process:
            try:
                out, _ = process.communicate(timeout=seconds)
                return subprocess.CompletedProcess(command, process.returncode, out)
            except subprocess.TimeoutExpired:
                os.killpg(process.pid, 9)
                return subprocess.CompletedProcess(command, 124, "")


def suites_of(module):
    """The names of the test suites that stand beside a module: core/draft, shell/rack."""
    folder = f"tests/{module}" if module.startswith("core") else "tests/shell"
    texts = [(ROOT / name).read_text(encoding="utf-8") for name in tracked(f"{folder}/*.cpp")]
    return sorted({s for text in texts for s in re.findall(r"^TEST(?:_F)?\((\w+),", text, re.MULTILINE)})


def stages(mutation, reach):
    """What is run for a change, one after the other until a test fails: (program, filter of its tests)."""
    module = "/".join(mutation.file.split("/")[:2])
    own = ":".join(f"{suite}.*" for suite in suites_of(module))
    slow = ":".join(SLOW)
    programs = PROGRAMS if module.startswith("core") else PROGRAMS[::-1]
    if mutation.tests:
        yield programs[0], mutation.tests
    if own:
        yield programs[0], f"{own}-{slow}"
    if reach == "near":
        return
    for program in programs:
        yield program, f"-{slow}" + (f":{own}" if program == programs[0] and own else "")
    if reach == "all":
        for program in programs:
            yield program, slow


def tried(copy, mutation, reach):
    """('killed', by what), ('survived', ''), ('does not build', '') or ('is not there', '')."""
    path = copy.tree / mutation.file
    text = path.read_text(encoding="utf-8")
    if mutation.at is None and text.count(mutation.old) != 1:
        return "is not there", ""
    path.write_text(mutation.applied(text), encoding="utf-8")
    try:
        for program, tests in stages(mutation, reach):
            if not copy.made(program):
                return "does not build", ""
            command = [copy.build / program, f"--gtest_filter={tests}", "--gtest_fail_fast", "--gtest_brief=1"]
            seconds = copy.limit if tests == ":".join(SLOW) else copy.patience.get(program, copy.limit)
            done = copy.run(command, seconds, folder=copy.tree / "tests")
            if done.returncode == 124:
                return "killed", f"{program} runs on and on"
            if done.returncode != 0:
                failed = FAILED.search(done.stdout)
                return "killed", failed[1] if failed else f"{program} ends with {done.returncode}"
        if reach == "near":
            return "survived", ""
        if not copy.made("coatwright"):
            return "does not build", ""
        done = copy.run(["/usr/bin/python3", "tests/python/run.py", copy.build / "coatwright"], copy.limit)
        failed = [f[1] for f in FAILED.findall(done.stdout) if f[1] and not f[1].startswith(OF_THE_SOURCES)]
        return ("killed", failed[0]) if failed else ("survived", "")
    finally:
        path.write_text(text, encoding="utf-8")


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("words", nargs="*", help="only changes with one of these words in their line")
    parser.add_argument("--random", type=int, default=0, metavar="N", help="so many made by rule instead of the table")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--limit", type=float, default=900.0, metavar="SECONDS", help="that one build or one run of tests may take")
    parser.add_argument("--folder", type=pathlib.Path, default=ROOT.with_name(ROOT.name + "-mutate"),
                        help="of the copy; beside the tree and built as it is, so that ccache knows what it has compiled already")
    parser.add_argument("--reach", choices=("near", "quick", "all"), default="quick",
                        help="which tests are asked: those of the changed module, all quick ones of core and shell, or all")
    parser.add_argument("--list", action="store_true", help="only tell which there are")
    order = parser.parse_args()
    os.nice(15)

    if order.random:
        all_sites = [m for name in tracked(*GENERATED_FROM) for m in sites(name, (ROOT / name).read_text(encoding="utf-8"))]
        mutations = random.Random(order.seed).sample(all_sites, min(order.random, len(all_sites)))
    else:
        mutations = TABLE
    mutations = [m for m in mutations if not order.words or any(w in str(m) for w in order.words)]
    if order.list:
        print(*mutations, sep="\n")
        return 0
    copy = Copy(order.folder.resolve(), order.limit)
    if not copy.made(*PROGRAMS, "coatwright"):
        sys.exit("the tree does not build without any change")
    for program in PROGRAMS if order.reach != "near" else ():
        started = time.monotonic()
        done = copy.run([copy.build / program, "--gtest_filter=-" + ":".join(SLOW), "--gtest_brief=1"], None, folder=copy.tree / "tests")
        copy.patience[program] = 30.0 + 5.0 * (time.monotonic() - started)
        if done.returncode != 0:
            sys.exit(f"{program} fails without any change:\n{done.stdout[-3000:]}")
    count = {"killed": 0, "survived": 0, "explained": 0, "does not build": 0, "is not there": 0}
    for i, mutation in enumerate(mutations):
        started = time.monotonic()
        result, by = tried(copy, mutation, order.reach)
        reason = EXPLAINED.get(mutation.key)
        if result == "survived" and reason:
            result, by = "explained", reason
        count[result] += 1
        print(f"{i + 1}/{len(mutations)} {result:14} {mutation}" + (f"  [{by}]" if by else "") +
              f"  {time.monotonic() - started:.0f} s", flush=True)
    mattered = count["killed"] + count["survived"]
    share = 100.0 * count["killed"] / mattered if mattered else 100.0
    print(f"{len(mutations)} changes: {count['killed']} killed, {count['survived']} survived, {count['explained']} survived and are "
          f"explained, {count['does not build']} do not build, {count['is not there']} are not there; {share:.1f} % killed of those "
          "that could be")
    return 1 if count["survived"] or count["is not there"] else 0


if __name__ == "__main__":
    sys.exit(main())
