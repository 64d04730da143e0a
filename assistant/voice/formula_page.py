"""A dough as it is read at the bench: rows in pouring order, the scale after each, what was assumed, allergens."""

from __future__ import annotations

import re

from assistant.engine.dough import Formula, PrefermentDetail
from assistant.engine.naming import figure, grams
from assistant.engine.rounding import grams_text, whole_grams
from assistant.voice.page import Block, Line, Page, Table, wrapped

COMPACT_LINES, COMPACT_WIDTH = 2, 80
"""Lines of text beside the table before the rest waits for "more"; what must be known before weighing always shows."""
_USUAL = re.compile(r" \((?:usual for [^)]*|a lean dough)\)")
_PREFERMENT = re.compile(r"(?:poolish|biga|sponge|old dough|scald|soaker) at |.* of the \w+'s flour")


def formula_page(
    formula: Formula, name: str, answered: tuple[str, ...], assumed: tuple[str, ...], cautions: tuple[str, ...]
) -> Page:
    """The page of one dough.

    name: what the pieces are called; answered: lines for what was asked outright, shown first; assumed: what was not
    said; cautions: notes to show, the allergens last.
    """
    blocks: list[Block] = [Line(line, role="head") for line in answered]
    blocks.append(_table(formula, name))
    blocks += [Line(_preferment(detail)) for detail in formula.preferments if detail.item != "old_discard"]
    blocks += [Line(_sentence(remark), role="warn") for remark in formula.remarks]
    if assumed:
        blocks.append(Line("Assumed: " + "; ".join(brief(assumed)) + "."))
    shown = [block.text for block in blocks if isinstance(block, Line) and block.role != "warn"]
    room = COMPACT_LINES - sum(len(wrapped(text, COMPACT_WIDTH)) for text in shown)
    for offer in formula.offers:
        room -= len(wrapped(_sentence(offer), COMPACT_WIDTH))
        blocks.append(Line(_sentence(offer), role="note", more=room < 0))
    blocks += [Line(caution, role="warn") for caution in cautions]
    blocks += [Line(f"Assumed in full: {'; '.join(assumed)}.", more=True)] if assumed else []
    blocks += [Line(line, more=True) for line in _more(formula)]
    return Page(tuple(blocks))


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}{'' if words.endswith(('?', '!')) else '.'}"


def brief(assumed: tuple[str, ...]) -> list[str]:
    """What was assumed without the words a baker can do without: `starter 20 % at 100 %; salt 2 %; loss 1 %`.

    What a preferment is made of stands in its own line; which bread's usual figure it is, in the full list.
    """
    out: list[str] = []
    for words in assumed:
        if _PREFERMENT.match(words):
            continue
        short = words.replace(" of the flour outside it", "").replace(" of flour", "").replace("bench loss", "loss")
        short = _USUAL.sub("", short)
        if short.startswith("starter at "):
            short = short.replace(" hydration", "")
            if out and out[-1].startswith("starter ") and out[-1].endswith("%"):
                out[-1] += short.removeprefix("starter")
                continue
        out.append(short)
    return out


def summary(formula: Formula, name: str) -> str:
    """The dough in a few words: `18 rolls x 95 g at 60 %`."""
    at = f"at {figure(formula.hydration_pct)} %"
    if formula.pieces is None or formula.piece_g is None:
        return f"{grams(formula.dough_g)} g dough {at}"
    many = f"{figure(formula.pieces)}{' ' + name if name else ''}"
    return f"{many} x {figure(formula.piece_g)} g {at}"


def _table(formula: Formula, name: str) -> Table:
    weighed = whole_grams([row.g for row in formula.rows])
    rows = tuple(
        (row.name, grams_text(g), grams_text(reading), f"{row.pct:.1f}")
        for row, g, reading in zip(formula.rows, weighed.rows_dg, weighed.readings_dg, strict=True)
    )
    return Table(rows, "lrrr", heads=(summary(formula, name), "g", "scale", "%"))


def _preferment(detail: PrefermentDetail) -> str:
    parts = [f"{grams(detail.flour_g)} flour"] if detail.flour_g > 0.05 else []
    parts += [f"{grams(detail.grain_g)} grain or seed"] if detail.grain_g > 0.05 else []
    parts.append(f"{grams(detail.water_g)} water")
    parts += [f"{figure(detail.yeast_g)} yeast"] if detail.yeast_g > 0 else []
    parts += [f"{grams(detail.salt_g)} salt"] if detail.salt_g > 0 else []
    return f"{detail.name[0].upper()}{detail.name[1:]} {grams(detail.g)} g: {' + '.join(parts)}."


def _more(formula: Formula) -> list[str]:
    """What share came from where, and the figures behind the rows."""
    names = {row.item: row.name.split(",")[0] for row in formula.rows}
    water = [f"{grams(formula.poured_g)} poured"] if formula.poured_g > 0 else []
    inside = {item: g for item, g in formula.water_from.items() if item != "water" and g > 0.5}
    water += [f"{grams(g)} in the {names.get(item, item)}" for item, g in inside.items()]
    lines = [f"Water {grams(formula.water_g)} g: {' + '.join(water)}; {figure(formula.hydration_pct)} % of the flour."]
    flour = [f"{grams(row.g)} {row.name}" for row in formula.rows if row.role == "flour"]
    if formula.starter is not None:
        flour.append(f"{grams(formula.starter.flour_g)} in the starter")
    flour += [f"{grams(part.flour_g)} in the {part.name}" for part in formula.preferments if part.flour_g > 0.05]
    lines.append(f"Flour {grams(formula.flour_g)} g: {' + '.join(flour)}.")
    if formula.starter is not None and formula.starter_pct is not None:
        starter = formula.starter
        lines.append(
            f"Starter {grams(starter.g)} g at {figure(starter.hydration_pct)} %: {grams(starter.flour_g)} flour + "
            f"{grams(starter.water_g)} water; {figure(formula.starter_pct)} % of the flour outside it, "
            f"{figure(formula.prefermented_pct)} % of all flour prefermented."
        )
    salt = f"Salt {figure(formula.salt_pct)} % of flour"
    if formula.salt_total_pct - formula.salt_pct >= 0.05:
        salt += f", {figure(formula.salt_total_pct)} % with what is in other things"
    lines.append(salt + ".")
    if formula.loss_pct:
        lines.append(f"Dough {grams(formula.dough_g)} g: {figure(formula.loss_pct)} % over for bowl and bench.")
    if formula.baked_g is not None:
        lines.append(f"Baked: about {figure(formula.baked_g)} g a piece.")
    return lines
