"""One thing asked for in the place of another: which goes out, which comes in, and when that is another topic's."""

from __future__ import annotations

from grammar.exchange import sides_of
from grammar.requests.swap_asked import ASKING, Case, asks, follows_on, makes_up, replaces_yeast, told_only
from grammar.requests.swap_request import SwapRequest
from grammar.requests.swap_weights import weights
from grammar.stance import Thing


def exchange(case: Case) -> SwapRequest | None:
    """One thing for another, or for whatever serves."""
    bound = case.bound
    shunned = bound.said("cue:company", "stance:must_not") and case.places and not bound.said(*ASKING)
    if shunned and not (case.opposed or case.amounts):
        return SwapRequest(avoid=tuple(dict.fromkeys(one.ids[0] for one in case.told)), diets=case.diets)
    sides = sides_of(bound, case.places)
    out, into = _sides_meant(case, sides.out, sides.into)
    protein = bound.base("protein_pct")
    if _no_exchange(case, out, into, protein):
        return None
    out, lacking_too = _lacking_too(case, out, into)
    if _of_the_formula(case, out, into):
        return None
    gone, come = _ids(out), _ids(into)
    return SwapRequest(
        out=gone,
        into=come,
        beside=tuple(one.ids for one in sides.beside),
        job=case.job,
        diets=case.diets,
        avoid=tuple(dict.fromkeys((*case.shunned(), *lacking_too))),
        protein_pct=protein,
        overnight=bound.said("cue:overnight_dose"),
        anew=protein is not None,
        **weights(case, gone, come),
    )


def _ids(side: Thing | None) -> tuple[str, ...]:
    return () if side is None else side.ids


def _asked(case: Case) -> bool:
    """Whether one thing is asked for in the place of another."""
    denied = bool(case.negated) and case.bound.context.has_bake and case.bound.said("ask:*")
    return asks(case) or replaces_yeast(case) or bool(case.diets and case.of) or denied


def _sides_meant(case: Case, out: Thing | None, into: Thing | None) -> tuple[Thing | None, Thing | None]:
    """What goes out and what comes in, where a line only goes on, replaces the leaven or asks for the rest of it."""
    if makes_up(case.bound) and len(case.told) == 1 and not case.told[0].ids[0].startswith("flour"):
        return case.told[0], None
    if replaces_yeast(case):
        return None, case.told[0]
    another = not _asked(case) and follows_on(case) and into is None
    return (None, out) if another else (out, into)


def _no_exchange(case: Case, out: Thing | None, into: Thing | None, protein: float | None) -> bool:
    """Whether nothing is asked for in the place of another: the line tells, or is still about the bath."""
    bound = case.bound
    still_bath = bound.context.focus == "bath" and len(case.places) == 1
    still_bath = still_bath and not bound.said("cue:missing", "cue:only_this", "act:swap")
    idle = protein is None and not (_asked(case) or follows_on(case))
    nothing = out is None and into is None and not case.diets and protein is None
    return still_bath or idle or nothing or (out is None and into is not None and told_only(bound))


def _of_the_formula(case: Case, out: Thing | None, into: Thing | None) -> bool:
    """Whether a share of flour changes the dough in hand, or the weight of what there is sizes it."""
    said = {one.dim for one in case.amounts}
    flour = any(one.startswith("flour") for one in (*_ids(out), *_ids(into)))
    stock = case.bound.said("cue:only_this") and out is None and "mass" in said and not case.told[0].goes
    return stock or (case.bound.context.has_bake and flour and bool(said & {"pct", "share"}))


_LACKING = 2.0
"""So much has to speak for a second thing's going out to keep it out of what is offered for the first."""


def _lacking_too(case: Case, out: Thing | None, into: Thing | None) -> tuple[Thing | None, tuple[str, ...]]:
    """What goes out, of several lacking the one the dough in hand has; and the others, which are not to come in."""
    if out is None or into is not None:
        return out, ()
    lacking = [one for one in case.told if one.net >= _LACKING]
    rows = case.bound.context.known.rows
    there = [one for one in lacking if any(item in rows for item in one.ids)]
    out = there[0] if there and not any(item in rows for item in out.ids) else out
    return out, tuple(one.ids[0] for one in lacking if one.ids != out.ids)
