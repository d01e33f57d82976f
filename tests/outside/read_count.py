"""Reads what `count` wrote with Python's standard library alone and prints one line a thing.

Usage: read_count.py COUNT.csv COUNT.json. Both files must say the same; the lines are
kind, key, amount needed (grams, millimetres or pieces), what to buy, price.
"""

import csv
import json
import sys


def from_csv(path):
    with open(path, newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file, strict=True))
    return [
        (
            row["kind"],
            row["key"],
            float(row["needed"]),
            float(row["packs to buy"]) if row["packs to buy"] else None,
            float(row["price"]) if row["price"] else None,
        )
        for row in rows
    ]


def from_json(path):
    with open(path, encoding="utf-8") as file:
        whole = json.load(file)
    lines = [("bead", b["key"], b["grams"], b["packs_to_buy"], b["price"]) for b in whole["beads"]]
    lines += [("thread", t["key"], t["length_mm"], t["spools_to_buy"], t["price"]) for t in whole["threads"]]
    lines += [("finding", f["key"], float(f["count"]), None, f["price"]) for f in whole["findings"]]
    return lines, whole


def same(one, other):
    return one == other or (None not in (one, other) and abs(one - other) < 0.005)


def main():
    table = from_csv(sys.argv[1])
    lines, whole = from_json(sys.argv[2])
    assert len(table) == len(lines) > 0, (table, lines)
    for row, line in zip(table, lines):
        assert row[:2] == line[:2] and all(map(same, row[2:], line[2:])), (row, line)
    for line in lines:
        print(*("-" if cell is None else cell for cell in line), sep="\t")
    prices = [line[4] for line in lines]
    if None not in prices and whole["currency"]:
        assert abs(sum(prices) - whole["cost"]) < 0.005, (sum(prices), whole["cost"])
    print("designs", *(f"{d['slug']}={d['pairs']}" for d in whole["designs"]), sep="\t")


main()
