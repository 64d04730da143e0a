"""How-to and safety topics: what is said when somebody asks how, why or whether."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar

from knowledge.record import Family, Record

if TYPE_CHECKING:
    from knowledge import Knowledge


@dataclass(frozen=True, slots=True, kw_only=True)
class Explanation(Record):
    """One topic.

    said_as: phrases that mean it wherever they stand. names: the thing it is about ("oven spring", "couche"): heard
    where a question is asked of it. beside: a thing ("bread": any bread), and the words of which one must be said with
    it ("salt": "slower", "rise"): the topic then goes before the general ones of that thing. asks: the shapes of
    question it answers, where another topic has the same name; empty: any. of_dough: figures of the dough in hand that
    are told with it ("hydration_pct").
    about: circumstances that mean it, each made of words of other kinds that must all be said
    ("person:baby+ingredient:honey"; `group:egg` is any ingredient of a group, `dough:egg` an allergen or ingredient of
    the dough in hand). safety: a question of health: answered plainly, erring on the safe side. text: the answer, a few
    short lines. more: what is added when more is asked for. see: ids of neighbouring topics.
    """

    TERM_KIND: ClassVar[str] = "topic"

    title: str
    said_as: tuple[str, ...] = ()
    names: tuple[str, ...] = ()
    beside: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    asks: tuple[str, ...] = ()
    of_dough: tuple[str, ...] = ()
    about: tuple[str, ...] = ()
    safety: bool = False
    text: str
    more: str = ""
    see: tuple[str, ...] = ()

    def faults(self, kb: Knowledge) -> Iterator[str]:
        """Neighbours that are no topics, and a topic nobody could ask for."""
        for other in self.see:
            if other not in kb.all(Explanation):
                yield f"see: {other!r} is no topic"
        if not (self.said_as or self.about or self.names or self.beside):
            yield "said_as: nothing leads to the topic"


FAMILY = Family(folder="explanations", record=Explanation)
