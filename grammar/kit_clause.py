"""One clause of a line about the kitchen: the things named in it and the items of it, in order."""

from __future__ import annotations

from dataclasses import dataclass, field

from grammar.kit_items import Item

Values = dict[str, float | str]


@dataclass(slots=True)
class Clause:
    things: list[Item] = field(default_factory=list)
    row: list[Item] = field(default_factory=list)
    of_kit: bool = False  # the line says somewhere how much goes in
    led: bool = False  # the clause before only said how it is: "it's chilly, 15 in the kitchen"

    def says(self, name: str) -> bool:
        return any(one.what == "word" and one.id == name for one in self.row)

    @property
    def amounts(self) -> list[Item]:
        return [one for one in self.row if one.what == "amount"]

    @property
    def clocks(self) -> list[Item]:
        return [one for one in self.row if one.what == "clock"]

    @property
    def kits(self) -> list[str]:
        return [one.id for one in self.things if one.what == "kit"]


class NotThis(Exception):
    """The line says something else."""
