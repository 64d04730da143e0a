"""What a baker sees of a water temperature: what to pour first, then the trade's rule and the limits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from assistant.voice.page import Line, Page
from assistant.voice.spans import degrees_said


@dataclass(frozen=True, slots=True)
class WaterTold:
    """A water answer as it is told. terms: how many temperatures the trade's rule adds up."""

    fields: Mapping[str, Any]
    limit: str | None
    most_c: float
    starter_most_c: float
    has_starter: bool
    terms: int
    assumed: tuple[str, ...]


RULE_OFF_C = 2.0
"""From here on the rule's water would miss the dough temperature by enough to warn."""


def _why_off(f: Mapping[str, Any]) -> str:
    """Why the trade's rule fails here."""
    if f["starter_c"] is not None and abs(f["starter_c"] - f["room_c"]) >= 5:
        return "it counts a small starter like all the water"
    if abs(f["flour_c"] - f["room_c"]) >= 5 or abs(f["target_c"] - f["room_c"]) >= 5:
        return "it counts the air of the room like flour and water, and the dough hardly feels it"
    return "it counts flour, which takes little heat, like the water"


def water_page(told: WaterTold) -> Page:
    """The page; the rule's own sum waits for "more"."""
    f = told.fields
    total_g = f["water_g"] + f["ice_g"]
    blocks: list[Line] = []
    if f["ice_g"] > 0:
        blocks.append(
            Line(
                f"{f['water_g']:.0f} g of water at {degrees_said(f['water_c'])} and {f['ice_g']:.0f} g of crushed ice "
                f"(together {total_g:.0f} g, acting like {degrees_said(f['needed_c'])}).",
                role="head",
            )
        )
    else:
        blocks.append(
            Line(
                f"{total_g:.0f} g of {f['liquid'].lower()} at {degrees_said(f['water_c'])}, for dough at "
                f"{degrees_said(f['target_c'])}.",
                role="head",
            )
        )
    if told.limit == "hot":
        blocks.append(
            Line(
                f"The sum asks for {degrees_said(f['needed_c'])}, but water above {degrees_said(told.most_c)} "
                "harms the yeast: the dough comes "
                f"out at {degrees_said(f['dough_c'])}. Warm the flour or the bowl instead.",
                role="warn",
            )
        )
    elif told.limit == "ice":
        blocks.append(
            Line(
                "More ice than a third of the water does not melt in time: the dough comes out at "
                f"{degrees_said(f['dough_c'])}. Chill the flour.",
                role="warn",
            )
        )
    if told.has_starter and f["water_c"] > told.starter_most_c:
        blocks.append(
            Line(
                f"Above {degrees_said(told.starter_most_c)} do not dissolve the starter in it: water into the "
                "flour first, starter after.",
                role="warn",
            )
        )
    off_c = f["rule_dough_c"] - f["target_c"]
    if abs(off_c) >= RULE_OFF_C:
        blocks.append(
            Line(
                f"The trade's rule would say {degrees_said(f['rule_c'])} and end at "
                f"{degrees_said(f['rule_dough_c'])}: {_why_off(f)}. This is the heat balance.",
                role="warn",
            )
        )
    if told.assumed:
        blocks.append(Line("Assumed: " + "; ".join(told.assumed) + ".", role="note"))
    starter = f" - starter {f['starter_c']:g}" if f["starter_c"] is not None else ""
    blocks.append(
        Line(
            f"The trade's rule: {told.terms} x {f['target_c']:g} - room {f['room_c']:g} - flour "
            f"{f['flour_c']:g}{starter} - "
            f"{told.terms} x {f['friction_c']:g} = {f['rule_c']:.0f} °C. The heat balance weighs each part by "
            "its mass and heat capacity.",
            more=True,
        )
    )
    blocks.append(
        Line(
            "Measure the dough after mixing; if it is off, tell me by how much and set your mixer's own rise.",
            more=True,
        )
    )
    return Page(tuple(blocks))
