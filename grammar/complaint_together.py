"""Amounts of a complaint that mean something only together: grams to the litre, water to flour, before and after."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from grammar.complaint_amounts import Placed
from grammar.complaint_near import best_cue, cue_beside, cue_named
from grammar.complaint_stages import AGENTS
from grammar.complaint_terms import CueAt, Word

_SPOON_G_PER_ML = 0.95
"""Grams of soda or malt to a millilitre of spoon, near enough for a bath."""


def together(
    amounts: Sequence[Placed], words: Sequence[Word], cues: Sequence[CueAt]
) -> list[tuple[set[int], dict[str, float]]]:
    """Amounts that mean something only together: grams to the litre, water to flour, weight before and after."""
    out: list[tuple[set[int], dict[str, float]]] = []
    degrees = ("temperature", "num")
    heats = [n for n, a in enumerate(amounts) if a.phrase.dim in degrees and 110 <= a.quantity.value <= 550]
    either = {"set": (0.0, 999.0), "bake": (0.0, 999.0)}
    dialled = [n for n in heats if best_cue(amounts[n], amounts, words, cues, either, 1) == "set"]
    if len(heats) == 2 and len(dialled) == 1 and not any(name == "thermometer" for *_, name in cues):
        real = next(n for n in heats if n not in dialled)
        pair = {"oven_c": amounts[dialled[0]].in_c(300), "oven_real_c": amounts[real].in_c(300)}
        out.append((set(heats), pair))
    masses = [n for n, a in enumerate(amounts) if a.phrase.dim == "mass"]
    bare = [n for n, a in enumerate(amounts) if a.dim == "num" and a.quantity.value >= _LEAST_BARE_G]
    beside = {n: cue_beside(amounts[n], cues) for n in bare}
    if {"flour", "hydration"} <= set(beside.values()):  # "600 flour 280 water"
        masses += [n for n in bare if beside[n] is not None]
    volumes = [n for n, a in enumerate(amounts) if a.phrase.dim == "volume"]
    litres = [n for n in volumes if amounts[n].middle >= 250]
    spoons = [n for n in volumes if amounts[n].middle < 250]
    per_litre = any(w.text in ("litre", "liter", "l", "litres") for w in words) or bool(litres)
    agent = next((name for _, _, kind, name in cues if kind == "agent"), None)
    if per_litre and agent is not None and (masses or spoons):
        litre = amounts[litres[0]].middle / 1000 if litres else 1.0
        agent = "carbonate" if any(n == "carbonate" for *_, k, n in cues if k == "agent") else agent
        agent = "lye" if any(n == "lye" for *_, k, n in cues if k == "agent") else agent
        n = masses[0] if masses else spoons[0]
        grams = amounts[n].middle if masses else amounts[n].middle * _SPOON_G_PER_ML
        if litre > 0:
            figure = {"bath_lye_pct": grams / litre / 10} if agent == "lye" else {AGENTS[agent]: grams / litre}
            out.append(({n, *litres[:1]}, figure))
        return out
    by_spoon = _spooned(amounts, spoons, masses, words, cues)
    if by_spoon is not None:
        out.append(by_spoon)
    if len(masses) < 2:
        if len(masses) == 1 and any(k == "figure" and name == "protein" for _, _, k, name in cues):
            out.append(({masses[0]}, {"protein_pct": amounts[masses[0]].middle}))
        return out
    named = {n: cue_named(amounts[n], amounts, words, cues) for n in masses}
    by_name = {name: n for n, name in named.items() if name is not None}
    flour = by_name.get("flour")
    if flour is not None and amounts[flour].middle > 0:
        whole = amounts[flour].middle
        pairs = {
            "hydration": "hydration_pct",
            "salt": "salt_pct",
            "sugar": "sugar_pct",
            "starter": "starter_pct",
            "fat": "fat_pct",
        }
        figures_found = {pairs[name]: 100 * amounts[n].middle / whole for name, n in by_name.items() if name in pairs}
        yeasts = {"instant": 3.0, "active_dry": 2.5, "fresh": 1.0}
        for name, factor in yeasts.items():
            if name in by_name:
                figures_found["yeast_fresh_pct"] = 100 * factor * amounts[by_name[name]].middle / whole
        if figures_found:
            used = {flour, *(n for name, n in by_name.items() if name in pairs or name in yeasts)}
            out.append((used, figures_found))
            return out
    before, after = amounts[masses[0]].middle, amounts[masses[1]].middle
    says_so = any(k == "figure" and name in ("before", "after", "loss") for _, _, k, name in cues)
    if says_so and before > 0 and 0.6 <= after / before < 1:
        out.append(({masses[0], masses[1]}, {"loss_pct": 100 * (before - after) / before}))
    return out


_LEAST_BARE_G = 20.0
_SPOONED: Mapping[str, tuple[str, float]] = {
    # cue: (figure, grams to a millilitre of spoon, as the figure counts them)
    "instant": ("yeast_fresh_pct", 3.0 * 0.63),
    "active_dry": ("yeast_fresh_pct", 2.5 * 0.61),
    "salt": ("salt_pct", 1.22),
}


def _spooned(
    amounts: Sequence[Placed], spoons: Sequence[int], masses: Sequence[int], words: Sequence[Word],
    cues: Sequence[CueAt],
) -> tuple[set[int], dict[str, float]] | None:  # fmt: skip
    """Yeast or salt by the spoon to a weight of flour: "a tablespoon of yeast per 500 g"."""
    if len(spoons) != 1 or len(masses) != 1 or amounts[masses[0]].middle <= 0:
        return None
    name = best_cue(amounts[spoons[0]], amounts, words, cues, dict.fromkeys(_SPOONED, (0, 1000)), 1)
    of = cue_named(amounts[masses[0]], amounts, words, cues)
    if name is None or of not in (None, "flour", name):
        return None
    figure, g_per_ml = _SPOONED[name]
    share = 100 * amounts[spoons[0]].middle * g_per_ml / amounts[masses[0]].middle
    return {spoons[0], masses[0]}, {figure: share}
