"""Guests, a meal or the baker late for a plan, by so much: "tea is put back an hour", "running 40 min behind"."""

from __future__ import annotations

from grammar.frames import Line
from grammar.phrases import Phrase
from grammar.requests.hour_put import amounts, company, labels, of_else, words
from grammar.requests.plan_change import PlanChange


def shifted(line: Line) -> PlanChange | None:
    """ "they've put tea back an hour", "the guests come an hour later": what it is for, moved by so much."""
    by = _by(line)
    if by is None:
        return None
    says = words(line)
    # whoever comes later moves a bake that was told and never planned; a plan hears that itself
    guests = "plan" not in line.context.standing and not of_else(line) and says("off_its_hour")
    guests = guests and (any(company(p) for p in labels(line)) or says("comes") or says("they"))
    sooner, later = says("brought_on"), says("put_off") and not guests
    if not guests and not (says("meal") and (sooner or later)):
        return None
    return PlanChange(shift_min=by * (-1 if sooner and not later else 1))


NOT_SAID = 0.0
"""Minutes behind, where by how much is not said."""


def behind(line: Line) -> PlanChange | None:
    """The baker behind by so much, whatever kept them: the words beside it are the reason."""
    late = any("running_late" in p.ids("shift") for p in labels(line))
    if not late or of_else(line):
        return None
    by = _by(line)
    if by is None and not amounts(line) and all(p.ids("shift") or p.ids("filler") for p in labels(line)):
        by = NOT_SAID
    return None if by is None else PlanChange(late_min=by)


def _by(line: Line) -> float | None:
    """The one stretch of time of a line, minutes."""
    told: list[Phrase] = amounts(line)
    span = told[0].quantity if len(told) == 1 and told[0].dim == "time" else None
    return None if span is None else span.base
