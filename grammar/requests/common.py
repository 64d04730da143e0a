"""Requests about the conversation itself: help, undo, show again, more, begin anew, back, settings."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from grammar.frames import Bound, Frame, Hit, Slot, amount_base, fits


@dataclass(frozen=True, slots=True)
class HelpRequest:
    """help
    what can you do
    help cups
    """

    about: tuple[str, ...] = ()  # words as typed, to narrow the topics


@dataclass(frozen=True, slots=True)
class UndoRequest:
    """undo
    undo that
    """


@dataclass(frozen=True, slots=True)
class RedoRequest:
    """redo"""


@dataclass(frozen=True, slots=True)
class ShowRequest:
    """show it again
    where were we
    """


@dataclass(frozen=True, slots=True)
class MoreRequest:
    """more
    tell me more
    """


@dataclass(frozen=True, slots=True)
class StartOverRequest:
    """start over"""


@dataclass(frozen=True, slots=True)
class BackRequest:
    """back to the first one
    go back to the last dough
    """

    which: str = "last"  # "first", "last" or a bread id
    bread: str | None = None


@dataclass(frozen=True, slots=True)
class SettingRequest:
    """my kitchen is usually 19 C
    always 1.8 % salt
    use metric cups
    """

    values: tuple[tuple[str, float | str], ...] = ()  # (setting, value) in %, °C, g, m
    always: bool = False


@dataclass(frozen=True, slots=True)
class WhyRequest:
    """why
    why 1214
    where does the 487 come from
    """

    figure: float | None = None
    about: str | None = None  # a cue id or an ingredient id: "why so much water"


_HELP = re.compile(r"\s*help(?:\s+me)?(?:\s+(?:with|about|on))?(?:\s+the)?\s+(?P<about>[^\W\d_]+)\s*[?!.]*\s*", re.I)


def _help_about(text: str) -> HelpRequest | None:
    """Help about one word that some kind of request is about; what sounds like a fault is never taken for that."""
    from grammar.requests import frames

    found = _HELP.fullmatch(text)
    if found is None:
        return None
    word = found["about"].lower().removesuffix("s")
    asked = (frame for frame in frames() if frame.topic not in ("help", "diagnosis"))
    said = (line.lower() for frame in asked for line in (frame.topic, frame.help_topic or "", *frame.examples))
    return HelpRequest((found["about"],)) if any(word in line for line in said) else None


def _help(bound: Bound) -> HelpRequest:
    about = tuple(
        p.text for p in bound.phrases if p.kind in ("label", "junk") and not p.ids("act") and not p.ids("ask")
    )
    return HelpRequest(about)


def _bare(request: type) -> Callable[[Bound], Any]:
    """Builder of a request that takes nothing: any amount in the line means it is something else."""

    def build(bound: Bound) -> object | None:
        return None if any(p.kind == "amount" for p in bound.phrases) else request()

    return build


def _back(bound: Bound) -> BackRequest | None:
    if any(p.kind == "amount" for p in bound.phrases):
        return None
    first = bound.said("ask:first")
    bread = next((p.ids("bread")[0] for p in bound.phrases if p.ids("bread")), None)
    return BackRequest("first" if first else "bread" if bread else "last", bread)


_SETTING_SLOTS = {
    "salt_pct": Slot({"pct": 1.0, "num": 0.3}, cues=("ingredient:salt*", "cue:salt"), low=0.1, high=5),
    "loss_pct": Slot({"pct": 1.0, "num": 0.3}, cues=("cue:loss",), low=0, high=12),
    "starter_hydration_pct": Slot({"pct": 1.0, "num": 0.3}, cues=("cue:starter_hydration",), low=40, high=200),
    "starter_pct": Slot({"pct": 0.9, "num": 0.2}, cues=("ingredient:starter*", "cue:starter"), low=1, high=60),
    "hydration_pct": Slot({"pct": 1.0, "num": 0.3}, cues=("cue:hydration",), low=40, high=110),
    "kitchen_c": Slot({"temperature": 1.0, "num": 0.4}, cues=("cue:kitchen",), low=0, high=45),
    "fridge_c": Slot({"temperature": 1.0, "num": 0.4}, cues=("cue:fridge",), low=-2, high=14),
    "piece_g": Slot({"mass": 1.0}, cues=("piece:*", "bread:*", "cue:piece_mass"), low=15, high=3000),
    "altitude_m": Slot({"length": 1.0, "num": 0.3}, cues=("cue:altitude",), bare=0.0, low=30_000, high=500_000),
    "tap_c": Slot({"temperature": 1.0, "num": 0.4}, cues=("cue:tap",), low=1, high=40),
    "friction_c": Slot({"temperature": 1.0, "num": 0.4}, cues=("cue:friction",), low=0, high=20),
    "oven_takes": Slot({"num": 0.8}, cues=("cue:oven",), low=1, high=120),
    "pot_takes": Slot({"num": 0.8}, cues=("cue:pot",), low=1, high=40),
    "no_loss": Slot(term=("cue:loss",), without=True),
    "cup": Slot(term=("cup_system:*",)),
    "flour": Slot(term=("ingredient:flour*",), weight=-0.6),
}


def _of_starter(bound: Bound, hit: Hit) -> bool:
    """ "my starter is always at 60 % hydration": the hydration is the starter's when the starter is named before it."""
    assert hit.amount is not None
    before = bound.phrases[: bound.phrases.index(hit.amount)]
    return any(fits(phrase, ("cue:starter", "ingredient:starter*")) for phrase in before)


