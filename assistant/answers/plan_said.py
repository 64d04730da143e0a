"""From what was said of a bake to what the plan is made from: the dough, the kitchen, the hours."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from assistant.answers.dough_said import by_head
from assistant.answers.fermenting import fresh_pct, models, pressure_of
from assistant.answers.formula import solved
from assistant.answers.learned import pace_of
from assistant.answers.oven_and_pot import POT_PIECES, TRAYS, oven_takes, piece_bread, process_of
from assistant.answers.plan_asides import asides_of
from assistant.answers.plan_finish import Finishing, finishing_of
from assistant.answers.plan_hours import ready_at, wish_of
from assistant.engine.dough import Formula
from assistant.engine.plan.asked import MIXING_RISE_C, Batch, Kitchen, Trade, Wish
from assistant.engine.plan.batches import usual_batch
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.course import Course
from assistant.engine.plan.day import Day
from assistant.engine.plan.feeding import JAR
from assistant.engine.refusal import Refused
from assistant.engine.rising import Dough
from assistant.talk.kitchen import places
from assistant.talk.room import Room
from grammar.moments import Moment
from grammar.requests.formula import FormulaRequest, Part
from grammar.requests.plan import PlanRequest
from knowledge import Knowledge
from knowledge.records.bench_work import BenchWork
from knowledge.records.breads import Bread

DOZEN, LOAVES = 12.0, 2.0
_LOAF_G = 350.0
_PLACES_C = (10.0, 32.0)
"""Places in which a dough may rise."""
_WET_DAIRY_PCT = 40.0
_WHOLEGRAIN_FIBRE_PCT = 8.0
"""A flour with this much fibre has its bran in it."""


@dataclass(frozen=True, slots=True)
class Settled:
    """All a plan needs. fresh: the dough is a new one, not the bake in hand; assumed: what was filled in."""

    dough: FormulaRequest
    formula: Formula
    bread: Bread
    batch: Batch
    kitchen: Kitchen
    wish: Wish
    fresh: bool
    assumed: tuple[str, ...]
    finishing: Finishing
    makes: int = 1
    """How many such doughs are made: in a class a second one goes home."""

    @property
    def pours_water(self) -> bool:
        """True where plain water goes into the bowl: then its warmth makes the dough's."""
        return self.formula.poured_g > 0

    @property
    def preferment_raises(self) -> bool:
        """True where a preferment made for it is all the leaven it has."""
        return bool(self.batch.asides) and ripe_preferment(self.formula) is not None


def trade_of(kb: Knowledge) -> Trade:
    """The constants plans are computed with."""
    made = models(kb)
    return Trade(made.k, made.heat, kb.all(BenchWork), made.records)


def settled(request: PlanRequest, room: Room) -> Settled:
    """Everything unsaid filled in, each filling named. Raises Refused where the dough cannot be solved."""
    assumed: list[str] = []
    places = int(request.places or 1)
    if places > 1:
        request = replace(request, pieces=(request.pieces or 1) * places)
    request = _in_pieces(request, room.kb)
    dough, fresh = _dough_request(request, room, assumed)
    formula = solved(dough, room)
    bread = _bread(request, dough, formula, room.kb)
    finishing = finishing_of(bread, request.bath, room.kb)
    batch = replace(_batch(request, formula, bread, room, fresh), cold_dip=finishing.cold_dip, places=places)
    kitchen = _kitchen(request, bread, batch, room, assumed)
    wish = wish_of(request, room, assumed)
    if request.bake_at is not None:
        wish = replace(wish, ready_by=_baked_then(request.bake_at, batch, kitchen, wish, room, assumed))
    preferment = ripe_preferment(formula)
    if preferment is not None and wish.starter == "either":
        wish = replace(wish, starter="ripe")
        if not batch.asides:
            assumed.append(f"the {preferment} is ripe when you mix")
    assumed[:0] = [one for one in formula.assumed if fresh]
    told = tuple(dict.fromkeys(assumed))
    makes = 2 if request.places and request.home else 1
    if request.jar_g and formula.starter is not None and wish.starter != "ripe":
        multiply = formula.starter.g * makes * JAR / request.jar_g
        wish = replace(wish, multiply=multiply, starter="feed" if multiply > 1 else wish.starter)
    return Settled(dough, formula, bread, batch, kitchen, wish, fresh, told, finishing, makes)


