"""What a dough is to be made without: left out, coming later, or stood in for by something else."""

from __future__ import annotations

from grammar.frames import Bound, fits
from grammar.phrases import Phrase
from grammar.requests.formula_ferments import STARTER
from grammar.requests.formula_parts import is_flour, late_beside
from grammar.requests.formula_slots import SALT


def left_out(bound: Bound) -> tuple[list[str], list[str], bool]:
    """What is left out, what only comes later ("no salt yet"), and whether there is no loss."""
    out: list[str] = []
    late: list[str] = []
    no_loss = False
    other_yeast = any(not p.negated and _is_yeast(p) for p in bound.phrases)  # "no instant, 20 g fresh"
    for hit in bound.of("without"):
        label = hit.label
        if label is None:
            continue
        kinds = (
            (fits(label, SALT), "salt"),
            (fits(label, STARTER), "starter"),
            (_is_yeast(label) and other_yeast, ""),
            (_is_yeast(label) or fits(label, ("cue:leaven",)), "yeast"),
            (True, (label.ids("ingredient") or ("",))[0]),
        )
        name = next(name for is_so, name in kinds if is_so)
        if fits(label, ("cue:loss",)):
            no_loss = True
        elif name:
            (late if late_beside(bound, label) else out).append(name)
    return out, late, no_loss


def _is_yeast(label: Phrase) -> bool:
    return fits(label, ("ingredient:yeast*",))


def stood_in_for(bound: Bound) -> list[str]:
    """What something else is used instead of: "yeast 1 % instead of starter"."""
    out: list[str] = []
    for phrase, nxt in zip(bound.phrases, bound.phrases[1:], strict=False):
        instead = set(phrase.ids("link")) & {"instead_of", "in_place_of", "rather_than"}
        if (instead or fits(phrase, ("stance:serves",))) and nxt.kind == "label":
            name = (
                "salt" if fits(nxt, SALT) else "starter" if fits(nxt, STARTER)
                else "water" if fits(nxt, ("cue:all_water",)) else (nxt.ids("ingredient") or ("",))[0]
            )
            if name and not is_flour(nxt):
                out.append(name)
    poured = [hit for hit in bound.of("item") if hit.amount is None and hit.label is not None and _pours(hit.label)]
    return ["water"] if not out and len(poured) == 1 and bound.said("cue:all_water") else out


def _pours(label: Phrase) -> bool:
    """Whether what a word names may be all the liquid of a dough."""
    return not label.negated and fits(label, _LIQUIDS)


_LIQUIDS = tuple(
    f"ingredient:{name}" for name in (
        "milk_whole", "milk_skim", "milk_evaporated", "buttermilk", "kefir", "whey", "soy_milk", "almond_milk",
        "oat_milk", "coconut_milk", "plant_milk", "beer", "cider",
    )
)  # fmt: skip
