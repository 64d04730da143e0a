"""A number, in digits or words, with the unit said behind it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar import number_words, numbers
from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon
from grammar.tokens import Quantity, Token
from grammar.units import coin_named, unit_at

_ALL_OF_IT = frozenset({"whole", "full", "entire"})
"""Words before a measure that say it was all of it: "a whole cup"."""
_KIND = {
    "mass": "MASS",
    "volume": "VOLUME",
    "length": "LENGTH",
    "time": "TIME",
    "temperature": "TEMP",
    "warming": "TEMP",
    "each": "EACH",
    "pct": "PCT",
    "money": "MONEY",
}


def below_zero_at(lx: Sequence[Lexeme], i: int, lexicon: Lexicon, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "minus 18", "minus eighteen degrees": a reading of a thermometer below zero, said in words."""
    if lx[i].word not in ("minus", "negative") or i + 1 >= len(lx):
        return None
    found = number_at(lx, i + 1, lexicon, before) if lx[i + 1].kind == "number" else None
    found = found or (spelled_at(lx, i + 1, lexicon, before, 0) if lx[i + 1].kind == "word" else None)
    quantity = found[0].quantity if found else None
    if found is None or quantity is None:
        return None
    place = before[-2] if len(before) > 1 and before[-1].kind == "FILL" else before[-1] if before else None
    cold = place is not None and ("at" in place.ids("link") or bool({"fridge", "freezer"} & set(place.ids("cue"))))
    if quantity.dim != "temperature" and not (cold and quantity.dim == "num"):
        return None
    below = replace(quantity, value=-quantity.value, base=-quantity.base)
    return replace(found[0], quantity=below), found[1] + 1


def number_at(lx: Sequence[Lexeme], i: int, lexicon: Lexicon, before: Sequence[Token]) -> tuple[Token, int]:
    sign, used = 1.0, 0
    if lx[i].kind == "mark":
        sign, used = -1.0, 1
    value = numbers.digits(lx[i + used].text)
    fraction = _is_share(lx[i + used].text, lx, i + used + 1)
    used += 1
    decimals = number_words.decimals_said([x.word or x.text for x in lx[i + used : i + used + 2]])
    if decimals and value == int(value):
        return quantity_at((value + decimals.value) * sign, i, used + decimals.words, lx, lexicon, before)
    part = number_words.parts_said(value, words_at(lx, i + used, 1))
    if part is not None:
        return quantity_at(part.value * sign, i, used + 1, lx, lexicon, before, fraction=True)
    more = number_words.dozens(value, words_at(lx, i + used, 4))
    if more:
        return quantity_at(more.value * sign, i, used + more.words, lx, lexicon, before)
    tail = number_words.and_part(words_at(lx, i + used, 4))
    if tail and value == int(value):
        value, used, fraction = value + tail[0], used + tail[1], False
        after = words_at(lx, i + used, 1)
        if after and after[0] in number_words.DOZEN:
            value, used = value * 12, used + 1
    return quantity_at(value * sign, i, used, lx, lexicon, before, fraction=fraction)


def _is_share(text: str, lx: Sequence[Lexeme], after: int) -> bool:
    """ "1/3 rye": a fraction below one with no unit behind it may be a share."""
    return ("/" in text or any(c in numbers.VULGAR for c in text)) and numbers.digits(text) < 1


_NEAR_OVEN = 4
_OVENS = frozenset({"oven", "dial", "knob", "thermostat", "thermometer", "preheat", "bake", "baked"})
"""Words beside which three figures are degrees, so many tokens before them."""


