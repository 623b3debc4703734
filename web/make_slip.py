"""Puts the slip page together.

make_slip.py words OUT WORDS SLIP        the words that the page's program needs, as a C++ source
make_slip.py site OUT_DIR WASM           slip.html with its style within, slip.js, slip.wasm and slip_worker.js

The page's style stands in its head, so that it shows without waiting for another file; its policy names the style by its
hash. Program files are named with a hash of their content, so that a page never gets the program of another version.
"""

import base64
import hashlib
import pathlib
import re
import sys

HERE = pathlib.Path(__file__).resolve().parent
# Groups and codes of assets/words.txt that the page may have to say.
NEEDED = re.compile(r"measure\.|number-|reading-|ratio-|girth-for-weight|breast-not-over-back|drop-past-midline|likely-culprit"
                    r"|slip-|subject\.slip-|caution\.(fingers|vet)")


def words(out, table, own):
    lines = pathlib.Path(table).read_text(encoding="utf-8").splitlines()
    # The short names are the studio's.
    kept = [line for line in lines if NEEDED.match(line) and ".short = " not in line]
    kept += [line for line in pathlib.Path(own).read_text(encoding="utf-8").splitlines() if line and not line.startswith("#")]
    text = "\n".join(kept)
    assert ')words"' not in text
    pathlib.Path(out).write_text(
        '#include "web/slip_words.h"\n\nnamespace coatwright {\n\n'
        f'std::string_view slip_words_text() {{\n  return R"words({text}\n)words";\n}}\n\n}}  // namespace coatwright\n',
        encoding="utf-8")


def digest(data):
    return hashlib.sha256(data).hexdigest()[:12]


def site(out, wasm):
    out = pathlib.Path(out)
    style = (HERE / "slip.css").read_text(encoding="utf-8")
    script = (HERE / "slip.js").read_bytes()
    program = pathlib.Path(wasm).read_bytes()
    style_hash = "sha256-" + base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    page = (HERE / "slip.html").read_text(encoding="utf-8")
    for mark, text in {"@style-hash@": style_hash, "@style@": style, "@script@": digest(script), "@program@": digest(program)}.items():
        assert mark in page, mark
        page = page.replace(mark, text)
    worker = (HERE / "slip_worker.js").read_text(encoding="utf-8")
    files = ["slip.html", f"slip.js?{digest(script)}", f"slip.wasm?{digest(program)}"]
    worker = worker.replace("@version@", digest(page.encode() + worker.encode())).replace("@files@", "', '".join(files))
    out.mkdir(parents=True, exist_ok=True)
    (out / "slip.html").write_text(page, encoding="utf-8")
    (out / "slip.js").write_bytes(script)
    (out / "slip.wasm").write_bytes(program)
    (out / "slip_worker.js").write_text(worker, encoding="utf-8")


{"words": words, "site": site}[sys.argv[1]](*sys.argv[2:])
