"""A card of the dough in hand, to be handed on: as plain text, Markdown, recipe data (JSON-LD) or a table (CSV); or the
plan that stands as a calendar."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Bound, Frame
from grammar.levels import CERTAIN, speaks
from grammar.phrases import Phrase
from grammar.slots import Slot


@dataclass(frozen=True, slots=True)
class CardRequest:
    """print a card
    write the card to rolls.txt
    card as json
    put the plan in my calendar

    format: "text", "markdown", "json", "csv", "html", "label" or "calendar" where said; name: the file's name as typed;
    whom: who it is for.
    """

    format: str | None = None
    name: str | None = None
    whom: str | None = None


_ENDINGS = {
    "json": "json", "jsonld": "json", "csv": "csv", "md": "markdown", "markdown": "markdown", "txt": "text",
    "text": "text", "ics": "calendar", "html": "html", "htm": "html",
}  # fmt: skip
FILE = re.compile(r"[^\s\"'“”]*[^\s\"'“”.]\.(?P<ending>" + "|".join(_ENDINGS) + r")\b", re.I)
"""A file's name by its ending; names are no language."""
_QUOTED = re.compile(r"[\"“](?P<name>[^\"”]{1,80})[\"”]")


def build(bound: Bound) -> CardRequest | None:
    """The card asked for; None where the line has words that belong neither to the card nor to its name."""
    if bound.asks() and not bound.said("card:card", "card_form:*"):
        return None
    file, quoted = FILE.search(bound.text), _QUOTED.search(bound.text)
    given = file or quoted
    name = None if given is None else given[0] if file is not None else given["name"]
    inside = given.span() if given is not None else (0, 0)
    called = next((p for p in bound.phrases if p.ids("card") == ("kept_as",)), None)
    if name is None and called is not None:
        name = bound.text[called.tokens[-1].end :].strip(" .!") or None
        inside = (called.tokens[-1].end, len(bound.text))
    taken = {id(p) for hit in bound.of("words") for p in (hit.amount, hit.label) if p is not None}
    words = [p for p in bound.phrases if id(p) in taken and not _within(p, inside)]
    whom = None
    if any(p.quantity is not None for p in words):
        return None  # "a card for 24 rings": of another size than the dough in hand
    if words:
        before = [p for p in bound.phrases[: bound.phrases.index(words[0])] if p.kind != "sep"]
        if not before or "for" not in before[-1].ids("link"):
            return None
        whom = bound.text[words[0].tokens[0].start : words[-1].tokens[-1].end]
    form = next((i for p in bound.phrases if not _within(p, inside) for i in p.ids("card_form")), None)
    if file is not None:
        form = _ENDINGS[file["ending"].lower()]
    whole = bound.said("card:card", "card:print") or form in ("json", "csv", "markdown", "calendar", "html", "label")
    if not whole and not (bound.said("card:write") and (name is not None or form is not None)):
        return None
    return CardRequest(form, name, whom)


def _within(phrase: Phrase, span: tuple[int, int]) -> bool:
    return span[0] <= phrase.tokens[0].start < span[1]


FRAME = Frame(
    CardRequest,
    "card",
    build,
    slots={
        "piece": Slot(term=("piece:*", "bread:*", "person:*"), many=True, weight=-0.8),
        "words": Slot({"num": 0.0, "moment": 0.0}, bare=-0.5, rest=True, many=True, weight=-0.4),
    },
    cues=speaks(
        alone=(
            "card:card card_form:json card_form:csv card_form:markdown card_form:calendar card_form:html "
            "card_form:label card:print"
        ),
        telling="card_form:text",
        certain="card:write ask:plan*",
        likely="card:kept_as",
        maybe="card:dough card:file act:add cue:steps",
        heard="act:make act:show ask:what ask:can_i cue:*",
    ),
    needs=("card:card", "card:print", "card:write", "card_form:*"),
    rules_out=("symptom:*", "ask:how_*", "ask:why", "ask:when"),
    wholly=True,
    base=CERTAIN,
    settles=True,
)  # fmt: skip
