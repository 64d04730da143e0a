"""Several doughs, the notebook of bakes, and what an undo brings back."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.notebook import Notebook
from assistant.talk.bench import Bench
from assistant.talk.conversation import Conversation
from knowledge import Knowledge, load

KB = load()
BEGUN = datetime(2026, 3, 14, 7, 30)
CHANGES = st.sampled_from([
    "make it 69 %", "4 % honey", "2 % oil", "for 30", "1.8 % salt", "my kitchen is 19", "pot takes 5",
    "call this one Ada's", "save it as the quick ones", "new dough: 12 rings of 95 g at 57 %",
])  # fmt: skip
QUESTIONS = st.sampled_from([
    "how long is bulk at 20", "show the dough", "what doughs have I got", "settings", "what have I saved",
])  # fmt: skip


class Days:
    """A conversation over several days."""

    def __init__(self, kb: Knowledge = KB) -> None:
        self.now = BEGUN
        self.talk = Conversation(kb, Notebook.in_memory(), now=lambda: self.now)

    def say(self, line: str, days: int = 0) -> dict[str, object]:
        self.now += timedelta(days=days)
        return self.talk.reply(line).as_json()


def stands(bench: Bench) -> tuple[object, ...]:
    """What an undo has to bring back: the doughs, which is in hand, the kitchen, what is kept."""
    facts = [(bake.id, dict(bake.said), bake.called, bake.facts.get("verdict")) for bake in bench.bakes]
    return facts, bench.in_hand, dict(bench.settings), [(one.name, dict(one.said)) for one in bench.kept]


@settings(max_examples=15, deadline=None)
@given(st.lists(st.tuples(CHANGES, QUESTIONS), min_size=1, max_size=5))
def test_undo_goes_back_over_every_change_and_over_no_question(lines: list[tuple[str, str]]) -> None:
    days = Days()
    days.say("24 rolls of 80 g at 66 %")
    before = []
    for change, question in lines:
        stood = stands(days.talk.bench)
        days.say(change)
        now = stands(days.talk.bench)
        if now != stood:  # said twice, there is nothing to take back
            before.append(stood)
        days.say(question)
        assert stands(days.talk.bench) == now, f"{question} changed something"
    for stood in reversed(before):
        days.say("undo")
        assert stands(days.talk.bench) == stood


NAMES = st.from_regex(
    r"[A-Z][a-z]{2,7}('s)? (birthday|Sunday|night|best|quick) (rolls|rings|dough|ones)", fullmatch=True
)


@settings(max_examples=15, deadline=None)
@given(NAMES, st.integers(6, 60), st.integers(55, 75))
def test_what_is_kept_by_a_name_comes_back_by_it(name: str, pieces: int, hydration: int) -> None:
    days = Days()
    days.say(f"{pieces} rolls of 80 g at {hydration} %")
    kept = days.say(f"save this as {name}")
    assert kept["kind"] == "record" and kept["answer"]["entry"]["text"] == name  # type: ignore[index]
    days.say("new dough: 12 rings of 95 g at 57 %", days=1)
    back = days.say(f"bring back {name}", days=9)
    assert back["kind"] == "formula", back["text"]
    answer = back["answer"]
    assert (answer["pieces"], round(answer["hydration_pct"])) == (pieces, hydration)  # type: ignore[index]


@pytest.mark.parametrize("line", [
    "the rings from last saturday", "last saturday's rings", "same rings as last saturday", "the rings of 14 March",
    "the one from 14 March", "the rings we made on 14 march", "the rings from a week ago", "the rings from last week",
])  # fmt: skip
def test_a_dough_comes_back_by_its_day(line: str) -> None:
    days = Days()
    days.say("16 rings of 95 g at 57 %, 3 % malt syrup")
    days.say("new dough: 4 loaves of 800 g at 72 %", days=1)
    back = days.say(line, days=6)
    assert back["kind"] == "formula", back["text"]
    assert back["answer"]["pieces"] == 16  # type: ignore[index]
    bench = days.talk.bench
    assert bench.bake is not None and bench.bake.begun[:10] == "2026-03-21" and len(bench.bakes) == 3
    days.say("undo")
    assert len(days.talk.bench.bakes) == 2


@pytest.mark.parametrize(("line", "pieces"), [
    ("last saturday's rings for 40", 40), ("the rings from last saturday, but 24 of them", 24),
    ("same rings as last saturday for 30", 30), ("the rings from 14 march, double", 32),
])  # fmt: skip
def test_what_is_fetched_is_scaled(line: str, pieces: int) -> None:
    days = Days()
    days.say("16 rings of 95 g at 57 %, 3 % malt syrup")
    days.say("new dough: 4 loaves of 800 g at 72 %", days=1)
    answer = days.say(line, days=6)["answer"]
    assert (answer["pieces"], answer["piece_g"], round(answer["hydration_pct"])) == (pieces, 95, 57)  # type: ignore[index]


def test_a_question_about_an_old_bake_brings_nothing_back() -> None:
    days = Days()
    days.say("16 rings of 95 g at 57 %")
    days.say("new dough: 4 loaves of 800 g at 72 %", days=1)
    stood = stands(days.talk.bench)
    told = days.say("what hydration were last saturday's rings", days=6)
    assert "57" in str(told["text"])
    assert stands(days.talk.bench) == stood


def test_a_bench_kept_before_names_still_opens() -> None:
    state = {
        "bakes": [{"id": 4, "said": {"request": "FormulaRequest", "pieces": 12.0}, "begun": "2026-03-07T08:00"}],
        "in_hand": 4, "settings": {"pot_takes": 5},
    }  # fmt: skip
    bench = Bench.from_json(state)
    assert bench.bake is not None and bench.bake.label == "the dough" and bench.kept == ()
    assert bench.with_bake({}, "2026-03-14T07:30", "12 rings").in_hand == 5
