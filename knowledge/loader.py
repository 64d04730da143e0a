"""Trade facts from YAML to checked, typed, frozen records, one family at a time and only when asked for.

`load()` opens nothing; `kb.all(Ingredient)` reads the family of that record class. A baker's own YAML in an overlay
folder, laid out like this one (`<overlay>/<family>/*.yaml`), adds records or overrides fields of shipped ones. A
shipped file at fault stops the family with BadKnowledge; a baker's file at fault is left out whole and named in
`kb.troubles`, and everything else works.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Mapping
from importlib import import_module
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, TypeVar, cast

from knowledge.cache import TableCache, digest
from knowledge.merge import Merged, merged
from knowledge.record import Family, Record
from knowledge.shape import build
from knowledge.sheet import BadSheet, read_sheet

if TYPE_CHECKING:
    from knowledge.records.breads import Bread
    from knowledge.records.ingredients import Ingredient
    from knowledge.records.words import Word

R = TypeVar("R", bound=Record)

SHIPPED = Path(__file__).parent


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
    """
    return Knowledge(shipped, overlay, TableCache(cache))


class Knowledge:
    """All records by class and id. Families are read when first asked for; what was read never changes."""

    def __init__(self, shipped: Path, overlay: Path | None, cache: TableCache) -> None:
        self._shipped = shipped
        self._overlay = overlay if overlay is not None and overlay.is_dir() else None
        self._cache = cache
        self._families: dict[type[Record], Mapping[str, Any]] = {}
        self._troubles: dict[str, tuple[str, ...]] = {}
        self._sums: dict[str, str] = {}

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
        if self._overlay is None:
            return ()
        known = {family.folder: family for family in families()}
        told: list[str] = []
        for folder in sorted({path.parent for path in self._overlay.rglob("*.yaml")}):
            family = known.get(folder.relative_to(self._overlay).as_posix())
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
        """A name for the bytes that a family's files (all files, when none is named) and the code here hold."""
        if folder:
            return digest(self._sum_of("code").encode(), self._sum_of(folder).encode())
        folders = {path.parent.relative_to(root).as_posix() for root in self._roots() for path in root.rglob("*.yaml")}
        return digest(*(self._sum_of(name).encode() for name in ("code", *sorted(folders))))

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
        for path in sorted(self._shipped.rglob("*.yaml")):
            folder = path.parent.relative_to(self._shipped).as_posix()
            if folder not in folders:
                faults.append(f"{folder}/{path.name}: no record class declares this family")
        if faults:
            raise BadKnowledge(tuple(faults))

    def _read(self, family: Family) -> Mapping[str, Record]:
        key = self.digest(family.folder)
        kept = self._cache.table(family.folder.replace("/", "-"), key, lambda: self._merged(family).as_table())
        try:
            return self._built(family, kept)
        except (KeyError, TypeError, ValueError, AttributeError):
            # A kept table that does not build is damaged in a way its checksum could not see: make it anew.
            return self._built(family, self._merged(family).as_table())

    def _built(self, family: Family, table: Mapping[str, Any]) -> Mapping[str, Record]:
        records = {name: build(family.record, plain) for name, plain in table["records"].items()}
        self._troubles[family.folder] = tuple(table["troubles"])
        return MappingProxyType(records)

    def _merged(self, family: Family) -> Merged:
        """The family's plain records with the baker's own, files at fault left out. BadKnowledge for a shipped one."""
        shipped, faults = _sheets(self._shipped / family.folder)
        base = merged(family, shipped)
        faults += base.faults
        if faults:
            raise BadKnowledge(tuple(f"{family.folder}/{fault}" for fault in faults))
        if self._overlay is None or not (self._overlay / family.folder).is_dir():
            return base
        folder = self._overlay / family.folder
        own, told = _sheets(folder)
        base.troubles += [f"{folder}/{fault}; file left out" for fault in told]
        for name, raw in own.items():
            tried = merged(family, {name: raw}, onto=base)
            faults = list(tried.faults)
            if not faults:
                faults = self._own_reference_faults(family, tried)
            if faults:
                base.troubles += [f"{folder}/{fault}; file left out" for fault in faults]
            else:
                base = tried
        return base

    def _own_reference_faults(self, family: Family, tried: Merged) -> list[str]:
        records = {name: build(family.record, tried.records[name]) for name in tried.records}
        before = self._families.get(family.record)
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

    def _roots(self) -> tuple[Path, ...]:
        return (self._shipped,) if self._overlay is None else (self._shipped, self._overlay)

    def _sum_of(self, folder: str) -> str:
        """A name for the bytes of one family's files, or of the code and unit definitions that make records of them."""
        found = self._sums.get(folder)
        if found is None:
            if folder == "code":
                paths = [*SHIPPED.glob("*.py"), *SHIPPED.glob("records/*.py"), *SHIPPED.glob("*.txt")]
            else:
                paths = [path for root in self._roots() for path in (root / folder).glob("*.[yt]*")]
            parts = [f"{sys.version_info[0]}.{sys.version_info[1]}".encode()]
            for path in sorted(paths):
                parts += [path.name.encode(), _bytes_of(path)]
            found = self._sums[folder] = digest(*parts)
        return found


def families() -> Iterator[Family]:
    """Every family that a module of `knowledge/records/` declares."""
    from pkgutil import iter_modules

    package = import_module("knowledge.records")
    for found in sorted(iter_modules(package.__path__), key=lambda module: module.name):
        module = import_module(f"knowledge.records.{found.name}")
        yield from (value for value in vars(module).values() if isinstance(value, Family))


def family_of(record: type[Record]) -> Family:
    """The family that the record class's own module declares for it. LookupError where it declares none."""
    for value in vars(sys.modules[record.__module__]).values():
        if isinstance(value, Family) and value.record is record:
            return value
    raise LookupError(f"{record.__module__} declares no Family for {record.__name__}")


def _sheets(folder: Path) -> tuple[dict[str, dict[str, Any]], list[str]]:
    """The raw records of each YAML file in a folder, and the faults of files that are no such thing."""
    sheets: dict[str, dict[str, Any]] = {}
    faults: list[str] = []
    for path in sorted(folder.glob("*.yaml")):
        try:
            sheets[path.name] = read_sheet(path)
        except BadSheet as bad:
            faults.append(f"{path.name}: {bad}")
    return sheets, faults


def _reference_faults(records: Mapping[str, Record], kb: Knowledge) -> list[str]:
    return [f"{name}: {told}" for name, record in records.items() for told in record.faults(kb)]


def _bytes_of(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError:
        return b""
