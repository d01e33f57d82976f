"""Soundness: what general readers of PDF say of a file. Each must open it without a word of warning."""

import subprocess

import pikepdf
import pypdf
import pypdfium2


def said(*command):
    done = subprocess.run(command, capture_output=True, text=True, errors="replace")
    return done.returncode, done.stdout, done.stderr


def check(path, scratch):
    """Yields what is wrong."""
    code, out, err = said("qpdf", "--check", path)
    if code or err or "WARNING" in out or "No syntax or stream encoding errors found" not in out:
        yield f"qpdf: {out} {err}"
    code, _, err = said("mutool", "clean", path, str(scratch / "cleaned.pdf"))
    if code or err:
        yield f"mupdf: {err}"
    for command in (["pdftotext", path, "-"], ["pdftoppm", "-r", "20", "-png", path, str(scratch / "page")], ["pdfinfo", path]):
        code, _, err = said(*command)
        if code or err:
            yield f"poppler's {command[0]}: {err}"
    code, out, err = said("gs", "-q", "-dNOPAUSE", "-dBATCH", "-sDEVICE=nullpage", path)
    if code or err or out:
        yield f"ghostscript: {out} {err}"
    yield from fonts(path)
    with pikepdf.open(path) as pdf:
        for problem in pdf.check_pdf_syntax():
            yield f"pikepdf: {problem}"
    # Strict reading turns every oddity into an exception.
    pages = len(pypdf.PdfReader(path, strict=True).pages)
    document = pypdfium2.PdfDocument(path)
    if len(document) != pages:
        yield "pdfium and pypdf count different numbers of pages"
    document.close()


def fonts(path):
    """Every font embedded, cut down, and with a way back to Unicode."""
    _, out, err = said("pdffonts", path)
    rows = out.splitlines()[2:]
    if err or not rows:
        yield f"pdffonts: {err or 'no fonts'}"
    for row in rows:
        embedded, subset, unicode = row.split()[-5:-2]
        if (embedded, subset, unicode) != ("yes", "yes", "yes"):
            yield f"pdffonts: {row}"
