"""The phrases of a line as each kind of request sees them."""

from __future__ import annotations

from dataclasses import replace

from grammar.aspects import marked
from grammar.bidding import bidden
from grammar.frames import Frame
from grammar.idle import kept_as_said
from grammar.lexicon import Lexicon, patterns_of
from grammar.neighbours import Laid
from grammar.phrases import Phrase, phrases
from grammar.scanner import scan
from grammar.tokens import Token, still_said


class Cuts:
    """The phrases of a line as each frame sees them.

    A phrase of several words that means something to one topic may only hide words that mean something to another
    ("no salt" is a fault's cause and a baker's wish): a frame that does not know the whole sees its words. Where the
    frame knows it as the name of a figure ("hydration starter"), both ways of cutting are tried.
    """

    def __init__(
        self, text: str, lexicon: Lexicon, tokens: tuple[Token, ...], pieces: tuple[Phrase, ...], in_hand: bool
    ) -> None:
        self._text, self._lexicon, self._in_hand = text, lexicon, in_hand
        self._laid: dict[tuple[frozenset[str], frozenset[str], bool], Laid] = {
            (frozenset(), frozenset(), False): Laid(pieces)
        }
        self._cuts: dict[frozenset[str], _Cut] = {frozenset(): _Cut(tokens)}

    def for_frame(self, frame: Frame) -> tuple[Laid, ...]:
        skip: frozenset[str] = frozenset()
        for _ in range(4):
            strange = {phrase for phrase, means in self._cut(skip).doubtful if means.isdisjoint(frame.patterns)}
            if strange <= skip:
                break
            skip |= strange
        figures = self._cut(skip).figures
        cuts = [skip, skip | figures] if figures else [skip]
        return tuple(self._phrases(one, frame) for one in cuts)

    def _cut(self, skip: frozenset[str]) -> _Cut:
        if skip not in self._cuts:
            tokens = scan(self._text, self._lexicon, skip)
            self._cuts[skip] = _Cut(bidden(tokens, self._text, self._lexicon, self._in_hand))
        return self._cuts[skip]

    def _phrases(self, skip: frozenset[str], frame: Frame) -> Laid:
        cut = self._cut(skip)
        small = frozenset(phrase for phrase, means in cut.maybe_small if means.isdisjoint(frame.patterns))
        every = frame.takes_rest
        if (skip, small, every) not in self._laid:
            tokens = tuple(_made_small(t) if t.phrase in small else t for t in cut.tokens)
            if every:
                tokens = kept_as_said(tokens)
            text = still_said(self._text, tokens)
            self._laid[skip, small, every] = Laid(marked(phrases(tokens), text, self._lexicon))
        return self._laid[skip, small, every]


_SMALL = {"link": "LINK", "filler": "FILL", "negation": "NEG"}
_GENERAL = frozenset({*_SMALL, "ask", "act", "unit"})


class _Cut:
    """One way of cutting a line into tokens.

    doubtful: the phrases of several words that mean something to some kinds of request only, each with the patterns
    it fits; figures: those that name a figure; maybe_small: small words ("into") that may mean more, each with the
    patterns that more fits.
    """

    __slots__ = ("doubtful", "figures", "maybe_small", "tokens")

    def __init__(self, tokens: tuple[Token, ...]) -> None:
        self.tokens = tokens
        several = [t for t in tokens if " " in t.phrase]
        self.doubtful = [
            (t.phrase, patterns_of(t.terms))
            for t in several
            if t.terms and not any(kind in _GENERAL for kind, _ in t.terms)
        ]
        self.figures = frozenset(t.phrase for t in several if all(kind == "cue" for kind, _ in t.terms))
        self.maybe_small = [
            (t.phrase, patterns_of(tuple(term for term in t.terms if term[0] not in _SMALL)))
            for t in tokens
            if t.kind == "TERM" and _may_be_small({kind for kind, _ in t.terms})
        ]


def _may_be_small(kinds: set[str]) -> bool:
    return bool(kinds & _SMALL.keys()) and not kinds & (_GENERAL - _SMALL.keys())


def _made_small(token: Token) -> Token:
    kind = next(_SMALL[kind] for kind in ("link", "negation", "filler") if any(k == kind for k, _ in token.terms))
    return replace(token, kind=kind, terms=tuple(term for term in token.terms if term[0] in _SMALL))
