"""A line about time as a request: what is asked of which stage, where, in what warmth, from and until when."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

from grammar.frames import NOTHING, Bound, fits
from grammar.requests.timing_asked import (
    CHILLED_C,
    COLD_C,
    FRIDGE_C,
    asks,
    asks_of_the_oven,
    in_the_cold,
    is_judged,
    overnight,
    solve_for,
    spans_meant,
    stage_named,
    to_the_cold,
)
from grammar.requests.timing_leaven import leaven_of
from grammar.requests.timing_rise import ratio_of, rise_of, starter_times
from grammar.requests.timing_spans import spans_of
from grammar.requests.timing_stage import named
from grammar.requests.timing_warmth import Warmths, warmths_of
from grammar.requests.timing_whether import Draft, is_asked, weighed_out, whole_bake


def read(bound: Bound) -> dict[str, Any] | None:
    """The fields of the request that were said; None where no stage, no rise and no ripening is asked about."""
    if "timer" in bound.text.lower() or whole_bake(bound) or weighed_out(bound):
        return None
    warm = warmths_of(bound)
    if warm is None:
        return None
    spans, warmth_c = spans_of(bound, degrees_bare=warm.temp_c is None)
    if warmth_c is not None:
        warm = replace(warm, temp_c=warmth_c)
    draft = Draft(
        bound, warm, spans, rise_of(bound), stage_named(bound, warm), ratio_of(bound), in_the_cold(bound),
        is_judged(bound, warm),
    )  # fmt: skip
    draft = _with_hours(draft)
    return _as_fields(_placed(draft)) if is_asked(draft) else None


def _with_hours(draft: Draft) -> Draft:
    """The draft with its spans by what they are, and whether it asks after time."""
    bound, warm = draft.bound, draft.warm
    dosed_place = warm.placed and (bound.first("starter_pct") or bound.first("yeast_pct"))
    judged = draft.judged or (draft.spans.lasts is not None and bool(bound.said("ask:is_it") or dosed_place))
    spans = spans_meant(bound, draft.spans, warm, draft.rise.now_pct is not None, judged, draft.stage)
    asked = asks(bound, spans, judged)
    judged, stage = judged or spans.lasts is not None, draft.stage
    if draft.fridge:
        spans, judged, stage = to_the_cold(bound, spans, judged, stage)
    doses = bound.said("ask:how_much", "ask:what_share", "ask:lasts") and not bound.of("yeast_pct")
    leaven = bound.said("ingredient:yeast*", "yeast_kind:*", "ingredient:starter*", "cue:starter")
    nightly = leaven and bound.said("span:overnight", "cue:overnight_dose")
    doses = doses and (stage == "preferment" or bound.said("ask:lasts") or nightly)
    if judged or doses:
        spans = overnight(bound, spans)
        judged = judged or spans.lasts is not None
        asked = asked or asks(bound, spans, judged)
    if doses and warm.temp_c is None:
        warm = replace(warm, temp_c=warm.later_c, later_c=None)  # a night's warmth is all there is
    return replace(draft, spans=spans, stage=stage, judged=judged, asked=asked, warm=warm)


def _placed(draft: Draft) -> Draft:
    """The draft with its stage and where the dough lies, from starter, fridge and warmth together."""
    bound, warm, stage, fridge = draft.bound, _chilled(draft), draft.stage, draft.fridge
    if bound.said("feeding:cold", "state:cold") and warm.dough_c is None and _begins_cold(draft):
        warm, fridge = replace(warm, dough_c=FRIDGE_C), False
    if draft.ratio is not None and stage in (None, "bulk"):
        stage = "starter"
    if asks_of_the_oven(bound, warm):
        return replace(draft, stage="preheat", warm=replace(warm, temp_c=warm.target_c or warm.temp_c, target_c=None))
    falls = warm.temp_c is not None and warm.later_c is not None and warm.temp_c > warm.later_c
    if falls and fridge and stage is None and not draft.rise.to_pct:
        warm = replace(warm, dough_c=warm.temp_c, temp_c=None, target_c=warm.later_c, later_c=None)
    if warm.target_c is not None and stage in (None, "bulk", "cool", "warm_up"):
        warms = warm.dough_c is not None and warm.target_c > warm.dough_c
        stage = "warm_up" if warms or stage == "warm_up" else "retard" if fridge else "cool"
    if _kept_cold(draft, warm, stage, fridge):
        stage = "retard"
    cold = warm.temp_c is not None and warm.temp_c <= COLD_C
    if warm.fridge_c is None and fridge and cold and stage in ("retard", None):
        warm = replace(warm, fridge_c=warm.temp_c, temp_c=None)
    if stage == "cool" and bound.said("cue:fridge") and warm.target_c is None:
        stage = "retard"
    return replace(draft, warm=warm, stage=stage, fridge=fridge)


def _chilled(draft: Draft) -> Warmths:
    """The warmths of a dough that is to get cold in a fridge, with no degrees said of where it is to get."""
    said, warm = draft.bound.said, draft.warm
    told = [one for one in (warm.dough_c, warm.temp_c, warm.target_c) if one is not None and one > COLD_C]
    both = warm.dough_c is not None and warm.target_c is not None
    chills = draft.fridge and not both and said("ask:how_long") and said("state:cold", "stage:cool") and len(told) == 1
    return replace(warm, dough_c=told[0], temp_c=None, target_c=CHILLED_C) if chills else warm


def _begins_cold(draft: Draft) -> bool:
    follows = draft.stage is None and draft.bound.context.focus == "timing"
    return draft.stage == "proof" or follows or draft.warm.target_c is not None


def _kept_cold(draft: Draft, warm: Warmths, stage: str | None, fridge: bool) -> bool:
    """Whether a dough simply lies in the fridge, with nothing said of a rise or of hours before it."""
    spans = draft.spans
    if stage not in (None, "bulk") or not fridge or draft.rise.to_pct or spans.after is not None:
        return False
    if spans.lasts is not None or not (stage is None or warm.temp_c is None):
        return False
    alone = warm.temp_c is None and draft.bound.first("starter_pct") is None
    return draft.bound.said("ask:how_long") or alone


def _as_fields(draft: Draft) -> dict[str, Any]:
    bound, warm, spans, stage = draft.bound, draft.warm, draft.spans, draft.stage
    leaven = leaven_of(bound, lone_starter=draft.ratio is None and stage is None)
    solve = solve_for(bound, stage, spans, warm, leaven)
    if solve == "rise_pct" and spans.lasts is None and spans.after is not None:
        spans = replace(spans, lasts=spans.after, after=None)
    pot_ml, watts = bound.base("pot_ml"), bound.base("power_w")
    return {
        **{one.name: getattr(leaven, one.name) for one in fields(leaven)},
        "stage": stage or ("bulk" if bound.said("look:leave_out", "look:came_out") else None),
        "temp_c": warm.temp_c,
        "later_c": warm.later_c,
        "later_after_min": spans.after if warm.later_c is not None and not draft.fridge else None,
        "fridge": draft.fridge and stage != "retard",
        "fridge_c": warm.fridge_c,
        "fridge_after_min": spans.after if draft.fridge else None,
        "dough_c": warm.dough_c,
        "target_c": warm.target_c,
        "wished_c": warm.wished_c,
        "spread_said": warm.remarks,
        "rise_pct": draft.rise.to_pct,
        "risen_now_pct": draft.rise.now_pct,
        "starter_times": starter_times(bound) if bound.context.focus == "timing" else None,
        "ratio": draft.ratio,
        "asked_min": spans.lasts if draft.judged else None,
        "elapsed_min": spans.elapsed,
        "begun_at": spans.begun,
        "since": spans.since,
        "until": spans.until,
        "altitude_m": _height_m(bound),
        "bread": next(iter(named(bound, "bread")), None),
        "piece": next(iter(named(bound, "piece")), None),
        "place": _place(bound) if warm.temp_c is None and not warm.placed else None,
        "ring": next(iter(named(bound, "hob")), None),
        "preferment": bound.term("preferment", "preferment"),
        "wholegrain": bound.first("grain") is not None or bound.said("topic:rye_dough"),
        "solve": solve,
        "how_to_see": bound.said("ask:how_to_see"),
        "fan": bound.said("cue:fan"),
        "heavy": bound.said("look:heavy"),
        "frozen": bound.said("look:freezer", "look:frozen"),
        "core_c": bound.base("core_c"),
        "stone_cm": bound.base("stone_cm"),
        "litres": pot_ml / 1000 if pot_ml else None,
        "power_kw": bound.base("power_kw") or (watts / 1000 if watts else None),
        "judged": draft.judged,
    }


def _height_m(bound: Bound) -> float | None:
    amount = bound.amount("altitude_m")
    return None if amount.quantity is None else amount.quantity.base / (100 if amount.dim == "length" else 1)


def _place(bound: Bound) -> str | None:
    """Where the dough stands, as typed; a kitchen by another name is the kitchen."""
    word = bound.word("place")
    if word is NOTHING or fits(bound.next_to(word, -1), ("act:same",)):
        return None  # none was said, or that of the question before
    return word.text.lower() if fits(word, ("cue:place",)) else "kitchen"
