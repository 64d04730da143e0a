"""A solved dough as a batch that ferments, is worked and baked: what raises it, what spoils in it, its pieces."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.bread_meant import process_of
from assistant.answers.fermentation_models import models, pressure_of
from assistant.answers.learned import pace_of
from assistant.answers.plan_asides import asides_of
from assistant.answers.what_ferments import bran_share, fresh_in
from assistant.engine.dough import Formula, Row
from assistant.engine.plan.asked import Batch
from assistant.engine.plan.batches import usual_batch
from assistant.engine.refusal import Refused
from assistant.engine.rising import Dough
from assistant.talk.room import Room
from grammar.requests.plan import PlanRequest
from knowledge import Knowledge
from knowledge.records.breads import Bread
from knowledge.records.ingredients import Ingredient

_WET_DAIRY_PCT = 40.0


def dough_of(formula: Formula, kb: Knowledge) -> Dough:
    """The solved dough as something that ferments."""
    starter_pct, starter_hydration_pct = _seed(formula)
    return Dough(
        hydration_pct=formula.hydration_pct,
        salt_pct=formula.salt_total_pct,
        starter_pct=starter_pct,
        starter_hydration_pct=starter_hydration_pct,
        yeast_fresh_pct=fresh_in(formula, kb),
        sugar_pct=sum(
            row.pct * (item.sugar_pct or 0.0) / 100 for row, item in _rows(formula, kb) if item.group == "sugar"
        ),
        wholegrain_share=bran_share(formula, kb),
    )


def ripe_preferment(formula: Formula) -> str | None:
    """What raises a dough that has neither starter nor yeast of its own: the name of its preferment, else None."""
    own = formula.starter is not None or any(row.item.startswith("yeast") for row in formula.rows)
    if own or not formula.preferments:
        return None
    return formula.preferments[0].name


def _seed(formula: Formula) -> tuple[float, float]:
    """Ripe starter as a share of the flour outside it, and its hydration; a ripe preferment counts as starter."""
    starter = formula.starter
    if starter is not None and starter.g > 0:
        return formula.starter_pct or 0.0, starter.hydration_pct
    if ripe_preferment(formula) is None:
        return 0.0, 100.0
    g = sum(part.g for part in formula.preferments)
    flour_g = sum(part.flour_g for part in formula.preferments)
    if flour_g <= 0 or flour_g >= formula.flour_g:
        return 0.0, 100.0
    return 100 * g / (formula.flour_g - flour_g), formula.preferments[0].hydration_pct


def perishable(formula: Formula, kb: Knowledge) -> bool:
    """Whether egg or milk is in the dough (butter and dry powders aside)."""
    return any(
        item.group == "egg" or (item.group == "dairy" and (item.water_pct or 0.0) > _WET_DAIRY_PCT)
        for row, item in _rows(formula, kb)
        if row.pct >= 1
    )


def batch_of(request: PlanRequest, formula: Formula, bread: Bread, room: Room, fresh: bool) -> Batch:
    """The batch of a solved dough. fresh: it is a new one, so its leaven may be chosen where none was said."""
    pieces, piece_g = formula.pieces, formula.piece_g
    if pieces is None or piece_g is None:
        piece_g = bread.piece_usual_g
        pieces = max(1.0, round(formula.dough_g / piece_g))
    if pieces < 1:
        raise Refused(f"{pieces:g} of a piece is less than one to bake", "a whole number of pieces: 1 or more")
    said = request.starter_pct is not None or request.yeast_pct is not None or room.setting("starter_pct") is not None
    made = usual_batch(
        bread,
        process_of(bread, room.kb),
        pieces=int(pieces),
        piece_g=piece_g,
        dough=replace(dough_of(formula, room.kb), pressure_ratio=pressure_of(room, None)[0], pace=pace_of(room).value),
        leaven_said=said or not fresh or ripe_preferment(formula) is not None,
        perishable=perishable(formula, room.kb),
        oven_max_c=room.setting("oven_max_c"),
        fat_pct=sum(row.pct for row, item in _rows(formula, room.kb) if item.group == "fat"),
    )
    made = replace(made, dough_g=formula.dough_g, asides=asides_of(formula, room.kb, models(room.kb).records))
    heats_min = room.setting("oven_heat_min")
    if heats_min is not None:
        made = replace(made, process=replace(made.process, preheat_min=float(heats_min)))
    return made if request.bake_min is None else replace(made, bake_min=request.bake_min)


def _rows(formula: Formula, kb: Knowledge) -> list[tuple[Row, Ingredient]]:
    """The rows that are ingredients of the knowledge, each with its record."""
    return [(row, kb.ingredients[row.item]) for row in formula.rows if row.item in kb.ingredients]
