"""Step one of the reader: a line of text to typed tokens, each with its place in the line.

Lexemes (digits, words, signs) first; slips repaired; then, from left to right, the longest thing that can be read:
clock and date, vocabulary with digits in it ("00 flour"), number with its unit, vocabulary, small words. Nothing is
thrown away: what is not known stays as JUNK.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from grammar import number_words
from grammar.comparisons import compared
from grammar.day_words import day_at
from grammar.dial import clock_of, hour_at
from grammar.fed_with import with_starters_named
from grammar.heads import shared_out
from grammar.hours import as_hours
from grammar.hours_of_day import told_by_the_day
from grammar.idle import with_idle, with_owned
from grammar.lexemes import Lexeme, lexemes_of
from grammar.lexicon import Lexicon
from grammar.mixed_units import merged
from grammar.moved_to import with_what_it_moves_to
from grammar.names import piece_ended, small_kind, thinner
from grammar.pronouns import with_their_things
from grammar.quantities import below_zero_at, is_signed, lone_unit_at, money_at, number_at, spelled_at
from grammar.rates import rated
from grammar.ratios import blend_at, parts_in_signs, parts_in_words
from grammar.row_beside import with_rows_beside
from grammar.takeback import taken_back
from grammar.tokens import Quantity, Token
from grammar.units import phrase_at


@lru_cache(maxsize=64)
def scan(text: str, lexicon: Lexicon, skip: frozenset[str] = frozenset()) -> tuple[Token, ...]:
    """The tokens of a line. Never raises; what is not known comes back as JUNK.

    skip: folded phrases not to be taken as such this time, so that the words in them are read one by one.
    """
    whole = lexemes_of(text, lexicon)
    lexemes, gone = taken_back(whole, lexicon, lambda line: merged(_tokens(line, text, lexicon)))
    found = merged(_tokens(lexemes, text, thinner(lexicon, skip) if skip else lexicon))
    said = with_rows_beside(with_starters_named(_with(found, gone, text), lexicon))
    told = rated(compared(with_what_it_moves_to(with_their_things(said))))
    idle = with_idle(told_by_the_day(as_hours(shared_out(told, lexicon))), lexicon)
    return with_owned(idle, lexicon)


def _tokens(lexemes: Sequence[Lexeme], text: str, lexicon: Lexicon) -> list[Token]:
    tokens: list[Token] = []
    i = 0
    while i < len(lexemes):
        token, used = _next(lexemes, i, lexicon, tokens)
        parts = token is not None and isinstance(token.value, tuple)  # of a feed, with what they are of
        measure = token is not None and token.quantity is not None and used > 1 and not parts
        turned = used > 2 and lexemes[i + used - 2].word == "of"  # "a spoon of tea of salt"
        if measure and not turned and _names_a_thing(lexemes[i + used - 1], lexicon):
            used -= 1  # "a stick of butter": the measure is named after what it measures
        if token is not None:
            part = lexemes[i : i + used]
            fixes = [x.repaired for x in part if x.repaired]
            moved = any(x.moved for x in part)
            tokens.append(
                replace(
                    token,
                    text=" ".join(x.text for x in part) if moved else text[part[0].start : part[-1].end],
                    start=part[0].start,
                    end=max(x.end for x in part),
                    repaired=" ".join(x.word for x in part if x.word) if fixes else None,
                    phrase=token.phrase or (part[0].word if token.kind == "JUNK" else ""),
                    glued=part[0].glued,
                )
            )
        i += used
    return tokens


def _names_a_thing(lexeme: Lexeme, lexicon: Lexicon) -> bool:
    return any(kind == "ingredient" for kind, _ in lexicon.phrases.get(lexeme.word, ()))


def _with(tokens: Sequence[Token], gone: Sequence[Lexeme], text: str) -> list[Token]:
    """The tokens and what was taken back, as words that say nothing, in the order of the line."""
    fallen = [Token("FILL", text[x.start : x.end], x.start, x.end, taken_back=True) for x in gone]
    return sorted([*tokens, *fallen], key=lambda token: token.start) if fallen else list(tokens)


def _next(lx: Sequence[Lexeme], i: int, lexicon: Lexicon, before: Sequence[Token]) -> tuple[Token | None, int]:
    head = lx[i]
    if head.kind in ("unread", "beyond"):
        return Token("JUNK", "", 0, 0, beyond=head.kind == "beyond"), 1
    if head.kind in ("clock", "hour", "date"):
        return clock_of(head), 1
    if head.kind == "leader":
        return _leader(lx, i), 1
    if head.kind in ("ratio", "pair"):
        return parts_in_signs(head), 1
    ratio = blend_at(lx, i) or parts_in_words(lx, i, lexicon, before)
    if ratio:
        return ratio
    lone = lone_unit_at(lx, i, lexicon, before)
    if lone:
        return lone
    price = money_at(lx, i, lexicon)
    if price:
        return price
    below = below_zero_at(lx, i, lexicon, before)
    if below:
        return below
    share = number_words.one_of_many([x.word or x.text for x in lx[i : i + 6]])
    if share is not None:
        quantity = Quantity(share.value, "num", None, share.value, fraction=True)
        return Token("NUM", "", 0, 0, quantity=quantity), share.words
    said = hour_at(lx, i, before, lexicon) or day_at(lx, i, before)
    if said:
        return said
    phrase = phrase_at(lx, i, lexicon)
    if head.kind == "number" or (head.kind == "mark" and head.text in "-+" and is_signed(lx, i)):
        if phrase and phrase[1] > 1 and not _is_unit_only(phrase[0]):
            return phrase
        return number_at(lx, i, lexicon, before)
    if head.kind == "word":
        in_words = spelled_at(lx, i, lexicon, before, phrase[1] if phrase else 0)
        if in_words:
            return in_words
        if phrase:
            return phrase
        if head.word in lexicon.units and before and before[-1].kind == "LINK":
            return Token("TERM", "", 0, 0, terms=(("unit", head.word),), units=lexicon.units[head.word]), 1
        if head.word in lexicon.units and head.word not in lexicon.common:
            return Token("TERM", "", 0, 0, terms=(("unit", head.word),), units=lexicon.units[head.word]), 1
        ends = piece_ended(head.word, lexicon) if before and before[-1].kind == "NUM" else ()
        return Token("TERM" if ends else "JUNK", "", 0, 0, terms=ends), 1
    terms = lexicon.phrases.get(head.text)
    if terms and head.text not in "-:/":  # "@", "&", "=": small words in one sign
        return Token(small_kind(terms), "", 0, 0, terms=terms), 1
    return Token("MARK", "", 0, 0, value=head.text), 1


def _leader(lx: Sequence[Lexeme], i: int) -> Token:
    """A row of dots: between a name and its figure it only leads the eye, anywhere else it is a pause."""
    leads = 0 < i < len(lx) - 1 and lx[i - 1].kind in ("word", "number") and lx[i + 1].kind == "number"
    return Token("FILL" if leads else "MARK", "", 0, 0, value=".")


def _is_unit_only(token: Token) -> bool:
    return bool(token.terms) and all(kind == "unit" for kind, _ in token.terms)
