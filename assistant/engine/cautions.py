"""From what an answer is about to the safety notes that belong beside it.

Pure: a scene and the records in, notes out. The page shows a mild note once for a bake and a dangerous one every time;
a program is given all that apply each time.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from assistant.engine.bowl import Foods
from assistant.engine.composition import allergens
from knowledge.records.cautions import Caution, Trigger
from knowledge.records.traces import Trace


@dataclass(frozen=True, slots=True)
class Scene:
    """What an answer is about.

    kind: of the answer. line: what the baker typed. ingredients: ids in the dough, the bath and on top. topics, breads,
    baths, steps: ids. oven_c, room_c: degrees Celsius. warm_min: minutes above fridge temperature.
    """

    kind: str
    line: str = ""
    ingredients: frozenset[str] = frozenset()
    topics: frozenset[str] = frozenset()
    breads: frozenset[str] = frozenset()
    baths: frozenset[str] = frozenset()
    steps: frozenset[str] = frozenset()
    oven_c: float | None = None
    room_c: float | None = None
    warm_min: float | None = None


def cautions(scene: Scene, records: Mapping[str, Caution], foods: Foods) -> tuple[Caution, ...]:
    """Every note that applies, the gravest first. A note that covers a milder one stands alone."""
    tags = frozenset(allergens(scene.ingredients, foods))
    words = _plain(scene.line)
    found = [
        caution for caution in records.values() if any(_holds(trigger, scene, tags, words) for trigger in caution.when)
    ]
    covered = {other for caution in found for other in caution.instead_of}
    return tuple(
        sorted(
            (caution for caution in found if caution.id not in covered), key=lambda caution: (caution.rank, caution.id)
        )
    )


def first_time(found: Iterable[Caution], said: frozenset[str]) -> tuple[Caution, ...]:
    """Those to show on the page: the dangerous ones always, the others when this bake has not heard them yet."""
    return tuple(caution for caution in found if caution.danger or caution.id not in said)


def allergen_line(items: Iterable[str], foods: Foods) -> str | None:
    """The allergens of a dough in one line, named; None where there are none. Malt is said to be barley."""
    known = [item for item in items if item in foods]
    tags = allergens(known, foods)
    if not tags:
        return None
    named = [f"{tag} (malt)" if tag == "barley" and _from_malt(known, foods) else tag for tag in tags]
    return "Allergens: " + ", ".join(named) + "."


def label_line(items: Iterable[str], traces: Mapping[str, Trace], foods: Foods) -> str | None:
    """Which labels to read, and for what; None where no ingredient is known for it."""
    inside = frozenset(items)
    named = [
        f"{foods[trace.ingredient].name.lower()} ({', '.join(trace.may_carry)})"
        for trace in traces.values()
        if trace.ingredient in inside and trace.ingredient in foods
    ]
    return "Read the label: may carry " + "; ".join(named) + "." if named else None


def _holds(trigger: Trigger, scene: Scene, tags: frozenset[str], words: str) -> bool:
    """Whether every circumstance of a trigger is there."""
    lists: tuple[tuple[tuple[str, ...], frozenset[str]], ...] = (
        (trigger.ingredients, scene.ingredients),
        (trigger.with_ingredients, scene.ingredients),
        (trigger.allergens, tags),
        (trigger.kinds, frozenset({scene.kind})),
        (trigger.topics, scene.topics),
        (trigger.breads, scene.breads),
        (trigger.baths, scene.baths),
        (trigger.steps, scene.steps),
    )
    if any(wanted and there.isdisjoint(wanted) for wanted, there in lists):
        return False
    if trigger.words and not any(_says(words, phrase) for phrase in trigger.words):
        return False
    limits = (
        (trigger.oven_above_c, scene.oven_c),
        (trigger.room_above_c, scene.room_c),
        (trigger.warm_above_min, scene.warm_min),
    )
    return all(limit is None or (there is not None and there > limit) for limit, there in limits)


@lru_cache(maxsize=1024)
def _plain(line: str) -> str:
    """The line in lower case with single spaces, apostrophes as typed on a plain keyboard."""
    return " ".join(re.sub(r"[^\w'&-]+", " ", line.lower().replace("’", "'")).split())


def _says(words: str, phrase: str) -> bool:
    return f" {_plain(phrase)} " in f" {words} "


def _from_malt(items: Iterable[str], foods: Foods) -> bool:
    carriers = [foods[item] for item in items if "barley" in foods[item].allergens]
    return bool(carriers) and all(food.group in ("malt", "sugar") for food in carriers)
