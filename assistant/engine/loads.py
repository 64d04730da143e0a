"""Boiling and baking in batches: which pieces go when, and when the last one is out.

A pot that takes `pot_pieces` and an oven that takes `oven_pieces` work one after the other. The pot is never fuller
than it can be and the oven never holds two loads at once. The shortest whole is reached by filling the *last* oven
loads and giving the remainder to the first: whatever another order does, its load counted from the end needs at least
as many pieces boiled, so it can start no sooner (by induction; checked against trying every split in the tests).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class PotAndOven:
    """What is to be boiled and baked, and in what.

    pieces: how many, at least 1. oven_pieces: how many bake at once, at least 1. bake_min: minutes in the oven, above
    0. pot_pieces: how many boil at once; None where nothing is boiled. boil_s_per_side: seconds, two sides. lift_min:
    minutes to lift one potful out, drain it and bring the water back. change_min: minutes to change loads and let the
    oven recover. Raises ValueError naming the field that cannot be.
    """

    pieces: int
    oven_pieces: int
    bake_min: float
    pot_pieces: int | None = None
    boil_s_per_side: float = 45.0
    lift_min: float = 1.0
    change_min: float = 2.0

    def __post_init__(self) -> None:
        for name in ("pieces", "oven_pieces", "pot_pieces"):
            count = getattr(self, name)
            if count is not None and count < 1:
                raise ValueError(f"{name} must be at least 1, not {count}")
        if self.bake_min <= 0:
            raise ValueError(f"bake_min must be above 0, not {self.bake_min:g}")
        if min(self.boil_s_per_side, self.lift_min, self.change_min) < 0:
            raise ValueError("times cannot be negative")

    @property
    def potful_min(self) -> float:
        """Minutes one potful keeps the pot busy; 0 where nothing is boiled."""
        return 0.0 if self.pot_pieces is None else 2 * self.boil_s_per_side / 60 + self.lift_min


@dataclass(frozen=True, slots=True, kw_only=True)
class Potful:
    """One batch in the pot; minutes count from the first start."""

    pieces: int
    start_min: float
    end_min: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OvenLoad:
    """One load of the oven; `boil_start_min` is when its first potful goes in, None without a pot."""

    pieces: int
    boil_start_min: float | None
    bake_start_min: float
    bake_end_min: float
    waits_cold: int
    """Pieces that have to wait, unboiled and cold, when this load's boiling (or baking) starts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loads:
    """The whole run. `boiled_wait_min` is the longest any boiled piece waits for the oven."""

    loads: tuple[OvenLoad, ...]
    potfuls: tuple[Potful, ...]
    total_min: float
    bottleneck: Literal["pot", "oven", "neither"]
    boiled_wait_min: float

    @property
    def sizes(self) -> tuple[int, ...]:
        """Pieces in each load."""
        return tuple(load.pieces for load in self.loads)


def load_sizes(pieces: int, oven_pieces: int) -> tuple[int, ...]:
    """Pieces in each oven load, the odd remainder first: the fewest loads, and the oven idle the least."""
    count = math.ceil(pieces / oven_pieces)
    return (pieces - (count - 1) * oven_pieces, *(oven_pieces for _ in range(count - 1)))


def even_sizes(pieces: int, oven_pieces: int) -> tuple[int, ...]:
    """Pieces in each oven load, no more loads than it takes and all about as full: no last piece bakes alone."""
    count = math.ceil(pieces / oven_pieces)
    each, over = divmod(pieces, count)
    return (*(each for _ in range(count - over)), *(each + 1 for _ in range(over)))


def run(work: PotAndOven, sizes: tuple[int, ...]) -> Loads:
    """Run the oven loads in this order, each as soon as it can start, boiling as late as that allows.

    Raises ValueError if the sizes do not add up to the pieces or one is larger than the oven.
    """
    _check(work, sizes)
    starts: list[float] = []
    boiled = 0
    oven_free = 0.0
    held_by_oven = False
    for size in sizes:
        boiled += size
        ready = 0.0 if work.pot_pieces is None else math.ceil(boiled / work.pot_pieces) * work.potful_min
        held_by_oven = bool(starts) and oven_free >= ready
        starts.append(max(ready, oven_free))
        oven_free = starts[-1] + work.bake_min + work.change_min
    potfuls, first_potful, wait = _potfuls(work, sizes, starts)
    loads = []
    done = 0
    for index, (size, start) in enumerate(zip(sizes, starts, strict=True)):
        done += size
        boil_start = potfuls[first_potful[index]].start_min if potfuls else None
        loads.append(OvenLoad(pieces=size, boil_start_min=boil_start, bake_start_min=start,
                              bake_end_min=start + work.bake_min, waits_cold=work.pieces - done))
    if held_by_oven:
        bottleneck: Literal["pot", "oven", "neither"] = "oven"
    else:
        bottleneck = "pot" if len(potfuls) > 1 else "neither"
    return Loads(loads=tuple(loads), potfuls=potfuls, total_min=loads[-1].bake_end_min, bottleneck=bottleneck,
                 boiled_wait_min=wait)