def _setting(bound: Bound) -> SettingRequest | None:
    always = bound.said("act:always")
    values: list[tuple[str, float | str]] = []
    for hit in bound.hits:
        if hit.slot == "cup":
            values.append(("cup", hit.ids("cup_system")[0]))
        elif hit.slot == "no_loss":
            values.append(("loss_pct", 0.0))
        elif hit.slot == "flour":
            values.append(("flour", hit.ids("ingredient")[0]))
        elif hit.slot in _SETTING_SLOTS and hit.amount is not None:
            value = amount_base(hit.amount, 45)
            if value is None:
                continue
            if hit.slot in ("oven_takes", "pot_takes") and value > 150:
                return None  # "set the oven to 230": degrees, not pieces
            if hit.slot == "altitude_m" and hit.amount.quantity and hit.amount.quantity.dim == "length":
                value /= 100
            slot = "starter_hydration_pct" if hit.slot == "hydration_pct" and _of_starter(bound, hit) else hit.slot
            values.append((slot, round(value, 4)))
    names = {name for name, _ in values}
    alone = names and names <= {
        "kitchen_c",
        "fridge_c",
        "altitude_m",
        "cup",
        "tap_c",
        "friction_c",
        "oven_takes",
        "pot_takes",
    }
    if not values or not (always or alone):
        return None
    if "flour" in names and not always:
        return None
    return SettingRequest(tuple(values), always)


def _why(bound: Bound) -> WhyRequest | None:
    about = next(
        (
            i
            for p in bound.phrases
            if p.kind == "label"
            for i in (*p.ids("ingredient"), *p.ids("cue"))
            if i not in ("formula",)
        ),
        None,
    )
    if about is None and bound.first("figure") is None and any(p.kind in ("junk", "amount") for p in bound.phrases):
        return None
    return WhyRequest(bound.base("figure"), about)


FRAMES = (
    Frame(
        WhyRequest,
        "why",
        _why,
        needs=("ask:why",),
        slots={"figure": Slot({"num": 1.0, "mass": 1.0, "pct": 1.0}, cues=("ingredient:*", "cue:*"), bare=0.6)},
        cues={"ask:why": 2.2, "ingredient:*": 0.2, "cue:*": 0.2, "ask:how_much": 0.2},
        rules_out=("symptom:*", "stage:*"),
        help_topic="explanation",
    ),
    Frame(
        HelpRequest,
        "help",
        _help,
        cues={"act:help": 3.0},
        needs=("act:help",),
        base=0.4,
        whole=_help_about,
    ),
    Frame(UndoRequest, "undo", _bare(UndoRequest), cues={"act:undo": 3.0}, needs=("act:undo",)),
    Frame(RedoRequest, "undo", _bare(RedoRequest), cues={"act:redo": 3.0}, needs=("act:redo",)),
    Frame(
        ShowRequest,
        "show",
        _bare(ShowRequest),
        cues={"act:show": 3.0, "cue:formula": 0.4, "cue:dough": 0.4, "ask:plan*": 0.4},
        needs=("act:show",),
    ),
    Frame(
        MoreRequest, "more", _bare(MoreRequest), cues={"act:more": 3.0}, needs=("act:more",),
        rules_out=("ingredient:*", "cue:salt", "cue:starter", "cue:water", "cue:hydration", "cue:flour"),
    ),
    Frame(
        StartOverRequest, "start_over", _bare(StartOverRequest), cues={"act:start_over": 3.0}, needs=("act:start_over",)
    ),
    Frame(
        BackRequest,
        "back",
        _back,
        cues={"act:back": 3.0, "ask:first": 0.6, "cue:dough": 0.4, "bread:*": 0.4, "piece:*": 0.4},
        needs=("act:back",),
    ),
    Frame(
        SettingRequest,
        "setting",
        _setting,
        slots=_SETTING_SLOTS,
        base=-0.2,
        cues={
            "act:always": 2.2,
            "act:use": 0.4,
            "cue:kitchen": 0.6,
            "cue:set": 0.6,
            "cue:starter": 0.1,
            "ingredient:starter*": 0.1,
        },
        rules_out=("ask:*", "symptom:*", "stage:*"),
    ),
)
