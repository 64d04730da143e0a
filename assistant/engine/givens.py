"""What a formula is solved from: the figures a baker said, and the figures the kitchen keeps.

Every field is None (or empty) when nothing was said. Masses are grams, lengths centimetres, shares percent.
Item ids are those of the ingredient records; the ripe starter has fields of its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

PrefermentKind = Literal["poolish", "biga", "sponge", "old_dough", "scald", "soaker"]
TinShape = Literal["tin", "round", "tray"]


@dataclass(frozen=True, slots=True)
class Limit:
    """Most there is of one thing: an item id, or "flour" (all that goes in the bowl), "starter", "water"."""

    item: str
    g: float


@dataclass(frozen=True, slots=True)
class Tin:
    """A tin, round or tray, or several alike; all lengths inside, in cm.

    `tin` is filled by volume: straight where the base is not given, tapered where it is. `round` with a depth of 5 cm
    or more is filled by volume too; a flatter `round`, and a `tray`, take dough by area. `ml` is a measured brim volume
    and wins.
    """

    shape: TinShape = "tin"
    length_cm: float | None = None
    width_cm: float | None = None
    depth_cm: float | None = None
    base_length_cm: float | None = None
    base_width_cm: float | None = None
    diameter_cm: float | None = None
    ml: float | None = None
    count: int = 1
    depth_guessed: bool = False  # nobody said it; loaf tins of that width usually have it


@dataclass(frozen=True, slots=True)
class FlourShare:
    """One flour of a blend: its share of all flour (`pct`), its mass in the bowl (`g`), or what is left (`rest`)."""

    item: str
    pct: float | None = None
    g: float | None = None
    rest: bool = False


@dataclass(frozen=True, slots=True)
class Extra:
    """Anything besides flour, plain water, starter and salt: percent of all flour, or grams.

    Commercial yeast is an extra too, and may come without an amount (the usual one is then taken). `soaked` is for
    dried fruit, grain and seed whose own water is to be counted; `late` for what is worked in at the end.
    """

    item: str
    pct: float | None = None
    g: float | None = None
    late: bool = False
    soaked: bool = False


@dataclass(frozen=True, slots=True)
class Preferment:
    """A part of the flour mixed ahead. Its size is one of `flour_pct` (its flour as % of all flour), `pct` (its mass
    as % of all flour), `flour_g` or `g` (its mass); the rest is filled from the kind's usual make-up.

    For a soaker `flour` is the grain or seed that is soaked. `yeast_pct` is percent of the preferment's own flour.
    """

    kind: PrefermentKind
    flour_pct: float | None = None
    pct: float | None = None
    flour_g: float | None = None
    g: float | None = None
    hydration_pct: float | None = None
    flour: str | None = None
    yeast: str | None = None
    yeast_pct: float | None = None


@dataclass(frozen=True, slots=True)
class Givens:
    """Everything said about one dough. None means unsaid."""

    # size
    pieces: float | None = None
    piece_g: float | None = None  # raw dough
    baked_g: float | None = None  # one piece after baking
    dough_g: float | None = None  # all of it
    bowl_flour_g: float | None = None  # flour that goes in the bowl, the starter's not included
    all_flour_g: float | None = None  # the starter's included
    water_g: float | None = None  # plain water poured
    starter_g: float | None = None  # ripe starter on hand, or to be used up
    salt_g: float | None = None
    max_g: tuple[Limit, ...] = ()
    tin: Tin | None = None
    portions: float | None = None
    # shares
    hydration_pct: float | None = None
    salt_pct: float | None = None
    starter_pct: float | None = None  # starter's mass, of the flour that is not in the starter
    prefermented_pct: float | None = None  # starter's flour, of all flour
    starter_hydration_pct: float | None = None
    loss_pct: float | None = None
    held_water_pct: float | None = None  # of the plain water, held back for later
    # what it is made of
    bread: str | None = None
    like: str | None = None  # what such a piece most plausibly is: lends piece mass (and bake loss where no bread is)
    usual: bool = False  # the bread's standard dough was asked for: its fat, sugar and egg come along
    flours: tuple[FlourShare, ...] = ()
    extras: tuple[Extra, ...] = ()
    preferments: tuple[Preferment, ...] = ()
    starter_flour: str | None = None
    salt_item: str | None = None  # which salt, e.g. "salt_kosher_dense"; None = fine salt
    old_discard_g: float | None = None  # counts as flour and water, not as leaven
    old_discard_pct: float | None = None  # the same, % of all flour
    without: tuple[str, ...] = ()  # ids, or "salt", "starter", "yeast"
    late: tuple[str, ...] = ()  # ids, or "salt": added later, not left out
    from_masses: bool = False  # a list of weights: percentages are wanted, nothing is filled in


@dataclass(frozen=True, slots=True)
class Defaults:
    """What this kitchen keeps to where a dough says nothing; None = no setting, the house default holds."""

    salt_pct: float | None = None
    loss_pct: float | None = None
    starter_hydration_pct: float | None = None
    starter_pct: float | None = None
    hydration_pct: float | None = None
    flour: str | None = None
    starter_flour: str | None = None
    piece_g: float | None = None
