"""What a terminal shows around the replies: the first page, the quiet line, lines of the past."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from assistant.notebook import Notebook
from assistant.talk.chat import Chat
from assistant.talk.conversation import Conversation
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


def ready(talk: Chat) -> None:
    """The facts are there."""
    assert list(talk.completions("rye"))


def test_an_empty_bench_shows_three_lines_that_can_be_said(tmp_path: Path, kb: Knowledge) -> None:
    shown = rendered(chat(tmp_path, kb).opening())
    assert all(line in shown for line in EXAMPLES[:3]) and EXAMPLES[3] not in shown
    assert chat(tmp_path, kb).glance(79) == ""


def test_what_is_in_hand_is_named_with_its_day(tmp_path: Path, kb: Knowledge) -> None:
    chat(tmp_path, kb).reply("18 rolls of 90 g at 65 %")
    same_day = rendered(chat(tmp_path, kb).opening())
    assert "In hand: 18 rolls" in same_day and "since 07:30" in same_day
    later = chat(tmp_path, kb, datetime(2026, 3, 16, 6, 0))
    assert "since Saturday 14 March, 07:30" in rendered(later.opening())
    assert later.glance(79).startswith("18 rolls")


def test_what_comes_next_by_the_plan_is_told(tmp_path: Path, kb: Knowledge) -> None:
    reply = chat(tmp_path, kb).reply("24 rolls ready by 9 on Sunday, kitchen 19, overnight in the fridge")
    assert reply.kind == "plan"
    steps = reply.answer["steps"]
    divide = next(step for step in steps if step["step"] == "divide")
    before = chat(tmp_path, kb, datetime.fromisoformat(divide["start"]))
    assert f"Next: divide at {divide['start'][11:16]}" in rendered(before.opening())
    ready(before)
    assert "now divide 24 rolls" in before.glance(79)
    after = chat(tmp_path, kb, datetime(2026, 3, 20, 6, 0))
    assert "Next:" not in rendered(after.opening())


def test_the_kitchen_is_on_the_quiet_line_once_it_is_set(tmp_path: Path, kb: Knowledge) -> None:
    talk = chat(tmp_path, kb)
    talk.reply("set kitchen to 9 C")
    assert talk.glance(79) == "kitchen 9 °C"
    assert chat(tmp_path, kb, fresh=True).glance(79) == "kitchen 9 °C"


def test_a_fresh_start_shows_no_bake(tmp_path: Path, kb: Knowledge) -> None:
    chat(tmp_path, kb).reply("18 rolls of 90 g at 65 %")
    fresh = chat(tmp_path, kb, fresh=True)
    assert "In hand" not in rendered(fresh.opening()) and fresh.glance(79) == ""
    fresh.reply("12 rolls of 80 g")
    assert "12 rolls" in fresh.glance(79)


def test_lines_of_other_runs_can_be_called_up(tmp_path: Path, kb: Knowledge) -> None:
    chat(tmp_path, kb).reply("18 rolls of 90 g at 65 %")
    chat(tmp_path, kb).reply("why")
    assert list(chat(tmp_path, kb).said_before()) == ["why", "18 rolls of 90 g at 65 %"]


def test_names_of_the_bake_in_hand_are_completed_first(tmp_path: Path, kb: Knowledge) -> None:
    talk = chat(tmp_path, kb)
    talk.reply("18 rolls of 90 g at 65 %, 4 % sesame seeds")
    offered = [text for _, text in talk.completions("without ses")]
    assert offered[0].startswith("sesame")


def test_places_told_of_are_completed(talk: Chat) -> None:
    talk.reply("the boathouse is 9, the warm cupboard 26")
    assert "warm cupboard" in [text for _, text in talk.completions("dough in the warm c")]


def test_a_conversation_that_does_not_open_is_told_where_a_line_is_answered(tmp_path: Path) -> None:
    def broken() -> Conversation:
        raise RuntimeError("no shelf")

    talk = Chat(Notebook.open(tmp_path), broken, lambda: MORNING, lambda: EXAMPLES)
    talk.warm()
    for _ in range(2):
        with pytest.raises(RuntimeError, match="no shelf"):
            talk.reply("18 rolls")


def at(hour: str) -> datetime:
    return datetime.fromisoformat(f"2026-03-14T{hour}")


class Clock:
    """A clock that stands until it is put on."""

    def __init__(self) -> None:
        self.now = MORNING

    def __call__(self) -> datetime:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def talk(tmp_path: Path, kb: Knowledge, clock: Clock) -> Chat:
    notebook = Notebook.open(tmp_path)
    return Chat(notebook, lambda: Conversation(kb, notebook, clock), clock, lambda: EXAMPLES)


def called_out(talk: Chat) -> str:
    page = talk.due()
    return "" if page is None else rendered(page)


def test_a_timer_is_called_out_once_and_again_until_a_line_is_said(talk: Chat, clock: Clock) -> None:
    talk.reply("timer 20 min for the pot")
    assert called_out(talk) == ""
    clock.now = at("07:50")
    assert called_out(talk) == "07:50  timer over: pot"
    assert called_out(talk) == ""
    clock.now = at("07:55")
    assert called_out(talk) == "07:50  timer over: pot (5 min ago)"
    assert "timer over" not in talk.reply("how much is 3 cups of bread flour").render()
    clock.now = at("08:30")
    assert called_out(talk) == ""


def test_a_press_of_enter_answers(talk: Chat, clock: Clock) -> None:
    talk.reply("timer 20 min")
    clock.now = at("07:51")
    assert "timer over" in called_out(talk)
    talk.seen()
    clock.now = at("08:10")
    assert called_out(talk) == ""


def test_a_step_due_while_the_chat_was_closed_is_told_when_it_opens(tmp_path: Path, kb: Knowledge) -> None:
    first = chat(tmp_path, kb)
    first.reply("12 buns of 75 g at 60 %")
    first.reply("mixed at 7:00, dough 24")
    ready(first)
    hour = next(one.at for one in first._agenda().coming if one.what == "divide")  # type: ignore[union-attr]
    again = chat(tmp_path, kb, hour)
    ready(again)
    assert called_out(again) == f"{hour:%H:%M}  divide: 12 buns"


def test_a_step_due_is_told_with_the_next_call_but_not_beside_where_it_stands(tmp_path: Path, kb: Knowledge) -> None:
    chat(tmp_path, kb).reply("12 buns of 75 g at 60 %")
    chat(tmp_path, kb).reply("mixed at 7:00, dough 24")
    evening = datetime(2026, 3, 14, 17, 0)
    assert "12 buns" in chat(tmp_path, kb, evening).reply("3 cups of bread flour in grams").render().splitlines()[0]
    assert "divide: 12 buns" not in chat(tmp_path, kb, evening).reply("how long left").render()


def test_every_dough_and_timer_is_on_the_quiet_line_the_most_urgent_first(talk: Chat, clock: Clock) -> None:
    talk.reply("24 rings at 58 % ready by 9 on Sunday, kitchen 19, overnight in the fridge")
    talk.reply("12 buns of 75 g at 60 %")
    talk.reply("mixed at 7:00, dough 24")
    talk.reply("timer 20 min for the pot")
    wide = talk.glance(110)
    assert wide.startswith("pot 07:50 (20 min) · ") and "24 rings" in wide and "12 buns: bulk, " in wide
    assert talk.glance(39) == "pot 07:50 (20 min)"
    clock.now = at("07:52")
    assert talk.glance(39).startswith("now pot")
    talk.reply("stop the timer")
    assert "pot" not in talk.glance(110)


def test_the_quiet_line_and_the_answer_tell_the_same_hour(talk: Chat, clock: Clock) -> None:
    talk.reply("12 buns of 75 g at 60 %")
    told = talk.reply("mixed at 7:00, dough 24").answer["next_at"]
    assert f"{told[11:16]} divide" in talk.glance(79)
    later = talk.reply("up 40 %").answer["next_at"]
    assert later != told and f"{later[11:16]} divide" in talk.glance(79)


def test_the_bell_is_quiet_by_a_setting(talk: Chat) -> None:
    assert not talk.quiet
    talk.reply("bell off")
    assert talk.quiet
    talk.reply("bell on")
    assert not talk.quiet
