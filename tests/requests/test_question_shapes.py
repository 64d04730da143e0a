"""Every thing of the trade can be asked about in every shape of question; none of it is taken for an order or a report.

A thing that some topic reckons with (hours of a step, the strength of a bath) may be answered by that topic where it is
asked how much or when.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import pytest

from assistant.notebook import Notebook
from assistant.papers.cards import Cards
from assistant.talk.conversation import Conversation
from knowledge import Knowledge, load
from knowledge.records.breads import Bread
from knowledge.records.explanations import Explanation
from knowledge.records.flour_types import FlourType
from knowledge.records.ingredients import Ingredient
from knowledge.records.preferments import PrefermentKind

NOW = datetime(2026, 3, 14, 7, 30)
TELLING = (
    "what is {}", "what does {} mean", "{}?", "{}:", "define {}", "explain {}", "what means {}", "is {} needed",
    "is {} necessary", "do I need {}", "why {}", "{} or butter", "difference between {} and rye flour",
)  # fmt: skip
RECKONED = ("how much {}", "how do I use {}", "when {}")
_EVERY = 8
_LETS_RECKON = {"explanation", "timing", "water", "bath", "topping", "feed", "diagnosis", "unread", "refused", "cost"}


@pytest.fixture(scope="module")
def kb() -> Knowledge:
    return load()


_KEPT = ("pieces", "dough_g", "flour_g")


def _things(kb: Knowledge) -> Iterator[str]:
    for topic in kb.all(Explanation).values():
        yield from topic.names[:1]
    for record in (FlourType, PrefermentKind, Ingredient, Bread):
        for one in kb.all(record).values():
            yield from (name for name in one.said_as[:1] if not set(",&%") & set(name))


def _talk(kb: Knowledge, folder: Path) -> Conversation:
    return Conversation(kb, Notebook.in_memory(), now=lambda: NOW, cards=Cards(folder))


@pytest.mark.parametrize("shape", TELLING)
def test_every_thing_is_explained(kb: Knowledge, tmp_path: Path, shape: str) -> None:
    things = list(_things(kb))
    missed = []
    for thing in things[TELLING.index(shape) % _EVERY :: _EVERY]:
        reply = _talk(kb, tmp_path).reply(shape.format(thing))
        if reply.kind not in ("explanation", "water"):
            missed.append((shape.format(thing), reply.kind))
    assert not missed


@pytest.mark.parametrize("shape", RECKONED)
def test_what_is_reckoned_changes_nothing(kb: Knowledge, tmp_path: Path, shape: str) -> None:
    things = list(_things(kb))
    for thing in things[RECKONED.index(shape) :: 2 * _EVERY]:
        reply = _talk(kb, tmp_path).reply(shape.format(thing))
        assert reply.kind in _LETS_RECKON, (shape.format(thing), reply.kind)


@pytest.mark.parametrize("shape", ("what is {}", "is {} necessary", "why {}", "do I need {}", "{} or butter"))
def test_a_question_leaves_the_dough_as_it_is(kb: Knowledge, tmp_path: Path, shape: str) -> None:
    things = list(_things(kb))
    talk = _talk(kb, tmp_path)
    first = talk.reply("24 rolls of 80 g at 66 %, 20 % starter").as_json()["answer"]
    for thing in things[:: 3 * _EVERY]:
        talk.reply(shape.format(thing))
        now = talk.reply("show the dough").as_json()["answer"]
        assert {name: now[name] for name in _KEPT} == {name: first[name] for name in _KEPT}, shape.format(thing)
