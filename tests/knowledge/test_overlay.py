"""A baker's own files add to the shipped facts or override them; a bad one is left out whole and named."""

import os
from pathlib import Path

import pytest

from knowledge import load
from knowledge.vocabulary import vocabulary


def own(folder: Path, family: str, **files: str) -> Path:
    (folder / family).mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / family / f"{name}.yaml").write_text(text, encoding="utf-8")
    return folder


def test_a_new_ingredient_is_known_and_can_be_said(tmp_path: Path) -> None:
    kb = load(own(tmp_path, "ingredients", mine="river_malt: {name: River malt, said_as: [river malt], group: malt}\n"))
    added = kb.ingredients["river_malt"]
    assert (added.source, added.confidence) == ("the baker's own file", "rule_of_thumb")
    assert vocabulary(kb)["river malt"] == (("ingredient", "river_malt"),)
    assert kb.troubles == ()


def test_one_field_of_a_shipped_record_is_overridden_and_the_rest_stays(tmp_path: Path) -> None:
    before = load().ingredients["honey"]
    kb = load(own(tmp_path, "ingredients", mine="honey: {cup_high_g: 360, cup_g: 350, said_as: [heather honey]}\n"))
    after = kb.ingredients["honey"]
    assert after.cup_g == 350
    assert after.water_pct == before.water_pct and after.name == before.name
    assert set(after.said_as) == {*before.said_as, "heather honey"}
    assert "own file" in after.source and before.source in after.source


def test_a_bread_of_the_house(tmp_path: Path) -> None:
    kb = load(own(tmp_path, "breads", mine="ring_roll: {hydration_usual_pct: 58}\n"))
    assert kb.breads["ring_roll"].hydration_usual_pct == 58
    assert kb.breads["ring_roll"].salt_usual_pct == load().breads["ring_roll"].salt_usual_pct


def test_words_are_added_to_a_known_meaning(tmp_path: Path) -> None:
    kb = load(own(tmp_path, "words", mine="hydration: {kind: cue, said_as: [wetting]}\n"))
    assert ("cue", "hydration") in vocabulary(kb)["wetting"]
    assert ("cue", "hydration") in vocabulary(kb)["hydration"]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("honey: {cup_g: lots}\n", "bad.yaml: honey: cup_g: expected a number, got 'lots'"),
        ("honey: {sweetness: 3}\n", "bad.yaml: honey: sweetness: unknown field"),
        ("river_malt: {name: River malt}\n", "bad.yaml: river_malt: said_as: is missing"),
        ("honey: [\n", "bad.yaml: line 2"),
        ("honey: {cup_g: 1e999}\n", "bad.yaml: honey: cup_g: expected a number that a kitchen knows, got inf"),
        ("honey: {kcal_100g: 1e308}\n", "bad.yaml: honey: kcal_100g: expected a number that"),
        ("honey: {kcal_100g: -1}\n", "bad.yaml: honey: kcal_100g: -1 is not possible"),
        ("honey: {cup_g: 9000}\n", "bad.yaml: honey: cup_g: 9000.0 g is not possible"),
        ("- honey\n", "bad.yaml: expected records"),
    ],
)
def test_a_bad_file_is_left_out_and_the_rest_works(text: str, told: str, tmp_path: Path) -> None:
    good = "local_honey: {name: L, said_as: [l], group: sugar}\n"
    kb = load(own(tmp_path, "ingredients", bad=text, good=good))
    assert any(told in line for line in kb.troubles), kb.troubles
    assert all(line.startswith(str(tmp_path)) for line in kb.troubles)
    assert kb.ingredients["honey"] == load().ingredients["honey"]
    assert "river_malt" not in kb.ingredients and "local_honey" in kb.ingredients


def test_a_file_full_of_faults_is_one_line(tmp_path: Path) -> None:
    kb = load(own(tmp_path, "ingredients", bad="".join(f"malt_{n}: {{group: nowhere}}\n" for n in range(100))))
    assert len(kb.troubles) == 1 and "malt_0: " in kb.troubles[0] and " more; file left out" in kb.troubles[0]


def test_a_pipe_among_the_files_is_named_and_not_waited_for(tmp_path: Path) -> None:
    own(tmp_path, "ingredients", mine="river_malt: {name: R, said_as: [river malt], group: malt}\n")
    os.mkfifo(tmp_path / "ingredients" / "endless.yaml")
    kb = load(tmp_path)
    assert kb.troubles == (f"{tmp_path}/ingredients/endless.yaml: cannot be read (not a plain file); file left out",)
    assert "river_malt" in kb.ingredients


def test_no_name_can_steer_a_terminal(tmp_path: Path) -> None:
    name = r"River\e[31m\a malt\r\u202e\U000E0041"
    mine = f'river_malt: {{name: "{name}", said_as: [river malt], group: malt}}\n'
    kb = load(own(tmp_path, "ingredients", mine=mine))
    assert kb.ingredients["river_malt"].name == "River[31m malt"


def test_no_record_of_a_bad_file_is_taken(tmp_path: Path) -> None:
    kb = load(
        own(tmp_path, "ingredients", bad="river_malt: {name: R, said_as: [r], group: malt}\nhoney: {cup_g: lots}\n")
    )
    assert "river_malt" not in kb.ingredients


def test_a_reference_to_nothing_is_named(tmp_path: Path) -> None:
    kb = load(own(tmp_path, "words", mine="puck: {kind: piece, said_as: [hovercraft], bread: hockey_puck}\n"))
    assert any("mine.yaml: piece puck: bread: no bread 'hockey_puck'" in line for line in kb.troubles)
    assert "hovercraft" not in vocabulary(kb)


def test_a_reference_to_another_own_record_holds(tmp_path: Path) -> None:
    own(
        tmp_path,
        "flour_types",
        mine="house_type: {name: H, said_as: [house type], country: here, grain: wheat, "
        "ingredient: house_flour, protein_low_pct: 11, protein_high_pct: 12}\n",
    )
    kb = load(own(tmp_path, "ingredients", mine="house_flour: {name: H, said_as: [house flour], group: flour}\n"))
    assert kb.troubles == ()
    assert vocabulary(kb)["house type"] == (("ingredient", "house_flour"), ("flour_type", "house_type"))


def test_files_that_nobody_would_read_are_named(tmp_path: Path) -> None:
    own(tmp_path, "recipes", mine="a: {}\n")
    (tmp_path / "ingredients").mkdir()
    (tmp_path / "ingredients" / "mine.yml").write_text("honey: {cup_g: 1}\n")
    told = "\n".join(load(tmp_path).troubles)
    assert "recipes: not a family of facts (known: " in told
    assert "mine.yml: only files that end in .yaml are read" in told


def test_no_folder_at_all_is_no_trouble(tmp_path: Path) -> None:
    kb = load(tmp_path / "nowhere")
    assert kb.troubles == ()
    assert kb.ingredients == load().ingredients


def test_a_folder_in_place_of_a_file(tmp_path: Path) -> None:
    (tmp_path / "ingredients" / "x.yaml").mkdir(parents=True)
    kb = load(tmp_path)
    assert "x.yaml: cannot be read" in kb.troubles[0]
    assert "honey" in kb.ingredients
