"""Ticks carried over: a bench copy is ticked in five programs, the design changes, and the newer copy has the
ticks of all rows and strands that are the same, to be seen in four viewers; the others are named."""

import re
import shutil
import subprocess
from pathlib import Path

import pikepdf
import pypdf

import sound
import standards
import ticks

PROGRAM = Path(__file__).parents[2] / "target/debug/fringebook"
DESIGN = "heron-at-dusk.yaml"
COPY = "heron-at-dusk-bench.pdf"
# Rows and strands that are ticked on both earrings.
ROWS, STRANDS = range(1, 6), range(1, 5)


def by_pikepdf(path, saved, names):
    with pikepdf.open(path) as pdf:
        for field in pdf.Root.AcroForm.Fields:
            if str(field.T) in names:
                field.V = field.AS = pikepdf.Name.Yes
        pdf.save(saved)


def by_pypdf(path, saved, names):
    writer = pypdf.PdfWriter(clone_from=path)
    for page in writer.pages:
        writer.update_page_form_field_values(page, {name: "/Yes" for name in names}, auto_regenerate=False)
    writer.write(saved)


def by_pikepdf_and_qpdf(path, saved, names):
    """Ticked, and then written anew: linear, every object by itself, every stream deflated again."""
    by_pikepdf(path, f"{saved}.ticked", names)
    options = ["--linearize", "--object-streams=disable", "--recompress-flate", "--compression-level=9"]
    subprocess.run(["qpdf", *options, f"{saved}.ticked", saved], check=True)


def by_mupdf(path, saved, names):
    import pymupdf

    document = pymupdf.open(path)
    for page in document:
        for box in page.widgets():
            if box.field_name in names:
                box.field_value = True
                box.update()
    document.save(saved, garbage=4, deflate=True)


def by_pdfjs(path, saved, names):
    ticks.in_pdfjs(path, saved, names)


def names_in(path):
    with pikepdf.open(path) as pdf:
        return [str(field.T) for field in pdf.Root.AcroForm.Fields]


def of_rows_and_strands(names, rows, strands):
    """The boxes in the lists, of rows and strands of these numbers, of both earrings."""
    wanted = {f"row-{n}" for n in rows} | {f"strand-{n}" for n in strands}
    return sorted(n for n in names if (m := re.fullmatch(r"e[12]-((?:row|strand)-\d+)-\w{8}", n)) and m[1] in wanted)


def changed(text, old, new):
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in the design"
    return text.replace(old, new)


def run(folder, *command):
    done = subprocess.run([PROGRAM, *command], cwd=folder, capture_output=True, text=True)
    if done.returncode:
        raise RuntimeError(f"{command}: {done.stdout}{done.stderr}")
    return done.stdout, done.stderr


def unseen(path, scratch):
    """Yields boxes that a viewer shows otherwise than their value says."""
    with pikepdf.open(path) as pdf:
        boxes = [
            (page, str(a.T), a.V == "/Yes", [float(v) for v in a.Rect])
            for page, p in enumerate(pdf.pages)
            for a in p.get("/Annots", [])
            if a.Subtype == "/Widget"
        ]
    for renderer in ticks.RENDERERS:
        for page in sorted({page for page, *_ in boxes}):
            picture = renderer(path, page, scratch)
            for _, name, is_on, box in (b for b in boxes if b[0] == page):
                share = ticks.ink(picture, box)
                if share < ticks.TICKED if is_on else share > ticks.EMPTY:
                    yield f"carried: {renderer.__name__} shows {share:.3f} of ink in {name}, ticked {is_on}"


def is_kept(path, wanted, scratch):
    """Yields what is wrong with the ticks of a copy."""
    if ticks.on_in_pypdf(path) != wanted:
        yield f"carried: {ticks.on_in_pypdf(path)} are ticked, not {wanted}"
    if ticks.has_pdfjs():
        on = ticks.in_pdfjs(path, str(scratch / "again.pdf"), ["none of them"])["on"]
        if on != wanted:
            yield f"carried: pdf.js reads {on}, not {wanted}"


def round_trip(program, designs, scratch):
    folder = scratch / program.__name__
    folder.mkdir()
    for name in (DESIGN, "palette.yaml"):
        shutil.copy(designs / name, folder)
    studio = (designs / "studio.yaml").read_text()
    (folder / "studio.yaml").write_text(changed(studio, "paper: both", "paper: a4"))
    copy, ticked = folder / COPY, folder / "ticked.pdf"

    run(folder, "bench", DESIGN)
    on = of_rows_and_strands(names_in(copy), ROWS, STRANDS)
    if len(on) != 2 * (len(ROWS) + len(STRANDS)):
        yield f"carried: there are only {on}"
    program(str(copy), str(ticked), on)
    ticked.replace(copy)

    design = folder / DESIGN
    design.write_text(changed(design.read_text(), "- 1D 5C 1B 1C 6B 2G", "- 1D 5C 1B 1C 7B 2G"))
    out, err = run(folder, "bench", DESIGN)
    kept = of_rows_and_strands(names_in(copy), ROWS, set(STRANDS) - {2})
    if "16 ticks kept" not in out or "2 ticks could not be kept" not in err or "strand 2 of earring 1; strand 2 of earring 2" not in err:
        yield f"carried: after {program.__name__}, bench says {out}{err}"
    yield from is_kept(str(copy), kept, scratch)
    if program is by_pikepdf:
        yield from unseen(str(copy), scratch)
        yield from sound.check(str(copy), scratch)
        yield from standards.check(str(copy), scratch)

    program(str(copy), str(ticked), of_rows_and_strands(names_in(copy), [], [2]))
    ticked.replace(copy)
    # The lowest line of the picture is the second line of row 1, the foundation.
    design.write_text(changed(design.read_text(), "A F A C C C C C C C C C C C A F A\n\n", "A F A C C C C B C C C C C C A F A\n\n"))
    out, err = run(folder, "remake", ".")
    kept = of_rows_and_strands(names_in(copy), set(ROWS) - {1}, STRANDS)
    if "16 ticks kept" not in out or "row 1 of earring 1; row 1 of earring 2" not in err:
        yield f"carried: after {program.__name__}, remake says {out}{err}"
    yield from is_kept(str(copy), kept, scratch)


def check(designs, scratch):
    """Yields what is wrong."""
    programs = [by_pikepdf, by_pypdf, by_pikepdf_and_qpdf, by_mupdf]
    if ticks.has_pdfjs():
        programs.append(by_pdfjs)
    for program in programs:
        yield from round_trip(program, Path(designs), scratch)
