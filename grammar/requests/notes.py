"""Notes to keep: whatever stands behind "note:", "log:", "remember that" is taken whole, word for word."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Bound, Frame


@dataclass(frozen=True, slots=True)
class NoteRequest:
    """note: the rye starter was slow today
    log: dough 24.5 after mixing
    jot down that the second tray browned first
    remember that the boathouse oven runs hot

    words: what is to be kept, as typed; "" where nothing stands behind the mark.
    """

    words: str


_POLITE = (
    r"(?:(?:please|ok|okay|oh|and|also|hey|so|can you|could you|would you|will you|can i|let me|id like to|quick)"
    r"[\s,]+)*"
)
_PLACE = r"(?:\s+(?:in|into|to|on)\s+(?:my|the|our)\s+(?:notes?|notebook|log|logbook|book|diary|journal|record))"
_NOUN = (
    r"(?:(?:bake|baking|bakers?|dough|starter|kitchen|quick|new|another|one more|a)\s+)?"
    r"(?:notes?|log|log\s*book|log\s+entry|memo|diary|journal|remark|reminder|record|for the record|n\.?b\.?|jot|"
    r"notes?\s+to\s+(?:my)?self|to\s+self|(?:notes?\s+)?for\s+(?:the\s+)?next\s+time|next\s+time|remember|"
    r"nota\s+bene|ntoe|noet|nte|ote)"
)
_VERB = (
    r"(?:(?:make|take|add|keep|leave|save|put|write|do)\s+(?:me\s+)?(?:a|one|another|this|the)?\s*(?:quick\s+|short\s+)?"
    r"note(?:\s+to\s+(?:my)?self)?(?:\s+of\s+(?:this|it|that)(?=\s*[:,]))?(?:\s+(?:saying|that says|of|to))?|"
    r"(?:jot|write|note|put|mark|get|scribble|take)\s+(?:this\s+|that\s+|it\s+)?down|"
    r"(?:write|put|add|enter)\s*(?:this|it|that)?" + _PLACE + r"|"
    r"(?:bear|keep)\s+(?:it\s+)?in\s+mind|take\s+note|for\s+the\s+record|note\s+to\s+(?:my)?self|"
    r"don.?t\s+(?:let\s+me\s+)?forget(?=\s*(?:that|to|:)))"
)
_SIGN = r"(?:\s*[:;=]+\s*|\s+[-–—]+\s+|\s*,\s+|\s*[–—]\s*|\s*\.\.+\s*)"
_AHEAD = re.compile(
    rf"\s*{_POLITE}(?:"
    rf"{_NOUN}{_PLACE}?{_SIGN}(?:that\s+)?"
    rf"|(?:{_VERB}){_PLACE}?(?:{_SIGN}|\s+)(?:that\s+)?"
    rf"|(?:note|log|record|remember|recall)\s+(?:that\s+|(?:this|it)\s*[:=]+\s*)"
    rf"|remember\s+(?=to\s)"
    rf"|remember\s+(?=(?:the|this|these|today|it|we|how|last|next|for|when)\b[^\d]*$)"
    rf"|(?:note|log|jot|memo)\s+(?!(?:about|on|from|of|entries|book|in)\b)"
    rf")(?P<words>\S.*)",
    re.I | re.S,
)
_EMPTY = re.compile(
    rf"\s*{_POLITE}(?:(?:note|log|jot|memo|jot\s+down|note\s+down|remember|record)\s*[:;=,]+|note|jot\s+down|"
    r"(?:make|take|add)\s+a\s+note|write\s+(?:it|that|this)\s+down|remember\s+that|note\s+that|note\s+down)[\s.!]*",
    re.I,
)
_BEHIND = re.compile(
    r"\s*(?P<words>\S.*?)\s*[,;.–—-]+\s*(?:please\s+)?(?:note\s+(?:that|it|this)(?:\s+down)?|"
    r"(?:make|take)\s+(?:a\s+)?note(?:\s+of\s+(?:that|it|this))?|(?:write|jot|put)\s+(?:that|it|this)\s+down|"
    r"log\s+(?:that|it|this)|remember\s+(?:that|it|this)|keep\s+(?:that|it)\s+in\s+mind)(?:\s+please)?[\s.!]*",
    re.I,
)
_AMOUNT_LINE = re.compile(r"^\s*[-•*]?\s*[\d¼½¾⅓⅔]", re.M)


def _taken(text: str) -> NoteRequest | None:
    """The note that a line is; None where it is something else, a recipe with notes on top among it."""
    if len(_AMOUNT_LINE.findall(text)) > 1 and "\n" in text.strip():
        return None
    if _EMPTY.fullmatch(text):
        return NoteRequest("")
    found = _AHEAD.fullmatch(text) or _BEHIND.fullmatch(text)
    if found is None:
        return None
    words = re.sub(r"^(?:this|it|that)\s*[:=]+\s*(?=\S)", "", found["words"].strip(), flags=re.I)
    asked = words.endswith("?") and not re.match(rf"\s*{_NOUN}\s*:", text, re.I)
    return None if asked else NoteRequest(words)


def _build(bound: Bound) -> NoteRequest | None:
    """Never from the words of a line: a note is taken whole or not at all."""
    return None


FRAME = Frame(NoteRequest, "note", _build, whole=_taken, needs=("act:note",), help_topic="notes")
