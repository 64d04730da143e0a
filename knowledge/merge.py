"""The records of several files of one family put together; a baker's own laid over the shipped ones."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from knowledge.record import Family
from knowledge.shape import Plain, build, plain_fields

OWN_SOURCE = "the baker's own file"


@dataclass(slots=True)
class Merged:
    """Plain records by key with the file each stands in, what is wrong, and which files were left out and why."""

    records: dict[str, Plain] = field(default_factory=dict)
    files: dict[str, str] = field(default_factory=dict)
    faults: list[str] = field(default_factory=list)
    changed: list[str] = field(default_factory=list)
    troubles: list[str] = field(default_factory=list)

    def as_table(self) -> dict[str, Any]:
        """What is kept between runs."""
        return {"records": self.records, "troubles": self.troubles}


def merged(family: Family, sheets: Mapping[str, Mapping[str, Any]], onto: Merged | None = None) -> Merged:
    """The records of `sheets` (file name → raw records), laid over those of `onto` when given.

    Laid over: a known id keeps the fields that the new record does not name; its `said_as` is added to, never
    shortened; a new id must be complete but for `source` and `confidence`. Every fault is gathered as
    `file: record: field: what is wrong`.
    """
    found = Merged()
    if onto is not None:
        found = Merged(dict(onto.records), dict(onto.files), [], [], list(onto.troubles))
    own = onto is not None
    for file, sheet in sheets.items():
        for id, raw in sheet.items():
            faults: list[str] = []
            key, plain = _record(family, id, raw, found.records if own else {}, faults)
            if key in found.records and not faults:
                if family.joined:
                    plain = _joined(found.records[key], plain)
                elif not own:
                    faults.append(f"id: stands in {found.files[key]} already")
            if not faults:
                faults += _built_faults(family, plain)
            found.faults += [f"{file}: {id}: {fault}" for fault in faults]
            if not faults:
                found.records[key] = plain
                found.files[key] = file
                found.changed.append(key)
    return found


def _record(family: Family, id: str, raw: Any, shipped: Mapping[str, Plain], faults: list[str]) -> tuple[str, Plain]:
    """The key and plain fields of one raw record; a shipped record of that key gives what `raw` leaves out."""
    if not _is_id(id):
        faults.append("id: use letters, digits and _ only")
    own_key = f"{raw.get('kind')} {id}" if family.joined and isinstance(raw, Mapping) else id
    known = shipped.get(own_key)
    if shipped and isinstance(raw, Mapping):
        raw = _laid_over(known, raw)
    plain = plain_fields(family.record, raw, faults, skip=("id",))
    plain = {"id": id, **plain}
    return own_key, plain


def _laid_over(known: Plain | None, raw: Mapping[str, Any]) -> dict[str, Any]:
    if known is None:
        return {"source": OWN_SOURCE, "confidence": "rule_of_thumb", **raw}
    kept = {name: value for name, value in known.items() if name != "id"}
    kept["source"] = f"{known['source']}; changed in {OWN_SOURCE}" if "source" in known else OWN_SOURCE
    laid = {**kept, **raw}
    said = raw.get("said_as")
    if isinstance(said, list) and isinstance(known.get("said_as"), list):
        laid["said_as"] = list(dict.fromkeys([*known["said_as"], *said]))
    return laid


def _joined(known: Plain, plain: Plain) -> Plain:
    """Two records of one kind and id: the first one's fields, where it has any to say, and the said forms of both."""
    said = list(dict.fromkeys([*known.get("said_as", []), *plain.get("said_as", [])]))
    return {**plain, **{name: value for name, value in known.items() if value is not None}, "said_as": said}


def _built_faults(family: Family, plain: Plain) -> list[str]:
    """What the record class itself objects to."""
    try:
        build(family.record, plain)
    except (ValueError, TypeError) as wrong:
        return [str(wrong)]
    return []


def _is_id(id: str) -> bool:
    return id.isascii() and id.replace("_", "a").isalnum()