def _baked_then(
    moment: Moment, batch: Batch, kitchen: Kitchen, wish: Wish, room: Room, assumed: list[str]
) -> datetime:
    """When the bread is ready whose first load goes into the oven at that hour."""
    day = Day(batch, kitchen, trade_of(room.kb), Clock(wish.now))
    finish = Course(day, batch.dough, batch.process.dough_c, 0).finish()
    minutes = finish.minutes - min(task.at for task in finish.tasks if task.step == "bake")
    return ready_at(moment, wish.now.replace(tzinfo=None), assumed) + timedelta(minutes=minutes)


# The dough.

_FAR_LARGER = 3.0
"""A bread whose usual piece is so many times what the piece said weighs is no bread of such pieces."""


def _in_pieces(request: PlanRequest, kb: Knowledge) -> PlanRequest:
    """ "20 sourdough rolls" are rolls: a plain loaf named beside a small piece says only what raises them."""
    if request.bread is None or request.piece is None or request.piece_g is not None:
        return request
    bread, small = kb.breads[request.bread], piece_bread(None, request.piece, kb, False)
    plain = bread.fat_usual_pct == 0 and bread.sugar_usual_pct == 0 and bread.yeast_fresh_usual_pct == 0
    if plain and bread.piece_usual_g >= _FAR_LARGER * small.piece_usual_g:
        return replace(request, bread=None)
    return request


def _dough_request(request: PlanRequest, room: Room, assumed: list[str]) -> tuple[FormulaRequest, bool]:
    in_hand = room.formula_said if room.bake is not None else None
    changes = _dough_changes(request)
    if isinstance(in_hand, FormulaRequest) and not _another_dough(request, in_hand):
        if request.starter_pct is not None:
            in_hand = replace(in_hand, prefermented_pct=None, starter_g=None)
        return replace(in_hand, **changes), False  # type: ignore[arg-type]
    said_any = request.names_dough or request.start_now or bool(changes) or request.starter is not None
    if not said_any:
        why = "what is to be baked was not said, and no dough is in hand"
        raise Refused(why, "say it: 24 rings ready by 9 on Sunday")
    bread = _named(request, room.kb)
    grams = request.piece_g or (bread.piece_usual_g if bread is not None else None)
    pieces = request.pieces
    if pieces is None:
        big = grams is not None and grams >= _LOAF_G
        pieces = LOAVES if big or request.piece in ("loaf", "boule", "batard") else DOZEN
        assumed.append(f"{pieces:g} pieces")
    if grams is None:
        grams = piece_bread(None, request.piece, room.kb, False).piece_usual_g
    if request.piece_g is None:
        assumed.append(f"pieces of {grams:g} g")
    rich = bread is not None and bread.egg_usual_pct > 0
    if rich:
        assumed.append("its usual dough")
    dough = FormulaRequest(pieces=pieces, piece_g=grams, bread=request.bread, piece=request.piece, usual=rich)
    if request.for_heads and request.piece_g is None:
        dough = by_head(replace(dough, piece_g=None, for_heads=True), room.kb)
    return replace(dough, **changes), True  # type: ignore[arg-type]


def _dough_changes(request: PlanRequest) -> dict[str, object]:
    said = {
        name: getattr(request, name) for name in ("hydration_pct", "salt_pct", "starter_pct") if getattr(request, name)
    }
    yeast = () if request.yeast is None else (Part((request.yeast,), pct=request.yeast_pct),)
    parts = (*request.flours, *request.rows, *yeast)
    if parts:
        said["parts"] = parts
    if request.preferments:
        said["preferments"] = request.preferments
    if yeast and request.starter_pct is None:
        said["without"] = ("starter",)
    return said


