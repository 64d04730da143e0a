"""What a measure is to be turned into, and which way an oven is meant."""

from __future__ import annotations

import re
from itertools import pairwise

from grammar.frames import Bound, fits
from grammar.requests.measure_said import Measure

_SIZES = re.compile(r"\b(extra[- ]large|very large|jumbo|large|medium|small)\b", re.I)


def list_alone(bound: Bound) -> str:
    """The line without the words that only say what is wanted of the list: "percentages please"."""
    text = bound.text
    for phrase in reversed(bound.phrases):
        if fits(phrase, ("cue:percentages", "ask:convert")):
            text = text[: phrase.tokens[0].start] + text[phrase.tokens[-1].end :]
    return text.strip(" ,;:?-") or bound.text


def unit_wanted(bound: Bound, amounts: list[Measure], heat: Measure | None) -> str | None:
    """The unit asked for; "gas" where the oven's marks are."""
    if heat is not None and heat.unit != "gas" and bound.said("cue:gas") and not bound.of("into"):
        return "gas"
    into = bound.terms("into", "into")
    if into:
        return into[-1]
    cups = ((a, b) for a, b in pairwise(bound.phrases) if b.ids("cup_system") and "cup" in b.text.lower())
    if any({"in", "to", "into"} & set(a.ids("link")) for a, _ in cups):
        return "cup"  # "in us cups"
    for hit in reversed(bound.of("to")):
        for unit in hit.ids("unit"):
            known = [one for token in hit.label.tokens for one in token.units] if hit.label else []
            readings = [one.id for one in known if one.dimension != "time"]
            if known and not readings:
                continue  # nothing that is weighed or measured is turned into hours
            if heat is not None:
                readings = [one for one in readings if one.startswith("deg")] or readings
            elif any(not one.startswith("deg") for one in readings):
                readings = [one for one in readings if not one.startswith("deg")]
            return readings[0] if readings else unit
    return None


def to_fan_oven(bound: Bound) -> bool:
    """ "200 C in a fan oven" asks for the fan's setting; "180 fan" states it, as does "180 fan in a normal oven"."""
    if re.search(
        r"\b(?:in|for|to|on|with|mine is|mines|mine's|i have|ive got|i've got|oven is)\s+"
        r"(?:a |the |my )?(?:fan|convection)",
        bound.text,
        re.I,
    ):
        return True
    places = {kind: n for n, p in enumerate(bound.phrases) for kind in p.ids("cue") if kind in ("fan", "no_fan")}
    return len(places) == 2 and places["no_fan"] < places["fan"]


def size_said(text: str) -> str | None:
    found = _SIZES.search(text)
    if found is None:
        return None
    said = found.group(1).lower().replace("-", " ")
    return "extra large" if said == "very large" else said
