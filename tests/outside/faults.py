"""Seeded faults: the same file with one thing taken away must fail, or the checks do not bite."""

import re
from collections import Counter

import pikepdf

import contrast
import counts
import links
import sound
import standards
import tags
import ticks


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


def leave_only(pdf, page):
    """Takes all other pages out: contrast is looked at page by page."""
    for index in reversed(range(len(pdf.pages))):
        if pdf.pages[index].objgen != page.objgen:
            del pdf.pages[index]


def with_a_pale_text(pdf):
    """A paragraph becomes light grey (2.8 to 1 on white)."""
    for page in pdf.pages:
        content = page.Contents.read_bytes()
        cut = re.sub(rb"(/P <</MCID \d+>> BDC\n)BT", rb"\g<1>0.6 0.6 0.6 rg\nBT", content, count=1)
        if cut != content:
            page.Contents.write(cut)
            leave_only(pdf, page)
            return
    raise AssertionError("no paragraph found")


def with_a_dark_bead(pdf):
    """A pale bead of the chart with a black letter becomes dark under its letter."""
    for page in pdf.pages:
        content = page.Contents.read_bytes()
        if b"LayerLetters" not in content:
            continue
        for colour in set(re.findall(rb"[\d.]+ [\d.]+ [\d.]+ rg(?=\n1 0 0 1 \S+ \S+ cm\n/B\d+ Do)", content)):
            if min(float(v) for v in colour.split()[:3]) > 0.6:
                page.Contents.write(content.replace(colour, b"0.2 0.2 0.2 rg"))
                leave_only(pdf, page)
                return
    raise AssertionError("no pale bead found")


def with_a_pale_thread(pdf):
    """The thread of the diagrams becomes as pale as the paper's shade."""
    for page in pdf.pages:
        content = page.Contents.read_bytes()
        strokes = Counter(re.findall(rb"[\d.]+ [\d.]+ [\d.]+ RG", content))
        for colour, uses in strokes.items():
            levels = [float(v) for v in colour.split()[:3]]
            if uses > 4 and max(levels) - min(levels) > 0.3:
                page.Contents.write(content.replace(colour, b"0.8 0.8 0.8 RG"))
                leave_only(pdf, page)
                return
    raise AssertionError("no thread found")


def without_a_language(pdf):
    del pdf.Root.Lang


def without_a_table_header(pdf):
    """The heading cells of the first table become plain ones."""
    elements = [o for o in pdf.objects if isinstance(o, pikepdf.Dictionary) and "/S" in o and "/P" in o]
    table = next(e for e in elements if e.S == "/Table")
    row = next(e for e in elements if e.S == "/TR" and e.P.P.objgen == table.objgen)
    for cell in row.K:
        cell.S = pikepdf.Name.TD
        if "/A" in cell:
            del cell.A


def without_a_tooltip(pdf):
    del pdf.Root.AcroForm.Fields[0].TU


def with_a_link_astray(pdf):
    """The second entry of the contents leads to the page before the right one."""
    links = [a for page in pdf.pages for a in page.get("/Annots", []) if "/Dest" in a or "/A" in a and "/D" in a.A]
    link = links[1]
    place = link.Dest if "/Dest" in link else link.A.D
    index = next(i for i, page in enumerate(pdf.pages) if page.objgen == place[0].objgen)
    place[0] = pdf.pages[index - 1].obj


def noticed(path, scratch, seeded):
    """Yields faults that nothing noticed. A checker that gives up on a file has noticed something."""
    for fault, checker, run in seeded:
        broken = str(scratch / f"{fault.__name__}.pdf")
        with pikepdf.open(path) as pdf:
            fault(pdf)
            pdf.save(broken)
        if not list(run(broken)):
            yield f"faults: {checker} did not notice a file {fault.__name__.replace('_', ' ')}"


def check(path, scratch):
    """Faults seeded into a booklet."""
    yield from noticed(path, scratch, [
        (without_a_tag, "outloud", standards.outloud),
        (without_a_tag, "the reader of tags", lambda p: tags.check(p, scratch)),
        (without_an_alternative, "outloud", standards.outloud),
        (without_an_alternative, "pdfua", standards.pdfua),
        (without_an_alternative, "the reader of tags", lambda p: tags.check(p, scratch)),
        (without_a_font, "outloud", standards.outloud),
        (without_a_font, "Preflight", lambda p: standards.preflight([p])[0]),
        (without_a_font, "pdffonts", sound.fonts),
        (without_a_language, "outloud", standards.outloud),
        (without_a_language, "pdfua", standards.pdfua),
        (without_a_language, "the check of languages", standards.archive),
        (without_a_table_header, "outloud", standards.outloud),
        (with_a_bead_more, "the counts", lambda p: counts.check(p, scratch)),
        (with_a_pale_text, "the contrasts", lambda p: contrast.check(p, scratch)),
        (with_a_dark_bead, "the contrasts", lambda p: contrast.check(p, scratch)),
        (with_a_pale_thread, "the contrasts", lambda p: contrast.check(p, scratch)),
        (with_a_link_astray, "the check of links", lambda p: links.check(p, scratch)),
    ])


def check_bench(path, scratch):
    """Faults seeded into a bench copy."""
    yield from noticed(path, scratch, [
        (without_a_tooltip, "outloud", standards.outloud),
        (without_a_tooltip, "the check of boxes", lambda p: ticks.check(p, scratch)),
        (with_a_bead_more, "the counts", lambda p: counts.check(p, scratch)),
    ])
