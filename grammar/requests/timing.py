"""How long a stage takes: bulk, proof, retard, preferments, and the plain minutes of baking, boiling, cooling."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.follow import Follow
from grammar.frames import Bound, Frame
from grammar.moments import Moment
from grammar.requests.timing_follow import followed
from grammar.requests.timing_read import read
from grammar.requests.timing_slots import CUES, NEEDS, RULED_OUT, SLOTS


@dataclass(frozen=True, slots=True)
class TimingRequest:
    """how long will bulk take at 19 with 15% starter
    is 4 h at 26 too long
    dough is 26, kitchen 18, 20 % starter: how long is bulk
    how long until it doubles at 24 with 1 % instant yeast
    how long do I bake the rings
    how do I see a third in a round bowl

    Only what was said; None means unsaid. Temperatures in degrees Celsius, times in minutes, shares in % of flour.
    """

    stage: str | None = None
    temp_c: float | None = None
    later_c: float | None = None  # the kitchen overnight, or what it falls to
    later_after_min: float | None = None
    fridge: bool = False
    fridge_c: float | None = None
    fridge_after_min: float | None = None
    dough_c: float | None = None
    target_c: float | None = None  # cooled down to
    starter_pct: float | None = None
    starter_hydration_pct: float | None = None
    yeast: tuple[tuple[str, float], ...] = ()  # (kind of yeast, % of flour)
    yeast_ml: tuple[tuple[str, float], ...] = ()  # yeast by the spoon, with the flour it is for
    flour_g: float | None = None
    hydration_pct: float | None = None
    salt_pct: float | None = None
    sugar_pct: float | None = None
    parts: tuple[tuple[str, float], ...] = ()  # (ingredient, % of flour) of what else is in it
    rise_pct: float | None = None
    ratio: tuple[float, float, float] | None = None
    mass_g: float | None = None
    risen_now_pct: float | None = None  # "only up 20 % after 4 h"
    wished_c: float | None = None  # "came out at 29, wanted 25"
    asked_min: float | None = None  # "is 4 h too long"
    elapsed_min: float | None = None
    until: Moment | None = None
    altitude_m: float | None = None
    bread: str | None = None
    piece: str | None = None
    preferment: str | None = None
    wholegrain: bool = False
    how_to_see: bool = False
    judged: bool = False
    fan: bool = False
    heavy: bool = False  # a stone or an iron pot is heated too
    begun_at: Moment | None = None
    since: bool = False  # begun_at has gone by
    bare_pct: float | None = None  # a percentage of nothing named: starter, or the yeast asked about before
    solve: str | None = None  # what is to be found: "starter_pct", "temp_c", "rise_pct" or a kind of yeast
    frozen: bool = False
    core_c: float | None = None  # what the middle of the bread is to get to
    stone_cm: float | None = None  # how thick the stone is
    litres: float | None = None  # water in a pot that is to boil
    power_kw: float | None = None
    ring: str | None = None  # "gas", "electric", "induction", "kettle"
    grain_pct: float | None = None
    place: str | None = None  # where it stands, with no warmth said of it
    temp_kept: bool = False  # the temperature is that of the question before; a kitchen that is set goes before it
    starter_times: float | None = None  # so many times the starter of the question before
    spread_said: tuple[str, ...] = ()  # how bare degrees were read


def build(bound: Bound) -> TimingRequest | None:
    """The request; None where no stage, no rise and no ripening is asked about."""
    found = read(bound)
    return None if found is None else TimingRequest(**found)


FRAME = Frame(
    TimingRequest,
    "timing",
    build,
    follow=Follow(account=followed),
    slots=SLOTS,
    cues=CUES,
    needs=NEEDS,
    rules_out=RULED_OUT,
    settles=True,
    asked=True,
)
