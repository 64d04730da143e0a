"""Food values: of the bread in hand by piece and by 100 g, or of one ingredient."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Bound, Frame, Line, Own
from grammar.requests.recall import plain


@dataclass(frozen=True, slots=True)
class NutritionRequest:
    """calories per roll
    nutrition
    how much protein in one
    salt per 100 g
    calories in rye flour

    about: the values asked for ("kcal", "protein", "fat", "carbohydrate", "sugar", "salt", "fibre"), none for all of
    them. item: readings of an ingredient asked about instead of the bread in hand. portion_g: of so much, else a piece.
    """

    about: tuple[str, ...] = ()
    item: tuple[str, ...] = ()
    portion_g: float | None = None


CERTAIN = 9.0
"""Stronger than a chance reading of a few words, weaker than a dough that takes every figure."""
_NAMES = (
    ("kcal", (
        r"(?:k?calories?|kcals?|cals?|energy|kilocalories|kj|kilojoules|calorie count|calorific|claories|calroies|"
        r"caloires|caleries)"
    )),
    ("protein", r"(?:proteins?|protien)"),
    ("fat", r"(?:fats?)"),
    ("carbohydrate", r"(?:carbs?|carbohydrates?|carbohydrate)"),
    ("sugar", r"(?:sugars?)"),
    ("salt", r"(?:salt|sodium)"),
    ("fibre", r"(?:fibres?|fibers?|roughage)"),
)
_ALL = (
    r"(?:nutritions?(?:al)?(?: (?:info|information|facts|values?|table|figures?|content|data|label|panel|"
    r"breakdown))?|"
    r"food values?|macros?|macro ?nutrients?|nutrients?|nutritional|nutriton|whats in (?:it|one|a roll|each))"
)
_SURE = re.compile(rf"\b(?:{_ALL}|{_NAMES[0][1]})\b")
_ANY = re.compile(r"\b(?:" + "|".join(words for _, words in _NAMES) + r")\b")
_PIECE = (
    r"(?:rolls?|rings?|pieces?|loaf|loaves|buns?|slices?|bagels?|breads?|one|each|portions?|servings?|"
    r"baton|baguettes?|"
    r"pretzels?|bialys?|pittas?|pitas?|flatbreads?|naans?|muffins?|of them|of these|of those|unit|head|person)"
)
_PER = re.compile(
    rf"\b(?:per|in each|in one|in a|in an|each|apiece|for one|for each|of one|a|in every|for every) (?:\w+ "
    rf")?{_PIECE}\b|\bin (?:each|one)\b|"
    rf"\bper (?:{_PIECE}|\d+ ?g\b|100 ?g|hundred grams?)|\b(?:a|an|each|every) {_PIECE} (?:have|has|got|contain|hold)"
    rf"|\b(?:each|apiece)$|\bin (?:my|the|this|these|our) (?:\w+ )?{_PIECE}\b"
)
_OTHER = re.compile(
    r"\b(?:should|need|needs|why|gluten|strong|stronger|strength|weak|want|add|without|no|instead|swap|"
    r"replace|too|forgot|make|reduce|less|more|develop|"
    r"reach|raise|lower|increase|change|percent|percentages?|share|ratio|put|meant|went|costs?|price|grams "
    r"of flour|dough for|hydration|bake|mixed)\b|%"
)
_SMALL = frozenset(
    re.findall(
        r"\S+",
        "how much many what whats is are the a an of in it its this that these them they my our per each one "
        "for and to do does did "
        "i we get have has got there show me tell give please can you work out value values total amount "
        "content info count about "
        "with whole batch dough bread all hand by g grams gram 100 hundred apiece every piece pieces will be "
        "on contain contains "
        "hold holds eat eaten eating body person facts table label now here so as raw baked finished",
    )
)


def _read(line: Line) -> Own | None:
    said = plain(line.text)
    if len(said) > 160 or "\n" in line.text.strip():
        return None
    alone = re.fullmatch(r"(?:and )?(?:the )?(?:carbs?|carbohydrates?|fibre|fiber|proteins?)", said) is not None
    sure, named = alone or _SURE.search(said) is not None, _ANY.search(said) is not None
    if not (named or sure) or _OTHER.search(said):
        return None
    masses = [p for p in line.phrases if p.kind == "amount" and p.quantity is not None and p.quantity.dim == "mass"]
    named_foods = sum(1 for p in line.phrases if p.ids("ingredient") and not any(t.repaired for t in p.tokens))
    if len(masses) > 1 or named_foods > 3:  # a list of weights
        return None
    items = _items(line)
    asks = re.search(r"\b(?:how much|how many|what|whats)\b", said) is not None or line.text.rstrip().endswith("?")
    lead = re.match(rf"(?:the )?(?:{'|'.join(words for _, words in _NAMES)})\b(?: content)? (?:in|of|per)\b", said)
    in_grams = re.search(rf"\b(?:{'|'.join(words for _, words in _NAMES)}) in \d+ ?(?:g|grams)\b", said)
    of_item = items and (asks or lead) and _not_salted(said, items)
    if not (sure or in_grams or of_item or _PER.search(said)):
        return None
    if not sure and re.search(r"\bhow (?:much|many)\b.*\bfor (?:\d+|(?:the|a) (?:dough|batch))\b", said):
        return None
    about = tuple(name for name, words in _NAMES if re.search(rf"\b{words}\b", said))
    if re.search(rf"\b{_ALL}\b", said):
        about = ()
    portion = masses[0].quantity.base if masses and masses[0].quantity is not None else None
    return Own(NutritionRequest(about, items, portion), CERTAIN, _unread(line, items))


def _not_salted(said: str, items: tuple[str, ...]) -> bool:
    """Whether an ingredient asked about is more than the value's own name ("how much sugar in it")."""
    return any(not i.startswith(("salt", "sugar", "fat")) for i in items)


def _items(line: Line) -> tuple[str, ...]:
    """Ingredients named that are no food value by themselves ("protein in rye flour")."""
    for phrase in line.phrases:
        ids = phrase.ids("ingredient")
        if ids and not _ANY.fullmatch(plain(phrase.text)) and not any(t.repaired for t in phrase.tokens):
            return ids
    return ()


def _unread(line: Line, items: tuple[str, ...]) -> tuple[str, ...]:
    """Words that are neither a value, a piece, an ingredient nor small."""
    left = []
    for phrase in line.phrases:
        text = plain(phrase.text)
        if phrase.kind in ("amount", "link", "sep") or phrase.ids("ingredient") or phrase.ids("bread"):
            continue
        if phrase.ids("piece") or phrase.ids("ask") or phrase.ids("food"):
            continue
        words = [w for w in text.split() if w not in _SMALL and not _ANY.fullmatch(w) and not _SURE.search(w)]
        if words and not re.fullmatch(_PIECE, text):
            left.append(phrase.text)
    return tuple(left)


def _build(bound: Bound) -> NutritionRequest | None:
    """Never from single words."""
    return None


FRAME = Frame(NutritionRequest, "nutrition", _build, reads=_read, always=True)
