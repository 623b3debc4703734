"""The command-line tool as the tests run it, and the tables that they compare it with."""

import json
import os
import pathlib
import re
import subprocess

ROOT = pathlib.Path(__file__).resolve().parents[2]
DEMO_TICKETS = sorted((ROOT / "assets/tickets").glob("*.json"))


def run(*arguments, **options):
    """Runs coatwright; its answer has returncode, stdout and stderr as text."""
    return subprocess.run([os.environ["COATWRIGHT"], *map(str, arguments)], capture_output=True, text=True,
                          encoding="utf-8", timeout=60, **options)


def words(table="words"):
    """A word table of assets/ as a dictionary."""
    lines = (ROOT / f"assets/{table}.txt").read_text(encoding="utf-8").splitlines()
    return dict(line.split(" = ", 1) for line in lines if line and not line.startswith("#"))


def sentence_patterns():
    """Key of each sentence that may be a refusal, with the pattern of its text."""
    patterns = {}
    for key, text in words().items():
        if text.endswith(".") and ("." not in key or key.startswith("tool.") or key == "exchange.seven-bit" or key.endswith("weight")):
            patterns[key] = re.compile(re.sub(r"\\\{.*?\\\}", ".*", re.escape(text)))
    return patterns


PATTERNS = sentence_patterns()


def code_of(stderr):
    """The key of the one sentence on stderr, or None if it is no sentence of the table."""
    line = stderr.removesuffix("\n")
    if "\n" in line:
        return None
    fitting = [key for key, pattern in PATTERNS.items() if pattern.fullmatch(line)]
    # "{Subject} is empty" fits little else; the longest pattern is the one that was meant.
    return max(fitting, key=lambda key: len(PATTERNS[key].pattern), default=None)


def schema(name):
    return json.loads((ROOT / f"assets/{name}.schema.json").read_text(encoding="utf-8"))


def demo(name="bosun"):
    return json.loads((ROOT / f"assets/tickets/{name}.json").read_text(encoding="utf-8"))