def run_in_turn(work: PotAndOven, sizes: tuple[int, ...]) -> Loads:
    """Run the oven loads in this order, each boiled by itself just before its turn.

    Its potfuls are as even as can be (12 in a pot for 5: 4, 4, 4). Raises ValueError as `run` does.
    """
    if work.pot_pieces is None:
        return run(work, sizes)
    loads: list[OvenLoad] = []
    potfuls: list[Potful] = []
    oven_free = pot_free = wait = 0.0
    by_pot = False
    done = 0
    _check(work, sizes)
    for size in sizes:
        own = even_sizes(size, work.pot_pieces)
        boiled = pot_free + len(own) * work.potful_min
        by_pot = boiled > oven_free
        start = max(oven_free, boiled)
        begun = start - len(own) * work.potful_min
        potfuls += [
            Potful(pieces=some, start_min=begun + n * work.potful_min, end_min=begun + (n + 1) * work.potful_min)
            for n, some in enumerate(own)
        ]
        wait = max(wait, (len(own) - 1) * work.potful_min)
        done += size
        loads.append(OvenLoad(pieces=size, boil_start_min=begun, bake_start_min=start,
                              bake_end_min=start + work.bake_min, waits_cold=work.pieces - done))
        pot_free, oven_free = start, start + work.bake_min + work.change_min
    return Loads(loads=tuple(loads), potfuls=tuple(potfuls), total_min=loads[-1].bake_end_min,
                 bottleneck="pot" if by_pot else "oven", boiled_wait_min=wait)


def _check(work: PotAndOven, sizes: tuple[int, ...]) -> None:
    if sum(sizes) != work.pieces or min(sizes) < 1 or max(sizes) > work.oven_pieces:
        raise ValueError(f"loads of {sizes} do not fit {work.pieces} pieces in an oven for {work.oven_pieces}")


def best_loads(work: PotAndOven) -> Loads:
    """The run whose last piece is out soonest, with the fewest oven loads and potfuls."""
    return run(work, load_sizes(work.pieces, work.oven_pieces))


def _potfuls(
    work: PotAndOven, sizes: tuple[int, ...], starts: list[float]
) -> tuple[tuple[Potful, ...], list[int], float]:
    """Potfuls as late as the oven allows, the first potful that feeds each load, and the longest wait once boiled."""
    if work.pot_pieces is None:
        return (), [], 0.0
    pot = work.pot_pieces
    count = math.ceil(work.pieces / pot)
    first_piece = [sum(sizes[:index]) for index in range(len(sizes))]
    load_of = [index for index, size in enumerate(sizes) for _ in range(size)]
    ends = [0.0] * count
    latest = math.inf
    for batch in reversed(range(count)):
        latest = min(latest, starts[load_of[batch * pot]])
        ends[batch] = latest
        latest -= work.potful_min
    potfuls = tuple(Potful(pieces=min(pot, work.pieces - batch * pot), start_min=end - work.potful_min, end_min=end)
                    for batch, end in enumerate(ends))
    wait = max(starts[load_of[piece]] - ends[piece // pot] for piece in range(work.pieces))
    return potfuls, [piece // pot for piece in first_piece], wait


def minutes_saved(work: PotAndOven, *, pots: int = 1, oven_pieces: int | None = None) -> float:
    """Minutes the whole run gets shorter with so many pots like this one, or with an oven for so many pieces."""
    pot = None if work.pot_pieces is None else work.pot_pieces * pots
    wider = replace(work, pot_pieces=pot, oven_pieces=oven_pieces or work.oven_pieces)
    return best_loads(work).total_min - best_loads(wider).total_min
