"""What ferments, settled from the line, the dough in hand, the kitchen's settings and the bread's own row."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from assistant.answers.formula import solved
from assistant.answers.learned import pace_of, pace_said
from assistant.engine.altitude import pressure_ratio
from assistant.engine.cautions import Scene, cautions
from assistant.engine.dough import Formula
from assistant.engine.fermentation import Dough
from assistant.engine.growth import Kinetics, kinetics
from assistant.engine.heat import Heat, heat_constants
from assistant.engine.house import HOUSE_SALT_PCT, HOUSE_STARTER_HYDRATION_PCT, HOUSE_STARTER_PCT, LEAN_BREAD
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.engine.starter import Habits, habits
from assistant.talk.room import Room
from grammar.requests.timing import TimingRequest
from knowledge import Knowledge
from knowledge.records.breads import Bread
from knowledge.records.cautions import Caution
from knowledge.records.kinetics import Kinetic
from knowledge.records.process import Process
from knowledge.records.yeasts import Yeast

WHOLE = ("flour_whole_wheat", "flour_white_whole_wheat", "flour_rye_medium", "flour_rye_dark")
ALKALI_BREAD = "pretzel"
"""Goes through an alkali bath rather than plain boiling water."""
TSP_ML = 4.93
SPOON_FLOUR_G = 500.0
"""Flour a spoon of yeast is for, where none was said."""


@dataclass(frozen=True, slots=True)
class Models:
    """The constants of the models, settled once for a body of knowledge."""

    records: Mapping[str, Kinetic]
    k: Kinetics
    heat: Heat
    habits: Habits


@lru_cache(maxsize=4)
def models(kb: Knowledge) -> Models:
    """The models over this knowledge."""
    records = kb.all(Kinetic)
    return Models(records, kinetics(records), heat_constants(records), habits(records))


@dataclass(frozen=True, slots=True)
class Fermenting:
    """A dough as the fermentation model takes it, with what is known around it.

    bread: what it is or is plausibly; named: whether the baker or the bake in hand says so; mass_g, piece_g: of the
    whole and of one piece, where known; given, assumed: figures said or in hand, and filled in, in words.
    """

    dough: Dough
    bread: Bread | None
    mass_g: float | None
    piece_g: float | None
    given: tuple[str, ...]
    assumed: tuple[str, ...]
    timed: bool
    formula: Formula | None


def bread_of(room: Room, bread: str | None, piece: str | None) -> Bread | None:
    """The bread named, or that such a piece plausibly is, or the one in hand."""
    if bread is not None:
        return room.kb.breads[bread]
    if piece is not None:
        word = room.kb.words.get(f"piece {piece}")
        if word is not None and word.bread is not None:
            return room.kb.breads[word.bread]
    said = room.formula_said
    if said is None:
        return None
    return bread_of_formula(room, said)


def bread_of_formula(room: Room, said: Any) -> Bread | None:
    """The bread of a formula request: named, or what such a piece plausibly is."""
    if said.bread is not None:
        return room.kb.breads[said.bread]
    word = room.kb.words.get(f"piece {said.piece}") if said.piece else None
    return room.kb.breads[word.bread] if word is not None and word.bread is not None else None


def process_of(kb: Knowledge, bread: Bread | None) -> Process | None:
    """How that bread is worked."""
    if bread is None:
        return None
    return next((one for one in kb.all(Process).values() if bread.id in one.breads), None)


def formula_in_hand(room: Room) -> Formula | None:
    """The dough in hand, solved; None without one or where it cannot be solved."""
    said = room.formula_said
    if said is None:
        return None
    try:
        return solved(said, room)
    except Refused:
        return None


def fresh_pct(kb: Knowledge, yeast: tuple[tuple[str, float], ...]) -> float:
    """Commercial yeast of any kind as fresh yeast, % of flour."""
    kinds = kb.all(Yeast)
    return sum(pct / kinds[kind].per_fresh if kind in kinds else pct for kind, pct in yeast)


def pressure_of(room: Room, altitude_m: float | None) -> tuple[float, float | None]:
    """Air pressure against sea level, and the height it is for (None: sea level)."""
    height = altitude_m if altitude_m is not None else room.setting("altitude_m")
    if height is None or float(height) == 0:
        return 1.0, None
    return pressure_ratio(models(room.kb).records, float(height)), float(height)


def fermenting(request: TimingRequest, room: Room) -> Fermenting:
    """The dough a timing question is about: what is said, else the dough in hand, else settings and the bread."""
    kb = room.kb
    formula = formula_in_hand(room)
    bread = bread_of(room, request.bread, request.piece)
    if formula is not None and request.bread is not None and _other_bread(room, bread):
        formula = None
    lean = kb.breads[LEAN_BREAD]
    usual = bread if request.bread is not None or formula is None else None
    given: list[str] = []
    assumed: list[str] = []

    def settle(name: str, said: float | None, held: float | None, bread_value: float | None, house: float) -> float:
        label = name.replace("_", " ")
        if said is not None:
            given.append(f"{figure(said)} % {label}")
            return said
        if held is not None:
            given.append(f"{figure(held)} % {label}")
            return held
        setting = room.setting(f"{name}_pct")
        if setting is not None:
            given.append(f"{figure(float(setting))} % {label} (your setting)")
            return float(setting)
        value = bread_value if bread_value is not None else house
        assumed.append(
            f"{figure(value)} % {label}"
            + (f" (usual for {usual.name.lower()})" if bread_value is not None and usual else "")
        )
        return value

    hydration = settle(
        "hydration", request.hydration_pct, formula.hydration_pct if formula else None,
        usual.hydration_usual_pct if usual else None, lean.hydration_usual_pct,
    )  # fmt: skip
    salt = settle(
        "salt",
        request.salt_pct,
        formula.salt_pct if formula else None,
        usual.salt_usual_pct if usual else None,
        HOUSE_SALT_PCT,
    )
    said_yeast = request.yeast or _by_the_spoon(request, kb)
    yeast = fresh_pct(kb, said_yeast)
    starter = request.starter_pct
    starter_hydration = request.starter_hydration_pct
    if said_yeast:
        given.append(f"{figure(yeast)} % yeast, counted as fresh")
    elif formula is not None and starter is None:
        yeast = _yeast_in(kb, formula)
        if yeast:
            given.append(f"{figure(yeast)} % yeast, counted as fresh")
    if starter is not None:
        if starter > 0:
            given.append(f"{figure(starter)} % starter")
    elif formula is not None and not said_yeast:
        starter = formula.starter_pct or 0.0
        starter_hydration = starter_hydration or (formula.starter.hydration_pct if formula.starter else None)
        if starter:
            given.append(f"{figure(starter)} % starter")
    elif said_yeast:
        starter = 0.0
    else:
        starter = settle("starter", None, None, (usual.starter_usual_pct or None) if usual else None, HOUSE_STARTER_PCT)
    if starter and request.starter_times is not None:
        starter *= request.starter_times
        given.append(f"{request.starter_times:g} times that: {figure(starter)} %")
    if starter and starter_hydration is None:
        setting = room.setting("starter_hydration_pct")
        starter_hydration = float(setting) if setting is not None else HOUSE_STARTER_HYDRATION_PCT
    if starter == 0 and yeast == 0:
        raise Refused(
            "there is neither starter nor yeast in it, so nothing will raise it",
            "say which: 20 % starter, or 1 % instant yeast",
        )
    given += [f"{figure(pct)} % {kb.ingredients[item].name.lower()}" for item, pct in request.parts]
    assumed += _not_reckoned(request, kb)
    pressure, height = pressure_of(room, request.altitude_m)
    if height is not None:
        given.append(f"{figure(height)} m above the sea")
    pace = pace_of(room)
    if pace.count and room.setting("culture_pace") is None:
        given.append(pace_said(pace))
    dough = Dough(
        hydration_pct=hydration,
        salt_pct=salt,
        starter_pct=starter,
        starter_hydration_pct=starter_hydration or 100.0,
        yeast_fresh_pct=yeast,
        sugar_pct=_sugar_said(request, kb) if _says_sugar(request) else _sugar(kb, formula, usual),
        wholegrain_share=_share_of_grain(request, formula),
        pace=pace.value,
        pressure_ratio=pressure,
    )
    return Fermenting(
        dough=dough,
        bread=bread,
        mass_g=request.mass_g if request.mass_g is not None else (formula.dough_g if formula else None),
        piece_g=formula.piece_g if formula else None,
        given=tuple(given),
        assumed=tuple(assumed),
        timed=pace.count > 0,
        formula=formula,
    )


def safety_notes(
    room: Room, stage: str, bread: Bread | None, formula: Formula | None, air_c: float, minutes: float
) -> tuple[str, ...]:
    """The safety notes that belong to a stage of this dough: egg and milk kept warm, a bath, a hot oven."""
    kb = room.kb
    items = {row.item for row in formula.rows if row.item in kb.ingredients} if formula is not None else set()
    if formula is None and bread is not None and bread.egg_usual_pct > 0:
        items.add("egg_whole")
    scene = Scene(
        kind="timing",
        line=room.text,
        ingredients=frozenset(items),
        breads=frozenset({bread.id}) if bread is not None else frozenset(),
        baths=frozenset({"soda" if bread is not None and bread.id == ALKALI_BREAD else "plain"})
        if stage == "boil"
        else frozenset(),
        steps=frozenset({stage}),
        room_c=air_c,
        warm_min=minutes if air_c > 8 and stage in ("bulk", "proof") else None,
    )
    return tuple(note.text for note in cautions(scene, kb.all(Caution), kb.ingredients))


def _by_the_spoon(request: TimingRequest, kb: Knowledge) -> tuple[tuple[str, float], ...]:
    """Yeast said by volume, as % of the flour it was said with (500 g where none was)."""
    found = []
    for kind, ml in request.yeast_ml:
        item = kb.ingredients.get(kind)
        if item is not None and item.tsp_g:
            found.append((kind, 100 * item.tsp_g * ml / TSP_ML / (request.flour_g or SPOON_FLOUR_G)))
    return tuple(found)


def _other_bread(room: Room, bread: Bread | None) -> bool:
    held = bread_of_formula(room, room.formula_said) if room.formula_said is not None else None
    return bread is not None and held is not None and held.id != bread.id


def _yeast_in(kb: Knowledge, formula: Formula) -> float:
    kinds = kb.all(Yeast)
    return sum(row.pct / kinds[row.item].per_fresh for row in formula.rows if row.item in kinds)


def _sugar(kb: Knowledge, formula: Formula | None, usual: Bread | None) -> float:
    if formula is None:
        return usual.sugar_usual_pct if usual else 0.0
    # Milk sugar does not count: neither yeast ferments it.
    sweet = ((row.pct, kb.ingredients.get(row.item)) for row in formula.rows if row.role != "flour")
    return sum(pct * (item.sugar_pct or 0.0) / 100 for pct, item in sweet if item is not None and item.group != "dairy")


def _says_sugar(request: TimingRequest) -> bool:
    return request.sugar_pct is not None or bool(request.parts)


def _sugar_said(request: TimingRequest, kb: Knowledge) -> float:
    """Sugar a yeast works on, % of flour: what was said of it, and that of the ingredients said."""
    inside = sum(pct * (kb.ingredients[item].sugar_pct or 0.0) / 100 for item, pct in _that_feed(request, kb))
    return (request.sugar_pct or 0.0) + inside


def _that_feed(request: TimingRequest, kb: Knowledge) -> list[tuple[str, float]]:
    return [(item, pct) for item, pct in request.parts if kb.ingredients[item].group != "dairy"]


_SLOWS_PCT = 8.0
"""Fat and egg below this are not felt in the hours of a rise."""


def _not_reckoned(request: TimingRequest, kb: Knowledge) -> list[str]:
    """What was said to be in the dough and that the model of the rise knows nothing of, in words."""
    heavy = [item for item, pct in request.parts if pct >= _SLOWS_PCT and (kb.ingredients[item].sugar_pct or 0.0) < 20]
    names = " and ".join(kb.ingredients[item].name.lower() for item in heavy)
    return [f"{names} not reckoned with: they weigh the dough down, so allow it longer"] if names else []


def _share_of_grain(request: TimingRequest, formula: Formula | None) -> float:
    if request.grain_pct is not None:
        return min(1.0, request.grain_pct / 100)
    return 1.0 if request.wholegrain else _wholegrain(formula)


def _wholegrain(formula: Formula | None) -> float:
    if formula is None or formula.flour_g <= 0:
        return 0.0
    return min(1.0, sum(row.g for row in formula.rows if row.item in WHOLE) / formula.flour_g)
