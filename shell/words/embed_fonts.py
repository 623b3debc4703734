"""embed_fonts.py OUT.cpp REGULAR SEMIBOLD SYMBOLS: cuts the faces down and writes them as C++ arrays (shell/words/fonts.h)."""

import io
import sys

from fontTools import subset
from fontTools.ttLib import TTFont

# Letters: ASCII, Latin-1 and the typographic marks that sentences need.
LETTERS = [*range(0x20, 0x7F), *range(0xA0, 0x180), *map(ord, "–—‘’‚“”„•…‹›€")]
# What the two faces share in fractions, arithmetic, arrows and signs; the symbol face fills in what the text faces lack.
SYMBOLS = [*map(ord, "⅛⅜⅝⅞⅓⅔⁄⁰⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉′″−×÷≈≤≥±∅⌀←→↑↓↔↕↺↻↶↷⌫⏎✓✔✗✕✂☰⋮⋯▲▶▼◀△▷▽◁●○■□◆◇★☆⚠☞")]


def cut_down(path, characters):
    font = TTFont(path)
    present = set(font.getBestCmap())
    wanted = [c for c in characters if c in present]
    options = subset.Options(layout_features=[], drop_tables=['FFTM', 'GPOS', 'GSUB', 'GDEF', 'kern'], hinting=False, name_IDs=[0, 1, 2, 6, 13, 14], notdef_outline=True)
    subsetter = subset.Subsetter(options)
    subsetter.populate(unicodes=wanted)
    subsetter.subset(font)
    out = io.BytesIO()
    font.save(out)
    return out.getvalue(), wanted


def array(name, data):
    rows = (", ".join(map(str, data[i : i + 32])) for i in range(0, len(data), 32))
    body = ",\n".join(rows)
    return f"constexpr unsigned char k{name}[] = {{\n{body}}};\n"


def ranges(characters):
    pairs = []
    for c in sorted(characters):
        if pairs and pairs[-1][1] == c - 1:
            pairs[-1][1] = c
        else:
            pairs.append([c, c])
    return ", ".join(f"{a}, {b}" for a, b in pairs)


def main():
    out, regular, semibold, symbols = sys.argv[1:]
    regular_data, covered = cut_down(regular, LETTERS + SYMBOLS)
    semibold_data, covered_too = cut_down(semibold, LETTERS + SYMBOLS)
    if covered != covered_too:
        sys.exit("embed_fonts.py: the two text faces have different characters")
    wanted = [c for c in LETTERS + SYMBOLS if c not in covered]
    symbol_data, found = cut_down(symbols, wanted)
    missing = [chr(c) for c in SYMBOLS if c in wanted and c not in found]
    if missing:
        sys.exit(f"embed_fonts.py: no face has {' '.join(missing)}")
    with open(out, "w", encoding="ascii") as file:
        file.write('#include "shell/words/fonts.h"\n\nnamespace coatwright {\nnamespace {\n\n')
        for name, data in ("Regular", regular_data), ("Semibold", semibold_data), ("Symbols", symbol_data):
            file.write(array(name, data) + "\n")
        file.write(f"constexpr unsigned short kLetterRanges[] = {{{ranges(covered)}, 0}};\n")
        file.write(f"constexpr unsigned short kSymbolRanges[] = {{{ranges(found)}, 0}};\n\n}}  // namespace\n\n")
        for name in "Regular", "Semibold", "Symbols":
            file.write(f"std::span<const unsigned char> font_{name.lower()}() {{ return k{name}; }}\n")
        file.write("const unsigned short* font_letter_ranges() { return kLetterRanges; }\n")
        file.write("const unsigned short* font_symbol_ranges() { return kSymbolRanges; }\n\n}  // namespace coatwright\n")


main()
