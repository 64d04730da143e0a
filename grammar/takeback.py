"""Taking back inside a line: the later value of the same sort goes into the place of the earlier one.

"20 no wait 26 rolls" is read as "26 rolls"; what was taken back, and the words that did so, count as read. It is done
on lexemes, so that every topic reads the line as if it had been said right at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import chain

from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon
from grammar.pauses import PAUSES, Pause, pauses_of, phrase_length
from grammar.said_wrong import corrected, unit_of
from grammar.same_sort import fitting, is_counted, is_value, noun_behind
from grammar.tokens import Token

_MOST = 5
"""So often a line may take something back; more is no line a baker means."""
_TURNS = frozenset({"not", "instead"})
"""Small words by which one value is said to be meant and the other not."""
_BETWEEN = 3
"""Lexemes there may be between the two values of "instead of 16 rolls, do 12"."""


Scan = Callable[[Sequence[Lexeme]], Sequence[Token]]
Edited = tuple[list[Lexeme], list[Lexeme]]
"""The line as it is to be read, and what fell away."""


def taken_back(lexemes: Sequence[Lexeme], lexicon: Lexicon, scan: Scan) -> Edited:
    """The lexemes of a line with what was taken back replaced, and those that fell away for it.

    scan: makes tokens of lexemes; only called where a word that takes back stands in the line.
    """
    kept, gone = list(lexemes), []
    earlier = corrected(kept, lexicon, scan)
    if earlier is not None:
        return earlier
    for _ in range(_MOST):
        edit = _first(kept, lexicon, scan)
        if edit is None:
            break
        kept, fallen = edit
        gone.extend(fallen)
    return kept, sorted(gone, key=lambda one: one.start)


def _first(lx: list[Lexeme], lexicon: Lexicon, scan: Scan) -> Edited | None:
    """The line after the first taking back in it, and what fell away; None where there is none."""
    if not any(one.word in lexicon.takes_back or one.word in _TURNS for one in lx):
        return None
    pauses = pauses_of(lx, lexicon.takebacks)
    nots = [i for i, one in enumerate(lx) if one.word == "not"]
    insteads = [i for i, one in enumerate(lx) if one.word == "instead" and (i == 0 or lx[i - 1].text in PAUSES)]
    if not (pauses or nots or insteads):
        return None
    line = _Line(lx, [token for token in scan(lx) if token.kind != "FILL"], lexicon)
    edits: Iterator[Edited | None] = chain(
        (_not_but(line, i) for i in nots),
        (_instead_of(line, i) for i in insteads),
        (_replaced(line, pause) for pause in pauses),
    )
    return next((edit for edit in edits if edit is not None), None)


class _Line:
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


def _replaced(line: _Line, pause: Pause) -> Edited | None:
    """The line with the value behind a pause in the place of the one of the same sort before it."""
    tokens, places = line.tokens, line.places
    later = line.at(pause.end)
    if later is None or not (pause.plain or (pause.led and not line.both) or is_value(tokens[later])):
        return None
    before = [k for k, (_, end) in enumerate(places) if 0 <= end <= pause.start]
    if not is_value(tokens[later]):
        again = any(tokens[k].terms and tokens[k].terms == tokens[later].terms for k in before)
        if again and later + 1 < len(tokens) and is_value(tokens[later + 1]):
            later += 1  # "starter 20, no, starter 25"
        elif not pause.plain or pause.negating:
            return None
    earlier = fitting(tokens, before, later, line.lexicon)
    behind = line.phrase(places[later][1], "behind")
    if earlier is None or not (pause.plain or ((pause.led or behind) and not line.both)):
        return None
    put, end = _put(line, earlier, later)
    edits = [put]
    while not behind:  # "14 rolls 90 g, whoops, 15 rolls 95 g": what was said again with it goes with it
        more = _next_said(line, end, earlier, before)
        if more is None:
            break
        earlier, later = more
        put, end = _put(line, earlier, later)
        edits.append(put)
    kept: list[Lexeme] = []
    done = 0
    for old, new in edits:
        kept += [*line.lexemes[done : old[0]], *new]
        done = old[1]
    done += line.phrase(done, "aside")  # "20 is too many for us, make it 15"
    kept += line.lexemes[done : pause.start]
    end += behind + _closes(line, pause, end + behind, tokens[later])
    return [*kept, *line.lexemes[end:]], line.lexemes[pause.start : end]


def _closes(line: _Line, pause: Pause, end: int, later: Token) -> bool:
    """Whether the sign at `end` only closes what the pause opened: a bracket, or the comma of "saturday, no, sunday, at
    8", which would part the day from its hour."""
    after = line.lexemes[end].text if end < len(line.lexemes) else ""
    opened = any(one.text == "(" for one in line.lexemes[pause.start : pause.end])
    return (after == ")" and opened) or (after == "," and later.quantity is None and later.kind != "TERM")


def _put(line: _Line, earlier: int, later: int) -> tuple[tuple[tuple[int, int], list[Lexeme]], int]:
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


def _next_said(line: _Line, end: int, earlier: int, before: Sequence[int]) -> tuple[int, int] | None:
    """The value right behind what was put in place, and the one it stands for, where it was said before too."""
    later = line.at(end)
    if later is not None and line.tokens[later].ids("link"):
        later = later + 1 if later + 1 < len(line.tokens) else None
    if later is None or not is_value(line.tokens[later]):
        return None
    rest = [k for k in before if k > earlier]
    again = fitting(line.tokens, rest, later, line.lexicon)
    return (again, later) if again is not None and line.tokens[again].kind == line.tokens[later].kind else None


def _not_but(line: _Line, i: int) -> Edited | None:
    """ "not 24 but 20 buns", "20 buns not 24": the figure that is not meant falls away."""
    lx, first = line.lexemes, line.at(i + 1)
    if first is None or line.tokens[first].quantity is None:
        return None
    end = line.places[first][1]
    said = next((k for k, (_, stop) in enumerate(line.places) if stop == i and k > 0), None)
    if said is not None and noun_behind(line.tokens, said - 1) == said:
        alike = fitting(line.tokens, [said - 1], first, line.lexicon) is not None
        mine = noun_behind(line.tokens, first)
        counts = line.tokens[first].kind == "NUM" and is_counted(line.tokens[said])
        stop = line.places[mine][1] if mine is not None else end
        return ([*lx[:i], *lx[stop:]], lx[i:stop]) if alike and counts else None
    if i > 0 and lx[i - 1].text not in PAUSES:
        return None
    parts = (k for k in range(end, min(end + 3, len(lx))) if lx[k].word == "but" or lx[k].text in ".;")
    but = next(parts, None)
    second = line.at(but + 1) if but is not None else None
    if but is None or second is None or fitting(line.tokens, [first], second, line.lexicon) is None:
        return None
    return [*lx[:i], *lx[but + 1 :]], lx[i : but + 1]


def _instead_of(line: _Line, i: int) -> Edited | None:
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
