"""What a baker sees, tastes or smells when something is wrong."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Literal

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Symptom(Record):
    """One fault as it shows.

    said_as: words that mean this fault in a complaint. They are looked up only where one is read (COMPLAINT_KIND
        instead of a vocabulary kind): "no holes" or "too dry" would break up the lines of other requests.
    also: symptoms the same words mean when they are said of something else ("not rising", of a jar of starter).
    told_of_starter: the finding it is where the fault asked about is in bread or dough ("dense, and the starter won't
        double").
    rules_out: causes that contradict it (a dough that does not rise is not over-fermented).
    overlap: 0.5..1, how much of its own evidence the symptom brings; 1 for the plain ones, less for those that mostly
        repeat another (a tight crumb is half of "dense").
    seen: "cut" where it shows only in a bread that is cut, chewed or kept, and so is cold.
    """

    COMPLAINT_KIND: ClassVar[str] = "symptom"

    name: str
    of: Literal["bread", "dough", "starter"]
    said_as: tuple[str, ...]
    also: tuple[str, ...] = ()
    told_of_starter: str | None = None
    overlap: float = 1.0
    seen: Literal["", "cut"] = ""
    rules_out: tuple[str, ...] = ()

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """A symptom nobody can say, or one without meaning."""
        if not self.said_as:
            yield "said_as: a symptom nobody can say"
        for other in self.also:
            if other not in kb.all(Symptom):
                yield f"also: no symptom '{other}'"
        if not 0.3 <= self.overlap <= 1:
            yield f"overlap: {self.overlap} is outside 0.3 to 1"


FAMILY = Family(folder="diagnosis/symptoms", record=Symptom)
