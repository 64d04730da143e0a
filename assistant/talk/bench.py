"""The bench: the bakes under way with one in hand, the kitchen's settings, and what was asked last. Plain values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from types import MappingProxyType
from typing import Any

from assistant.talk.kitchen import Kitchen

_NOTHING: Mapping[str, Any] = MappingProxyType({})
ASIDE = "aside"
"""Fact of a bake that is not in hand: what stands of it, by topic."""
SAID = "said"
"""The field of a topic's memory that keeps the request of an answer that still stands."""
PLAN = "plan"
"""The topic of plans, and the field of its memory that keeps the plan itself."""
RUNNING_TIMERS = "timer"
"""Note of the bench: timers were set, the last of them until then."""
TOLD = "told"
"""Fact of a bake (and note of the bench where none is in hand): what was told of it as it went."""


@dataclass(frozen=True, slots=True)
class Bake:
    """A dough under way.

    said: the formula request as kept JSON (what was said for this dough, nothing else); begun: when it was first
    asked for, ISO 8601 local; name: what it is ("24 rings x 95 g"); called: the name the baker gave it; facts: what
    else is known of it by topic
    (stage, measured temperatures, a recipe's lines), plain JSON.
    """

    id: int
    said: Mapping[str, Any]
    begun: str
    name: str = ""
    facts: Mapping[str, Any] = field(default_factory=lambda: _NOTHING)
    called: str = ""

    @property
    def label(self) -> str:
        """What it is called in a reply."""
        return self.called or self.name or "the dough"


@dataclass(frozen=True, slots=True)
class Kept:
    """A dough kept under a name: what was said of it, its title, the day (ISO) it was kept."""

    name: str
    said: Mapping[str, Any]
    title: str
    at: str


