"""Cards: what is in them in each format, and that they stay in their folder and never write over one another."""

import csv
import io
import json
from datetime import datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.cards import Cards, safe_name
from assistant.conversation import Conversation
from assistant.engine.refusal import Refused
from assistant.notebook import Notebook
from knowledge import load

KB = load()


def card(folder: Path, line: str, dough: str = "18 rings of 95 g at 58 %, 2 % malt syrup") -> str:
    talk = Conversation(KB, Notebook.in_memory(), lambda: datetime(2026, 3, 14, 7, 30), cards=Cards(folder / "cards"))
    talk.reply(dough)
    reply = talk.reply(line)
    assert reply.kind == "card", reply.render()
    path = Path(reply.answer["path"])
    assert path.parent == folder / "cards"
    return path.read_bytes().decode("utf-8")


def test_the_text_says_weights_steps_allergens_and_keeping(tmp_path: Path) -> None:
    text = card(tmp_path, "print a card")
    assert "bread flour" in text and "Allergens: wheat, barley (malt), gluten." in text
    assert "Boil" in text and "Bake at" in text and "keeps" in text


def test_the_recipe_data_is_a_recipe_whose_weights_add_up(tmp_path: Path) -> None:
    recipe = json.loads(card(tmp_path, "card as json"))
    assert recipe["@context"] == "https://schema.org" and recipe["@type"] == "Recipe"
    grams = [float(line.split()[0]) for line in recipe["recipeIngredient"]]
    assert sum(grams) == pytest.approx(18 * 95 * 1.01, abs=1)
    assert all(step["@type"] == "HowToStep" for step in recipe["recipeInstructions"])
    assert "wheat" in recipe["description"] and recipe["nutrition"]["calories"].endswith("kcal")


def test_the_recipe_data_is_read_back_as_the_same_dough(tmp_path: Path) -> None:
    written = card(tmp_path, "card as json", dough="12 rolls of 80 g at 65 %, 1 % instant yeast")
    talk = Conversation(KB, Notebook.in_memory(), lambda: datetime(2026, 3, 14, 7, 30))
    again = talk.reply(written)
    assert again.kind == "conversion", again.render()
    assert again.answer["formula"]["hydration_pct"] == pytest.approx(65, abs=0.5)


def test_a_heavier_piece_bakes_longer_on_the_card(tmp_path: Path) -> None:
    times = [
        json.loads(card(tmp_path / name, "card as json", dough=f"{dough} at 58 %"))["cookTime"]
        for name, dough in (("small", "18 rings of 95 g"), ("large", "9 rings of 190 g"))
    ]
    assert [int(time[2:-1]) for time in times] == [17, 26]


def test_the_table_is_read_by_any_reader_of_tables(tmp_path: Path) -> None:
    text = card(tmp_path, "card as csv")
    assert text.count("\r\n") == text.count("\n")
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    weights = [float(row["g"]) for row in rows if row["kind"] == "ingredient"]
    dough = next(float(row["g"]) for row in rows if row["kind"] == "dough")
    assert sum(weights) == pytest.approx(dough)
    assert any(row["kind"] == "allergens" and "wheat" in row["text"] for row in rows)
    assert all(row["text"] for row in rows if row["kind"] == "keeping")


def test_the_markdown_has_a_table(tmp_path: Path) -> None:
    assert "| bread flour |" in card(tmp_path, "card as markdown")


@given(st.text(max_size=80))
def test_any_name_is_one_safe_name(said: str) -> None:
    name = safe_name(said)
    assert name and Path(name).name == name and not name.startswith(".") and len(name) < 100
    assert safe_name(name) == name or len(name) > 60


def test_no_card_writes_over_another(tmp_path: Path) -> None:
    cards = Cards(tmp_path)
    first = cards.write("rolls.txt", "one")
    assert cards.write("rolls.txt", "one") == first
    second = cards.write("rolls.txt", "two")
    assert (first.read_text(), second.name) == ("one", "rolls-2.txt")
    assert not cards.take_back("rolls.txt", "two") and first.exists()
    assert cards.take_back("rolls.txt", "one") and not first.exists()


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    folder, outside = tmp_path / "cards", tmp_path / "outside.txt"
    folder.mkdir()
    (folder / "rolls.txt").symlink_to(outside)
    assert Cards(folder).write("rolls.txt", "one").name == "rolls-2.txt"
    assert not outside.exists()


def test_a_folder_that_cannot_be_is_refused(tmp_path: Path) -> None:
    (tmp_path / "cards").write_text("in the way")
    with pytest.raises(Refused, match="could not be written"):
        Cards(tmp_path / "cards").write("rolls.txt", "one")
