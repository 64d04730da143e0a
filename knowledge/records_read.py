"""The records of one family, each made when it is first asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any, Generic, TypeVar

from knowledge.shape import Plain, build

R = TypeVar("R")


class RecordsRead(Mapping[str, R], Generic[R]):
    """Records by id, in the order of the files.

    plain: the checked values of each; anew: gives them again, read from the files, where what was kept turns out to be
    damaged in a way its checksum could not see.
    """

    __slots__ = ("_anew", "_kind", "_made", "_plain")

    def __init__(self, kind: type[R], plain: Mapping[str, Plain], anew: Callable[[], Mapping[str, Plain]]) -> None:
        self._kind = kind
        self._plain = plain
        self._anew = anew
        self._made: dict[str, R] = {}

    def __getitem__(self, id: str) -> R:
        made = self._made.get(id)
        if made is None:
            made = self._made[id] = self._built(self._plain[id], id)
        return made

    def __contains__(self, id: object) -> bool:
        return id in self._plain

    def __iter__(self) -> Iterator[str]:
        return iter(self._plain)

    def __len__(self) -> int:
        return len(self._plain)

    def _built(self, plain: Any, id: str) -> R:
        try:
            record: R = build(self._kind, plain)
        except (KeyError, TypeError, ValueError, AttributeError):
            self._plain = self._anew()
            record = build(self._kind, self._plain[id])
        return record
