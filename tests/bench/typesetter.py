"""The same booklet for a general typesetter: its text page by page, and as many shapes as it draws."""

import json
import re
import subprocess
import zlib

# One run of the typesetter from nothing: what a script that makes one booklet would do.
COMPILE = "import sys, typst; typst.compile(sys.argv[1], output=sys.argv[2])"
# What of it is only the starting of Python.
START = "import sys, typst"


def pages_of(pdf):
    """The text of each page."""
    text = subprocess.run(["pdftotext", "-layout", pdf, "-"], check=True, capture_output=True).stdout
    return text.decode("utf-8").split("\f")[:-1]


def shapes_of(pdf):
    """How many forms and paths a booklet paints."""
    data, count = pdf.read_bytes(), 0
    for stream in re.finditer(rb"stream\r?\n", data):
        try:
            content = zlib.decompressobj().decompress(data[stream.end() :])
        except zlib.error:
            continue
        count += len(re.findall(rb"(?m)^(?:.* Do|f|S|B)$", content))
    return count


def source(pdf):
    """A source file of equal pages: every word of the booklet, and its shapes as small rectangles."""
    pages, shapes = pages_of(pdf), shapes_of(pdf)
    each = -(-shapes // len(pages))
    out = ['#set page(paper: "a4", margin: 15mm)', "#set text(size: 6pt)", "#set par(spacing: 2.6pt)"]
    for number, page in enumerate(pages):
        if number:
            out.append("#pagebreak()")
        for n in range(each):
            x, y = n % 40 * 4.4, n // 40 * 5.2
            fill = f"rgb({n * 37 % 256}, {n * 91 % 256}, {n * 53 % 256})"
            box = f"rect(width: 4mm, height: 5mm, fill: {fill}, stroke: 0.2pt)"
            out.append(f"#place(dx: {x:.1f}mm, dy: {y % 250:.1f}mm, {box})")
        for line in page.splitlines():
            if line.strip():
                words = json.dumps(" ".join(line.split()), ensure_ascii=False)
                out.append(f"#par[#{words}]")
    return "\n".join(out) + "\n", len(pages), shapes
