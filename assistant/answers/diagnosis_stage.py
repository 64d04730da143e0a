"""Where the thing complained of stands, and what can still be done about it there."""

from __future__ import annotations

from assistant.answers.diagnosis_case import Case
from assistant.engine.diagnosis.evidence import Tables
from knowledge.records.diagnosis_causes import Cause

_PROOF = frozenset({"springs_back_fast", "no_spring_back", "sinks_in_bath", "skinned", "hole_closed"})
_STATES = {"oven": "oven", "shaped": "proof"}


def stage_of(case: Case, t: Tables, state: str | None) -> str:
    """Where the baker stands: over baked bread, dough, a proofing piece, a loaf in the oven or a jar."""
    if state in _STATES and not any(t.symptoms[s].of == "starter" for s in case.evidence.symptoms):
        return _STATES[state]
    kinds = [t.symptoms[s].of for s in case.evidence.symptoms]
    if "bread" in kinds:
        return _of_bread(case, t, state)
    if any(s in _PROOF for s in case.evidence.symptoms):
        return "proof"
    return kinds[0] if kinds else "baked"


def _of_bread(case: Case, t: Tables, state: str | None) -> str:
    """Whether a bread is just out of the oven, cold, or gone."""
    if state in ("hot", "eaten"):
        return "baked" if state == "hot" else "eaten"
    seen = any(t.symptoms[s].seen == "cut" for s in case.evidence.symptoms)
    return "cold" if seen or _COLD & set(case.said) else "baked"


_COLD = frozenset({"kept_d", "cut_after_min"})
_EATEN = "It is eaten; the next bake is the one to change."
_IN_THE_OVEN = "Leave it in, door shut, and bake it to its core: while it bakes this cannot be put right."


def now_of(cause: Cause, stage: str) -> str:
    """What to do in the next ten minutes, by the stage it stands in."""
    now = cause.now
    in_oven = now.oven or _IN_THE_OVEN
    by_stage = {
        "dough": now.dough, "proof": now.proof or now.dough, "oven": in_oven, "baked": now.baked,
        "cold": now.cold or now.baked, "eaten": _EATEN,
    }  # fmt: skip
    return by_stage.get(stage) or cause.now.any_stage
