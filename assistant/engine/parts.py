"""What goes into the bowl, part by part, each as grams that grow with the flour.

Every part says how much of it is flour and how much is counted water, so that a starter, a poolish, milk, egg, honey or
butter are counted once. Plain water is not a part: it is whatever the hydration still wants.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Literal

from assistant.engine.composition import counted_water_share, dough_salt_share
from assistant.engine.givens import FlourShare, Preferment
from assistant.engine.house import HOUSE_FLOUR
from assistant.engine.linear import ALL_FLOUR, Linear, total
from assistant.engine.naming import figure, short_name
from assistant.engine.refusal import Refused
from assistant.engine.settled import Settled
from knowledge.records.preferments import PrefermentKind as KindRecord

if TYPE_CHECKING:
    from knowledge import Knowledge
    from knowledge.records.ingredients import Ingredient

Role = Literal["starter", "preferment", "flour", "extra", "salt"]


@dataclass(frozen=True, slots=True)
class Part:
    """One row to be: grams of it, and the flour, counted water and dough salt it brings.

    owned: flour it carries that is not weighed as a flour row, by flour ("" where it was not said which).
    drawn: that flour is part of the flour said for the bowl (a poolish is made from it, a starter is not).
    """

    item: str
    name: str
    role: Role
    mass: Linear
    flour: Linear = field(default_factory=Linear)
    water: Linear = field(default_factory=Linear)
    salt: Linear = field(default_factory=Linear)
    owned: Mapping[str, Linear] = field(default_factory=dict)
    drawn: bool = False
    late: bool = False
    detail: Mapping[str, float] = field(default_factory=dict)

    def shrunk(self, factor: float) -> Part:
        """The part with what was said of it in grams `factor` times as large; shares stay shares."""
        owned = {item: line.with_fixed(factor) for item, line in self.owned.items()}
        return replace(
            self, mass=self.mass.with_fixed(factor), flour=self.flour.with_fixed(factor), owned=owned,
            water=self.water.with_fixed(factor), salt=self.salt.with_fixed(factor),
        )  # fmt: skip


def parts_of(settled: Settled, kb: Knowledge) -> tuple[Part, ...]:
    """Every part but plain water. Refused where the parts cannot fit into the flour."""
    parts: list[Part] = []
    starter = starter_part(settled)
    if starter is not None:
        parts.append(starter)
    discard = discard_part(settled)
    if discard is not None:
        parts.append(discard)
    parts += [preferment_part(preferment, kb) for preferment in settled.preferments]
    owned_share = 100 * total([part.flour for part in parts]).share
    if owned_share > 100 + 1e-9:
        raise Refused(
            f"{figure(owned_share)} % of the flour is spoken for by starter and preferments; all of it is 100 %",
            "less of them: 15 to 30 % prefermented flour is usual",
        )
    parts += flour_parts(settled, parts, kb)
    parts += extra_parts(settled, kb)
    parts.append(salt_part(settled, kb))
    return tuple(parts)


def starter_part(settled: Settled) -> Part | None:
    """The ripe starter: its share of the flour outside it, its flour's share of all flour, or its mass.

    S % of the flour outside a starter of which the part `f` is flour: starter = S·F / (1 + S·f). P % prefermented
    flour: starter = P·F / f.
    """
    if not settled.has_starter:
        return None
    water_per_flour = settled.starter_hydration_pct / 100
    flour_part = 1 / (1 + water_per_flour)
    if settled.starter_pct is not None:
        share = settled.starter_pct / 100
        mass = Linear(share / (1 + share * flour_part))
        implied_pct, said_pct = 100 * mass.share * flour_part, settled.prefermented_pct
        if said_pct is not None and abs(implied_pct - said_pct) > 0.5:
            at = f"{figure(settled.starter_pct)} % starter at {figure(settled.starter_hydration_pct)} % hydration"
            raise Refused(
                f"{at} is {figure(round(implied_pct, 1))} % prefermented flour, and {figure(said_pct)} % was said",
                f"one of the two: {figure(settled.starter_pct)} % starter, or {figure(said_pct)} % prefermented flour",
            )
    elif settled.prefermented_pct is not None:
        if settled.prefermented_pct > 100:
            raise Refused(
                f"{figure(settled.prefermented_pct)} % prefermented flour is more than all the flour (100 %)",
                "10 to 30 % prefermented flour is usual",
            )
        mass = Linear(settled.prefermented_pct / 100 / flour_part)
    else:
        mass = Linear(fixed_g=settled.givens.starter_g or 0.0)
    flour = mass * flour_part
    return Part(
        "starter", f"starter, {figure(settled.starter_hydration_pct)} %", "starter", mass,
        flour=flour, water=mass - flour, owned={settled.starter_flour or "": flour},
    )  # fmt: skip


def discard_part(settled: Settled) -> Part | None:
    """Old starter that brings flour and water and no lift."""
    said = settled.givens
    if not said.old_discard_g and not said.old_discard_pct:
        return None
    mass = Linear(fixed_g=said.old_discard_g) if said.old_discard_g else Linear((said.old_discard_pct or 0.0) / 100)
    flour = mass * (1 / (1 + settled.starter_hydration_pct / 100))
    return Part(
        "old_discard", "old discard", "preferment", mass, flour=flour, water=mass - flour,
        owned={settled.starter_flour or "": flour}, detail={"hydration_pct": settled.starter_hydration_pct},
    )  # fmt: skip


def preferment_part(preferment: Preferment, kb: Knowledge) -> Part:
    """A poolish, biga, sponge, old dough, scald or soaker with its flour, water, yeast and salt."""
    kind = kb.all(KindRecord)[preferment.kind]
    water = (preferment.hydration_pct or 0.0) / 100
    yeast = (preferment.yeast_pct or 0.0) / 100
    salt = kind.salt_pct / 100
    mass_per_flour = 1 + water + yeast + salt
    if preferment.flour_pct is not None:
        flour = Linear(preferment.flour_pct / 100)
    elif preferment.pct is not None:
        flour = Linear(preferment.pct / 100 / mass_per_flour)
    else:
        flour = Linear(fixed_g=preferment.flour_g or (preferment.g or 0.0) / mass_per_flour)
    by_share = preferment.g is None
    grain = kb.ingredients[preferment.flour] if preferment.flour is not None else None
    soaks_grain = preferment.kind == "soaker" and (grain is None or grain.group != "flour")
    yeast_water = counted_water_share(kb.ingredients[preferment.yeast]) if preferment.yeast and yeast else 0.0
    detail = {
        "hydration_pct": 100 * water,
        "yeast_pct": 100 * yeast,
        "salt_pct": 100 * salt,
        "mass_per_flour": mass_per_flour,
    }
    counted = flour * (water + yeast * yeast_water)
    if soaks_grain:
        mass = flour * mass_per_flour
        return Part(
            preferment.kind, kind.name, "preferment", mass, water=counted, salt=flour * salt, detail=detail
        )
    return Part(
        preferment.kind, kind.name, "preferment", flour * mass_per_flour, flour=flour, water=counted, salt=flour * salt,
        owned={preferment.flour or "": flour}, drawn=kind.made_ahead and by_share, detail=detail,
    )  # fmt: skip


def extra_parts(settled: Settled, kb: Knowledge) -> list[Part]:
    """Everything else that was said, with its own water and salt."""
    out: list[Part] = []
    for extra in settled.extras:
        it = kb.ingredients[extra.item]
        mass = Linear(fixed_g=extra.g) if extra.g is not None else Linear((extra.pct or 0.0) / 100)
        water, salt = mass * counted_water_share(it, extra.soaked), mass * dough_salt_share(it)
        out.append(Part(extra.item, short_name(it), "extra", mass, water=water, salt=salt, late=extra.late))
    return out


def salt_part(settled: Settled, kb: Knowledge) -> Part:
    """The salt that is weighed; salt inside other things comes on top of it."""
    said = settled.givens
    mass = Linear(fixed_g=said.salt_g or 0.0) if settled.salt_pct is None else Linear(settled.salt_pct / 100)
    item: Ingredient = kb.ingredients[said.salt_item or "salt_table"]
    late = "salt" in said.late or item.id in said.late
    return Part(item.id, short_name(item), "salt", mass, salt=mass, late=late)


def flour_parts(settled: Settled, others: list[Part], kb: Knowledge) -> list[Part]:
    """The flours that are weighed into the bowl, so that they and the flour inside the other parts make all flour.

    A share is of all flour: flour inside a starter comes off the flour it was made from, else off the white flour of
    the blend, else off what fills the blend up or the largest flour. Masses are what goes into the bowl.
    """
    shares = list(settled.flours)
    owned = total([part.flour for part in others])
    pct = sum(share.pct or 0.0 for share in shares if share.g is None)
    if pct > 100 + 1e-6:
        named = ", ".join(
            f"{figure(x.pct or 0)} % {short_name(kb.ingredients[x.item])}" for x in shares if x.pct is not None
        )
        raise Refused(f"the flours come to {figure(pct)} %: {named}; all flour is 100 %", "shares that add up to 100 %")
    weighed_only = bool(shares) and all(share.g is not None for share in shares)
    if not weighed_only and not any(share.rest for share in shares) and pct < 100 - 1e-6:
        merged = [x for x in shares if x.item == settled.white_flour and x.g is None]
        shares = [x for x in shares if x not in merged] + [FlourShare(settled.white_flour, rest=True)]
    rows = {share.item: _row(share) for share in shares}
    rest = next((share.item for share in shares if share.rest), None)
    fallback = _fallback(shares, settled, rest)
    if rest is not None:
        rows[rest] = ALL_FLOUR - total([line for item, line in rows.items() if item != rest]) - owned
    for part in others:
        for item, line in part.owned.items():
            target = item if item in rows else fallback
            if target == rest:
                continue  # already taken off it
            fixed = next(share for share in shares if share.item == target).g is not None
            if fixed and not part.drawn:
                continue  # a mass said for the bowl never held the starter's flour
            rows[target] = rows[target] - line
            if rest is not None:
                rows[rest] = rows[rest] + line
    return [Part(item, short_name(kb.ingredients[item]), "flour", line, flour=line) for item, line in rows.items()]


def _row(share: FlourShare) -> Linear:
    return Linear(fixed_g=share.g) if share.g is not None else Linear((share.pct or 0.0) / 100)


def _fallback(shares: list[FlourShare], settled: Settled, rest: str | None) -> str:
    """The flour that gives way to flour inside a starter when nobody said which it was: a white one, where its share
    leaves room for that."""
    said = {share.item: share for share in shares}
    white = next((item for item in (settled.white_flour, HOUSE_FLOUR) if item in said), None)
    if white is not None and (rest is None or white == rest or (said[white].pct or 0.0) >= _ROOM_PCT):
        return white
    return rest or max(shares, key=lambda share: share.g if share.g is not None else (share.pct or 0.0)).item


_ROOM_PCT = 35.0
"""A share of white flour from which on it may hold the flour of the starter."""
