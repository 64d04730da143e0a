"""The page of a run through pot and oven: clock at the left, what goes in, what comes out."""

from __future__ import annotations

from datetime import datetime, timedelta

from assistant.engine.loads import Loads, PotAndOven
from assistant.voice.page import Block, Line, Page, Picture, Table
from assistant.voice.timeline import Lane, drawn

_WORTH_SAYING_MIN = 4.0
_ROWS = 4
_KEY = "each load by its number"


def clock(moment: datetime) -> str:
    """Hours and minutes, seconds rounded."""
    return (moment + timedelta(seconds=30)).strftime("%H:%M")


def loads_page(
    done: Loads, work: PotAndOven, begin: datetime, name: str, pot_saves_min: float, oven_saves_min: float
) -> Page:
    """First when it is over, then each thing to do, then who waits and what would help.

    pot_saves_min, oven_saves_min: what a second pot, an oven twice as large, would save.
    """
    end = clock(begin + timedelta(minutes=done.total_min))
    head = f"last out {end}, {_span(done.total_min)} after the first goes in"
    rows = tuple((clock(begin + timedelta(minutes=at)), what) for at, what in _happenings(done, work))
    each = _each_load(done, work, begin)
    few = each if len(each) <= _ROWS else (*each[: _ROWS - 2], ("", "..."), each[-1])
    blocks: list[Block] = [Line(head, role="head"), Table(few, "rl")]
    rows_drawn = _lanes(done, begin)
    blocks.append(Picture(lambda width: [*drawn(rows_drawn, width), _KEY[:width]], more=True))
    blocks.append(Table(rows, "rl", more=True))
    blocks += [Line(said) for said in _waiting(done, begin)]
    blocks += [Line(said) for said in _holdup(done, work, pot_saves_min, oven_saves_min)]
    if work.pot_pieces is not None:
        potfuls = "; ".join(f"{clock(begin + timedelta(minutes=one.start_min))} {one.pieces}" for one in done.potfuls)
        blocks.append(Line(f"potfuls: {potfuls}", more=True))
    return Page(tuple(blocks))


def _lanes(done: Loads, begin: datetime) -> list[Lane]:
    """Pot and oven along the clock, each load drawn with its number."""

    def span(start_min: float, end_min: float, number: int) -> tuple[datetime, datetime, str]:
        return begin + timedelta(minutes=start_min), begin + timedelta(minutes=end_min), str(number % 10)

    pot = []
    for potful in done.potfuls:
        begun = [one for one in done.loads if one.boil_start_min is not None and one.boil_start_min <= potful.start_min]
        pot.append(span(potful.start_min, potful.end_min, len(begun)))
    oven = [span(one.bake_start_min, one.bake_end_min, number) for number, one in enumerate(done.loads, 1)]
    return [Lane(name, tuple(spans)) for name, spans in (("pot", pot), ("oven", oven)) if spans]


def _each_load(done: Loads, work: PotAndOven, begin: datetime) -> tuple[tuple[str, str], ...]:
    """One row a load: when its pieces go into the pot, into the oven and out."""
    rows = []
    for load in done.loads:
        into = clock(begin + timedelta(minutes=load.bake_start_min))
        out = clock(begin + timedelta(minutes=load.bake_end_min))
        if load.boil_start_min is None:
            rows.append((into, f"{load.pieces} into the oven, out {out}"))
        else:
            text = f"boil {load.pieces}{_potful(load.pieces, work)}; oven {into}, out {out}"
            rows.append((clock(begin + timedelta(minutes=load.boil_start_min)), text))
    return tuple(rows)


def _span(minutes: float) -> str:
    hours, rest = divmod(round(minutes), 60)
    return f"{hours} h {rest:02d} min" if hours else f"{rest} min"


def _happenings(done: Loads, work: PotAndOven) -> list[tuple[float, str]]:
    found: list[tuple[float, str]] = []
    for number, load in enumerate(done.loads, 1):
        which = f"load {number}: " if len(done.loads) > 1 else ""
        if load.boil_start_min is not None:
            found.append((load.boil_start_min, f"{which}boil {load.pieces}{_potful(load.pieces, work)}"))
        found.append((load.bake_start_min, f"{which}{load.pieces} into the oven, {work.bake_min:g} min"))
        found.append((load.bake_end_min, f"{which}{load.pieces} out"))
    return sorted(found, key=lambda one: one[0])


def _potful(pieces: int, work: PotAndOven) -> str:
    assert work.pot_pieces is not None
    side = f"{work.boil_s_per_side:g} s a side"
    return f", {work.pot_pieces} at a time, {side}" if pieces > work.pot_pieces else f", {side}"


def _waiting(done: Loads, begin: datetime) -> list[str]:
    said = []
    first = done.loads[0]
    if first.waits_cold:
        said.append(f"{first.waits_cold} wait in the cold, covered, until their own load.")
    if done.boiled_wait_min > _WORTH_SAYING_MIN:
        wait = f"{done.boiled_wait_min:.0f} min"
        said.append(f"some wait {wait} on the rack between pot and oven: keep them out of a draught.")
    return said


def _holdup(done: Loads, work: PotAndOven, pot_saves_min: float, oven_saves_min: float) -> list[str]:
    if done.bottleneck == "oven":
        said = "the oven holds things up"
        if oven_saves_min > _WORTH_SAYING_MIN:
            said += f": room for {2 * work.oven_pieces} at once would save {oven_saves_min:.0f} min"
        return [said + "."]
    if done.bottleneck == "pot":
        said = "the pot holds things up"
        if pot_saves_min > _WORTH_SAYING_MIN:
            said += f": a second one would save {pot_saves_min:.0f} min"
        return [said + "."]
    return []
