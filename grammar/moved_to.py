"""A row moved up or down with the figure it is moved to behind a pause: "more water, say 70", "salt down, 1.5".

The figure is the new value, not the step ("2 % more water" is one): the word of more or less falls away, so that the
figure stands beside its noun. Only where the line says nothing else. A count is told from its step where it is known
how many there are (`grammar/requests/formula_counts.py`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.tokens import Token

_STEPS = frozenset({"greater", "fewer"})
_OWN_ROW = frozenset({"water", "salt", "starter", "hydration"})
_LEADS = frozenset({"make", "use", "add", "change"})
_WAYS = frozenset({"down", "up", "back", "down again", "up again"})
_SETTLES = frozenset({"to", "at"})


def with_what_it_moves_to(tokens: Sequence[Token]) -> list[Token]:
    """The tokens; where a word of more or less, its noun, a pause and one figure are the line, without that word."""
    out = list(tokens)
    said = [k for k, token in enumerate(out) if token.kind != "FILL" and token.kind != "MARK"]
    step = next((n for n, k in enumerate(said) if _STEPS & set(out[k].ids("cue"))), None)
    if step is None:
        return _where_it_goes(out, said)
    if not said[step + 1 :] or not all(_leads(out[k]) for k in said[:step]):
        return out
    figure = said[-1]
    thing = next((k for k in said[step + 1 : -1] if _is_row(out[k])), None)
    others = [k for k in said[step + 1 : -1] if k != thing and out[k].kind != "LINK"]
    if thing is None or others or out[figure].kind not in ("NUM", "PCT", "MASS"):
        return out
    after = thing
    between = out[after + 1 : figure]
    paused = any(token.kind == "MARK" for token in between) or any(_SETTLES & set(t.ids("link")) for t in between)
    if not paused:
        return out
    stepped = out[figure].kind == "MASS" and step > 0  # "put more water in, 70 g": so much more
    for k in (*(() if stepped else (said[step],)), *range(after + 1, figure)):
        out[k] = replace(out[k], kind="FILL", terms=())
    return out


def _where_it_goes(out: list[Token], said: Sequence[int]) -> list[Token]:
    """ "take the starter down a bit, 15", "water up, 68": without the verb and the way, which the figure says."""
    ways = (n for n, k in enumerate(said) if n and out[k].text.lower() in _WAYS)
    way = next((n for n in ways if _is_row(out[said[n - 1]])), None)
    said = [k for n, k in enumerate(said) if way is None or n <= way or out[k].kind != "JUNK"]  # "up a little"
    if way is None or len(said) != way + 2 or out[said[-1]].kind not in ("NUM", "PCT", "MASS"):
        return out
    leads = said[: way - 1]
    between = out[said[way] + 1 : said[-1]]
    if not any(token.kind == "MARK" for token in between) or not all(_bids(out[k]) for k in leads):
        return out
    for k in (*leads, *range(said[way], said[-1])):
        out[k] = replace(out[k], kind="FILL", terms=())
    return out


def _bids(token: Token) -> bool:
    """Whether a word before the row only says that it is moved: "bring", "take", "can you put"."""
    return _leads(token) or bool(
        token.ids("shift") or token.ids("filler") or {"lowered", "raised"} & set(token.ids("cue")) or token.ids("ask")
    )


def _leads(token: Token) -> bool:
    """Whether a word before it only bids: "put", "make it", "with"."""
    return token.kind == "LINK" or bool(
        _LEADS & set(token.ids("act")) or "moved" in token.ids("state") or "called_for" in token.ids("stance")
    )


def _is_row(token: Token) -> bool:
    return bool(token.ids("ingredient") or _OWN_ROW & set(token.ids("cue")))
