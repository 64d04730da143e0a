"""Whether a line asks after time at all, rather than after water, a dough, a plan, a feed, or the kitchen."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound
from grammar.requests.plan_doughs import every_dough
from grammar.requests.timing_rise import Rise
from grammar.requests.timing_spans import Spans
from grammar.requests.timing_warmth import Warmths


@dataclass(frozen=True, slots=True)
class Draft:
    """The request as it takes shape, one rule after another. asked: time is asked after; judged: a time is put up for
    judgement; fridge: the dough lies in one."""

    bound: Bound
    warm: Warmths
    spans: Spans
    rise: Rise
    stage: str | None
    ratio: tuple[float, float, float] | None
    fridge: bool
    judged: bool = False
    asked: bool = False


def is_asked(draft: Draft) -> bool:
    """Whether the line is about time at all, rather than about a dough, a plan or a feed."""
    return not any(no(draft) for no in (_of_water, _only_left, _sees_nothing, _of_no_stage, _of_the_dough, _of_a_plan,
                                        _of_a_feed))  # fmt: skip


def _of_water(draft: Draft) -> bool:
    """Whether it is about water: how warm it is to be, or what came of it."""
    bound = draft.bound
    if bound.first("water_c") is not None and bound.said("look:came_out", "mistake:meant"):
        return True
    wet = bound.said("cue:water", "ingredient:water", "heat:water_temp")
    return wet and bound.said("ask:how_warm", "heat:degrees")


def _only_left(draft: Draft) -> bool:
    """Time left of what is under way, with nothing said of what that is."""
    bound = draft.bound
    if bound.context.focus == "timer" and not draft.asked:
        return True
    if bound.context.focus == "timing" or draft.stage is not None or draft.rise.to_pct or draft.ratio:
        return False
    bare = not any(phrase.kind == "amount" for phrase in bound.phrases) and not bound.said("bread:*", "piece:*")
    return bare and bound.said("look:left", "stand:left", "ask:how_long")


def _sees_nothing(draft: Draft) -> bool:
    bound = draft.bound
    shown = draft.rise.to_pct or draft.stage or bound.said("look:risen", "look:bowl")
    return bound.said("ask:how_to_see") and not shown


def _of_no_stage(draft: Draft) -> bool:
    follows = draft.bound.context.focus == "timing" and not _of_the_kitchen(draft)
    if any(one.negated and one.ids("stage") for one in draft.bound.phrases) and not draft.bound.said("ask:*"):
        return True  # what does not rise is a fault told
    if draft.judged and not (draft.bound.context.has_bake or follows or draft.stage or _somehow(draft)):
        return True  # "16 min is enough": of no stage at all
    return draft.stage is None and not (draft.ratio or draft.rise.to_pct or draft.asked or follows)


def _somehow(draft: Draft) -> bool:
    """Whether anything is said of the dough whose time is judged: how warm, with what leaven, how far up."""
    hits = ("temp_c", "starter_pct", "yeast_pct", "dough_c", "fridge_c", "piece", "bread", "fridge_word", "preferment")
    spoken = draft.bound.said("look:leave_out", "look:risen", "cue:dough", "cue:fridge", "stage:*")
    return spoken or bool(draft.ratio or draft.rise.to_pct) or any(draft.bound.first(name) for name in hits)


def _of_the_kitchen(draft: Draft) -> bool:
    """Whether only a place is named and asked after: how warm it was told to be."""
    bare = not any(phrase.kind == "amount" for phrase in draft.bound.phrases)
    return bare and draft.bound.first("place") is not None and draft.bound.said("ask:what")


def _of_the_dough(draft: Draft) -> bool:
    """A share changed in the dough in hand, or a box named for its proof, and no time asked after."""
    bound, spans = draft.bound, draft.spans
    if draft.asked:
        return False
    weighed = ("hydration_pct", "starter_pct", "starter_much_pct", "salt_pct", "yeast_pct", "flour_g")
    if draft.stage == "bake" and any(bound.first(name) for name in weighed):
        return True  # a dough to weigh out, with the oven it is for
    changed = bound.context.has_bake and bound.said("act:change", "act:same")
    boxed = draft.stage == "proof" and bound.said("look:proofing_box") and not draft.rise.to_pct
    return boxed or (changed and not (draft.warm.placed or draft.rise.to_pct or spans.until or spans.lasts))


def _of_a_plan(draft: Draft) -> bool:
    by_an_hour = draft.spans.until is not None
    named = draft.bound.first("pieces") is not None or every_dough(draft.bound)
    return by_an_hour and (not draft.asked or named)


def _of_a_feed(draft: Draft) -> bool:
    waits = draft.bound.said("look:peaked", "look:so_far", "look:left", "ask:how_far")
    return draft.ratio is not None and draft.bound.said("feeding:feed") and not waits


def whole_bake(bound: Bound) -> bool:
    """All of a bake by the clock, and no stage of it: "when are 30 rings done"."""
    pieces = bound.first("pieces") is not None and bound.context.focus != "timing"
    return pieces and bound.said("ask:when") and bound.said("look:done") and not bound.said("stage:*")


def weighed_out(bound: Bound) -> bool:
    """A preferment in a dough to weigh out, and no word or figure of time: "1 kg flour, 70 %, 30 % poolish"."""
    if bound.first("preferment") is None or bound.context.focus == "timing":
        return False
    amounts = [phrase for phrase in bound.phrases if phrase.kind == "amount"]
    timed = any(phrase.dim in ("time", "temperature", "moment", "window") for phrase in amounts)
    asked = bound.asks() or bound.said("ask:*", "stage:*", "done:*", "look:*", "cue:kitchen", "cue:fridge")
    shares = [phrase for phrase in amounts if phrase.dim in ("pct", "mass", "share")]
    return len(shares) > 1 and not timed and not asked
