"""Finds the families of facts that the modules of `knowledge/records/` declare."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from importlib import import_module

from knowledge.record import Family, Record


def families() -> Iterator[Family]:
    """Every family there is, in the order of the modules' names. Imports all of them."""
    from pkgutil import iter_modules

    package = import_module("knowledge.records")
    for name in sorted(found.name for found in iter_modules(package.__path__)):
        module = import_module(f"knowledge.records.{name}")
        yield from (value for value in vars(module).values() if isinstance(value, Family))


def family_of(record: type[Record]) -> Family:
    """The family that the record class's own module declares for it. LookupError where it declares none."""
    for value in vars(sys.modules[record.__module__]).values():
        if isinstance(value, Family) and value.record is record:
            return value
    raise LookupError(f"{record.__module__} declares no Family for {record.__name__}")
