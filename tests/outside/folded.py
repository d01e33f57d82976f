"""Sheets to fold: read back side by side, folded, and turned page by page.

poppler reads the left and the right half of every side by itself; the number that each page tells of itself at its foot
must be the one that a reader comes to there.
"""

import re
import subprocess


def sides(path):
    """The number that each half of each side tells, left before right; None of one that tells none."""
    told = subprocess.run(["pdfinfo", path], capture_output=True, text=True, check=True).stdout
    count = int(re.search(r"^Pages:\s+(\d+)", told, re.M)[1])
    width, height = (float(x) for x in re.search(r"^Page size:\s+([\d.]+) x ([\d.]+)", told, re.M).groups())
    if width < height:
        raise ValueError(f"sheets are upright: {width} x {height}")
    half = round(width / 2)
    for side in range(1, count + 1):
        numbers = []
        for left in (0, half):
            box = ["-x", left, "-y", 0, "-W", half, "-H", round(height)]
            asked = ["pdftotext", "-f", side, "-l", side, *box, "-r", 72, path, "-"]
            words = subprocess.run([str(a) for a in asked], capture_output=True, text=True, check=True).stdout
            found = re.search(r"Page (\d+) of (\d+)", words)
            numbers.append((int(found[1]) if found else None, int(found[2]) if found else None, bool(words.strip())))
        yield numbers


def check(path, scratch):
    if "-folded" not in path:
        return
    halves = list(sides(path))
    if len(halves) % 2:
        yield f"{len(halves)} sides: a sheet has two"
    sheets = list(zip(halves[::2], halves[1::2]))
    inwards = [half for front, back in sheets for half in (front[1], back[0])]
    outwards = [half for front, back in reversed(sheets) for half in (back[1], front[0])]
    turned = inwards + outwards
    pages = next(of for _, of, _ in turned if of)
    if len(turned) != -(-pages // 4) * 4:
        yield f"{pages} pages on {len(sheets)} sheets"
    for place, (number, _, printed) in enumerate(turned, 1):
        # The cover has no number, and after the last page all is blank.
        expected = place if 1 < place <= pages else None
        if number != expected:
            yield f"the reader turns to page {place} and finds {number}"
        if printed != (place <= pages):
            yield f"page {place} is {'printed' if printed else 'blank'}"
