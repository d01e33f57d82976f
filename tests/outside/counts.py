"""The same beads everywhere: those filled on the chart's pages, the word chart, the bead list, the materials.

All of it is read from the painted file: beads by the colour they are filled with, letters by the swatches
of the materials table.
"""

import re
from collections import Counter

from reading import Booklet, Bead, Node
from tags import beads_in, chart_tables, name_column, runs_of, times


def number(text):
    digits = re.sub(r"[\s.,\u00a0\u202f’']", "", text)
    return int(digits) if digits.isdigit() else None


def materials(booklet):
    """Colour and count in one earring by the letters of a bead (mostly one), from the first table whose rows begin
    with swatches."""
    for table in booklet.root.all("Table"):
        rows = []
        for row in table.all("TR"):
            cells = [part for part in row.parts if isinstance(part, Node)]
            beads = cells[0].beads() if cells else []
            letters = re.findall(r"[A-Za-z]", cells[0].text()) if cells else []
            if beads and len(beads) == len(letters) == len("".join(cells[0].text().split())):
                rows.append((tuple(letters), beads[0].colour, [number(c.text()) for c in cells[1:]]))
        if rows:
            # The count for one earring stands before its double, the count for the pair.
            width = len(rows[0][2])
            column = next(
                i for i in range(width - 1)
                if all(r[2][i] is not None and r[2][i + 1] == 2 * r[2][i] for r in rows)
            )
            return {letters: (colour, counts[column]) for letters, colour, counts in rows}
    return {}


def together(counts, bought):
    """Counts of single letters added up for each bead."""
    found = Counter()
    for letters in bought:
        found[letters] = sum(counts.get(letter) or 0 for letter in letters)
    return {letters: count for letters, count in found.items() if count}


def charts_of(section):
    """Figures of a section that are colour charts: a letter on each bead. Parts of a split chart are several."""
    found = []
    for figure in section.parts:
        if isinstance(figure, Node) and figure.kind == "Figure" and figure.beads():
            words = " ".join(part for part in figure.parts if isinstance(part, str)).split()
            letters = [w for w in words if re.fullmatch("[A-Za-z]", w)]
            if len(letters) >= len(figure.beads()):
                found.append(figure)
    return found if sum(len(figure.beads()) for figure in found) > 40 else []


def chart_sections(booklet):
    return [section for section in booklet.root.all("Sect") if charts_of(section)]


def chart_beads(section):
    """Filled beads of a section's charts by colour. Faded ones are on another part of the chart too."""
    return Counter(b.colour for figure in charts_of(section) for b in figure.beads() if not b.faint)


def legend(section):
    """Letter, colour and count in one earring, from the list under a chart; several parts repeat it."""
    found = {}
    for item in section.all("LI"):
        beads = item.beads()
        if beads:
            letter = next(node.text() for node in item.walk() if node.kind == "Lbl")
            amounts = re.findall(r"\d[\d.,\u00a0\u202f’']*", item.text())
            found[letter] = (beads[0].colour, number(amounts[-1]) if amounts else None)
    return found


def sums(bought):
    by_colour = Counter()
    for colour, count in bought.values():
        by_colour[colour] += count
    return {colour: count for colour, count in by_colour.items() if count}


def worded(booklet, letters):
    """Beads by letter as rows and strands say them, all added up."""
    found = Counter()
    for rows in chart_tables(booklet):
        first = name_column(rows)
        for row in rows[1:]:
            name = row[first]
            in_row = Counter()
            for cell in runs_of(row, first):
                in_row.update(beads_in(cell))
            for letter, count in in_row.items():
                found[letter] += count * (times(name) if re.match(r"\d", name) else 1)
    return {letter: count for letter, count in found.items() if letter in letters}


def is_bench(booklet):
    """Whether boxes stand by rows and strands, and not only on shopping lists."""
    return any(a.kind == "Widget" and not a.name.startswith("shopping") for a in booklet.root.annotations())


def check(path, _scratch):
    booklet = Booklet(path)
    charts = chart_sections(booklet)
    if not charts:
        yield "counts: no colour chart"
        return
    if is_bench(booklet):
        # A bench copy: a chart for each earring, whose legend says what is in it; in large print it only names.
        wanted = Counter()
        for section in charts:
            said, shown = legend(section), chart_beads(section)
            if any(count is not None for _, count in said.values()) and dict(shown) != sums(said):
                yield f"counts: the chart shows {dict(shown)}, its legend says {sums(said)}"
            of_colour = {colour: letter for letter, (colour, _) in said.items()}
            if len(of_colour) < len(said):
                yield "counts: two beads of one colour cannot be told apart here"
            wanted.update({of_colour.get(colour, "?"): count for colour, count in shown.items()})
    else:
        bought = materials(booklet)
        wanted = {letters: count for letters, (_, count) in bought.items() if count}
        if not bought:
            yield "counts: no materials table"
        # The first charts are the body's and the fringe's; those of a second earring and of colourways come later.
        shown, named = Counter(), {}
        for section in charts:
            if sum(shown.values()) < sum(sums(bought).values()):
                shown.update(chart_beads(section))
                named.update(legend(section))
        if dict(shown) != sums(bought):
            yield f"counts: the chart shows {dict(shown)}, the materials say {sums(bought)}"
        for letters, (colour, count) in bought.items():
            of = [named[letter] for letter in letters if letter in named]
            counted = [c for _, c in of if c is not None]
            if any(c != colour for c, _ in of) or (counted and len(counted) == len(letters) and sum(counted) != count):
                yield f"counts: the legend says {of} of {letters}, the materials {count}"
    said = worded(booklet, {letter for letters in wanted for letter in letters})
    # A mirrored second earring has a word chart and a bead list of its own.
    earrings = 1 if is_bench(booklet) else max(1, len(list(chart_tables(booklet))) // 2)
    said = {letters: count / earrings for letters, count in together(said, wanted).items()}
    if said != dict(wanted):
        yield f"counts: rows and strands sum to {said}, materials or charts say {dict(wanted)}"
