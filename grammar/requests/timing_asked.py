"""What a line about time asks: which stage, of which kind of question, and what of it is to be found."""

from __future__ import annotations

from dataclasses import replace

from grammar.frames import Bound
from grammar.requests.timing_leaven import Leaven
from grammar.requests.timing_slots import STARTER
from grammar.requests.timing_spans import OVERNIGHT_MIN, Spans
from grammar.requests.timing_stage import keeps_cold, named, stages_of
from grammar.requests.timing_warmth import Warmths

FRIDGE_C = 4.0
"""Dough straight from the fridge."""
COLD_C = 8.0
"""A place this cold is a fridge."""
CHILLED_C = 6.0
"""A dough that is cold through, where no degrees are said of it."""
FRIDGE_MOST_C = 12.0
"""And where a fridge is spoken of, one this cold still is."""
OVEN_HOT_C = 110.0
"""No place where dough rises is this hot: it is an oven's warmth."""
RISES = ("bulk", "proof", "preferment", None)
"""Stages whose length, warmth or leaven can be asked back."""


def stage_named(bound: Bound, warmths: Warmths) -> str | None:
    """The stage asked about: the most particular one named; a preferment's own; an oven's where it is that hot."""
    names = stages_of(bound)
    timed = bound.first("lasts_min") is not None or bound.said(*STARTER)
    if asks_the_oven(bound) and not warmths.placed and not timed:
        return "bake"
    if bound.first("preferment") is not None and not {"bake", "boil"} & set(names):
        return "preferment"
    if not names:
        return next((stage for stage, meant in _unnamed(bound, warmths) if meant), None)
    rising = [name for name in names if name in ("bulk", "proof")]
    if rising and "bake" in names and (bound.first("starter_pct") or bound.first("temp_c")) and not warmths.oven:
        return rising[-1]  # "how long till I can bake if the bulk is at 24"
    if ("boil" in names and bound.first("power_kw")) or bound.first("power_w"):
        return "heat_pot"
    specific = [name for name in names if name != "bulk"]
    return specific[0] if specific else names[0]


def asks_the_oven(bound: Bound) -> bool:
    """Whether the oven's heat is asked for, or degrees and minutes of a bread at once."""
    oven = bound.said("cue:oven", "holds:oven") and bound.said("ask:what", "ask:how_warm", "heat:degrees")
    degrees = oven or bound.said("ask:how_warm", "heat:degrees")
    both = degrees and bound.said("ask:how_long") and bound.said("bread:*", "piece:*")
    both = both and set(stages_of(bound)) <= {"bake"}
    return bound.said("ask:oven_heat") or both


_SHAPED = ("look:shaped", "so_far:shaped", "mark:shape")


def _unnamed(bound: Bound, warmths: Warmths) -> tuple[tuple[str, bool], ...]:
    """The stages that are meant without being named, each with whether it is: an oven's heat bakes, a kettle's litres
    boil, what is frozen thaws, what is shaped proofs."""
    frozen = bound.said("look:freezer", "look:frozen") and bound.said("ask:how_long")
    return (
        ("bake", warmths.oven or _how_hot_and_long(bound)),
        ("heat_pot", bound.first("pot_ml") is not None and bound.said("hob:*", "heat:kettle", "ask:how_long")),
        ("thaw", frozen),
        ("proof", _after_shaping(bound)),
    )


def _how_hot_and_long(bound: Bound) -> bool:
    """Whether heat and minutes are asked for together, of a dough: its bake."""
    hot = bound.said("ask:how_warm", "ask:oven_heat", "heat:degrees")
    return hot and bound.said("ask:how_long") and bound.context.has_bake and not bound.said(*STARTER)


def _after_shaping(bound: Bound) -> bool:
    """Whether what is asked about begins when the pieces are shaped."""
    return bound.said(*_SHAPED) and bound.said("ask:how_long") and not in_the_cold(bound)


def asks_of_the_oven(bound: Bound, warmths: Warmths) -> bool:
    """Whether the oven itself, its stone or its pot is to get hot: it is asked when to put it on, or no bread is named,
    and the warmth is an oven's."""
    if bound.said("step:preheat") and bound.said("ask:when", "ask:how_long"):
        return True
    if bound.said("bread:*", "piece:*") or not bound.said("holds:oven", "cue:oven", "look:heavy", "holds:iron_pot"):
        return False
    said_c = warmths.target_c if warmths.target_c is not None else warmths.temp_c
    hot = said_c is not None and said_c >= OVEN_HOT_C
    return bound.said("ask:how_long") and (hot or (said_c is None and bound.said("look:heavy", "heat:heats")))


