"""What a line about a dough asks to be told, and what a figure in a question is a share of."""

from __future__ import annotations

from dataclasses import replace

from grammar.frames import Bound, Hit, amount_base, fits
from grammar.phrases import Phrase
from grammar.requests.formula_counts import scales_at
from grammar.requests.formula_ferments import STARTER
from grammar.requests.formula_slots import SALT


def share_asked(bound: Bound, asked: tuple[str, ...]) -> Bound | None:
    """ "how much salt for 2.3 kg flour at 2.1 %": a share too small for hydration is of what is asked for.

    None where nothing was asked for that it could be a share of.
    """
    small = bound.first("asked_pct")
    if small is None or small.amount is None:
        return bound
    name = next((one for one in bound.phrases if asked and asked[0] in (*one.ids("ingredient"), *one.ids("cue"))), None)
    if name is None or len(asked) != 1 or fits(name, ("cue:flour", "ingredient:water", "cue:water", "cue:hydration")):
        return None
    slot = "salt_pct" if fits(name, SALT) else "starter_pct" if fits(name, STARTER) else "part_pct"
    if slot != "part_pct" and bound.first(slot) is not None:
        return None
    return replace(bound, hits=tuple(Hit(slot, hit.amount, name) if hit is small else hit for hit in bound.hits))


IN_EVERY_DOUGH = (
    "cue:water", "cue:flour", "cue:salt", "cue:starter", "cue:hydration", "cue:all_flour", "cue:all_water",
)  # fmt: skip


def asked_of(bound: Bound) -> tuple[str, ...]:
    """What the line asks to be told first: the word right behind "how much" or "how many", or the only one."""
    inside = bound.said("ask:how_much") and bound.said("cue:flour") and "in" in bound.links()
    if (inside or bound.said("ask:what_share")) and bound.said("cue:prefermented", "cue:preferment", *STARTER):
        return ("prefermented",)
    out: list[str] = []
    for n, phrase in enumerate(bound.phrases):
        if phrase.ids("ask") and phrase.ids("ask")[0] in ("how_much", "how_many", "what", "what_if"):
            for nxt in bound.phrases[n + 1 : n + 3]:
                if nxt.kind == "label" and not fits(nxt, ("ask:*", "cue:company")):
                    out.extend(_name_asked(nxt))
                    break
                if nxt.kind == "amount":
                    break
    return _weight_asked(bound) or tuple(out) or _asked_first(bound) or _asked_alone(bound)


def _weight_asked(bound: Bound) -> tuple[str, ...]:
    """ "how heavy is one", "what does one weigh raw": the weight of a piece of the dough in hand."""
    amounts = [phrase for phrase in bound.phrases if phrase.kind == "amount"]
    if bound.context.has_bake and not amounts and bound.said("ask:weigh_at"):
        return ("piece_g",)
    one = len(amounts) == 1 and amounts[0].dim == "num" and amount_base(amounts[0]) == 1
    if bound.context.has_bake and len(amounts) <= 1 and scales_at(bound):
        return ("piece_g",)
    each = not amounts and "each" in bound.links()
    one = (one or each) and (bound.asks() or bound.said("ask:*"))
    return ("piece_g",) if bound.context.has_bake and one and bound.said("cue:piece_mass", "into:g") else ()


def _asked_first(bound: Bound) -> tuple[str, ...]:
    """ "water for 900 g flour at 71 %": what the line begins with is wanted."""
    if bound.said("money:comes_to"):
        named = [one for one in bound.phrases if one.kind == "label" and not one.negated and fits(one, IN_EVERY_DOUGH)]
        return _name_asked(named[0]) if named else ()  # "the flour altogether comes to how much"
    opening = bound.phrases[:2]
    if len(opening) < 2 or opening[0].kind != "label" or opening[0].negated or "for" not in opening[1].ids("link"):
        return ()
    return _name_asked(opening[0]) if fits(opening[0], IN_EVERY_DOUGH) else ()


def _asked_alone(bound: Bound) -> tuple[str, ...]:
    """ "water?", "and the salt": with a dough in hand a thing named and nothing else asks how much of it there is."""
    if not bound.context.has_bake or any(phrase.kind not in ("label", "link", "sep") for phrase in bound.phrases):
        return ()
    labels = [one for one in bound.phrases if one.kind == "label" and not fits(one, ("ask:is_it", "tail:*"))]
    if labels and all(fits(one, ("cue:percentages",)) for one in labels):
        return ("hydration",) if any("hydration" in one.text.lower() for one in labels) else ("percentages",)
    labels = [one for one in labels if not fits(one, ("cue:percentages",))]
    if not labels or any(one.negated or not fits(one, ("ingredient:*", *IN_EVERY_DOUGH)) for one in labels):
        return ()
    if not all(fits(one, IN_EVERY_DOUGH) for one in labels) and not bound.asks():
        return ()
    if bound.links() - {"and", "is"}:
        return ()
    return tuple(name for one in labels for name in _name_asked(one))


def _name_asked(label: Phrase) -> tuple[str, ...]:
    if "flour" in label.ids("cue"):
        return ("flour",)
    if "piece_mass" in label.ids("cue"):
        return ("piece_g",)
    return (label.ids("ingredient") or label.ids("cue") or label.ids("piece") or label.ids("bread"))[:1]


def more_or_less_of(bound: Bound) -> tuple[str, ...]:
    """ "more salt", "less starter" without a figure: what it is of; empty where a figure was said."""
    if not bound.context.has_bake or any(phrase.kind == "amount" or phrase.ids("ask") for phrase in bound.phrases):
        return ()
    for phrase, nxt in zip(bound.phrases, (*bound.phrases[1:], *bound.phrases[-1:]), strict=True):
        if fits(phrase, ("cue:wetter",)):
            return ("hydration",)
        if not fits(phrase, ("act:more", "cue:greater", "cue:fewer")):
            continue
        if fits(nxt, SALT):
            return ("salt",)
        if fits(nxt, STARTER):
            return ("starter",)
        if fits(nxt, ("ingredient:water", "cue:water", "cue:hydration")):
            return ("hydration",)
        if nxt.ids("ingredient"):
            return nxt.ids("ingredient")[:1]
    return ()
