"""A line that can be taken in several ways is asked back with the readings filled in, and the next line chooses."""

from datetime import datetime

import pytest

from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from knowledge import load

KB = load()


def talk(*lines: str) -> Conversation:
    conversation = Conversation(KB, Notebook.in_memory(), now=lambda: datetime(2026, 3, 14, 7, 30))
    for line in lines:
        conversation.reply(line)
    return conversation


FEWER = ("20 rolls of 80 g at 66 %", "take 8 off")


def test_the_readings_stand_in_near_and_numbered_in_the_text() -> None:
    asked = talk(FEWER[0]).reply(FEWER[1])
    assert asked.kind == "unread"
    near = asked.answer["near"]
    assert 2 <= len(near) <= 3 and near[0] == "8 fewer pieces"
    assert f"1  {near[0]}" in asked.render() and f"2  {near[1]}" in asked.render()


@pytest.mark.parametrize(
    "choice", ["1", "the first", "first one please", "number 1", "option one", "the first one, thanks"]
)
def test_the_next_line_chooses(choice: str) -> None:
    answer = talk(*FEWER).reply(choice)
    assert answer.kind == "formula" and answer.answer["pieces"] == 12
    assert answer.request == choice


def test_a_question_changes_nothing_and_another_line_goes_on() -> None:
    conversation = talk(*FEWER)
    assert conversation.reply("show the dough").answer["pieces"] == 20
    assert conversation.reply("make it 24").answer["pieces"] == 24


def test_a_choice_is_one_only_where_something_was_offered() -> None:
    conversation = talk(FEWER[0])
    assert conversation.reply("the second").answer.get("pieces") != 12


@pytest.mark.parametrize("line", ["glorp glorp", "frobnicate", "blorf zint kleep", "zzyx"])
def test_words_nobody_knows_are_asked_and_never_made_into_a_fault(line: str) -> None:
    reply = talk().reply(line)
    assert reply.kind == "unread"
    assert reply.answer["near"] == []
