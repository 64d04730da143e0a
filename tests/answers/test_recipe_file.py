"""A recipe opened by the path that was typed: a saved page, a text, and what is no such thing."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from assistant.notebook import Notebook
from assistant.papers import recipe_file
from assistant.talk.conversation import Conversation
from knowledge import load

KB = load()
PAGE = """<html><head><title>Oar loaf</title><script>window.location = 'x'</script></head><body>
<h2>Ingredients</h2><ul><li>500&nbsp;g strong flour</li><li>1&frac12; cups water</li><li>2 tsp salt</li></ul>
</body></html>"""


def reply(line: str) -> dict[str, Any]:
    talk = Conversation(KB, Notebook.in_memory(), now=lambda: datetime(2026, 3, 14, 7, 30))
    return talk.reply(line).as_json()


@pytest.mark.parametrize("say", ["{}", "convert {}", "read the recipe in {}", '"{}"'])
def test_a_saved_page(tmp_path: Path, say: str) -> None:
    page = tmp_path / "oar loaf.html"
    page.write_text(PAGE, encoding="utf-8")
    said = reply(say.format(page))
    assert said["kind"] == "conversion", said["text"]
    assert [round(line["g"]) for line in said["answer"]["lines"]] == [500, 355, 12]
    assert "window" not in said["text"]


def test_a_text_file_in_another_encoding(tmp_path: Path) -> None:
    page = tmp_path / "loaf.txt"
    page.write_bytes("500 g strong flour\n325 g water – cold\n10 g salt".encode("cp1252"))
    assert reply(str(page))["answer"]["formula"]["hydration_pct"] == pytest.approx(65, abs=0.1)


def test_what_is_not_there_or_no_file(tmp_path: Path) -> None:
    assert "no file" in reply(str(tmp_path / "gone.html"))["answer"]["why"]
    folder = tmp_path / "folder.html"
    folder.mkdir()
    assert reply(str(folder))["kind"] == "refused"


def test_too_large_a_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(recipe_file, "LARGEST_BYTES", 100)
    page = tmp_path / "big.html"
    page.write_text(PAGE, encoding="utf-8")
    assert "larger" in reply(str(page))["answer"]["why"]


def test_a_recipe_is_undone_like_any_dough() -> None:
    talk = Conversation(KB, Notebook.in_memory(), now=lambda: datetime(2026, 3, 14, 7, 30))
    talk.reply("24 rolls of 80 g at 66 %")
    talk.reply("500 g strong flour\n325 g water\n10 g salt")
    assert talk.bench.bake is not None and len(talk.bench.bakes) == 2
    back = talk.reply("undo").as_json()
    assert back["kind"] == "formula" and back["answer"]["pieces"] == 24
