"""Only a change changes a dough: questions, reports, habits and complaints leave the one in hand to the gram."""

from __future__ import annotations

from datetime import datetime

import pytest

from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from knowledge import load

DOUGH = "24 rings of 95 g at 58 %, 18 % starter, 3 % malt"

QUESTIONS = [
    "what's a good hydration for a ring",
    "is 62 too wet for rings",
    "how warm should the dough be, 24?",
    "would 30 fit on two trays",
    "how long do they boil, 45 seconds?",
    "why does everybody say 2 % salt",
    "what does a ring weigh baked",
    "how many does the pot take at once",
    "do i need 20 % starter in winter",
    "should i go to 62",
]
REPORTS = [
    "dough was 23 after mixing",
    "it is 9 in the boathouse today",
    "mixed at 6:40, dough 22",
    "up by a quarter",
    "it has risen 40 % already",
    "shaped 26 of them",
    "put in the fridge at 19:10",
    "first five are in the pot",
    "the starter was at 21 and lively",
    "the regatta starts at 11",
    "core was 96",
]
HABITS = [
    "my kitchen is usually 19",
    "the fridge holds 20",
    "oven takes two trays of 12",
    "as a rule i am asleep from 10 to 6",
    "the boathouse is 9 in march",
    "my mixer warms it by 5 degrees",
]
COMPLAINTS = [
    "they came out flat, 18 hours at 9",
    "the crust is pale after 20 minutes at 210",
    "dough is slack and sticky after 5 hours",
    "two of them burst",
    "they taste sour, 30 hours in the fridge",
]


KB = load()


@pytest.mark.parametrize("line", [*QUESTIONS, *REPORTS, *HABITS, *COMPLAINTS])
def test_the_dough_stays_as_it_is(line: str) -> None:
    talk = Conversation(KB, Notebook.in_memory(), now=lambda: datetime(2026, 3, 14, 7, 30))
    talk.reply(DOUGH)
    before = talk.bench.bake
    assert before is not None
    reply = talk.reply(line)
    after = next(bake for bake in talk.bench.bakes if bake.id == before.id)
    assert after.said == before.said, reply.render()
    assert talk.bench.in_hand == before.id, reply.render()
