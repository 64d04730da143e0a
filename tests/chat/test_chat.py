"""What a terminal shows around the replies: the first page, the quiet line, lines of the past."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from assistant.chat import Chat
from assistant.conversation import Conversation
from assistant.notebook import Notebook
from assistant.voice.page import rendered
from knowledge import Knowledge, load

MORNING = datetime(2026, 3, 14, 7, 30)
EXAMPLES = ("18 rolls of 90 g at 65 %", "why is it dense?", "how long at 19 C?", "undo")


@pytest.fixture(scope="module")
def kb() -> Knowledge:
    return load()


def chat(home: Path, kb: Knowledge, now: datetime = MORNING, fresh: bool = False) -> Chat:
    notebook = Notebook.open(home)
    return Chat(notebook, lambda: Conversation(kb, notebook, lambda: now, fresh), lambda: now, lambda: EXAMPLES, fresh)


def test_an_empty_bench_shows_three_lines_that_can_be_said(tmp_path: Path, kb: Knowledge) -> None:
    shown = rendered(chat(tmp_path, kb).opening())
    assert all(line in shown for line in EXAMPLES[:3]) and EXAMPLES[3] not in shown
    assert chat(tmp_path, kb).glance() == ""


def test_what_is_in_hand_is_named_with_its_day(tmp_path: Path, kb: Knowledge) -> None:
    chat(tmp_path, kb).reply("18 rolls of 90 g at 65 %")
    same_day = rendered(chat(tmp_path, kb).opening())
    assert "In hand: 18 rolls" in same_day and "since 07:30" in same_day
    later = chat(tmp_path, kb, datetime(2026, 3, 16, 6, 0))
    assert "since Saturday 14 March, 07:30" in rendered(later.opening())
    assert later.glance().startswith("18 rolls")


def test_what_comes_next_by_the_plan_is_told(tmp_path: Path, kb: Knowledge) -> None:
    reply = chat(tmp_path, kb).reply("24 rolls ready by 9 on Sunday, kitchen 19, overnight in the fridge")
    assert reply.kind == "plan"
    steps = reply.answer["steps"]
    divide = next(step for step in steps if step["step"] == "divide")
    before = chat(tmp_path, kb, datetime.fromisoformat(divide["start"]))
    assert f"Next: divide at {divide['start'][11:16]}" in rendered(before.opening())
    assert "divide" in before.glance()
    after = chat(tmp_path, kb, datetime(2026, 3, 20, 6, 0))
    assert "Next:" not in rendered(after.opening())


def test_the_kitchen_is_on_the_quiet_line_once_it_is_set(tmp_path: Path, kb: Knowledge) -> None:
    talk = chat(tmp_path, kb)
    talk.reply("set kitchen to 9 C")
    assert talk.glance() == "kitchen 9 °C"
    assert chat(tmp_path, kb, fresh=True).glance() == "kitchen 9 °C"


def test_a_fresh_start_shows_no_bake(tmp_path: Path, kb: Knowledge) -> None:
    chat(tmp_path, kb).reply("18 rolls of 90 g at 65 %")
    fresh = chat(tmp_path, kb, fresh=True)
    assert "In hand" not in rendered(fresh.opening()) and fresh.glance() == ""
    fresh.reply("12 rolls of 80 g")
    assert "12 rolls" in fresh.glance()


def test_lines_of_other_runs_can_be_called_up(tmp_path: Path, kb: Knowledge) -> None:
    chat(tmp_path, kb).reply("18 rolls of 90 g at 65 %")
    chat(tmp_path, kb).reply("why")
    assert list(chat(tmp_path, kb).said_before()) == ["why", "18 rolls of 90 g at 65 %"]


def test_names_of_the_bake_in_hand_are_completed_first(tmp_path: Path, kb: Knowledge) -> None:
    talk = chat(tmp_path, kb)
    talk.reply("18 rolls of 90 g at 65 %, 4 % sesame seeds")
    offered = [text for _, text in talk.completions("without ses")]
    assert offered[0].startswith("sesame")


def test_a_conversation_that_does_not_open_is_told_where_a_line_is_answered(tmp_path: Path) -> None:
    def broken() -> Conversation:
        raise RuntimeError("no shelf")

    talk = Chat(Notebook.open(tmp_path), broken, lambda: MORNING, lambda: EXAMPLES)
    talk.warm()
    for _ in range(2):
        with pytest.raises(RuntimeError, match="no shelf"):
            talk.reply("18 rolls")
