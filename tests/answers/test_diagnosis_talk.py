"""Talks about a fault: answers in any form, corrections, other causes, reasons, remedies, the bars; danger first."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from knowledge import Knowledge, load

NOW = datetime(2026, 3, 14, 7, 30)
KB: Knowledge = load()


def talk(*lines: str) -> list[dict[str, Any]]:
    """The replies to the lines of one conversation."""
    conversation = Conversation(KB, Notebook.in_memory(), now=lambda: NOW)
    return [conversation.reply(line).as_json() for line in lines]


def leader(reply: dict[str, Any]) -> str:
    return str(reply["answer"]["causes"][0]["cause"])


def share(reply: dict[str, Any], cause: str) -> float:
    return float(sum(row["share"] for row in reply["answer"]["causes"] if row["cause"] == cause))


@pytest.mark.parametrize("answer", ["it stayed", "stayed", "the dent stayed", "not at all", "didn't come back"])
def test_an_answer_in_few_words_is_placed_by_the_question(answer: str) -> None:
    first, asked, told = talk("the loaf is flat and has no ear", "hearth loaf, bulk 5 h at 25", answer)
    del first
    if "dent" in str(asked["answer"]["ask"]):
        assert leader(told) == "over_proofed"


@pytest.mark.parametrize("answer", ["about 18", "18 or so in there", "18 C", "it's 18 degrees"])
def test_a_bare_figure_is_placed_by_what_is_talked_of(answer: str) -> None:
    start, fed, told = talk("my starter won't rise", "fed yesterday", answer)
    assert fed["answer"]["ask"] != start["answer"]["ask"]
    assert leader(told) == "starter_cold"


@pytest.mark.parametrize("answer", ["no idea", "didn't check", "skip", "not sure", "i don't know", "next question"])
def test_a_question_nobody_can_answer_is_not_asked_again(answer: str) -> None:
    start, told = talk("my bread is dense", answer)
    assert told["kind"] == "diagnosis"
    assert told["answer"]["ask"] != start["answer"]["ask"]
    assert leader(told) == leader(start)


def test_several_answers_at_once() -> None:
    told = talk("my bread is dense", "5 hours at 24, 20 % starter, and the dent filled at once")[-1]
    assert leader(told) == "under_proofed"


def test_a_correction_replaces_the_stage_it_corrects() -> None:
    cold, warm = talk("loaf is dense, bulked 3 hours at 16 C with 10 % starter", "no wait, it bulked 15 hours at 29 C")
    assert leader(cold) in ("under_fermented", "dough_cold")
    assert leader(warm) == "over_fermented"
    assert "16 °C" not in warm["read_as"]


def test_a_correction_without_a_stage_means_the_stage_said_last() -> None:
    short, long = talk("the loaf is dense, proofed 20 minutes at 18", "sorry, 4 hours at 28")
    assert share(long, "over_proofed") > share(short, "over_proofed")
    assert "first rise" not in long["read_as"]


def test_a_symptom_added_joins_the_complaint_and_a_new_one_stands_alone() -> None:
    joined = talk("the loaf is flat", "it's pale too")[-1]
    assert joined["answer"]["symptoms"] == ["flat", "pale"]
    alone = talk("the loaf is flat, 85 % water", "my starter smells of acetone")[-1]
    assert alone["answer"]["symptoms"] == ["starter_solvent_smell"]
    assert "85" not in alone["read_as"]


TURNS: list[tuple[str, Callable[[dict[str, Any]], bool]]] = [
    ("what else could it be", lambda r: r["text"].startswith("Besides")),
    ("why do you say that", lambda r: r["text"].startswith("For ")),
    ("what now", lambda r: r["text"].startswith("Now:")),
    ("show the evidence", lambda r: "█" in r["text"]),
]


@pytest.mark.parametrize(("line", "holds"), TURNS)
def test_turns_of_the_talk_change_the_page_and_not_the_odds(line: str, holds: Callable[[dict[str, Any]], bool]) -> None:
    start, told = talk("my rolls are dense, bulked 4 hours at 19 with 10 % starter", line)
    assert holds(told), told["text"]
    assert told["answer"]["causes"] == start["answer"]["causes"]


def test_the_dough_in_hand_is_evidence() -> None:
    told = talk("20 rolls 80 g 65 % no salt 20 % starter", "they taste bland")[-1]
    assert leader(told) == "salt_missing"
    assert "from the dough in hand" in told["read_as"]
    other = talk("20 rolls 80 g 65 % 2 % salt 20 % starter", "they taste bland")[-1]
    assert leader(other) != "salt_missing"


def test_what_is_said_of_this_bake_comes_before_the_formula() -> None:
    told = talk("20 rolls 80 g 65 % 2 % salt 20 % starter", "they taste bland, i forgot the salt")[-1]
    assert leader(told) == "salt_missing"


def test_a_dough_still_under_way_gets_the_rescue_first() -> None:
    told = talk("my dough is slack, i forgot the salt")[-1]
    assert told["text"].startswith("Now:")
    assert told["answer"]["causes"][0]["now"].startswith("Knead in 2 % salt")


DANGERS = [
    ("pink streaks in my starter", "starter_contaminated"),
    ("orange liquid on the levain", "starter_contaminated"),
    ("fuzzy green spots on my starter", "starter_contaminated"),
    ("there's mould on my loaf", "stored_badly"),
    ("the crumb has sticky threads and smells of melon", "stored_badly"),
    ("pretzels taste soapy", "bath_strong"),
]


@pytest.mark.parametrize(("line", "cause"), DANGERS)
def test_danger_comes_before_odds(line: str, cause: str) -> None:
    told = talk(line)[-1]
    assert [row["cause"] for row in told["answer"]["causes"]] == [cause]
    assert "throw" in told["answer"]["causes"][0]["now"].lower()
    assert told["answer"]["ask"] is None
    assert told["cautions"]


@pytest.mark.parametrize("line", ["broken glass in the dough", "the dog ate the dough"])
def test_a_danger_without_a_cause_says_what_to_do(line: str) -> None:
    told = talk(line)[-1]
    assert told["kind"] == "explanation" or told["answer"]["causes"] == []
    assert any(word in told["text"].lower() for word in ("throw", "call"))


def test_a_flat_film_without_fuzz_is_no_mould() -> None:
    told = talk("white wrinkled film on the starter, no fuzz")[-1]
    assert leader(told) == "starter_hungry"


WORDS = (
    "loaf dense flat pale not no dough starter 3 h at 17 c with 10 % the crust 28 bulk proofed fed days and too was "
    "core 86 salt forgot lid on 50 min , ; sticky rings bath 40 g per litre yes sorry under over"
)


@given(st.lists(st.sampled_from(sorted(set(WORDS.split()))), max_size=14))
def test_any_words_get_an_answer(words: list[str]) -> None:
    for told in talk("my loaf is dense", " ".join(words) or "?"):
        if told["kind"] == "diagnosis":
            assert sum(row["share"] for row in told["answer"]["causes"]) <= 1.005


def test_the_same_line_gets_the_same_reply() -> None:
    line = "flat loaf, proofed 5 h at 27, 75 % water"
    assert talk(line) == talk(line)
