"""Quantities said in two pieces as one: "1 lb 4 oz", "1 h 30 min", "2 dozen less 2"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.sides import sized
from grammar.tokens import Token

_BIGGER = {"lb": "oz", "kg": "g", "hour": "min", "min": "second", "day": "hour", "foot": "inch"}


def merged(tokens: Sequence[Token]) -> list[Token]:
    """Quantities said in two units as one: "1 lb 4 oz", "1 h 30 min", "1 hour and 20 minutes", "2 h 20"."""
    tokens = sized(tokens)
    out: list[Token] = []
    i = 0
    while i < len(tokens):
        token = tokens[i]
        j = i + 1
        less = _less(tokens, i)
        if less is not None:
            out.append(less)
            i += 3
            continue
        if token.quantity and token.quantity.unit in _BIGGER and token.kind in ("MASS", "TIME", "LENGTH"):
            if (
                j < len(tokens)
                and (tokens[j].ids("filler") or tokens[j].ids("link"))
                and tokens[j].text.lower() == "and"
            ):
                j += 1
            after = tokens[j] if j < len(tokens) else None
            smaller = _BIGGER[token.quantity.unit]
            bare_minutes = (
                after is not None
                and after.kind == "NUM"
                and token.quantity.unit == "hour"
                and j == i + 1
                and after.quantity is not None
                and 0 < after.quantity.value < 60
                and (after.glued or (j + 1 >= len(tokens) and after.quantity.value >= 10))
            )
            fits = after is not None and after.quantity is not None and after.quantity.unit == smaller
            if after is not None and after.quantity is not None and (fits or bare_minutes):
                base = token.quantity.base + (after.quantity.base if fits else after.quantity.value)
                factor = token.quantity.base / token.quantity.value if token.quantity.value else 1.0
                whole = replace(token.quantity, value=base / factor if factor else 0.0, base=base)
                out.append(replace(token, end=after.end, quantity=whole, text=f"{token.text} {after.text}"))
                i = j + 1
                continue
        out.append(token)
        i += 1
    return out


def _less(tokens: Sequence[Token], i: int) -> Token | None:
    """ "2 dozen less 2", "30 minus 4": a count with a few taken off."""
    if i + 2 >= len(tokens):
        return None
    first, word, second = tokens[i : i + 3]
    if first.kind != "NUM" or second.kind != "NUM" or word.text.lower() not in ("less", "minus"):
        return None
    assert first.quantity is not None and second.quantity is not None
    if not 0 < second.quantity.value < first.quantity.value:
        return None
    value = first.quantity.value - second.quantity.value
    text = f"{first.text} {word.text} {second.text}"
    return replace(first, text=text, end=second.end, quantity=replace(first.quantity, value=value, base=value))
