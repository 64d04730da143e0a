"""Figures put beside what they belong to: "1.8 on the salt" is 1.8 salt, and "8 % oil, not 6" is "8 % not 6 oil"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

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
        if out[n].kind == "NEG" and out[n - 1].kind == "MARK" and _figures_row(out, n - 2) and _old(out, n):
            out[n - 1] = replace(out[n - 1], kind="FILL", terms=())  # "oil 4, not 6"
    for n in range(len(out)):
        place = _figure_and_row(out, n) if out[n].kind == "NEG" else None
        old = _old(out, n)
        if place is None or old is None or out[old].kind not in ("NUM", out[place[0]].kind):
            continue
        figure, row = place
        between = [replace(token, kind="FILL", terms=()) for token in out[row + 1 : n]]
        return [*out[: figure + 1], out[n], out[old], *out[figure + 1 : row + 1], *between, *out[old + 1 :]]
    return out


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


def _figures_row(out: Sequence[Token], figure: int) -> bool:
    """Whether a figure stands right behind its row."""
    before = next((token for token in out[figure - 1 :: -1] if token.kind != "FILL"), None) if figure > 0 else None
    return out[figure].kind in _FIGURES and before is not None and _is_row(before)


def _old(out: Sequence[Token], n: int) -> int | None:
    """The figure behind "not", where its clause ends with it."""
    behind = next((k for k in range(n + 1, len(out)) if out[k].kind != "FILL"), None)
    if behind is None or out[behind].kind not in _FIGURES:
        return None
    rest = [token for token in out[behind + 1 :] if token.kind != "FILL"]
    return behind if not rest or rest[0].kind == "MARK" else None
