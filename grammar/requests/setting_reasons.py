"""What the baker goes by from now on, told with its reason: "my heart, so salt's always 1.6 % from now on"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from grammar.kit import Told, told
from grammar.kit_habits import BY_HABIT
from grammar.lexicon import Lexicon
from grammar.scanner import scan
from grammar.tokens import Token

_CUT = re.compile(r"\s*(?:(?<!\d)[,;.]|[,;.](?!\d)|\b(?:so|because|cos|since)\b)\s*", re.I)


def told_beside_a_reason(text: str, lexicon: Lexicon) -> Told | None:
    """A share of the dough kept from now on, beside a clause without a figure that tells why."""
    for cut in _CUT.finditer(text):
        for part, why in ((text[cut.end() :], text[: cut.start()]), (text[: cut.start()], text[cut.end() :])):
            tokens = scan(part, lexicon)
            named = any(_SHARES & {*token.ids("cue"), *token.ids("kit")} for token in tokens)
            said = told(part, tokens, lexicon) if named and len(_figures(tokens)) == 1 else None
            if said is None or not said.habit or not {name for name, _ in said.values} <= set(BY_HABIT.values()):
                continue
            if not _figures(scan(why, lexicon)):
                return said
    return None


def _figures(tokens: Sequence[Token]) -> list[Token]:
    return [token for token in tokens if token.quantity is not None]


_SHARES = frozenset(BY_HABIT)