def _another_dough(request: PlanRequest, in_hand: FormulaRequest) -> bool:
    """Whether the line names a dough other than the one in hand: other pieces, or another number of them."""
    if request.bread is not None and request.bread != in_hand.bread:
        return True
    if request.piece is not None and request.piece not in (in_hand.piece, None) and in_hand.bread is None:
        return in_hand.piece is not None
    return request.pieces is not None and request.pieces != in_hand.pieces


def _named(request: PlanRequest, kb: Knowledge) -> Bread | None:
    if request.bread is not None:
        return kb.breads[request.bread]
    if request.piece is not None:
        return piece_bread(None, request.piece, kb, False)
    return None


def _bread(request: PlanRequest, dough: FormulaRequest, formula: Formula, kb: Knowledge) -> Bread:
    """The bread whose rises, oven and cold the plan goes by."""
    bread_id = request.bread or dough.bread or formula.bread
    piece = request.piece or dough.piece
    if bread_id is None and piece is None and (formula.piece_g or 0) >= _LOAF_G:
        piece = "loaf"
    bread = piece_bread(bread_id, piece, kb, False)
    if bread.id == "hearth_loaf" and formula.starter is not None:
        return kb.breads["sourdough_loaf"]
    return bread


def dough_of(formula: Formula, kb: Knowledge) -> Dough:
    """The solved dough as something that ferments."""
    yeast = fresh_pct(kb, tuple((row.item, row.pct) for row in formula.rows if row.item.startswith("yeast")))
    groups = {row.item: kb.ingredients[row.item].group for row in formula.rows if row.item in kb.ingredients}
    sugar = sum(
        row.pct * (kb.ingredients[row.item].sugar_pct or 0.0) / 100
        for row in formula.rows
        if groups.get(row.item) == "sugar"
    )
    starter_pct, starter_hydration_pct = _seed(formula)
    return Dough(
        hydration_pct=formula.hydration_pct,
        salt_pct=formula.salt_total_pct,
        starter_pct=starter_pct,
        starter_hydration_pct=starter_hydration_pct,
        yeast_fresh_pct=yeast,
        sugar_pct=sugar,
        wholegrain_share=_wholegrain(formula, kb),
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


def _wholegrain(formula: Formula, kb: Knowledge) -> float:
    whole = sum(
        row.g
        for row in formula.rows
        if row.item in kb.ingredients
        and kb.ingredients[row.item].group == "flour"
        and (kb.ingredients[row.item].fibre_pct or 0.0) >= _WHOLEGRAIN_FIBRE_PCT
    )
    return min(1.0, whole / formula.flour_g)


def perishable(formula: Formula, kb: Knowledge) -> bool:
    """Whether egg or milk is in the dough (butter and dry powders aside)."""
    for row in formula.rows:
        item = kb.ingredients.get(row.item)
        if item is None or row.pct < 1:
            continue
        if item.group == "egg" or (item.group == "dairy" and (item.water_pct or 0.0) > _WET_DAIRY_PCT):
            return True
    return False


def _batch(request: PlanRequest, formula: Formula, bread: Bread, room: Room, fresh: bool) -> Batch:
    dough = dough_of(formula, room.kb)
    pieces = formula.pieces
    piece_g = formula.piece_g
    if pieces is None or piece_g is None:
        piece_g = bread.piece_usual_g
        pieces = max(1.0, round(formula.dough_g / piece_g))
    if pieces < 1:
        raise Refused(f"{pieces:g} of a piece is less than one to bake", "a whole number of pieces: 1 or more")
    said = request.starter_pct is not None or request.yeast_pct is not None or room.setting("starter_pct") is not None
    dough = replace(dough, pressure_ratio=pressure_of(room, None)[0])
    dough = replace(dough, pace=pace_of(room).value)
    made = usual_batch(
        bread,
        process_of(bread.id, room.kb),
        pieces=int(pieces),
        piece_g=piece_g,
        dough=dough,
        leaven_said=said or not fresh or ripe_preferment(formula) is not None,
        perishable=perishable(formula, room.kb),
        oven_max_c=room.setting("oven_max_c"),
        fat_pct=sum(
            row.pct for row in formula.rows
            if row.item in room.kb.ingredients and room.kb.ingredients[row.item].group == "fat"
        ),
    )  # fmt: skip
    made = replace(made, dough_g=formula.dough_g, asides=asides_of(formula, room.kb, models(room.kb).records))
    heats_min = room.setting("oven_heat_min")
    if heats_min is not None:
        made = replace(made, process=replace(made.process, preheat_min=float(heats_min)))
    return made if request.bake_min is None else replace(made, bake_min=request.bake_min)


# The kitchen.


def _kitchen(request: PlanRequest, bread: Bread, batch: Batch, room: Room, assumed: list[str]) -> Kitchen:
    room_c = request.kitchen_c
    if room_c is None:
        room_c = room.kitchen_c
        assumed.append(f"kitchen {room_c:g} °C" + (" (your setting)" if room.kitchen_is_set else ""))
    fridge = request.fridge_c if request.fridge_c is not None else room.setting("fridge_c")
    if fridge is None:
        fridge = 4.0
        if request.cold not in (None, "none"):
            assumed.append("fridge 4 °C")
    return Kitchen(
        room_c=room_c,
        night_c=request.night_c if request.night_c is not None or request.kitchen_c is not None else room.night_c,
        fridge_c=float(fridge),
        oven_pieces=_oven(request, bread, batch, room, assumed),
        pot_pieces=_pot(request, batch, room, assumed),
        trays=int(request.trays or room.setting("trays") or TRAYS),
        places_c=tuple(dict.fromkeys(_steady_places(room))),
        fridge_l=request.fridge_l if request.fridge_l is not None else room.setting("fridge_l"),
        fridge_trays=_count(request.fridge_trays or room.setting("fridge_trays")),
        fridge_pieces=_count(request.fridge_pieces or room.setting("fridge_takes")),
        mixing_rise_c=MIXING_RISE_C if room.setting("friction_c") is None else float(room.setting("friction_c")),
    )


def _steady_places(room: Room) -> Iterator[float]:
    """Warmth of the places told of that are as warm by night as by day, the kitchen aside."""
    for place in places(room.bench.settings):
        same = place.night_c is None or place.night_c == place.day_c
        if place.day_c is not None and place.name != "kitchen" and same and _PLACES_C[0] <= place.day_c <= _PLACES_C[1]:
            yield place.day_c


def _count(setting: float | None) -> int | None:
    return None if setting is None else max(1, int(setting))


def _oven(request: PlanRequest, bread: Bread, batch: Batch, room: Room, assumed: list[str]) -> int:
    if request.oven_pieces is not None:
        return max(1, int(request.oven_pieces))
    fit = oven_takes(batch.piece_g, bread, batch.process)
    if request.trays is not None or request.tray_pieces is not None:
        each = int(request.tray_pieces) if request.tray_pieces is not None else max(1, fit // 2)
        return max(1, int(request.trays or 1) * each)
    if room.oven_pieces is not None:
        return min(room.oven_pieces, fit) if batch.piece_g >= _LOAF_G else room.oven_pieces
    if batch.pieces > fit:
        assumed.append(f"oven takes {fit} at a time")
    return fit


def _pot(request: PlanRequest, batch: Batch, room: Room, assumed: list[str]) -> int:
    setting = request.pot_pieces if request.pot_pieces is not None else room.pot_pieces
    if setting is not None:
        return max(1, int(setting))
    if batch.boil_s_per_side is not None:
        assumed.append(f"pot takes {POT_PIECES}")
    return POT_PIECES
