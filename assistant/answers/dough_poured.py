"""A dough with more or less of one thing in it: by points of its share, so many times as much, or put in on top."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.dough_moved import share_pct
from assistant.engine.dough import Formula
from assistant.engine.naming import figure, grams
from assistant.engine.refusal import Refused
from grammar.requests.formula import FormulaRequest, Part

BOWL = ("flour", "water", "salt", "starter")
"""What is put in on top of a dough and makes more of it; of a row beside these there is more in as much dough."""


def by_times(said: FormulaRequest, times: tuple[tuple[str, float], ...], now: Formula) -> FormulaRequest:
    """The dough with a row so many times as large as it is. Raises Refused for a row that is not in it."""
    points: list[tuple[str, float]] = []
    for name, factor in times:
        was = share_pct(now, name)
        if not was:
            thing = name.replace("_", " ")
            why = f"there is no {thing} in this dough to make {figure(factor)} times as much of"
            raise Refused(why, f"5 % {thing}")
        points.append((name, was * (factor - 1)))
    return by_points(said, tuple(points), now)


def by_points(said: FormulaRequest, more_pct: tuple[tuple[str, float], ...], now: Formula) -> FormulaRequest:
    """The dough with a share so many points larger or smaller than it is. Raises Refused below nothing."""
    for name, points in more_pct:
        was = share_pct(now, name)
        share = was + points
        if share < 0:
            why = f"there are only {figure(was)} % of {name.replace('_', ' ')} in it"
            raise Refused(why, f"at most {figure(was)} points less")
        if name == "hydration":
            said = replace(said, hydration_pct=share, water_g=None)
        elif name == "salt":
            said = replace(said, salt_pct=share, salt_g=None)
        elif name == "starter":
            said = replace(said, starter_pct=share, prefermented_pct=None, starter_g=None)
        else:
            rest = tuple(part for part in said.parts if part.item[0] != name)
            part = Part((name,), pct=share, flour=name.startswith("flour_"))
            said = replace(said, parts=(*rest, part) if share else rest)
    return replace(said, more_pct=())


def poured_into(said: FormulaRequest, poured_g: tuple[tuple[str, float], ...], now: Formula) -> FormulaRequest:
    """The dough as it is with something put in on top: every other mass stays, the shares are those that result.

    The pieces stay as many and change in weight. Raises Refused where more is taken out than is in.
    """
    gained = {item: sum(g for one, g in poured_g if one == item) for item in BOWL}
    flours = _by_item(tuple((item, g) for item, g in poured_g if item.startswith("flour_")))
    plain_g = next((row.g for row in now.rows if row.item == "water"), 0.0)
    if plain_g + gained["water"] < 0:
        raise Refused(f"there are only {grams(plain_g)} g of water poured in it", f"at most {grams(plain_g)} g less")
    starter_h = now.starter.hydration_pct if now.starter is not None else said.starter_hydration_pct or 100.0
    starter_flour_g = gained["starter"] / (1 + starter_h / 100)
    flour_g = now.flour_g + gained["flour"] + sum(flours.values()) + starter_flour_g
    water_g = now.water_g + gained["water"] + gained["starter"] - starter_flour_g
    salt_g = now.salt_pct / 100 * now.flour_g + gained["salt"]
    starter_g = (now.starter.g if now.starter is not None else 0.0) + gained["starter"]
    dry_g = flour_g - starter_g / (1 + starter_h / 100)
    return replace(
        said, parts=_parts_with(said, flours, flour_g, now), poured_g=(), pieces=now.pieces, piece_g=None, baked_g=None,
        dough_g=None, flour_g=None, all_flour_g=flour_g, water_g=None, starter_g=None, salt_g=None, sizes_cm=(),
        tin_ml=None, portions=None, limits=(), from_masses=False, hydration_pct=100 * water_g / flour_g,
        salt_pct=100 * salt_g / flour_g, starter_pct=100 * starter_g / dry_g if starter_g else said.starter_pct,
        prefermented_pct=None,
    )  # fmt: skip


def _by_item(poured_g: tuple[tuple[str, float], ...]) -> dict[str, float]:
    return {item: sum(g for one, g in poured_g if one == item) for item, _ in poured_g}


def _parts_with(said: FormulaRequest, flours: dict[str, float], flour_g: float, now: Formula) -> tuple[Part, ...]:
    """The rows of the dough as shares of its new flour, flours put in by name among them."""
    kept = [
        part if part.rest else replace(part, g=None, measure=None, pct=_grams_in(now, part.item[0]) / flour_g * 100)
        for part in said.parts
        if part.rest or part.item[0] not in flours
    ]
    added = [Part((item,), pct=(_grams_in(now, item) + g) / flour_g * 100, flour=True) for item, g in flours.items()]
    return (*kept, *added)


def _grams_in(now: Formula, item: str) -> float:
    return sum(row.g for row in now.rows if row.item == item)
