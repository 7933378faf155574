#!/usr/bin/env python3
"""Make the font files of this folder from their published packages.

Needs fontTools with brotli, and three npm packages unpacked beneath one
node_modules folder, which is the only argument:

    npm install @vexflow-fonts/bravura@1.0.2 \
        @fontsource/source-serif-4@5.3.1 @fontsource/source-sans-3@5.3.0
    python3 build.py node_modules

The music font is kept as published; its metadata is cut down to the glyphs
that the score draws. The text fonts are cut down to the Latin letters, lose
kerning (so that a browser sets them as wide as the score measured them), gain
the music signs of the music font, and are renamed, as their licences ask of a
modified version.
"""
import json
import pathlib
import shutil
import sys

from fontTools import subset
from fontTools.merge import Merger
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

HERE = pathlib.Path(__file__).parent
LATIN = [*range(0x20, 0x7F), *range(0xA0, 0x180), *range(0x218, 0x21C),
         0x2010, 0x2011, 0x2012, 0x2013, 0x2014, 0x2018, 0x2019, 0x201C, 0x201D,
         0x2022, 0x2026, 0x2032, 0x2033, 0x2190, 0x2191, 0x2192, 0x2193, 0x2212]
# Text sign: the SMuFL chord-symbol glyph that stands on the baseline.
SIGNS = {0x266D: 0xED60, 0x266E: 0xED61, 0x266F: 0xED62, 0x1D12A: 0xED63,
         0x1D12B: 0xED64, 0x394: 0xE873}
SIGN_SCALE = 0.9     # brings the signs, 0.75 em high, to the letters' cap height
SIDE = 24            # side bearing of a sign, in 1/1000 em
MUSIC = "@vexflow-fonts/bravura"
FACES = [
    ("source-serif-4", "Heddle Serif", "Regular", 400),
    ("source-serif-4", "Heddle Serif", "SemiBold", 600),
    ("source-sans-3", "Heddle Sans", "Regular", 400),
    ("source-sans-3", "Heddle Sans", "SemiBold", 600),
]


def cut(path, wanted):
    """Cut a published file down to the wanted characters, without layout tables."""
    options = subset.Options(layout_features=[], hinting=False, notdef_outline=True,
                             glyph_names=False, drop_tables=["+GPOS", "GSUB", "GDEF", "DSIG", "STAT", "BASE"])
    font = TTFont(path)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=wanted)
    cutter.subset(font)
    return font


def add_signs(font, music):
    """Draw the music font's signs into a text font."""
    glyphs, cmap = music.getGlyphSet(), music.getBestCmap()
    order = font.getGlyphOrder()
    for sign, source in SIGNS.items():
        name = f"u{sign:04X}"
        pen = TTGlyphPen(None)
        quadratic = Cu2QuPen(pen, max_err=1, reverse_direction=True)
        glyph = glyphs[cmap[source]]
        glyph.draw(TransformPen(quadratic, (SIGN_SCALE, 0, 0, SIGN_SCALE, SIDE, 0)))
        order = [*order, name]
        font.setGlyphOrder(order)
        font["glyf"][name] = pen.glyph()
        font["hmtx"][name] = (round(glyph.width * SIGN_SCALE) + 2 * SIDE, SIDE)
        for table in font["cmap"].tables:
            if table.isUnicode() and (sign < 0x10000 or table.format == 12):
                table.cmap[sign] = name


def wide_cmap(font):
    """Give the font a format 12 character map, for signs above U+FFFF."""
    from fontTools.ttLib.tables._c_m_a_p import cmap_format_12
    old = font["cmap"].getBestCmap()
    wide = cmap_format_12(12)
    wide.platformID, wide.platEncID, wide.language, wide.cmap = 3, 10, 0, dict(old)
    font["cmap"].tables = [t for t in font["cmap"].tables if t.isUnicode() and t.format == 4][:1] + [wide]


def rename(font, family, style):
    names = font["name"]
    copyright_line = names.getDebugName(0)
    names.names = []
    full = f"{family} {style}"
    for key, text in {0: f"{copyright_line}; music signs (c) 2019 Steinberg Media Technologies GmbH",
                      1: full if style == "SemiBold" else family, 2: "Regular",
                      3: full.replace(" ", "-"), 4: full, 5: "Version 1.000",
                      6: f"{family.replace(' ', '')}-{style}",
                      13: "This Font Software is licensed under the SIL Open Font License, Version 1.1.",
                      14: "https://openfontlicense.org", 16: family, 17: style}.items():
        names.setName(text, key, 3, 1, 0x409)


def text_face(modules, package, family, style, weight, music):
    files = modules / "@fontsource" / package / "files"
    parts = []
    for script in ("latin", "latin-ext"):
        font = cut(files / f"{package}-{script}-{weight}-normal.woff2", LATIN)
        font.flavor = None
        part = HERE / f"part-{script}.ttf"
        font.save(part)
        parts.append(part)
    font = Merger().merge([str(p) for p in parts])
    for part in parts:
        part.unlink()
    wide_cmap(font)
    add_signs(font, music)
    rename(font, family, style)
    font["head"].created = font["head"].modified = 0
    font.recalcTimestamp = False
    target = HERE / f"{family.replace(' ', '')}-{style}"
    font.save(target.with_suffix(".ttf"))
    font.flavor = "woff2"
    font.save(target.with_suffix(".woff2"))


def music_metadata(modules, names):
    full = json.loads((modules / MUSIC / "metadata.json").read_text())
    pick = lambda table: {n: full[table][n] for n in names if n in full[table]}
    part = {k: full[k] for k in ("fontName", "fontVersion", "engravingDefaults")}
    for table in ("glyphAdvanceWidths", "glyphBBoxes", "glyphsWithAnchors"):
        part[table] = pick(table)
    missing = [n for n in names if n not in part["glyphBBoxes"]]
    if missing:
        sys.exit(f"not in the music font: {missing}")
    (HERE / "bravura_metadata.json").write_text(json.dumps(part, indent=1, sort_keys=True) + "\n")


def main():
    modules = pathlib.Path(sys.argv[1])
    shutil.copy(modules / MUSIC / "bravura.otf", HERE / "bravura.otf")
    shutil.copy(modules / MUSIC / "LICENSE.txt", HERE / "bravura-OFL.txt")
    names = [line.split()[0] for line in (HERE / "glyphs.txt").read_text().splitlines()
             if line and not line.startswith("#")]
    music_metadata(modules, names)
    music = TTFont(HERE / "bravura.otf")
    for package, family, style, weight in FACES:
        text_face(modules, package, family, style, weight, music)


if __name__ == "__main__":
    main()
