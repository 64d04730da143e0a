"""What a measure is to be turned into, and which way an oven is meant."""

from __future__ import annotations

import re
from itertools import pairwise

from grammar.frames import Bound, fits
from grammar.phrases import Phrase
from grammar.requests.measure_said import Measure

_SIZES = re.compile(r"\b(extra[- ]large|very large|jumbo|large|medium|small)\b", re.I)


def things_measured(bound: Bound) -> set[str]:
    """The ingredients that have an amount of their own, one spoon with how full it is ("a good spoon") too."""
    measured = {
        hit.label.ids("ingredient")[0]
        for hit in bound.hits
        if hit.slot in ("amounts", "counts") and hit.label is not None and hit.label.ids("ingredient")
    }
    for n, phrase in enumerate(bound.phrases):
        behind = next((one for one in bound.phrases[n + 1 : n + 3] if one.kind != "link"), None)
        full = bool(phrase.ids("pack")) and "_" in phrase.ids("pack")[0]
        if full and behind is not None and behind.ids("ingredient"):
            measured.add(behind.ids("ingredient")[0])
    return measured


def list_alone(bound: Bound) -> str:
    """The line without the words that only say what is wanted of the list, or in which cups it is."""
    said = [n for n, phrase in enumerate(bound.phrases) if _is_listed(phrase)]
    others = {n for n, phrase in enumerate(bound.phrases) if phrase.ids("unit") or phrase.ids("into")}
    if not said or (any(n > said[-1] for n in others) and unit_wanted(bound, [], None) not in ("g", "kg")):
        return bound.text
    start, end = bound.phrases[said[0]].tokens[0].start, bound.phrases[said[-1]].tokens[-1].end
    article = re.search(r"\b(?:an?|one) $", bound.text[:start], re.I)
    out, done = "", article.start() if article else start
    for phrase in bound.phrases[said[0] : said[-1]]:
        if fits(phrase, ("cue:percentages", "ask:convert", "cup_system:*")) and not _is_listed(phrase):
            out, done = out + bound.text[done : phrase.tokens[0].start], phrase.tokens[-1].end
    return re.sub(r"\s*(?:,\s*)*(?=,)", "", out + bound.text[done:end])


def _is_listed(phrase: Phrase) -> bool:
    """Whether a phrase is a row's: an amount, a thing, or how a measure is filled."""
    return phrase.kind == "amount" or any(phrase.ids(kind) for kind in ("ingredient", "pack", "fill"))


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
    packed = packs_asked(bound)
    if packed is not None:
        return packed
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


def packs_asked(bound: Bound) -> str | None:
    """The pack an amount is asked in: "in packets", "how many sachets"; None where a number counts it."""
    for before, pack in pairwise(bound.phrases):
        asked = {"in", "into", "to"} & set(before.ids("link")) or "how_many" in before.ids("ask")
        if asked and pack.ids("pack") and not pack.ids("unit"):
            return pack.ids("pack")[0]
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
    if len(places) == 2:
        return places["no_fan"] < places["fan"]
    stated = "fan" in places and places["fan"] > 0 and bound.phrases[places["fan"] - 1].kind == "amount"
    return not stated and bound.said("cue:recipe_given", "pans:mine", "clock:set")  # what a recipe gives is no fan's


def size_said(text: str) -> str | None:
    found = _SIZES.search(text)
    if found is None:
        return None
    said = found.group(1).lower().replace("-", " ")
    return "extra large" if said == "very large" else said
