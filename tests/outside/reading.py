"""An independent reader of booklets: follows nothing but the file's own structure tree.

It shares no code with the program: pikepdf reads the objects, everything else is done here. Text is
found by marked-content number and decoded through each font's ToUnicode map; beads are found as
uses of forms that take their fill colour from outside.
"""

import re
from collections import namedtuple

import pikepdf

Bead = namedtuple("Bead", "page mcid x y colour form faint")
Annotation = namedtuple("Annotation", "page kind words name")


class Node:
    """An element of the structure tree with its text, beads and annotations in reading order."""

    def __init__(self, kind, alt, parent):
        self.kind, self.alt, self.parent = kind, alt, parent
        self.parts = []  # Node, str, Bead or Annotation

    def text(self):
        words = " ".join(
            part.text() if isinstance(part, Node) else part
            for part in self.parts
            if isinstance(part, (Node, str))
        )
        return re.sub(r"\s+", " ", words).strip()

    def walk(self):
        yield self
        for part in self.parts:
            if isinstance(part, Node):
                yield from part.walk()

    def all(self, *kinds):
        return [node for node in self.walk() if node.kind in kinds]

    def beads(self):
        return [p for node in self.walk() for p in node.parts if isinstance(p, Bead)]

    def annotations(self):
        return [p for node in self.walk() for p in node.parts if isinstance(p, Annotation)]


class Booklet:
    def __init__(self, path):
        self.pdf = pikepdf.open(path)
        self.page_of = {page.objgen: i for i, page in enumerate(self.pdf.pages)}
        self.texts, self.marked_beads, self.artifacts = {}, {}, []
        for index, page in enumerate(self.pdf.pages):
            self._read_page(index, page)
        root = self.pdf.Root.StructTreeRoot
        self.root = Node("Root", None, None)
        self._grow(root, self.root, None)

    # -- content streams -------------------------------------------------------------------------

    def _read_page(self, index, page):
        fonts = {}
        matrix, fill = (0.0, 0.0), None
        stack, saved = [], []
        font = size = line = None
        pen = None  # where the text stands: x, y; None when nothing has been shown
        out = []
        self.artifacts.append([])
        for operands, operator in pikepdf.parse_content_stream(page):
            op = str(operator)
            if op == "BDC":
                properties = operands[1]
                mcid = properties.get("/MCID") if isinstance(properties, pikepdf.Dictionary) else None
                stack.append((str(operands[0]), None if mcid is None else int(mcid)))
                out, pen = [], None
            elif op == "BMC":
                stack.append((str(operands[0]), None))
            elif op == "EMC":
                kind, mcid = stack.pop()
                if mcid is not None:
                    self.texts[index, mcid] = self.texts.get((index, mcid), "") + "".join(out)
                elif kind == "/Artifact":
                    self.artifacts[-1].append("".join(out))
                out = [] if kind != "/OC" else out
            elif op == "q":
                saved.append((matrix, fill))
            elif op == "Q":
                matrix, fill = saved.pop()
            elif op == "cm":
                # Only where things stand is of interest: forms are turned, never scaled.
                matrix = (matrix[0] + float(operands[4]), matrix[1] + float(operands[5]))
            elif op == "rg":
                fill = tuple(round(float(v) * 255) for v in operands)
            elif op == "Do":
                form = page.Resources.XObject[str(operands[0])]
                mcid = next((m for _, m in reversed(stack) if m is not None), None)
                kind = bead_kind(form)
                if kind and mcid is not None:
                    bead = Bead(index, mcid, *matrix, fill, form.objgen, kind == "faint")
                    self.marked_beads.setdefault((index, mcid), []).append(bead)
            elif op == "Tf":
                name, size = str(operands[0]), float(operands[1])
                if name not in fonts:
                    fonts[name] = Font(page.Resources.Font[name])
                font = fonts[name]
            elif op == "BT":
                line = (0.0, 0.0)
            elif op == "Td":
                at = line = (line[0] + float(operands[0]), line[1] + float(operands[1]))
                apart = pen and (abs(at[1] - pen[1]) > 0.5 or abs(at[0] - pen[0]) > 0.12 * size)
                if apart and out and not out[-1].isspace():
                    out.append(" ")
                pen = at
            elif op == "TJ":
                x, y = pen
                for part in operands[0]:
                    if isinstance(part, pikepdf.String):
                        codes = bytes(part)
                        for i in range(0, len(codes), 2):
                            code = codes[i] * 256 + codes[i + 1]
                            out.append(font.text(code))
                            x += font.width(code) * size / 1000
                    else:
                        x -= float(part) * size / 1000
                        if float(part) < -120 and out and not out[-1].isspace():
                            out.append(" ")
                pen = (x, y)

    # -- structure -------------------------------------------------------------------------------

    def _grow(self, element, node, page):
        page = element.get("/Pg", page)
        kids = element.get("/K")
        if kids is None:
            return
        for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
            if isinstance(kid, pikepdf.Dictionary):
                kind = str(kid.get("/Type", "/StructElem"))
                if kind == "/MCR":
                    self._place(node, self.page_of[kid.Pg.objgen], int(kid.MCID))
                elif kind == "/OBJR":
                    node.parts.append(self._annotation(kid.Obj, kid.get("/Pg", page)))
                else:
                    alt = str(kid.Alt) if "/Alt" in kid else None
                    child = Node(str(kid.S)[1:], alt, node)
                    node.parts.append(child)
                    self._grow(kid, child, page)
            else:
                self._place(node, self.page_of[page.objgen], int(kid))

    def _place(self, node, page, mcid):
        text = self.texts.get((page, mcid), "")
        if text:
            node.parts.append(text)
        node.parts.extend(self.marked_beads.get((page, mcid), []))

    def _annotation(self, annotation, page):
        words = str(annotation.get("/Contents", ""))
        name = str(annotation.get("/T", ""))
        return Annotation(self.page_of[page.objgen], str(annotation.Subtype)[1:], words, name)


