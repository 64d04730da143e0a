"""The flours of a dough and the parts of them that are mixed ahead."""

from __future__ import annotations

from dataclasses import replace

from assistant.engine.givens import Extra, FlourShare, Preferment
from assistant.engine.house import HOUSE_FLOUR, HOUSE_YEAST, Gaps
from assistant.engine.naming import figure, short_name
from assistant.engine.refusal import Refused
from knowledge.records.preferments import PrefermentKind as KindRecord
from knowledge.records.yeasts import Yeast


def flours_of(gaps: Gaps) -> tuple[tuple[FlourShare, ...], str]:
    """The blend said, else the bread's, else the kitchen's flour; and the flour that fills it up."""
    said, kb = gaps.said, gaps.kb
    white = gaps.defaults.flour if gaps.defaults.flour is not None else HOUSE_FLOUR
    shares = tuple(share for share in said.flours if share.item not in said.without)
    if shares:
        open_ended = [x for x in shares if x.pct is None and x.g is None]
        if len(open_ended) > 1:
            names = " and ".join(short_name(kb.ingredients[x.item]) for x in open_ended)
            raise Refused(f"how much of each of {names}? Their shares are missing", "half and half, or 20 % of one")
        shares = tuple(replace(x, rest=x.pct is None and x.g is None) for x in shares)
        return shares, white
    if gaps.usual is not None and gaps.usual.flours and (said.usual or gaps.usual.flours_by_name):
        shares = tuple(FlourShare(item, pct=pct) for item, pct in gaps.usual.flours.items())
        for share in shares:
            gaps.assumed.append(f"{figure(share.pct or 0)} % {short_name(kb.ingredients[share.item])}")
        return shares, white
    gaps.layers["flour"] = "assumed" if gaps.defaults.flour is None else "set"
    setting = " (your setting)" if gaps.defaults.flour is not None else ""
    gaps.assumed.append(f"{short_name(kb.ingredients[white])}{setting}")
    return (), white


def preferments_of(gaps: Gaps, extras: tuple[Extra, ...]) -> tuple[Preferment, ...]:
    """Each with size, water and yeast settled."""
    kinds, yeasts = gaps.kb.all(KindRecord), gaps.kb.all(Yeast)
    named = next((extra.item for extra in extras if extra.item in yeasts), HOUSE_YEAST)
    out: list[Preferment] = []
    for part in gaps.said.preferments:
        kind = kinds[part.kind]
        if (part.flour_pct, part.pct, part.flour_g, part.g) == (None,) * 4:
            # A share of prefermented flour with no starter beside it is meant for the preferment that was named.
            gaps.assumed.append(f"{kind.name} with {figure(kind.flour_usual_pct)} % of the flour")
            part = replace(part, flour_pct=kind.flour_usual_pct)
        if part.hydration_pct is None:
            gaps.assumed.append(f"{kind.name} at {figure(kind.hydration_usual_pct)} % hydration")
            part = replace(part, hydration_pct=kind.hydration_usual_pct)
        yeast = part.yeast if part.yeast is not None else named
        if part.yeast_pct is None and kind.yeast_fresh_pct > 0:
            pct = kind.yeast_fresh_pct * yeasts[yeast].per_fresh if yeast in yeasts else kind.yeast_fresh_pct
            name = short_name(gaps.kb.ingredients[yeast])
            gaps.assumed.append(f"{name} {figure(pct)} % of the {kind.name}'s flour")
            part = replace(part, yeast_pct=pct)
        out.append(replace(part, yeast=yeast))
    return tuple(out)
