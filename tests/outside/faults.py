"""Seeded faults: the same file with one thing taken away must fail, or the checks do not bite."""

import re

import pikepdf

import counts
import sound
import standards
import tags


def without_a_tag(pdf):
    """The first paragraph's content is left out of the structure."""
    page = pdf.pages[0]
    content = page.Contents.read_bytes()
    cut = re.sub(rb"/P <</MCID \d+>> BDC", b"/Span BMC", content, count=1)
    assert cut != content
    page.Contents.write(cut)


def without_an_alternative(pdf):
    """The first figure says nothing."""
    figure = next(o for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and o.get("/S") == "/Figure")
    del figure.Alt


def without_a_font(pdf):
    """The first font's program is taken out."""
    font = next(o for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and "/FontFile2" in o)
    del font.FontFile2


def with_a_bead_more(pdf):
    """A bead of the chart is painted twice."""
    for page in pdf.pages:
        content = page.Contents.read_bytes()
        uses = re.findall(rb"/B\d+ Do\n", content)
        if len(uses) > 200 and b"LayerLetters" in content:
            page.Contents.write(content.replace(uses[0], uses[0] + uses[0], 1))
            return
    raise AssertionError("no chart found")


def check(path, scratch):
    """Yields faults that nothing noticed."""
    seeded = [
        (without_a_tag, "outloud", lambda p: standards.outloud(p, scratch)),
        (without_a_tag, "the reader of tags", lambda p: tags.check(p, scratch)),
        (without_an_alternative, "outloud", lambda p: standards.outloud(p, scratch)),
        (without_an_alternative, "pdfua", standards.pdfua),
        (without_an_alternative, "the reader of tags", lambda p: tags.check(p, scratch)),
        (without_a_font, "outloud", lambda p: standards.outloud(p, scratch)),
        (without_a_font, "Preflight", standards.preflight),
        (without_a_font, "pdffonts", sound.fonts),
        (with_a_bead_more, "the counts", lambda p: counts.check(p, scratch)),
    ]
    for fault, checker, run in seeded:
        broken = str(scratch / f"{fault.__name__}.pdf")
        with pikepdf.open(path) as pdf:
            fault(pdf)
            pdf.save(broken)
        if not list(run(broken)):
            yield f"faults: {checker} did not notice a file {fault.__name__.replace('_', ' ')}"
