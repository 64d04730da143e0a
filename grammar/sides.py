"""Sides of tins and trays: a unit said once holds for the chain, and bare ones are sides beside a tin."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.tokens import Quantity, Token


def sized(tokens: Sequence[Token]) -> list[Token]:
    """ "23 x 13 x 7 cm": the unit said last holds for the whole chain."""
    out = list(tokens)
    for i in range(len(out) - 1, 1, -1):
        length, mark, number = out[i], out[i - 1], out[i - 2]
        if length.kind != "LENGTH" or number.kind != "NUM" or mark.text.lower() not in ("x", "*", "by"):
            continue
        assert length.quantity is not None and number.quantity is not None
        factor = length.quantity.base / length.quantity.value if length.quantity.value else 1.0
        value = number.quantity.value
        chained = i + 2 < len(out) and out[i + 2].kind == "LENGTH" and out[i + 1].text.lower() in ("x", "*", "by")
        if not chained and mark.text.lower() != "by" and value <= _FEW and value < _SHORT_SIDE * length.quantity.value:
            continue  # "3 x 30 cm": so many of them
        quantity = replace(length.quantity, value=value, base=value * factor)
        out[i - 2] = replace(number, kind="LENGTH", quantity=quantity)
    return _bare_sizes(out)


_FEW, _SHORT_SIDE = 12.0, 0.3
"""A side is longer than this share of the other, which is said first; a smaller whole number counts the tins."""
_INCHES_BELOW = 15.0
"""A tin whose longest side is a smaller bare number than this was measured in inches: no bread tin is 9 cm long."""


def _bare_sizes(tokens: list[Token]) -> list[Token]:
    """ "23x13x7" without a unit: three bare numbers in a chain are the sides of a tin, never a batch."""
    for i in range(len(tokens) - 4):
        chain = tokens[i : i + 5]
        numbers, marks = chain[::2], chain[1::2]
        if any(n.kind != "NUM" for n in numbers) or any(m.text.lower() not in ("x", "*", "by") for m in marks):
            continue
        values = [n.quantity.value for n in numbers if n.quantity is not None]
        factor = 2.54 if max(values) < _INCHES_BELOW else 1.0
        for step, value in zip((0, 2, 4), values, strict=True):
            quantity = Quantity(value * factor, "length", "cm", value * factor)
            tokens[i + step] = replace(tokens[i + step], kind="LENGTH", quantity=quantity)
    return _bare_sides(tokens)


_SHEET_INCHES = 19.0
"""A baking sheet whose longer side is a smaller bare number than this was measured in inches."""


def _length_wanted(behind: Sequence[Token]) -> str | None:
    """The unit of length two bare numbers are to be turned into: "in cm", "to inches"."""
    whole = next((one for token in behind[:1] for one in token.ids("into") if one in ("cm", "inch")), None)
    if whole is not None or len(behind) < 2 or not set(behind[0].ids("link")) & {"in", "to", "into"}:
        return whole
    return next((unit.id for unit in behind[1].units if unit.id in ("cm", "inch")), None)


def _bare_sides(tokens: list[Token]) -> list[Token]:
    """ "9x5 loaf pan", "sheet pan 18x13": two bare numbers beside the word for a tin are its sides."""
    for i in range(len(tokens) - 2):
        first, mark, second = tokens[i : i + 3]
        if first.kind != "NUM" or second.kind != "NUM" or mark.text.lower() not in ("x", "*", "by"):
            continue
        beside = [*tokens[i + 3 : i + 4], *tokens[max(0, i - 1) : i]]
        named = next((one for one in beside if "tin" in one.ids("cue") or "tray" in one.ids("fits")), None)
        wanted = _length_wanted(tokens[i + 3 : i + 5])
        values = [token.quantity.value for token in (first, second) if token.quantity is not None]
        if (named is None and wanted is None) or min(values) < _SHORT_SIDE * max(values):
            continue
        below = _SHEET_INCHES if named is not None and "sheet" in named.ids("shape") else _INCHES_BELOW
        inches = max(values) < below if wanted is None else wanted == "cm"  # what is turned into cm is in inches
        factor = 2.54 if inches else 1.0
        for step, value in zip((0, 2), values, strict=True):
            quantity = Quantity(value * factor, "length", "cm", value * factor)
            tokens[i + step] = replace(tokens[i + step], kind="LENGTH", quantity=quantity)
    return tokens
