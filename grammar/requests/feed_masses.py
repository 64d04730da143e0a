"""The grams of a line about feeding: wanted, in the jar, kept back, and what goes in; and the ratio they go in by."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.frames import Bound, Hit, amount_base

LEAST_BARE_G = 25
"""A number below this without a unit is not taken for grams of starter."""


@dataclass(frozen=True, slots=True)
class FeedMasses:
    """Grams: needed, in the jar, kept back; seed, flour and water as they go in."""

    needed: float | None = None
    have: float | None = None
    keep: float | None = None
    seed: float | None = None
    flour: float | None = None
    water: float | None = None


def masses_said(bound: Bound, ratio: bool) -> FeedMasses | None:
    """The grams by what they are of; None where what looked like them is a count."""
    if _a_count(bound.first("needed_g")):
        return None
    keep = 0.0 if _keeps_none(bound) else bound.base("keep_g")
    if (span := _from_to(bound.first("have_g") or bound.first("needed_g"))) is not None:
        return FeedMasses(needed=span[1], have=span[0], keep=keep)
    needed, have = _jar(bound, bound.base("needed_g"), bound.base("have_g"))
    held = bound.first("have_g")
    if needed is None and held is not None and held.label is None and bound.said("feeding:twice", "feeding:daily"):
        needed, have = have, None  # fed again and again: what is wanted of it each time
    masses = FeedMasses(needed, have, keep, bound.base("seed_g"), bound.base("flour_g"), bound.base("water_g"))
    if masses.flour is not None and masses.water is not None:
        seed = next((one for one in (masses.seed, needed, have) if one is not None), None)
        return replace(masses, seed=seed, needed=None, have=None)
    if masses.seed is not None and masses.flour is None and needed is None and have is None:
        masses = replace(masses, needed=masses.seed, seed=None)  # with nothing to feed it with, it is what is wanted
    asks_parts = bound.said("ask:how_much") and bound.said("ingredient:flour*", "cue:flour", "cue:water")
    given = [one for one in (masses.seed, needed, have, masses.flour, masses.water) if one is not None]
    if ratio and asks_parts and len(given) == 1 and not _for_so_much(bound):
        # "how much flour and water to 30 g of starter for 1:2:2"
        return FeedMasses(have=given[0], keep=keep)
    return masses


def _from_to(hit: Hit | None) -> tuple[float, float] | None:
    """Grams of "from 5 g to 500 g": what there is and what it is to become."""
    amount = hit.amount if hit is not None else None
    if amount is None or amount.quantity is None or amount.high is None or amount.high.base < 2 * amount.quantity.base:
        return None
    return amount.quantity.base, amount.high.base


def _for_so_much(bound: Bound) -> bool:
    """Whether the one mass of the line is what it is all for, rather than what is fed."""
    place = next((i for i, phrase in enumerate(bound.phrases) if phrase.kind == "amount" and phrase.dim == "mass"), 0)
    return place > 0 and "for" in bound.phrases[place - 1].ids("link")


def _keeps_none(bound: Bound) -> bool:
    """Whether nothing is to be kept back: said so, or keeping is denied."""
    denied = any(phrase.negated and "keep" in phrase.ids("feeding") for phrase in bound.phrases)
    return denied or bound.said("feeding:keep_none")


def _a_count(hit: Hit | None) -> bool:
    """Whether an amount is a small number with no unit: rolls, heads or an hour, hardly grams of starter."""
    said_g = hit.amount.quantity if hit is not None and hit.amount is not None else None
    return said_g is not None and said_g.unit is None and said_g.value < LEAST_BARE_G


def _jar(bound: Bound, needed: float | None, have: float | None) -> tuple[float | None, float | None]:
    """What is needed and what the jar holds: "15 g in the jar, 180 g wanted" and "the jar has 15 g, I need 180 g"."""
    if needed is None or have is None or have <= needed:
        return needed, have
    place = next((i for i, p in enumerate(bound.phrases) if "jar" in p.ids("feeding")), None)
    if place is None:
        return have, needed  # nobody builds less than there is without naming the jar
    if bound.phrases[place].text.lower().split()[-1] in ("has", "holds"):
        return needed, have
    before = next((p for p in reversed(bound.phrases[:place]) if p.kind == "amount"), None)
    if before is not None and amount_base(before) == needed:
        return have, needed
    return needed, have


def ratio_of(hit: Hit | None) -> tuple[float, float, float] | None:
    """The three parts of a feed said as a ratio."""
    if hit is None or hit.amount is None:
        return None
    parts = next((t.value for t in hit.amount.tokens if isinstance(t.value, tuple)), None)
    # "1:5" names no water: as much of it as of flour
    return (float(parts[0]), float(parts[1]), float(parts[-1])) if parts else None
