"""Boxes to tick: filled by three independent programs, saved, read back, and seen ticked by three renderers."""

import json
import shutil
import subprocess
from pathlib import Path

import pikepdf
import pypdf
import pypdfium2
from PIL import Image


def ink(path, page, box, height, scratch, name):
    """Share of dark pixels in a box as poppler draws it."""
    out = scratch / name
    subprocess.run(["pdftoppm", "-r", "144", "-gray", "-png", "-singlefile", "-f", str(page + 1), "-l", str(page + 1), path, str(out)], check=True)
    return darkness(Image.open(f"{out}.png").convert("L"), box, height, 2.0)


def ink_pdfium(path, page, box, height):
    document = pypdfium2.PdfDocument(path)
    document.init_forms()
    picture = document[page].render(scale=2, may_draw_forms=True).to_pil().convert("L")
    document.close()
    return darkness(picture, box, height, 2.0)


def ink_mupdf(path, page, box, height):
    import pymupdf

    document = pymupdf.open(path)
    pixels = document[page].get_pixmap(matrix=pymupdf.Matrix(2, 2), colorspace="gray")
    picture = Image.frombytes("L", (pixels.width, pixels.height), pixels.samples)
    document.close()
    return darkness(picture, box, height, 2.0)


def darkness(picture, box, height, scale):
    left, bottom, right, top = box
    inset = 0.18 * (right - left)
    area = (left + inset, height - top + inset, right - inset, height - bottom - inset)
    part = picture.crop(tuple(int(v * scale) for v in area))
    pixels = part.tobytes()
    return sum(1 for p in pixels if p < 128) / max(1, len(pixels))


PDFJS = Path(__file__).parents[2] / "target/outside-node/node_modules/pdfjs-dist"


def has_pdfjs():
    return shutil.which("node") is not None and PDFJS.is_dir()


def ticked_by_pdfjs(path, scratch, fields):
    """Has pdf.js tick a box, save and read back; pypdf reads it too. A message when they do not agree."""
    saved = str(scratch / "ticked-pdfjs.pdf")
    script = str(Path(__file__).with_name("ticks_viewer.mjs"))
    done = subprocess.run(["node", script, str(PDFJS), path, saved], capture_output=True, text=True)
    if done.returncode:
        return f"ticks: pdf.js: {done.stderr}"
    said = json.loads(done.stdout.splitlines()[-1])
    if said["boxes"] != fields or said["on"] != [said["ticked"]] or said["silent"]:
        return f"ticks: pdf.js: {said}, and there are {fields} fields"
    on = sorted(n for n, f in pypdf.PdfReader(saved).get_fields().items() if f.get("/V") == "/Yes")
    return None if on == [said["ticked"]] else f"ticks: pdf.js ticked {said['ticked']}, pypdf reads {on}"


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
        height = float(pdf.pages[page].MediaBox[3])
        if ink(path, page, box, height, scratch, "empty") > 0.01:
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
        back = pypdf.PdfReader(file).get_fields()
        on = sorted(n for n, f in back.items() if f.get("/V") == "/Yes")
        if on != [name]:
            yield f"ticks: read back {on}, ticked {name}"
        for renderer, share in (
            ("poppler", ink(file, page, box, height, scratch, "ticked")),
            ("pdfium", ink_pdfium(file, page, box, height)),
            ("mupdf", ink_mupdf(file, page, box, height)),
        ):
            if share < 0.08:
                yield f"ticks: {renderer} shows no tick in {name} ({share:.3f})"
    if has_pdfjs():
        problem = ticked_by_pdfjs(path, scratch, len(fields))
        if problem:
            yield problem
