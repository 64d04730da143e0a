"""Each thing that was said in the field it belongs to, and each thing once."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from assistant.engine.givens import Extra, FlourShare, Givens
from assistant.engine.naming import PLAIN_SALT

if TYPE_CHECKING:
    from knowledge import Knowledge

STIFF_STARTER = "starter_stiff_50"


def sorted_givens(said: Givens, kb: Knowledge) -> Givens:
    """The same givens with each thing in its own field: a flour, starter, water or salt among the extras."""
    flours, extras = list(said.flours), []
    fields: dict[str, Any] = {}
    for extra in said.extras:
        group = kb.ingredients[extra.item].group
        if group == "flour":
            flours.append(FlourShare(extra.item, pct=extra.pct, g=extra.g))
        elif group == "starter":
            fields |= {"starter_pct": extra.pct, "starter_g": extra.g}
            if extra.item == STIFF_STARTER and said.starter_hydration_pct is None:
                fields["starter_hydration_pct"] = 50.0
        elif group == "salt":
            fields |= {"salt_pct": extra.pct, "salt_g": extra.g, "salt_item": extra.item}
        elif extra.item == "water":
            fields |= {"hydration_pct": extra.pct, "water_g": extra.g}
        else:
            extras.append(extra)
    known = {name: value for name, value in fields.items() if value is not None and getattr(said, name) is None}
    preferments = said.preferments
    if said.prefermented_pct is not None and said.starter_g is None and said.starter_pct is None and preferments:
        first = preferments[0]
        if (first.flour_pct, first.pct, first.flour_g, first.g) == (None,) * 4:
            preferments = (replace(first, flour_pct=said.prefermented_pct), *preferments[1:])
            known["prefermented_pct"] = None
    return replace(
        said, flours=merged_flours(flours), extras=tuple(extras), preferments=preferments,
        salt_item=known.pop("salt_item", said.salt_item) or PLAIN_SALT, **known,
    )  # fmt: skip


def joined(extras: list[Extra]) -> tuple[Extra, ...]:
    """One extra for each thing that goes in at one time; the same thing said twice in one measure is added up."""
    out: dict[tuple[str, bool, bool, bool], Extra] = {}
    for extra in extras:
        key = (extra.item, extra.late, extra.soaked, extra.pct is None)
        before = out.get(key)
        if before is not None and extra.pct is not None and before.pct is not None:
            extra = replace(extra, pct=before.pct + extra.pct)
        elif before is not None and extra.g is not None and before.g is not None:
            extra = replace(extra, g=before.g + extra.g)
        out[key] = extra
    return tuple(out.values())


def merged_flours(flours: list[FlourShare]) -> tuple[FlourShare, ...]:
    """One share for each flour; figures of the same kind are added."""
    out: dict[str, FlourShare] = {}
    for share in flours:
        before = out.get(share.item)
        if before is None:
            out[share.item] = share
            continue
        pct = None if before.pct is None and share.pct is None else (before.pct or 0) + (share.pct or 0)
        g = None if before.g is None and share.g is None else (before.g or 0) + (share.g or 0)
        out[share.item] = FlourShare(share.item, pct=pct, g=g, rest=before.rest or share.rest)
    return tuple(out.values())
