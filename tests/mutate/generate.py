"""Faults that are made by rule: one small change of a line that a hurried person could make."""

import re
from typing import NamedTuple, Optional


class Mutation(NamedTuple):
    name: str
    file: str
    old: str
    new: str
    tests: str = ""  # a GoogleTest filter of those that should see it, which are run first
    at: Optional[int] = None  # where `old` begins; None: it stands there once

    @property
    def key(self):
        """What an explanation is kept under: it outlives lines that are added above."""
        return (self.file, self.old, self.new) if self.at is None else (self.file, self.name)

    def applied(self, text):
        at = text.index(self.old) if self.at is None else self.at
        assert text.startswith(self.old, at), self
        return text[:at] + self.new + text[at + len(self.old):]

    def __str__(self):
        return f"{self.file}: {self.name}"


# What is replaced by what; spaces on both sides tell an operator from a template's bracket.
SWAPS = {
    " < ": " <= ", " <= ": " < ", " > ": " >= ", " >= ": " > ", " == ": " != ", " != ": " == ", " && ": " || ", " || ": " && ",
    " + ": " - ", " - ": " + ", " * ": " / ", " += ": " -= ", " -= ": " += ", "std::min(": "std::max(", "std::max(": "std::min(",
    "true": "false", "false": "true", ".front()": ".back()", ".back()": ".front()", "++": "--", "!": "", "any_of(": "all_of(",
    "all_of(": "any_of(", ".x": ".y", ".y": ".x",
}
SWAP = re.compile("|".join(r"\b" * s[0].isalpha() + re.escape(s) + r"\b" * s[-1].isalpha() for s in SWAPS))
NUMBER = re.compile(r"(?<![\w.])(\d+\.\d+|\d+)(?![\w.])")
# A statement of its own on one line: an assignment or a call, no declaration and nothing that leaves.
STATEMENT = re.compile(r"^ +(?!return\b|break\b|continue\b|using\b|const\b|else\b|if\b|for\b|while\b|case\b|static\b|auto\b)"
                       r"[\w.:>\-\[\]*()]+(?: [-+*/|&]?= .*|\(.*\));$")
CODE_IN_LINE = re.compile(r'//.*$|"(?:[^"\\]|\\.)*"|\'(?:[^\'\\]|\\.)*\'')


def code_of(line):
    """The line with comments and texts blanked out, so that places stay."""
    if line.lstrip().startswith(("#", "//", "}  //", "namespace", "template", "static_assert")):
        return ""
    return CODE_IN_LINE.sub(lambda m: " " * len(m[0]), line)


def other_number(number):
    """One more of a whole number, a tenth more of another; nothing for what is only a tolerance."""
    if "." not in number:
        return str(int(number) + 1)
    value = float(number)
    if value == 0.0:
        return "1.0"
    return None if value < 1e-2 else repr(round(1.1 * value, 6))


def changes_of(line):
    """(where, old, new, name) of each change that can be made in a line."""
    code = code_of(line)
    for m in SWAP.finditer(code):
        old, new = m[0], SWAPS[m[0]]
        if old == "!" and code[m.end():m.end() + 1] == "=":
            continue
        if old in (".x", ".y") and code[m.end():m.end() + 1].isalnum():
            continue
        yield m.start(), old, new, f"{old.strip()} becomes {new.strip() or 'nothing'}"
    for m in NUMBER.finditer(code):
        new = other_number(m[0])
        if new and not code[:m.start()].rstrip().endswith("["):
            yield m.start(), m[0], new, f"{m[0]} becomes {new}"
    if STATEMENT.match(code.rstrip()) and line.count("(") == line.count(")"):
        start = len(line) - len(line.lstrip())
        yield start, line[start:], ";", "left out"


def sites(file, text):
    """Every change that the rules make in a file's text."""
    out, at, tolerance = [], 0, re.compile(r"kTight|kTolerance|kLength|kFlat|kMerge|tolerance|1e-?\d|static_cast")
    for number, line in enumerate(text.split("\n"), 1):
        for where, old, new, what in changes_of(line):
            if not tolerance.search(line):
                out.append(Mutation(f"{line.strip()}: {what} at {where}", file, old, new, at=at + where))
        at += len(line) + 1
    return out
