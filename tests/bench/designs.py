"""Designs to measure with: variants of a demo design, and triangles of any width."""

import re
import shutil
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


def beside(folder):
    """The files that every design needs beside it."""
    for name in ("palette.yaml", "studio.yaml"):
        shutil.copy(DEMO / name, folder / name)
