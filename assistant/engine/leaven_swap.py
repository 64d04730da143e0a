"""Starter for yeast and yeast for starter: a share of the flour and a clock, no gram rule."""

from __future__ import annotations

from assistant.engine.bowl import STARTER, Bowl, Foods
from assistant.engine.composition import Portion
from assistant.engine.refusal import Refused
from assistant.engine.swaps import LEAST_WATER_G, Choice


def starter_for_yeast(bowl: Bowl, foods: Foods, starter_pct: float, starter_hydration_pct: float = 100.0) -> Choice:
    """Ripe starter in place of commercial yeast, the dough's flour and water kept: no gram rule, a share of the flour.

    `starter_pct` is grams of starter per 100 g of the flour outside it; 15 to 25 is usual. Flour and water of the
    starter come off the bowl's. Source: flour balance F_out = F / (1 + S / (1 + h)).
    """
    if bowl.starter_g > 0:
        raise Refused("There is starter in this dough already.", "Say how much starter it should have.")
    flour_g = bowl.bowl_flour_g(foods)
    h = starter_hydration_pct / 100
    outside_g = flour_g / (1 + starter_pct / 100 / (1 + h))
    starter_g = outside_g * starter_pct / 100
    inside_g = flour_g - outside_g
    flours = tuple(
        Portion(portion.item, -inside_g * portion.g / flour_g)
        for portion in bowl.portions
        if foods[portion.item].group == "flour"
    )
    water = Portion("water", -(starter_g - inside_g))
    return Choice(
        into=(Portion(STARTER, starter_g),),
        also=(*flours, water),
        effect="dosed by flour and clock, not by the yeast: slower, sourer, keeps longer",
        limit=1.0,
        beyond_limit=False,
        gains=(),
        loses=(),
        labels=(),
        function="leavening",
        basis="reckoned",
        source="flour balance; yeast equivalents have no gram rule for starter",
    )


def starter_for_starter(starter_g: float, hydration_pct: float, into: str, into_hydration_pct: float) -> Choice:
    """Ripe starter of one hydration for that of another, both in percent: as much flour in it, the water made up.

    Source: flour balance, S1 / (1 + h1) = S2 / (1 + h2); what differs in water goes into the dough or comes off it.
    """
    flour_g = starter_g / (1 + hydration_pct / 100)
    new_g = flour_g * (1 + into_hydration_pct / 100)
    stiffer = into_hydration_pct < hydration_pct
    return Choice(
        into=(Portion(into, new_g),),
        also=(Portion("water", starter_g - new_g),) if abs(starter_g - new_g) > LEAST_WATER_G else (),
        effect=f"the same flour in it: {'slower and milder, keeps longer' if stiffer else 'quicker, a little sharper'}",
        limit=1.0,
        beyond_limit=False,
        gains=(),
        loses=(),
        labels=(),
        function="leavening",
        basis="reckoned",
        source="flour balance",
    )


def yeast_for_starter(starter_g: float, hydration_pct: float, yeast: str, overnight: bool, flour: str) -> Choice:
    """Commercial yeast in place of ripe starter: its flour and water go in as they are.

    A same-day dough takes 0.03 g instant yeast per gram of 100 % starter, an overnight one 0.004; 3 times as much
    fresh, 1.25 times as much active dry. The starter's own flour decides, whatever its hydration.
    Source: yeast equivalents (bread textbooks; US Armed Forces cards) and the swap on record.
    """
    flour_g = starter_g / (1 + hydration_pct / 100)
    instant_g = flour_g * 2 * (0.004 if overnight else 0.03)
    per_instant = {"yeast_instant": 1.0, "yeast_active_dry": 1.25, "yeast_fresh": 3.0}[yeast]
    clock = "overnight at room temperature" if overnight else "same day: 1.5-2 h of bulk at 24 °C"
    return Choice(
        into=(
            Portion(yeast, instant_g * per_instant),
            Portion(flour, flour_g),
            Portion("water", starter_g - flour_g),
        ),
        also=(),
        effect=f"{clock}; no acid: blander crumb, stales sooner; rye over 30 % needs acid",
        limit=1.0,
        beyond_limit=False,
        gains=(),
        loses=(),
        labels=(),
        function="leavening",
        basis="table",
        source="yeast equivalents (bread textbooks; US Armed Forces cards); own estimate",
    )
