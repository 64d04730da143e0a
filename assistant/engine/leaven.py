"""What raises the dough: the starter said, a yeast that stands in for it, or what is usual."""

from __future__ import annotations

from assistant.engine.givens import Extra
from assistant.engine.house import HOUSE_STARTER_PCT, HOUSE_YEAST, Gaps
from knowledge.records.preferments import PrefermentKind as KindRecord


def leaven_of(gaps: Gaps, extras: tuple[Extra, ...]) -> tuple[float | None, float | None, bool, tuple[Extra, ...]]:
    """Starter percentages, whether there is a starter, and the extras with a yeast that stands in for it."""
    said = gaps.said
    if "starter" in said.without:
        raised = raised_otherwise(gaps, extras) or said.from_masses or "yeast" in said.without
        return None, None, False, extras if raised else (*extras, *stand_in_yeast(gaps))
    if said.prefermented_pct is not None or said.starter_pct is not None:
        which = "starter_pct" if said.starter_pct is not None else "prefermented_pct"
        gaps.layers[which] = "said"
        share = said.starter_pct if said.starter_pct is not None else said.prefermented_pct
        return said.starter_pct, said.prefermented_pct, bool(share), extras
    if said.starter_g is not None and not starter_is_the_size(gaps):
        gaps.layers["starter_pct"] = "solved"
        return None, None, said.starter_g > 0, extras
    raised = raised_otherwise(gaps, extras)
    if said.starter_g is None and (raised or said.from_masses):
        return None, None, False, extras
    usual = HOUSE_STARTER_PCT
    if gaps.bread is not None:
        usual = gaps.bread.starter_usual_pct
        if usual == 0 and said.starter_g is None:
            yeasted = gaps.bread.yeast_fresh_usual_pct > 0 and "yeast" not in said.without
            return None, None, False, (*extras, *stand_in_yeast(gaps)) if yeasted else extras
    usual = usual or HOUSE_STARTER_PCT
    pct = gaps.filled(
        "starter_pct", None, gaps.defaults.starter_pct, usual, "starter {} % of the flour outside it"
    )
    return pct, None, True, extras


def starter_is_the_size(gaps: Gaps) -> bool:
    """A starter to be used up, and nothing else that says how much dough."""
    said = gaps.said
    each = said.piece_g or said.baked_g or gaps.defaults.piece_g or gaps.bread
    pieces = said.pieces if each is not None else None
    sizes = (pieces, said.dough_g, said.bowl_flour_g, said.all_flour_g, said.water_g, said.tin, said.portions)
    return sizes == (None,) * 7 and not any(x.g is not None for x in said.flours) and not said.from_masses


def raised_otherwise(gaps: Gaps, extras: tuple[Extra, ...]) -> bool:
    kinds = gaps.kb.all(KindRecord)
    groups = (gaps.kb.ingredients[extra.item].group for extra in extras)
    return any(group == "leavening" for group in groups) or any(
        kinds[preferment.kind].raises for preferment in gaps.said.preferments
    )


def stand_in_yeast(gaps: Gaps) -> tuple[Extra, ...]:
    return (Extra(HOUSE_YEAST, pct=gaps.usual_yeast_pct(HOUSE_YEAST)),)
