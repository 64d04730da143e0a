"""What a dough needs made before its mix: from the solved formula to the planner's asides."""

from __future__ import annotations

from collections.abc import Mapping

from assistant.answers.what_ferments import fresh_pct
from assistant.engine.dough import Formula, PrefermentDetail
from assistant.engine.growth import Constants
from assistant.engine.plan.asked import Aside
from assistant.engine.rising import Dough
from knowledge import Knowledge
from knowledge.records.preferments import PrefermentKind
from knowledge.records.yeasts import Yeast

_HOUSE_YEAST = "yeast_instant"


def asides_of(formula: Formula, kb: Knowledge, records: Mapping[str, Constants]) -> tuple[Aside, ...]:
    """A poolish, biga, sponge, scald or soaker of the dough, each with what goes in and how long it takes."""
    kinds = kb.all(PrefermentKind)
    return tuple(
        _aside(part, kinds[part.item], formula, kb, records)
        for part in formula.preferments
        if part.item in kinds and kinds[part.item].made_ahead and part.g > 0
    )


def _aside(
    part: PrefermentDetail, kind: PrefermentKind, formula: Formula, kb: Knowledge, records: Mapping[str, Constants]
) -> Aside:
    ripe = records["preferment_stop"].values
    yeast = next((row.item for row in formula.rows if row.item in kb.all(Yeast)), _HOUSE_YEAST)
    flour = next((row.item for row in formula.rows if row.role == "flour"), "flour_bread")
    solid = (flour, part.flour_g) if part.flour_g > 0 else ("grain", part.grain_g)
    salt = ("salt_table", part.salt_g)
    rows = tuple((item, g) for item, g in (solid, ("water", part.water_g), (yeast, part.yeast_g), salt) if g > 0)
    own_pct = 100 * part.yeast_g / part.flour_g if part.flour_g > 0 else 0.0
    fresh = fresh_pct(kb, ((yeast, own_pct),)) if own_pct else 0.0
    return Aside(
        item=part.item,
        g=part.g,
        rows=rows,
        dough=Dough(part.hydration_pct, yeast_fresh_pct=fresh) if kind.raises and fresh > 0 else None,
        rise_pct=ripe.get(f"{part.item}_pct", 100.0),
        low_h=kind.stands_low_h,
        usual_h=kind.stands_usual_h,
        high_h=kind.stands_high_h,
        keeps_h=kind.keeps_h,
        keeps_cold_h=kind.keeps_cold_h,
    )
