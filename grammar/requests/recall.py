"""What was noted and baked before: "my notes about the starter", "what did I do last time"."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from grammar.frames import Bound, Frame, Slot
from grammar.levels import speaks
from grammar.requests.undo import UndoRequest

Scope = Literal["notes", "said", "bakes", "last_time", "drop"]


@dataclass(frozen=True, slots=True)
class RecallRequest:
    """show my notes
    what did I note about the starter
    what did I do last time
    when did I last bake rings
    notes from yesterday

    scope: the notes alone; all that was said; the doughs; the last bake with all that belongs to it; or a note to be
    struck out ("drop"), which none can be. about: words looked for, folded. when: "today", "yesterday", "this_week",
    "last_week", "month", a weekday "0" to "6", or a date ("2026-03-07", "--03-07"); since: from that day
    on. count: so many of the newest.
    """

    scope: Scope = "notes"
    about: tuple[str, ...] = ()
    when: str | None = None
    count: int | None = None
    since: bool = False


SMALL = frozenset({
    "a", "an", "the", "my", "our", "your", "this", "that", "these", "those", "it", "its", "them", "they", "one",
    "ones", "some", "any", "anything", "something", "in", "on", "at", "of", "for", "with", "about", "to", "from",
    "and", "or", "i", "we", "me", "us", "what", "when", "how", "is", "was", "were", "be", "been", "do", "did", "have",
    "had", "where", "mention", "mentions", "mentioned", "which", "anywhere", "thing", "things",
    "bread", "batch", "dough", "bake", "loaf", "say", "breads", "doughs", "loaves", "bakes",
})  # fmt: skip
"""Words too common to be looked for."""
_UNTRUE = frozenset({
    "wrong", "true", "right", "correct", "finally", "longer", "anymore", "rubbish", "after", "all", "off", "out",
    "take", "not", "no", "scrap", "forget", "bin", "drop", "erase",
})  # fmt: skip
"""Words of why a note is to go."""
_PAST = {"fed": "feed", "made": "make", "bought": "buy"}


def plain(text: str) -> str:
    """A line in lower case without signs: apostrophes close up, everything else becomes a space."""
    closed = "".join(one for one in text.lower() if one not in "’'`´")
    kept = "".join(one if one.isalnum() or one in "_.%°" else " " for one in closed)
    return " ".join(kept.strip(" .").split())


def folded(word: str) -> str:
    """A word without its plural: "rolls" and "roll", "batches" and "batch", "berries" and "berry" are one."""
    word = _PAST.get(word, word)
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("ches", "shes", "xes", "sses", "oes")):
        return word[:-2]
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")) else word


def build(bound: Bound) -> RecallRequest | UndoRequest | None:
    """What is looked for; None where a line of notes or of the past is something else."""
    found = _found(bound)
    if found is not None and found.scope == "drop" and not (found.about or _many(bound)):
        return UndoRequest("note")  # the note said last; of an older one none can be struck
    since = found is not None and found.when is not None and "after" in bound.links()
    return replace(found, since=True) if found is not None and since else found


def _found(bound: Bound) -> RecallRequest | None:
    about, when, named = _about(bound), _when(bound), bound.said("bread:*", "piece:*")
    amount = next((hit.amount for hit in bound.of("count") if hit.amount is not None), None)
    count = int(amount.quantity.value) if amount is not None and amount.quantity is not None else None
    asked = bound.asks() or bound.said("ask:*", "act:show", "kept:search", "stand:did")
    struck = bound.said("kept:drop") or any(p.negated or p.ids("negation") for p in bound.phrases)
    if struck and any("notes" in p.ids("kept") for p in bound.phrases):
        return RecallRequest("drop", tuple(word for word in about if word not in _UNTRUE))
    if bound.said("kept:since_did") and bound.said("mark:*") and not bound.said("kept:bake_verb"):
        return None  # "how long since i mixed" asks where the bake stands
    did_last = bound.said("stand:did") and "last" in bound.links() and when is None
    if did_last or bound.said("kept:last_did", "kept:since_did"):
        bakes = named or not about or bound.said("act:make", "kept:bake_verb")
        return RecallRequest("bakes" if bakes else "said", about, when)
    if bound.said("kept:noted", "kept:said"):
        if not (asked or bound.said("kept:notes") or about):
            return None
        return RecallRequest("said" if bound.said("kept:said") else "notes", about, when, count)
    if bound.said("kept:notes"):
        newest = bound.said("kept:newest") or bool({"last", "by"} & bound.links())
        if count is None and newest and not _many(bound):
            count = 1
        return RecallRequest("notes", about, when, count)
    if bound.said("kept:search"):
        return RecallRequest("notes", about, when) if about and _first(bound, "kept") == ("search",) else None
    if bound.said("kept:last_time"):
        return RecallRequest("last_time", _things(bound), when) if asked or not about else None
    if bound.said("kept:bakes"):
        return RecallRequest("bakes", about, when, count) if not bound.said("act:make") else None
    if when is not None and (bound.said("kept:everything") or (bound.said("stand:did") and bound.said("ask:what"))):
        return RecallRequest("last_time", _things(bound), when)
    if bound.said("stand:did") and bound.said("act:make", "kept:bake_verb") and (named or bound.said("ask:what")):
        return RecallRequest("bakes", about, when)
    return None


def _first(bound: Bound, kind: str) -> tuple[str, ...]:
    return next((p.ids(kind) for p in bound.phrases if p.kind == "label"), ())


def _many(bound: Bound) -> bool:
    """Whether notes are spoken of in the plural: "my last notes"."""
    return any(p.text.lower().endswith("s") for p in bound.phrases if "notes" in p.ids("kept"))


def _about(bound: Bound) -> tuple[str, ...]:
    """The words looked for, folded: what nothing else in the line accounts for."""
    taken = [p for hit in bound.of("about") for p in (hit.amount, hit.label) if p is not None]
    words = [w.strip(".%") for p in taken for w in plain(p.text).split()]
    _, named, behind = plain(bound.text).rpartition(" about ")
    there = [w for w in words if w in behind.split()] if named else words
    found = tuple(dict.fromkeys(folded(w) for w in there if w and w not in SMALL))
    if found or _when(bound) is not None:
        return found
    return tuple(folded(word) for word in behind.split()[:1] if named and word not in SMALL)


def _things(bound: Bound) -> tuple[str, ...]:
    """The breads and ingredients named: what else is said of the last time asks for something of it."""
    found = [hit.label for hit in bound.of("about") if hit.label is not None]
    named = [p for p in found if any(p.ids(kind) for kind in ("bread", "piece", "ingredient")) and not p.ids("cue")]
    words = [w for p in named for w in plain(p.text).split()]
    return tuple(dict.fromkeys(folded(w) for w in words if w not in SMALL))


def _when(bound: Bound) -> str | None:
    """The day or the stretch of days gone by that was named."""
    past = next((i for p in bound.phrases for i in p.ids("past")), None)
    hit = bound.first("when")
    moment = hit.amount.moment if hit is not None and hit.amount is not None else None
    return moment.day if moment is not None and moment.day is not None else past



_KEPT = ("kept:notes", "kept:noted", "kept:said", "kept:search")

FRAME = Frame(
    RecallRequest,
    "recall",
    build,
    slots={
        "when": Slot({"moment": 1.2}, bare=0.6, links={"from": 0.4, "on": 0.4, "last": 0.4}),
        "count": Slot({"num": 1.0}, cues=("kept:notes", "kept:bakes"), low=1, high=500, links={"last": 0.6}),
        "past": Slot(term=("past:*",), weight=0.4),
        "none": Slot(term=("kept:notes",), without=True),
        "about": Slot(
            {"num": -1.0, "pct": 0.2, "mass": 0.2, "temperature": 0.2, "time": 0.0}, bare=0.0, many=True, rest=True,
            where=_KEPT, weight=-0.3,
        ),
    },
    cues=speaks(
        alone="kept:bake_verb kept:noted kept:said kept:last_time kept:last_did kept:since_did kept:bakes",
        telling="kept:notes kept:search kept:everything",
        certain="stand:did",
        sure="",
        likely="ask:what ask:when",
        maybe="kept:newest kept:older kept:shown kept:drop ask:how_to act:show act:make clock:list",
        heard="ask:how_many ask:is_it ask:first clock:every clock:say hazard:contains stand:where state:gone",
        never="card:write",
    ),
    needs=("kept:notes", "kept:noted", "kept:said", "kept:last_time", "kept:last_did", "kept:since_did", "kept:bakes",
           "kept:search", "kept:everything", "stand:did", "slot:none"),
    rules_out=("act:add", "act:same", "act:change", "mistake:forgot", "clock:timer", "clock:call", "ask:can_i",
               "ask:how_much"),
    wholly=True,
    base=6.0,
    help_topic="notes",
    settles=True,
)  # fmt: skip