@dataclass(frozen=True, slots=True)
class Bench:
    """All that the next line may lean on.

    bakes: oldest first; in_hand: id of the one in hand; kitchen: what was told of it; focus: the last request
    answered, as kept JSON, with its topic; asked: slots an open question asks for; notes: memory private to a topic;
    kept: doughs kept under a name, oldest first; numbered: the highest number a bake was given.
    """

    bakes: tuple[Bake, ...] = ()
    in_hand: int | None = None
    kitchen: Kitchen = field(default_factory=Kitchen)
    focus: Mapping[str, Any] | None = None
    focus_topic: str | None = None
    asked: tuple[str, ...] = ()
    notes: Mapping[str, Any] = field(default_factory=lambda: _NOTHING)
    kept: tuple[Kept, ...] = ()
    numbered: int = 0

    @property
    def bake(self) -> Bake | None:
        """The bake in hand."""
        return next((bake for bake in self.bakes if bake.id == self.in_hand), None)

    @property
    def settings(self) -> Mapping[str, Any]:
        """What holds of the kitchen for the bake in hand, by name."""
        return self.kitchen.now(self.in_hand)

    def with_bake(
        self,
        said: Mapping[str, Any],
        begun: str,
        name: str,
        facts: Mapping[str, Any] | None = None,
        called: str = "",
    ) -> Bench:
        """A new bake, in hand; the others stay on the bench (the last 12), each with what was planned of it."""
        number = max((self.numbered, *(bake.id for bake in self.bakes))) + 1
        bake = Bake(number, said, begun, name, facts or {}, called)
        old = self.bake.name if self.bake is not None and self.bake.name != name else None
        own = {topic: memory for topic, memory in self.notes.items() if SAID in memory and memory.get("dough") == old}
        own = own if old is not None else {}
        before = self.with_changed_bake(facts={ASIDE: own}) if own else self
        notes = {topic: memory for topic, memory in self.notes.items() if topic not in own}
        return replace(before, bakes=(*before.bakes, bake)[-12:], in_hand=number, numbered=number, notes=notes)

    def taking(self, number: int) -> Bench:
        """Another bake in hand; what stands of it (its plan) with it, what stood of the one before kept by."""
        stands = {topic: memory for topic, memory in self.notes.items() if SAID in memory}
        aside = {bake.id: dict(bake.facts.get(ASIDE) or {}) for bake in self.bakes}
        for topic, memory in stands.items():
            owner = next((bake.id for bake in self.bakes if bake.name == memory.get("dough")), self.in_hand)
            if owner is not None:
                aside[owner][topic] = memory
        own = aside.pop(number, {})
        bakes = tuple(
            replace(bake, facts={k: v for k, v in {**bake.facts, ASIDE: aside.get(bake.id)}.items() if v})
            for bake in self.bakes
        )
        notes = {topic: memory for topic, memory in self.notes.items() if topic not in stands}
        return replace(self, bakes=bakes, in_hand=number, notes={**notes, **own})

    def without_bake(self, number: int) -> Bench:
        """A bake taken off the bench; the newest of the others comes in hand where it was the one."""
        others = tuple(bake for bake in self.bakes if bake.id != number)
        if self.in_hand != number:
            return replace(self, bakes=others)
        notes = {topic: memory for topic, memory in self.notes.items() if SAID not in memory}
        alone = replace(self, bakes=others, in_hand=None, notes=notes, focus=None, focus_topic=None, asked=())
        return alone.taking(others[-1].id) if others else alone

    def with_kept(self, name: str, said: Mapping[str, Any], title: str, at: str) -> Bench:
        """A dough kept under a name; one kept under the same name before gives way."""
        return replace(self, kept=(*self.without_kept(name).kept, Kept(name, said, title, at)))

    def without_kept(self, name: str) -> Bench:
        """What was kept under a name forgotten."""
        return replace(self, kept=tuple(one for one in self.kept if one.name.lower() != name.lower()))

    def with_called(self, number: int, name: str) -> Bench:
        """A bake given a name."""
        named = (replace(bake, called=name) if bake.id == number else bake for bake in self.bakes)
        return replace(self, bakes=tuple(named))

    def with_changed_bake(
        self, said: Mapping[str, Any] | None = None, name: str | None = None, facts: Mapping[str, Any] | None = None
    ) -> Bench:
        """The bake in hand with what is given changed; facts are merged, a None value drops one."""
        bake = self.bake
        if bake is None:
            raise ValueError("no bake in hand")
        merged = {k: v for k, v in {**bake.facts, **(facts or {})}.items() if v is not None}
        notes = self.notes
        if name is not None and name != bake.name:  # what stands of it goes on standing under its new name
            notes = {
                topic: {**memory, "dough": name} if memory.get("dough") == bake.name else memory
                for topic, memory in notes.items()
            }
        new = replace(bake, said=said or bake.said, name=bake.name if name is None else name, facts=merged)
        return replace(self, bakes=tuple(new if b.id == bake.id else b for b in self.bakes), notes=notes)

    def with_settings(self, values: Mapping[str, Any], on: str) -> Bench:
        """Settings added or changed on a day (ISO); a None value goes back to the default."""
        return replace(self, kitchen=self.kitchen.told(values, on[:10]))

    def with_notes(self, topic: str, memory: Mapping[str, Any] | None) -> Bench:
        """A topic's private memory replaced (None: forgotten)."""
        notes = {k: v for k, v in self.notes.items() if k != topic}
        if memory is not None:
            notes[topic] = memory
        return replace(self, notes=notes)

    @property
    def standing(self) -> frozenset[str]:
        """Topics whose last answer still stands and may be changed later, and what was told of the bake under way."""
        told = {TOLD} if TOLD in self.notes or (self.bake is not None and TOLD in self.bake.facts) else set()
        running = {RUNNING_TIMERS} & self.notes.keys()
        return frozenset(topic for topic, memory in self.notes.items() if SAID in memory) | told | running

    @property
    def has_hours(self) -> bool:
        """Whether a timer, a plan or something told of a bake can bring anything by the clock."""
        kept = (TOLD, ASIDE)
        hours = self.notes.keys() & {TOLD, PLAN, RUNNING_TIMERS}
        return bool(hours) or any(name in bake.facts for bake in self.bakes for name in kept)

    @property
    def ready_minute(self) -> int | None:
        """The minute of the day for which the plan that stands has the bread ready, of the dough in hand if it has one,
        else of the newest; None where none stands."""
        aside = ((bake.facts.get(ASIDE) or {}).get(PLAN) or {} for bake in reversed(self.bakes))
        memory = next((one for one in (self.notes.get(PLAN) or {}, *aside) if PLAN in one), None)
        if memory is None:
            return None
        ready = max((task[1] + task[2] for task in memory[PLAN]["tasks"]), default=0)
        begun = datetime.fromisoformat(memory["now"])
        return int(begun.hour * 60 + begun.minute + ready) % 1440

    def stood(self, topic: str) -> Mapping[str, Any] | None:
        """The request, as kept, whose answer still stands; None where there is none."""
        return (self.notes.get(topic) or {}).get(SAID)

    def as_json(self) -> dict[str, Any]:
        """The bench as plain JSON."""
        return {
            "bakes": [
                {
                    "id": b.id, "said": dict(b.said), "begun": b.begun, "name": b.name, "facts": dict(b.facts),
                    "called": b.called,
                }
                for b in self.bakes
            ],
            "in_hand": self.in_hand,
            **self.kitchen.as_json(),
            "focus": dict(self.focus) if self.focus else None,
            "focus_topic": self.focus_topic,
            "asked": list(self.asked),
            "notes": dict(self.notes),
            "kept": [{"name": k.name, "said": dict(k.said), "title": k.title, "at": k.at} for k in self.kept],
            "numbered": self.numbered,
        }

    @classmethod
    def from_json(cls, state: Mapping[str, Any]) -> Bench:
        """The bench as it was kept; missing parts are empty."""
        return cls(
            bakes=tuple(
                Bake(b["id"], b["said"], b["begun"], b.get("name", ""), b.get("facts", {}), b.get("called", ""))
                for b in state.get("bakes", ())
            ),
            in_hand=state.get("in_hand"),
            kitchen=Kitchen.from_json(state),
            focus=state.get("focus"),
            focus_topic=state.get("focus_topic"),
            asked=tuple(state.get("asked") or ()),
            notes=state.get("notes") or {},
            kept=tuple(
                Kept(k["name"], k["said"], k.get("title", ""), k.get("at", "")) for k in state.get("kept") or ()
            ),
            numbered=int(state.get("numbered") or 0),
        )
