"""Codes for cameras: an independent reader finds each on its page, printed in colour and by an office printer in grey.

Each leads where the link beside it leads, and has the white round it that ISO/IEC 18004 asks for (4 modules).
"""

import numpy
import pymupdf
import zxingcpp
from PIL import Image, ImageFilter

DPI = 300
# Sides of the modules, and how many of them must be white round a code.
MODULE = 0.5 / 25.4 * DPI
QUIET = 4
# Only the film of a demo design stands under this address.
FILMS = "https://example.org/films/"


def printed_grey(page, seed):
    """A page as a worn office printer prints it and a phone sees it: ink spreads, black is dark grey, paper is not white,
    and there is noise."""
    ink = page.convert("L").filter(ImageFilter.MinFilter(3)).filter(ImageFilter.GaussianBlur(1.2))
    noise = numpy.random.default_rng(seed).normal(0, 8, (ink.height, ink.width))
    seen = 60 + numpy.asarray(ink, float) * (225 - 60) / 255 + noise
    return Image.fromarray(seen.clip(0, 255).astype(numpy.uint8))


def read(image):
    return zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)


def stained(page, code):
    """Whether anything stands in the white round a code."""
    corners = code.position
    xs = [corner.x for corner in (corners.top_left, corners.top_right, corners.bottom_left, corners.bottom_right)]
    ys = [corner.y for corner in (corners.top_left, corners.top_right, corners.bottom_left, corners.bottom_right)]
    grey = numpy.asarray(page.convert("L"))
    # Corners are found to a pixel or two.
    near, far = 2, int(QUIET * MODULE) - 1
    left, right, top, bottom = min(xs) - far, max(xs) + far, min(ys) - far, max(ys) + far
    if left < 0 or top < 0 or right >= grey.shape[1] or bottom >= grey.shape[0]:
        return True
    around = grey[top : bottom + 1, left : right + 1].copy()
    around[far - near : -(far - near), far - near : -(far - near)] = 255
    return bool((around < 250).any())


def clock(second):
    """A time as players show it."""
    if second >= 3600:
        return f"{second // 3600}:{second // 60 % 60:02}:{second % 60:02}"
    return f"{second // 60}:{second % 60:02}"


def second_of(uri):
    """The second of the film that an address leads to."""
    return int(uri.rpartition("=")[2])


def check(path, _scratch):
    found_any = False
    for number, page in enumerate(pymupdf.open(path), 1):
        linked = {link["uri"] for link in page.get_links() if link.get("uri", "").startswith(FILMS)}
        if not linked:
            continue
        found_any = True
        pixels = page.get_pixmap(dpi=DPI)
        image = Image.frombytes("RGB", (pixels.width, pixels.height), pixels.samples)
        for name, seen in (("in colour", image), ("in grey", printed_grey(image, number))):
            codes = read(seen)
            told = sorted(code.text for code in codes)
            if told != sorted(linked):
                yield f"codes: page {number}, {name}: {told} for {sorted(linked)}"
        for code in read(image):
            if stained(image, code):
                yield f"codes: page {number}: something stands in the white round {code.text}"
            words = [word[4] for word in page.get_text("words")]
            second = second_of(code.text)
            if second and clock(second) not in words:
                yield f"codes: page {number}: {clock(second)} does not stand beside {code.text}"
    if "reed-bed" in path and "bench" not in path and not found_any:
        yield "codes: the film of this design stands on no page"
    if "bench" in path and found_any:
        yield "codes: a bench copy shows a film"
