"""The amounts of a swap: each is of its own thing, one that stands beside none is of what goes out."""

from __future__ import annotations

from typing import Any

from grammar.exchange import Weighed
from grammar.frames import Bound, fits
from grammar.requests.swap_asked import Case, makes_up, only_so_much
from grammar.stance import ids_of, stance_of

Row = tuple[tuple[str, ...], float | None, tuple[float, str] | None, float | None]
"""One thing of a dough told in the line: its ids and g, measure or count."""


def rows_of(case: Case) -> tuple[Row, ...]:
    """The dough told in the line."""
    return tuple(
        (ids_of(case.bound.phrases[i]), value_of(one, "mass"), measure_of(one), value_of(one, "count"))
        for i, one in case.of.items()
    )


def weights(case: Case, out: tuple[str, ...], into: tuple[str, ...]) -> dict[str, Any]:
    """The fields of the request that hold amounts, from what was said of these two sides."""
    bound = case.bound
    by_thing: dict[str, Weighed] = {}
    for place, one in case.of.items():
        by_thing.setdefault(ids_of(bound.phrases[place])[0], one)
    of_out = by_thing.pop(out[0], None) if out else None
    of_into = by_thing.pop(into[0], None) if into else None
    flour = next((item for item in by_thing if item.startswith("flour") and by_thing[item].dim == "mass"), None)
    flour_g = by_thing.pop(flour).value if flour is not None else None
    if of_out is None:
        of_out = next((one for one in case.loose if one.dim != "num"), None) or next(iter(by_thing.values()), None)
    trails = bound.phrases[-1].kind == "amount" and "to" in bound.links() and len(case.of) == 1
    only_into = of_out is None and of_into is not None and bool(out) and of_into.dim == "mass"
    if only_into and (trails or _needed(bound)):  # "honey to sugar 100 g"; "only got flaky salt, need 20 g"
        of_out, of_into = of_into, None
    have_g = value_of(of_out, "mass") if bound.said("cue:missing") and only_so_much(bound.phrases) else None
    of_out = None if have_g is not None else of_out
    return {
        "have": makes_up(bound),
        "have_g": have_g,
        "out_g": value_of(of_out, "mass"),
        "into_g": value_of(of_into, "mass"),
        "out_measure": measure_of(of_out),
        "into_measure": measure_of(of_into),
        "out_pct": value_of(of_out, "pct", "share"),
        "count": value_of(of_out, "count"),
        "flour_g": flour_g,
    }


def value_of(one: Weighed | None, *dims: str) -> float | None:
    """The value of an amount of one of these sorts."""
    return one.value if one is not None and one.dim in dims else None


def measure_of(one: Weighed | None) -> tuple[float, str] | None:
    """Number and unit of an amount by the cup, spoon or pack."""
    return (one.said, one.unit) if one is not None and one.dim == "volume" and one.unit is not None else None


def _needed(bound: Bound) -> bool:
    """Whether the line says of its amount that so much is wanted."""
    return any(stance_of(p) in ("called_for", "holds") or fits(p, ("cue:only_this",)) for p in bound.phrases)
