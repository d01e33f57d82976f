"""Contrast computed from the painted page: text at least 4.5 to 1, lines and marks with a meaning at least 3.

Ratios and limits are WCAG 2.2's (1.4.3 and 1.4.11). A page is drawn twice by MuPDF, as it is and with its
text invisible; where the two differ is ink of glyphs. Each glyph's colour is compared with what lies round
its own ink. Of lines, points along them are looked up on the drawn page: what is beside the line there? A
line counts where it is seen at all; it must stand out from one of its two sides, as a thread does that
runs along the edge of a bead. Artifacts (rules, tints) are decoration and left out.
"""

import io
import math

import numpy
import pikepdf
import pymupdf

TEXT, MARK = 4.5, 3.0
SCALE = 3.0  # pixels a point: a letter of 4 pt is 8 pixels high
# Colours are rounded to 8 bits on the page: a ratio may come out this much lower.
SLACK = 0.02
# Share of a glyph's surroundings, and of a line's points, that must reach the limit: the rest is left to
# pixels that lie half on an edge.
ENOUGH = 0.8
LINE_ENOUGH = 0.7
# A stretch of fewer points than this (2.4 mm) is a stub between an arrow and a disc, not a line to follow.
SHORTEST = 10


def luminance(rgb):
    """Relative luminance of colours from 0 to 255 along the last axis."""
    v = numpy.asarray(rgb, dtype=float) / 255
    linear = numpy.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)
    return linear @ numpy.array([0.2126, 0.7152, 0.0722])


# What each level of 8 bits gives to the luminance, for red, green and blue.
SHARES = [luminance(numpy.outer(numpy.arange(256), channel)) for channel in numpy.eye(3)]


def luminances(picture):
    """Relative luminance of every pixel of a picture."""
    return sum(share[picture[..., channel]] for channel, share in enumerate(SHARES))


def ratio(a, b):
    return (numpy.maximum(a, b) + 0.05) / (numpy.minimum(a, b) + 0.05)


def drawn(page):
    pixels = page.get_pixmap(matrix=pymupdf.Matrix(SCALE, SCALE), alpha=False)
    return numpy.frombuffer(pixels.samples, dtype=numpy.uint8).reshape(pixels.height, pixels.width, 3)


def without_text(path):
    """The file with all its text invisible."""
    with pikepdf.open(path) as pdf:
        for page in pdf.pages:
            page.Contents.write(b"3 Tr\n" + page.Contents.read_bytes())
        out = io.BytesIO()
        pdf.save(out)
    return pymupdf.open(stream=out.getvalue(), filetype="pdf")


def grown(mask):
    """A mask with its neighbouring pixels."""
    wide = mask.copy()
    wide[1:] |= mask[:-1]
    wide[:-1] |= mask[1:]
    tall = wide.copy()
    tall[:, 1:] |= wide[:, :-1]
    tall[:, :-1] |= wide[:, 1:]
    return tall


def text_problems(page, whole, bare, number):
    """Glyphs that do not stand out from what is round them, are covered or run off the page."""
    inked = numpy.logical_or.reduce([whole[..., c] != bare[..., c] for c in range(3)])
    found = {}
    flags = pymupdf.TEXT_PRESERVE_WHITESPACE
    for block in page.get_text("rawdict", flags=flags)["blocks"]:
        for line in block.get("lines", []):
            for span in line["spans"]:
                ink = luminance([span["color"] >> 16, span["color"] >> 8 & 255, span["color"] & 255])
                words = "".join(char["c"] for char in span["chars"])
                # Most text stands on white: where all of the ground is good, so is that of each glyph.
                ground = luminances(bare[area_of(span["bbox"], 2)])
                good_ground = ground.size and (ratio(ink, ground) >= TEXT - SLACK).all()
                for char in span["chars"]:
                    if not char["c"].strip() or char["c"] == "\u2060":
                        continue
                    left, top, right, bottom = (v * SCALE for v in char["bbox"])
                    if right - left < 0.5:  # the rest of a ligature, whose first letter has all of its ink
                        continue
                    area = area_of(char["bbox"], 0)
                    if left < 0 or top < 0 or right > whole.shape[1] or bottom > whole.shape[0]:
                        found[words] = f"contrast: page {number}: “{char['c']}” in “{words}” runs off the page"
                        continue
                    glyph = inked[area]
                    if not glyph.any():
                        found[words] = f"contrast: page {number}: “{char['c']}” in “{words}” cannot be seen"
                        continue
                    if good_ground:
                        continue
                    near = grown(grown(glyph))
                    ratios = ratio(ink, luminances(bare[area])[near])
                    share = (ratios >= TEXT - SLACK).mean()
                    if share < ENOUGH:
                        found[words] = (
                            f"contrast: page {number}: “{char['c']}” in “{words[:30]}” at "
                            f"{char['bbox'][0]:.0f}, {char['bbox'][1]:.0f}: {share:.0%} of its surroundings reach "
                            f"{TEXT}, the middle one is {numpy.median(ratios):.2f}"
                        )
    return list(found.values())


