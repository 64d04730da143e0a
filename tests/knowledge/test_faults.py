"""A file of facts that is wrong is told so in full: file, record, field, what is wrong."""

from pathlib import Path
from typing import Any

import pytest
import yaml

from knowledge import BadKnowledge, load

CASES = yaml.safe_load((Path(__file__).parent / "faults.yaml").read_text(encoding="utf-8"))
GOOD = "{name: Salt, said_as: [salt], group: salt, source: table, confidence: measured}"


def shipped(folder: Path, **files: str) -> Path:
    family = folder / "ingredients"
    family.mkdir()
    for name, text in files.items():
        (family / f"{name}.yaml").write_text(text, encoding="utf-8")
    return folder


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_each_fault_is_named_with_its_place(case: dict[str, Any], tmp_path: Path) -> None:
    kb = load(shipped=shipped(tmp_path, a=case["file"]))
    with pytest.raises(BadKnowledge) as caught:
        _ = kb.ingredients
    told = list(caught.value.faults)
    for expected in case["faults"]:
        assert any(expected in fault for fault in told), (expected, told)
    assert len(told) == len(case["faults"]), told


def test_the_faults_of_several_files_are_told_together(tmp_path: Path) -> None:
    kb = load(shipped=shipped(tmp_path, a="x: 1\n", b=f"salt: {GOOD}\n", c="y: 2\n"))
    with pytest.raises(BadKnowledge) as caught:
        _ = kb.ingredients
    assert [fault.split(":")[0] for fault in caught.value.faults] == ["ingredients/a.yaml", "ingredients/c.yaml"]


def test_one_id_in_two_files_is_a_fault(tmp_path: Path) -> None:
    kb = load(shipped=shipped(tmp_path, a=f"salt: {GOOD}\n", b=f"salt: {GOOD}\n"))
    with pytest.raises(BadKnowledge, match=r"b\.yaml: salt: id: stands in a\.yaml already"):
        _ = kb.ingredients


def test_bytes_that_are_no_text(tmp_path: Path) -> None:
    root = shipped(tmp_path)
    (root / "ingredients" / "a.yaml").write_bytes(b"honey: \xff\xfe")
    with pytest.raises(BadKnowledge, match=r"a\.yaml: is not UTF-8 text"):
        _ = load(shipped=root).ingredients


def test_references_are_checked_with_everything_else(tmp_path: Path) -> None:
    root = shipped(tmp_path, a=f"salt: {GOOD.replace('source', 'each_g: 5, cup_g: 9000, allergens: [dust], source')}\n")
    (root / "stray").mkdir()
    (root / "stray" / "x.yaml").write_text("a: {}\n", encoding="utf-8")
    with pytest.raises(BadKnowledge) as caught:
        load(shipped=root).check()
    told = "\n".join(caught.value.faults)
    assert "ingredients: salt: cup_g: 9000.0 g is not possible" in told
    assert "ingredients: salt: each_unit: each_g and each_unit go together" in told
    assert "ingredients: salt: allergens: unknown tag 'dust'" in told
    assert "stray/x.yaml: no record class declares this family" in told


def test_words_that_older_yaml_takes_for_truth_or_time_stay_words(tmp_path: Path) -> None:
    form = "{name: Salt, said_as: [no, on, yes, 12:30, 2026-03-14, =], group: salt, source: t, confidence: measured}"
    kb = load(shipped=shipped(tmp_path, a=f"salt: {form}\n"))
    assert kb.ingredients["salt"].said_as == ("no", "on", "yes", "12:30", "2026-03-14", "=")
