"""How long a stage takes: bulk, proof, retard, preferments, and the plain minutes of baking, boiling, cooling."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from itertools import pairwise
from typing import Any

from grammar.frames import Bound, Frame, fits
from grammar.moments import Moment
from grammar.requests.timing_asked import (
    COLD_C,
    FRIDGE_C,
    FRIDGE_MOST_C,
    asks,
    in_the_cold,
    is_judged,
    named,
    overnight,
    solve_for,
    spans_meant,
    stage_named,
    to_the_cold,
)
from grammar.requests.timing_leaven import Leaven, leaven_of, parts_of
from grammar.requests.timing_slots import CUES, NEEDS, SLOTS, STARTER
from grammar.requests.timing_spans import Spans, is_goal, share_pct, spans_of
from grammar.requests.timing_warmth import Warmths, warmths_of


@dataclass(frozen=True, slots=True)
class TimingRequest:
    """how long will bulk take at 19 with 15% starter
    is 4 h at 26 too long
    dough is 26, kitchen 18, 20 % starter: how long is bulk
    how long until it doubles at 24 with 1 % instant yeast
    how long do I bake the rings
    how do I see a third in a round bowl

    Only what was said; None means unsaid. Temperatures in degrees Celsius, times in minutes, shares in % of flour.
    """

    stage: str | None = None
    temp_c: float | None = None
    later_c: float | None = None  # the kitchen overnight, or what it falls to
    later_after_min: float | None = None
    fridge: bool = False
    fridge_c: float | None = None
    fridge_after_min: float | None = None
    dough_c: float | None = None
    target_c: float | None = None  # cooled down to
    starter_pct: float | None = None
    starter_hydration_pct: float | None = None
    yeast: tuple[tuple[str, float], ...] = ()  # (kind of yeast, % of flour)
    yeast_ml: tuple[tuple[str, float], ...] = ()  # yeast by the spoon, with the flour it is for
    flour_g: float | None = None
    hydration_pct: float | None = None
    salt_pct: float | None = None
    sugar_pct: float | None = None
    rise_pct: float | None = None
    ratio: tuple[float, float, float] | None = None
    mass_g: float | None = None
    risen_now_pct: float | None = None  # "only up 20 % after 4 h"
    wished_c: float | None = None  # "came out at 29, wanted 25"
    asked_min: float | None = None  # "is 4 h too long"
    elapsed_min: float | None = None
    until: Moment | None = None
    altitude_m: float | None = None
    bread: str | None = None
    piece: str | None = None
    preferment: str | None = None
    wholegrain: bool = False
    how_to_see: bool = False
    judged: bool = False
    fan: bool = False
    heavy: bool = False  # a stone or an iron pot is heated too
    begun_at: Moment | None = None
    since: bool = False  # begun_at has gone by
    bare_pct: float | None = None  # a percentage of nothing named: starter, or the yeast asked about before
    solve: str | None = None  # what is to be found: "starter_pct", "temp_c", "rise_pct" or a kind of yeast
    frozen: bool = False
    core_c: float | None = None  # what the middle of the bread is to get to
    stone_cm: float | None = None  # how thick the stone is
    litres: float | None = None  # water in a pot that is to boil
    power_kw: float | None = None
    ring: str | None = None  # "gas", "electric", "induction", "kettle"
    grain_pct: float | None = None
    temp_kept: bool = False  # the temperature is that of the question before; a kitchen that is set goes before it
    starter_times: float | None = None  # so many times the starter of the question before
    spread_said: tuple[str, ...] = ()  # how bare degrees were read

    def onto(self, earlier: object, bound: Bound) -> TimingRequest:
        """This line as a change to the question before it: what it says replaces the same there."""
        if not isinstance(earlier, TimingRequest):
            return self
        if self.stage is not None and self.stage != earlier.stage and _whole(self):
            return self
        changes = {one.name: getattr(self, one.name) for one in fields(self) if said(getattr(self, one.name))}
        kept = earlier
        if self.bare_pct is not None and earlier.yeast and not earlier.starter_pct and self.bare_pct <= 5:
            changes.pop("starter_pct", None)  # "and with 0.5 %?" after a yeasted dough
            changes["yeast"] = ((earlier.yeast[0][0], self.bare_pct),)
        elif self.bare_pct is not None and self.starter_pct is None:
            changes["starter_pct"] = self.bare_pct
        if self.starter_times is not None and earlier.starter_pct:
            changes["starter_pct"] = earlier.starter_pct * changes.pop("starter_times")
        if self.stage is not None and self.stage != earlier.stage:
            kept = replace(kept, rise_pct=None, asked_min=None, elapsed_min=None, how_to_see=False)
        stays = earlier.stage == "retard" and self.stage is None
        if stays and self.temp_c is not None and self.temp_c <= FRIDGE_MOST_C:
            changes["fridge_c"] = changes.pop("temp_c")  # "at 8?" of a stay in the fridge
        elif stays and said(self.temp_c or self.later_c):
            kept = replace(kept, stage="bulk", fridge=False, fridge_c=None)
        if self.piece is not None or self.bread is not None:
            kept = replace(kept, piece=None, bread=None)
        if self.yeast and self.starter_pct is None:
            kept = replace(kept, starter_pct=None)
        if changes.get("starter_pct") and not self.yeast:
            kept = replace(kept, yeast=())
        if self.temp_c is not None and self.later_c is None:
            kept = replace(kept, later_c=None, later_after_min=None)
        if self.temp_c is not None and (self.judged or self.stage is not None):
            kept = replace(kept, fridge=False, fridge_after_min=None, fridge_c=None, dough_c=None, elapsed_min=None)
        found = said(self.starter_pct or self.yeast) if earlier.solve == "starter_pct" else self.temp_c is not None
        asks_back = earlier.solve is not None and self.stage is None and not (found and earlier.solve != "rise_pct")
        if self.asked_min is None and not self.judged and self.solve is None and not asks_back:
            kept = replace(kept, judged=False, asked_min=None, until=None, solve=None)
        if self.how_to_see is False and changes:
            kept = replace(kept, how_to_see=False)
        asked_anew = self.stage is not None and bound.said("ask:how_long") and not bound.said("ask:what_if", "link:and")
        kept = replace(kept, temp_kept=self.temp_c is None and asked_anew and earlier.temp_c is not None)
        return replace(kept, **changes)


def said(value: object) -> bool:
    """Whether a field holds something that was said; nought is something."""
    return not (value is None or value is False or value == ())


def _whole(request: TimingRequest) -> bool:
    return any(
        value is not None
        for value in (request.temp_c, request.starter_pct, request.rise_pct, request.bread, request.mass_g)
    )


@dataclass(slots=True)
class _Draft:
    """The request as it takes shape, one rule after another; see `build`."""

    bound: Bound
    warm: Warmths
    spans: Spans
    stage: str | None
    rise_pct: float | None
    risen_now_pct: float | None
    ratio: tuple[float, float, float] | None
    fridge: bool
    judged: bool = False
    asked: bool = False


def build(bound: Bound) -> TimingRequest | None:
    """The request; None where no stage, no rise and no ripening is asked about."""
    if "timer" in bound.text.lower() or _whole_bake(bound) or _weighed_out(bound):
        return None
    warm = warmths_of(bound)
    if warm is None:
        return None
    spans, warmth = spans_of(bound, degrees_bare=warm.temp_c is None)
    if warmth is not None:
        warm = replace(warm, temp_c=warmth)
    draft = _Draft(
        bound, warm, spans, stage_named(bound, warm), _rise(bound), None, _ratio(bound), in_the_cold(bound),
        is_judged(bound, warm),
    )  # fmt: skip
    _state_or_goal(draft)
    _hours(draft)
    if not _is_asked(draft):
        return None
    _place(draft)
    return _request(draft)


def _state_or_goal(draft: _Draft) -> None:
    """A rise is what it has ("is up 40 %") or what it is to get to ("till it is up 40 %")."""
    hit = draft.bound.first("risen_now")
    if hit is None:
        return
    sought = draft.bound.said("ask:how_warm", "ask:what_share")
    if (sought or is_goal(draft.bound, hit)) and draft.rise_pct is None:
        draft.rise_pct = share_pct(hit)
    else:
        draft.risen_now_pct = share_pct(hit)


def _hours(draft: _Draft) -> None:
    bound, warm = draft.bound, draft.warm
    if draft.spans.lasts is not None and (
        bound.said("ask:is_it") or (warm.placed and (bound.first("starter_pct") or bound.first("yeast_pct")))
    ):
        draft.judged = True
    draft.spans = spans_meant(bound, draft.spans, warm, draft.risen_now_pct is not None, draft.judged, draft.stage)
    draft.asked = asks(bound, draft.spans, draft.judged)
    draft.judged = draft.judged or draft.spans.lasts is not None
    if draft.fridge:
        draft.spans, draft.judged, draft.stage = to_the_cold(bound, draft.spans, draft.judged, draft.stage)
    dosed = bound.said("ask:how_much", "ask:what_share", "ask:lasts") and not bound.of("yeast_pct")
    if draft.judged or (dosed and (draft.stage == "preferment" or bound.said("ask:lasts"))):
        draft.spans = overnight(bound, draft.spans)
        draft.judged = draft.judged or draft.spans.lasts is not None
        if dosed and warm.temp_c is None:
            draft.warm = replace(warm, temp_c=warm.later_c, later_c=None)  # "poolish overnight at 19"


def _is_asked(draft: _Draft) -> bool:
    """Whether the line is about time at all, rather than about a dough, a plan or a feed."""
    bound, spans, warm = draft.bound, draft.spans, draft.warm
    if bound.said("ask:how_warm", "heat:degrees") and bound.said("cue:water", "ingredient:water", "heat:water_temp"):
        return False  # how warm the water is to be
    if _only_left(draft) or (bound.context.focus == "timer" and not draft.asked):
        return False
    sees = bound.said("ask:how_to_see")
    if sees and not (draft.rise_pct or draft.stage or bound.said("look:risen", "look:bowl")):
        return False
    if draft.stage is None and not (draft.ratio or draft.rise_pct or draft.asked or bound.context.focus == "timing"):
        return False
    changes_dough = bound.context.has_bake and bound.said("act:change", "act:same") and not draft.asked
    if changes_dough and not (warm.placed or draft.rise_pct or spans.until or spans.lasts):
        return False  # "make it 30 % starter" changes the dough in hand
    boxed = draft.stage == "proof" and bound.said("look:proofing_box")
    if boxed and not draft.rise_pct and not draft.asked:
        return False
    if spans.until is not None and (not draft.asked or bound.first("pieces") is not None):
        return False
    waits = bound.said("look:peaked", "look:so_far", "look:left", "ask:how_far")
    return not (draft.ratio is not None and bound.said("feeding:feed") and not waits)


def _only_left(draft: _Draft) -> bool:
    """ "time remaining", "long left on them": of what is under way, with nothing said of what that is."""
    bound = draft.bound
    if bound.context.focus == "timing" or draft.stage is not None or draft.rise_pct or draft.ratio:
        return False
    bare = not any(phrase.kind == "amount" for phrase in bound.phrases) and not bound.said("bread:*", "piece:*")
    return bare and bound.said("look:left", "stand:left", "ask:how_long")


def _place(draft: _Draft) -> None:
    """The stage and where the dough lies, from what was said of starter, fridge and warmth together."""
    bound, warm = draft.bound, draft.warm
    if bound.said("feeding:cold") and warm.dough_c is None and _shaped_and_cold(draft):
        warm, draft.fridge = replace(warm, dough_c=FRIDGE_C), False
    if draft.ratio is not None and draft.stage in (None, "bulk"):
        draft.stage = "starter"
    falls = warm.temp_c is not None and warm.later_c is not None and warm.temp_c > warm.later_c
    if falls and draft.fridge and draft.stage is None and not draft.rise_pct:
        # "down to 5 in a 4 degree fridge, from 26"
        warm = replace(warm, dough_c=warm.temp_c, temp_c=None, target_c=warm.later_c, later_c=None)
    if warm.target_c is not None and draft.stage in (None, "bulk", "cool", "warm_up"):
        warms = warm.dough_c is not None and warm.target_c > warm.dough_c
        draft.stage = "warm_up" if warms or draft.stage == "warm_up" else "retard" if draft.fridge else "cool"
    if _kept_cold(draft, warm):
        draft.stage = "retard"
    cold = warm.temp_c is not None and warm.temp_c <= COLD_C
    if warm.fridge_c is None and draft.fridge and cold and draft.stage in ("retard", None):
        warm = replace(warm, fridge_c=warm.temp_c, temp_c=None)
    if draft.stage == "cool" and bound.said("cue:fridge") and warm.target_c is None:
        draft.stage = "retard"
    draft.warm = warm


def _shaped_and_cold(draft: _Draft) -> bool:
    follows = draft.stage is None and draft.bound.context.focus == "timing"
    return draft.stage == "proof" or follows or draft.warm.target_c is not None


def _kept_cold(draft: _Draft, warm: Warmths) -> bool:
    """Whether a dough simply lies in the fridge, with nothing said of a rise or of hours before it."""
    if draft.stage not in (None, "bulk") or not draft.fridge or draft.rise_pct or draft.spans.after is not None:
        return False
    if draft.spans.lasts is not None or not (draft.stage is None or warm.temp_c is None):
        return False
    alone = warm.temp_c is None and draft.bound.first("starter_pct") is None
    return draft.bound.said("ask:how_long") or alone


def _request(draft: _Draft) -> TimingRequest:
    bound, warm, spans, stage = draft.bound, draft.warm, draft.spans, draft.stage
    leaven = leaven_of(bound, lone_starter=draft.ratio is None and stage is None)
    rising = stage or ("bulk" if bound.said("look:leave_out", "look:came_out") else None)
    solve = solve_for(bound, stage, spans, warm, leaven)
    if solve == "rise_pct" and spans.lasts is None and spans.after is not None:
        spans = replace(spans, lasts=spans.after, after=None)
    pieces, breads = named(bound, "piece"), named(bound, "bread")
    stays = draft.fridge and stage != "retard"
    pot_ml, watts = bound.base("pot_ml"), bound.base("power_w")
    return TimingRequest(
        stage=rising,
        temp_c=warm.temp_c,
        later_c=warm.later_c,
        later_after_min=spans.after if warm.later_c is not None and not draft.fridge else None,
        fridge=stays,
        fridge_c=warm.fridge_c,
        fridge_after_min=spans.after if draft.fridge else None,
        dough_c=warm.dough_c,
        target_c=warm.target_c,
        wished_c=warm.wished_c,
        **_in_the_dough(leaven),
        rise_pct=draft.rise_pct,
        risen_now_pct=draft.risen_now_pct,
        starter_times=_starter_times(bound) if bound.context.focus == "timing" else None,
        ratio=draft.ratio,
        asked_min=spans.lasts if draft.judged else None,
        elapsed_min=spans.elapsed,
        begun_at=spans.begun,
        since=spans.since,
        until=spans.until,
        altitude_m=_height_m(bound),
        bread=breads[0] if breads else None,
        piece=pieces[0] if pieces else None,
        preferment=bound.term("preferment", "preferment"),
        wholegrain=bound.first("grain") is not None or bound.said("topic:rye_dough"),
        solve=solve,
        how_to_see=bound.said("ask:how_to_see"),
        fan=bound.said("cue:fan"),
        heavy=bound.said("look:heavy"),
        core_c=bound.base("core_c"),
        stone_cm=bound.base("stone_cm"),
        frozen=bound.said("look:freezer", "look:frozen"),
        litres=pot_ml / 1000 if pot_ml else None,
        power_kw=bound.base("power_kw") or (watts / 1000 if watts else None),
        ring=next(iter(named(bound, "hob")), None),
        judged=draft.judged,
        spread_said=warm.remarks,
    )


def _in_the_dough(leaven: Leaven) -> dict[str, Any]:
    return {one.name: getattr(leaven, one.name) for one in fields(leaven)}


def _height_m(bound: Bound) -> float | None:
    hit = bound.first("altitude_m")
    if hit is None or hit.amount is None or hit.amount.quantity is None:
        return None
    return hit.amount.quantity.base / (100 if hit.amount.dim == "length" else 1)


def _ratio(bound: Bound) -> tuple[float, float, float] | None:
    parts = parts_of(bound.first("ratio"))
    if parts is None and bound.said("feeding:equal_parts"):
        return 1.0, 1.0, 1.0
    return (parts[0], parts[1], parts[2]) if parts is not None and len(parts) == 3 else None


def _rise(bound: Bound) -> float | None:
    hit = bound.first("rise_pct")
    if hit is not None:
        return share_pct(hit)
    if (number := bound.base("rise_num")) is not None:
        return number  # "to +50"
    if _starter_times(bound) is not None:
        return None
    return 200.0 if bound.said("look:tripled") else 100.0 if bound.said("look:doubled") else None


_TIMES = (("act:double", 2.0), ("look:doubled", 2.0), ("act:halve", 0.5), ("act:triple", 3.0), ("look:tripled", 3.0))


def _starter_times(bound: Bound) -> float | None:
    """How many times as much starter: "double the starter", "half the levain", "twice the starter"."""
    for before, after in pairwise(bound.phrases):
        if not fits(after, STARTER):
            continue
        if before.kind == "amount" and before.dim == "share" and before.quantity is not None:
            return before.quantity.value if before.quantity.value <= 0.5 else None
        said = next((times for pattern, times in _TIMES if before.kind == "label" and fits(before, (pattern,))), None)
        if said is not None:
            return said
    return None


def _whole_bake(bound: Bound) -> bool:
    """ "when are 30 rings done": all of a bake by the clock, no stage of it."""
    pieces = bound.first("pieces") is not None and bound.context.focus != "timing"
    return pieces and bound.said("ask:when") and bound.said("look:done") and not bound.said("stage:*")


def _weighed_out(bound: Bound) -> bool:
    """ "1 kg flour, 70 %, 30 % poolish": a preferment in a dough to weigh out, and no word or figure of time."""
    if bound.first("preferment") is None or bound.context.focus == "timing":
        return False
    amounts = [phrase for phrase in bound.phrases if phrase.kind == "amount"]
    timed = any(phrase.dim in ("time", "temperature", "moment", "window") for phrase in amounts)
    asked = bound.asks() or bound.said("ask:*", "stage:*", "done:*", "look:*", "cue:kitchen", "cue:fridge")
    shares = [phrase for phrase in amounts if phrase.dim in ("pct", "mass", "share")]
    return len(shares) > 1 and not timed and not asked


FRAME = Frame(
    TimingRequest,
    "timing",
    build,
    slots=SLOTS,
    cues=CUES,
    needs=NEEDS,
    rules_out=("symptom:*", "feeding:ratio", "feeding:less_discard", "feeding:away"),
    settles=True,
    asked=True,
)
