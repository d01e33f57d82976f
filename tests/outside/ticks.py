"""Boxes to tick: filled by three independent programs, saved, read back, and seen ticked by three renderers."""

import json
import shutil
import subprocess
from pathlib import Path

import pikepdf
import pypdf
import pypdfium2
from PIL import Image


# Pixels for one point.
SCALE = 2
# Shares of dark pixels in a box: a tick is darker than the one, an empty box lighter than the other.
TICKED, EMPTY = 0.08, 0.01


def poppler(path, page, scratch):
    """A page as poppler draws it."""
    out = scratch / "page"
    number = str(page + 1)
    subprocess.run(["pdftoppm", "-r", str(72 * SCALE), "-gray", "-png", "-singlefile", "-f", number, "-l", number, path, str(out)], check=True)
    return Image.open(f"{out}.png").convert("L")


def pdfium(path, page, _):
    document = pypdfium2.PdfDocument(path)
    document.init_forms()
    picture = document[page].render(scale=SCALE, may_draw_forms=True).to_pil().convert("L")
    document.close()
    return picture


def mupdf(path, page, _):
    import pymupdf

    document = pymupdf.open(path)
    pixels = document[page].get_pixmap(matrix=pymupdf.Matrix(SCALE, SCALE), colorspace="gray")
    picture = Image.frombytes("L", (pixels.width, pixels.height), pixels.samples)
    document.close()
    return picture


RENDERERS = (poppler, pdfium, mupdf)


def ink(picture, box):
    """Share of dark pixels inside a box of a drawn page."""
    left, bottom, right, top = box
    inset = 0.18 * (right - left)
    height = picture.height / SCALE
    area = (left + inset, height - top + inset, right - inset, height - bottom - inset)
    pixels = picture.crop(tuple(int(v * SCALE) for v in area)).tobytes()
    return sum(1 for p in pixels if p < 128) / max(1, len(pixels))


PDFJS = Path(__file__).parents[2] / "target/outside-node/node_modules/pdfjs-dist"


def has_pdfjs():
    return shutil.which("node") is not None and PDFJS.is_dir()


def in_pdfjs(path, saved, names=()):
    """Has pdf.js tick the boxes of these names, or the middle one, and save; what it says of the file."""
    script = str(Path(__file__).with_name("ticks_viewer.mjs"))
    done = subprocess.run(["node", script, str(PDFJS), path, saved, *names], capture_output=True, text=True)
    if done.returncode:
        raise RuntimeError(f"pdf.js: {done.stderr}")
    return json.loads(done.stdout.splitlines()[-1])


def on_in_pypdf(path):
    """Names of the boxes that are ticked, as pypdf reads them."""
    return sorted(n for n, f in pypdf.PdfReader(path).get_fields().items() if f.get("/V") == "/Yes")


def ticked_by_pdfjs(path, scratch, fields):
    """Has pdf.js tick a box, save and read back; pypdf reads it too. A message when they do not agree."""
    saved = str(scratch / "ticked-pdfjs.pdf")
    said = in_pdfjs(path, saved)
    if said["boxes"] != fields or said["on"] != said["ticked"] or said["silent"]:
        return f"ticks: pdf.js: {said}, and there are {fields} fields"
    on = on_in_pypdf(saved)
    return None if on == said["ticked"] else f"ticks: pdf.js ticked {said['ticked']}, pypdf reads {on}"


def check(path, scratch):
    with pikepdf.open(path) as pdf:
        if "/AcroForm" not in pdf.Root:
            return
        fields = list(pdf.Root.AcroForm.Fields)
        widgets = [(i, a) for i, p in enumerate(pdf.pages) for a in p.get("/Annots", []) if a.Subtype == "/Widget"]
        if len(fields) != len(widgets):
            yield "ticks: fields and boxes on pages differ in number"
        if len({str(f.T) for f in fields}) != len(fields):
            yield "ticks: two boxes share a name"
        if any(not str(f.get("/TU", "")) for f in fields):
            yield "ticks: a box that says nothing"
        page, first = widgets[0]
        name, box = str(first.T), [float(v) for v in first.Rect]
        if ink(poppler(path, page, scratch), box) > EMPTY:
            yield "ticks: an unticked box is not empty"
        first.V = first.AS = pikepdf.Name.Yes
        ticked = str(scratch / "ticked-pikepdf.pdf")
        pdf.save(ticked)
    reader = pypdf.PdfReader(path)
    writer = pypdf.PdfWriter(clone_from=reader)
    writer.update_page_form_field_values(writer.pages[page], {name: "/Yes"}, auto_regenerate=False)
    other = str(scratch / "ticked-pypdf.pdf")
    writer.write(other)
    for file in (ticked, other):
        on = on_in_pypdf(file)
        if on != [name]:
            yield f"ticks: read back {on}, ticked {name}"
        for renderer in RENDERERS:
            share = ink(renderer(file, page, scratch), box)
            if share < TICKED:
                yield f"ticks: {renderer.__name__} shows no tick in {name} ({share:.3f})"
    if has_pdfjs():
        problem = ticked_by_pdfjs(path, scratch, len(fields))
        if problem:
            yield problem
