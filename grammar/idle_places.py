"""Words that only tell where, when or among whom: an occasion, a shop, what warms a room, somebody's name.

Each is told by what stands around it, whatever the word: it may be no word of English.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from grammar.lexicon import Lexicon, fold
from grammar.tokens import Token


def tells_where(tokens: Sequence[Token], i: int, lexicon: Lexicon) -> bool:
    """Whether an unknown word tells nothing of a dough by where it stands."""
    return (
        _of_an_occasion(tokens, i, lexicon)
        or _of_a_shop(tokens, i)
        or _warms(tokens, i, lexicon)
        or _of_praise(tokens, i, lexicon)
        or _a_name(tokens[i], tokens[i + 1 :])
    )


def _before(tokens: Sequence[Token], i: int) -> list[Token]:
    """The tokens before, nearest first, behind the last that is an unknown or a small word."""
    run = list(takewhile(lambda one: one.kind in ("JUNK", "FILL"), reversed(tokens[:i])))
    return [*run, *tokens[max(0, i - len(run) - 1) : i - len(run)]]


def _of_an_occasion(tokens: Sequence[Token], i: int, lexicon: Lexicon) -> bool:
    """ "for the jumble sale": English behind "for the" as far as the clause goes."""
    run = _before(tokens, i)
    led = bool(run) and "for" in run[-1].ids("link") and any(
        fold(one.text) in lexicon.small("owner", "article") for one in run[-2:-1]
    )  # fmt: skip
    behind = next((one for one in tokens[i + 1 :] if one.kind not in ("JUNK", "FILL")), None)
    ends = behind is None or behind.kind in ("MARK", "CLOCK", "DAY", "PART")
    return led and ends and lexicon.letter(fold(tokens[i].text)) not in ("", "f")


def _of_a_shop(tokens: Sequence[Token], i: int) -> bool:
    """ "1.20 a kilo in the Spar": where a thing with a price is sold."""
    run = _before(tokens, i)
    at = bool(run) and bool({"in", "at", "from"} & set(run[-1].ids("link")))
    return at and any(map(_priced, tokens, tokens[1:]))


def _priced(one: Token, behind: Token) -> bool:
    """Whether a token is money, or a bare figure before the unit it is for: "1.35 a kilo"."""
    unit = behind.kind in ("MASS", "VOLUME") and fold(behind.text).split()[0] in ("a", "per")
    return "MONEY" in (one.kind, behind.kind) or (one.kind == "NUM" and unit)


def _warms(tokens: Sequence[Token], i: int, lexicon: Lexicon) -> bool:
    """ "76F with the woodstove going": why it is as warm as was said."""
    run = _before(tokens, i)
    led = bool(run) and "with" in run[-1].ids("link") and any(one.kind == "FILL" for one in run)
    burns = any(fold(one.text) in lexicon.small("alight") for one in tokens[i : i + 2])
    return led and burns and any(one.kind in ("TEMP", "NUM") for one in tokens[:i])


def _of_praise(tokens: Sequence[Token], i: int, lexicon: Lexicon) -> bool:
    """ "gorgeous color": what is praised is no fault."""
    ends = i + 1 == len(tokens) or tokens[i + 1].kind == "MARK"
    before = fold(tokens[i - 1].text) if i else ""
    return ends and ("filler", "praise") in lexicon.phrases.get(before, ())


def _a_name(token: Token, after: Sequence[Token]) -> bool:
    """ "Conor's at training": somebody's name, and where he is or what he does."""
    named = token.text[:1].isupper() and token.text.endswith(("'s", "’s"))
    return named and bool(after) and (bool(after[0].ids("away")) or "at" in after[0].ids("link"))
