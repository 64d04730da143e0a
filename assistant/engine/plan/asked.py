"""What a plan is made from: the batch, the kitchen, what is wished, and the trade facts it rests on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from assistant.engine.growth import Constants, Kinetics
from assistant.engine.heat import Heat
from assistant.engine.plan.clock import Busy
from assistant.engine.rising import Dough
from knowledge.records.bench_work import BenchWork
from knowledge.records.process import Process

EARLIEST_MIN = 45
"""Ready at most so many minutes before the hour asked for."""

MIXING_RISE_C = 1.0
"""How much kneading warms a dough."""

Cold = Literal["none", "shaped", "bulk", "both"]


@dataclass(frozen=True, slots=True)
class Trade:
    """The constants a plan is computed with."""

    kinetics: Kinetics
    heat: Heat
    work: Mapping[str, BenchWork]
    records: Mapping[str, Constants]


@dataclass(frozen=True, slots=True, kw_only=True)
class Aside:
    """Something made before the mix: a poolish, a biga, a soaker, a scald.

    g: what it weighs; rows: what goes in, (ingredient, g). dough: what ferments, up to `rise_pct`; None where it only
    stands, low_h to high_h. keeps_h: how long it waits in the kitchen once it is there; keeps_cold_h: in the fridge.
    """

    item: str
    g: float
    rows: tuple[tuple[str, float], ...]
    dough: Dough | None = None
    rise_pct: float = 0.0
    low_h: float = 0.0
    usual_h: float = 0.0
    high_h: float = 0.0
    keeps_h: float = 0.0
    keeps_cold_h: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """The dough to be planned. `dough` carries the leaven's usual (or said) share.

    leaven_said: the share was said and stays. perishable: egg or milk in it. core_c None where it is judged by colour.
    bake_min for this piece. boil_s_per_side None where nothing is boiled; cold_dip: nor
    is the pot heated. asides: what is made before the mix.
    places: pairs of hands, each at a dough of its own: what work takes is by the place, pot and oven are for all.
    """

    pieces: int
    piece_g: float
    dough_g: float
    dough: Dough
    process: Process
    rise_bulk_pct: float
    rise_proof_pct: float
    oven_c: float
    bake_min: float
    leaven_said: bool = False
    perishable: bool = False
    fat_pct: float = 0.0
    boil_s_per_side: float | None = None
    core_c: float | None = None
    best_within_h: float = 12.0
    cold_dip: bool = False
    asides: tuple[Aside, ...] = ()
    places: int = 1

    @property
    def sourdough(self) -> bool:
        """Raised by a starter."""
        return self.dough.starter_pct > 0

    @property
    def leavened(self) -> bool:
        """Raised by anything at all."""
        return self.sourdough or self.dough.yeast_fresh_pct > 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Kitchen:
    """Where it is baked. `night_c` is the air between 22:00 and 06:00 where it is not `room_c`.

    pot_pieces and oven_pieces: how many go in at once, the oven's on so many trays. fridge_l, fridge_trays,
    fridge_pieces: what the fridge takes, as far as it was said. mixer_flour_g: flour the mixer takes; None: any.
    places_c: warmth of other places the dough may stand in.
    """

    room_c: float = 22.0
    night_c: float | None = None
    fridge_c: float = 4.0
    oven_pieces: int = 12
    pot_pieces: int = 6
    trays: int = 2
    fridge_l: float | None = None
    fridge_trays: int | None = None
    fridge_pieces: int | None = None
    mixer_flour_g: float | None = None
    places_c: tuple[float, ...] = ()
    mixing_rise_c: float = MIXING_RISE_C


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What the plan has to keep. Local times naive.

    ready_by: ready at this hour, at most 45 min before. start_at: the first step of the dough starts then (with
    `start_exact`) or no sooner. soonest: without an hour, the soonest bread comes before the usual way. starter: "ripe"
    (use it at the mix), "feed" (feed it first), "either" (unsaid). multiply: how many times the starter in the jar has
    to become for the dough. cold: None is free, else where the dough must (or must not) go cold; cold_h a said length.
    ahead: baked beforehand, kept, and refreshed for the hour.
    """

    now: datetime
    ready_by: datetime | None = None
    start_at: datetime | None = None
    start_exact: bool = False
    soonest: bool = False
    busy: tuple[Busy, ...] = ()
    starter: Literal["ripe", "feed", "either"] = "either"
    ripe_at: datetime | None = None
    feed_ratio: float | None = None
    multiply: float = 1.0
    cold: Cold | Literal["some"] | None = None
    cold_h: float | None = None
    dough_c: float | None = None
    autolyse_min: float | None = None
    ahead: bool = False
