"""Timers set for so many minutes or to an hour, one or several."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame, Line, Own, never_by_slots
from grammar.levels import PLAINLY, speaks
from grammar.moments import Moment, hour_said
from grammar.requests.timers_running import RUNNING
from grammar.slots import Slot
from grammar.telling.timers import Call, calls_of


@dataclass(frozen=True, slots=True)
class TimerRequest:
    """set a timer for 20 min
    timer 45 minutes for the bake
    remind me to fold in half an hour

    minutes: how long, or `at`: the hour it ends; label: what it is for, as typed.
    """

    minutes: float | None = None
    at: Moment | None = None
    label: str | None = None


@dataclass(frozen=True, slots=True)
class TimersSet:
    """ping me to fold every half hour for two hours
    alarm 12:45 oven on, alarm 13:30 first load
    and another at twenty past

    Several at once: each call of `calls`, or one over and over.
    """

    calls: tuple[Call, ...] = ()
    every_min: float | None = None
    times: int | None = None
    span_min: float | None = None
    till: Moment | None = None
    label: str | None = None


def _set(bound: Bound) -> TimerRequest | None:
    """A timer to set; without a length only where setting one is plainly meant."""
    hit = bound.first("at")
    at = hit.amount.moment if hit is not None and hit.amount is not None else None
    if hit is not None and at is None:
        at = hour_said(bound.base("at") or 0.0)
    minutes = _minutes(bound)
    if at is not None and at.in_min is not None:
        minutes, at = at.in_min, None
    if not bound.said("clock:timer", "clock:call") and (bound.asks() or not _to_do(bound)):
        return None
    if minutes is None and at is None:
        named = bound.said("clock:timer") and (bound.said("clock:set") or _labelled(bound))
        asked = bound.asks() or bound.inverted() or bound.said("clock:list", "clock:running", "ask:*")
        if not named or asked or bound.said("clock:stop"):
            return None
    if _to_a_timer(bound):
        return None  # "add 5 min to the timer"
    return TimerRequest(minutes if at is None else None, at, _purpose(bound))


def _labelled(bound: Bound) -> bool:
    """Whether the words left over name what a timer is for; so much of something nobody knows does not."""
    first = next((hit.label for hit in bound.of("label") if hit.label is not None), None)
    return bound.first("label") is not None and not (
        first is not None and first.kind == "junk" and first.text[:1].isdigit()
    )


def _minutes(bound: Bound) -> float | None:
    """How long: "18m" is minutes here, "4 timers" is no length."""
    hit = bound.first("minutes")
    if hit is None or hit.amount is None or hit.amount.quantity is None:
        return None
    quantity = hit.amount.quantity
    if quantity.dim == "length":
        return quantity.value if quantity.unit == "m" else None
    after = bound.phrases[bound.phrases.index(hit.amount) + 1 :][:1]
    several = any("timer" in p.ids("clock") and p.text.lower().endswith("s") for p in after)
    return None if quantity.dim == "num" and several else quantity.base


def _to_a_timer(bound: Bound) -> bool:
    """Whether something is done to a timer that runs: "to the timer", "onto the pot timer"."""
    places = [i for i, p in enumerate(bound.phrases) if "timer" in p.ids("clock")]
    return any(i and {"to", "per"} & set(bound.phrases[i - 1].ids("link")) for i in places)


def _to_do(bound: Bound) -> bool:
    """Whether somebody who says "tell me in 20 min" asks for nothing but the call, or names a deed behind "to"."""
    first = next((hit.label for hit in bound.of("label") if hit.label is not None), None)
    at = bound.phrases.index(first) if first is not None else 0
    return first is None or (at > 0 and "to" in bound.phrases[at - 1].ids("link"))


def _purpose(bound: Bound) -> str | None:
    """What a timer is for: the words that do not set it, whole behind "to" ("take the rings out")."""
    label = bound.free("label")
    first = next((hit.label for hit in bound.of("label") if hit.label is not None), None)
    if label is None or first is None:
        return None
    before = bound.phrases[bound.phrases.index(first) - 1] if bound.phrases.index(first) else None
    if before is not None and "to" in before.ids("link"):
        return bound.text[before.tokens[-1].end : first.tokens[0].start].lstrip() + label
    return label




def _several(line: Line) -> Own | None:
    found = calls_of(line, RUNNING in line.context.standing)
    if found is None:
        return None
    request = TimersSet(found.calls, found.every_min, found.times, found.span_min, found.till, found.label)
    return Own(request, PLAINLY)


FRAMES = (
    Frame(TimersSet, "timer", never_by_slots, reads=_several, settles=True),
    Frame(
        TimerRequest,
        "timer",
        _set,
        slots={
            "minutes": Slot(
                {"time": 1.4, "num": 0.4, "length": -0.4}, bare=0.8, low=0.05, high=10080, links={"in": 0.6}
            ),
            "at": Slot(
                {"moment": 1.4, "num": -7.0}, bare=0.4, low=0, high=24, links={"at": 8.6, "by": 8.6, "until": 8.6}
            ),
            "label": Slot({"num": 0.0}, cues=("piece:*", "bread:*"), rest=True, weight=-0.4),
        },
        cues=speaks(
            alone="clock:timer clock:call",
            telling="clock:say",
            maybe="clock:set",
            heard="act:always ask:when ask:what act:show",
            against="clock:running clock:list",
        ),
        needs=("clock:timer", "clock:call", "clock:say"),
        rules_out=(
            "clock:missed", "mistake:forgot", "ask:how_*", "ask:why", "ask:can_i", "ask:is_it", "symptom:*",
            "ask:plan*",
        ),
        help_topic="timer",
        settles=True,
    ),
)  # fmt: skip
