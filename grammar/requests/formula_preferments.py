"""A preferment told by what it is made of: "a poolish of 300 g flour and 300 g water, then 700 g flour ..."."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.frames import Bound, Hit, amount_base, fits
from grammar.phrases import Phrase
from grammar.requests.formula_slots import FLOUR

_WATER = ("ingredient:water", "cue:water")
_YEAST = ("ingredient:yeast*",)
_NOT_MADE_UP = frozenset({"scald", "soaker"})


@dataclass(frozen=True, slots=True)
class MadeUp:
    """A preferment by its masses: kind, g in all, and its hydration in %."""

    kind: str
    g: float
    hydration_pct: float


def made_up(bound: Bound) -> tuple[Bound, tuple[MadeUp, ...]]:
    """The line without the flour, water and yeast that belong to a preferment, and those preferments.

    What is told behind a preferment's name, up to the next clause, a second flour or anything that is neither flour,
    water nor yeast, is what it is made of; it needs a mass of flour and one of water.
    """
    found: list[MadeUp] = []
    taken: list[Phrase] = []
    for n, phrase in enumerate(bound.phrases):
        kind = next(iter(phrase.ids("preferment")), None)
        if kind is None or kind in _NOT_MADE_UP or phrase.negated or phrase.ids("bread"):
            continue
        masses, phrases = _told_behind(bound.phrases[n + 1 :])
        if masses.get("flour") and masses.get("water"):
            water_pct = 100 * masses["water"] / masses["flour"]
            found.append(MadeUp(kind, sum(masses.values()), water_pct))
            taken += [phrase, *phrases]
    if not found:
        return bound, ()
    gone = {id(phrase) for phrase in taken}
    hits = tuple(hit for hit in bound.hits if not _is_of(hit, gone))
    left = tuple(phrase for phrase in bound.phrases if id(phrase) not in gone)
    return replace(bound, hits=_beneath_a_heading(hits, bound.phrases), phrases=left), tuple(found)


def _beneath_a_heading(hits: tuple[Hit, ...], phrases: tuple[Phrase, ...]) -> tuple[Hit, ...]:
    """ "dough: 800 g flour": the word heads a list, and the mass is the flour's."""
    out = list(hits)
    for hit in hits:
        if hit.slot != "dough_g" or hit.amount is None:
            continue
        at = next(n for n, phrase in enumerate(phrases) if phrase is hit.amount)
        behind = next(iter(phrases[at + 1 : at + 2]), None)
        if behind is not None and fits(behind, FLOUR):
            out = [one for one in out if one is not hit and one.label is not behind]
            out.append(Hit("part_g", hit.amount, behind))
    return tuple(out)


def _told_behind(phrases: tuple[Phrase, ...]) -> tuple[dict[str, float], list[Phrase]]:
    masses: dict[str, float] = {}
    taken: list[Phrase] = []
    amount: Phrase | None = None
    for phrase in phrases:
        if phrase.kind == "sep" and phrase.text.strip() in (";", "."):
            break
        if phrase.kind in ("sep", "link", "junk") or fits(phrase, _BESIDE):
            continue
        if phrase.kind == "amount":
            if phrase.dim not in ("mass", "num") or amount is not None:
                break
            amount = phrase
            continue
        name = "flour" if fits(phrase, FLOUR) else "water" if fits(phrase, _WATER) else None
        name = "yeast" if fits(phrase, _YEAST) else name
        if name is None or name in masses or amount is None:
            break
        masses[name] = amount_base(amount) or 0.0
        taken += [amount, phrase]
        amount = None
    return masses, taken


_BESIDE = ("stance:*", "act:make", "cue:preferment")


def _is_of(hit: Hit, gone: set[int]) -> bool:
    return (hit.amount is not None and id(hit.amount) in gone) or (hit.label is not None and id(hit.label) in gone)
