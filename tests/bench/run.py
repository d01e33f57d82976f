#!/usr/bin/env python3
"""How fast booklets are made, on this machine. Figures only: nothing here passes or fails.

    cargo build --release
    pip install -r tests/bench/requirements.txt      for the comparison; pdftotext is needed too
    python3 tests/bench/run.py [--runs 9] [--designs 1000] [--program target/release/fringebook]

With `--against OTHER`, another build of the program, both run in turn and each row shows both: only figures of
one run may be compared. Where valgrind is installed the instructions of one booklet are counted too; they are the
same on a busy machine.
"""

import argparse
import importlib.util
import os
import re
import shutil
import subprocess
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
    ask.add_argument("--against", type=Path, help="an earlier build to compare with")
    ask.add_argument("--runs", type=int, default=9, help="runs of one booklet (9)")
    ask.add_argument("--designs", type=int, default=1000, help="designs in the catalogue (1000)")
    told = ask.parse_args()
    programs = [path.resolve() for path in (told.program, told.against) if path]
    for program in programs:
        if not program.is_file():
            raise SystemExit(f"{program} is not there: `cargo build --release` makes it")
    print(f"{os.cpu_count()} processors; {told.runs} runs each, {told.designs} designs\n")
    table = Table(["now", "before"][: len(programs)])
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        one_booklet(table, programs, folder, told.runs)
        instructions(table, programs, folder)
        growth(table, programs, folder, told.runs)
        logo(table, programs, folder, min(40, told.designs))
        catalogue(table, programs, folder, told.designs)


def make(program, design, folder):
    return [program, "make", design, "--paper", "a4", "--out", folder]


def one_booklet(table, programs, folder, runs):
    """One booklet, the whole process from nothing, beside a general typesetter."""
    commands = [make(program, designs.HERON, folder / str(n)) for n, program in enumerate(programs)]
    for n, command in enumerate(commands):
        (folder / str(n)).mkdir()
        run(command)
    # An earlier build may name its files otherwise.
    pdfs = [next((folder / str(n)).glob("*.pdf")) for n in range(len(programs))]
    has_typesetter = importlib.util.find_spec("typst") and shutil.which("pdftotext")
    if has_typesetter:
        text, pages, shapes = typesetter.source(pdfs[0])
        (folder / "equal.typ").write_text(text, encoding="utf-8")
        equal = folder / "equal.pdf"
        commands.append([sys.executable, "-c", typesetter.COMPILE, folder / "equal.typ", equal])
        commands.append([sys.executable, "-c", typesetter.START])
    found = in_turn(commands, runs)
    ours = found[: len(programs)]
    table.row("one booklet: milliseconds of processor", [[r.cpu * 1000 for r in runs] for runs in ours])
    table.row("one booklet: milliseconds on the wall", [[r.wall * 1000 for r in runs] for runs in ours])
    table.row("one booklet: peak memory in MB", [[r.peak for r in runs] for runs in ours])
    table.row("one booklet: size in kB", [[pdf.stat().st_size / 1000] for pdf in pdfs])
    if not has_typesetter:
        print("the typesetter is left out: typst (PyPI) or pdftotext is missing")
        return
    theirs = [whole.cpu - start.cpu for whole, start in zip(*found[len(programs) :])]
    table.row("typesetter, equal pages: milliseconds of processor", [[t * 1000 for t in theirs]])
    ratios = [[t / r.cpu for t, r in zip(theirs, runs)] for runs in ours]
    table.row("typesetter: times as long as one booklet", ratios)
    print(f"  ({pages} pages, {shapes} shapes; the typesetter {len(typesetter.pages_of(equal))} pages,")
    print("   without the time that Python takes to start)")


def instructions(table, programs, folder):
    """Instructions of one booklet, as valgrind counts them."""
    if not shutil.which("valgrind"):
        print("instructions are not counted: valgrind is missing")
        return
    counted = []
    for program in programs:
        count = ["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null"]
        told = subprocess.run([*count, *make(program, designs.HERON, folder)], capture_output=True, text=True)
        found = re.search(r"Collected : (\d+)", told.stderr)
        if not found:
            raise SystemExit(f"valgrind counts nothing:\n{told.stderr}")
        counted.append([int(found[1]) / 1e6])
    table.row("one booklet: millions of instructions", counted)


def growth(table, programs, folder, runs):
    """Time by beads: where it grows in proportion, each more bead takes as long however many there are."""
    where = folder / "triangles"
    made = [designs.triangle(where, width) for width in (10, 20, 40, 100, 200)]
    before = None
    for path, beads in made:
        # Large ones are measured as well by a few runs.
        found = in_turn([make(program, path, where) for program in programs], max(1, min(runs, 40_000 // beads)))
        times = [[r.cpu for r in runs] for runs in found]
        table.row(f"{beads} beads: milliseconds of processor", [[t * 1000 for t in each] for each in times])
        if before:
            fewer, less = before
            more = [[(t - s) * 1e6 / (beads - fewer) for t, s in zip(*both)] for both in zip(times, less)]
            table.row(f"{fewer} to {beads} beads: microseconds for each more", more)
        before = (beads, times)


def logo(table, programs, folder, count):
    """Some booklets with a large logo."""
    where = folder / "logo"
    designs.with_logo(where, count)
    paths = sorted(where.glob("heron-*.yaml"))
    commands = [[program, "make", *paths, "--paper", "a4"] for program in programs]
    found = in_turn(commands, 1)
    table.row(f"{count} booklets with a logo of 8 MB: seconds on the wall", [[r.wall for r in runs] for runs in found])
    table.row(f"{count} booklets with a logo of 8 MB: peak memory in MB", [[r.peak for r in runs] for runs in found])


def catalogue(table, programs, folder, count):
    """A catalogue made from nothing, then gone over with nothing to do."""
    made, again, sizes = [], [], []
    for n, program in enumerate(programs):
        where = folder / f"catalogue-{n}"
        designs.catalogue(where, count)
        made.append(run([program, "remake", where, "--paper", "a4"]))
        sizes.append([path.stat().st_size / 1000 for path in where.glob("*.pdf")])
        if len(sizes[n]) != count:
            raise SystemExit(f"{len(sizes[n])} booklets of {count} designs")
        again.append([run([program, "remake", where, "--paper", "a4"]) for _ in range(5)])
    table.row("catalogue: booklets a second on the wall", [[count / r.wall] for r in made])
    table.row("catalogue: booklets a second of one processor", [[count / r.cpu] for r in made])
    table.row("catalogue: peak memory in MB", [[r.peak] for r in made])
    table.row("catalogue: size of a booklet in kB", sizes)
    table.row("catalogue, nothing to do: seconds of processor", [[r.cpu for r in runs] for runs in again], 3)
    table.row("catalogue, nothing to do: seconds on the wall", [[r.wall for r in runs] for runs in again], 3)
    table.row("catalogue, nothing to do: peak memory in MB", [[r.peak for r in runs] for runs in again])


if __name__ == "__main__":
    main()
