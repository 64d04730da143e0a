"""Hours, degrees and counts of a complaint, each given to its stage."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from grammar.complaint_amounts import Placed
from grammar.complaint_near import best_cue, cue_beside, cue_distance
from grammar.complaint_stages import COUNTS, DAY, TEMPS, TIMES
from grammar.complaint_terms import CueAt, Word

_OVEN_LEAST_C = 110.0
_HOTTEST_ROOM_C = 45.0
_TIME_WEIGHTS = {
    "cut": -1.2,
    "age": 1.0,
    "keep": -0.5,
    "bulk": -0.1,
    "doubles": -1.0,
    "fallen": -0.8,
    "retard": 0.2,
    "bake": -0.2,
}


def of_time(
    amount: Placed, amounts: Sequence[Placed], words: Sequence[Word], cues: Sequence[CueAt], of_starter: bool,
    stage_of: dict[int, str], n: int, of_dough: bool,
) -> tuple[str, float] | None:  # fmt: skip
    minutes = amount.middle
    ranges = {stage: (low, high) for stage, (_, _, low, high) in TIMES.items()}
    weights = dict(_TIME_WEIGHTS)
    if of_starter:
        weights |= {"fed": 2.0, "age": 2.0, "doubles": 1.0, "bulk": -3.0, "proof": -3.0, "retard": -1.5, "bake": -3.0}
    else:
        weights |= {"fed": -0.5, "doubles": -2.5}
        if not any(name == "starter" and kind in ("subject", "figure") for _, _, kind, name in cues):
            ranges.pop("age", None) if not any(
                name in ("instant", "fresh", "active_dry") for *_, name in cues
            ) else None
    if not any(name == "cut" for *_, name in cues):
        ranges.pop("out")  # "soft an hour after the oven": nobody cut it
    seconds = amount.quantity.unit == "second"
    if seconds:
        weights |= {"boil": 4.0, "lye": 3.0, "bake": -4.0, "bulk": -6.0, "proof": -6.0}
    else:
        weights |= {"boil": -0.6}
    stage = best_cue(amount, amounts, words, cues, ranges, minutes, weights=weights)
    if stage is None and seconds:
        stage = "boil"
    if stage is None:
        follows = next((a for a in amounts if a.first > amount.last), None)
        if follows is not None and follows.dim == "temperature" and follows.in_c(60) <= 10:
            stage = "retard"
    follows = next((a for a in amounts if a.first > amount.last), None)
    near = [a for a in amounts if 0 < a.first - amount.last <= 5 and a.dim in ("temperature", "num")]
    if any(_degrees(one) >= _OVEN_LEAST_C for one in near) and 5 <= minutes <= 3 * 60:
        stage = "bake"  # an hour and more "at 190" was in the oven
    mild = follows is not None and follows.dim in ("temperature", "num") and follows.first - amount.last <= 3
    if mild and follows is not None and stage in ("bake", "cut", "out") and 14 <= _degrees(follows) <= 45:
        stage = "proof"  # "baked after 25 min at 19"
    if mild and follows is not None and stage is None and not of_starter and 14 <= _degrees(follows) <= 45:
        stage = "unsaid"
    ago = amount.last + 1 < len(words) and words[amount.last + 1].text == "ago"
    out_of_the_cold = best_cue(amount, amounts, words, cues, {"room": (20, 4 * DAY)}, minutes)
    if stage is None and not of_starter and out_of_the_cold is not None:
        stage = "unsaid"  # "30 hours at room temp"
    if stage is None and of_dough and not ago and 20 <= minutes <= 4 * DAY:
        stage = "unsaid"
    if stage is None:
        return None
    stage_of[n] = stage
    figure, per_unit, _, _ = TIMES[stage]
    named = {name for *_, name in cues}
    if stage == "age" and not of_starter and "starter" not in named and named & {"instant", "fresh", "active_dry"}:
        return "yeast_age_months", minutes / DAY / 30.4
    return figure, minutes / per_unit


def _degrees(amount: Placed) -> float:
    return amount.quantity.value if amount.dim == "num" else amount.in_c(60)


def of_temperature(
    amount: Placed, amounts: Sequence[Placed], words: Sequence[Word], cues: Sequence[CueAt],
    stage_of: Mapping[int, str], n: int, found: Mapping[str, float],
) -> tuple[str, float] | None:  # fmt: skip
    if amount.quantity.unit == "deg" and amount.quantity.value <= 90:
        near = best_cue(amount, amounts, words, cues, {"angle": (0, 90)}, amount.quantity.value)
        if near is not None and not best_cue(
            amount, amounts, words, cues, {"bulk": (0, 50), "proof": (0, 50), "core": (55, 99)}, amount.in_c(60)
        ):
            return "score_deg", amount.quantity.value
    value = amount.in_c(300)
    if n and n - 1 in stage_of and amounts[n - 1].last + 4 > amount.first:
        stage = stage_of[n - 1]
        if stage in TEMPS and TEMPS[stage][1] <= value <= TEMPS[stage][2] and not words[amount.first].after_mark:
            nearer = [
                c for c in cues if amounts[n - 1].last < c[0] < amount.first and c[2] == "figure" and c[3] in TEMPS
            ]
            if not nearer and TEMPS[stage][0] not in found:
                return TEMPS[stage][0], value
    ranges = {name: (low, high) for name, (figure, low, high) in TEMPS.items() if figure not in found}
    weights = {
        "thermometer": 0.3,
        "core": 0.3,
        "bulk": -0.3,
        "proof": -0.2,
        "mix": -1.0,
        "jar": -0.6,
        "bake": -0.1,
        "lid": -1.5,
    }
    weights |= {"water": -0.3, "room": 0.2}
    cue = best_cue(amount, amounts, words, cues, ranges, value, weights=weights)
    if cue is None and n + 1 < len(amounts) and n + 1 not in stage_of and amounts[n + 1].dim == "time":
        cue = best_cue(amounts[n + 1], amounts, words, cues, ranges, value)
    if cue is None and amount.dim == "num" and _HOTTEST_ROOM_C < amount.quantity.value < _OVEN_LEAST_C:
        room = {"room": ranges["room"]} if "room" in ranges else {}
        value = amount.in_c(_HOTTEST_ROOM_C)  # no room is so hot: Fahrenheit
        cue = best_cue(amount, amounts, words, cues, room, value, weights=weights)
    hot = amount.dim == "temperature" or cue_beside(amount, cues) is None
    if cue is None and value >= 110 and hot:
        return ("oven_c", value) if "oven_c" not in found else None
    return (TEMPS[cue][0], value) if cue is not None else None


def of_count(
    amount: Placed, amounts: Sequence[Placed], words: Sequence[Word], cues: Sequence[CueAt],
    stage_of: Mapping[int, str], n: int, found: Mapping[str, float],
) -> tuple[str, float] | None:  # fmt: skip
    """A bare number: degrees behind a stage or a place, a count of folds or pieces, a percentage without its sign."""
    value = amount.quantity.value
    before = words[amount.first - 1].text if amount.first else ""
    if before in ("at", "in", "around", "about", "to", "was", "is", "said", "read", "reads", "set") or not amounts[:n]:
        as_degrees = of_temperature(amount, amounts, words, cues, stage_of, n, found)
    else:
        as_degrees = None
    ranges = {name: (low, high) for name, (_, low, high) in COUNTS.items()}
    counted = best_cue(amount, amounts, words, cues, ranges, value, weights={"tray": 0.2})
    if counted is not None:
        near = cue_distance(amount, cues, counted)
        if counted == "hydration" and before in ("was", "at", "were") and as_degrees is not None:
            return as_degrees  # "the water was 60" is how hot it was
        degrees_near = min((cue_distance(amount, cues, name) for name in TEMPS), default=99)
        if as_degrees is None or near <= degrees_near:
            return COUNTS[counted][0], value
    if as_degrees is not None:
        return as_degrees
    stage = of_temperature(amount, amounts, words, cues, stage_of, n, found)
    close = min((cue_distance(amount, cues, name) for name in TEMPS), default=99)
    if stage is None and before == "at" and 45 <= value <= 100 and cue_distance(amount, cues, "flour") <= 2:
        return "hydration_pct", value  # "manitoba flour at 58"
    return stage if stage is not None and close <= 2 else None
