"""Quantities said in two pieces as one: "1 lb 4 oz", "1 h 40", "1 kilo 200 of flour", "2 dozen less 2", "a stick and a
half"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.sides import sized
from grammar.tokens import Quantity, Token

_SMALLER = {"lb": "oz", "kg": "g", "hour": "min", "min": "second", "day": "hour", "foot": "inch"}
"""The unit that goes on counting behind each."""
_IN_ONE = {"oz": 16, "g": 1000, "min": 60}
"""So many of the smaller unit make one of the larger, where the smaller may go unsaid."""
_COUNTED = ("piece", "bread", "ingredient", "cue", "unit")


def merged(tokens: Sequence[Token]) -> list[Token]:
    """The tokens with each quantity that was said in two pieces as one."""
    tokens = sized(tokens)
    out: list[Token] = []
    i = 0
    while i < len(tokens):
        less, both, packs = _less(tokens, i), _both(tokens, i), _packs_and_part(tokens, i)
        part = _part_of_a_bag(tokens, i) or _and_pence(tokens, i)
        if packs is not None:
            out += packs[0]
            i += packs[1]
        elif part is not None:
            out.append(part[0])
            i += part[1]
        elif less is not None:
            out += less
            i += len(less) + 2  # the word and the few
        elif both is not None:
            out.append(both[0])
            i += both[1]
        else:
            out.append(tokens[i])
            i += 1
    return out


def _both(tokens: Sequence[Token], i: int) -> tuple[Token, int] | None:
    """Two pieces of one quantity as one token, and how many tokens they took."""
    token = tokens[i]
    if token.quantity is None or not token.quantity.value or token.quantity.unit is None:
        return None
    smaller = _SMALLER.get(token.quantity.unit)
    j = i + 1
    joined = j < len(tokens) and tokens[j].text.lower() == "and" and tokens[j].kind in ("LINK", "FILL")
    j += joined
    after = tokens[j].quantity if j < len(tokens) else None
    if after is None:
        return None
    factor = token.quantity.base / token.quantity.value
    if joined and tokens[j].kind == "NUM" and after.fraction and token.kind in ("VOLUME", "MASS", "TIME"):
        more = factor * after.value  # "1 cup and 1/4"
    elif smaller is None:
        return None
    elif after.unit == smaller:
        more = after.base
    elif (not joined or smaller == "min") and tokens[j].kind == "NUM" and _goes_on(tokens, j, after, smaller):
        more = factor * after.value / _IN_ONE[smaller]
    else:
        return None
    base = token.quantity.base + more
    whole = replace(token.quantity, value=base / factor, base=base)
    return replace(token, end=tokens[j].end, quantity=whole, text=f"{token.text} {tokens[j].text}"), j + 1 - i


def _goes_on(tokens: Sequence[Token], j: int, after: Quantity, smaller: str) -> bool:
    """Whether a bare number goes on in the smaller unit: glued ("2h15"), minutes that nothing follows which they could
    count ("1 h 40 at 24 C", "an hour and ten"), or ounces and grams "of" something."""
    if after.fraction or not 0 < after.value < _IN_ONE.get(smaller, 0):
        return False
    following = tokens[j + 1] if j + 1 < len(tokens) else None
    if smaller != "min":
        return following is not None and "of" in following.ids("link")
    if tokens[j].glued:
        return True
    if following is None or following.kind in ("MARK", "LINK", "FILL"):
        return after.value >= 10 and not (following is not None and set(following.ids("link")) & {"of", "per", "each"})
    return following.kind == "TERM" and after.value >= 10 and not any(following.ids(kind) for kind in _COUNTED)


def _less(tokens: Sequence[Token], i: int) -> list[Token] | None:
    """ "2 dozen less 2", "30 rolls minus 4": a count with a few taken off, and what is counted."""
    named = i + 1 < len(tokens) and bool(tokens[i + 1].ids("piece") or tokens[i + 1].ids("bread"))
    if i + 2 + named >= len(tokens):
        return None
    first, word, second = tokens[i], tokens[i + 1 + named], tokens[i + 2 + named]
    if first.kind != "NUM" or second.kind != "NUM" or word.text.lower() not in ("less", "minus"):
        return None
    assert first.quantity is not None and second.quantity is not None
    if not 0 < second.quantity.value < first.quantity.value:
        return None
    value = first.quantity.value - second.quantity.value
    text = f"{first.text} {word.text} {second.text}"
    end = first.end if named else second.end
    count = replace(first, text=text, end=end, quantity=replace(first.quantity, value=value, base=value))
    return [count, replace(tokens[i + 1], end=second.end)] if named else [count]


def _packs_and_part(tokens: Sequence[Token], i: int) -> tuple[list[Token], int] | None:
    """ "a stick and a half", "packet and a half of yeast": packs with a part of one, and how many tokens they took."""
    count = tokens[i].quantity if tokens[i].kind == "NUM" else None
    at = i + (count is not None)
    if at + 2 >= len(tokens) or not tokens[at].ids("pack") or (count is not None and count.fraction):
        return None
    pack, joint, part = tokens[at : at + 3]
    if joint.text.lower() != "and" or part.kind != "NUM" or part.quantity is None or not part.quantity.fraction:
        return None
    value = (count.value if count is not None else 1.0) + part.quantity.value
    many = replace(part.quantity, value=value, base=value, spelled=True, fraction=False)
    number = replace(part, text=f"{tokens[i].text} {joint.text} {part.text}", start=tokens[i].start, quantity=many)
    return [number, replace(pack, start=part.end, end=part.end)], at + 3 - i


_PENCE = range(5, 100, 5)
_COIN = "GBP"


def _and_pence(tokens: Sequence[Token], i: int) -> tuple[Token, int] | None:
    """ "a dollar eighty", "two pounds fifty": a price with its pence, and how many tokens it took.

    Pounds without a coin's sign are money only so; a bare "one twenty" only before what it is for ("a kilo").
    """
    if i + 1 >= len(tokens):
        return None
    whole, pence = tokens[i].quantity, tokens[i + 1].quantity
    if whole is None or pence is None or tokens[i + 1].kind != "NUM" or pence.value not in _PENCE or pence.fraction:
        return None
    behind = tokens[i + 2] if i + 2 < len(tokens) else None
    ends = behind is None or behind.kind == "MARK" or bool({"for", "per", "each"} & set(behind.ids("link")))
    per = ends or (behind is not None and behind.kind == "MASS" and behind.text.lower().startswith(("a ", "the ")))
    pounds = tokens[i].kind == "MASS" and whole.unit == "lb" and per
    spelled = tokens[i].kind == "NUM" and whole.spelled and pence.spelled and whole.value < 20 and per and not ends
    if whole.value % 1 or not (tokens[i].kind == "MONEY" or pounds or spelled):
        return None
    value = whole.value + pence.value / 100
    unit = _COIN if pounds else whole.unit
    dim = "num" if spelled else "money"
    price = replace(whole, value=value, base=value, unit=unit, dim=dim)
    kind = "NUM" if spelled else "MONEY"
    text = f"{tokens[i].text} {tokens[i + 1].text}"
    return replace(tokens[i], kind=kind, text=text, end=tokens[i + 1].end, quantity=price, units=()), 2


def _part_of_a_bag(tokens: Sequence[Token], i: int) -> tuple[Token, int] | None:
    """ "3/4 of a 5 lb bag": so much of what a bag holds, and how many tokens it took."""
    share = tokens[i].quantity
    j = i + 1
    while j < len(tokens) and (tokens[j].kind == "FILL" or "of" in tokens[j].ids("link")):
        j += 1
    if share is None or not share.fraction or not i + 1 < len(tokens) or j + 1 >= len(tokens):
        return None
    whole = tokens[j].quantity
    bag = tokens[j + 1].ids("money") or tokens[j + 1].ids("pack") or tokens[j + 1].text.lower().startswith("bag of")
    if tokens[j].kind != "MASS" or whole is None or not bag:
        return None
    value, base = whole.value * share.value, whole.base * share.value
    return replace(
        tokens[j], start=tokens[i].start, text=f"{tokens[i].text} {tokens[j].text}",
        quantity=replace(whole, value=value, base=base),
    ), j + 1 - i  # fmt: skip
