"""Makes the fonts of this folder from built-in ones: cut down, with cubic outlines for the .otf, and under a name of
their own, as the SIL Open Font Licence 1.1 asks of changed fonts whose names are reserved. Needs fonttools 4.

`marsh-plain` has no arrows and no `×`, so that built-in faces must stand in for them.
"""

from pathlib import Path

from fontTools import subset
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.qu2cuPen import Qu2CuPen
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.ttLib import TTFont

HERE = Path(__file__).parent
BUILT_IN = HERE.parents[1] / "fonts"
TEXT = "".join(map(chr, range(0x20, 0x7F))) + "äöüßÄÖÜéèêàçñóíáúÉ’‘“”–—…•·©½¼¾\u00a0"


def cut(source, text):
    font = TTFont(BUILT_IN / source)
    options = subset.Options()
    options.layout_features = ["kern", "liga", "mark", "ccmp"]
    options.name_IDs = [1, 2, 6]
    options.hinting = False
    subsetter = subset.Subsetter(options)
    subsetter.populate(text=text)
    subsetter.subset(font)
    return font


def named(font, name):
    for record in list(font["name"].names):
        font["name"].removeNames(nameID=record.nameID)
    for number, said in [(1, name), (2, "Regular"), (4, name), (6, name.replace(" ", ""))]:
        font["name"].setName(said, number, 3, 1, 0x409)
    font["OS/2"].fsType = 0
    return font


def with_cubics(font):
    glyphs = font.getGlyphSet()
    strings = {}
    for name in font.getGlyphOrder():
        pen = T2CharStringPen(glyphs[name].width, glyphs)
        glyphs[name].draw(Qu2CuPen(pen, max_err=0.5, all_cubic=True))
        strings[name] = pen.getCharString()
    builder = FontBuilder(font=font)
    for table in ("glyf", "loca"):
        del font[table]
    font["maxp"].tableVersion = 0x00005000
    builder.isTTF = False
    builder.setupCFF("MarshTitle", {"FullName": "Marsh Title"}, strings, {})
    font.sfntVersion = "OTTO"
    font["post"].formatType = 3.0
    return font


named(cut("SourceSans3_400Regular.ttf", TEXT), "Marsh Plain").save(HERE / "marsh-plain.ttf")
named(with_cubics(cut("SourceSerif4_600SemiBold.ttf", TEXT)), "Marsh Title").save(HERE / "marsh-title.otf")
