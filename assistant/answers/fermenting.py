"""What ferments, settled from the line, the dough in hand, the kitchen's settings and the bread's own row."""

from __future__ import annotations

from dataclasses import dataclass, field

from assistant.answers.bread_meant import bread_of, bread_of_formula
from assistant.answers.dough_in_hand import formula_in_hand
from assistant.answers.fermentation_models import pressure_of
from assistant.answers.learned import pace_of, pace_said
from assistant.answers.what_ferments import (
    bran_said,
    bran_share,
    by_the_spoon,
    fresh_in,
    fresh_pct,
    not_reckoned,
    sugar_in,
    sugar_said,
)
from assistant.engine.dough import Formula
from assistant.engine.fermentation import Dough
from assistant.engine.house import HOUSE_SALT_PCT, HOUSE_STARTER_HYDRATION_PCT, HOUSE_STARTER_PCT, LEAN_BREAD
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.talk.room import Room
from grammar.requests.timing import TimingRequest
from knowledge import Knowledge
from knowledge.records.breads import Bread


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


def fermenting(request: TimingRequest, room: Room) -> Fermenting:
    """The dough a timing question is about: what is said, else the dough in hand, else settings and the bread."""
    kb = room.kb
    formula = formula_in_hand(room)
    bread = bread_of(room, request.bread, request.piece)
    if formula is not None and request.bread is not None and _other_bread(room, bread):
        formula = None
    usual = bread if request.bread is not None or formula is None else None
    told = _Told(room, usual)
    hydration_pct = told.settle(
        "hydration", request.hydration_pct, formula.hydration_pct if formula else None,
        usual.hydration_usual_pct if usual else None, kb.breads[LEAN_BREAD].hydration_usual_pct,
    )  # fmt: skip
    salt_pct = told.settle(
        "salt", request.salt_pct, formula.salt_pct if formula else None, usual.salt_usual_pct if usual else None,
        HOUSE_SALT_PCT,
    )  # fmt: skip
    leaven = _leaven(request, formula, told)
    told.given += [f"{figure(pct)} % {kb.ingredients[item].name.lower()}" for item, pct in request.parts]
    told.assumed += not_reckoned(request, kb)
    pressure, height_m = pressure_of(room, request.altitude_m)
    if height_m is not None:
        told.given.append(f"{figure(height_m)} m above the sea")
    pace = pace_of(room)
    if pace.count and room.setting("culture_pace") is None:
        told.given.append(pace_said(pace))
    dough = Dough(
        hydration_pct=hydration_pct,
        salt_pct=salt_pct,
        starter_pct=leaven.starter_pct,
        starter_hydration_pct=leaven.starter_hydration_pct,
        yeast_fresh_pct=leaven.yeast_fresh_pct,
        sugar_pct=_sugar(request, formula, usual, kb),
        wholegrain_share=_bran(request, formula, kb),
        pace=pace.value,
        pressure_ratio=pressure,
    )
    return Fermenting(
        dough=dough,
        bread=bread,
        mass_g=request.mass_g if request.mass_g is not None else (formula.dough_g if formula else None),
        piece_g=formula.piece_g if formula else None,
        given=tuple(told.given),
        assumed=tuple(told.assumed),
        timed=pace.count > 0,
        formula=formula,
    )


@dataclass
class _Told:
    """What the figures rest on, in words, gathered while they are settled. usual: the bread whose figures fill in."""

    room: Room
    usual: Bread | None
    given: list[str] = field(default_factory=list)
    assumed: list[str] = field(default_factory=list)

    def settle(self, name: str, said: float | None, held: float | None, usual: float | None, house: float) -> float:
        """A share of the flour: said, else of the dough in hand, else set, else the bread's usual or the house's."""
        label = name.replace("_", " ")
        for value in (said, held):
            if value is not None:
                self.given.append(f"{figure(value)} % {label}")
                return value
        setting = self.room.setting(f"{name}_pct")
        if setting is not None:
            self.given.append(f"{figure(float(setting))} % {label} (your setting)")
            return float(setting)
        value = house if usual is None else usual
        of = f" (usual for {self.usual.name.lower()})" if usual is not None and self.usual is not None else ""
        self.assumed.append(f"{figure(value)} % {label}{of}")
        return value


@dataclass(frozen=True, slots=True)
class _Leaven:
    """What raises it: ripe starter and its hydration, commercial yeast counted as fresh; % of flour."""

    starter_pct: float
    starter_hydration_pct: float
    yeast_fresh_pct: float


def _leaven(request: TimingRequest, formula: Formula | None, told: _Told) -> _Leaven:
    """The leaven said, else that of the dough in hand, else starter as it is usual. Refused where there is none."""
    kb = told.room.kb
    said_yeast = request.yeast or by_the_spoon(request, kb)
    fresh = fresh_pct(kb, said_yeast)
    if not said_yeast and formula is not None and request.starter_pct is None:
        fresh = fresh_in(formula, kb)
    if said_yeast or fresh:
        told.given.append(f"{figure(fresh)} % yeast, counted as fresh")
    starter_pct, hydration_pct = _starter(request, formula, bool(said_yeast), told)
    if starter_pct == 0 and fresh == 0:
        raise Refused(
            "there is neither starter nor yeast in it, so nothing will raise it",
            "say which: 20 % starter, or 1 % instant yeast",
        )
    return _Leaven(starter_pct, hydration_pct or 100.0, fresh)


def _starter(
    request: TimingRequest, formula: Formula | None, yeast_said: bool, told: _Told
) -> tuple[float, float | None]:
    """Ripe starter, % of flour, and its hydration; None without any."""
    starter, hydration = request.starter_pct, request.starter_hydration_pct
    if starter is None and formula is not None and not yeast_said:
        starter = formula.starter_pct or 0.0
        hydration = hydration or (formula.starter.hydration_pct if formula.starter else None)
    if starter is None and yeast_said:
        starter = 0.0
    if starter is None:
        usual = (told.usual.starter_usual_pct or None) if told.usual else None
        starter = told.settle("starter", None, None, usual, HOUSE_STARTER_PCT)
    elif starter > 0:
        told.given.append(f"{figure(starter)} % starter")
    if starter and request.starter_times is not None:
        starter *= request.starter_times
        told.given.append(f"{request.starter_times:g} times that: {figure(starter)} %")
    if starter and hydration is None:
        setting = told.room.setting("starter_hydration_pct")
        hydration = float(setting) if setting is not None else HOUSE_STARTER_HYDRATION_PCT
    return starter, hydration


def _sugar(request: TimingRequest, formula: Formula | None, usual: Bread | None, kb: Knowledge) -> float:
    said = sugar_said(request, kb)
    if said is not None:
        return said
    if formula is not None:
        return sugar_in(formula, kb)
    return usual.sugar_usual_pct if usual else 0.0


def _bran(request: TimingRequest, formula: Formula | None, kb: Knowledge) -> float:
    said = bran_said(request)
    if said is not None:
        return said
    return 0.0 if formula is None else bran_share(formula, kb)


def _other_bread(room: Room, bread: Bread | None) -> bool:
    """Whether the bread named is another than the one in hand."""
    held = bread_of_formula(room, room.formula_said) if room.formula_said is not None else None
    return bread is not None and held is not None and held.id != bread.id
