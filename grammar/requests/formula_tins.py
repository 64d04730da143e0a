"""The tins of the dough in hand put anew, how many there are or what size, by a line that says no more."""

from __future__ import annotations

from grammar.frames import Frame, Line, Own, amount_base
from grammar.onward import FITS, carries
from grammar.phrases import Phrase
from grammar.requests.formula_request import FormulaRequest
from grammar.requests.pans import INCH, LONGEST_IN_INCHES

MOST = 24
"""More tins than this are no tins but pieces."""
_POINTS = ("piece:piece", "pans:*", "cue:tin", "cue:company", "kit:tin", "doughs:every")


def _reads(line: Line) -> Own | None:
    """ "two of those", "there's three of them", "what if theyre the 8 by 4 ones": said of the tins just asked about."""
    known = line.context.known
    if line.context.focus != "formula" or not known.in_tins or known.pieces is not None:
        return None
    amounts = [phrase for phrase in line.phrases if phrase.kind == "amount"]
    others = [phrase for phrase in line.phrases if phrase.kind not in ("amount", "sep")]
    if not all(carries(phrase, _POINTS) or phrase.text.lower() == "ones" for phrase in others):
        return None
    sides = _sides(amounts)
    if sides:
        return Own(FormulaRequest(sizes_cm=sides), FITS)
    number = amount_base(amounts[0]) if len(amounts) == 1 and amounts[0].dim == "num" else None
    counted = number is not None and number % 1 == 0 and 1 <= number <= MOST
    return Own(FormulaRequest(tins=number), FITS) if counted else None


def _sides(amounts: list[Phrase]) -> tuple[float, ...]:
    """The sides in cm, of one phrase or of two or three bare numbers: inches where that is all they can be."""
    if len(amounts) == 1 and amounts[0].dim == "sizes":
        return amounts[0].sizes
    values = [amount_base(phrase) or 0.0 for phrase in amounts]
    if not 2 <= len(values) <= 3 or any(phrase.dim != "num" for phrase in amounts):
        return ()
    per = INCH if max(values) <= LONGEST_IN_INCHES else 1.0
    return tuple(value * per for value in values)


FRAME = Frame(FormulaRequest, "formula", lambda bound: None, reads=_reads, settles=True)
