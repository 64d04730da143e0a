"""What is named to go into a dough, in shares, grams, spoons or without an amount, and what is left out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import islice

from grammar.frames import Bound, Hit, amount_base, fits
from grammar.phrases import Phrase
from grammar.requests.formula_ferments import STARTER
from grammar.requests.formula_slots import FLOUR, SALT


@dataclass(frozen=True, slots=True)
class Part:
    """Something named to go into the dough. item: ingredient ids it may be, likeliest first.

    pct: of all flour; g: grams; volume_ml and unit: where a volume was said; rest: "the rest bread flour"; late:
    added later.
    """

    item: tuple[str, ...]
    pct: float | None = None
    g: float | None = None
    rest: bool = False
    late: bool = False
    soaked: bool = False
    flour: bool = False  # a share of the flour blend
    alone: bool = False  # said to be all there is: "bread flour only"
    measure: tuple[float, str] | None = (
        None  # amount and unit as said, where it was no mass: (2.0, "tsp"), (3.0, "each")
    )


def own_hydration(bound: Bound, preferment: Hit) -> float | None:
    """A preferment's own hydration: the figure said of that one, or the only one said."""
    said = bound.of("preferment_at_pct")
    ours = [hit for hit in said if set(hit.ids("preferment")) & set(preferment.ids("preferment"))]
    kinds = {hit.ids("preferment") for hit in bound.hits if hit.ids("preferment")}
    alone = said if len(kinds) < 2 else ()
    return number(next(iter((*ours, *alone)), None))


def without_amount(bound: Bound) -> tuple[str, ...]:
    """Preferments the line names and says nothing of: "20 rolls with poolish"."""
    sized = {
        kind for slot in ("preferment_pct", "preferment_g") for hit in bound.of(slot) for kind in hit.ids("preferment")
    }
    named = [
        kind for phrase in bound.phrases if not phrase.negated and not phrase.ids("bread")
        for kind in phrase.ids("preferment")[:1]
    ]  # fmt: skip
    return tuple(dict.fromkeys(kind for kind in named if kind not in sized))


def unweighed(part: Part) -> bool:
    """Named without an amount, and no flour."""
    return not part.flour and part.pct is None and part.g is None and part.measure is None


def counted_through(bound: Bound) -> Hit | None:
    """The 12 of "12 rye rolls": a bare number before what the pieces are made of counts the pieces."""
    if bound.first("pieces") is not None:
        return None
    for hit in bound.of("part_pct"):
        if hit.amount is None or hit.label is None or hit.amount.dim != "num":
            continue
        n = bound.phrases.index(hit.label)
        behind = bound.phrases[n + 1 : n + 2]
        if bound.phrases[n - 1] is hit.amount and behind and fits(behind[0], ("piece:*", "bread:*")):
            return hit
    return None


def number(hit: Hit | None) -> float | None:
    value = amount_base(hit.amount) if hit else None
    share = hit is not None and hit.amount is not None and hit.amount.dim == "share"
    return value * 100 if share and value is not None else value


def ingredients_of(label: Phrase | None) -> tuple[str, ...]:
    return label.ids("ingredient") if label else ()


def is_flour(label: Phrase) -> bool:
    return fits(label, FLOUR)


def parts_of(bound: Bound, masses: bool, asked: tuple[str, ...]) -> tuple[list[Part], dict[str, float]]:
    """The parts named, and the masses that have fields of their own (water, starter, salt, flour)."""
    parts: list[Part] = []
    own: dict[str, float] = {}
    counted = counted_through(bound)
    for hit in bound.hits:
        label, amount_of = hit.label, _AMOUNT_OF.get(hit.slot)
        if label is None or hit.amount is None:
            continue
        if hit is counted:
            parts.append(Part(ingredients_of(label), rest=is_flour(label), flour=is_flour(label)))
        elif _is_weight(hit, masses):
            _weigh(label, amount_base(hit.amount) or 0.0, parts, own)
        elif amount_of is not None:
            parts.append(amount_of(bound, hit, label))
    named = [hit.label for hit in bound.of("flour") if hit.label is not None and not _asked_for(hit.label, asked)]
    flours = [label for label in named if "flour" not in label.ids("cue")]
    kinds = [set(ingredients_of(label)) for label in flours]
    flours = [one for one, own in zip(flours, kinds, strict=True) if not any(kind < own for kind in kinds)]
    parts += [Part(ingredients_of(one), rest=True, flour=True, alone=_flour_alone(bound)) for one in flours]
    others = [hit.label for hit in bound.of("item") if hit.label is not None and not _asked_for(hit.label, asked)]
    weighed = {part.item for part in parts}  # "butter in that, 6 percent, unsalted" names it twice
    others = [
        label for label in others if (ids := ingredients_of(label)) and ids not in weighed
        and not fits(label, (*STARTER, *SALT, *_NO_PART))
    ]  # fmt: skip
    parts += [Part(ingredients_of(label), late=late_beside(bound, label)) for label in others]
    return parts, own


