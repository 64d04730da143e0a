"""Figures put beside what they belong to: "1.8 on the salt" is 1.8 salt, and "8 % oil, not 6" is "8 % not 6 oil"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.lexicon import Lexicon
from grammar.telling_clause import telling_clauses
from grammar.tokens import Token

_FIGURES = frozenset({"NUM", "PCT", "MASS"})
_ROWS = frozenset({("cue", "salt"), ("cue", "water"), ("cue", "hydration"), ("cue", "starter"), ("cue", "flour")})
_SAID = ("kept", "said")
"""What only tells that the figure was given before: "72 water i said, not 68"."""


def with_rows_beside(tokens: Sequence[Token]) -> list[Token]:
    """The tokens; a figure "on" a row is of it; behind a row with its figure, another figure that is said not to be its
    own stands with it."""
    out = list(tokens)
    for n in range(1, len(out) - 1):
        behind = next((token for token in out[n + 1 :] if token.kind != "FILL"), None)
        of_it = out[n - 1].kind in _FIGURES and behind is not None and _is_row(behind)
        if of_it and "on" in out[n].ids("link"):
            out[n] = replace(out[n], kind="FILL", terms=())
    for n in range(2, len(out)):
        if out[n].kind == "NEG" and out[n - 1].kind == "MARK" and out[n - 2].kind in _FIGURES and _old(out, n):
            out[n - 1] = replace(out[n - 1], kind="FILL", terms=())  # "oil 4, not 6", "24, not 20"
    for n in range(len(out)):
        place = _figure_and_row(out, n) if out[n].kind == "NEG" else None
        old = _old(out, n)
        if place is None or old is None or out[old].kind not in ("NUM", out[place[0]].kind):
            continue
        figure, row = place
        between = [replace(token, kind="FILL", terms=()) for token in out[row + 1 : n]]
        return [*out[: figure + 1], out[n], out[old], *out[figure + 1 : row + 1], *between, *out[old + 1 :]]
    return out


_APART = frozenset({"NUM", "PCT", "MASS", "VOLUME"})
_OF_ALL = (
    "ask:how_much", "ask:how_many", "ask:what", "ask:when", "ask:is_it", "ask:should_i", "piece:*", "bread:*",
    "shape:*", "serving:*", "cue:pieces", "cue:dough", "cue:total", "cue:kitchen", "link:each", "link:per", "heat:*",
    "stock:*", "cue:limit", "cue:missing",
)  # fmt: skip
"""Beside these a figure by itself may be of the pieces, the whole, the room or the house, or is only asked after."""
_STEPS = ("cue:fewer", "cue:greater", "cue:points", "act:more")
_KINDS = ("cue:stiff", "cue:liquid_starter", "feeding:stiff")
"""What tells the kind of starter, whose own hydration the figure then is."""
_MORE = ("cue:fewer", "cue:greater")
_NO_PAUSE = frozenset(".;?!")


def with_figures_told_apart(
    tokens: Sequence[Token], text: str, lexicon: Lexicon, in_hand: bool
) -> tuple[Token, ...]:
    """The tokens with the one figure of a line right behind the one row it is of, however far apart they were said:
    "put some oats in, 150 g", "a poolish the night before, 30 %". A bare number only where more, less or "say" leads to
    it; nothing where the clause of the row only tells how something is.
    """
    if not in_hand or any(_means(token, _OF_ALL) for token in tokens):
        return tuple(tokens)
    for figure in range(len(tokens) - 1, 0, -1):
        row = _row_told_apart(tokens, figure, text, lexicon)
        if row is not None:
            own = _family(tokens[row])
            gone = {n for n, one in enumerate(tokens) if n != row and _is_row(one) and own & _family(one)}
            if tokens[row].ids("preferment"):  # "30 % of the flour" is its share
                gone |= {n for n in range(figure, len(tokens)) if "flour" in tokens[n].ids("cue")}
            kept = [replace(one, kind="FILL", terms=()) if n in gone else one for n, one in enumerate(tokens)]
            return (*kept[: row + 1], tokens[figure], *kept[row + 1 : figure], *kept[figure + 1 :])
    return tuple(tokens)


def _row_told_apart(tokens: Sequence[Token], figure: int, text: str, lexicon: Lexicon) -> int | None:
    """The row that a figure is of which a pause or a tail parts from it."""
    said = tokens[figure].quantity
    rows = [n for n in range(figure) if _is_row(tokens[n]) or tokens[n].ids("preferment")]
    if said is None or tokens[figure].kind not in _APART or not rows:
        return None
    row, stop = rows[-1], next((n for n in range(figure, len(tokens)) if tokens[n].kind == "MARK"), len(tokens))
    behind = [token for token in tokens[figure + 1 : stop] if "flour" not in token.ids("cue")]
    ahead = [token for token in tokens[:row] if token.kind != "FILL" and "of" not in token.ids("link")][-1:]
    between = tokens[row + 1 : figure]
    figures = any(one.quantity is not None for one in (*between, *ahead))
    other = any(_is_row(one) or _means(one, _STEPS) for one in behind) or any(_means(one, _KINDS) for one in between)
    if figures or other:
        return None
    marks = [n for n in range(row, figure) if tokens[n].kind == "MARK"]
    if marks and any(token.kind in ("TERM", "JUNK") for token in tokens[marks[-1] + 1 : figure]):
        return None  # a clause of its own, with its own thing
    pauses = {tokens[n].text.strip() for n in marks}
    told = any(one.start <= tokens[row].start < one.end for one in telling_clauses(text, lexicon))
    if told or pauses & _NO_PAUSE or not (pauses or any(token.ids("tail") for token in between)):
        return None
    led = any("about" in token.ids("link") for token in between) or any(_means(token, _MORE) for token in tokens)
    return row if led or said.fraction or tokens[figure].kind != "NUM" else None


def _means(token: Token, patterns: Sequence[str]) -> bool:
    return any(f"{kind}:{id}" in patterns or f"{kind}:*" in patterns for kind, id in token.terms)


def _family(token: Token) -> set[str]:
    """What a row is of, by the beginning of its names: two sugars, two butters."""
    return {id.partition("_")[0] for kind, id in token.terms if kind in ("ingredient", "preferment", "cue")}


def _figure_and_row(out: Sequence[Token], n: int) -> tuple[int, int] | None:
    """The figure and the row that stand before a place, nothing but a pause between."""
    row = n - 1
    while row > 0 and (out[row].kind in ("MARK", "FILL") or _SAID in out[row].terms):
        row -= 1
    if row < 1 or not _is_row(out[row]):
        return None
    figure = row - 1
    while figure > 0 and (out[figure].kind == "FILL" or "of" in out[figure].ids("link")):
        figure -= 1
    return (figure, row) if out[figure].kind in _FIGURES else None


def _is_row(token: Token) -> bool:
    return any(kind == "ingredient" or (kind, id) in _ROWS for kind, id in token.terms)


def _old(out: Sequence[Token], n: int) -> int | None:
    """The figure behind "not", where its clause ends with it."""
    behind = next((k for k in range(n + 1, len(out)) if out[k].kind != "FILL"), None)
    if behind is None or out[behind].kind not in _FIGURES:
        return None
    rest = [token for token in out[behind + 1 :] if token.kind != "FILL"]
    return behind if not rest or rest[0].kind == "MARK" else None
