"""Swaps, cautions, baths, toppings, diets, slips and topics: each family loads and refers to what is there."""

from __future__ import annotations

from pathlib import Path

import pytest

from knowledge import load
from knowledge.loader import BadKnowledge
from knowledge.record import Record
from knowledge.records.baths import Bath
from knowledge.records.cautions import Caution
from knowledge.records.diets import Diet
from knowledge.records.explanations import Explanation
from knowledge.records.kin import Kin
from knowledge.records.lapses import Lapse
from knowledge.records.swaps import Swap
from knowledge.records.toppings import Topping
from knowledge.records.traces import Trace

KB = load()
FAMILIES: tuple[type[Record], ...] = (Swap, Kin, Trace, Diet, Bath, Topping, Caution, Lapse, Explanation)


@pytest.mark.parametrize("family", FAMILIES)
def test_every_reference_holds(family: type[Record]) -> None:
    records = KB.all(family)
    assert records
    assert [f"{one.id}: {fault}" for one in records.values() for fault in one.faults(KB)] == []


@pytest.mark.parametrize("family", FAMILIES)
def test_every_fact_has_a_source(family: type[Record]) -> None:
    assert all(len(one.source) > 5 for one in KB.all(family).values())


def test_a_bad_swap_is_named(tmp_path: Path) -> None:
    folder = tmp_path / "swaps"
    folder.mkdir()
    (folder / "own.yaml").write_text(
        "odd:\n  out: honey\n  function: sweetener\n  into: [{item: honey, per_g: much}]\n  effect: x\n"
        "  source: me, this morning\n  certainty: high\n  confidence: measured\n",
        encoding="utf-8",
    )
    kb = load(overlay=tmp_path)
    assert len(kb.all(Swap)) == len(KB.all(Swap))
    told = "\n".join(kb.troubles)
    assert "own.yaml" in told and "odd" in told and "limit" in told and "per_g" in told


def test_a_swap_of_ones_own(tmp_path: Path) -> None:
    folder = tmp_path / "swaps"
    folder.mkdir()
    (folder / "own.yaml").write_text(
        "jam_for_honey:\n  out: honey\n  function: sweetener\n  into: [{item: jam, per_g: 1.7}]\n  limit: 0.5\n"
        "  effect: pink and fruity\n  source: my own bench\n  certainty: low\n  confidence: rule_of_thumb\n",
        encoding="utf-8",
    )
    assert "jam_for_honey" in load(overlay=tmp_path).all(Swap)


def test_a_trigger_that_would_always_hold_is_a_fault() -> None:
    from knowledge.records.cautions import Trigger

    bad = Caution(id="x", text="mind", when=(Trigger(),), source="nobody at all", confidence="rule_of_thumb")
    assert any("without any circumstance" in fault for fault in bad.faults(KB))


def test_topics_are_many_short_and_told_apart() -> None:
    topics = KB.all(Explanation)
    assert len(topics) >= 60
    said = [form for topic in topics.values() for form in topic.said_as]
    assert len(said) == len(set(said))
    for topic in topics.values():
        assert len(topic.text.splitlines()) <= 7, topic.id


def test_shipped_files_must_be_right(tmp_path: Path) -> None:
    (tmp_path / "swaps").mkdir()
    (tmp_path / "swaps" / "x.yaml").write_text("a: {out: honey}\n", encoding="utf-8")
    with pytest.raises(BadKnowledge, match=r"x\.yaml: a: function: is missing"):
        load(shipped=tmp_path).all(Swap)
