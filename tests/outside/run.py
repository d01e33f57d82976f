"""Runs the checks by outside programs over a folder of painted PDFs: `run.py FOLDER`.

Ends with 1 if anything is wrong. Every file is checked for soundness, standards, tags, counts and boxes
to tick; faults are seeded into the first booklet.
"""

import os
import sys
import tempfile
import traceback
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import counts
import faults
import sound
import standards
import tags
import ticks

CHECKS = [sound.check, standards.check, tags.check, counts.check, ticks.check]


def problems_of(check, path, scratch):
    try:
        return list(check(str(path), scratch))
    except Exception:  # a reader that gives up on a file has found something
        return [f"{check.__module__}: {traceback.format_exc()}"]


def checked(path):
    """What is wrong with a file. The hand-made fixture is no booklet: it has no materials and no rows."""
    checks = [c for c in CHECKS if "fixture" not in path.name or c not in (counts.check, tags.check)]
    with tempfile.TemporaryDirectory() as scratch:
        return [p for check in checks for p in problems_of(check, path, Path(scratch))]


def seeded(path):
    """Faults seeded into a file that nothing noticed."""
    with tempfile.TemporaryDirectory() as scratch:
        return problems_of(faults.check, path, Path(scratch))


def main(folder):
    files = sorted(Path(folder).glob("**/*.pdf"))
    booklets = [f for f in files if not any(w in f.name for w in ("bench", "fixture", "grey", "large"))]
    if not booklets:
        print(f"no booklets in {folder}")
        return 1
    wrong = 0
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        answers = [(str(f.relative_to(folder)), pool.submit(checked, f)) for f in files]
        answers.append((f"faults seeded into {booklets[0].name}", pool.submit(seeded, booklets[0])))
        for name, answer in answers:
            found = answer.result()
            print("ok  " if not found else "FAIL", name, flush=True)
            for problem in found:
                print("     ", problem)
            wrong += len(found)
    print(f"{len(files)} files, {wrong} problems")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