def spelled_at(
    lx: Sequence[Lexeme], i: int, lexicon: Lexicon, before: Sequence[Token], phrase_words: int
) -> tuple[Token, int] | None:
    words = words_at(lx, i, 8)
    flat: list[str] = []
    places: list[int] = []
    for k, word in enumerate(words):
        if word != "-":
            flat.append(word)
            places.append(k)
    said = number_words.spelled(flat)
    hundreds = number_words.hundreds_said(flat)
    if hundreds and _one_number(lx, i + places[hundreds.words - 1] + 1, lexicon, before, hundreds.value):
        said = hundreds
    if said and said.words and places[said.words - 1] + 1 >= phrase_words:
        return quantity_at(
            said.value, i, places[said.words - 1] + 1, lx, lexicon, before, spelled=True, fraction=said.fraction
        )
    if words and words[0] in ("a", "an", "one", "per") and len(words) > 1:
        unit = unit_at(lx, i + 1 + (words[1] in _ALL_OF_IT and len(words) > 2), lexicon, 1.0)
        named = phrase_words > 1 + (unit[1] if unit else 0) or _is_kit(lx, i + 1, lexicon)  # "a second dough"
        named = named or _is_nth(lx, i + 1, lexicon)
        if unit and not named and words[0] != "per" and unit[0].dimension != "temperature" and len(lx[i + 1].word) > 1:
            return quantity_at(1.0, i, 1, lx, lexicon, before, spelled=True)
    if words[:1] == ["the"] and len(words) > 1 and before and before[-1].kind in ("MONEY", "NUM"):
        unit = unit_at(lx, i + 1, lexicon, 1.0)
        if unit and unit[0].dimension in ("mass", "volume") and len(lx[i + 1].word) > 1:
            return quantity_at(1.0, i, 1, lx, lexicon, before, spelled=True)  # "0.90 the kilo"
    return None


_WEIGHED = frozenset({"in", "into", "of", "per", "to", "by"})
"""Small words beside a measure of weight."""


def _is_kit(lx: Sequence[Lexeme], i: int, lexicon: Lexicon) -> bool:
    """Whether a word behind "a" is a thing of the kitchen and no measure: "is it worth buying a stone"."""
    kit = ("look", "heavy") in lexicon.phrases.get(lx[i].word, ())
    beside = {lx[n].word for n in (i - 2, i + 1) if 0 <= n < len(lx)}
    return kit and not beside & _WEIGHED


def _is_nth(lx: Sequence[Lexeme], i: int, lexicon: Lexicon) -> bool:
    """Whether "second" counts what follows rather than being a stretch of time: "a second set", "a second tray"."""
    told = lx[i].word == "second" and i + 1 < len(lx)
    return told and any(kind in _COUNTABLE for kind, _ in lexicon.phrases.get(lx[i + 1].word, ()))


_COUNTABLE = frozenset({"holds", "clock", "step", "stage", "piece", "bread", "shape"})
"""Kinds of word that there may be a second of."""


def _one_number(lx: Sequence[Lexeme], at: int, lexicon: Lexicon, before: Sequence[Token], value: float) -> bool:
    """Whether "two thirty" is one number: degrees follow, or so much of a thing, or an oven or its dial went before."""
    unit = unit_at(lx, at, lexicon, value)
    if unit is not None:
        return unit[0].dimension == "temperature" or (unit[0].dimension == "mass" and words_at(lx, at + 1, 1) == ["of"])
    near = before[-_NEAR_OVEN:]
    oven = any(word in _OVENS for token in near for word in token.text.lower().split())
    return oven and not any(token.ids("mark") for token in near)


def quantity_at(
    value: float,
    i: int,
    used: int,
    lx: Sequence[Lexeme],
    lexicon: Lexicon,
    before: Sequence[Token],
    *,
    spelled: bool = False,
    fraction: bool = False,
) -> tuple[Token, int]:
    at = i + used
    if fraction and at < len(lx) and lx[at].word in ("a", "an", "of") and at + 1 < len(lx):
        skip = 2 if lx[at].word == "of" and lx[at + 1].word in ("a", "an") and at + 2 < len(lx) else 1
        unit = unit_at(lx, at + skip, lexicon, value)
        if unit and unit[0].dimension in ("time", "volume", "mass", "pct", "length") and len(lx[at + skip].word) > 1:
            used, at = used + skip, at + skip  # "half an hour", "a third of a cup", "half a per cent"
    unit = unit_at(lx, at, lexicon, value)
    if unit is None and at + 1 < len(lx) and lx[at].word in _ALL_OF_IT:
        unit = unit_at(lx, at + 1, lexicon, value)
        unit = (unit[0], unit[1] + 1, unit[2]) if unit and unit[0].dimension in ("volume", "mass") else None
    if unit is None:
        return Token("NUM", "", 0, 0, quantity=Quantity(value, "num", None, value, spelled, fraction)), used
    reading, words, readings = unit
    base = value * reading.factor
    quantity = Quantity(value, reading.dimension, reading.id, base, spelled, False)
    if reading.dimension in ("time", "volume", "mass"):
        tail = number_words.and_part(words_at(lx, at + words, 4))
        if tail:  # "an hour and a half", "2 cups and a quarter"
            words += tail[1]
            quantity = replace(quantity, value=value + tail[0], base=(value + tail[0]) * reading.factor)
    return Token(_KIND[reading.dimension], "", 0, 0, quantity=quantity, units=readings), used + words


