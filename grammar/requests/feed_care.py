"""The starter between bakes: how fast it is, what to do with it while away, how often to feed it, little discard."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame, amount_base
from grammar.levels import LIKELY, speaks
from grammar.requests.feed_masses import ratio_of
from grammar.requests.feed_slots import SLOTS
from grammar.requests.warmth import degrees_of
from grammar.roles import take


@dataclass(frozen=True, slots=True)
class PaceRequest:
    """it peaked at 3 hours at 24, fed 1:1:1
    my starter peaks after 5 hours at 22 when fed 1:2:2
    """

    minutes: float
    temp_c: float | None = None
    ratio: tuple[float, float, float] | None = None
    rise_pct: float | None = None  # "doubled in 4 hours": the rise seen, where it was not the peak


@dataclass(frozen=True, slots=True)
class AwayRequest:
    """I am away for 3 weeks, what do I do with the starter"""

    minutes: float | None = None


@dataclass(frozen=True, slots=True)
class DiscardRequest:
    """how do I make less discard
    how often should I feed my starter
    """

    often: bool = False


def _pace(bound: Bound) -> PaceRequest | None:
    """The pace told; right after a complaint it is evidence for that."""
    minutes = bound.base("minutes")
    if minutes is None or bound.asks() or bound.context.focus == "diagnosis":
        return None
    degrees = degrees_of(bound, ("temp_c",))
    hit = bound.first("temp_c")
    peaked = bound.said("look:peaked")
    if not peaked and not (
        bound.said("cue:starter", "ingredient:starter*") and bound.said("look:doubled", "look:tripled")
    ):
        return None
    rise = None if peaked else 200.0 if bound.said("look:tripled") else 100.0
    return PaceRequest(minutes, degrees.celsius(hit.amount) if hit else None, ratio_of(bound.first("ratio")), rise)


def _away(bound: Bound) -> AwayRequest | None:
    hit = bound.first("minutes")
    if hit is None and "starter" not in bound.text.lower() and not bound.said("cue:starter", "ingredient:starter*"):
        return None
    return AwayRequest(amount_base(hit.amount) if hit else None)


FRAMES = (
    Frame(
        PaceRequest,
        "pace",
        _pace,
        slots={
            "minutes": take("ripens_min", cues=("look:peaked",), bare=LIKELY, low=60, high=2000),
            "temp_c": SLOTS["temp_c"],
            "ratio": SLOTS["ratio"],
        },
        cues=speaks(
            telling="look:peaked",
            sure="look:doubled look:tripled",
            likely="cue:starter ingredient:starter* feeding:feed act:always",
            maybe="clocked:* look:ripe cue:kitchen",
            against="ask:when",
        ),
        needs=("look:peaked", "look:doubled", "look:tripled"),
        rules_out=("ask:how*", "ask:what*", "ask:can_i", "ask:is_it", "ask:too*", "ask:lasts", "symptom:*", "stage:*",
        "ingredient:yeast*"),
        base=9.0,
        help_topic="feed",
    ),
    Frame(
        AwayRequest,
        "away",
        _away,
        slots={"minutes": take("away_min", bare=LIKELY)},
        cues=speaks(
            alone="feeding:away",
            sure="cue:starter ingredient:starter*",
            likely="ask:how_to ask:how_long ask:can_i",
            maybe="ask:what feeding:feed cue:fridge feeding:cold stage:retard ask:* mistake:rescue",
            seldom="cue:only_this",
            heard="act:start_over",
        ),
        needs=("feeding:away",),
        rules_out=("symptom:*",),
        help_topic="feed",
    ),
    Frame(
        DiscardRequest,
        "discard",
        lambda bound: DiscardRequest(often=bound.said("feeding:often")),
        slots={"temp_c": SLOTS["temp_c"]},
        cues=speaks(
            telling="feeding:less_discard feeding:often",
            likely="cue:discard ask:how_to ask:what",
            maybe="ingredient:starter* ask:can_i cue:starter feeding:keep feeding:feed ask:why act:make ask:*",
            seldom="heat:degrees cue:bigger mistake:rescue",
        ),
        needs=("feeding:less_discard", "feeding:often"),
        base=3.0,
        rules_out=("symptom:*",),
        help_topic="feed",
    ),
)  # fmt: skip
