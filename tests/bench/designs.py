"""Designs to measure with: variants of a demo design, and triangles of any width."""

import random
import re
import shutil
import struct
import zlib
from pathlib import Path

DEMO = Path(__file__).resolve().parents[2] / "demo-designs"
HERON = DEMO / "heron-at-dusk.yaml"


def catalogue(folder, count):
    """A folder of variants that differ in title, colours and strands, with one palette and studio file."""
    folder.mkdir(parents=True)
    beside(folder)
    text = HERON.read_text(encoding="utf-8")
    colours = re.findall(r"^  ([A-Z]): (.+)$", text, re.MULTILINE)
    for number in range(count):
        variant = text.replace("title: Heron at Dusk", f"title: Heron {number + 1}")
        for place, (letter, bead) in enumerate(colours):
            other = colours[(place + number) % len(colours)][1]
            variant = variant.replace(f"  {letter}: {bead}\n", f"  {letter}: {other}\n")
        strands = iter(range(1000))
        longer = lambda _: f"    - {1 + (number + next(strands)) % 5}D"
        variant = re.sub(r"^    - 1D", longer, variant, flags=re.MULTILINE)
        (folder / f"heron-{number + 1:04}.yaml").write_text(variant, encoding="utf-8")


def triangle(folder, width):
    """A triangle this many stacks wide with a fringe of 24 beads a strand. Returns its file and its beads."""
    folder.mkdir(parents=True, exist_ok=True)
    beside(folder)
    rows, beads = [], 0
    for stacks in range(3, width + 1):
        row = "." * (width - stacks) + " ".join("ABC"[(stacks + n) // 3 % 3] for n in range(stacks))
        rows += [row, row]
        beads += 2 * stacks
    picture = "\n".join("    " + row for row in rows)
    strands = "\n".join(["    - 11A 6B 6C 1A"] * width)
    path = folder / f"triangle-{width}.yaml"
    path.write_text(
        f"""title: Triangle {width}
edition: 1
colours:
  A: ink
  B: slate
  C: mist
body:
  stitch: brick
  drop: 2
  picture: |
{picture}
fringe:
  strands:
{strands}
pair: same
hang: thread guard
""",
        encoding="utf-8",
    )
    return path, beads + 24 * width


def with_logo(folder, count):
    """A catalogue whose studio file names a logo that cannot be made smaller: 1,600 by 1,600 pixels of noise."""
    catalogue(folder, count)
    side = 1600
    noise = random.Random(1)
    pixels = b"".join(b"\0" + noise.randbytes(3 * side) for _ in range(side))
    chunk = lambda kind, data: struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    head = struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0)
    png = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(pixels, 1)) + chunk(b"IEND", b"")
    (folder / "logo.png").write_bytes(png)
    with (folder / "studio.yaml").open("a", encoding="utf-8") as studio:
        studio.write("logo: {file: logo.png, shows: noise}\n")


def beside(folder):
    """The files that every design needs beside it."""
    for name in ("palette.yaml", "studio.yaml"):
        shutil.copy(DEMO / name, folder / name)
