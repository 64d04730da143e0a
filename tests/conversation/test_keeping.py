"""What cannot be put on disk is not acknowledged as kept, and the answer still comes."""

from datetime import datetime
from pathlib import Path

import pytest

from assistant.notebook import Event, Notebook, NotKept
from assistant.talk.conversation import Conversation
from knowledge import Knowledge, load


@pytest.fixture(scope="module")
def kb() -> Knowledge:
    return load()


def talk(kb: Knowledge, notebook: Notebook) -> Conversation:
    return Conversation(kb, notebook, now=lambda: datetime(2026, 3, 15, 6, 30))


class Full(Notebook):
    """On a disk that takes nothing more."""

    def append(self, event: Event, after: int) -> int:
        raise NotKept("the notebook could not be written (database or disk is full)")


def test_a_full_disk_is_owned_up_to(tmp_path: Path, kb: Knowledge) -> None:
    conversation = talk(kb, Full.open(tmp_path))
    answered = conversation.reply("18 rolls of 90 g at 65 %")
    assert answered.kind == "formula" and "Not kept: the notebook could not be written" in answered.render()
    noted = conversation.reply("set salt to 2.2 %")
    assert noted.kind == "refused" and "disk is full" in noted.answer["why"]
    assert "Not kept" in conversation.reply("help").render()


def test_damage_met_while_taking_back_is_said(tmp_path: Path, kb: Knowledge) -> None:
    notebook = Notebook.open(tmp_path)
    conversation = talk(kb, notebook)
    for line in ("18 rolls of 90 g at 65 %", "make it 68", "make it 70"):
        conversation.reply(line)
    notebook._connection.execute("DROP TRIGGER events_stay")
    notebook._connection.execute("UPDATE events SET text = 'make it 60' WHERE seq = 2")
    refused = conversation.reply("undo")
    assert refused.kind == "refused" and "the notebook is damaged (event 2" in refused.answer["why"]
    assert conversation.reply("show again").answer["hydration_pct"] == pytest.approx(70, abs=0.1)


def test_a_notebook_at_fault_takes_no_settings(tmp_path: Path, kb: Knowledge) -> None:
    (tmp_path / "notebook.sqlite3").write_text("a shopping list\n" * 40)
    conversation = talk(kb, Notebook.open(tmp_path))
    assert conversation.reply("set salt to 2.2 %").kind == "refused"
    answer = conversation.reply("18 rolls of 90 g at 65 %").answer
    assert answer["salt_pct"] == pytest.approx(2, abs=0.05)
    assert conversation.reply("and at 68 %?").answer["pieces"] == 18, "a talk in memory still goes on"


def test_a_line_is_answered_again_where_another_hand_was_quicker(tmp_path: Path, kb: Knowledge) -> None:
    here, there = talk(kb, Notebook.open(tmp_path)), talk(kb, Notebook.open(tmp_path))
    here.reply("18 rolls of 90 g at 65 %")
    quick = here.notebook.append
    raced = []

    def late(event: Event, after: int) -> int:
        if not raced:
            raced.append(there.reply("and for 40?").kind)
        return quick(event, after)

    here.notebook.append = late  # type: ignore[method-assign]
    reply = here.reply("and at 68 %?")
    assert raced == ["formula"]
    assert reply.answer["pieces"] == 40 and reply.answer["hydration_pct"] == pytest.approx(68, abs=0.1)
