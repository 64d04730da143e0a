"""Measures the recipe reader on a table of real lines: the share read, and the miss where a line states both measures.

    python tests/bench/recipe_lines.py LINES.tsv [--worst N] [--unread] [--flagged]

The table has a header and tab-separated columns, of which `line`, `stated_g`, `states_both` and `flags` are used. For
the miss every stated mass is cut out of the line's text, the rest is read afresh as if nothing else had stood there,
and the grams found are compared with the stated ones. Lines flagged `suspect` or with two different gram figures are
left out of the miss unless --flagged is given.
"""

from __future__ import annotations

import argparse
import csv
import statistics
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from assistant.engine.measures import MeasureBook, measure_book
from assistant.engine.recipe import WeighedLine, weigh_line
from assistant.papers.recipe_words import recipe_words
from assistant.papers.recipes import stated
from grammar.recipe.line import read_lines
from grammar.recipe.words import RecipeWords
from knowledge import load


def weighed(text: str, words: RecipeWords, book: MeasureBook) -> tuple[WeighedLine, ...]:
    return tuple(weigh_line(stated(line), "us", book) for line in read_lines(text, words))


def main() -> int:
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("table", type=Path)
    options.add_argument("--worst", type=int, default=0, help="show the lines with the largest misses")
    options.add_argument("--unread", action="store_true", help="show the lines not read")
    options.add_argument("--flagged", action="store_true", help="count lines flagged as suspect too")
    asked = options.parse_args()
    kb = load()
    words, book = recipe_words(kb), measure_book(kb)
    with asked.table.open(encoding="utf-8", newline="") as table:
        rows = list(csv.DictReader(table, delimiter="\t", quoting=csv.QUOTE_NONE))
    read = unknown = unweighed = 0
    misses: list[tuple[float, str, float, float]] = []
    for row in rows:
        found = weighed(row["line"], words, book)
        good = bool(found) and all(line.read for line in found)
        read += good
        unknown += good and any(line.item is None for line in found)
        if asked.unread and not good:
            print("unread:", row["line"], "|", "; ".join(r for line in found for r in line.remarks))
        doubtful = "suspect" in row["flags"] or "two gram" in row["flags"] or "two ounce" in row["flags"]
        if row["states_both"] != "yes" or (doubtful and not asked.flagged):
            continue
        text = read_lines(row["line"], words)[0].without("mass")
        volume = weighed(text, words, book)
        given = float(row["stated_g"])
        if volume and volume[0].g is not None:
            misses.append((100 * abs(volume[0].g / given - 1), row["line"], given, volume[0].g))
        else:
            unweighed += 1
            if asked.unread:
                print("no weight by volume:", text, "|", "; ".join(r for line in volume for r in line.remarks))
    for miss, line, given, got in sorted(misses, reverse=True)[: asked.worst]:
        print(f"{miss:5.1f} %  {given:g} g stated, {got:.1f} g found  {line}")
    sizes = sorted(miss for miss, *_ in misses)
    share = 100 * read / max(1, len(rows))
    print(f"lines {len(rows)}, read {read} ({share:.1f} %), of them {unknown} by weight with an ingredient not known")
    if sizes:
        p90 = sizes[min(len(sizes) - 1, int(0.9 * len(sizes)))]
        within = 100 * sum(size <= 15 for size in sizes) / len(sizes)
        print(
            f"both measures {len(sizes)} (+ {unweighed} without a weight by volume): "
            f"median miss {statistics.median(sizes):.1f} %, p90 {p90:.1f} %, within 15 %: {within:.0f} %"
        )
    return 0


if __name__ == "__main__":
    sys.exit(main())