def solve_for(bound: Bound, stage: str | None, spans: Spans, warmths: Warmths, leaven: Leaven) -> str | None:
    """What the line asks to be found: how far up after so long, or what makes the stage last as long as it says."""
    timed = spans.lasts is not None or (spans.begun is not None and spans.until is not None)
    if bound.said("ask:how_far"):
        gone = timed or spans.elapsed is not None or spans.begun is not None or spans.after is not None
        return "rise_pct" if gone and stage in (*RISES, "starter") else None
    if not timed or stage not in RISES or bound.said("ask:too_long", "look:so_far"):
        return None
    asks_share = bound.said("ask:what_share", "sought:share") or (
        bound.said("ask:how_much", "ask:what") and bound.said("cue:starter", "ingredient:starter*")
    )
    unsaid = bound.asks() and bound.said(*STARTER) and not bound.said("ask:how_long", "ask:is_it", "ask:can_i")
    if leaven.starter_pct is None and (asks_share or (unsaid and warmths.temp_c is not None)):
        return "starter_pct"
    kinds = [name for kind in ("ingredient", "yeast_kind") for name in named(bound, kind) if name.startswith("yeast_")]
    dosed = bound.of("yeast_pct") or bound.first("yeast_g") is not None or leaven.starter_pct is not None
    asked = bound.said("ask:how_much") or not bound.said("ask:*")
    if kinds and not dosed and asked and (warmths.temp_c is not None or bound.said("ask:how_much")):
        return kinds[0]  # "how much fresh yeast for 8 hours", "instant yeast for an 8 hour rise at 20"
    asks_warmth = bound.said("ask:how_warm", "ask:oven_heat")
    asks_warmth = asks_warmth or (bound.said("heat:degrees", "heat:dough_temp") and bound.said("ask:*"))
    no_place = warmths.temp_c is None and warmths.dough_c is None
    return "temp_c" if no_place and (asks_warmth or bound.said("heat:dough_temp")) else None


def asks(bound: Bound, spans: Spans, judged: bool) -> bool:
    """Whether the line asks about time at all."""
    words = (
        "ask:how_long", "ask:when", "look:left", "stand:left", "ask:what_if", "ask:what", "ask:what_share",
        "ask:how_far", "sought:share",
        "ask:lasts", "ask:how_to_see", "look:came_out", "unit:minutes", "unit:hours",
    )  # fmt: skip
    timed = spans.lasts is not None or (spans.begun is not None and spans.until is not None)
    return (
        judged
        or bound.said(*words)
        or (timed and bound.said("ask:how_much", "ask:how_warm", "heat:dough_temp"))
        or (spans.until is not None and bound.said("look:done"))
    )


def is_judged(bound: Bound, warmths: Warmths) -> bool:
    """Whether a time that was said is put up for judgement: "is 4 h too long", "can I leave it overnight"."""
    may = bound.said("ask:can_i") and (bound.said("look:leave_out") or bound.first("lasts_min") is not None)
    return bound.said("ask:too_long") or may or (warmths.temp_c is not None and bound.said("look:leave_out"))


def spans_meant(
    bound: Bound, spans: Spans, warmths: Warmths, risen_now: bool, judged: bool, stage: str | None
) -> Spans:
    """The minutes of the line by what they are: how long it is to last, what is gone, until it moves elsewhere."""
    lasts, after, elapsed = spans.lasts, spans.after, spans.elapsed
    if risen_now and elapsed is None:
        elapsed, lasts, after = lasts or after, None, None  # "only up 20 % after 4 hours"
    if warmths.later_c is not None and lasts is not None and after is None and not judged and spans.night is None:
        lasts, after = None, lasts  # "21 for 3 hours, then 16"
    if lasts is not None and elapsed is None and bound.said("look:so_far", "look:left"):
        lasts, elapsed = None, lasts
    if after is not None and lasts is None and elapsed is None and not _moves(bound, warmths):
        lasts, after = after, None  # "after 5 hours at 23"
    fridge = in_the_cold(bound)
    if lasts is not None and after is None and fridge and not judged and stage != "retard":
        lasts, after = None, lasts
    return replace(spans, lasts=lasts, after=after, elapsed=elapsed)


def in_the_cold(bound: Bound) -> bool:
    """Whether a fridge is spoken of."""
    return keeps_cold(bound) or "in the fridge" in bound.text.lower()


def _moves(bound: Bound, warmths: Warmths) -> bool:
    return in_the_cold(bound) or warmths.later_c is not None


def to_the_cold(bound: Bound, spans: Spans, judged: bool, stage: str | None) -> tuple[Spans, bool, str | None]:
    """A stay in the fridge that is judged by its own length is a retard: "can I leave the rings 24 h in the fridge"."""
    if (
        spans.lasts is None
        and spans.after is not None
        and bound.said("ask:can_i", "ask:too_long")
        and "after" not in bound.links()
    ):
        spans, judged = replace(spans, lasts=spans.after, after=None), True
    if judged and spans.lasts is not None and spans.after is None and stage in ("bulk", "proof", None):
        stage = "retard"
    return spans, judged, stage


def overnight(bound: Bound, spans: Spans) -> Spans:
    """The length of a night where that is all that was said of it."""
    if spans.lasts is None and spans.until is None and bound.said(
        "span:overnight", "look:leave_out", "cue:night", "ask:lasts", "cue:overnight_dose"
    ):
        return replace(spans, lasts=OVERNIGHT_MIN)
    return spans
