"""A question about time that goes on from the one before it: what it keeps, and what no longer holds."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from grammar.follow import changes, put_onto, said, without
from grammar.frames import Bound
from grammar.requests.timing_asked import FRIDGE_MOST_C

if TYPE_CHECKING:
    from grammar.requests.timing import TimingRequest

_FORGETS = {
    "piece": ("piece", "bread"),
    "bread": ("piece", "bread"),
    "yeast": ("starter_pct",),
    "temp_c": ("later_c", "later_after_min", "place"),
    "place": ("temp_c", "later_c", "later_after_min", "fridge", "fridge_c", "fridge_after_min"),
}
"""For what is said anew, what it stands instead of."""
_OF_A_STAGE = ("rise_pct", "asked_min", "elapsed_min", "how_to_see")
_OF_A_PLACE = ("fridge", "fridge_after_min", "fridge_c", "dough_c", "elapsed_min")
_OF_A_JUDGEMENT = ("judged", "asked_min", "until", "solve")
_LITTLE_YEAST_PCT = 5.0


def followed(line: TimingRequest, earlier: TimingRequest, bound: Bound) -> TimingRequest:
    """The earlier question with what the line says in the place of the same."""
    other_stage = line.stage is not None and line.stage != earlier.stage
    if other_stage and _whole(line):
        return line
    if earlier.stage == "cool" and line.stage is None and _another_bread(line) and bound.said("ask:how_long"):
        return replace(line, stage="bake")  # bread and how much of it, out of the oven's talk: its time in the oven
    changed = changes(line)
    _leaven(changed, line, earlier)
    kept = without(earlier, *(_OF_A_STAGE if other_stage else ()))
    kept = _stay_in_the_cold(changed, line, kept)
    if changed.get("starter_pct") and not line.yeast:
        kept = without(kept, "yeast")
    if line.temp_c is not None and (line.judged or line.stage is not None):
        kept = without(kept, *_OF_A_PLACE)
    if line.asked_min is None and not line.judged and line.solve is None and not _asks_back(line, earlier):
        kept = without(kept, *_OF_A_JUDGEMENT)
    if not line.how_to_see and changed:
        kept = without(kept, "how_to_see")
    anew = line.stage is not None and bound.said("ask:how_long") and not bound.said("ask:what_if", "link:and")
    changed["temp_kept"] = line.temp_c is None and anew and earlier.temp_c is not None
    return put_onto(kept, changed, _FORGETS)


def _leaven(changed: dict[str, Any], line: TimingRequest, earlier: TimingRequest) -> None:
    """A share of nothing named is the leaven's that was asked about; "double the starter" is of the earlier one."""
    if line.bare_pct is not None and earlier.yeast and not earlier.starter_pct and line.bare_pct <= _LITTLE_YEAST_PCT:
        changed.pop("starter_pct", None)
        changed["yeast"] = ((earlier.yeast[0][0], line.bare_pct),)
    elif line.bare_pct is not None and line.starter_pct is None:
        changed["starter_pct"] = line.bare_pct
    if line.starter_times is not None and earlier.starter_pct:
        changed["starter_pct"] = earlier.starter_pct * changed.pop("starter_times")


def _stay_in_the_cold(changed: dict[str, Any], line: TimingRequest, earlier: TimingRequest) -> TimingRequest:
    """After a stay in the fridge another cold is the fridge's; a warmth is a bulk's."""
    if earlier.stage != "retard" or line.stage is not None:
        return earlier
    if line.temp_c is not None and line.temp_c <= FRIDGE_MOST_C:
        changed["fridge_c"] = changed.pop("temp_c")
        return earlier
    if not said(line.temp_c or line.later_c):
        return earlier
    changed["stage"] = "bulk"
    return without(earlier, "fridge", "fridge_c")


def _asks_back(line: TimingRequest, earlier: TimingRequest) -> bool:
    """Whether what was to be found stays to be found: it is not what the line says."""
    found = said(line.starter_pct or line.yeast) if earlier.solve == "starter_pct" else line.temp_c is not None
    return earlier.solve is not None and line.stage is None and not (found and earlier.solve != "rise_pct")


def _another_bread(line: TimingRequest) -> bool:
    """Whether the line names pieces and their weight, and no warmth."""
    return line.mass_g is not None and said(line.bread or line.piece) and line.temp_c is None


def _whole(line: TimingRequest) -> bool:
    """Whether the line says enough to stand alone."""
    own = (line.temp_c, line.starter_pct, line.rise_pct, line.bread, line.mass_g)
    return any(one is not None for one in own)
