"""The formula: every row of a dough, solved from any sufficient set of givens.

`solve` settles what was not said, finds the scale, pours the water that the hydration still wants, and adds up what
came out. Everything stays exact; rounding belongs to the page.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.engine.composition import allergens
from assistant.engine.dough import Formula, PrefermentDetail, Row, StarterDetail
from assistant.engine.givens import Defaults, Givens
from assistant.engine.instead_of_water import poured_instead, without_water
from assistant.engine.naming import figure, grams
from assistant.engine.parts import Part, parts_of
from assistant.engine.possible import check_figures
from assistant.engine.refusal import Refused
from assistant.engine.remarks import offers_on, remarks_on
from assistant.engine.settled import Settled, settled
from assistant.engine.size import Size, size_of

if TYPE_CHECKING:
    from knowledge import Knowledge

DUST_G = 1e-6
LEAST_FLOUR_G = 1.0


def solve(givens: Givens, defaults: Defaults, kb: Knowledge) -> Formula:
    """The one dough that answers to the givens.

    Raises Refused where they contradict each other, cannot be, or leave the size open; KeyError for an unknown item.
    """
    liquid = poured_instead(givens, kb)
    if liquid is not None:
        return without_water(givens, liquid, lambda each: solve(each, defaults, kb), kb)
    check_figures(givens, kb)
    shares = settled(givens, defaults, kb)
    size = size_of(shares, parts_of(shares, kb), kb)
    if shares.layers["hydration_pct"] in ("assumed", "set") and _poured_g(size.parts, size) < 0:
        # A usual hydration is no wish: where milk, egg and starter bring more water than that, none is poured.
        shares = replace(
            shares, hydration_pct=None, layers={**shares.layers, "hydration_pct": "solved"},
            assumed=(*(x for x in shares.assumed if not x.startswith("hydration ")), "no plain water"),
        )  # fmt: skip
        size = size_of(shares, parts_of(shares, kb), kb)
    formula = _formula(shares, size.parts, size, kb)
    remarks = size.remarks + remarks_on(formula, shares, kb)
    return replace(formula, remarks=remarks, offers=offers_on(formula, shares, kb))


def _poured_g(parts: tuple[Part, ...], size: Size) -> float:
    return size.hydration_pct / 100 * size.flour_g - sum(part.water.at(size.flour_g) for part in parts)


def _formula(shares: Settled, parts: tuple[Part, ...], size: Size, kb: Knowledge) -> Formula:
    flour_g = size.flour_g
    if flour_g < LEAST_FLOUR_G:
        raise Refused(f"{flour_g:.2g} g of flour is no dough to weigh out", "at least a few grams of flour")
    water_from = {part.item: part.water.at(flour_g) for part in parts if part.water.at(flour_g) > DUST_G}
    poured_g = _poured_g(parts, size)
    if poured_g < -max(1e-6 * flour_g, 1e-9):
        raise _too_dry(shares, parts, size, kb)
    poured_g = max(0.0, poured_g)
    rows = _rows(shares, parts, flour_g, poured_g, kb)
    starter = _starter(shares, parts, flour_g)
    details = tuple(_detail(part, flour_g) for part in parts if part.role == "preferment")
    outside_g = flour_g - (starter.flour_g if starter is not None else 0.0)
    if starter is not None and outside_g <= DUST_G and shares.starter_pct is not None:
        raise Refused("the starter holds all the flour there is", "less starter")
    prefermented_g = starter.flour_g if starter is not None else sum(
        part.flour.at(flour_g) for part in parts if part.role == "preferment" and part.item not in ("scald", "soaker")
    )  # fmt: skip
    return Formula(
        rows=rows,
        pieces=size.pieces,
        piece_g=size.piece_g,
        baked_g=size.baked_g,
        loss_pct=size.loss_pct,
        dough_g=sum(row.g for row in rows),
        spare_g=size.spare_g,
        flour_g=flour_g,
        water_g=poured_g + sum(water_from.values()),
        hydration_pct=size.hydration_pct,
        salt_pct=100 * sum(row.g for row in rows if row.role == "salt") / flour_g,
        salt_total_pct=100 * sum(part.salt.at(flour_g) for part in parts) / flour_g,
        starter_pct=100 * starter.g / outside_g if starter is not None and outside_g > DUST_G else None,
        prefermented_pct=100 * prefermented_g / flour_g,
        starter=starter,
        preferments=details,
        bread=shares.givens.bread,
        water_from=({"water": poured_g} if poured_g > DUST_G else {}) | water_from,
        assumed=_assumed(shares, size, parts),
        allergens=allergens(_eaten(shares, rows), kb.ingredients),
        layers={**shares.layers, **size.layers},
        sized_by=size.sized_by,
        sized_what=size.sized_what,
    )


def _rows(
    shares: Settled, parts: tuple[Part, ...], flour_g: float, poured_g: float, kb: Knowledge
) -> tuple[Row, ...]:
    """Rows in pouring order: liquids, starter, preferments, flours, the rest, salt; then what comes later."""
    held_g = poured_g * (shares.givens.held_water_pct or 0.0) / 100

    def row(part: Part) -> Row:
        g = part.mass.at(flour_g)
        if g < -1e-6 * flour_g:
            raise _no_room(part, parts, g, flour_g)
        return Row(part.item, part.name, max(0.0, g), 100 * max(0.0, g) / flour_g, part.role, part.late)

    def liquid(part: Part) -> bool:
        pours = part.role == "extra" and kb.ingredients[part.item].group != "leavening"
        return pours and part.water.at(1000.0) > 0.6 * part.mass.at(1000.0) and not part.late

    ordered = [Row("water", "water", poured_g - held_g, 100 * (poured_g - held_g) / flour_g, "water")]
    ordered += [row(part) for part in parts if liquid(part)]
    for role in ("starter", "preferment", "flour", "extra", "salt"):
        ordered += [row(part) for part in parts if part.role == role and not part.late and not liquid(part)]
    if held_g > DUST_G:
        ordered.append(Row("water", "water, held back", held_g, 100 * held_g / flour_g, "water", later=True))
    ordered += [row(part) for part in parts if part.late]
    return tuple(row for row in ordered if row.g > DUST_G)


def _no_room(part: Part, parts: tuple[Part, ...], g: float, flour_g: float) -> Refused:
    inside = sum(other.flour.at(flour_g) for other in parts if other.role in ("starter", "preferment"))
    if part.role == "flour":
        return Refused(
            f"starter and preferments bring {grams(inside)} g of flour and the other flours take the rest: "
            f"{grams(-g)} g more than there is room for {part.name}",
            "less starter, or smaller shares of the other flours",
        )
    return Refused(f"{part.name} would weigh {grams(g)} g", f"an amount of {part.name} above nothing")


def _too_dry(shares: Settled, parts: tuple[Part, ...], size: Size, kb: Knowledge) -> Refused:
    """Why the dough cannot be this dry: what brings the water, and how much."""
    flour_g = size.flour_g
    brings = sorted(((part.water.at(flour_g), part) for part in parts if part.water.at(flour_g) > DUST_G),
                    key=lambda found: -found[0])  # fmt: skip
    points = 100 * sum(water for water, _ in brings) / flour_g
    starter = next((part for _, part in brings if part.role == "starter"), None)
    limit = figure(round(points, 1))
    if starter is not None and len([1 for water, _ in brings if water > 0.5]) == 1:
        outside = flour_g - starter.flour.at(flour_g)
        of_added = 100 * starter.mass.at(flour_g) / outside if outside > DUST_G else 0.0
        why = (
            f"a {figure(shares.starter_hydration_pct)} % starter at {figure(of_added)} % of the added flour already "
            f"brings {limit} points of water: this dough cannot be drier than {limit} %, "
            f"and {figure(size.hydration_pct)} % was asked"
        )
        most = _most_starter_pct(size.hydration_pct, shares.starter_hydration_pct)
        nearest = f"{limit} % hydration with no water poured" + (
            f", or at most {figure(int(most * 10) / 10)} % starter" if most else ", or a stiffer starter"
        )
    else:
        names = ", ".join(f"{part.name} {grams(water)} g" for water, part in brings[:4])
        why = (
            f"{limit} points of water are in already ({names}): this dough cannot be drier than {limit} %, "
            f"and {figure(size.hydration_pct)} % was asked"
        )
        nearest = f"{limit} % hydration with no water poured, or less of what brings the water"
    return Refused(why, nearest, {"hydration_pct": points})


def _most_starter_pct(hydration_pct: float, starter_hydration_pct: float) -> float | None:
    """Starter (% of the flour outside it) that brings just all the water; None where any amount stays drier."""
    h, s = hydration_pct / 100, starter_hydration_pct / 100
    return 100 * h * (1 + s) / (s - h) if s > h + 1e-9 else None


def _starter(shares: Settled, parts: tuple[Part, ...], flour_g: float) -> StarterDetail | None:
    part = next((part for part in parts if part.role == "starter"), None)
    if part is None or part.mass.at(flour_g) <= DUST_G:
        return None
    return StarterDetail(
        part.mass.at(flour_g), shares.starter_hydration_pct, part.flour.at(flour_g), part.water.at(flour_g)
    )


def _detail(part: Part, flour_g: float) -> PrefermentDetail:
    g, own = part.mass.at(flour_g), part.flour.at(flour_g)
    per_flour = part.detail.get("mass_per_flour", 0.0)
    base = own if own > DUST_G else (g / per_flour if per_flour else 0.0)
    hydration = part.detail.get("hydration_pct", 100.0)
    return PrefermentDetail(
        part.item, part.name, g, hydration, own, base if own <= DUST_G else 0.0, base * hydration / 100,
        base * part.detail.get("yeast_pct", 0.0) / 100, base * part.detail.get("salt_pct", 0.0) / 100,
    )  # fmt: skip


def _assumed(shares: Settled, size: Size, parts: tuple[Part, ...]) -> tuple[str, ...]:
    """What was not said, in words; what a solved loss overtook is left out."""
    overtaken = size.loss_pct != shares.loss_pct
    words = [word for word in shares.assumed if not (overtaken and word.startswith("bench loss"))]
    named = {share.item for share in shares.givens.flours}
    filled = [part for part in parts if part.role == "flour" and part.item not in named]
    if shares.givens.flours and filled:
        words.append(f"the rest {filled[-1].name}")
    return tuple(dict.fromkeys([*words, *size.assumed]))


def _eaten(shares: Settled, rows: tuple[Row, ...]) -> list[str]:
    items = [row.item for row in rows]
    if any(row.role in ("starter", "preferment") for row in rows):
        named = [shares.starter_flour] if shares.starter_flour is not None else [shares.white_flour]
        items += [*named, *(part.flour for part in shares.preferments if part.flour is not None)]
    return items
