"""The amounts in a recipe line: how much, in what measure, how filled. Other numbers are told apart and left aside."""

from __future__ import annotations

from dataclasses import replace

from grammar.recipe.counted import Amount, Aside, Found, counted, part_behind
from grammar.recipe.packs import packs_at
from grammar.recipe.tokens import Piece, number_at
from grammar.recipe.words import RecipeWords


def amount_at(line: tuple[Piece, ...], at: int, text: str, known: RecipeWords) -> Found | None:
    """The amount or other number that begins at a piece; None where there is no number."""
    if line[at].says("."):
        return None
    start, about, manner = at, False, None
    while at < len(line) and (_word(line, at) in known.about or _word(line, at) in known.manners or line[at].says(".")):
        manner = known.manners.get(_word(line, at), manner)
        about = about or _word(line, at) in known.about
        at += 1
        if at < len(line) and line[at].says("a", "an") and manner and not number_at(line, at + 1):
            break
    number = number_at(line, at)
    if number is None:
        return _without_number(line, at, start, text, known, manner)
    found = packs_at(line, at, number, known) or counted(line, at, number, known)
    if found is None or isinstance(found.what, Aside):
        return found
    amount, begins = found.what, line[start].start
    said = text[begins : amount.end]
    return Found(replace(amount, start=begins, manner=amount.manner or manner, about=about, said=said), found.next)


def _word(line: tuple[Piece, ...], at: int) -> str:
    return line[at].text.lower()


def _without_number(
    line: tuple[Piece, ...], at: int, start: int, text: str, known: RecipeWords, manner: str | None
) -> Found | None:
    """A measure that is an amount by itself ("pinch of salt"), or one of which a part more is said, or that heads its
    thing ("cup and a quarter of milk", "cup of milk")."""
    if at >= len(line) or line[at].kind != "word":
        return None
    size = known.sizes.get(_word(line, at))
    after = at + 1 if size and at + 1 < len(line) else at
    unit = known.unit(line[after].text)
    more, end = part_behind(line, after + 1, known)
    leads = start == 0 or line[start - 1].kind == "mark" or line[start - 1].says("and", "plus")
    if unit is None or not (more or unit[0] in known.alone or (leads and unit[1] == "volume" and _of(line, end))):
        return None
    place = (line[start].start, line[end - 1].end)
    one = 1 + more
    return Found(Amount(one, one, *unit, text[place[0] : place[1]], *place, manner=manner, size=size), end)


def _of(line: tuple[Piece, ...], at: int) -> bool:
    return at < len(line) and line[at].says("of")
