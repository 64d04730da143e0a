"""Trade facts from YAML to checked, typed, frozen records, one family at a time and only when asked for.

`load()` opens nothing; `kb.all(Ingredient)` reads the family of that record class. A baker's own YAML in an overlay
folder, laid out like this one (`<overlay>/<family>/*.yaml`), adds records or overrides fields of shipped ones. A
shipped file at fault stops the family with BadKnowledge; a baker's file at fault is left out whole and named in
`kb.troubles`, and everything else works.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, TypeVar, cast

from knowledge.cache import TableCache
from knowledge.families import families, family_of
from knowledge.files import SHIPPED, Files, sheets
from knowledge.merge import Merged, merged
from knowledge.record import Family, Record
from knowledge.records_read import RecordsRead
from knowledge.shape import build

if TYPE_CHECKING:
    from knowledge.records.breads import Bread
    from knowledge.records.ingredients import Ingredient
    from knowledge.records.words import Word

R = TypeVar("R", bound=Record)
_FAULTS_TOLD = 3
"""How many faults of one file of the baker's are told, in its one line."""


class BadKnowledge(Exception):
    """Shipped facts at fault. `faults`: one line each, `file: record: field: what is wrong`."""

    def __init__(self, faults: tuple[str, ...]) -> None:
        super().__init__("\n".join(faults))
        self.faults = faults


class UnknownRecord(KeyError):
    """No record of that id in its family."""

    def __str__(self) -> str:
        return str(self.args[0])


def load(overlay: Path | None = None, cache: Path | None = None, shipped: Path = SHIPPED) -> Knowledge:
    """The trade facts, shipped ones and a baker's own.

    Args:
        overlay: folder of the baker's own YAML, one folder in it for each family; may be missing.
        cache: private folder for tables kept between runs; None keeps none.
        shipped: the folder with the shipped families.

    The shipped facts alone, with no tables kept, are read once a process.
    """
    if overlay is None and cache is None and shipped == SHIPPED:
        return _shipped()
    return Knowledge(Files(shipped, overlay), TableCache(cache))


@functools.cache
def _shipped() -> Knowledge:
    return Knowledge(Files(SHIPPED, None), TableCache(None))


