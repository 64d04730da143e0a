"""The question turned round: how much starter or yeast, or how warm, for a stage to last so long."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.reply import Outcome
from assistant.voice.page import Line, Page
from assistant.voice.spans import hours_said
from grammar.requests.timing import TimingRequest


@dataclass(frozen=True, slots=True)
class _Dial:
    """What is turned: its range in reason, how it is rounded, and the request with it set."""

    name: str
    unit: str
    low: float
    high: float
    decimals: int
    turned: Callable[[TimingRequest, float], TimingRequest]


def _dial(what: str) -> _Dial:
    if what == "temp_c":
        return _Dial("warmth", "°C", 8.0, 28.0, 1, lambda request, value: replace(request, temp_c=value))
    if what == "starter_pct":
        return _Dial(
            "share of starter", "% starter", 2.0, 80.0, 0,
            lambda request, value: replace(request, starter_pct=value, yeast=()),
        )  # fmt: skip
    kind = what.removeprefix("yeast_").replace("_", " ")
    return _Dial(
        f"share of {kind} yeast", f"% {kind} yeast", 0.01, 4.0, 2,
        lambda request, value: replace(request, starter_pct=None, yeast=((what, value),)),
    )  # fmt: skip


def solved_for(
    request: TimingRequest, room_ferments: Callable[[TimingRequest], Outcome], stage: str, asked_min: float
) -> Outcome:
    """The stage with what was asked found so that it lasts `asked_min`. Refused where nothing in reason does."""
    dial = _dial(request.solve or "starter_pct")
    plain = replace(request, solve=None, asked_min=None, judged=False, stage=stage)

    def takes(value: float) -> float:
        try:
            return float(room_ferments(dial.turned(plain, value)).answer["minutes"])
        except Refused:
            return math.inf

    low, high = dial.low, dial.high
    fastest, slowest = takes(high), takes(low)
    if not fastest <= asked_min <= slowest:
        quick = f"{hours_said(fastest)} at {figure(high)} {dial.unit}"
        slow = f"more than three weeks at {figure(low)} {dial.unit}"
        if math.isfinite(slowest):
            slow = f"{hours_said(slowest)} at {figure(low)} {dial.unit}"
        raise Refused(
            f"no {dial.name} in reason makes the {stage} last {hours_said(asked_min)}",
            quick if asked_min < fastest else slow,
        )
    for _ in range(18):
        middle = math.sqrt(low * high)
        low, high = (middle, high) if takes(middle) > asked_min else (low, middle)
    value = round(high, dial.decimals)
    found = dial.turned(plain, value)
    outcome = room_ferments(found)
    head = Line(f"For {hours_said(asked_min)}: {value:g} {dial.unit}.", role="head")
    return replace(
        outcome,
        page=Page((head, *outcome.page.blocks)),
        read_as=f"what {dial.name} for {hours_said(asked_min)}: {outcome.read_as}",
        focus=found,
    )
