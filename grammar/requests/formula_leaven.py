"""The starter of a dough as it was told: its share, its own hydration, what it is fed with; the preferments beside."""

from __future__ import annotations

from collections.abc import Sequence

from grammar.frames import Bound, Hit, fits
from grammar.requests.formula_ferments import STARTER
from grammar.requests.formula_parts import number, own_hydration
from grammar.requests.formula_preferments import MadeUp

Told = tuple[str, float | None, float | None, float | None]
"""A preferment: its kind, % of the flour, g, its own hydration."""

_OWN_WATER = ("starter_hydration_pct", "starter_firm_pct", "starter_at_pct")
_AS_NAMED = (
    (("ingredient:starter_stiff_50",), 50.0), (("cue:stiff",), 50.0), (("cue:liquid_starter",), 100.0),
)  # fmt: skip
"""Words for how a starter is kept, and the hydration they mean where none is said."""
_FLOURS = {"starter_rye_100": "flour_rye_medium", "starter_whole_wheat_100": "flour_whole_wheat"}
_STIFFEST_PCT = 60.0
"""Up to here a hydration said beside a stiff starter is the starter's."""
_SHARES = ("starter_pct", "starter_of_pct", "then_starter_pct", "starter_share_pct")


def share_hit(bound: Bound) -> Hit | None:
    """The figure that is the starter's share of the flour."""
    return next((hit for slot in _SHARES if (hit := bound.first(slot)) is not None), None)


def fed_with(bound: Bound) -> str | None:
    """The flour the starter is fed with, where its name says it."""
    return next((fed for item, fed in _FLOURS.items() if bound.said(f"ingredient:{item}")), None)


def two_waters(bound: Bound, hydration: float | None, weighed: bool) -> tuple[float | None, float | None]:
    """The starter's hydration and the dough's. weighed: the dough's own follows from weights, so that what is left to
    say is the starter's."""
    own = next((value for slot in _OWN_WATER if (value := bound.base(slot))), None)
    weighed_out = any(
        hit.amount is not None and hit.amount.dim == "mass" and hit.label is not None and fits(hit.label, STARTER)
        for hit in bound.hits
    )
    if own is not None and own == bound.base("starter_at_pct") and weighed_out and hydration is None and not weighed:
        return None, own  # "240 g starter at 66 %": so much of it in a dough of that
    if own is None and bound.said(*STARTER):
        own = next((pct for words, pct in _AS_NAMED if bound.said(*words)), None)
    stiff = bound.said("ingredient:starter_stiff_50") and bound.context.has_bake
    if stiff and hydration is not None and hydration <= _STIFFEST_PCT:
        return hydration, None  # "with a stiff starter, 50 % hydration?"
    return (hydration, None) if weighed and hydration is not None and own is None else (own, hydration)


def preferments_of(bound: Bound, made: Sequence[MadeUp]) -> tuple[Told, ...]:
    """The preferments told with an amount, and those made up of what was said of each."""
    told = tuple(
        (
            hit.ids("preferment")[0], number(hit) if hit.slot == "preferment_pct" else None,
            number(hit) if hit.slot == "preferment_g" else None, own_hydration(bound, hit),
        )
        for hit in (*bound.of("preferment_pct"), *bound.of("preferment_g"))
    )  # fmt: skip
    return (*((one.kind, None, one.g, one.hydration_pct) for one in made), *told)
