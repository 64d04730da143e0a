"""What is running out in the house, told with how much of it there still is."""

from __future__ import annotations

from grammar.exchange import Weighed, weight_of
from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.levels import PLAINLY
from grammar.phrases import Phrase
from grammar.requests.stock import StockRequest, held_thing
from grammar.shell import part_of
from grammar.spoken import Spoken, fitting, spelled_out, spoken
from grammar.stance import ids_of, is_thing
from grammar.turns import END, LEAD

_WHAT = r"(?:(?:<hand:those>|our|of|(?:<hand:vessel>) of) )*(?P<what>[a-z ]+?)(?: (?:<hand:vessel>))?"
_MUCH = r"(?P<much>.+?)"
_BUT = r"(?:[ ,;:.]+(?:with|but|and|so|only|just))*[ ,;:.]+"
_IT_IS = r"(?: (?:<hand:to_be>))*"
_PLACE = r"(?:[ ,]+(?:<hand:kept_at>))*"
_LEFT = rf"(?: left{_PLACE})?"
_LOW = (
    rf"{LEAD}{_WHAT}{_IT_IS} (?:<hand:dwindled>){_PLACE}{_BUT}{_MUCH}{END}",
    rf"{LEAD}(?:(?:<hand:to_be>|im|were|weve|ive|i|we|got|just|only|theres) )*(?:<hand:dwindling>) {_WHAT}{_LEFT}"
    rf"{_PLACE}{_BUT}{_MUCH}{END}",
    rf"{LEAD}{_WHAT}(?: (?:<hand:to_be>))+ (?:<hand:down_to>) {_MUCH}{END}",
    rf"{LEAD}{_WHAT} (?:<hand:last_of>) {_MUCH}{END}",
    rf"{LEAD}(?:(?:<hand:to_be>|im|were|weve|ive|i|we|only) )*(?:<hand:down_to>) {_MUCH} of {_WHAT}{_PLACE}{END}",
    rf"{LEAD}(?:(?:theres|there is|ive|weve|i have|we have|got|i|we|have|only|just|about|maybe) )*{_MUCH} of {_WHAT}"
    rf"[ ,]+(?:and )?(?:<hand:kept_at>){END}",
)
"""Turns of speech for what is nearly gone, and for what is the last of it."""
_HAVE = (rf"{LEAD}how (?:much|many) {_WHAT} (?:<hand:held_asked>)(?: left)?{_PLACE}{END}",)
_BESIDE = frozenset({"filler", "stance", "limit", "cue", "stock", "tail", "so_far", "link", "job"})
"""Kinds of word that may stand beside the amount: guesses, "left", "at most"."""


def running_out(line: Line) -> Own | None:
    """What is there of one thing that runs out, or is asked after; None where no thing of it, or no amount, is said."""
    if "\n" in line.text.strip():
        return None
    said = spoken(spelled_out(line.text), line.lexicon)
    return _asked(line, said) or _told(line, said)


def _asked(line: Line, said: Spoken) -> Own | None:
    """How much there is of one thing."""
    for hit in fitting(_HAVE, said, line.lexicon):
        thing = _one_thing(part_of(line, said.group(hit, "what")).phrases)
        if thing is not None:
            return Own(StockRequest(listed=True, item=ids_of(thing)), PLAINLY)
    return None


def _told(line: Line, said: Spoken) -> Own | None:
    for hit in fitting(_LOW, said, line.lexicon) if not line.text.rstrip().endswith("?") else ():
        thing = _one_thing(part_of(line, said.group(hit, "what")).phrases)
        much = _one_amount(part_of(line, said.group(hit, "much")).phrases)
        if thing is not None and much is not None:
            return Own(StockRequest((held_thing(thing, much),)), PLAINLY)
    return None


def _one_thing(phrases: tuple[Phrase, ...]) -> Phrase | None:
    """The one thing named by these words, which name nothing else; a starter is kept, not stocked."""
    words = [one for one in phrases if one.kind not in ("link", "sep")]
    if len(words) != 1 or not is_thing(words[0]) or "starter" in words[0].ids("cue"):
        return None
    return words[0]


def _one_amount(phrases: tuple[Phrase, ...]) -> Weighed | None:
    """The one amount these words give, beside guesses."""
    found = [one for one in phrases if one.kind == "amount"]
    rest = (one for one in phrases if one.kind == "label")
    if len(found) != 1 or any(not any(kind in _BESIDE for kind, _ in one.terms) for one in rest):
        return None
    much = weight_of(found[0])
    return much if much is not None and much.dim in ("mass", "volume") else None


FRAME = Frame(StockRequest, "stock", never_by_slots, reads=running_out, settles=True)
