"""Which words of everyday English may be passed over: known as words, unknown to the trade, and standing where they
cannot change a figure. Everything else that no vocabulary has is owned up to as not read.

What may be passed over depends on what a word mostly means (the letters of the list of English, see `Lexicon.letter`)
and on what it stands beside: a thing right beside an amount, or behind "with", "without", "add", could be an ingredient
or what is counted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.idle_places import tells_where
from grammar.lexicon import Lexicon, fold
from grammar.tokens import Token

_BINDS = frozenset({"with", "of", "into"})
"""Small words behind which stands what goes into the dough, or what an amount is of."""
_ACTS_ON = frozenset({"change", "add", "use", "bid"})
_THINGS = frozenset({"ingredient", "bread", "piece", "topping", "bath", "flour_type", "unit"})
"""What an unknown word before it may say more of: "malted rolls", "sprouted flour"."""
_AMOUNTS = frozenset({"NUM", "PCT", "MASS", "VOLUME"})


def with_idle(tokens: Sequence[Token], lexicon: Lexicon) -> tuple[Token, ...]:
    """The tokens with each unknown word marked that may be passed over; who says it says nothing of a dough."""
    out: list[Token] = []
    for i, token in enumerate(tokens):
        if fold(token.text) in lexicon.small("who_says") and i and "people" in tokens[i - 1].ids("filler"):
            token = replace(token, kind="FILL", terms=(("filler", "filler"),))
        elif token.kind == "JUNK" and (
            _stands_aside(tokens, i, lexicon)
            or tells_where(tokens, i, lexicon)
            or _may_pass(out, token, tokens[i + 1 :], lexicon)
        ):
            token = replace(token, idle=True)
        out.append(token)
    return tuple(out)


def _stands_aside(tokens: Sequence[Token], place: int, lexicon: Lexicon) -> bool:
    """Whether a word but greets where the line begins, or rounds a clause off where one ends: it tells nothing."""
    said = lexicon.asides.get(fold(tokens[place].text), ())
    ends = place + 1 == len(tokens) or tokens[place + 1].kind == "MARK"
    return (place == 0 and ("hand", "polite") in said) or (ends and place > 0 and ("hand", "tag") in said)


def with_owned(tokens: Sequence[Token], lexicon: Lexicon) -> tuple[Token, ...]:
    """The tokens with the amount of an unknown thing made as unknown as the thing: "with 30 g frobs", ", 12 % wibbles".

    Only where the amount is brought in for something: what is "of 80 g" or "x 80 g" has its owner before it.
    """
    out = list(tokens)
    for i, token in enumerate(tokens):
        if token.kind not in ("MASS", "VOLUME", "PCT") or not _brings_in(tokens, i):
            continue
        at = _thing_at(tokens, i)
        thing = tokens[at] if at < len(tokens) else None
        further = tokens[at + 1] if at + 1 < len(tokens) else None
        named = further is not None and any(kind in _THINGS for kind, _ in further.terms)
        if thing is not None and not named and _unknown_thing(thing, lexicon):
            out[i] = replace(token, kind="JUNK", quantity=None, units=())
            out[at] = replace(thing, kind="JUNK", terms=(), repaired=None, idle=False)
    return tuple(out)


def brought_in(tokens: Sequence[Token]) -> tuple[str, ...]:
    """Each unknown thing brought in with an amount, and the amount, as typed: no reading may pass them over."""
    at = [i for i, token in enumerate(tokens) if token.kind == "JUNK" and token.text[:1].isdigit()]
    things = ((tokens[i].text, next((t.text for t in tokens[i + 1 :] if t.kind == "JUNK"), "")) for i in at)
    return tuple(text for pair in things for text in pair if text)


def _thing_at(tokens: Sequence[Token], i: int) -> int:
    """Where the thing stands that an amount is of, behind "of" and whose it is: "40 g of my gran's frobs"."""
    at = i + 1
    of = at < len(tokens) and "of" in tokens[at].ids("link")
    at += of
    while of and at < len(tokens) and (tokens[at].kind == "FILL" or tokens[at].text.lower().endswith(("'s", "’s"))):
        at += 1
    return at


def _unknown_thing(token: Token, lexicon: Lexicon) -> bool:
    mended = token.repaired is not None and not any(kind in _THINGS for kind, _ in token.terms)
    loose = (mended or (token.kind == "JUNK" and not token.idle)) and not token.glued
    return loose and token.text.isalpha() and len(token.text) >= _A_WORD and fold(token.text) not in lexicon.common


def _brings_in(tokens: Sequence[Token], i: int) -> bool:
    """Whether an amount begins the line or stands behind a comma or a word that puts something in."""
    last = next((token for token in reversed(tokens[:i]) if token.kind != "FILL" and not token.idle), None)
    if last is None or (last.kind == "MARK" and last.text in ",;."):
        return True
    return bool(set(last.ids("link")) & {"with", "and"} or _ACTS_ON & set(last.ids("act")))


_A_WORD = 4
"""Letters of an unknown word that is taken for a thing; a shorter one is as soon a slip."""


def kept_as_said(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """The tokens for free words (what a timer is for): harmless words belong to them too, but for what a comma cuts off
    before anything else is said."""
    front = next((i for i, token in enumerate(tokens) if token.kind != "FILL" and not token.idle), len(tokens))
    cut_off = front if front < len(tokens) and tokens[front].kind == "MARK" and tokens[front].text in ",;" else 0
    return tuple(replace(t, idle=False) if t.idle and i >= cut_off else t for i, t in enumerate(tokens))


def _may_pass(before: Sequence[Token], token: Token, after: Sequence[Token], lexicon: Lexicon) -> bool:
    word = token.phrase or fold(token.text)
    letter = "" if token.glued else lexicon.letter(word)
    ahead = next((one for one in after if one.kind != "FILL"), None)
    thing_ahead = ahead is not None and any(kind in _THINGS for kind, _ in ahead.terms)
    if word in lexicon.small("lead") and ahead is not None and not thing_ahead and _last(before) is None:
        return True  # "fine, 20 then" says how the talk stands
    if letter in ("", "f", "k") or word in lexicon.weighty:
        return False
    if letter == "r":
        return True
    if letter == "j" and thing_ahead:
        return False
    if _of_an_amount(before) or _denied(before):
        return thing_ahead and letter == "w"
    if letter in ("w", "p"):
        return True
    return not (_behind_a_link(before) or (letter != "j" and _before_its_amount(before, ahead)))


def _of_an_amount(before: Sequence[Token]) -> bool:
    """Whether an amount stands right before, with at most "of" or "of the" between."""
    for token in reversed(before):
        if token.kind in _AMOUNTS:
            return True
        if token.kind != "FILL" and "of" not in token.ids("link"):
            return False
    return False


def _denied(before: Sequence[Token]) -> bool:
    last = _last(before)
    return last is not None and last.kind == "NEG"


def _behind_a_link(before: Sequence[Token]) -> bool:
    last = _last(before)
    return last is not None and bool(_BINDS & set(last.ids("link")) or _ACTS_ON & set(last.ids("act")))


def _before_its_amount(before: Sequence[Token], ahead: Token | None) -> bool:
    """Whether it stands as the name of the amount that follows, as in a list: "quark 150 g", ", torch 2, ..."."""
    if ahead is None or ahead.kind not in _AMOUNTS:
        return False
    last = before[-1] if before else None
    return ahead.kind != "NUM" or last is None or last.kind == "MARK" or last.kind in _AMOUNTS


def _last(before: Sequence[Token]) -> Token | None:
    """The word before, small words and words passed over left out."""
    return next((token for token in reversed(before) if token.kind != "FILL" and not token.idle), None)
