"""A card of the dough in hand, to be handed on: as plain text, Markdown, recipe data (JSON-LD) or a table (CSV)."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Bound, Frame, Line, Own
from grammar.requests.recall import plain


@dataclass(frozen=True, slots=True)
class CardRequest:
    """print a card
    write the card to rolls.txt
    card as json

    format: "text", "markdown", "json" or "csv" where said; name: the file's name as typed.
    """

    format: str | None = None
    name: str | None = None


CERTAIN = 14.0
_FORMATS = (
    ("json", r"json(?:[ -]?ld)?|recipe data|schema(?:\.org)?|machine readable|structured data"),
    ("csv", r"csv|spread ?sheet|excel|table file|comma separated"),
    ("markdown", r"markdown|md"),
    ("text", r"plain text|text|txt"),
)
_ENDINGS = {"json": "json", "jsonld": "json", "csv": "csv", "md": "markdown", "markdown": "markdown", "txt": "text",
            "text": "text"}  # fmt: skip
_FILE = re.compile(r"(?P<name>[^\s\"'“”]*[^\s\"'“”.]\.(?P<ending>jsonld|json|csv|md|markdown|txt|text))\b", re.I)
_NAMED = re.compile(r"\b(?:named|called|as|to|into|in) (?:a )?(?:file )?[\"'“](?P<name>[^\"'”]{1,80})[\"'”]", re.I)
_CARD = r"(?:(?:recipe|dough|formula|bake|baking|rolls?|bread) )?(?:cards?|print ?outs?|hand ?outs?|recipe sheet)"
_CARD = rf"(?:(?:a|an|the|my|our|json|csv|markdown|plain|text|short|new) )*{_CARD}"
_DEED = (
    r"(?:print|write|make|save|export|create|give me|show me|produce|output|put|do|get|generate|store|draw up|hand me|"
    r"send)"
)
_ASKS = re.compile(
    rf"(?:(?:please|can you|could you|now|ok|so|i want|i need|id like|lets|let me have) )*"
    rf"(?:(?:{_DEED})"
    r"(?: (?:me|us|out|up|off|down|it|this|that|the|a|an|my|our|as|to|on|onto|of|into|new|another|one))* "
    rf"{_CARD}|{_CARD}"
    rf"|(?:export|save|print out|write out|print off|print|write)"
    rf"(?: (?:it|this|that|the|my|our|out|dough|recipe|formula|rolls?|bread|bake|card))*)"
    r"(?P<rest>(?: .*)?)"
)
_PRINTS = re.compile(
    r"print|(?:export|print out|print off)\b.*|(?:print|save|write out) (?:the |my |this )?(?:recipe|formula)"
)
_REST = re.compile(
    r"(?:(?:as|to|in|into|of|for|on|a|an|the|my|our|this|that|it|me|us|please|file|format|form|called|named|and|"
    r"dough|recipe|formula|rolls?|rings?|bread|loaf|loaves|buns?|bake|card|handing|hand|out|friend|friends|others|"
    r"someone|everyone|club|neighbours?|students?|class|paper|disk|with|weights|allergens|again|off|up|ld|org|now)"
    r"(?: |$))*"
)


def _read(line: Line) -> Own | None:
    if len(line.text) > 200 or "\n" in line.text.strip():
        return None
    text = line.text
    file = _FILE.search(text)
    quoted = _NAMED.search(text)
    name = file["name"] if file is not None else quoted["name"] if quoted is not None else None
    shorter = text.replace(name, " ") if name else text
    said = plain(shorter).replace(".", " ").strip()
    found = _ASKS.fullmatch(" ".join(said.split()))
    if found is None:
        return None
    kind = _ENDINGS[file["ending"].lower()] if file is not None else None
    rest = found["rest"].strip()
    for label, words in _FORMATS:
        if re.search(rf"\b(?:{words})\b", said):
            kind, rest = kind or label, re.sub(rf"\b(?:{words})\b", " ", rest)
    named = re.fullmatch(r"(?:called|named) (?P<name>[\w -]{1,40})", rest)
    if named is not None and name is None:
        name, rest = named["name"], ""
    is_card = re.search(rf"\b{_CARD}\b", " ".join(said.split())) is not None
    if not is_card and name is None and kind is None and _PRINTS.fullmatch(" ".join(said.split())) is None:
        return None
    left = _REST.sub("", " ".join(rest.split()) + " ").strip()
    unread = tuple(word for word in text.split() if plain(word) and plain(word) in left.split())
    if not is_card and unread:
        return None
    return Own(CardRequest(kind, name), CERTAIN, unread)


def _build(bound: Bound) -> CardRequest | None:
    """Never from single words."""
    return None


FRAME = Frame(CardRequest, "card", _build, reads=_read, always=True)
