"""The booklet read through its tags alone, as a screen reader does: is all there, and in working order?"""

import re

import pikepdf

from reading import Booklet

LETTERS = r"[A-Za-z]( [A-Za-z])*"
RUN = re.compile(r"(\d+)\s+([A-Za-z]+)")


def cells(row):
    return [cell.text() for cell in row.parts if hasattr(cell, "kind")]


def tables(booklet):
    """Tables as rows of texts, with their heading row first."""
    for table in booklet.root.all("Table"):
        yield [cells(row) for row in table.all("TR")]
    for listed in booklet.root.all("L"):
        yield from as_table(listed)


def as_table(listed):
    """A bead list too wide for its page is a list: each strand an item, `Strand: 1 … From the body down: 6 A · 2 B`. On
    bench copies boxes stand between its runs."""
    items = [re.match(r"[^:\d][^:]*:\s(\d+)\s(.*)", item.text(), re.S) for item in listed.all("LI")]
    runs = [(item[1], re.findall(r"\d+\s[A-Za-z](?!\w)", item[2])) for item in items if item]
    rows = [[name, *([" · ".join(found)] if found else [])] for name, found in runs]
    if rows and all(len(row) > 1 for row in rows):
        yield [["", ""], *rows]


def name_column(rows):
    """The column with the numbers of rows or strands: the first, on bench copies the one after the boxes."""
    return 0 if any(row[0] for row in rows[1:]) else 1


def is_numbered(name):
    return re.fullmatch(r"\d+([–-]\d+)?", name) is not None


def chart_tables(booklet):
    """The word chart (rows in words) and the bead list (strands), found by what their cells hold: runs."""
    found = []
    for rows in tables(booklet):
        if len(rows) < 2 or any(len(row) < 2 for row in rows[1:]):
            continue
        first = name_column(rows)
        body = [row[first:] for row in rows[1:] if is_numbered(row[first])]
        if body and all(any(RUN.search(cell) or re.fullmatch(LETTERS, cell) for cell in row[1:]) for row in body):
            if any(len(RUN.findall(cell)) > 1 for row in body for cell in row):
                found.append(rows)
    return found


def beads_in(cell):
    """Beads by letter in a cell of runs (`3 AB · 1 BB`) or of letters (`A B B A`)."""
    counts = {}
    runs = RUN.findall(cell)
    if runs:
        for number, letters in runs:
            for letter in letters:
                counts[letter] = counts.get(letter, 0) + int(number)
    elif re.fullmatch(LETTERS, cell.replace("\u00a0", " ")):
        for letter in cell.replace(" ", "").replace("\u00a0", ""):
            counts[letter] = counts.get(letter, 0) + 1
    return counts


def runs_of(row, first=0):
    """Cells of a row that hold beads: those with letters of the palette only, no units and no words."""
    pattern = rf"(\d+\s+[A-Za-z]+)(\s*·?\s*\d+\s+[A-Za-z]+)*|{LETTERS}"
    units = re.compile(r"\d\s*(mm|cm|in|ft|g|m)\b")
    cells = row[first + 1 :]
    return [c for c in cells if re.fullmatch(pattern, c.replace("\u00a0", " ")) and not units.search(c)]


def times(name):
    """How many rows or strands a line stands for: `4–6` are three."""
    ends = [int(n) for n in re.findall(r"\d+", name)]
    return ends[-1] - ends[0] + 1


def check(path, _scratch):
    booklet = Booklet(path)
    yield from whole(booklet)
    if booklet.root.parts[0].kind != "Document":
        yield "tags: the root is no document"
    first = booklet.root.all("H1", "H2", "P")[0]
    if first.kind != "H1":
        yield "tags: the document does not begin with its title"
    levels = [int(node.kind[1]) for node in booklet.root.walk() if re.fullmatch(r"H\d", node.kind)]
    for before, after in zip(levels, levels[1:]):
        if after > before + 1:
            yield f"tags: a heading of level {after} follows one of level {before}"
    for figure in booklet.root.all("Figure"):
        if not figure.alt:
            yield "tags: a figure says nothing"
    found = chart_tables(booklet)
    earrings = len({a.name.split("-")[0] for a in booklet.root.annotations() if a.kind == "Widget"}) or 1
    if len(found) < 2 * earrings:
        yield f"tags: {len(found)} tables of rows and strands for {earrings} earrings"
    for rows in found:
        first = name_column(rows)
        names = [row[first] for row in rows[1:] if is_numbered(row[first])]
        numbers = [n for name in names for n in range(*ends(name))]
        if numbers != list(range(numbers[0], numbers[0] + len(numbers))):
            yield f"tags: rows or strands out of order: {numbers}"


def ends(name):
    numbers = [int(n) for n in re.findall(r"\d+", name)]
    return numbers[0], numbers[-1] + 1


def whole(booklet):
    """Every numbered stretch of content belongs to one element, and every element's content is there."""
    claimed = {}

    def visit(element, page):
        page = element.get("/Pg", page)
        kids = element.get("/K", None)
        if kids is None:
            return
        for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
            if isinstance(kid, pikepdf.Dictionary):
                if "/MCID" in kid:
                    key = booklet.page_of[kid.Pg.objgen], int(kid.MCID)
                    claimed[key] = claimed.get(key, 0) + 1
                elif "/S" in kid:
                    visit(kid, page)
            else:
                key = booklet.page_of[page.objgen], int(kid)
                claimed[key] = claimed.get(key, 0) + 1

    visit(booklet.pdf.Root.StructTreeRoot, None)
    marked = set(booklet.texts)
    if set(claimed) != marked:
        yield f"tags: content without element or element without content: {sorted(set(claimed) ^ marked)[:5]}"
    if any(count != 1 for count in claimed.values()):
        yield "tags: content that belongs to several elements"
