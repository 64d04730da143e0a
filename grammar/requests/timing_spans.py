"""The hours of a line about time: how long it is to last or has lasted, when it began, by when it is to be done."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.frames import Bound, Hit, amount_base, fits
from grammar.moments import Moment, minute_of_day

OVERNIGHT_MIN = 600.0
"""A night on the counter, where no hours were said."""
_GOAL_LINKS = frozenset({"until", "to", "before"})


@dataclass(frozen=True, slots=True)
class Spans:
    """Minutes and clock times. lasts: how long it is to be; after: until something else happens; elapsed: gone so far.

    night: minutes of "from 10 pm to 7 am", with both its ends in begun and until.
    """

    lasts: float | None = None
    after: float | None = None
    elapsed: float | None = None
    night: float | None = None
    begun: Moment | None = None
    since: bool = False
    until: Moment | None = None


def spans_of(bound: Bound, degrees_bare: bool) -> tuple[Spans, float | None]:
    """The hours of the line, and a bare figure that stood for an hour and is a warmth ("when is bulk done at 24")."""
    begun_hit, until_hit = bound.first("begun_at"), bound.first("until")
    begun, until = _moment(begun_hit), _moment(until_hit)
    since = begun is not None and (begun.lead == "since" or "after" in (begun_hit.ids("link") if begun_hit else ()))
    if until is not None and until.lead == "since" and begun is None:
        begun, until, since = until, None, True
    if until is not None and until.minute is None and until.in_min is None:
        until = None  # "at 26 today"
    warmth = None
    figure = until_hit.amount.tokens[0].text if until_hit and until_hit.amount else ""
    if until is not None and degrees_bare and figure.isdigit() and int(figure) >= 12:
        until, warmth = None, float(figure)
    night = _window_min(bound.first("window"))
    window = _window(bound.first("window"))
    if window is not None and begun is None and until is None and bound.said("look:done_by", "ask:how_warm"):
        begun, until, night = window[0], window[1], None
    spans = Spans(
        lasts=bound.base("lasts_min"),
        after=bound.base("after_min"),
        elapsed=bound.base("elapsed_min"),
        night=night,
        begun=begun,
        since=since,
        until=until,
    )
    if spans.lasts is None and night is not None:
        spans = replace(spans, lasts=night)
    return spans, warmth


def _moment(hit: Hit | None) -> Moment | None:
    return hit.amount.moment if hit is not None and hit.amount is not None else None


def _window(hit: Hit | None) -> tuple[Moment, Moment] | None:
    if hit is None or hit.amount is None or hit.amount.window is None:
        return None
    return hit.amount.window.start, hit.amount.window.end


def _window_min(hit: Hit | None) -> float | None:
    """Minutes of "from 10 pm to 7 am"."""
    ends = _window(hit)
    if ends is None:
        return None
    start, end = minute_of_day(ends[0]), minute_of_day(ends[1])
    return float((end - start) % 1440) or None if start is not None and end is not None else None


def is_goal(bound: Bound, hit: Hit | None) -> bool:
    """Whether a rise is one to get to rather than one it has: until, to, before, how long stand before it."""
    if hit is None or hit.amount is None:
        return False
    place = next((i for i, phrase in enumerate(bound.phrases) if phrase is hit.amount), 0)
    for phrase in reversed(bound.phrases[:place]):
        if phrase.kind == "sep" and phrase.text.strip() in (",", ";", ".", ":"):
            return False
        if set(phrase.ids("link")) & _GOAL_LINKS or fits(phrase, ("look:until", "ask:how_long", "ask:when")):
            return True
    return False


def share_pct(hit: Hit | None) -> float | None:
    """A share as a percentage: "40 %", "a third"."""
    if hit is None or hit.amount is None or hit.amount.quantity is None:
        return None
    value = amount_base(hit.amount)
    return None if value is None else round(value * (100 if hit.amount.dim == "share" else 1), 1)
