"""What was said, what the kitchen keeps to, and what is assumed: the shares a formula is solved with.

Only hydration, salt, leaven, piece mass, flour and bench loss are ever filled in. Sugar, fat and egg come when said, or
with a bread's usual dough.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from assistant.engine.givens import Defaults, Extra, FlourShare, Givens, Preferment
from assistant.engine.naming import PLAIN_SALT, article, figure, short_name
from assistant.engine.refusal import Refused
from knowledge.records.preferments import PrefermentKind as KindRecord
from knowledge.records.usual_doughs import UsualDough
from knowledge.records.yeasts import Yeast

if TYPE_CHECKING:
    from knowledge import Knowledge
    from knowledge.records.breads import Bread

Layer = Literal["said", "set", "assumed", "solved"]

LEAN_BREAD = "hearth_loaf"
"""Where no bread is named the dough is a lean one, and this record says what is usual for it."""
HOUSE_SALT_PCT = 2.0
HOUSE_STARTER_PCT = 20.0
HOUSE_STARTER_HYDRATION_PCT = 100.0
HOUSE_LOSS_PCT = 1.0
HOUSE_FLOUR = "flour_bread"
HOUSE_YEAST = "yeast_instant"
LIQUID_FROM_PCT = 40.0
"""From this share of the flour on, milk, whey or juice is the dough's liquid and not an enrichment."""
STIFF_STARTER = "starter_stiff_50"


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
    """Fill what may be filled. Refused where something said has no amount and none is usual."""
    return _Settling(said, defaults, kb).settled()


