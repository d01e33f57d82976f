"""Runs the checks by outside programs over a folder of painted PDFs: `run.py FOLDER`.

Ends with 1 if anything is wrong. Every file is checked for soundness, standards, tags, counts, links and
boxes to tick. Contrast is looked at where colours differ: in every edition in English on A4, as a
language changes no colour. Faults are seeded into the first booklet and the first bench copy. Ticks of
five programs are carried over to newer bench copies of one of the demo designs. The pages of some booklets are
compared with their pictures.
"""

import os
import sys
import tempfile
import traceback
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import carried
import codes
import contrast
import counts
import faults
import folded
import links
import screens
import sound
import standards
import tags
import ticks

# The hand-made fixture is no booklet: it has no materials and no rows, and its links lead anywhere.
ANY_FILE = [sound.check, standards.check, ticks.check]
DESIGNS = Path(__file__).parents[2] / "demo-designs"
BOOKLETS = [tags.check, counts.check, links.check, codes.check]


def problems_of(check, path, scratch):
    try:
        return list(check(str(path), scratch))
    except Exception:  # a reader that gives up on a file has found something
        return [f"{check.__module__}: {traceback.format_exc()}"]


def checked(path, checks):
    """What is wrong with a file."""
    with tempfile.TemporaryDirectory() as scratch:
        return [p for check in checks for p in problems_of(check, path, Path(scratch))]


def checks_for(path):
    checks = [*ANY_FILE]
    if "-cards" in path.name:
        # One card of each sheet is told; it has no rows and no strands.
        pass
    elif "-folded" in path.name:
        # Its places are those of sheets; what it says and how it is tagged is as in the booklet.
        checks += [tags.check, folded.check]
    elif "-tablet" in path.name:
        # Its rows and strands stand on screens, not in tables.
        checks += [links.check]
        if path.parent.name == "en":
            checks.append(contrast.check)
    elif "fixture" not in path.name:
        checks += BOOKLETS
        # A house style has colours of its own.
        colours = path.parent.name == "en" or "house-style" in path.parts
        if colours and not any(f"-{paper}" in path.name for paper in ("letter", "a5")):
            checks.append(contrast.check)
    return checks


def main(folder):
    files = sorted(f for f in Path(folder).glob("**/*.pdf") if f.parent.parent.name != "screen")
    shown = sorted((Path(folder) / "screen").iterdir())
    benches = [f for f in files if f.name.endswith("-bench-a4.pdf")]
    booklets = [f for f in files if not any(w in f.name for w in ("bench", "fixture", "grey", "large", "letter", "a5", "folded", "cards", "tablet"))]
    # Faults are seeded into a booklet that has everything: the same one whatever other designs there are.
    booklets.sort(key=lambda f: not f.name.startswith("heron"))
    benches.sort(key=lambda f: not f.name.startswith("heron"))
    if not booklets or not benches:
        print(f"no booklets or no bench copies in {folder}")
        return 1
    if not ticks.has_pdfjs():
        print("SKIPPED: boxes are not ticked in pdf.js, which is not installed (it needs Node)")
    wrong = 0
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        halves = [files[::2], files[1::2]]
        archived = [pool.submit(standards.preflight, half) for half in halves]
        jobs = [(f"faults seeded into {booklets[0].name}", pool.submit(checked, booklets[0], [faults.check]))]
        jobs += [(f"faults seeded into {benches[0].name}", pool.submit(checked, benches[0], [faults.check_bench]))]
        jobs += [(f"pages of {f.name} on screen", pool.submit(checked, f, [screens.check])) for f in shown]
        jobs += [("ticks carried over to newer bench copies", pool.submit(checked, DESIGNS, [carried.check]))]
        jobs += [(str(f.relative_to(folder)), pool.submit(checked, f, checks_for(f))) for f in files]
        of_archive = {
            str(f.relative_to(folder)): found
            for half, answer in zip(halves, archived)
            for f, found in zip(half, answer.result())
        }
        for name, answer in jobs:
            found = answer.result() + of_archive.get(name, [])
            print("ok  " if not found else "FAIL", name, flush=True)
            for problem in found:
                print("     ", problem)
            wrong += len(found)
    print(f"{len(files)} files, {wrong} problems")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