def money_at(lx: Sequence[Lexeme], i: int, lexicon: Lexicon) -> tuple[Token, int] | None:
    """ "£1.20", "eur 3": the currency before its number."""
    unit = coin_named(lx[i].word or lx[i].text, lexicon)
    after = lx[i + 1] if i + 1 < len(lx) else None
    if unit is None or unit.factor < 1 or after is None or after.kind != "number":
        return None
    value = numbers.digits(after.text)
    return Token("MONEY", "", 0, 0, quantity=Quantity(value, "money", unit.id, value)), 2


def lone_unit_at(lx: Sequence[Lexeme], i: int, lexicon: Lexicon, before: Sequence[Token]) -> tuple[Token, int] | None:
    """ "cup of water", "pint and a half of milk": a measure the line begins with is one of it; "250 g flour cups": one
    it ends with is what is wanted."""
    head = lx[i]
    unit = unit_at(lx, i, lexicon, 1.0) if head.kind == "word" and len(head.word) > 2 else None
    tin = bool(before) and bool(before[-1].ids("shape") or {"tin", "deep"} & set(before[-1].ids("cue")))
    if unit is None or unit[0].dimension not in (("length", "volume") if tin else ("mass", "volume")):
        return None
    following = lx[i + unit[1]].word if i + unit[1] < len(lx) else ""
    opens = all(token.kind == "FILL" or bool({"and", "also"} & set(token.ids("link"))) for token in before)
    one_of_it = following in ("of", "and") or (following in ("in", "to", "into") and not head.word.endswith("s"))
    fresh = not (before and before[-1].quantity is not None)
    part = fresh and unit[0].id != "g" and number_words.and_part(words_at(lx, i + unit[1], 4))
    begins = opens or (before[-1].kind == "MARK" and following == "of")
    if part or (begins and one_of_it and unit[0].id not in ("g", "kg")):
        return quantity_at(1.0, i, 0, lx, lexicon, before)
    if not any(token.kind not in ("FILL", "MARK", "LINK") for token in before) and following in ("", "please", "then"):
        return Token("TERM", "", 0, 0, terms=(("unit", unit[0].id),), units=unit[2] or (unit[0],)), unit[1]
    measured = any(token.quantity is not None for token in before)
    after_thing = bool(before) and (tin or bool(before[-1].ids("ingredient"))) and i + unit[1] == len(lx)
    said = bool(before) and (before[-1].kind == "MARK" or bool(_HOW_MUCH & set(before[-1].ids("ask"))))
    asked = said and unit[1] == 1
    if measured and (after_thing or (asked and _ends_a_part(lx, i + unit[1]))):
        return Token("TERM", "", 0, 0, terms=(("unit", unit[0].id),), units=unit[2] or (unit[0],)), unit[1]
    return None


_HOW_MUCH = frozenset({"how_much", "how_many", "what"})
_AFTER = frozenset({"please", "pls", "plz", "ta", "thanks", "then", "is", "it", "that", "does", "do"})


def _ends_a_part(lx: Sequence[Lexeme], i: int) -> bool:
    """Whether a line, or what is said up to a sign, ends here but for a kind word."""
    return i >= len(lx) or lx[i].kind == "mark" or lx[i].word in _AFTER


def is_signed(lx: Sequence[Lexeme], i: int) -> bool:
    """An attached minus before a number is a sign, unless it also touches what stands before it ("30-60")."""
    return lx[i].text == "-" and i + 1 < len(lx) and lx[i + 1].kind == "number" and lx[i + 1].glued and not lx[i].glued


def words_at(lx: Sequence[Lexeme], i: int, count: int) -> list[str]:
    """The words from lexeme i on, `count` at most, up to the first sign or figure; a hyphen between two is kept."""
    out = []
    for lexeme in lx[i : i + count]:
        if lexeme.kind != "word":
            if lexeme.text == "-" and lexeme.glued:
                out.append("-")
                continue
            break
        out.append(lexeme.word)
    return out