def _is_weight(hit: Hit, masses: bool) -> bool:
    """Whether an amount says what something weighs: in grams, in a list of weights, or as so much water."""
    bare = masses and hit.amount is not None and hit.amount.dim == "num" and hit.slot in _SHARES
    water = hit.label is not None and fits(hit.label, ("ingredient:water", "cue:water"))
    return hit.slot == "part_g" or bare or (hit.slot == "part_volume" and water)  # 1 ml weighs 1 g


def _by_share(bound: Bound, hit: Hit, label: Phrase) -> Part:
    late, soaked = late_beside(bound, label), _soaked_beside(bound, label)
    return Part(ingredients_of(label), pct=number(hit), late=late, soaked=soaked, flour=is_flour(label))


def _by_volume(bound: Bound, hit: Hit, label: Phrase) -> Part:
    said = hit.amount.quantity if hit.amount is not None else None
    measure = (said.value, said.unit or "ml") if said is not None else None
    return Part(ingredients_of(label), flour=is_flour(label), measure=measure)


def _by_count(bound: Bound, hit: Hit, label: Phrase) -> Part:
    return Part(ingredients_of(label), measure=(amount_base(hit.amount) or 0.0, "each"))


_SHARES = frozenset({"part_pct", "salt_pct", "starter_pct", "hydration_pct"})
_AMOUNT_OF: Mapping[str, Callable[[Bound, Hit, Phrase], Part]] = {
    "part_pct": _by_share, "part_volume": _by_volume, "part_count": _by_count,
}  # fmt: skip
"""How the amount of a part is said, by slot."""
_NO_PART = ("ingredient:water", "blend:*")


def _flour_alone(bound: Bound) -> bool:
    """ "bread flour only", "make it wholemeal": a flour said to be all there is."""
    if bound.said("cue:all_of_it", "cue:limit", "cue:all_the"):
        return True
    words = [phrase for phrase in bound.phrases if phrase.kind in ("label", "amount", "junk")]
    changed = len(words) == 2 and fits(words[0], ("act:change", "act:make", "act:use"))  # "use wholemeal instead"
    return bound.context.has_bake and changed and fits(words[1], FLOUR)


def _weigh(label: Phrase, g: float, parts: list[Part], own: dict[str, float]) -> None:
    ids = ingredients_of(label)
    if "water" in ids[:1] or ("water" in label.ids("cue") and not ids):
        own["water_g"] = own.get("water_g", 0.0) + g
    elif "discard" in label.ids("cue"):
        own["discard_g"] = g
    elif fits(label, STARTER):
        own["starter_g"] = own.get("starter_g", 0.0) + g
    elif fits(label, SALT) and (not ids or ids[0].startswith("salt_table")):
        own["salt_g"] = own.get("salt_g", 0.0) + g
    elif "flour" in label.ids("cue"):
        own["flour_g"] = own.get("flour_g", 0.0) + g
    elif ids:
        parts.append(Part(ids, g=g, flour=is_flour(label)))


def late_of(bound: Bound) -> list[str]:
    """Salt or starter that comes later, with its share: "2 % salt after the autolyse"."""
    hits = (*bound.of("salt_pct"), *bound.of("starter_pct"))
    late = [hit for hit in hits if hit.label is not None and late_beside(bound, hit.label)]
    return ["salt" if hit.slot == "salt_pct" else "starter" for hit in late]


def _asked_for(label: Phrase, asked: tuple[str, ...]) -> bool:
    return bool(set(asked) & {*label.ids("ingredient"), *label.ids("cue")})


def late_beside(bound: Bound, label: Phrase) -> bool:
    """Whether the word right behind what a row is named by, where that still stands in the line, says that it comes
    later."""
    behind = (phrase for phrase in bound.phrases if phrase.tokens[0].start >= label.tokens[-1].end)
    return any(fits(phrase, ("cue:later",)) for phrase in islice(behind, 1))


def _soaked_beside(bound: Bound, label: Phrase) -> bool:
    """ "25 % soaked raisins", "25 % raisins, soaked": the water in them counts."""
    start = label.tokens[0].start
    n = sum(phrase.tokens[0].start < start for phrase in bound.phrases)
    around = [p for p in bound.phrases[max(0, n - 1) : n + 3] if p.kind != "sep"]
    return any(fits(p, ("cue:soaked",)) for p in around)


def salt_named(bound: Bound) -> str | None:
    """Which salt was named, where it is not plain fine salt."""
    for hit in (*bound.of("salt_pct"), *bound.of("part_g")):
        for item in ingredients_of(hit.label)[:1]:
            if item.startswith("salt_") and item != "salt_table":
                return item
    return None