def area_of(box, wider):
    """The pixels of a box in points, and some round them."""
    left, top, right, bottom = (v * SCALE for v in box)
    return (
        slice(max(0, math.floor(top) - wider), math.ceil(bottom) + 1 + wider),
        slice(max(0, math.floor(left) - wider), math.ceil(right) + 1 + wider),
    )


class Painted:
    """A path as it was painted: lines of points in pixels from the top left, and its pens."""

    def __init__(self, lines, fill, stroke, width, where):
        self.lines, self.fill, self.stroke, self.width, self.where = lines, fill, stroke, width, where


def painted_paths(page):
    """Paths of a page that are part of its content or marks, in order of painting."""
    height = float(page.MediaBox[3])
    shift, saved = (0.0, 0.0), []
    fill = stroke = (0, 0, 0)
    width, tags, points, found, lifelike = 1.0, [], [], [], set()

    def pixel(x, y):
        return (float(x) + shift[0]) * SCALE, (height - float(y) - shift[1]) * SCALE

    for operands, operator in pikepdf.parse_content_stream(page):
        op = str(operator)
        if op in ("BDC", "BMC"):
            properties = operands[-1] if isinstance(operands[-1], pikepdf.Dictionary) else {}
            tags.append((str(operands[0])[1:], int(properties.get("/MCID", -1))))
        elif op == "EMC":
            tags.pop()
        elif op == "q":
            saved.append((shift, fill, stroke, width))
        elif op == "Q":
            shift, fill, stroke, width = saved.pop()
        elif op == "cm":
            shift = (shift[0] + float(operands[4]), shift[1] + float(operands[5]))
        elif op == "rg":
            fill = tuple(float(v) * 255 for v in operands)
        elif op == "RG":
            stroke = tuple(float(v) * 255 for v in operands)
        elif op == "w":
            width = float(operands[0]) * SCALE
        elif op == "m":
            points.append([pixel(*operands)])
        elif op == "l":
            points[-1].append(pixel(*operands))
        elif op == "c":
            a, (b, c, d) = points[-1][-1], (pixel(*operands[i : i + 2]) for i in (0, 2, 4))
            for step in range(1, 9):
                t = step / 8
                weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
                points[-1].append(tuple(sum(w * p[i] for w, p in zip(weights, (a, b, c, d))) for i in (0, 1)))
        elif op == "h":
            points[-1].append(points[-1][0])
        elif op in ("S", "f", "B", "n"):
            if op != "n" and not any(kind == "Artifact" for kind, _ in tags):
                pens = fill if op in "fB" else None, stroke if op in "SB" else None
                found.append(Painted(points, *pens, width, tags[-1]))
            points = []
        elif op == "Do" and "/Shading" in page.Resources.XObject[str(operands[0])].get("/Resources", {}):
            lifelike.add(tags[-1])
    # A lifelike picture shows what metal and glass look like; its highlights are no marks.
    return [path for path in found if path.where not in lifelike]


def along(lines, every):
    """Points along lines of points, as columns: x, y, and the direction there."""
    pieces = [numpy.empty((0, 4))]
    for line in lines:
        points = numpy.array(line, dtype=float)
        steps = numpy.diff(points, axis=0)
        lengths = numpy.hypot(steps[:, 0], steps[:, 1])
        counts = (lengths / every).astype(int)
        of = numpy.repeat(numpy.arange(len(counts)), counts)
        within = numpy.arange(len(of)) - numpy.repeat(numpy.cumsum(counts) - counts, counts)
        share = ((within + 0.5) / counts[of])[:, None]
        pieces.append(numpy.hstack([points[of] + share * steps[of], steps[of] / lengths[of][:, None]]))
    return numpy.concatenate(pieces).T


