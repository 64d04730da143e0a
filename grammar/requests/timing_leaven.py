"""What is in the dough of a line about time: shares of the flour, said as such or as masses."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Bound, Hit, amount_base, fits
from grammar.requests.timing_slots import STARTER, WHOLEGRAIN
from grammar.requests.timing_spans import share_pct


@dataclass(frozen=True, slots=True)
class Leaven:
    """Shares in % of flour, masses in grams, volumes in ml. bare_pct: a percentage of nothing named; parts:
    of each other ingredient."""

    starter_pct: float | None = None
    starter_hydration_pct: float | None = None
    yeast: tuple[tuple[str, float], ...] = ()
    yeast_ml: tuple[tuple[str, float], ...] = ()
    flour_g: float | None = None
    hydration_pct: float | None = None
    salt_pct: float | None = None
    sugar_pct: float | None = None
    mass_g: float | None = None
    parts: tuple[tuple[str, float], ...] = ()
    grain_pct: float | None = None
    bare_pct: float | None = None


def leaven_of(bound: Bound, lone_starter: bool) -> Leaven:
    """The dough's shares; `lone_starter`: grams of starter with no flour beside them are the whole that ripens."""
    starter_hit = bound.first("starter_pct")
    starter = share_pct(starter_hit)
    if starter is None:
        starter = bound.base("starter_much_pct")
    if starter is None:
        starter = _inoculation(bound.first("ratio"))
    own_hydration = _starter_hydration(bound)
    hydration = None if own_hydration == bound.base("hydration_pct") else bound.base("hydration_pct")
    yeast = tuple((yeast_kind(hit), amount_base(hit.amount) or 0.0) for hit in bound.of("yeast_pct"))
    salt, mass_g = bound.base("salt_pct"), bound.base("mass_g")
    flour_g = bound.base("flour_g")
    starter_g = bound.base("starter_g") or bound.base("starter_bare_g")
    yeast_hit = bound.first("yeast_g")
    if flour_g:
        in_starter_g = (starter_g or 0.0) / 2
        all_flour_g = flour_g + in_starter_g
        starter = 100 * starter_g / flour_g if starter_g else starter
        water_g, salt_g = bound.base("water_g"), bound.base("salt_g")
        if water_g:
            hydration = 100 * (water_g + in_starter_g) / all_flour_g
            mass_g = mass_g or flour_g + water_g + (starter_g or 0.0) + (salt_g or 0.0)
        salt = 100 * salt_g / all_flour_g if salt_g else salt
        if yeast_hit is not None:
            yeast = ((yeast_kind(yeast_hit), 100 * (bound.base("yeast_g") or 0.0) / all_flour_g),)
    elif yeast_hit is not None and re.search(r"per (?:kg|kilo)", bound.text.lower()):
        yeast = ((yeast_kind(yeast_hit), (bound.base("yeast_g") or 0.0) / 10),)
    elif starter_g and mass_g is None and lone_starter:
        mass_g = starter_g
    gone = {name for hit in bound.of("without") for name in (*hit.ids("ingredient"), *hit.ids("cue"))}
    bare_pct = bound.base("yeast_bare_pct")
    if bare_pct is None and starter_hit is not None and starter_hit.label is None:
        bare_pct = starter
    spooned = bound.first("yeast_ml")
    return Leaven(
        starter_pct=0.0 if any(name.startswith("starter") for name in gone) else starter,
        starter_hydration_pct=own_hydration,
        yeast=yeast,
        yeast_ml=((yeast_kind(spooned), bound.base("yeast_ml") or 0.0),) if spooned else (),
        flour_g=flour_g if spooned else None,
        hydration_pct=hydration,
        salt_pct=0.0 if any(name.startswith("salt") for name in gone) else salt,
        sugar_pct=bound.base("sugar_pct"),
        mass_g=mass_g,
        parts=tuple((hit.ids("ingredient")[0], amount_base(hit.amount) or 0.0) for hit in bound.of("part_pct")),
        grain_pct=_grain(bound),
        bare_pct=bare_pct,
    )


def yeast_kind(hit: Hit | None) -> str:
    """The kind of yeast a figure is of; instant where none was named."""
    if hit is None:
        return "yeast_instant"
    return (*hit.ids("ingredient"), *hit.ids("yeast_kind"), "yeast_instant")[0]


def parts_of(hit: Hit | None) -> tuple[float, ...] | None:
    """The parts of a ratio as said: two or three of them."""
    if hit is None or hit.amount is None:
        return None
    parts = next((t.value for t in hit.amount.tokens if isinstance(t.value, tuple)), None)
    return tuple(float(part) for part in parts) if parts else None


def _inoculation(hit: Hit | None) -> float | None:
    """Starter on flour from "1:5": one part of starter to five of flour."""
    parts = parts_of(hit)
    return 100 * parts[0] / parts[1] if parts is not None and len(parts) == 2 and parts[1] > 0 else None


def _starter_hydration(bound: Bound) -> float | None:
    """The starter's own hydration: said so, or "levain at 50 % hydration" where the levain has no other figure."""
    said_so = bound.base("starter_hydration_pct")
    hit, share = bound.first("hydration_pct"), bound.first("starter_pct") or bound.first("starter_much_pct")
    if said_so is not None or hit is None or hit.amount is None:
        return said_so
    place = next((i for i, phrase in enumerate(bound.phrases) if phrase is hit.amount), 0)
    if place < 2 or "at" not in bound.phrases[place - 1].ids("link") or not fits(bound.phrases[place - 2], STARTER):
        return None
    owned = share is not None and share.label is bound.phrases[place - 2]
    return None if owned else amount_base(hit.amount)


def _grain(bound: Bound) -> float | None:
    """Whole grain as % of flour where a share of it was said."""
    hit = bound.first("grain_pct")
    if hit is None or hit.label is None or not fits(hit.label, WHOLEGRAIN):
        return None
    return share_pct(hit)
