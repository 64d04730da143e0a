"""Amounts that the fault itself tells the meaning of: 2 cm of a ring whose hole closed, 40 minutes to double."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from grammar.complaint import Heard
from grammar.complaint_amounts import placed
from grammar.complaint_figures import Figures
from grammar.complaint_terms import CueAt
from grammar.phrases import Phrase

_BY_FAULT: Mapping[tuple[str, str], tuple[str, float, float, float]] = {
    # (symptom, what the amount measures): (figure, factor to its unit, least and most it can be)
    ("hole_closed", "length"): ("hole_cm", 1, 0, 15),
    ("no_ear", "length"): ("score_mm", 10, 0, 60),
    ("gummy", "temperature"): ("core_c", 1, 60, 105),
    ("gummy", "num"): ("core_c", 1, 70, 105),
    ("collapsed", "temperature"): ("core_c", 1, 60, 105),
    ("pale", "time"): ("bake_min", 1, 5, 150),
    ("too_dark", "time"): ("bake_min", 1, 5, 150),
    ("thick_crust", "time"): ("bake_min", 1, 5, 150),
    ("stale_fast", "time"): ("kept_d", 1 / 1440, 0.1, 30),
}
_SOON_MIN = 75.0
"""A dough doubled within this is running away, whatever raises it."""


def doubled_soon(
    heard: Heard, found: Figures, phrases: Sequence[Phrase], cues: Sequence[CueAt], of_starter: bool
) -> tuple[Heard, Figures]:
    """A dough that "doubled in 40 minutes" rises too fast; those minutes are then no first rise cut short."""
    if of_starter:
        return heard, found
    for amount in placed(heard.words, phrases):
        if amount.dim != "time" or amount.middle > _SOON_MIN:
            continue
        near = [c for c in cues if c[2:] == ("figure", "doubles") and 0 < amount.first - c[1] <= 3]
        if not near or heard.words[near[-1][0]].text not in ("doubled", "peaked", "tripled"):
            continue
        hours = ("bulk_h", "stage_h", "starter_doubles_h")
        figures_left = tuple((name, value) for name, value in found.found if name not in hours)
        left = tuple(p for p in found.left if p is not amount.phrase)
        symptoms = tuple(dict.fromkeys((*heard.symptoms, "rising_too_fast")))
        told = tuple(f for f in heard.findings if f != "bulk_grew")
        return replace(heard, symptoms=symptoms, findings=told, plain=True), Figures(
            figures_left, left, found.gone, found.bare
        )
    return heard, found


_COLD_C, _HOT_C = 2.0, 42.0
_STANDS_H = {"stage": 0.01, "bulk": 24.0}
"""Hours from which standing is keeping: those of no stage at all, and a day and more where it may be a rise."""
_KEEPING = frozenset({"ropey", "stale_fast"})
"""Faults that come while a bread is kept."""


def placed_by_fault(found: Figures, heard: Heard, of_starter: bool) -> Figures:
    """Amounts without a steering word that can only be of one thing where this went wrong: 2 cm of a shut ring."""
    placed, bare, used = dict(found.found), [], set()
    stood = next((one for one in ("stage", "bulk") if placed.get(f"{one}_h", 0) >= _STANDS_H[one]), None)
    if _KEEPING & set(heard.symptoms) and stood is not None and "kept_d" not in placed:
        placed["kept_d"] = placed.pop(f"{stood}_h") / 24  # two days in a warm kitchen, of a bread that went bad
        placed.pop(f"{stood}_c", None)
    for dim, value in found.bare:
        warmth = dim == "temperature" and _COLD_C <= value <= _HOT_C
        if warmth and not of_starter and heard.symptoms and not {"room_c", "bulk_c"} & placed.keys():
            placed["room_c"] = value  # degrees of nothing else are the place's where it stood
            used.add(dim)
            continue
        if of_starter and dim in ("temperature", "num") and "jar_c" not in placed and 4 <= value <= 45:
            placed["jar_c"] = value
            used.add(dim)
            continue
        ways = [way for one in heard.symptoms if (way := _BY_FAULT.get((one, dim))) is not None]
        meant = next((way for way in ways if way[2] <= value * way[1] <= way[3]), None)
        if meant is None or meant[0] in placed:
            bare.append((dim, value))
        else:
            placed[meant[0]] = value * meant[1]
            used.add(dim)
    left = tuple(p for p in found.left if p.dim not in used)
    return Figures(tuple(placed.items()), left, found.gone, tuple(bare))


def starter_meant(heard: Heard, trade_of: Mapping[str, str]) -> bool:
    kinds = {trade_of.get(s) for s in heard.symptoms}
    return "starter" in kinds if kinds - {None} else heard.subject == "starter"
