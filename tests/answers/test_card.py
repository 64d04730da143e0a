"""Cards: what is in them in each format, and that they stay in their folder and never write over one another."""

import csv
import io
import json
from dataclasses import replace
from datetime import datetime
from html.parser import HTMLParser
from pathlib import Path
from tempfile import TemporaryDirectory
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.engine.refusal import Refused
from assistant.notebook import Notebook
from assistant.papers.cards import Cards, safe_name
from assistant.talk.conversation import Conversation
from assistant.voice.card import CardFacts, CardRow
from assistant.voice.card_data import as_csv
from assistant.voice.card_page import as_html
from knowledge import load

KB = load()
MORNING = datetime(2026, 3, 14, 7, 30)


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


SHARES = {
    "sunflower seeds": (2, 12), "butter": (3, 20), "white sugar": (2, 12), "egg": (4, 20), "honey": (2, 8),
    "rye flour": (5, 40), "wholemeal flour": (5, 50), "milk": (5, 30), "olive oil": (2, 8), "poppy seeds": (1, 6),
}  # fmt: skip


@settings(max_examples=12, deadline=None)
@given(
    pieces=st.integers(4, 40),
    piece_g=st.integers(50, 300),
    water=st.integers(58, 74),
    starter=st.integers(8, 35),
    wet=st.sampled_from([50, 60, 100, 125]),
    rows=st.lists(st.sampled_from(sorted(SHARES)), max_size=3, unique=True),
    place=st.floats(0, 1),
    form=st.sampled_from(["json", "csv", "html"]),
)
def test_a_card_comes_back_as_the_dough_it_was_to_the_gram(
    pieces: int, piece_g: int, water: int, starter: int, wet: int, rows: list[str], place: float, form: str
) -> None:
    added = "".join(f", {low + place * (high - low):.0f} % {name}" for name in rows for low, high in [SHARES[name]])
    line = f"{pieces} rolls of {piece_g} g at {water} %, {starter} % starter at {wet} %{added}"
    with TemporaryDirectory() as folder:
        talk = Conversation(KB, Notebook.in_memory(), lambda: MORNING, cards=Cards(Path(folder)))
        dough = talk.reply(line)
        assert dough.kind == "formula", line
        written = Path(talk.reply(f"card as {form}").answer["path"]).read_bytes().decode("utf-8")
    again = Conversation(KB, Notebook.in_memory(), lambda: MORNING).reply(written)
    assert again.kind == "conversion" and again.unread == (), again.render()
    was = {row["item"]: row["g"] for row in dough.answer["mix"]}
    is_ = {row["item"]: row["g"] for row in again.answer["formula"]["mix"]}
    assert is_ == pytest.approx(was, abs=1.0)
    assert again.answer["formula"]["pieces"] == pieces
    assert again.answer["formula"]["starter"]["hydration_pct"] == pytest.approx(wet)
    assert again.answer["formula"]["hydration_pct"] == pytest.approx(dough.answer["hydration_pct"], abs=0.5)


class Outline(HTMLParser):
    """What stands open at the end, what was closed that was not open, and the data inside."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.wrong: list[str] = []
        self.seen: list[str] = []
        self.data: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append(tag)
        if tag not in ("meta", "br"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.wrong.append(tag)

    def handle_data(self, data: str) -> None:
        if self.open[-1:] == ["script"]:
            self.data.append(data)


def outline(page: str) -> Outline:
    found = Outline()
    found.feed(page)
    found.close()
    return found


def test_the_page_is_whole_and_carries_the_recipe(tmp_path: Path) -> None:
    page = card(tmp_path, "card as a web page")
    found = outline(page)
    assert found.open == [] and found.wrong == []
    assert {"main", "h1", "table", "th", "ol"} <= set(found.seen)
    assert json.loads("".join(found.data))["@type"] == "Recipe"
    assert "@media print" in page and "color-scheme: light dark" in page
    assert "http" not in page.replace("https://schema.org", ""), "nothing is fetched"


def test_no_name_can_break_the_page_or_become_a_formula(tmp_path: Path) -> None:
    facts = replace(facts_of(), title="</script><script>x</script>", whom='=HYPERLINK("x")')
    found = outline(as_html(facts))
    assert found.wrong == [] and found.seen.count("script") == 1
    assert json.loads("".join(found.data))["name"] == facts.title
    rows = list(csv.reader(io.StringIO(as_csv(replace(facts, title="=1+1", steps=("-2", "@x", "+3"))), newline="")))
    assert {len(row) for row in rows} == {8}
    assert not any(cell[:1] in ("=", "+", "-", "@", "\t", "\r") for row in rows for cell in row)


def facts_of() -> CardFacts:
    row = CardRow("bread flour", "bread flour", 500.0, 100.0, 500.0, 250.0, 1000.0)
    return CardFacts(
        title="rolls", made=MORNING.date(), yields="8 pieces of 60 g", rows=(row,), dough_g=500.0, inside=(),
        steps=("Mix.",), hours=(), bars=(), facts=(), allergens="Allergens: wheat.", keeping="", cautions=(),
        contents=("bread flour",), piece=None, bake_min=None,
    )  # fmt: skip


def test_the_sums_half_and_double_stand_on_every_card(tmp_path: Path) -> None:
    rows = list(csv.DictReader(io.StringIO(card(tmp_path, "card as csv"), newline="")))
    poured = [row for row in rows if row["kind"] == "ingredient"]
    read = 0.0
    for row in poured:
        read += float(row["g"])
        assert float(row["scale_g"]) == pytest.approx(read)
        assert float(row["half_g"]) == pytest.approx(float(row["g"]) / 2, abs=1)
        assert float(row["double_g"]) == pytest.approx(2 * float(row["g"]), abs=2)


def test_the_label_names_contents_most_first_and_allergens(tmp_path: Path) -> None:
    text = card(tmp_path, "a label for the table")
    assert text.index("bread flour") < text.index("water") < text.index("salt")
    assert "Allergens: wheat, barley (malt), gluten." in text and "local rules" in text


def test_a_card_of_a_planned_dough_tells_the_hours(tmp_path: Path) -> None:
    text = card(tmp_path, "print a card", dough="24 rings ready by 9 on Sunday, kitchen 19, overnight in the fridge")
    assert "Hours" in text and "into the fridge" in text and "boil" in text and "Bath:" in text
    assert "a kitchen of 19 °C" in text


def test_the_page_of_a_planned_dough_draws_its_hours(tmp_path: Path) -> None:
    dough = "24 rings ready by 9 on Sunday, kitchen 19, overnight in the fridge"
    page = card(tmp_path, "card as a web page", dough=dough)
    assert outline(page).wrong == []
    drawn = ElementTree.fromstring(page[page.index("<svg") : page.index("</svg>") + 6])
    rows = [text.text for text in drawn.iter("text")]
    assert {"dough", "hands", "fridge", "oven"} <= set(rows) and drawn.get("role") == "img"
    width = float((drawn.get("viewBox") or "").split()[2])
    for bar in drawn.iter("rect"):
        assert 0 <= float(bar.get("x", -1)) <= width - float(bar.get("width", "0")) + 2
    assert "<svg" not in card(tmp_path / "plain", "card as a web page"), "no hours, nothing to draw"


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
