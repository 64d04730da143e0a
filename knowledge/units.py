"""Units as plain numbers: names, dimensions and factors, worked out by pint once and kept as a table.

pint is imported only when the table has to be made; whoever converts multiplies by a factor.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from knowledge.files import SHIPPED
from knowledge.loader import Knowledge
from knowledge.records.units import SYSTEMS, Unit
from knowledge.vocabulary import fold

if TYPE_CHECKING:
    import pint

BASE = {"mass": "gram", "volume": "millilitre", "length": "centimetre", "time": "minute", "temperature": "kelvin"}
"""What the factors of a dimension count in: g, ml, cm, min, and degrees Celsius of difference."""


@dataclass(frozen=True, slots=True)
class UnitName:
    """One reading of a unit's name: the unit's id, its dimension, and its US factor to g, ml, cm or min.

    The factor of a temperature is 1: a reading stays in its own degree until `UnitTable.celsius` turns it.
    """

    id: str
    dimension: str
    factor: float


@dataclass(frozen=True, slots=True)
class UnitTable:
    """Every unit, by name and by id.

    `names`: folded said form, or a case-bound one exactly as typed → its readings, likeliest first; look the typed
    form up before the folded one. `factors`: unit id → kitchen → factor. `zero`: unit id of a temperature → the
    reading on its scale at 0 °C.
    """

    names: Mapping[str, tuple[UnitName, ...]]
    dimensions: Mapping[str, str]
    factors: Mapping[str, Mapping[str, float]]
    zero: Mapping[str, float]

    def factor(self, unit_id: str, system: str = "us") -> float:
        """Grams, millilitres, centimetres, minutes or degrees Celsius in one such unit, by the measures of a kitchen.

        For a temperature this is the size of a degree, right for a difference; for a reading see `celsius`.
        KeyError for an unknown unit or kitchen.
        """
        return self.factors[unit_id][system]

    def celsius(self, unit_id: str, reading: float) -> float:
        """A thermometer reading in degrees Celsius."""
        return (reading - self.zero[unit_id]) * self.factors[unit_id]["us"]

    def reading(self, unit_id: str, celsius: float) -> float:
        """What a thermometer with this scale reads at so many degrees Celsius."""
        return celsius / self.factors[unit_id]["us"] + self.zero[unit_id]


def units(kb: Knowledge) -> UnitTable:
    """The unit table of these facts."""
    table = kb.table("unit_table", kb.digest("units"), lambda: _worked_out(kb))
    dimensions: dict[str, str] = table["dimensions"]
    factors: dict[str, dict[str, float]] = table["factors"]
    named = {
        id: UnitName(id, dimension, 1.0 if dimension == "temperature" else factors[id]["us"])
        for id, dimension in dimensions.items()
    }
    names = {name: tuple(named[id] for id in ids) for name, ids in table["names"].items()}
    return UnitTable(names, dimensions, factors, table["zero"])


def registry() -> pint.UnitRegistry[Any]:
    """The one pint registry, built from the definitions in units.txt alone."""
    import pint

    return pint.UnitRegistry(str(SHIPPED / "units.txt"), cache_folder=None)


def _worked_out(kb: Knowledge) -> dict[str, Any]:
    """The table in plain values. ValueError where a record names no definition of its dimension."""
    known = registry()
    names: dict[str, list[str]] = {}
    factors: dict[str, dict[str, float]] = {}
    zero: dict[str, float] = {}
    records = kb.all(Unit)
    for id, unit in records.items():
        factors[id] = {}
        for system in SYSTEMS:
            definition = unit.by_system.get(system, unit.definition)
            factors[id][system] = _factor(known, definition, unit.dimension)
        if unit.dimension == "temperature":
            zero[id] = _clean(known.Quantity(273.15, "kelvin").to(unit.definition).magnitude)
    forms = [(place, fold(form), id) for id, unit in records.items() for place, form in enumerate(unit.said_as)]
    forms += [(place, form, id) for id, unit in records.items() for place, form in enumerate(unit.typed_as)]
    # "oz" is written down early for the ounce: the earlier a unit lists a form, the likelier it is meant.
    for _, form, id in sorted(forms, key=lambda row: row[0]):
        ids = names.setdefault(form, [])
        if id not in ids:
            ids.append(id)
    return {
        "names": names,
        "dimensions": {id: unit.dimension for id, unit in records.items()},
        "factors": factors,
        "zero": zero,
    }


def _factor(known: pint.UnitRegistry[Any], definition: str, dimension: str) -> float:
    import pint

    try:
        if dimension == "temperature":
            return _clean(known.Quantity(1, f"delta_{definition}").to("delta_degree_celsius").magnitude)
        return _clean(known.Quantity(1, definition).to(BASE[dimension]).magnitude)
    except (pint.UndefinedUnitError, pint.DimensionalityError) as trouble:
        raise ValueError(f"units: '{definition}' is no {dimension} ({trouble})") from None


def _clean(figure: float) -> float:
    """Without the last digits, which are only the noise of repeated division."""
    return float(f"{figure:.13g}")
