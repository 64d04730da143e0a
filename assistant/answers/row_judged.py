"""Whether so much of one thing in a dough is the usual: its share of the flour held against the bread's range."""

from __future__ import annotations

from assistant.engine.dough import Formula
from assistant.engine.naming import article, figure, grams, short_name
from assistant.talk.reply import Outcome
from assistant.voice.page import Line, Page
from knowledge import Knowledge
from knowledge.records.breads import Bread

_ANY_SALT_PCT = (1.0, 3.0)
_ANY_HYDRATION_PCT = (50.0, 85.0)
"""What most doughs have, in % of the flour, where the bread is not known; what is outside is remarked on as unusual."""


def row_judged(items: tuple[str, ...], formula: Formula, bread: Bread | None, kb: Knowledge) -> Outcome:
    """The share of the first of these that is in the dough, and whether that is little, usual or much."""
    item = next((one for one in items if formula.row_g(one) > 0 or (one == "water" and formula.water_g > 0)), None)
    if item is None:
        text = f"No {short_name(kb.ingredients[items[0]])} in this dough."
        return Outcome("explanation", {"topic": items[0], "text": text}, "what is in the dough", Page((Line(text),)))
    g = formula.water_g if item == "water" else formula.row_g(item)
    pct, name = 100 * g / formula.flour_g, short_name(kb.ingredients[item])
    head = f"{name[:1].upper()}{name[1:]} {figure(pct)} % of the flour, {grams(g)} g"
    usual = _range(item, bread, kb)
    if usual is None:
        text = f"{head}."
        return Outcome("explanation", {"topic": item, "text": text}, f"how much {name}", Page((Line(text),)))
    low, high = usual
    verdict = "little" if pct < low - 0.05 else "much" if pct > high + 0.05 else "the usual"
    of = article(bread.name.lower()) if bread is not None else "most doughs"
    text = f"{head}: {verdict}; {figure(low)} to {figure(high)} % for {of}."
    fields = {"topic": item, "text": text, "pct": pct, "g": g, "usual_pct": [low, high], "enough": verdict != "little"}
    return Outcome("explanation", fields, f"whether {figure(pct)} % {name} is enough", Page((Line(text, role="head"),)))


def _range(item: str, bread: Bread | None, kb: Knowledge) -> tuple[float, float] | None:
    """The usual share of a thing in a bread, in % of the flour; None where nothing is known of it."""
    if item == "water":
        return (bread.hydration_low_pct, bread.hydration_high_pct) if bread is not None else _ANY_HYDRATION_PCT
    if kb.ingredients[item].group == "salt":
        return (bread.salt_low_pct, bread.salt_high_pct) if bread is not None else _ANY_SALT_PCT
    return None
