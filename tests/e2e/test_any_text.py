"""Any text at all gets a reply in the machine form, and none is an exception."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from datetime import datetime
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.command.plain import harmless
from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from grammar.requests import frames
from knowledge import Knowledge, load
from knowledge.vocabulary import vocabulary

KINDS = {
    "formula", "conversion", "timing", "feed", "water", "plan", "loads", "swap", "mend", "bath", "topping", "diagnosis",
    "explanation", "cost", "nutrition", "setting", "record", "recall", "progress", "card", "help", "unread", "refused",
}  # fmt: skip
KB = load()
WORDS = sorted(vocabulary(KB))
EXAMPLES = [line for frame in frames() for line in frame.examples]
UNITS = ("g", "kg", "%", "C", "F", "cups", "tbsp", "ml", "h", "min", "cm", "oz", "lb", "x", "am", "pm", "°C", "litres")

numbers = st.one_of(
    st.integers(-3, 3000).map(str),
    st.floats(0, 200, allow_nan=False).map(lambda value: f"{value:.1f}"),
    st.sampled_from(["½", "1/2", "two", "a dozen", "1,000", "0", "7:30", "30-40", "1e9", "999999999999", "twenty"]),
)
pieces = st.one_of(
    st.sampled_from(WORDS),
    numbers,
    st.tuples(numbers, st.sampled_from(UNITS)).map(" ".join),
    st.tuples(numbers, st.sampled_from(UNITS)).map("".join),
    st.sampled_from(["no", "without", "and", "at", "for", "of", "instead of", "?", ",", "undo", "why", "make it"]),
)
bakers_lines = st.lists(pieces, min_size=1, max_size=9).map(" ".join)
cut_examples = st.tuples(st.sampled_from(EXAMPLES), st.integers(0, 80), st.integers(0, 80)).map(
    lambda cut: cut[0][: cut[1]] + " " + cut[0][cut[2] :]
)
recipes = st.lists(st.one_of(bakers_lines, st.text(max_size=30).map(harmless)), min_size=2, max_size=8).map("\n".join)
lines = st.one_of(bakers_lines, st.text(max_size=60).map(harmless), cut_examples, st.sampled_from(EXAMPLES), recipes)


def talk() -> Conversation:
    return Conversation(KB, Notebook.in_memory(), now=lambda: datetime(2026, 3, 14, 7, 30))


def faults(reply: dict[str, Any], line: str) -> Iterator[str]:
    """What of a reply is not as the machine form has it."""
    text = json.dumps(reply, ensure_ascii=False, allow_nan=False)
    if json.loads(text) != reply:
        yield "does not survive JSON"
    if reply["request"] != line:
        yield "tells another request"
    if reply["kind"] not in KINDS:
        yield f"is of no known kind ({reply['kind']})"
    if not isinstance(reply["answer"], dict):
        yield "has no answer"
    for name in ("assumed", "cautions", "sources", "unread"):
        if not all(isinstance(said, str) and said for said in reply[name]):
            yield f"has more than words under {name}"
    if not reply["text"].strip():
        yield "says nothing"
    if reply["text"] != harmless(reply["text"]):
        yield "would steer a terminal"
    if reply["kind"] == "formula":
        answer = reply["answer"]
        if not math.isclose(sum(row["g"] for row in answer["mix"]), answer["dough_g"], abs_tol=0.6, rel_tol=1e-3):
            yield "does not add up"
    if reply["kind"] == "refused" and not reply["answer"]["why"]:
        yield "refuses without a reason"


@settings(max_examples=200)
@given(st.lists(lines, min_size=1, max_size=3))
def test_any_text_gets_a_reply(said: list[str]) -> None:
    conversation = talk()
    for line in said:
        reply = conversation.reply(line)
        assert list(faults(reply.as_json(), line)) == []
        for width in (30, 40, 60, 100):
            assert max(map(len, reply.render(width, more=True).split("\n"))) <= width


FIRST_OF = {frame.topic: frame.examples[0] for frame in reversed(frames()) if frame.examples}
OF_THEIR_TOPICS = [(FIRST_OF[frame.topic], line) for frame in frames() for line in frame.examples]


@pytest.mark.parametrize(("first", "line"), OF_THEIR_TOPICS)
def test_every_example_is_answered(first: str, line: str) -> None:
    """With two doughs on the bench, and what continues another line after the first of its topic."""
    conversation = talk()
    bench = ("12 buns of 70 g at 60 %", "24 rolls of 80 g at 66 %, 20 % starter")
    for said in (*bench, *([first] if first != line else []), line):
        reply = conversation.reply(said)
    assert list(faults(reply.as_json(), line)) == []
    assert reply.kind != "unread", reply.render()


def test_the_facts_are_sound(kb: Knowledge = KB) -> None:
    kb.check()
