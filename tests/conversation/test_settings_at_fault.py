"""A setting that cannot be, kept by an earlier edition, is named and left out; everything else still answers."""

from datetime import datetime

import pytest

from assistant.notebook import Event, Notebook
from assistant.talk.bench import Bench
from assistant.talk.conversation import Conversation
from assistant.talk.kitchen import Kitchen
from knowledge import load


def test_a_bad_setting_is_named_left_out_and_then_gone() -> None:
    notebook = Notebook.in_memory()
    kept = Bench(kitchen=Kitchen({"piece_g": -5.0, "salt_pct": 1.9, "pot_takes": 0.0})).as_json()
    said = Event(text="piece is -5 g", kind="setting", change=None, state=kept, said_at="2026-03-14T07:30")
    notebook.append(said, after=notebook.tail().seq)
    talk = Conversation(load(), notebook, now=lambda: datetime(2026, 3, 14, 7, 30))
    first = talk.reply("20 rolls at 64 %")
    assert first.kind == "formula" and first.answer["piece_g"] > 0
    assert first.answer["salt_pct"] == pytest.approx(1.9)
    assert "-5 g a piece cannot be" in first.render() and "a pot for 0 cannot be" in first.render()
    assert "cannot be" not in talk.reply("and at 66 %?").render()
    assert talk.bench.settings == {"salt_pct": 1.9}
