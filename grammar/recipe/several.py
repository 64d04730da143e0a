"""Several ingredients on one line, each with its own amount: where one ends and the next begins."""

from __future__ import annotations

import re
from itertools import pairwise

from grammar.recipe.names import naming
from grammar.recipe.placed import Placed, amounts_in, text_behind
from grammar.recipe.tokens import Piece, pieces
from grammar.recipe.words import RecipeWords, folded_words

MOST_AMOUNTS = 24
"""Amounts in one line beyond which it is no list of ingredients."""

_JOINTS = frozenset({",", ";", "+", "and", "&", "plus", "|", "•", "."})
_TRAILING_JOINT = re.compile(r"\s*(?:,|;|\+|&|\band|\bplus)\s*$")
_MOST_NAME_WORDS = 4


def stretches(text: str, known: RecipeWords) -> tuple[str, ...]:
    """The stretches of a line that each name an ingredient with its own amount."""
    line = pieces(text)
    placed, _ = amounts_in(line, text, known, all_counts=True)
    if len(placed) > MOST_AMOUNTS:
        return (text,)
    cuts = [0]
    for number, one in enumerate(placed[1:], 1):
        if one.depth or one.first == 0:
            continue
        joint = line[one.first - 1]
        if joint.text.lower() in _JOINTS:
            if _begins_another(text, line, placed, number, cuts[-1], known):
                cuts.append(joint.end)
        elif _runs_on(text, placed, number, known):
            cuts.append(one.amount.start)  # "1 cup flour 1/2 cup sugar"
    cuts.append(len(text) + 1)
    parts = [text[a:b].strip(" ,;|•") for a, b in pairwise(cuts)]
    return tuple(_TRAILING_JOINT.sub("", part) for part in parts if part) or (text,)


def _begins_another(
    text: str, line: tuple[Piece, ...], placed: tuple[Placed, ...], number: int, begins: int, known: RecipeWords
) -> bool:
    """Whether the amount behind a joint is of another thing than what was named since `begins`."""
    one = placed[number]
    joint = line[one.first - 1]
    ends = joint.start
    if joint.says("and") and one.first > 1 and line[one.first - 2].text == ",":
        ends = line[one.first - 2].start
    so_far = naming(_between_amounts(text, placed, begins, ends), "", known)
    if so_far.item is None:
        return False
    own = naming(text_behind(placed, number, text), "", known)
    if own.item is None:
        return joint.text in (",", ";") and _is_strange(own.said, one, known)
    return own.item != so_far.item


def _runs_on(text: str, placed: tuple[Placed, ...], number: int, known: RecipeWords) -> bool:
    """Whether another thing with its own amount follows without a mark between: each name right behind its measure."""
    if any(mark in text for mark in ",;(|"):
        return False
    own, so_far = text_behind(placed, number, text), text_behind(placed, number - 1, text)
    if not all(0 < len(said.split()) <= _MOST_NAME_WORDS for said in (own, so_far)):
        return False
    mine, before = naming(own, "", known), naming(so_far, "", known)
    return mine.item is not None and before.item is not None and mine.item != before.item


def _is_strange(said: str, placed: Placed, known: RecipeWords) -> bool:
    """Whether a measured amount is of something whose name is not known: "2 tsp salt, 1 tbsp frobnitz"."""
    words = [word for word in folded_words(said) if word.isalpha()]
    named = [word for word in words if word not in known.states]
    return bool(named) and words[0] in named and not placed.amount.bare and not placed.amount.about


def _between_amounts(text: str, placed: tuple[Placed, ...], start: int, end: int) -> str:
    """A stretch of the text with the amounts in it cut out."""
    kept, at = "", start
    for one in placed:
        if start <= one.amount.start < end:
            kept += text[at : one.amount.start] + " "
            at = one.amount.end
    return kept + text[at:end]
