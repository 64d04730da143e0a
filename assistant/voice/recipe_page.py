"""A converted recipe as it is read: what each line weighs, what was made of it, the dough it makes."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.engine.dough import Formula
from assistant.engine.naming import figure, grams
from assistant.engine.recipe import WeighedLine
from assistant.voice.page import Block, Line, Page, Table

LONGEST_SAID = 38
WORTH_SHOWING = 1.08
"""How far apart low and high are before they are shown."""


def recipe_page(
    title: str, lines: Sequence[WeighedLine], formula: Formula | None, remarks: Sequence[str], assumed: Sequence[str],
    cautions: Sequence[str], more: Sequence[Block],
) -> Page:  # fmt: skip
    """The page of a recipe: a row a line, then the dough's figures; the dough's own table is held back for "more"."""
    blocks: list[Block] = []
    if title:
        blocks.append(Line(title, role="head"))
    blocks.append(Table(tuple(_row(line) for line in lines), "lrl", heads=("as written", "g", "")))
    if formula is not None:
        blocks.append(Line(_dough(formula)))
    blocks += [Line(remark, role="note") for remark in remarks]
    if assumed:
        blocks.append(Line("Assumed: " + "; ".join(assumed) + "."))
    blocks += [Line(caution, role="warn") for caution in cautions]
    return Page((*blocks, *more))


def _row(line: WeighedLine) -> tuple[str, str, str]:
    said = line.text if len(line.text) <= LONGEST_SAID else line.text[: LONGEST_SAID - 1].rstrip() + "…"
    if line.g is None:
        return said, "-", "not read" if not line.read else "to taste"
    ranged = line.by in ("volume", "count") and line.low_g is not None and line.high_g is not None
    wide = ranged and (line.high_g or 0) > WORTH_SHOWING * (line.low_g or 0)
    spread = f"{grams(line.low_g or 0)}-{grams(line.high_g or 0)}" if wide else ""
    if line.part == "outside":
        spread = f"{spread} not in the dough".strip()
    return said, grams(line.g), spread if line.read else "not read"


def _dough(formula: Formula) -> str:
    parts = [f"{grams(formula.dough_g)} g dough", f"true hydration {figure(formula.hydration_pct)} %"]
    parts.append(f"salt {figure(formula.salt_pct)} %")
    if formula.starter is not None and formula.starter_pct is not None:
        parts.append(f"starter {figure(formula.starter_pct)} %")
    if formula.pieces is not None and formula.piece_g is not None:
        word = "piece" if formula.pieces == 1 else "pieces"
        parts.append(f"{figure(formula.pieces)} {word} of {figure(formula.piece_g)} g")
    return ", ".join(parts) + ". It is the dough in hand now: say for how many, and it scales."
