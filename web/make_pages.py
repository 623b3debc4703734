"""Puts the pages together.

make_pages.py words OUT WORDS SLIP       the words that the slip's program needs, as a C++ source
make_pages.py slip SITE WASM             slip.html with its style within, slip.js, slip.wasm and slip_worker.js
make_pages.py cloth SITE WORDS PRESS     cloth.html with its style within, and cloth.js with its words before it
make_pages.py studio SITE IDB PRESS      index.html with its style within, page.js, the press and studio_worker.js, for the files that lie
                                         in the site already, cloth.html among them; IDB is idb.js, PRESS the press's program

A page's style stands in its head, so that it shows without waiting for another file; its policy names the style by its
hash. The studio's own scripts are joined in the page's order: each file more makes the first drawing later. Program files are named with a hash of their content, so that a page never gets the program of another version.
"""

import base64
import hashlib
import json
import pathlib
import re
import sys

HERE = pathlib.Path(__file__).resolve().parent
# Groups and codes of assets/words.txt that the page may have to say.
NEEDED = re.compile(r"measure\.|number[-.]|reading-|ratio-|breast-not-over-back|drop-past-midline|likely-culprit"
                    r"|readings-swapped|lengths-in-|slip-|subject\.slip-|caution\.(fingers|vet)")


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


def fill(page, parts):
    for mark, text in parts.items():
        assert mark in page, mark
        page = page.replace(mark, text)
    return page


def with_style(page, style):
    """The page with the style in its head, and the style's hash in its policy."""
    style_hash = "sha256-" + base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    return fill(page, {"@style-hash@": style_hash, "@style@": style})


def write_worker(site, name, page, files):
    """The service worker that keeps `files` of a page; its version changes with any of them."""
    worker = (HERE / "worker.js").read_text(encoding="utf-8")
    contents = b"".join((site / file.split("?")[0]).read_bytes() for file in files)
    version = digest(contents + worker.encode())
    worker = fill(worker, {"@name@": f"coatwright-{name}", "@version@": version, "@page@": page, "@files@": "', '".join(files)})
    (site / f"{name}_worker.js").write_text(worker, encoding="utf-8")


def slip(site, wasm):
    site = pathlib.Path(site)
    script = (HERE / "alone.js").read_bytes() + (HERE / "slip.js").read_bytes()
    program = pathlib.Path(wasm).read_bytes()
    page = with_style((HERE / "slip.html").read_text(encoding="utf-8"), (HERE / "slip.css").read_text(encoding="utf-8"))
    page = fill(page, {"@script@": digest(script), "@program@": digest(program)})
    site.mkdir(parents=True, exist_ok=True)
    (site / "slip.html").write_text(page, encoding="utf-8")
    (site / "slip.js").write_bytes(script)
    (site / "slip.wasm").write_bytes(program)
    write_worker(site, "slip", "slip.html", ["slip.html", f"slip.js?{digest(script)}", f"slip.wasm?{digest(program)}"])


def cloth(site, table, press):
    site = pathlib.Path(site)
    lines = pathlib.Path(table).read_text(encoding="utf-8").splitlines()
    pairs = dict(line.split(" = ", 1) for line in lines if line and not line.startswith("#"))
    words = f"const WORDS = {json.dumps(pairs, ensure_ascii=False)};\n".encode()
    own = [(HERE / name).read_bytes() for name in ("cloth_kept.js", "cloth_remote.js", "cloth.js")]
    script = (HERE / "alone.js").read_bytes() + words + b"".join(own)
    page = with_style((HERE / "cloth.html").read_text(encoding="utf-8"), (HERE / "cloth.css").read_text(encoding="utf-8"))
    page = fill(page, {"@script@": digest(script), "@press@": digest((HERE / "press.js").read_bytes()),
                       "@program@": digest(pathlib.Path(press).read_bytes())})
    site.mkdir(parents=True, exist_ok=True)
    (site / "cloth.html").write_text(page, encoding="utf-8")
    (site / "cloth.js").write_bytes(script)


SCRIPT = re.compile(r'<script src="(\w+\.js)"([^>]*)></script>\n')


def joined_scripts(page, site, idb):
    """The page with one script, page.js, in place of those that it names one after the other; app.js comes by itself."""
    own = [match for match in SCRIPT.finditer(page) if "async" not in match[2]]
    assert len(own) > 1 and all(one.end() == other.start() for one, other in zip(own, own[1:]))
    sources = [pathlib.Path(idb) if match[1] == "idb.js" else HERE / match[1] for match in own]
    (site / "page.js").write_text("\n".join(source.read_text(encoding="utf-8") for source in sources), encoding="utf-8")
    attributes = "".join(match[2] for match in own)
    return page[:own[0].start()] + f'<script src="page.js"{attributes}></script>\n' + page[own[-1].end():]


def studio(site, idb, press):
    site = pathlib.Path(site)
    (site / "press.wasm").write_bytes(pathlib.Path(press).read_bytes())
    (site / "press.js").write_bytes((HERE / "press.js").read_bytes())
    files = ["index.html", "notices.txt", "cloth.html", "cloth.js?" + digest((site / "cloth.js").read_bytes())]

    def named(match):
        attribute, name = match.groups()
        if name == "icon.svg":  # within the page: browsers ask for it again whenever the address changes
            icon = base64.b64encode((HERE / name).read_bytes()).decode()
            return f'{attribute}="data:image/svg+xml;base64,{icon}"'
        if name.endswith((".js", ".css", ".wasm")):
            name += "?" + digest((site / name).read_bytes())
        files.append(name)
        return f'{attribute}="{name}"'

    page = joined_scripts((HERE / "index.html").read_text(encoding="utf-8"), site, idb)
    page = with_style(page, (HERE / "studio.css").read_text(encoding="utf-8"))
    page = re.sub(r'\b(src|href|data-program|data-press|data-press-program)="([^":]+)"', named, page)
    assert all(any(name.startswith(f"{program}.wasm?") for name in files) for program in ("app", "press"))
    (site / "index.html").write_text(page, encoding="utf-8")
    write_worker(site, "studio", "index.html", files)


{"words": words, "slip": slip, "cloth": cloth, "studio": studio}[sys.argv[1]](*sys.argv[2:])
