"""What a build of starter must meet, and what every step of choosing one looks at."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import NoReturn

from assistant.engine.growth import Kinetics
from assistant.engine.refusal import Refused
from assistant.engine.starter import Culture, Habits, feeding, portions_g

SHIFT_MIN = 10.0  # feeds are moved in steps of this much when looking for an hour somebody is up


@dataclass(frozen=True, slots=True)
class Wish:
    """What a build must meet. Minutes count from now.

    `needed_g` ripe starter to use; `keep_g` to keep back (None: nothing, or a little where the whole jar is fed);
    `target_pct` its hydration; `temp_c` where it stands; `ripe_min` when it must be ripe (None: as soon as sensible);
    `start_min` when it is fed (None: to be found); `have_g` starter in the jar (None: enough); `flour_per_seed` where
    the baker named the ratio; `feeds` how many feeds were asked for (None: as many as it takes).
    """

    needed_g: float
    temp_c: float
    target_pct: float = 100.0
    keep_g: float | None = None
    ripe_min: float | None = None
    start_min: float | None = None
    have_g: float | None = None
    flour_per_seed: float | None = None
    feeds: int | None = None


@dataclass(frozen=True, slots=True)
class Choosing:
    """What every step of the choice looks at."""

    k: Kinetics
    h: Habits
    culture: Culture
    wish: Wish
    awake: Callable[[float], bool]

    def takes(self, flour: float, temp_c: float | None = None) -> float:
        """Minutes to ripe of a feed with so much flour per seed."""
        grams = portions_g(1.0, flour, self.culture.hydration_pct, self.wish.target_pct)
        warmth = self.wish.temp_c if temp_c is None else temp_c
        return feeding(self.k, self.h, self.culture, grams, warmth, 0.0).ripe_min


def flour_for_seed(total_per_seed: float, seed_pct: float, target_pct: float) -> float:
    """Flour per part of seed so that the whole is `total_per_seed` times the seed."""
    return total_per_seed / (1 + target_pct / 100) - 1 / (1 + seed_pct / 100)


def refuse_hour(bench: Choosing, flour: float) -> NoReturn:
    """Say that the hour cannot be met, and when it could."""
    wish = bench.wish
    there_is = (wish.ripe_min or 0.0) - (wish.start_min or 0.0)
    if there_is <= 0:
        raise Refused("the starter would have to be ripe before it is fed", "name a later hour")
    takes = bench.takes(flour)
    raise Refused(
        f"1:{flour:.3g} takes about {takes / 60:.1f} h at {wish.temp_c:g} °C, and there are {there_is / 60:.1f} h",
        f"{takes / 60:.1f} h from feeding, or {bench.takes(flour, 27.0) / 60:.1f} h at 27 °C; "
        "or a smaller feed, or some commercial yeast beside the starter",
        {"ripe_in_min": takes},
    )
