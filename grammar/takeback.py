"""Taking back inside a line: the later value of the same sort goes into the place of the earlier one.

"20 no wait 26 rolls" is read as "26 rolls"; what was taken back, and the words that did so, count as read. It is done
on lexemes, so that every topic reads the line as if it had been said right at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import chain

from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon
from grammar.pauses import PAUSES, Pause, judgements, pauses_of
from grammar.said_wrong import corrected
from grammar.same_sort import fitting, is_value
from grammar.takeback_turns import Edited, Line, instead_of, judged, not_but, put
from grammar.tokens import Token

_MOST = 5
"""So often a line may take something back; more is no line a baker means."""
_TURNS = frozenset({"not", "instead"})
"""Small words by which one value is said to be meant and the other not."""


Scan = Callable[[Sequence[Lexeme]], Sequence[Token]]


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
    verdicts = judgements(lx, lexicon.takebacks)
    nots = [i for i, one in enumerate(lx) if one.word == "not"]
    insteads = [i for i, one in enumerate(lx) if one.word == "instead" and (i == 0 or lx[i - 1].text in PAUSES)]
    if not (pauses or nots or insteads or verdicts):
        return None
    line = Line(lx, [token for token in scan(lx) if token.kind != "FILL"], lexicon)
    edits: Iterator[Edited | None] = chain(
        (judged(line, pause) for pause in verdicts),
        (not_but(line, i) for i in nots),
        (instead_of(line, i) for i in insteads),
        (_replaced(line, pause) for pause in pauses),
    )
    return next((edit for edit in edits if edit is not None), None)


def _replaced(line: Line, pause: Pause) -> Edited | None:
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
    old, end = put(line, earlier, later)
    edits = [old]
    while not behind:  # "14 rolls 90 g, whoops, 15 rolls 95 g": what was said again with it goes with it
        more = _next_said(line, end, earlier, before)
        if more is None:
            break
        earlier, later = more
        old, end = put(line, earlier, later)
        edits.append(old)
    kept: list[Lexeme] = []
    done = 0
    for (start, stop), new in edits:
        kept += [*line.lexemes[done:start], *new]
        done = stop
    done += line.phrase(done, "aside")  # "20 is too many for us, make it 15"
    kept += line.lexemes[done : pause.start]
    end += behind + _closes(line, pause, end + behind, tokens[later])
    return [*kept, *line.lexemes[end:]], line.lexemes[pause.start : end]


def _closes(line: Line, pause: Pause, end: int, later: Token) -> bool:
    """Whether the sign at `end` only closes what the pause opened: a bracket, or the comma of "saturday, no, sunday, at
    8", which would part the day from its hour."""
    after = line.lexemes[end].text if end < len(line.lexemes) else ""
    opened = any(one.text == "(" for one in line.lexemes[pause.start : pause.end])
    return (after == ")" and opened) or (after == "," and later.quantity is None and later.kind != "TERM")


def _next_said(line: Line, end: int, earlier: int, before: Sequence[int]) -> tuple[int, int] | None:
    """The value right behind what was put in place, and the one it stands for, where it was said before too."""
    later = line.at(end)
    if later is not None and line.tokens[later].ids("link"):
        later = later + 1 if later + 1 < len(line.tokens) else None
    if later is None or not is_value(line.tokens[later]):
        return None
    rest = [k for k in before if k > earlier]
    again = fitting(line.tokens, rest, later, line.lexicon)
    return (again, later) if again is not None and line.tokens[again].kind == line.tokens[later].kind else None
