"""A line that goes on from a mishap: more of it told, or its figure put right."""

from __future__ import annotations

from grammar.follow import changes, put_onto
from grammar.frames import Bound, Line, Own, fits
from grammar.onward import FITS, Put, put_of
from grammar.requests.mend_request import SAME, MendRequest

_TAKEN = ("again", "stage", "late_min", "inside", "off_g", "water_c")
_TELLS_OFF = ("mistake:over", "mistake:under", "mistake:poured", "mistake:misread")
_CORRECTS = (*_TELLS_OFF, "act:correct", "mistake:meant", "turn:not_that", "stance:was", "cue:limit", "negation:no")
"""Words that put a figure in the place of the one told before."""

_BESIDES = ("and ", "also ", "plus ")
"""How a line begins that tells of one more mishap, where it names what went wrong."""


def reads(line: Line) -> Own | None:
    """The figure that takes the place of the one the mishap was told with."""
    if line.context.focus != "mend" or not any(fits(phrase, _CORRECTS) for phrase in line.phrases):
        return None
    put = put_of(line.phrases, line.text, line.context, _TELLS_OFF) or Put()
    figure = put.amount.value if put.amount is not None else put.figure
    tells_off = any(fits(phrase, _TELLS_OFF) for phrase in line.phrases)
    another = bool(put.thing) and tells_off and line.text.lower().startswith(_BESIDES)
    return None if figure is None or another else Own(MendRequest(SAME, off_g=figure, again=True), FITS)


def followed(line: MendRequest, earlier: MendRequest, bound: Bound) -> MendRequest:
    """The mishap told before with what the line says of it; its figure replaces the one that told how it went."""
    said = {name: value for name, value in changes(line).items() if name in _TAKEN}
    if "off_g" in said and earlier.off_g is None and earlier.poured_g is not None:
        said["poured_g"] = said.pop("off_g")
    return put_onto(earlier, said)
