"""What a number of a line can be: the one table of roles, `roles.yaml`, as the kinds of request take from it.

    takes = {"hydration_pct": take("hydration_pct", bare=LIKELY), "salt_pct": take("salt_pct")}

The table says what a role measures, which nouns own it, what is plausible and what is possible; a kind of request says
only that it takes it, and how gladly where no noun stands beside it. It is kept as `roles.json` too, which is quicker
to open; `python -m grammar.roles` writes that after a change, and a test compares them.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from grammar.levels import LEVELS
from grammar.slots import Slot

SOURCE = Path(__file__).with_name("roles.yaml")
KEPT = Path(__file__).with_name("roles.json")
_FIELDS = {"is", "example", "measures", "owners", "not_of", "links", "plausible", "possible", "whole", "pair"}


@dataclass(frozen=True, slots=True)
class Role:
    """One row of the table; `roles.yaml` explains the fields. Amounts in %, g, min, °C, ml, cm."""

    name: str
    about: str
    example: str
    measures: Mapping[str, float]
    owners: tuple[str, ...] = ()
    not_of: tuple[str, ...] = ()
    links: Mapping[str, float] = field(default_factory=dict)
    plausible: tuple[float, float] | None = None
    possible: tuple[float, float] | None = None
    whole: bool = False
    pair: str | None = None


@cache
def roles() -> Mapping[str, Role]:
    """The roles by name."""
    return {name: _role(name, row) for name, row in json.loads(KEPT.read_text(encoding="utf-8")).items()}


def _role(name: str, row: Mapping[str, Any]) -> Role:
    strange = row.keys() - _FIELDS
    if strange:
        raise ValueError(f"roles.yaml: {name}: unknown field {', '.join(sorted(strange))}")
    return Role(
        name,
        row["is"],
        row["example"],
        {dim: LEVELS[level] for dim, level in row["measures"].items()},
        tuple(row.get("owners", ())),
        tuple(row.get("not_of", ())),
        {link: LEVELS[level] for link, level in row.get("links", {}).items()},
        tuple(row["plausible"]) if "plausible" in row else None,
        tuple(row["possible"]) if "possible" in row else None,
        row.get("whole", False),
        row.get("pair"),
    )


def take(name: str, **own: Any) -> Slot:
    """A slot for the role `name` of the table; `own`: what only this kind of request says of it (see `Slot`)."""
    role = roles()[name]
    low, high = role.plausible or (None, None)
    said: dict[str, Any] = {
        "dims": role.measures, "cues": role.owners, "never": role.not_of, "links": role.links, "low": low, "high": high,
        "whole": role.whole, "role": role.pair,
    }  # fmt: skip
    return Slot(**{**said, **own})


def possible(name: str) -> tuple[float, float] | None:
    """What a role can be at all, lowest and highest; None where the table sets no bounds."""
    role = roles().get(name)
    return role.possible if role is not None else None


def compiled() -> str:
    """The table as it is kept."""
    import yaml  # only for the writing of the table

    rows = yaml.safe_load(SOURCE.read_text(encoding="utf-8"))
    return json.dumps(rows, ensure_ascii=False, separators=(",", ":")) + "\n"


if __name__ == "__main__":
    KEPT.write_text(compiled(), encoding="utf-8")