class Font:
    def __init__(self, font):
        self.map, self.widths = {}, {}
        cmap = font.ToUnicode.read_bytes().decode("latin-1")
        for block in re.findall(r"beginbfchar(.*?)endbfchar", cmap, re.S):
            for code, text in re.findall(r"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>", block):
                self.map[int(code, 16)] = bytes.fromhex(text).decode("utf-16-be")
        for block in re.findall(r"beginbfrange(.*?)endbfrange", cmap, re.S):
            for first, last, text in re.findall(r"<(\w+)>\s*<(\w+)>\s*<(\w+)>", block):
                start = bytes.fromhex(text).decode("utf-16-be")
                for i in range(int(last, 16) - int(first, 16) + 1):
                    self.map[int(first, 16) + i] = start[:-1] + chr(ord(start[-1]) + i)
            for first, last, texts in re.findall(r"<(\w+)>\s*<(\w+)>\s*\[(.*?)\]", block, re.S):
                for i, text in enumerate(re.findall(r"<(\w+)>", texts)):
                    self.map[int(first, 16) + i] = bytes.fromhex(text).decode("utf-16-be")
        inner = font.DescendantFonts[0]
        entries = list(inner.W)
        while entries:
            first, widths, *entries = entries
            for i, width in enumerate(widths):
                self.widths[int(first) + i] = float(width)

    def text(self, code):
        return self.map[code]

    def width(self, code):
        return self.widths.get(code, 1000.0)


_KINDS = {}


def bead_kind(form):
    """Whether a form fills with the page's colour: `bead`, `faint`, or None."""
    if form.get("/Subtype") != "/Form":
        return None
    content = form.read_bytes()
    if content not in _KINDS:
        words = content.split()
        fills = any(w in (b"f", b"B") for w in words) and b"rg" not in words
        faint = b"0.659 0.659 0.659 RG" in content
        _KINDS[content] = ("faint" if faint else "bead") if fills else None
    return _KINDS[content]


def show(node, depth=0):
    print("  " * depth + node.kind, repr(node.alt)[:60] if node.alt else "")
    beads = 0
    for part in node.parts:
        if isinstance(part, Node):
            show(part, depth + 1)
        elif isinstance(part, Bead):
            beads += 1
        else:
            print("  " * (depth + 1), repr(part)[:150])
    if beads:
        print("  " * (depth + 1), beads, "beads")


if __name__ == "__main__":
    import sys

    show(Booklet(sys.argv[1]).root)
