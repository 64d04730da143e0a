"""The words in which a baker tells of a bake under way: deeds, places, gauges, and whether it is so or is to be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from knowledge.record import Confidence, Family, Record

if TYPE_CHECKING:
    from knowledge.loader import Knowledge

KINDS = frozenset({
    "did", "doing", "stage", "phase", "moved", "way", "place", "spot", "gauge", "grown", "grown_by", "time", "small",
    "asks", "denies", "bids", "mends", "done_in", "part", "mends_hour", "q", "timer", "learned", "lost", "left",
})  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Telling(Record):
    """One meaning and the ways of telling it; opened only where a report is read.

    kind: `did` a deed done, by the step it marks; `doing` one going on, by the step that began; `stage` a stage by
    its name; `phase` begun, over; `moved` things put somewhere (id done, or bid where the same word bids); `way`
    in, out, on; `place`; `spot` a corner of it warmer or colder; `done_in` a stage's place by one word; `gauge`
    what a figure is of; `grown` that it rose, `grown_by` how far; `time` now, ago, since; `part` of the day;
    `small` words that carry nothing here; `asks`, `denies`, `bids` make a line no report; `mends` puts the last one
    right, `mends_hour` where an hour follows; `timer` words of timers; `q` what is asked of the bake; `learned`
    what was seen of the kitchen; `lost` pieces that came to grief, `left` those that did not.
    """

    kind: str
    said_as: tuple[str, ...]
    note: str | None = None
    source: str = "plain English and the language of the trade"
    confidence: Confidence = "textbook"

    def terms(self) -> Iterator[tuple[str, str]]:
        """No vocabulary: these words are looked up only where a report is read."""
        yield from ()

    def faults(self, kb: Knowledge) -> Iterator[str]:
        if not self.said_as:
            yield "said_as: is empty"
        if self.kind not in KINDS:
            yield f"kind: no kind '{self.kind}'"


FAMILY = Family(folder="telling", record=Telling, joined=True)
