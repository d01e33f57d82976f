"""The same beads everywhere: those filled on the chart's pages, the word chart, the bead list, the materials.

All of it is read from the painted file: beads by the colour they are filled with, letters by the swatches
of the materials table.
"""

import re
from collections import Counter

from reading import Booklet, Bead, Node
from tags import beads_in, chart_tables, runs_of, times


def number(text):
    digits = re.sub(r"[\s.,\u00a0\u202f’']", "", text)
    return int(digits) if digits.isdigit() else None


def materials(booklet):
    """Letter, colour and count in one earring, from the first table whose rows begin with a swatch."""
    for table in booklet.root.all("Table"):
        rows = []
        for row in table.all("TR"):
            cells = [part for part in row.parts if isinstance(part, Node)]
            beads = cells[0].beads() if cells else []
            if len(beads) == 1 and re.fullmatch(r"[A-Za-z]", cells[0].text()):
                rows.append((cells[0].text(), beads[0].colour, [number(c.text()) for c in cells[1:]]))
        if rows:
            # The count for one earring stands before its double, the count for the pair.
            width = len(rows[0][2])
            column = next(
                i for i in range(width - 1)
                if all(r[2][i] is not None and r[2][i + 1] == 2 * r[2][i] for r in rows)
            )
            return {letter: (colour, counts[column]) for letter, colour, counts in rows}
    return {}


def chart_beads(booklet, colours):
    """Filled beads of the colour chart: the section whose figures have a letter on each bead.

    The first section with such a chart is the colour chart; parts of a chart split over pages add up.
    """
    for section in booklet.root.all("Sect"):
        figures = [p for p in section.parts if isinstance(p, Node) and p.kind == "Figure"]
        charts = []
        for figure in figures:
            filled = [p for p in figure.parts if isinstance(p, Bead) and not p.faint]
            letters = [w for p in figure.parts if isinstance(p, str) for w in p.split() if re.fullmatch("[A-Za-z]", w)]
            if len(filled) > 40 and len(letters) >= len(filled):
                charts.append(filled)
        if charts:
            return Counter(bead.colour for chart in charts for bead in chart)
    return Counter()


def check(path, _scratch):
    booklet = Booklet(path)
    if "/AcroForm" in booklet.pdf.Root or "-large" in path or "-grey" in path:
        return
    bought = materials(booklet)
    if not bought:
        yield "counts: no materials table"
        return
    wanted = {letter: count for letter, (_, count) in bought.items() if count}
    by_colour = Counter()
    for colour, count in bought.values():
        by_colour[colour] += count
    filled = chart_beads(booklet, by_colour)
    if dict(filled) != {c: n for c, n in by_colour.items() if n}:
        yield f"counts: the chart shows {dict(filled)}, the materials say {dict(by_colour)}"
    worded = Counter()
    for rows in chart_tables(booklet):
        for row in rows[1:]:
            if not row[0] and not any(re.search(r"[A-Z]", c) for c in row[1:]):
                continue
            in_row = Counter()
            for cell in runs_of(row):
                in_row.update(beads_in(cell))
            for letter, count in in_row.items():
                worded[letter] += count * (times(row[0]) if re.match(r"\d", row[0]) else 1)
    if {k: v for k, v in worded.items() if k in bought} != wanted:
        yield f"counts: rows and strands sum to {dict(worded)}, the materials say {wanted}"
