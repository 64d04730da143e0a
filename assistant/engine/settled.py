"""What was said, what the kitchen keeps to, and what is assumed: the shares a formula is solved with.

Only hydration, salt, leaven, piece mass, flour and bench loss are ever filled in. Sugar, fat and egg come when said, or
with a bread's usual dough.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.engine.blend import flours_of, preferments_of
from assistant.engine.enrichment import extras_of
from assistant.engine.givens import Defaults, Extra, FlourShare, Givens, Preferment
from assistant.engine.house import (
    HOUSE_LOSS_PCT,
    HOUSE_SALT_PCT,
    HOUSE_STARTER_HYDRATION_PCT,
    LIQUID_FROM_PCT,
    Gaps,
    Layer,
)
from assistant.engine.leaven import leaven_of
from assistant.engine.naming import article

if TYPE_CHECKING:
    from knowledge import Knowledge
    from knowledge.records.breads import Bread


@dataclass(frozen=True, slots=True)
class Settled:
    """The shares of one dough, every gap filled that may be; masses that were said stay in `givens`.

    hydration_pct is None where it is to be solved from masses. starter_pct and prefermented_pct are both None where
    there is no starter, or where its mass alone was said. `layers` says for each figure where it came from; `assumed`
    says it in words for each that was not said. `white_flour` is the flour that fills a blend up. `open_items`
    were named without an amount, and none is usual: they are left out until one is said.
    """

    givens: Givens
    bread: Bread | None
    hydration_pct: float | None
    salt_pct: float | None
    starter_pct: float | None
    prefermented_pct: float | None
    has_starter: bool
    starter_hydration_pct: float
    starter_flour: str | None
    loss_pct: float
    flours: tuple[FlourShare, ...]
    white_flour: str
    extras: tuple[Extra, ...]
    preferments: tuple[Preferment, ...]
    kept_piece_g: float | None
    open_items: tuple[str, ...]
    layers: Mapping[str, Layer]
    assumed: tuple[str, ...]


def settled(said: Givens, defaults: Defaults, kb: Knowledge) -> Settled:
    """Fill what may be filled. Refused where two flours were named without shares."""
    gaps = Gaps(said, defaults, kb)
    said = gaps.said
    extras = extras_of(gaps)
    starter_pct, prefermented_pct, has_starter, extras = leaven_of(gaps, extras)
    starter_hydration = HOUSE_STARTER_HYDRATION_PCT
    if has_starter or said.old_discard_g or said.old_discard_pct:
        starter_hydration = gaps.filled(
            "starter_hydration_pct",
            said.starter_hydration_pct,
            gaps.defaults.starter_hydration_pct,
            HOUSE_STARTER_HYDRATION_PCT,
            "starter at {} % hydration",
        )
    flours, white = flours_of(gaps)
    return Settled(
        givens=said,
        bread=gaps.bread,
        hydration_pct=hydration_pct_of(gaps, extras),
        salt_pct=salt_pct_of(gaps),
        starter_pct=starter_pct,
        prefermented_pct=prefermented_pct,
        has_starter=has_starter,
        starter_hydration_pct=starter_hydration,
        starter_flour=said.starter_flour if said.starter_flour is not None else gaps.defaults.starter_flour,
        loss_pct=loss_pct_of(gaps),
        flours=flours,
        white_flour=white,
        extras=extras,
        preferments=preferments_of(gaps, extras),
        kept_piece_g=gaps.defaults.piece_g,
        open_items=tuple(gaps.open_items),
        layers=gaps.layers,
        assumed=tuple(gaps.assumed),
    )


def salt_pct_of(gaps: Gaps) -> float | None:
    said = gaps.said
    if "salt" in said.without:
        gaps.layers["salt_pct"] = "said"
        return 0.0
    if said.salt_pct is None and said.salt_g is not None:
        gaps.layers["salt_pct"] = "solved"
        return None
    if said.salt_pct is None and said.from_masses:
        gaps.layers["salt_pct"] = "solved"
        return 0.0
    usual = gaps.bread.salt_usual_pct if gaps.bread is not None else HOUSE_SALT_PCT
    return gaps.filled("salt_pct", said.salt_pct, gaps.defaults.salt_pct, usual, "salt {} % of flour")


def loss_pct_of(gaps: Gaps) -> float:
    said = gaps.said
    if said.loss_pct is not None:
        gaps.layers["loss_pct"] = "said"
        return said.loss_pct
    asked_for_pieces = (said.pieces, said.piece_g, said.baked_g, said.tin, said.portions) != (None,) * 5
    if said.from_masses or not (asked_for_pieces or sizeless(gaps)):
        gaps.layers["loss_pct"] = "solved"
        return 0.0
    return gaps.filled("loss_pct", None, gaps.defaults.loss_pct, HOUSE_LOSS_PCT, "bench loss {} %")


def sizeless(gaps: Gaps) -> bool:
    """Nothing said gives the dough a size; one piece of the bread is then taken."""
    said = gaps.said
    masses = (said.dough_g, said.bowl_flour_g, said.all_flour_g, said.water_g, said.starter_g, said.salt_g)
    weighed = [*(x.g for x in said.flours), *(x.g for x in said.extras), *(x.g for x in said.preferments)]
    return masses == (None,) * 6 and not any(g is not None for g in weighed) and not said.max_g


def hydration_pct_of(gaps: Gaps, extras: tuple[Extra, ...]) -> float | None:
    said = gaps.said
    if said.hydration_pct is not None:
        gaps.layers["hydration_pct"] = "said"
        return said.hydration_pct
    if solves_hydration(gaps) or liquid_is_milk(gaps, extras):
        gaps.layers["hydration_pct"] = "solved"
        return None
    usual = gaps.bread.hydration_usual_pct if gaps.bread is not None else gaps.lean.hydration_usual_pct
    of = f" (usual for {article(gaps.bread.name.lower())})" if gaps.bread is not None else " (a lean dough)"
    return gaps.filled("hydration_pct", None, gaps.defaults.hydration_pct, usual, "hydration {} %" + of)


def solves_hydration(gaps: Gaps) -> bool:
    """Two masses among flour, water and dough settle it."""
    said = gaps.said
    if said.from_masses:
        return True
    weighed = bool(said.flours) and all(x.g is not None for x in said.flours)
    flour = said.bowl_flour_g is not None or said.all_flour_g is not None or weighed
    pieces = said.pieces is not None and (said.piece_g, said.baked_g) != (None, None)
    dough = said.dough_g is not None or pieces or said.tin is not None
    return (flour, said.water_g is not None, dough).count(True) >= 2


def liquid_is_milk(gaps: Gaps, extras: tuple[Extra, ...]) -> bool:
    """Milk or another liquid was named in an amount that takes the water's place, and no water was."""
    said, pct = gaps.said, 0.0
    if said.water_g is not None:
        return False
    flour_g = said.all_flour_g or said.bowl_flour_g or sum(x.g or 0.0 for x in said.flours)
    for extra in extras:
        it = gaps.kb.ingredients[extra.item]
        if it.group not in ("dairy", "other", "fruit") or (it.water_pct or 0.0) < 70:
            continue
        if extra.pct is not None:
            pct += extra.pct
        elif extra.g is not None and flour_g:
            pct += 100 * extra.g / flour_g
    if pct < LIQUID_FROM_PCT:
        return False
    gaps.assumed.append("no plain water")
    return True
