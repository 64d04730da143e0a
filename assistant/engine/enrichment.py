"""Fat, sugar, egg, yeast and the rest: the amounts said, and the usual one where there is one."""

from __future__ import annotations

from dataclasses import replace

from assistant.engine.givens import Extra
from assistant.engine.house import Gaps
from assistant.engine.naming import article, figure, short_name
from assistant.engine.sorted_givens import joined
from knowledge.records.usual_doughs import UsualDough
from knowledge.records.yeasts import Yeast


def extras_of(gaps: Gaps) -> tuple[Extra, ...]:
    """The extras said, amounts filled in where one is usual, and what the bread's usual dough adds."""
    said, kb = gaps.said, gaps.kb
    out: list[Extra] = []
    for extra in said.extras:
        if extra.item in said.without:
            continue
        if extra.item in kb.all(Yeast) and "yeast" in said.without:
            continue
        if extra.pct is None and extra.g is None:
            usual = usual_amount(gaps, extra.item)
            if usual is None:
                gaps.open_items.append(extra.item)
                continue
            extra = replace(extra, pct=usual)
        out.append(replace(extra, late=extra.late or extra.item in said.late))
    if said.usual and gaps.bread is not None:
        out += usual_extras(gaps, out)
    return joined(out)


def usual_amount(gaps: Gaps, item: str) -> float | None:
    """What is usual of something named without an amount; None where nothing is."""
    if item in gaps.kb.all(Yeast):
        return gaps.usual_yeast_pct(item)
    name, group = short_name(gaps.kb.ingredients[item]), gaps.kb.ingredients[item].group
    if gaps.bread is not None:
        usual = {
            "fat": gaps.bread.fat_usual_pct, "sugar": gaps.bread.sugar_usual_pct, "egg": gaps.bread.egg_usual_pct,
        }.get(group, 0.0)  # fmt: skip
        if usual > 0:
            gaps.layers[item] = "assumed"
            gaps.assumed.append(f"{name} {figure(usual)} % of flour (usual for {article(gaps.bread.name.lower())})")
            return usual
    return None


def usual_extras(gaps: Gaps, said: list[Extra]) -> list[Extra]:
    assert gaps.bread is not None
    blank = UsualDough(id=gaps.bread.id, source=gaps.bread.source, confidence=gaps.bread.confidence)
    usual = gaps.usual if gaps.usual is not None else blank
    groups = {gaps.kb.ingredients[extra.item].group for extra in said}
    out: list[Extra] = []
    for item, pct in (
        (usual.fat, gaps.bread.fat_usual_pct),
        (usual.sugar, gaps.bread.sugar_usual_pct),
        (usual.egg, gaps.bread.egg_usual_pct),
    ):
        ingredient = gaps.kb.ingredients[item]
        if pct <= 0 or ingredient.group in groups or item in gaps.said.without:
            continue
        gaps.layers[item] = "assumed"
        gaps.assumed.append(f"{short_name(ingredient)} {figure(pct)} % of flour")
        out.append(Extra(item, pct=pct))
    return out