class Knowledge:
    """All records by class and id. Families are read when first asked for; what was read never changes."""

    def __init__(self, files: Files, cache: TableCache) -> None:
        self._files = files
        self._cache = cache
        self._families: dict[type[Record], Mapping[str, Any]] = {}
        self._troubles: dict[str, tuple[str, ...]] = {}

    def all(self, record: type[R]) -> Mapping[str, R]:
        """Every record of a class by id, in the order of the files. BadKnowledge where a shipped file is at fault.

        In a family of words the keys are `kind id`, because the same id may name words of several kinds.
        """
        if record not in self._families:
            self._families[record] = self._read(family_of(record))
        # What is kept under a class is what was built with it.
        return cast("Mapping[str, R]", self._families[record])

    def get(self, record: type[R], id: str) -> R:
        """The record of a class with that id. UnknownRecord where there is none."""
        found = self.all(record).get(id)
        if found is None:
            raise UnknownRecord(f"no {record.__name__.lower()} '{id}'")
        return found

    @property
    def ingredients(self) -> Mapping[str, Ingredient]:
        """Everything that can go into a dough, by id."""
        from knowledge.records.ingredients import Ingredient

        return self.all(Ingredient)

    @property
    def breads(self) -> Mapping[str, Bread]:
        """The kinds of bread, by id."""
        from knowledge.records.breads import Bread

        return self.all(Bread)

    @property
    def words(self) -> Mapping[str, Word]:
        """Words of the trade that have no other record, by `kind id`."""
        from knowledge.records.words import Word

        return self.all(Word)

    @property
    def troubles(self) -> tuple[str, ...]:
        """One line for each of the baker's own files that was left out, and why. Reads the families concerned."""
        overlay = self._files.overlay
        if overlay is None:
            return ()
        known = {family.folder: family for family in families()}
        told = [f"{path}: only files that end in .yaml are read; left out" for path in sorted(overlay.rglob("*.yml"))]
        for folder in sorted({path.parent for path in overlay.rglob("*.yaml")}):
            family = known.get(folder.relative_to(overlay).as_posix())
            if family is None:
                told.append(f"{folder}: not a family of facts (known: {', '.join(sorted(known))}); left out")
            else:
                self.all(family.record)
                told += self._troubles.get(family.folder, ())
        return tuple(told)

    @property
    def version(self) -> str:
        """A short name for exactly these facts, shipped and own: it changes with any byte of any file."""
        return self.digest()[:12]

    def digest(self, folder: str = "") -> str:
        """A name for the bytes that one family's records depend on; for all there is when none is named."""
        return self._files.key(folder) if folder else self._files.whole()

    def table(self, name: str, key: str, make: Callable[[], Any]) -> Any:
        """A plain table derived from these facts, kept between runs for as long as `key` stays the same."""
        return self._cache.table(name, key, make)

    def check(self) -> None:
        """Read every family, check every reference. BadKnowledge with all faults found."""
        faults: list[str] = []
        folders: set[str] = set()
        for family in families():
            folders.add(family.folder)
            try:
                records = self.all(family.record)
            except BadKnowledge as bad:
                faults += bad.faults
                continue
            faults += [f"{family.folder}: {told}" for told in _reference_faults(records, self)]
        for path in sorted(self._files.shipped.rglob("*.yaml")):
            folder = path.parent.relative_to(self._files.shipped).as_posix()
            if folder not in folders:
                faults.append(f"{folder}/{path.name}: no record class declares this family")
        if faults:
            raise BadKnowledge(tuple(faults))

    def _read(self, family: Family) -> Mapping[str, Record]:
        name, key = family.folder.replace("/", "-"), self._files.key(family.folder)
        kept = self._cache.table(name, key, lambda: self._merged(family).as_table())
        self._troubles[family.folder] = tuple(kept["troubles"])
        return RecordsRead(family.record, kept["records"], lambda: self._merged(family).records)

    def _merged(self, family: Family) -> Merged:
        """The family's plain records with the baker's own, files at fault left out. BadKnowledge for a shipped one."""
        shipped, faults = sheets(self._files.shipped / family.folder)
        base = merged(family, shipped)
        faults += base.faults
        if faults:
            raise BadKnowledge(tuple(f"{family.folder}/{fault}" for fault in faults))
        folder = self._files.own(family.folder)
        if folder is None:
            return base
        own, told = sheets(folder)
        base.troubles += [f"{folder}/{fault}; file left out" for fault in told]
        for name, raw in own.items():
            tried = merged(family, {name: raw}, onto=base)
            faults = list(tried.faults) or self._own_reference_faults(family, tried)
            if faults:
                more = [f"and {len(faults) - _FAULTS_TOLD} more"] if len(faults) > _FAULTS_TOLD else []
                base.troubles.append(f"{folder}/{'; '.join([*faults[:_FAULTS_TOLD], *more, 'file left out'])}")
            else:
                base = tried
        return base

    def _own_reference_faults(self, family: Family, tried: Merged) -> list[str]:
        """What is wrong with the references of a baker's records, were they taken in."""
        records = {name: build(family.record, plain) for name, plain in tried.records.items()}
        before = self._families.get(family.record)
        # A reference may lead back to this very family: it has to find the records on trial.
        self._families[family.record] = MappingProxyType(records)
        try:
            return [
                f"{tried.files[name]}: {told}"
                for name in tried.changed
                for told in _reference_faults({name: records[name]}, self)
            ]
        finally:
            if before is None:
                del self._families[family.record]
            else:
                self._families[family.record] = before


def _reference_faults(records: Mapping[str, Record], kb: Knowledge) -> list[str]:
    return [f"{name}: {told}" for name, record in records.items() for told in record.faults(kb)]
