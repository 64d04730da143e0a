"""Turns of speech that take a value back in themselves: "not 24 but 20", "instead of 16 do 12", "20 is a lot, 15"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon
from grammar.pauses import PAUSES, Judgement, past, phrase_length
from grammar.said_wrong import unit_of
from grammar.same_sort import fitting, is_counted, is_value, noun_behind
from grammar.tokens import Token

Edited = tuple[list[Lexeme], list[Lexeme]]
"""The line as it is to be read, and what fell away."""
_TELLS_NOTHING = frozenset({"act", "stance", "filler", "tail", "ask"})
"""Kinds of words beside a figure that do not say what it is of."""
_BETWEEN = 3
"""Lexemes there may be between the two values of "instead of 16 rolls, do 12"."""


class Line:
    """A line's lexemes, what they mean as tokens, and where each token stands among the lexemes."""

    def __init__(self, lexemes: list[Lexeme], tokens: Sequence[Token], lexicon: Lexicon) -> None:
        self.lexemes, self.tokens, self.lexicon = lexemes, tokens, lexicon
        begins = {one.start: i for i, one in reversed(list(enumerate(lexemes)))}
        ends = {one.end: i + 1 for i, one in enumerate(lexemes)}
        self.places = [(begins.get(token.start, -1), ends.get(token.end, -1)) for token in tokens]
        self.both = any(self.phrase(i, "both") for i in range(len(lexemes)))

    def phrase(self, i: int, *classes: str) -> int:
        """How many lexemes the longest phrase of these classes takes that begins at one; 0 where none does."""
        return phrase_length(self.lexemes, i, self.lexicon.takebacks, *classes)

    def at(self, lexeme: int) -> int | None:
        """The token that begins at a lexeme."""
        return next((k for k, (start, _) in enumerate(self.places) if start == lexeme), None)


def put(line: Line, earlier: int, later: int) -> tuple[tuple[tuple[int, int], list[Lexeme]], int]:
    """Which lexemes fall away for a later value, and what stands there instead; and where the later value ends."""
    tokens, places, lx = line.tokens, line.places, line.lexemes
    new, old = list(places[later]), list(places[earlier])
    end = new[1]
    mine, theirs = noun_behind(tokens, later), noun_behind(tokens, earlier)
    if mine is not None and theirs is not None and theirs < later:
        old[1] = places[theirs][1]
        new[1] = end = places[mine][1]
    elif mine is not None and any(tokens[mine].terms == tokens[k].terms for k in range(max(0, earlier - 2), earlier)):
        end = places[mine][1]  # "flour 500, no wait, 600 flour"
    spoken = tokens[later].kind == "NUM" and tokens[earlier].kind != "NUM" and tokens[earlier].quantity is not None
    unit = unit_of(lx[slice(*places[earlier])], line.lexicon) if spoken else []
    place = replace(lx[old[0]], end=lx[old[1] - 1].end)
    said = (*lx[new[0] : places[later][1]], *unit, *lx[places[later][1] : new[1]])
    put = [replace(one, start=place.start, end=place.end, moved=True) for one in said]
    return ((old[0], old[1]), [replace(put[0], glued=place.glued), *put[1:]]), end


def judged(line: Line, verdict: Judgement) -> Edited | None:
    """ "20 is too many for us, make it 15", "the 66 was a typo, 68": the later figure in the place of the one judged.

    Where they are all the line says, the earlier one tells what the later is of: it is the later, "not" the earlier.
    """
    first = next((k for k, (_, end) in enumerate(line.places) if end == verdict.start), None)
    if first is not None and first > 0 and noun_behind(line.tokens, first - 1) == first:
        first -= 1  # "20 rolls is a lot"
    later = line.at(verdict.end)
    if first is None or later is None or line.both or line.lexemes[-1].text == "?":
        return None
    alike = is_value(line.tokens[first]) and fitting(line.tokens, [first], later, line.lexicon) is not None
    if not alike or line.phrase(line.places[later][1], "states"):
        return None  # "66 % was too wet, 62 % was better" tells of two doughs
    return _in_the_place_of(line, first, later, verdict.start)


def _in_the_place_of(line: Line, earlier: int, later: int, stop: int) -> Edited:
    """The line with the later figure in the place of the earlier one, and what lies between fallen away."""
    lx = line.lexemes
    ((start, end), new), behind = put(line, earlier, later)
    owned = earlier > 0 and line.tokens[earlier - 1].kind == "TERM" and line.tokens[earlier - 1].ids("ingredient")
    if owned or not _alone(line, earlier, later):
        return [*lx[:start], *new, *lx[end:stop], *lx[behind:]], lx[stop:behind]
    return [*lx[:start], *_instead(lx[start], new), *lx[start:stop], *lx[behind:]], lx[stop:behind]