def mark_problems(page, whole, number):
    paths = painted_paths(page)
    for index, path in enumerate(paths):
        # Casings are no marks: lines of paper white, and wider lines under others of the same course.
        if path.fill is None and min(path.stroke) > 250:
            continue
        if any(later.lines == path.lines for later in paths[index + 1 : index + 40]):
            continue
        colour = path.fill if path.fill is not None else path.stroke
        own = luminance(colour)
        edge = luminance(path.stroke) if path.fill is not None and path.stroke is not None else own
        inside = 0.0 if path.fill is None else 1.0
        beside = (path.width / 2 if path.stroke else 0.0) + 1.5
        x, y, dx, dy = along(path.lines, 2.0)
        here = close(whole, x, y, colour) if path.fill is None else numpy.zeros(len(x), dtype=bool)
        best = numpy.full(len(x), ratio(own, edge))
        sided = numpy.zeros(len(x), dtype=bool)
        for way in (1, -1):
            if path.fill is not None:
                off = inside + 0.5 if path.stroke is None else beside
                here |= close(whole, x - way * dy * off, y + way * dx * off, colour)
            # Where lines of one colour meet there is nothing to tell apart, nor at the smoothed edge between them.
            place = x - way * dy * beside, y + way * dx * beside
            side, there = lookup(whole, *place)
            further = x - way * dy * (beside + 3), y + way * dx * (beside + 3)
            counts = there & ~close(whole, *place, colour) & ~close(whole, *further, colour)
            sided |= counts
            best = numpy.where(counts, numpy.maximum(best, ratio(own, luminances(side))), best)
        best = best[here & sided]
        good = int((best >= MARK - SLACK).sum())
        if len(best) >= SHORTEST and good < LINE_ENOUGH * len(best):
            x, y = path.lines[0][0]
            yield (
                f"contrast: page {number}: a {'shape' if path.fill is not None else 'line'} at {x / SCALE:.0f}, "
                f"{y / SCALE:.0f} in {path.where[0]} of colour {tuple(round(c) for c in colour)}: {good} of {len(best)} "
                f"points reach {MARK}, the least is {best.min():.2f}"
            )


def close(picture, x, y, colour):
    """Where the pixels at some points have a colour, or nearly."""
    seen, there = lookup(picture, x, y)
    return there & (numpy.abs(seen - numpy.array(colour, dtype=float)).max(axis=-1) < 12)


def lookup(picture, x, y):
    """The pixels at some points, and which of the points lie in the picture."""
    row, column = y.astype(int), x.astype(int)
    there = (row >= 0) & (row < picture.shape[0]) & (column >= 0) & (column < picture.shape[1])
    return picture[numpy.where(there, row, 0), numpy.where(there, column, 0)], there


def box_problems(pdf):
    """Boxes to tick: their edges and ticks, on white."""
    colours = set()
    for page in pdf.pages:
        for annotation in page.get("/Annots", []):
            if annotation.Subtype == "/Widget":
                for look in annotation.AP.N.values():
                    for operands, operator in pikepdf.parse_content_stream(look):
                        if str(operator) == "RG":
                            colours.add(tuple(float(v) * 255 for v in operands))
    for colour in sorted(colours):
        if ratio(luminance(colour), 1.0) < MARK:
            yield f"contrast: boxes to tick are drawn in {colour}"


def check(path, _scratch):
    whole, bare = pymupdf.open(path), without_text(path)
    with pikepdf.open(path) as pdf:
        yield from box_problems(pdf)
        for index, page in enumerate(pdf.pages):
            picture = drawn(whole[index])
            yield from text_problems(whole[index], picture, drawn(bare[index]), index + 1)
            yield from mark_problems(page, picture, index + 1)


if __name__ == "__main__":
    import sys

    for file in sys.argv[1:]:
        print(file)
        for problem in check(file, None):
            print("  ", problem)
