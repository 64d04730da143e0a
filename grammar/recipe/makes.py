"""What a recipe says it makes: how many pieces, of what weight, called what."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.recipe.tokens import number_at, pieces

YIELD = re.compile(
    r"^(?:this\s+|recipe\s+)*(?:makes|yields?|serves|servings|quantity|portions|for)\b\s*:?\s*(?P<rest>.*)$", re.I
)
_YIELD_INSIDE = re.compile(
    r"\b(?:makes|yields)\s+(?:about\s+|approximately\s+|roughly\s+)?"
    r"(?P<rest>(?:\d|a\b|one|two|three|four|six|eight|ten|twelve|dozen).*)$",
    re.I,
)
_PIECE_MASS = re.compile(r"(?P<g>\d+(?:[.,]\d+)?)\s*(?:g|grams?)\b", re.I)

_THING = re.compile(r"\s*(?:(?:-|–|to)\s*\d+\s*)?(?:x\s+)?([A-Za-z][A-Za-z ,-]*)")
_A_MEASURE = re.compile(r"(?:g|kg|grams?|ml|oz|cups?|lb)\b")
_MOST_WORDS_BEFORE, _MOST_PIECES = 4, 2000


@dataclass(frozen=True, slots=True)
class Yield:
    """What the recipe makes. pieces: None where nothing countable is given; piece_g: grams of each if said."""

    said: str
    pieces: int | None = None
    piece_g: float | None = None
    thing: str = ""


def yield_said(text: str, strict: bool = False) -> Yield | None:
    """ "Makes 12 rolls", "Yield: 2 loaves of 900 g", "12 servings"; strict: only with such a leading word."""
    match = YIELD.match(text) or _YIELD_INSIDE.search(text)
    if match is None and strict:
        return None
    rest = match.group("rest") if match else text
    if strict and match and match.re is YIELD and text.lower().startswith("for") and not re.match(r"\d", rest):
        return None
    line = pieces(rest)
    numbers = (number_at(line, place) for place in range(min(len(line), _MOST_WORDS_BEFORE + 1)))
    number = next((one for one in numbers if one is not None), None)
    if number is None:
        return None
    tail = rest[line[number.next - 1].end :]
    word = _THING.match(tail)
    thing = word.group(1).strip().lower() if word else ""
    if _A_MEASURE.match(thing):
        many = re.match(r"\s*(?:g|grams?)\b\s*(.*)", tail, re.I)
        return Yield(text, None, None, many.group(1) if many else "")
    if number.value != int(number.value) or not 0 < number.value <= _MOST_PIECES:
        return None
    mass = _PIECE_MASS.search(tail)
    return Yield(text, int(number.value), float(mass.group("g").replace(",", ".")) if mass else None, thing)
