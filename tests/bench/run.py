#!/usr/bin/env python3
"""How fast booklets are made, on this machine. Figures only: nothing here passes or fails.

    cargo build --release
    pip install -r tests/bench/requirements.txt      for the comparison; pdftotext is needed too
    python3 tests/bench/run.py [--runs 9] [--designs 1000] [--program target/release/fringebook]
"""

import argparse
import importlib.util
import os
import shutil
import sys
import tempfile
from pathlib import Path

import designs
import typesetter
from measure import Table, in_turn, run

ROOT = Path(__file__).resolve().parents[2]


def main():
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("--program", type=Path, default=ROOT / "target/release/fringebook")
    ask.add_argument("--runs", type=int, default=9, help="runs of one booklet (9)")
    ask.add_argument("--designs", type=int, default=1000, help="designs in the catalogue (1000)")
    told = ask.parse_args()
    program = told.program.resolve()
    if not program.is_file():
        raise SystemExit(f"{program} is not there: `cargo build --release` makes it")
    print(f"{os.cpu_count()} processors; {program.name} {told.runs} runs each, {told.designs} designs\n")
    table = Table()
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        one_booklet(table, program, folder, told.runs)
        growth(table, program, folder, told.runs)
        catalogue(table, program, folder, told.designs)


def one_booklet(table, program, folder, runs):
    """One booklet, the whole process from nothing, beside a general typesetter."""
    make = [program, "make", designs.HERON, "--paper", "a4", "--out", folder]
    run(make)
    pdf = folder / "heron-at-dusk-a4.pdf"
    commands = [make]
    if importlib.util.find_spec("typst") and shutil.which("pdftotext"):
        text, pages, shapes = typesetter.source(pdf)
        (folder / "equal.typ").write_text(text, encoding="utf-8")
        equal = folder / "equal.pdf"
        commands.append([sys.executable, "-c", typesetter.COMPILE, folder / "equal.typ", equal])
        commands.append([sys.executable, "-c", typesetter.START])
    found = in_turn(commands, runs)
    table.row("one booklet: milliseconds of processor", [r.cpu * 1000 for r in found[0]])
    table.row("one booklet: milliseconds on the wall", [r.wall * 1000 for r in found[0]])
    table.row("one booklet: peak memory in MB", [r.peak for r in found[0]])
    table.row("one booklet: size in kB", [pdf.stat().st_size / 1000])
    if len(found) == 1:
        print("the typesetter is left out: typst (PyPI) or pdftotext is missing")
        return
    theirs = [whole.cpu - start.cpu for whole, start in zip(found[1], found[2])]
    table.row("typesetter, equal pages: milliseconds of processor", [t * 1000 for t in theirs])
    table.row("typesetter: times as long as one booklet", [t / r.cpu for t, r in zip(theirs, found[0])])
    print(f"  ({pages} pages, {shapes} shapes; the typesetter {len(typesetter.pages_of(equal))} pages,")
    print("   without the time that Python takes to start)")


def growth(table, program, folder, runs):
    """Time by beads: where it grows in proportion, each more bead takes as long however many there are."""
    made = [designs.triangle(folder / "triangles", width) for width in (10, 20, 40)]
    commands = [[program, "make", path, "--paper", "a4", "--out", folder / "triangles"] for path, _ in made]
    before = None
    for (_, beads), found in zip(made, in_turn(commands, runs)):
        times = [r.cpu for r in found]
        table.row(f"{beads} beads: milliseconds of processor", [t * 1000 for t in times])
        if before:
            fewer, less = before
            more = [(t - s) * 1e6 / (beads - fewer) for t, s in zip(times, less)]
            table.row(f"{fewer} to {beads} beads: microseconds for each more", more)
        before = (beads, times)


def catalogue(table, program, folder, count):
    """A catalogue made from nothing, then gone over with nothing to do."""
    where = folder / "catalogue"
    designs.catalogue(where, count)
    made = run([program, "remake", where, "--paper", "a4"])
    sizes = [path.stat().st_size / 1000 for path in where.glob("*.pdf")]
    if len(sizes) != count:
        raise SystemExit(f"{len(sizes)} booklets of {count} designs")
    table.row("catalogue: booklets a second on the wall", [count / made.wall])
    table.row("catalogue: booklets a second of one processor", [count / made.cpu])
    table.row("catalogue: peak memory in MB", [made.peak])
    table.row("catalogue: size of a booklet in kB", sizes)
    again = [run([program, "remake", where, "--paper", "a4"]) for _ in range(5)]
    table.row("catalogue, nothing to do: seconds of processor", [r.cpu for r in again], 3)
    table.row("catalogue, nothing to do: seconds on the wall", [r.wall for r in again], 3)
    table.row("catalogue, nothing to do: peak memory in MB", [r.peak for r in again])


if __name__ == "__main__":
    main()
