"""Whatever was told of a bake, everybody who tells of hours reads one course: they agree to the minute."""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from knowledge import Knowledge, load

SEVEN = datetime(2026, 3, 14, 7, 0)
TELLINGS = (
    "dough is 25", "folded just now", "kitchen's gone up to 23", "it's got down to 17 in here", "up 20 %",
    "no, it was only 15", "moved it to the boathouse", "put it by the stove, 25 there", "running 20 min late",
    "they come an hour later", "the fridge has packed in", "oven not free before 9 pm", "how long left", "undo",
)  # fmt: skip


@cache
def kb() -> Knowledge:
    return load()


class Bench:
    """A talk whose clock is moved by hand."""

    def __init__(self) -> None:
        self.now = SEVEN
        self.talk = Conversation(kb(), Notebook.in_memory(), now=lambda: self.now)

    def say(self, line: str) -> dict[str, Any]:
        return self.talk.reply(line).as_json()


@settings(max_examples=15, deadline=None)
@given(
    st.sampled_from(("18 rolls of 80 g at 66 %", "12 rings of 95 g at 58 %", "2 tin loaves of 900 g at 68 %")),
    st.booleans(),
    st.lists(st.tuples(st.sampled_from(TELLINGS), st.integers(0, 45)), max_size=6),
)
def test_next_left_ready_and_plan_agree(dough: str, planned: bool, told: list[tuple[str, int]]) -> None:
    bench = Bench()
    bench.say("boathouse 12, kitchen 21")
    bench.say(dough)
    if planned:
        bench.say("plan it for 8 pm")
    bench.now += timedelta(minutes=40)
    bench.say("mixed at 7:20")
    for line, minutes in told:
        bench.now += timedelta(minutes=minutes)
        bench.say(line)
    left, after, ready = (bench.say(line)["answer"] for line in ("how long left", "what's next", "when is it ready"))
    names = ("stage", "since", "left_min", "next", "next_at", "ready_at")
    assert [left[name] for name in names] == [after[name] for name in names] == [ready[name] for name in names]
    if ready["ready_at"] is not None:
        plan = bench.say("show me the plan")
        assert plan["kind"] != "plan" or plan["answer"]["ready_at"] == ready["ready_at"]


def test_a_plan_stays_with_a_dough_that_changes_its_size() -> None:
    bench = Bench()
    bench.say("24 rolls of 80 g at 66 %")
    bench.say("plan them for 7 pm")
    assert bench.talk.bench.ready_minute == 19 * 60
    bench.say("make it 30 rolls")
    assert bench.say("when are they ready?")["answer"]["ready_at"] is not None


@pytest.mark.parametrize(("order", "pieces"), [("undo twice", 24), ("undo the last three", None), ("undo undo", 24)])
def test_several_changes_are_taken_back_one_by_one(order: str, pieces: int | None) -> None:
    bench = Bench()
    for line in ("24 rolls of 80 g at 66 %", "make it 30", "at 70 %"):
        bench.say(line)
    reply = bench.say(order)
    assert reply["read_as"].count("undone") == (3 if pieces is None else 2)
    bake = bench.talk.bench.bake
    assert (None if bake is None else bake.said["pieces"]) == pieces


def test_the_rest_of_the_pieces_are_still_to_come_once_the_first_load_is_out() -> None:
    bench = Bench()
    for line in ("oven takes 9", "18 rolls of 80 g at 66 %", "shaped 18 at 6:00", "9 in the oven at 6:40"):
        bench.say(line)
    some = bench.say("first nine came out at 7:00")["answer"]
    assert some["stage"] == "bake"
    assert bench.say("the rest came out too")["answer"]["stage"] in ("bake", "cool")


OF_ONE = (
    "{} folded just now", "the {} are up 20 %", "{} shaped just now", "the {} are in the boathouse", "lost 2 of the {}",
    "how are the {}", "the {} are in the fridge",
)  # fmt: skip


def stands(bench: Bench, name: str) -> dict[str, Any]:
    """Where a dough stands, asked for by its name."""
    answer: dict[str, Any] = bench.say(f"how long left on the {name}")["answer"]
    return {key: answer[key] for key in ("stage", "since", "ready_at", "next_at", "marks", "readings")}


@settings(max_examples=8, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(("rolls", "rings")), st.sampled_from(OF_ONE)), min_size=1, max_size=4))
def test_what_is_told_of_one_dough_leaves_the_other_and_what_lies_behind(told: list[tuple[str, str]]) -> None:
    bench = Bench()
    for line in ("boathouse 12, kitchen 21", "18 rolls of 80 g at 66 %, for 9 pm", "12 rings of 95 g, 58 %, for 8 pm"):
        bench.say(line)
    bench.now += timedelta(minutes=30)
    bench.say("rolls mixed at 7:10, the rings at 7:20")
    for name, line in told:
        other = "rings" if name == "rolls" else "rolls"
        before, behind = stands(bench, other), stands(bench, name)["marks"]
        bench.say(line.format(name))
        assert stands(bench, other) == before, f"{line.format(name)!r} moved the {other}"
        after = stands(bench, name)["marks"]
        assert [one for one in behind if one not in after] == [], f"{line.format(name)!r} moved what lies behind"


@settings(max_examples=8, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(TELLINGS), st.integers(0, 30)), max_size=4), st.integers(0, 4))
def test_the_loads_go_in_when_the_course_has_them_go_in(told: list[tuple[str, int]], lost: int) -> None:
    bench = Bench()
    for line in ("kitchen 21, oven takes 8", "18 rolls of 80 g at 66 %"):
        bench.say(line)
    bench.now += timedelta(minutes=40)
    bench.say("mixed at 7:20")
    for line, minutes in told:
        bench.now += timedelta(minutes=minutes)
        bench.say(line)
    if lost:
        bench.say(f"lost {lost}")
    plan, loads = bench.say("show me the plan"), bench.say("loads?")
    if plan["kind"] != "plan" or loads["kind"] != "loads":
        return
    baked = [(step["start"], step["pieces"]) for step in plan["answer"]["steps"] if step["step"] == "bake"]
    assert [(load["bake_start"][:16], load["pieces"]) for load in loads["answer"]["loads"]] == baked
