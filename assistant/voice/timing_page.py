"""What a baker sees of a forecast: the time first, then what moves it, what to look for, what was assumed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from assistant.engine.acidity import Acidity
from assistant.engine.stops import Glass
from assistant.voice.curve import curve
from assistant.voice.page import Line, Page, Picture
from assistant.voice.spans import clock_said, hours_said, range_said, roughly_said

_STRENGTH = {"mild": "mild", "tangy": "tangy", "sharp": "clearly sour"}
_LEAN = {
    "lactic": "leaning to the milky side",
    "acetic": "leaning to the vinegar side",
    "balanced": "neither side stands out",
}


AS_WARM = "dough as warm as"
"""What every forecast at one temperature assumes; it stands in the machine form and waits for "more" on the page."""


@dataclass(frozen=True, slots=True)
class Told:
    """A forecast as it is told: the answer's fields and the words around them. samples: (min, rise %, dough °C)."""

    name: str
    fields: Mapping[str, Any]
    where: str
    why_rise: str
    ends: datetime
    now: datetime
    timed: bool
    outside: str | None
    hot_c: float
    given: tuple[str, ...]
    assumed: tuple[str, ...]
    notes: tuple[str, ...]
    safety: tuple[str, ...]
    acidity: Acidity | None
    glass: Glass | None
    from_when: str
    samples: tuple[tuple[float, float, float], ...]


def timing_page(told: Told) -> Page:
    """The page of a forecast; the curve and the reasons wait for "more"."""
    f = told.fields
    rise = f["rise_pct"]
    goal = f"to +{rise:.0f} % ({told.why_rise})" if rise is not None else "until it is ripe"
    span = range_said(f["low_min"], f["high_min"])
    left = " more" if f.get("elapsed_min") else ""
    blocks: list[Line | Picture] = []
    if f.get("verdict"):
        then = f.get("rise_then_pct")
        blocks.append(
            Line(f"{hours_said(f['asked_min'])} is {f['verdict']}: by then about +{then:.0f} %.", role="head")
        )
    blocks.append(
        Line(
            f"{told.name} {told.where}: about {roughly_said(f['minutes'])}{left} ({span}), {goal}.",
            role="plain" if f.get("verdict") else "head",
        )
    )
    if f.get("elapsed_min"):
        blocks.append(Line(f"So far {hours_said(f['elapsed_min'])}: about +{f['rise_now_pct']:.0f} %."))
    blocks += [Line(note) for note in told.notes]
    small = []
    if f["sooner_min"] >= 3:
        small.append(f"1 °C warmer: about {roughly_said(max(5, 5 * round(f['sooner_min'] / 5)))} sooner.")
    small.append(f"{told.from_when}: {clock_said(told.ends, told.now)}; go by the rise, not the clock.")
    blocks.append(Line(" ".join(small)))
    if told.outside == "hot":
        blocks.append(
            Line(
                f"Hot: above {told.hot_c:.0f} °C acid outruns the yeast, the dough goes slack and sour. Look "
                f"early, cool it.",
                role="warn",
            )
        )
    elif told.outside == "cold":
        blocks.append(Line("So cold that cultures differ a lot: the range is wide, watch the dough.", role="warn"))
    blocks += [Line(note, role="warn") for note in told.safety]
    if told.assumed:
        shown = [word for word in told.assumed if not word.startswith(AS_WARM)]
        blocks.append(Line("Assumed: " + "; ".join(shown or told.assumed) + ".", role="note"))
    blocks += _more(told)
    return Page(tuple(blocks))


def _more(told: Told) -> list[Line | Picture]:
    blocks: list[Line | Picture] = []
    if told.given:
        blocks.append(Line("Counted with: " + ", ".join(told.given) + ".", more=True))
    spread = (
        "This culture has been timed, so the range is narrow."
        if told.timed
        else "The range is for a culture nobody has timed: say “it peaked after 4 h at 24” once and it narrows."
    )
    if told.fields["starter_pct"]:
        blocks.append(Line(spread, more=True))
    if told.acidity is not None:
        acid = told.acidity
        blocks.append(Line(f"Acid: {_STRENGTH[acid.strength]}, {_LEAN[acid.lean]}; a tendency, not a pH.", more=True))
    if told.glass is not None:
        blocks.append(Line(_glass_line(told.glass), more=True))
    if len(told.samples) > 1:
        minutes, rises, warmth = zip(*told.samples, strict=True)
        blocks.append(Picture(lambda width: curve(minutes, rises, warmth, max(24, min(width, 100))), more=True))
    return blocks


def _glass_line(glass: Glass) -> str:
    return (
        f"In a straight glass: {glass.sample_g:.0f} g of the dough fill about {glass.start_ml:.0f} ml; "
        f"at {glass.stop_ml:.0f} ml it is there. Keep the glass beside the bowl."
    )


def glass_page(rise_pct: float, why_rise: str, glass: Glass, fields: Mapping[str, Any]) -> Page:
    """How to see a rise that a bowl hides."""
    return Page(
        (
            Line(f"A round bowl hides it. Look for +{rise_pct:.0f} % ({why_rise}) in a straight glass:", role="head"),
            Line(_glass_line(glass)),
            Line(
                "Level the sample, mark the start with tape, "
                "and mark the stop; sample and bowl rise alike if equally warm."
            ),
            Line(f"At {fields['temp_c']:g} °C that is about {hours_said(fields['minutes'])} from mixing."),
        )
    )
