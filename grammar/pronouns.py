"""What "of it" stands for beside an amount: the thing named last before it, "starter is stiff, 300 g of it left"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.tokens import Token

_OF_IT = frozenset({"of it", "of that"})
_MEASURED = frozenset({"MASS", "VOLUME"})


def with_their_things(tokens: Sequence[Token]) -> list[Token]:
    """The tokens with the thing meant in the place of "of it"; where one is named right behind, that is the thing."""
    out = list(tokens)
    for i, token in enumerate(out[1:], start=1):
        if token.text.lower() not in _OF_IT or out[i - 1].kind not in _MEASURED:
            continue
        behind = next((one for one in out[i + 1 :] if one.kind != "FILL"), None)
        meant = next((one for one in reversed(out[: i - 1]) if _is_thing(one)), None)
        if meant is not None and (behind is None or not _is_thing(behind)):
            out[i] = replace(meant, text=token.text, start=token.start, end=token.end, repaired=None)
    return out


def _is_thing(token: Token) -> bool:
    return token.kind == "TERM" and bool(token.ids("ingredient"))
