"""Figures that cannot be, refused before anything is worked out: the limits of `knowledge/limits`, for every topic."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields
from functools import lru_cache
from math import isfinite
from typing import TYPE_CHECKING, Any

from assistant.engine.givens import Givens
from assistant.engine.naming import figure, grams
from assistant.engine.refusal import Refused
from knowledge.records.limits import FigureLimit

if TYPE_CHECKING:
    from knowledge import Knowledge

LEAST_FIGURE = 0.001
"""What must be more than its least is more by at least this."""
MOST_DOUGH_G = 500_000.0


@lru_cache(maxsize=2)
def _limits(kb: Knowledge) -> Mapping[str, FigureLimit]:
    return {field: limit for limit in kb.all(FigureLimit).values() for field in limit.fields}


def check_figure(field: str, value: float, kb: Knowledge, topic: str = "") -> None:
    """Refused where a field of that name cannot have that value; fields without a limit may have any."""
    limits = _limits(kb)
    limit = limits.get(f"{topic}:{field}") or limits.get(field)
    if limit is None:
        return
    said = limit.said.format(figure(value))
    if not isfinite(value):
        raise Refused(f"{said} cannot be", limit.nearest_high)
    if value < limit.least or (limit.above and value < limit.least + LEAST_FIGURE):
        raise Refused(f"{said} cannot be: {limit.too_little}", limit.nearest_low)
    if value > limit.most:
        raise Refused(f"{said} cannot be: {limit.too_much}", limit.nearest_high)


def check_request(request: Any, topic: str, kb: Knowledge) -> None:
    """Refused where one of a request's figures cannot be. Settings stand in it as (name, value) under `values`."""
    for field, value in _figures_of(request):
        check_figure(field, value, kb, topic)


def _figures_of(request: Any) -> Iterator[tuple[str, float]]:
    for field in fields(request):
        value = getattr(request, field.name)
        rows: Iterable[Any] = value if field.name == "values" and isinstance(value, tuple) else ((field.name, value),)
        for name, one in rows:
            if isinstance(one, int | float) and not isinstance(one, bool):
                yield name, float(one)


def bad_settings(settings: Mapping[str, Any], kb: Knowledge) -> dict[str, str]:
    """The settings of a kitchen that cannot be, each with why: kept by an edition that took them."""
    bad: dict[str, str] = {}
    for name, value in settings.items():
        if isinstance(value, int | float) and not isinstance(value, bool):
            try:
                check_figure(name, float(value), kb, "setting")
            except Refused as refused:
                bad[name] = refused.why
    return bad


def check_figures(givens: Givens, kb: Knowledge) -> None:
    """Refused for figures no dough can have: each by its own limit, then those that cannot go together."""
    for field, value in _figures_of(givens):
        check_figure(field, value, kb, "formula")
    if givens.pieces is not None and givens.piece_g is not None and givens.pieces * givens.piece_g > MOST_DOUGH_G:
        made = f"{figure(givens.pieces)} pieces of {figure(givens.piece_g)} g"
        why = f"{made} are {givens.pieces * givens.piece_g / 1000:.0f} kg of dough, beyond any kitchen"
        raise Refused(why, "500 kg or less")
    _check_starter(givens)
    amounts: list[tuple[str, float | None]] = [(limit.item, limit.g) for limit in givens.max_g]
    amounts += [(share.item, value) for share in givens.flours for value in (share.pct, share.g)]
    amounts += [(extra.item, value) for extra in givens.extras for value in (extra.pct, extra.g)]
    amounts += [
        (part.kind, value)
        for part in givens.preferments
        for value in (part.flour_pct, part.pct, part.flour_g, part.g, part.hydration_pct, part.yeast_pct)
    ]
    for item, amount in amounts:
        if amount is not None and (not isfinite(amount) or amount < 0 or amount > MOST_DOUGH_G):
            raise Refused(f"{figure(amount)} of {item.replace('_', ' ')} cannot be", "an amount above nothing")


def _check_starter(givens: Givens) -> None:
    """More starter than dough: as a weight of both."""
    made_g = givens.dough_g
    if made_g is None and givens.pieces is not None and givens.piece_g is not None:
        made_g = givens.pieces * givens.piece_g
    if made_g is not None and givens.starter_g is not None and givens.starter_g > made_g:
        why = f"{grams(givens.starter_g)} g of starter is more than the {grams(made_g)} g of dough it is for"
        raise Refused(why, f"up to about {grams(made_g / 4)} g of it, or a larger dough")
