"""Notes to keep: whatever stands behind "note:", "log:", "remember that" is taken whole, word for word."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grammar.clause_begins import led_in, words_of
from grammar.frames import Bound, Frame, Line, Own
from grammar.kit import told
from grammar.lexicon import Lexicon
from grammar.scanner import scan
from grammar.tokens import Token


@dataclass(frozen=True, slots=True)
class NoteRequest:
    """note: the rye starter was slow today
    log: dough 24.5 after mixing
    jot down that the second tray browned first
    remember that the boathouse oven runs hot

    words: what is to be kept, as typed; "" where nothing stands behind the mark.
    """

    words: str


CERTAIN = 100.0
"""A note is nothing else: its words are not read."""
_SIGNS = frozenset(":;=-,.")
_IN_MIND = frozenset({"remember", "mind", "forget"})
"""Words of a head that asks for something to be gone by, not for its words to be kept."""
_ASKS_BACK = frozenset({"about", "on", "from", "of", "in", "for", "with"})
"""Small words behind "notes" that look them up instead: "note about the rye"."""


_A_SAYING = 2
"""Words that say something at least."""


def reads(line: Line) -> Own | None:
    """The note that a line is; None where it is something else, a recipe with notes on top among it."""
    if line.text.strip().count("\n") and _listed(line.text):
        return None
    words = _ahead(line)
    if words is None:
        words = _behind(line)
    if words is None:
        words = _of_another_time(line)
    return None if words is None else Own(NoteRequest(words), CERTAIN)


def _listed(text: str) -> bool:
    """Whether several lines begin with an amount: a list of ingredients."""
    starts = (one.strip().lstrip("-•* ")[:1] for one in text.split("\n"))
    return sum(1 for one in starts if one.isnumeric()) > 1


def _ahead(line: Line) -> str | None:
    """The words behind a head of a note."""
    tokens = line.tokens
    at = next((i for i, one in enumerate(tokens) if not _polite(one)), len(tokens))
    if at == len(tokens):
        return None
    head = tokens[at]
    kind = next(iter(head.ids("jot")), None)
    if kind is None:
        return None
    signed, place = _sign(tokens, at + 1)
    said_that = place < len(tokens) and tokens[place].text.lower() in ("that", "this", "it")
    if said_that:
        more, beyond = _sign(tokens, place + 1)
        signed = signed or more or tokens[place].text.lower() == "that"
        place = beyond if more or tokens[place].text.lower() == "that" else place
    words = _text(line, tokens, place)
    colon = at + 1 < len(tokens) and tokens[at + 1].text == ":"
    said_of = said_that or head.text.lower().endswith(" that")
    bids = kind == "remember" or (said_of and not colon) or _IN_MIND & set(head.text.lower().split())
    if bids and told(words, scan(words, line.lexicon), line.lexicon) is not None:
        return None  # kept as what it tells of the kitchen
    if not words:
        return "" if kind == "down" or signed or (kind == "note" and head.text.lower() == "note") else None
    if words.endswith("?") and not (colon and signed):
        return None
    if signed or kind == "down":
        return words
    after = tokens[at + 1]
    if set(after.ids("link")) & _ASKS_BACK:
        return words if _told_behind(tokens[at + 2 :], head) else None
    if kind == "note":
        return None if after.ids("kept") else words
    if kind == "remember":
        figures = any(one.quantity is not None for one in tokens[at + 1 :])
        bid = "to" in after.ids("link")
        return words if bid or not figures else None
    return None


def heads_a_note(text: str, lexicon: Lexicon) -> bool:
    """Whether a line begins with a head of a note."""
    head = next((one for one in scan(text, lexicon) if not _polite(one)), None)
    return head is not None and bool(head.ids("jot"))


def _told_behind(tokens: Sequence[Token], head: Token) -> bool:
    """Whether behind what a note is about, set off by a sign, it says something ("note on the rye: slow today"); a
    comma sets off one note alone."""
    signs = {":", "-", "–", "—", ";", "."} | ({","} if not head.text.lower().endswith("s") else set())
    at = next((n for n, one in enumerate(tokens) if one.kind == "MARK" and one.text in signs), len(tokens))
    return sum(one.kind != "MARK" for one in tokens[at + 1 :]) >= _A_SAYING


def _polite(token: Token) -> bool:
    """Small words and signs before the head of a note: "please", "oh, and", "can you"."""
    return token.kind in ("FILL", "MARK") or "and" in token.ids("link")


def _sign(tokens: Sequence[Token], at: int) -> tuple[bool, int]:
    """Whether a sign stands there that sets a note off, and the place behind it."""
    place = at
    while place < len(tokens) and tokens[place].kind == "MARK" and tokens[place].text in (*_SIGNS, "–", "—", "…"):
        place += 1
    return place > at, place


def _text(line: Line, tokens: Sequence[Token], place: int) -> str:
    """The line as typed from a token on, its signs in front too where they belong to what follows ("-5 °C")."""
    end = tokens[place - 1].end if place else 0
    return line.text[end:].strip()


def _behind(line: Line) -> str | None:
    """The words before "…, note that": the same order after what it is about."""
    tokens = [one for one in line.tokens if not (one.kind == "MARK" and one.text in ".!")]
    while tokens and tokens[-1].kind == "FILL":
        tokens.pop()
    if len(tokens) < 3 or not tokens[-1].ids("jot_behind"):
        return None
    before = tokens[-2]
    at = line.text.rfind(before.text, 0, tokens[-1].start)
    if before.kind != "MARK" or before.text not in (*_SIGNS, "–", "—"):
        return None
    words = line.text[:at].strip()
    if told(words, scan(words, line.lexicon), line.lexicon) is not None:
        return None  # it is kept as what it tells of the kitchen
    return None if words.endswith("?") or not words else words


def _of_another_time(line: Line) -> str | None:
    """A line that says of a dough in hand how it is to be the next time: a note, and no change of this one."""
    said = led_in(words_of(line.text), line.lexicon)
    held = {" ".join(said[:_NEXT]), " ".join(said[-_NEXT:])} & line.lexicon.small("another_time")
    asks = line.text.rstrip().endswith("?") or any(token.ids("ask") for token in line.tokens)
    if not held or asks or not line.context.has_bake or len(said) < _NEXT + _SAYS_SO_MUCH:
        return None
    planned = any(token.kind in ("CLOCK", "DAY", "PART") for token in line.tokens)
    return None if planned else line.text.strip()


_NEXT = 2
_SAYS_SO_MUCH = 2
"""Words beside "next time" that say something of it."""


def _build(bound: Bound) -> NoteRequest | None:
    """Never from the words of a line: a note is taken whole or not at all."""
    return None


FRAME = Frame(NoteRequest, "note", _build, reads=reads, first=True, needs=("slot:none",), help_topic="notes")