def _alone(line: Line, *figures: int) -> bool:
    """Whether figures are all a line says, and no word beside them tells what they are of: that was said before."""
    outside = [token for k, token in enumerate(line.tokens) if not min(figures) <= k <= max(figures)]
    values = sum(is_value(token) for token in line.tokens)
    told = any(kind not in _TELLS_NOTHING for token in outside if token.kind == "TERM" for kind, _ in token.terms)
    return values == len(figures) and not told and all(noun_behind(line.tokens, k) is None for k in figures)


def _instead(at: Lexeme, said: Sequence[Lexeme]) -> list[Lexeme]:
    """A figure and "not", put before a place of the line."""
    turn = replace(at, kind="word", text="not", word="not", glued=False)
    return [replace(one, start=at.start, end=at.start, moved=True) for one in (*said, turn)]


def not_but(line: Line, i: int) -> Edited | None:
    """ "not 24 but 20 buns", "20 buns not 24": the figure that is not meant falls away."""
    lx, first = line.lexemes, line.at(i + 1)
    if first is None or line.tokens[first].quantity is None:
        return None
    end = line.places[first][1]
    before = i - 1 if i > 1 and lx[i - 1].text in PAUSES else i
    said = next((k for k, (_, stop) in enumerate(line.places) if stop == before and k > 0), None)
    its = next((k for k in (said - 2, said - 1) if noun_behind(line.tokens, k) == said), None) if said else None
    if said is not None and its is not None:
        alike = fitting(line.tokens, [its], first, line.lexicon) is not None
        mine = noun_behind(line.tokens, first)
        measured = line.tokens[its].kind in ("MASS", "VOLUME")  # "a cup of milk, not a pint"
        counts = measured or (line.tokens[first].kind == "NUM" and is_counted(line.tokens[said]))
        stop = line.places[mine][1] if mine is not None else end
        return ([*lx[:i], *lx[stop:]], lx[i:stop]) if alike and counts else None
    led = past(lx, 0, line.lexicon.takebacks, "plain", "soft", "then") == i
    if i > 0 and lx[i - 1].text not in PAUSES and not led:
        return None
    parts = (k for k in range(end, min(end + 3, len(lx))) if lx[k].word == "but" or lx[k].text in ".;,")
    but = next(parts, None)
    second = line.at(but + 1) if but is not None else None
    if but is not None and lx[but].text == "," and (second is None or not is_value(line.tokens[second])):
        second = _said_after(line, first)
    if but is None or second is None or fitting(line.tokens, [first], second, line.lexicon) is None:
        return None
    begin, stop = line.places[second]
    if not _alone(line, first, second):
        return [*lx[:i], *lx[but + 1 :]], lx[i : but + 1]
    kept = [*lx[:i], *_instead(lx[i + 1], lx[begin:stop]), *lx[i + 1 : end], *lx[stop:]]
    return kept, [lx[i], *lx[end:stop]]


_OF_TRADE = frozenset({
    "ingredient", "bread", "piece", "stage", "step", "preferment", "shape", "holds", "heat", "flour_type",
})  # fmt: skip


def _said_after(line: Line, first: int) -> int | None:
    """The value behind a figure that is not meant, where what stands between only tells whose it is: "not 76, my gran
    always said 78"."""
    second = next((k for k in range(first + 1, len(line.tokens)) if is_value(line.tokens[k])), None)
    between = line.tokens[first + 1 : second] if second is not None else ()
    return None if any(kind in _OF_TRADE for token in between for kind, _ in token.terms) else second


def instead_of(line: Line, i: int) -> Edited | None:
    """ "instead of 16 do 12": turned round, as "12 instead of 16"."""
    lx, first = line.lexemes, line.at(i + 2)
    if first is None or i + 2 >= len(lx) or lx[i + 1].word != "of" or not is_value(line.tokens[first]):
        return None
    ends = line.places[noun_behind(line.tokens, first) or first][1]
    second = next((k for k in range(first + 1, len(line.tokens)) if is_value(line.tokens[k])), None)
    if second is None or line.places[second][0] - ends > _BETWEEN:
        return None
    if fitting(line.tokens, [first], second, line.lexicon) is None or -1 in (*line.places[second], ends):
        return None
    begin, end = line.places[second]
    place = lx[i]
    moved = [replace(one, start=place.start, end=place.start, moved=True) for one in lx[begin:end]]
    return [*lx[:i], *moved, *lx[i:ends], *lx[end:]], lx[ends:begin]
