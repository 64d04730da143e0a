"""Kept tables save time and can never change an answer: stale, damaged or foreign ones are made anew."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from knowledge import load
from knowledge.cache import TableCache
from knowledge.units import units
from knowledge.vocabulary import vocabulary

WARM = """
import sys
from pathlib import Path
from knowledge import load
from knowledge.units import units
from knowledge.vocabulary import vocabulary
kb = load(cache=Path(sys.argv[1]))
print(len(kb.ingredients), len(vocabulary(kb)), len(units(kb).names), "yaml" in sys.modules, "pint" in sys.modules)
"""


KB = load()


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with every table in it, made once."""
    folder = tmp_path_factory.mktemp("made") / "cache"
    kb = load(cache=folder)
    _ = kb.ingredients, vocabulary(kb), units(kb)
    return folder


@pytest.fixture
def folder(made: Path, tmp_path: Path) -> Path:
    """A copy of that folder, to do harm to."""
    copy = tmp_path / "cache"
    shutil.copytree(made, copy)
    copy.chmod(0o700)
    return copy


def test_a_warm_start_reads_no_yaml_and_needs_no_pint(folder: Path) -> None:
    ran = subprocess.run(
        [sys.executable, "-c", WARM, str(folder)],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
    )
    assert ran.stdout.split() == [
        str(len(KB.ingredients)),
        str(len(vocabulary(KB))),
        str(len(units(KB).names)),
        "False",
        "False",
    ]


def test_what_is_kept_is_what_was_read(folder: Path) -> None:
    kept = load(cache=folder)
    assert kept.ingredients == KB.ingredients
    assert vocabulary(kept) == vocabulary(KB)
    assert units(kept) == units(KB)


@pytest.mark.parametrize(
    "damage",
    [
        lambda data: b"",
        lambda data: data[: len(data) // 2],
        lambda data: data.replace(b"82.12", b"12.82"),
        lambda data: b"\x00" * len(data),
        lambda data: data[:33] + b"x" + data[34:],
        lambda data: b"[" * 100_000,
    ],
    ids=["empty", "cut short", "one figure changed", "zeroes", "checksum changed", "too deep"],
)
def test_a_damaged_table_is_made_anew(damage: Any, folder: Path) -> None:
    for path in folder.glob("*.json"):
        path.write_bytes(damage(path.read_bytes()))
    kb = load(cache=folder)
    assert kb.ingredients["honey"].sugar_pct == 82.12
    assert vocabulary(kb) == vocabulary(KB)
    assert units(kb).factor("cup", "metric") == 250
    kept = json.loads((folder / "ingredients.json").read_bytes().partition(b"\n")[2])
    assert kept["records"]["honey"]["sugar_pct"] == 82.12


def test_a_table_of_the_right_key_and_the_wrong_shape_is_made_anew(tmp_path: Path) -> None:
    folder = tmp_path / "cache"
    kb = load(cache=folder)
    TableCache(folder).table(
        "ingredients", kb.digest("ingredients"), lambda: {"records": {"honey": {"x": 1}}, "troubles": []}
    )
    assert load(cache=folder).ingredients["honey"].sugar_pct == 82.12


def test_a_changed_file_is_read_again(tmp_path: Path) -> None:
    own = tmp_path / "own" / "ingredients"
    own.mkdir(parents=True)
    folder = tmp_path / "cache"
    (own / "mine.yaml").write_text("honey: {water_pct: 18}\n")
    assert load(tmp_path / "own", folder).ingredients["honey"].water_pct == 18
    (own / "mine.yaml").write_text("honey: {water_pct: 19}\n")
    assert load(tmp_path / "own", folder).ingredients["honey"].water_pct == 19
    (own / "mine.yaml").write_text("honey: {water_pct: wet}\n")
    told = load(tmp_path / "own", folder)
    assert "water_pct: expected a number" in told.troubles[0]
    assert load(tmp_path / "own", folder).troubles == told.troubles, "a kept table keeps its troubles"
    assert load(cache=folder).ingredients["honey"].water_pct == 17.1


def test_own_records_fall_with_what_they_refer_to(tmp_path: Path) -> None:
    own = tmp_path / "own"
    for family in ("ingredients", "flour_types"):
        (own / family).mkdir(parents=True)
    flour = own / "ingredients" / "mine.yaml"
    flour.write_text("house_flour: {name: H, said_as: [house flour], group: flour}\n")
    (own / "flour_types" / "mine.yaml").write_text(
        "house: {name: H, said_as: [house], country: here, grain: wheat, ingredient: house_flour, "
        "protein_low_pct: 11, protein_high_pct: 12}\n"
    )
    assert load(own, tmp_path / "cache").troubles == ()
    flour.unlink()
    assert "no ingredient 'house_flour'" in load(own, tmp_path / "cache").troubles[0]


def test_the_version_moves_with_the_facts(tmp_path: Path) -> None:
    (tmp_path / "ingredients").mkdir()
    (tmp_path / "ingredients" / "mine.yaml").write_text("honey: {water_pct: 18}\n")
    assert load().version == KB.version
    assert load(tmp_path).version != KB.version


def test_the_folder_is_private_or_not_used(tmp_path: Path) -> None:
    folder = tmp_path / "cache"
    assert TableCache(folder).table("t", "k", lambda: 1) == 1
    assert folder.stat().st_mode & 0o777 == 0o700
    assert (folder / "t.json").stat().st_mode & 0o777 == 0o600
    folder.chmod(0o777)
    assert TableCache(folder).table("t", "k", lambda: 2) == 2, "others could have written what is in there"
    link = tmp_path / "link"
    folder.chmod(0o700)
    link.symlink_to(folder)
    assert TableCache(link).table("t", "k", lambda: 3) == 3


def test_a_folder_that_cannot_be_made_costs_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    kb = load(cache=tmp_path / "file" / "cache")
    assert "honey" in kb.ingredients


def test_nothing_is_left_beside_the_tables(folder: Path) -> None:
    assert {path.suffix for path in folder.iterdir()} == {".json"}
