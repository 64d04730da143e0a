"""The temperatures of a line about time, each by what it is of: place, dough, fridge, where it is to get."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.frames import Bound, Hit
from grammar.phrases import Phrase
from grammar.requests.timing_slots import TEMPS
from grammar.requests.timing_stage import keeps_cold, stages_of
from grammar.requests.warmth import WARMEST_C, Degrees, degrees_of

OVEN_C = 150.0
"""From here on a temperature beside a bread is an oven's."""


@dataclass(frozen=True, slots=True)
class Warmths:
    """Degrees Celsius. temp_c: the place; later_c: what it falls or rises to; target_c: what the dough is to get to.

    placed: how many temperatures of the place were said; oven: the place is an oven; remarks: how bare figures were
    read.
    """

    temp_c: float | None = None
    later_c: float | None = None
    fridge_c: float | None = None
    dough_c: float | None = None
    target_c: float | None = None
    wished_c: float | None = None
    placed: int = 0
    oven: bool = False
    remarks: tuple[str, ...] = ()


def warmths_of(bound: Bound) -> Warmths | None:
    """The temperatures by what they are of; None where there are more places than a dough can stand in."""
    baked = bool({"bake", "preheat"} & set(stages_of(bound))) or bound.said("cue:fan")
    warmest_c = 320.0 if baked else WARMEST_C
    if bound.said("stage:cool", "stage:boil", "stage:heat_pot", "stage:boiling_point"):
        warmest_c = max(warmest_c, 110.0)
    degrees = degrees_of(bound, TEMPS, warmest_c)

    def of(slot: str, most_c: float = warmest_c) -> float | None:
        hit = bound.first(slot)
        return degrees.celsius(hit.amount, most_c) if hit else None

    temps = [hit.amount for hit in (*bound.of("temp_c"), *bound.of("oven_c")) if hit.amount is not None]
    if len(temps) > 2:
        return None
    found = Warmths(
        temp_c=degrees.celsius(temps[0], warmest_c) if temps else None,
        later_c=of("later_c"),
        fridge_c=of("fridge_c", WARMEST_C),
        dough_c=of("dough_c"),
        target_c=of("target_c"),
        wished_c=of("wished_c"),
        placed=len(temps),
        remarks=degrees.remarks,
    )
    if not temps and found.later_c is not None and found.dough_c is None and not _falls(bound):
        found = replace(found, temp_c=found.later_c, later_c=None)  # "overnight at 20" is all night
    if len(temps) == 2 and found.later_c is None:
        found = replace(found, later_c=degrees.celsius(temps[1], warmest_c))
    for phrase in (*temps, _amount(bound.first("later_c")), _amount(bound.first("dough_c"))):
        if phrase is not None and phrase.high is not None and phrase.quantity is not None:
            found = _ranged(found, bound, phrase, degrees, warmest_c, phrase in temps)
    from_c, span = of("from_c"), _amount(bound.first("from_c"))
    if span is not None and span.high is not None and span.quantity is not None:
        from_c, to_c = (degrees.value_c(q.value, q.unit, warmest_c) for q in (span.quantity, span.high))
        found = replace(found, target_c=to_c)
    if from_c is not None:
        found = replace(found, dough_c=found.dough_c if found.dough_c is not None else from_c)
    hot = temps[0].quantity if temps else None
    if hot is not None and hot.value >= OVEN_C and bound.said("bread:*", "piece:*"):
        found = replace(found, temp_c=Degrees(False).celsius(temps[0], 320.0), oven=True)
    return _into_the_cold(found, bound)


def _falls(bound: Bound) -> bool:
    """Whether a place gets warmer or colder later on; "heater on, then it is 23" tells one warmth and why it is so."""
    falling = [phrase.text.lower() for phrase in bound.phrases if "falling" in phrase.ids("look")]
    timed = bound.said("span:overnight", "cue:night") or bound.first("lasts_min") or bound.first("after_min")
    return bool(falling) and (bool(timed) or any(one != "then" for one in falling))


def _amount(hit: Hit | None) -> Phrase | None:
    return hit.amount if hit is not None else None


def _ranged(
    found: Warmths, bound: Bound, phrase: Phrase, degrees: Degrees, warmest_c: float, placed: bool
) -> Warmths:
    """Two temperatures in one figure: "from 26 to 5" cools a dough or a kitchen, "22 to 24" is their middle."""
    assert phrase.quantity is not None and phrase.high is not None
    first, second = (degrees.value_c(q.value, q.unit, warmest_c) for q in (phrase.quantity, phrase.high))
    if first <= second:
        return replace(found, temp_c=(first + second) / 2) if placed else found
    if bound.said("stage:cool") or keeps_cold(bound):
        return replace(found, dough_c=first, target_c=second, temp_c=None if placed else found.temp_c)
    return replace(found, temp_c=first, later_c=second)


def _into_the_cold(found: Warmths, bound: Bound) -> Warmths:
    """Which of several temperatures is the dough's, the fridge's and the one to get to."""
    fridge = keeps_cold(bound)
    temp_c, dough_c, fridge_c = found.temp_c, found.dough_c, found.fridge_c
    if found.target_c is not None and fridge_c is None and fridge and temp_c is not None and found.target_c > temp_c:
        # "to 10 in a 4 degree fridge, from 26": the colder one is the fridge's, what is left over the dough's own
        later_c = found.later_c
        return replace(found, fridge_c=temp_c, temp_c=None, later_c=None, dough_c=dough_c if dough_c else later_c)
    if dough_c is not None and fridge_c is not None and temp_c is not None and dough_c > temp_c > fridge_c:
        return replace(found, target_c=temp_c, temp_c=None)  # "dough at 28, fridge at 3: until it is at 6"
    return found
