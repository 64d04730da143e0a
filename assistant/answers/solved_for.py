"""The question turned round: how much starter or yeast, or how warm, for a stage to last so long; how far it gets."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.voice.page import Line, Page
from assistant.voice.spans import hours_said
from grammar.requests.timing import TimingRequest

TRUE_WITHIN = 1.04
"""How far the time of a rounded answer may be from the one asked for before it is given one figure finer."""


NEARLY = 0.85
"""A time this much shorter than the fastest is within what the model may be out by: the fastest is given."""


@dataclass(frozen=True, slots=True)
class _Dial:
    """What is turned: its range in reason, how it is rounded, and the request with it set."""

    field: str
    name: str
    unit: str
    low: float
    high: float
    decimals: int
    turned: Callable[[TimingRequest, float], TimingRequest]


def _warmth(request: TimingRequest, value: float) -> TimingRequest:
    return replace(request, temp_c=value, dough_c=None)


def _starter(request: TimingRequest, value: float) -> TimingRequest:
    return replace(request, starter_pct=value, yeast=())


def _dial(what: str) -> _Dial:
    if what == "temp_c":
        return _Dial("temp_c", "warmth", "°C", 8.0, 27.0, 1, _warmth)
    if what == "starter_pct":
        return _Dial("starter_pct", "share of starter", "% starter", 1.0, 80.0, 0, _starter)
    kind = what.removeprefix("yeast_").replace("_", " ")
    return _Dial(
        "yeast_pct", f"share of {kind} yeast", f"% {kind} yeast", 0.01, 4.0, 2,
        lambda request, value: replace(request, starter_pct=None, yeast=((what, value),)),
    )  # fmt: skip


def solved_for(
    request: TimingRequest, room_ferments: Callable[[TimingRequest], Outcome], stage: str, asked_min: float
) -> Outcome:
    """The stage with what was asked found so that it lasts `asked_min`. Refused where nothing in reason does."""
    dial = _dial(request.solve or "starter_pct")
    plain = replace(request, solve=None, asked_min=None, judged=False, stage=stage, begun_at=None, until=None)

    def takes(value: float) -> float:
        try:
            return float(room_ferments(dial.turned(plain, value)).answer["minutes"])
        except Refused:
            return math.inf

    value = _found(takes, dial.low, dial.high, asked_min)
    if value is None and dial.field == "temp_c" and takes(dial.high) * NEARLY <= asked_min < takes(dial.high):
        value = dial.high
    if value is None:
        raise _out_of_reason(dial, takes, plain, room_ferments, stage, asked_min)
    value = min(dial.high, _rounded(takes, value, dial.decimals, asked_min))
    found = dial.turned(plain, value)
    outcome = room_ferments(found)
    most = ", as much as is worth it" if value == dial.high else ""
    head = Line(f"For {hours_said(asked_min)}: {value:g} {dial.unit}{most}.", role="head")
    return replace(
        outcome,
        answer={**outcome.answer, "asked_min": asked_min, dial.field: value, "solved": dial.field},
        page=Page((head, *outcome.page.blocks)),
        read_as=f"what {dial.name} for {hours_said(asked_min)}: {outcome.read_as}",
        focus=request,
    )


def _found(takes: Callable[[float], float], low: float, high: float, asked_min: float) -> float | None:
    """Where between `low` and `high` the stage lasts as long as asked; None where nowhere. More is always faster."""
    if not takes(high) <= asked_min <= takes(low):
        return None
    for _ in range(18):
        middle = math.sqrt(low * high)
        low, high = (middle, high) if takes(middle) > asked_min else (low, middle)
    return high


def _rounded(takes: Callable[[float], float], value: float, decimals: int, asked_min: float) -> float:
    """The value as a person would set it, a place finer where that alone would put the time off."""
    plain = round(value, decimals)
    if plain > 0 and max(takes(plain), asked_min) / min(takes(plain), asked_min) <= TRUE_WITHIN:
        return plain
    return round(value, decimals + 1)


def _out_of_reason(
    dial: _Dial,
    takes: Callable[[float], float],
    plain: TimingRequest,
    room_ferments: Callable[[TimingRequest], Outcome],
    stage: str,
    asked_min: float,
) -> Refused:
    """Why nothing in reason does it, and the nearest thing that does."""
    fastest, slowest = takes(dial.high), takes(dial.low)
    why = f"no {dial.name} in reason makes the {stage} last {hours_said(asked_min)}"
    if asked_min >= fastest:
        slow = f"more than three weeks at {figure(dial.low)} {dial.unit}"
        if math.isfinite(slowest):
            slow = f"{hours_said(slowest)} at {figure(dial.low)} {dial.unit}"
        return Refused(why, slow)
    nearest = f"{hours_said(fastest)} at {figure(dial.high)} {dial.unit}"
    if dial.field == "temp_c" and not plain.yeast:
        warm = _warmth(plain, dial.high)

        def with_starter(share: float) -> float:
            return float(room_ferments(_starter(warm, share)).answer["minutes"])

        share = _found(with_starter, 1.0, 80.0, asked_min)
        nearest += f", or {share:.0f} % starter at {figure(dial.high)} °C" if share is not None else ""
    return Refused(why, nearest)
