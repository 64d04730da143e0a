"""What kind of bread or dough a complaint is about: which bread, raised with what, boiled or not."""

from __future__ import annotations

from collections.abc import Mapping

from assistant.answers.bread_meant import bread_of_formula, of_piece
from assistant.talk.room import Room
from grammar.requests.diagnosis import DiagnosisRequest
from knowledge.records.breads import Bread

_BATH_FIGURES = frozenset(
    {"boil_s", "bath_c", "bath_soda_g_l", "bath_malt_g_l", "bath_carbonate_g_l", "bath_lye_pct", "lye_s"}
)
_OF_A_BATH = frozenset({"sinks_in_bath", "hole_closed"})
"""Faults that only a boiled ring can have."""
_STARTER_FIGURES = frozenset({"starter_pct", "starter_age_d", "starter_fed_h", "starter_doubles_h"})
_YEAST_FIGURES = frozenset({"yeast_fresh_pct", "yeast_age_months"})
_RYE = frozenset({"high_rye", "rye_wheat"})
_ROLL_G = 150.0
_NOT_BREAD_PIECES = frozenset({"base", "cake", "piece"})


def bread_of(request: DiagnosisRequest, room: Room) -> Bread | None:
    """The bread named, or that its pieces plausibly are, or the one in hand."""
    for name in request.breads:
        if name in room.kb.breads:
            return room.kb.breads[name]
    for piece in request.pieces:
        found = of_piece(piece, room.kb)
        if found is not None and piece not in _NOT_BREAD_PIECES:
            return found
    if _OF_A_BATH & set(request.symptoms):
        return room.kb.breads["ring_roll"]
    if "no_puff" in request.symptoms:
        return room.kb.breads["pita"]
    said = room.formula_said
    return bread_of_formula(room, said) if said is not None else None


def raised_with_yeast(said: Mapping[str, float], findings: tuple[str, ...]) -> bool | None:
    """Whether bought yeast raised it, by what was told of yeast or starter; None where nothing was."""
    if (
        "made_with_starter" in findings
        or _STARTER_FIGURES & set(said)
        or any(f.startswith("starter_") for f in findings)
    ):
        return False
    if "made_with_yeast" in findings or _YEAST_FIGURES & set(said) or any(f.startswith("yeast_") for f in findings):
        return True
    return None


def kind_found(
    findings: tuple[str, ...],
    bread: Bread | None,
    yeasted: bool | None,
    symptoms: tuple[str, ...],
    said: Mapping[str, float],
) -> tuple[str, ...]:
    """What the bread is, as findings: boiled or not, rye, raised with what."""
    out = []
    both = said.get("starter_pct") and said.get("yeast_fresh_pct")
    if yeasted is not None and not both and not {"made_with_starter", "made_with_yeast"} & set(findings):
        out.append("made_with_yeast" if yeasted else "made_with_starter")
    if not {"boiled_bread", "unboiled_bread"} & set(findings):
        if _boiled(findings, bread, symptoms, said):
            out.append("boiled_bread")
        elif bread is not None:
            out.append("unboiled_bread")
    if bread is not None and bread.id in _RYE and "rye_bread" not in findings:
        out.append("rye_bread")
    return tuple(out)


def _boiled(
    findings: tuple[str, ...], bread: Bread | None, symptoms: tuple[str, ...], said: Mapping[str, float]
) -> bool:
    """Whether it went through a bath, by its bread, by what it shows or by what was told of a bath."""
    if bread is not None and bread.boil_s_per_side:
        return True
    if _OF_A_BATH & set(symptoms) or _BATH_FIGURES & set(said):
        return True
    return _small(bread) and any(f.startswith(("bath_", "boil_")) for f in findings)


def _small(bread: Bread | None) -> bool:
    """Whether it may be boiled though nobody said so: anything but a loaf."""
    return bread is None or bread.piece_usual_g <= _ROLL_G
