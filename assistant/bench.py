"""The bench: the bakes under way with one in hand, the kitchen's settings, and what was asked last. Plain values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Any

from assistant.kitchen import Kitchen

_NOTHING: Mapping[str, Any] = MappingProxyType({})
SAID = "said"
"""The field of a topic's memory that keeps the request of an answer that still stands."""
TOLD = "told"
"""Fact of a bake (and note of the bench where none is in hand): what was told of it as it went."""


@dataclass(frozen=True, slots=True)
class Bake:
    """A dough under way.

    said: the formula request as kept JSON (what was said for this dough, nothing else); begun: when it was first
    asked for, ISO 8601 local; name: what to call it ("24 ring rolls"); facts: what else is known of it by topic
    (stage, measured temperatures, a recipe's lines), plain JSON.
    """

    id: int
    said: Mapping[str, Any]
    begun: str
    name: str = ""
    facts: Mapping[str, Any] = field(default_factory=lambda: _NOTHING)


@dataclass(frozen=True, slots=True)
class Bench:
    """All that the next line may lean on.

    bakes: oldest first; in_hand: id of the one in hand; kitchen: what was told of it; focus: the last request
    answered, as kept JSON, with its topic; asked: slots an open question asks for; notes: memory private to a topic.
    """

    bakes: tuple[Bake, ...] = ()
    in_hand: int | None = None
    kitchen: Kitchen = field(default_factory=Kitchen)
    focus: Mapping[str, Any] | None = None
    focus_topic: str | None = None
    asked: tuple[str, ...] = ()
    notes: Mapping[str, Any] = field(default_factory=lambda: _NOTHING)

    @property
    def bake(self) -> Bake | None:
        """The bake in hand."""
        return next((bake for bake in self.bakes if bake.id == self.in_hand), None)

    @property
    def settings(self) -> Mapping[str, Any]:
        """What holds of the kitchen for the bake in hand, by name."""
        return self.kitchen.now(self.in_hand)

    def with_bake(
        self, said: Mapping[str, Any], begun: str, name: str, facts: Mapping[str, Any] | None = None
    ) -> Bench:
        """A new bake, in hand; the others stay on the bench (the last 12)."""
        number = max((bake.id for bake in self.bakes), default=0) + 1
        bake = Bake(number, said, begun, name, facts or {})
        return replace(self, bakes=(*self.bakes, bake)[-12:], in_hand=number)

    def with_changed_bake(
        self, said: Mapping[str, Any] | None = None, name: str | None = None, facts: Mapping[str, Any] | None = None
    ) -> Bench:
        """The bake in hand with what is given changed; facts are merged, a None value drops one."""
        bake = self.bake
        if bake is None:
            raise ValueError("no bake in hand")
        merged = {k: v for k, v in {**bake.facts, **(facts or {})}.items() if v is not None}
        new = replace(bake, said=said or bake.said, name=bake.name if name is None else name, facts=merged)
        return replace(self, bakes=tuple(new if b.id == bake.id else b for b in self.bakes))

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
        return frozenset(topic for topic, memory in self.notes.items() if SAID in memory) | told

    def stood(self, topic: str) -> Mapping[str, Any] | None:
        """The request, as kept, whose answer still stands; None where there is none."""
        return (self.notes.get(topic) or {}).get(SAID)

    def as_json(self) -> dict[str, Any]:
        """The bench as plain JSON."""
        return {
            "bakes": [
                {"id": b.id, "said": dict(b.said), "begun": b.begun, "name": b.name, "facts": dict(b.facts)}
                for b in self.bakes
            ],
            "in_hand": self.in_hand,
            **self.kitchen.as_json(),
            "focus": dict(self.focus) if self.focus else None,
            "focus_topic": self.focus_topic,
            "asked": list(self.asked),
            "notes": dict(self.notes),
        }

    @classmethod
    def from_json(cls, state: Mapping[str, Any]) -> Bench:
        """The bench as it was kept; missing parts are empty."""
        return cls(
            bakes=tuple(
                Bake(b["id"], b["said"], b["begun"], b.get("name", ""), b.get("facts", {}))
                for b in state.get("bakes", ())
            ),
            in_hand=state.get("in_hand"),
            kitchen=Kitchen.from_json(state),
            focus=state.get("focus"),
            focus_topic=state.get("focus_topic"),
            asked=tuple(state.get("asked") or ()),
            notes=state.get("notes") or {},
        )
