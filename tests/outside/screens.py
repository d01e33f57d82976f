"""Every page as it prints and as it is shown on a screen: one display list, three painters.

A page's PDF is drawn by poppler; the same page comes from the program as PNG and as SVG, and the SVG is drawn
by cairo (CairoSVG). Two pictures are alike when their mean difference over all samples is under 2 %, and that of
no square of a centimetre to the side is far above it: edges are smoothed in different ways, but a
drawing, a word or a cluster of beads that is missing, misplaced or of another colour shows.
"""

import io
import subprocess

import cairosvg
import numpy
from PIL import Image

ACROSS = 800
# Of all samples, as a share of white: the limit that the project has set itself.
MOST = 0.02
# Of any square of the page, a centimetre to the side: what only one of two shows.
SQUARE = 40
MOST_OF_A_SQUARE = 0.12


def samples(picture):
    return numpy.asarray(picture.convert("RGB"), dtype=float) / 255


def printed(pdf, number, size, scratch):
    """A page of a PDF, drawn twice as large and made smaller, so that edges are smooth."""
    out = scratch / "printed"
    across, down = 2 * size[0], 2 * size[1]
    asked = ["-f", str(number), "-l", str(number), "-scale-to-x", str(across), "-scale-to-y", str(down)]
    subprocess.run(["pdftoppm", *asked, "-png", "-singlefile", pdf, str(out)], check=True)
    return Image.open(f"{out}.png").resize(size, Image.BOX)


def drawn(svg, size):
    """An SVG, drawn by cairo in the same way."""
    png = cairosvg.svg2png(url=str(svg), output_width=2 * size[0], output_height=2 * size[1])
    return Image.open(io.BytesIO(png)).convert("RGB").resize(size, Image.BOX)


def unlike(one, other):
    """The mean difference of two pictures, and that of the square in which they differ most."""
    apart = numpy.abs(samples(one) - samples(other)).mean(axis=2)
    down, across = (side // SQUARE * SQUARE for side in apart.shape)
    squares = apart[:down, :across].reshape(down // SQUARE, SQUARE, across // SQUARE, SQUARE).mean(axis=(1, 3))
    return apart.mean(), squares.max()


def check(pages, scratch):
    """`pages` is a folder with a PDF and the pictures of its pages, `…-page-3-800-pixels.png` and `….svg`."""
    from pathlib import Path

    (pdf,) = Path(pages).glob("*.pdf")
    pictures = sorted(Path(pages).glob("*.png"))
    if not pictures:
        yield f"no pictures of pages in {pages}"
    for png in pictures:
        number = int(png.stem.split("-page-")[1].split("-")[0])
        shown = Image.open(png).convert("RGB")
        if shown.width != ACROSS:
            yield f"{png.name}: {shown.width} pixels across"
        on_paper = printed(str(pdf), number, shown.size, scratch)
        (svg,) = Path(pages).glob(f"*-page-{number}.svg")
        for what, one, other in [
            ("PDF and PNG", on_paper, shown),
            ("SVG by cairo and PNG", drawn(svg, shown.size), shown),
        ]:
            mean, worst = unlike(one, other)
            if mean > MOST or worst > MOST_OF_A_SQUARE:
                yield f"page {number}: {what} differ by {mean:.2%}, in one square by {worst:.2%}"