class _Settling:
    """One pass over the givens; keeps the layers and the words for what was not said."""

    def __init__(self, said: Givens, defaults: Defaults, kb: Knowledge) -> None:
        self.said = tidied(said, kb)
        self.defaults = defaults
        self.kb = kb
        self.bread = kb.breads[self.said.bread] if self.said.bread is not None else None
        self.usual = kb.all(UsualDough).get(self.said.bread) if self.said.bread is not None else None
        self.lean = kb.breads[LEAN_BREAD]
        self.layers: dict[str, Layer] = {}
        self.assumed: list[str] = []
        self.open_items: list[str] = []

    def settled(self) -> Settled:
        said = self.said
        extras = self.extras()
        starter_pct, prefermented_pct, has_starter, extras = self.leaven(extras)
        starter_hydration = HOUSE_STARTER_HYDRATION_PCT
        if has_starter or said.old_discard_g or said.old_discard_pct:
            starter_hydration = self.filled(
                "starter_hydration_pct",
                said.starter_hydration_pct,
                self.defaults.starter_hydration_pct,
                HOUSE_STARTER_HYDRATION_PCT,
                "starter at {} % hydration",
            )
        flours, white = self.flours()
        return Settled(
            givens=said,
            bread=self.bread,
            hydration_pct=self.hydration(extras),
            salt_pct=self.salt(),
            starter_pct=starter_pct,
            prefermented_pct=prefermented_pct,
            has_starter=has_starter,
            starter_hydration_pct=starter_hydration,
            starter_flour=said.starter_flour if said.starter_flour is not None else self.defaults.starter_flour,
            loss_pct=self.loss(),
            flours=flours,
            white_flour=white,
            extras=extras,
            preferments=self.preferments(extras),
            kept_piece_g=self.defaults.piece_g,
            open_items=tuple(self.open_items),
            layers=self.layers,
            assumed=tuple(self.assumed),
        )

    def filled(self, name: str, said: float | None, kept: float | None, usual: float, words: str) -> float:
        """The said figure, else the kitchen's, else the usual one, each noted."""
        if said is not None:
            self.layers[name] = "said"
            return said
        if kept is not None:
            self.layers[name] = "set"
            self.assumed.append(f"{words.format(figure(kept))} (your setting)")
            return kept
        self.layers[name] = "assumed"
        self.assumed.append(words.format(figure(usual)))
        return usual

    def salt(self) -> float | None:
        said = self.said
        if "salt" in said.without:
            self.layers["salt_pct"] = "said"
            return 0.0
        if said.salt_pct is None and said.salt_g is not None:
            self.layers["salt_pct"] = "solved"
            return None
        if said.salt_pct is None and said.from_masses:
            self.layers["salt_pct"] = "solved"
            return 0.0
        usual = self.bread.salt_usual_pct if self.bread is not None else HOUSE_SALT_PCT
        return self.filled("salt_pct", said.salt_pct, self.defaults.salt_pct, usual, "salt {} % of flour")

    def loss(self) -> float:
        said = self.said
        if said.loss_pct is not None:
            self.layers["loss_pct"] = "said"
            return said.loss_pct
        asked_for_pieces = (said.pieces, said.piece_g, said.baked_g, said.tin, said.portions) != (None,) * 5
        if said.from_masses or not (asked_for_pieces or self.sizeless()):
            self.layers["loss_pct"] = "solved"
            return 0.0
        return self.filled("loss_pct", None, self.defaults.loss_pct, HOUSE_LOSS_PCT, "bench loss {} %")

    def sizeless(self) -> bool:
        """Nothing said gives the dough a size; one piece of the bread is then taken."""
        said = self.said
        masses = (said.dough_g, said.bowl_flour_g, said.all_flour_g, said.water_g, said.starter_g, said.salt_g)
        weighed = any(x.g is not None for x in (*said.flours, *said.extras, *said.preferments))
        return masses == (None,) * 6 and not weighed and not said.max_g

    def hydration(self, extras: tuple[Extra, ...]) -> float | None:
        said = self.said
        if said.hydration_pct is not None:
            self.layers["hydration_pct"] = "said"
            return said.hydration_pct
        if self.solves_hydration() or self.liquid_is_milk(extras):
            self.layers["hydration_pct"] = "solved"
            return None
        usual = self.bread.hydration_usual_pct if self.bread is not None else self.lean.hydration_usual_pct
        of = f" (usual for {article(self.bread.name.lower())})" if self.bread is not None else " (a lean dough)"
        return self.filled("hydration_pct", None, self.defaults.hydration_pct, usual, "hydration {} %" + of)

    def solves_hydration(self) -> bool:
        """Two masses among flour, water and dough settle it."""
        said = self.said
        if said.from_masses:
            return True
        weighed = bool(said.flours) and all(x.g is not None for x in said.flours)
        flour = said.bowl_flour_g is not None or said.all_flour_g is not None or weighed
        pieces = said.pieces is not None and (said.piece_g, said.baked_g) != (None, None)
        dough = said.dough_g is not None or pieces or said.tin is not None
        return (flour, said.water_g is not None, dough).count(True) >= 2

    def liquid_is_milk(self, extras: tuple[Extra, ...]) -> bool:
        """Milk or another liquid was named in an amount that takes the water's place, and no water was."""
        said, pct = self.said, 0.0
        if said.water_g is not None:
            return False
        flour_g = said.all_flour_g or said.bowl_flour_g or sum(x.g or 0.0 for x in said.flours)
        for extra in extras:
            it = self.kb.ingredients[extra.item]
            if it.group not in ("dairy", "other", "fruit") or (it.water_pct or 0.0) < 70:
                continue
            if extra.pct is not None:
                pct += extra.pct
            elif extra.g is not None and flour_g:
                pct += 100 * extra.g / flour_g
        if pct < LIQUID_FROM_PCT:
            return False
        self.assumed.append("no plain water")
        return True

    def leaven(self, extras: tuple[Extra, ...]) -> tuple[float | None, float | None, bool, tuple[Extra, ...]]:
        """Starter percentages, whether there is a starter, and the extras with a yeast that stands in for it."""
        said = self.said
        if "starter" in said.without:
            raised = self.raised_otherwise(extras) or said.from_masses or "yeast" in said.without
            return None, None, False, extras if raised else (*extras, *self.stand_in_yeast())
        if said.prefermented_pct is not None or said.starter_pct is not None:
            which = "starter_pct" if said.starter_pct is not None else "prefermented_pct"
            self.layers[which] = "said"
            share = said.starter_pct if said.starter_pct is not None else said.prefermented_pct
            return said.starter_pct, said.prefermented_pct, bool(share), extras
        if said.starter_g is not None and not self.starter_is_the_size():
            self.layers["starter_pct"] = "solved"
            return None, None, said.starter_g > 0, extras
        raised = self.raised_otherwise(extras)
        if said.starter_g is None and (raised or said.from_masses):
            return None, None, False, extras
        usual = HOUSE_STARTER_PCT
        if self.bread is not None:
            usual = self.bread.starter_usual_pct
            if usual == 0 and said.starter_g is None:
                yeasted = self.bread.yeast_fresh_usual_pct > 0 and "yeast" not in said.without
                return None, None, False, (*extras, *self.stand_in_yeast()) if yeasted else extras
        usual = usual or HOUSE_STARTER_PCT
        pct = self.filled(
            "starter_pct", None, self.defaults.starter_pct, usual, "starter {} % of the flour outside it"
        )
        return pct, None, True, extras

    def starter_is_the_size(self) -> bool:
        """A starter to be used up, and nothing else that says how much dough."""
        said = self.said
        each = said.piece_g or said.baked_g or self.defaults.piece_g or self.bread
        pieces = said.pieces if each is not None else None
        sizes = (pieces, said.dough_g, said.bowl_flour_g, said.all_flour_g, said.water_g, said.tin, said.portions)
        return sizes == (None,) * 7 and not any(x.g is not None for x in said.flours) and not said.from_masses

    def raised_otherwise(self, extras: tuple[Extra, ...]) -> bool:
        kinds = self.kb.all(KindRecord)
        groups = (self.kb.ingredients[extra.item].group for extra in extras)
        return any(group == "leavening" for group in groups) or any(
            kinds[preferment.kind].raises for preferment in self.said.preferments
        )

    def stand_in_yeast(self) -> tuple[Extra, ...]:
        return (Extra(HOUSE_YEAST, pct=self.usual_yeast_pct(HOUSE_YEAST)),)

    def usual_yeast_pct(self, item: str) -> float:
        """The bread's usual yeast (a lean dough's where it has none), in this kind of yeast; noted as assumed."""
        fresh = self.bread.yeast_fresh_usual_pct if self.bread is not None else self.lean.yeast_fresh_usual_pct
        pct = (fresh or self.lean.yeast_fresh_usual_pct) * self.kb.all(Yeast)[item].per_fresh
        self.layers[item] = "assumed"
        self.assumed.append(f"{short_name(self.kb.ingredients[item])} {figure(pct)} % of flour")
        return pct

    def extras(self) -> tuple[Extra, ...]:
        """The extras said, amounts filled in where one is usual, and what the bread's usual dough adds."""
        said, kb = self.said, self.kb
        out: list[Extra] = []
        for extra in said.extras:
            if extra.item in said.without:
                continue
            if extra.item in kb.all(Yeast) and "yeast" in said.without:
                continue
            if extra.pct is None and extra.g is None:
                usual = self.usual_amount(extra.item)
                if usual is None:
                    self.open_items.append(extra.item)
                    continue
                extra = replace(extra, pct=usual)
            out.append(replace(extra, late=extra.late or extra.item in said.late))
        if said.usual and self.bread is not None:
            out += self.usual_extras(out)
        return _joined(out)

    def usual_amount(self, item: str) -> float | None:
        """What is usual of something named without an amount; None where nothing is."""
        if item in self.kb.all(Yeast):
            return self.usual_yeast_pct(item)
        name, group = short_name(self.kb.ingredients[item]), self.kb.ingredients[item].group
        if self.bread is not None:
            usual = {
                "fat": self.bread.fat_usual_pct, "sugar": self.bread.sugar_usual_pct, "egg": self.bread.egg_usual_pct,
            }.get(group, 0.0)  # fmt: skip
            if usual > 0:
                self.layers[item] = "assumed"
                self.assumed.append(f"{name} {figure(usual)} % of flour (usual for {article(self.bread.name.lower())})")
                return usual
        return None

    def usual_extras(self, said: list[Extra]) -> list[Extra]:
        assert self.bread is not None
        blank = UsualDough(id=self.bread.id, source=self.bread.source, confidence=self.bread.confidence)
        usual = self.usual if self.usual is not None else blank
        groups = {self.kb.ingredients[extra.item].group for extra in said}
        out: list[Extra] = []
        for item, pct in (
            (usual.fat, self.bread.fat_usual_pct),
            (usual.sugar, self.bread.sugar_usual_pct),
            (usual.egg, self.bread.egg_usual_pct),
        ):
            ingredient = self.kb.ingredients[item]
            if pct <= 0 or ingredient.group in groups or item in self.said.without:
                continue
            self.layers[item] = "assumed"
            self.assumed.append(f"{short_name(ingredient)} {figure(pct)} % of flour")
            out.append(Extra(item, pct=pct))
        return out

    def flours(self) -> tuple[tuple[FlourShare, ...], str]:
        """The blend said, else the bread's, else the kitchen's flour; and the flour that fills it up."""
        said, kb = self.said, self.kb
        white = self.defaults.flour if self.defaults.flour is not None else HOUSE_FLOUR
        shares = tuple(share for share in said.flours if share.item not in said.without)
        if shares:
            open_ended = [x for x in shares if x.pct is None and x.g is None]
            if len(open_ended) > 1:
                names = " and ".join(short_name(kb.ingredients[x.item]) for x in open_ended)
                raise Refused(f"how much of each of {names}? Their shares are missing", "half and half, or 20 % of one")
            shares = tuple(replace(x, rest=x.pct is None and x.g is None) for x in shares)
            return shares, white
        if self.usual is not None and self.usual.flours and (said.usual or self.usual.flours_by_name):
            shares = tuple(FlourShare(item, pct=pct) for item, pct in self.usual.flours.items())
            for share in shares:
                self.assumed.append(f"{figure(share.pct or 0)} % {short_name(kb.ingredients[share.item])}")
            return shares, white
        self.layers["flour"] = "assumed" if self.defaults.flour is None else "set"
        setting = " (your setting)" if self.defaults.flour is not None else ""
        self.assumed.append(f"{short_name(kb.ingredients[white])}{setting}")
        return (), white

    def preferments(self, extras: tuple[Extra, ...]) -> tuple[Preferment, ...]:
        """Each with size, water and yeast settled."""
        kinds, yeasts = self.kb.all(KindRecord), self.kb.all(Yeast)
        named = next((extra.item for extra in extras if extra.item in yeasts), HOUSE_YEAST)
        out: list[Preferment] = []
        for part in self.said.preferments:
            kind = kinds[part.kind]
            if (part.flour_pct, part.pct, part.flour_g, part.g) == (None,) * 4:
                # A share of prefermented flour with no starter beside it is meant for the preferment that was named.
                self.assumed.append(f"{kind.name} with {figure(kind.flour_usual_pct)} % of the flour")
                part = replace(part, flour_pct=kind.flour_usual_pct)
            if part.hydration_pct is None:
                self.assumed.append(f"{kind.name} at {figure(kind.hydration_usual_pct)} % hydration")
                part = replace(part, hydration_pct=kind.hydration_usual_pct)
            yeast = part.yeast if part.yeast is not None else named
            if part.yeast_pct is None and kind.yeast_fresh_pct > 0:
                pct = kind.yeast_fresh_pct * yeasts[yeast].per_fresh if yeast in yeasts else kind.yeast_fresh_pct
                name = short_name(self.kb.ingredients[yeast])
                self.assumed.append(f"{name} {figure(pct)} % of the {kind.name}'s flour")
                part = replace(part, yeast_pct=pct)
            out.append(replace(part, yeast=yeast))
        return tuple(out)


def tidied(said: Givens, kb: Knowledge) -> Givens:
    """The same givens with each thing in its own field: a flour, starter, water or salt among the extras."""
    flours, extras, fields = list(said.flours), [], {}
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
        said, flours=_merged(flours), extras=tuple(extras), preferments=preferments,
        salt_item=known.pop("salt_item", said.salt_item) or PLAIN_SALT, **known,
    )  # fmt: skip


def _joined(extras: list[Extra]) -> tuple[Extra, ...]:
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


def _merged(flours: list[FlourShare]) -> tuple[FlourShare, ...]:
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
