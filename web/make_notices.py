"""make_notices.py OUT: writes the notices of every part that ships, from the parts' own files.

Which parts those are, and where in its source each one's notice stands, web/sources.txt says; their titles are the list
that the studio shows (assets/studio.txt, ui.part.NAME). What comes with the compiler is Debian's package of it.
"""

import pathlib
import re
import subprocess
import sys

HERE = pathlib.Path(__file__).resolve().parent
COMPILER = pathlib.Path("/usr/share/doc/emscripten/copyright")
MUSL = pathlib.Path("/usr/share/emscripten/system/lib/libc/musl/COPYRIGHT")
TITLE = "ui.part."


def shipped(table):
    """Name to the file of its notice, of every source that is not for tests alone."""
    rows = [line.split() for line in table.splitlines() if line and not line.startswith("#")]
    return {row[0]: row[5] for row in rows if row[5] != "tests"}


def titles(table):
    rows = [line.split(" = ", 1) for line in table.splitlines() if line.startswith(TITLE)]
    return {key.removeprefix(TITLE): title for key, title in rows}


def text_of(path):
    """A notice's text: the whole file, or the first comment of a source."""
    text = path.read_text(encoding="utf-8")
    if path.suffix in (".c", ".h"):
        comment = re.search(r"/\*(.*?)\*/", text, re.DOTALL)[1]
        text = "\n".join(re.sub(r"^\s*\* ?", "", line) for line in comment.splitlines())
    return "\n".join(line.rstrip() for line in text.strip().splitlines())


def paragraphs(copyright_file):
    """The paragraphs of a copyright file in Debian's format, as (files, licence, text)."""
    found = []
    for text in re.split(r"\n{2,}", copyright_file):
        files = re.search(r"^Files:((?:.*\n(?: .*\n)*))", text + "\n", re.MULTILINE)
        licence = re.search(r"^License: *(.+)$", text, re.MULTILINE)
        found.append((files[1].split() if files else [], licence[1].strip() if licence else "", text))
    return found


def compiler_notices(copyright_file):
    """What the compiler puts into our programs: its own glue, and the libraries of LLVM."""
    parts = paragraphs(copyright_file)
    of_files = lambda folder: "\n\n".join(text for files, _, text in parts if folder in files)
    of_licence = lambda name: "\n\n".join(text for files, licence, text in parts if not files and licence == name)
    return {
        "emscripten": "\n\n".join([of_files("*"), of_licence("Expat"), of_licence("NCSA~Mozilla")]),
        "libcxx": "\n\n".join(of_files(f"system/lib/{library}/*") for library in ("libcxx", "libcxxabi", "compiler-rt")),
    }


def notices():
    files = shipped((HERE / "sources.txt").read_text(encoding="utf-8"))
    folders = subprocess.run(["sh", HERE / "fetch.sh", *files], check=True, capture_output=True, text=True).stdout.splitlines()
    texts = {name: text_of(pathlib.Path(folder) / file) for (name, file), folder in zip(files.items(), folders, strict=True)}
    texts |= compiler_notices(COMPILER.read_text(encoding="utf-8"))
    texts["musl"] = text_of(MUSL)
    return texts


def main(out):
    named = titles((HERE.parent / "assets/studio.txt").read_text(encoding="utf-8"))
    texts = notices()
    assert set(named) == set(texts), set(named) ^ set(texts)
    rule = "=" * 100
    parts = ["Coatwright is made with the work of others. These are their notices, each as its authors wrote it.",
             *(f"{rule}\n{named[name]}\n{rule}\n\n{texts[name]}" for name in named)]
    pathlib.Path(out).write_text("\n\n".join(parts) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1])
