"""What was noted and baked before: "my notes about the starter", "what did I do last time"."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from grammar.frames import Bound, Frame
from grammar.levels import speaks
from grammar.requests.recall_words import SMALL, UNTRUE, folded, plain
from grammar.requests.undo import UndoRequest
from grammar.slots import Slot

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


def build(bound: Bound) -> RecallRequest | UndoRequest | None:
    """What is looked for; None where a line of notes or of the past is something else."""
    found = _found(bound)
    if found is not None and found.scope == "drop" and not (found.about or _many(bound)):
        return UndoRequest("note")  # the note said last; of an older one none can be struck
    since = found is not None and found.when is not None and "after" in bound.links()
    return replace(found, since=True) if found is not None and since else found


@dataclass(frozen=True, slots=True)
class _Asked:
    """A line of notes or of the past: what it looks for, of when, how many."""

    bound: Bound
    about: tuple[str, ...]
    when: str | None
    count: int | None

    def said(self, *patterns: str) -> bool:
        return self.bound.said(*patterns)

    @property
    def named(self) -> bool:
        return self.said("bread:*", "piece:*")

    @property
    def asked(self) -> bool:
        return self.bound.asks() or self.said("ask:*", "act:show", "kept:search", "stand:did")

    @property
    def struck(self) -> bool:
        """A note is to go, or is said not to hold."""
        denied = any(p.negated or p.ids("negation") for p in self.bound.phrases)
        return (self.said("kept:drop") or denied) and any("notes" in p.ids("kept") for p in self.bound.phrases)

    @property
    def still_on(self) -> bool:
        """How long since a step of the bake in hand: that asks where it stands."""
        return self.said("kept:since_did") and self.said("mark:*") and not self.said("kept:bake_verb")

    @property
    def did_last(self) -> bool:
        did = self.said("stand:did") and "last" in self.bound.links() and self.when is None
        return did or self.said("kept:last_did", "kept:since_did")

    @property
    def wanted(self) -> bool:
        return self.asked or self.said("kept:notes") or bool(self.about)

    @property
    def searches(self) -> bool:
        return bool(self.about) and _first(self.bound, "kept") == ("search",)

    @property
    def newest(self) -> bool:
        """The one note said last."""
        one = self.said("kept:newest") or bool({"last", "by"} & self.bound.links())
        return self.count is None and one and self.said("kept:notes") and not _many(self.bound)

    @property
    def of_a_day(self) -> bool:
        did = self.said("stand:did") and self.said("ask:what")
        return self.when is not None and (self.said("kept:everything") or did)

    @property
    def baked(self) -> bool:
        made = self.said("stand:did") and self.said("act:make", "kept:bake_verb")
        return made and (self.named or self.said("ask:what"))

    @property
    def of_bakes(self) -> bool:
        return self.named or not self.about or self.said("act:make", "kept:bake_verb")


def _surely(line: _Asked) -> bool:
    return True


_Test = Callable[[_Asked], bool]
_RULES: tuple[tuple[Scope | None, _Test, _Test], ...] = (
    ("drop", lambda line: line.struck, _surely),
    (None, lambda line: line.still_on, _surely),
    ("bakes", lambda line: line.did_last and line.of_bakes, _surely),
    ("said", lambda line: line.did_last, _surely),
    ("said", lambda line: line.said("kept:said"), lambda line: line.wanted),
    ("notes", lambda line: line.said("kept:noted"), lambda line: line.wanted),
    ("notes", lambda line: line.said("kept:notes"), _surely),
    ("notes", lambda line: line.said("kept:search"), lambda line: line.searches),
    ("last_time", lambda line: line.said("kept:last_time"), lambda line: line.asked or not line.about),
    ("bakes", lambda line: line.said("kept:bakes"), lambda line: not line.said("act:make")),
    ("last_time", lambda line: line.of_a_day, _surely),
    ("bakes", lambda line: line.baked, _surely),
)
"""What is looked for in a line that is about this, where it does ask for it; the first that it is about counts."""


def _found(bound: Bound) -> RecallRequest | None:
    quantity = bound.amount("count").quantity
    line = _Asked(bound, _about(bound), _when(bound), None if quantity is None else int(quantity.value))
    scope, _, asks = next((rule for rule in _RULES if rule[1](line)), (None, _surely, _surely))
    if scope is None or not asks(line):
        return None
    words = _things(bound) if scope == "last_time" else line.about
    about = tuple(word for word in words if scope != "drop" or word not in UNTRUE)
    return RecallRequest(scope, about, line.when, 1 if line.newest else line.count)


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
    moment = bound.amount("when").moment
    return (moment.day if moment is not None else None) or past


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
