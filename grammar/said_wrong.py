"""A figure of an earlier line named as wrong, and the one that was meant: "did I say 24, it should be 28".

It is read as the correction it is: "sorry, 28 instead of 24"; where a noun stands beside the figure, "sorry, 28 rolls".
Done on lexemes, like all taking back, so that no topic hears a question, a report or a stretch ("24 to 28") in it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon
from grammar.pauses import PAUSES, phrase_length
from grammar.same_sort import fitting, is_thing, is_value, noun_behind
from grammar.tokens import Token

_NEAR = 3
"""Lexemes there may be between the words that lead and the first figure: "did I say the salt at"."""
_FIRST = 8
"""The words that lead stand at the front of the line, behind a few words at most."""


def corrected(
    lx: Sequence[Lexeme], lexicon: Lexicon, scan: Callable[[Sequence[Lexeme]], Sequence[Token]]
) -> tuple[list[Lexeme], list[Lexeme]] | None:
    """The line as the correction it is, and the lexemes that fell away; None where it corrects no earlier line."""
    leads = list(_leads(lx, lexicon))
    if not leads:
        return None
    tokens = [token for token in scan(lx) if token.kind != "FILL"]
    begins = {one.start: i for i, one in reversed(list(enumerate(lx)))}
    ends = {one.end: i + 1 for i, one in enumerate(lx)}
    places = [(begins.get(token.start, -1), ends.get(token.end, -1)) for token in tokens]
    for start, end, links in leads:
        first = next((k for k, place in enumerate(places) if place[0] >= end and is_value(tokens[k])), None)
        if first is None or places[first][0] - end > _NEAR:
            continue
        noun = noun_behind(tokens, first)
        after = places[first if noun is None else noun][1]
        between = _between(lx, after, lexicon, links)
        second = next((k for k, place in enumerate(places) if place[0] == between), None)
        if second is None or between == after or fitting(tokens, [first], second, lexicon) is None:
            continue
        mine = noun_behind(tokens, second)
        if noun is not None and mine is not None and tokens[noun].terms != tokens[mine].terms:
            continue  # one thing in the place of another, each with its amount
        return _rewritten(lx, start, end, tokens, places, first, second, lexicon)
    return None


def _leads(lx: Sequence[Lexeme], lexicon: Lexicon) -> Iterator[tuple[int, int, tuple[str, ...]]]:
    """Where words stand that name an earlier figure, and what may stand between it and the other."""
    for i in range(min(len(lx), _FIRST)):
        for lead, links in _LINKS.items():
            count = phrase_length(lx, i, lexicon.takebacks, lead)
            if count:
                yield i, i + count, links


_LINKS = {
    "said": ("plain", "soft", "aside", "so"), "typed": ("plain", "soft", "aside", "so", "for"), "turn": ("into",),
}  # fmt: skip


def _between(lx: Sequence[Lexeme], i: int, lexicon: Lexicon, links: Sequence[str]) -> int:
    """Where the words end that lead from the figure said to the one that is meant; `i` where there are none."""
    start, said = i, False
    while i < len(lx):
        count = phrase_length(lx, i, lexicon.takebacks, *links)
        said = said or bool(count)
        if not count and not (lx[i].text in PAUSES or lx[i].kind == "leader"):
            break
        i += count or 1
    return i if said else start


def _rewritten(
    lx: Sequence[Lexeme],
    start: int,
    end: int,
    tokens: Sequence[Token],
    places: Sequence[tuple[int, int]],
    first: int,
    second: int,
    lexicon: Lexicon,
) -> tuple[list[Lexeme], list[Lexeme]]:
    """ "sorry" and the later figure, in the place of the earlier one beside its noun, else "instead of" that one."""
    old, new = places[first], list(places[second])
    mine = noun_behind(tokens, second)
    if mine is not None:
        new[1] = places[mine][1]
    put = [*lx[new[0] : places[second][1]]]
    if tokens[second].kind == "NUM" and tokens[first].kind != "NUM":
        put += unit_of(lx[old[0] : old[1]], lexicon)
    noun = noun_behind(tokens, first)
    named = noun is not None or any(is_thing(token) for token, place in zip(tokens, places, strict=True)
                                    if end <= place[0] < old[0])
    opening = replace(lx[start], word="sorry", text="sorry", kind="word", end=lx[end - 1].end, moved=True)
    comma = replace(opening, text=",", word="", kind="mark", start=opening.end)
    if named or mine is not None:
        here = replace(lx[old[0]], end=lx[old[1] - 1].end)
        put = [replace(one, start=here.start, end=here.end, moved=True) for one in put]
        stop = places[noun][1] if noun is not None and mine is None else old[1]
        lead = [one for one in lx[end : old[0]] if one.word != "from"]
        put += [*lx[places[second][1] : new[1]], *lx[old[1] : stop]]
        return [*lx[:start], opening, comma, *lead, *put, *lx[new[1] :]], list(lx[stop : new[1]])
    last = lx[new[1] - 1].end
    words = [replace(opening, text=word, word=word) for word in ("instead", "of")]
    behind = [replace(one, start=last, end=last, moved=True) for one in (*words, *lx[old[0] : old[1]])]
    return [*lx[:start], opening, comma, *put, *behind, *lx[new[1] :]], list(lx[end : new[0]])


def unit_of(part: Sequence[Lexeme], lexicon: Lexicon) -> list[Lexeme]:
    """The lexemes of an amount that name its unit; none for one said in two units."""
    figures = [i for i, one in enumerate(part) if one.kind == "number"]
    if figures:
        return list(part[figures[0] + 1 :]) if len(figures) == 1 else []
    return [one for one in part if one.word in lexicon.units][:1]
