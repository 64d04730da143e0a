"""The notebook: events in sequence, undo and redo, two hands at once, restarts."""

import sqlite3
import stat
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.notebook import Event, Moved, Notebook, NotKept
from assistant.notebook.rows import COLUMNS, check_sum


def said(text: str, state: dict[str, Any] | None = None, *, asks: bool = False, **more: Any) -> Event:
    """A change to `state`, or a question where `asks`."""
    change = None if asks or state is None else {"to": state}
    return Event(text=text, kind="formula", change=change, state=state, said_at="2026-03-15T06:30", **more)


def note_down(notebook: Notebook, event: Event) -> int:
    return notebook.append(event, after=notebook.tail().seq)


def undo(notebook: Notebook) -> bool:
    target = notebook.undo_target()
    if target is not None:
        note_down(notebook, said("undo", target.state, undoes=target.seq))
    return target is not None


def redo(notebook: Notebook) -> bool:
    target = notebook.redo_target()
    if target is not None:
        note_down(notebook, said("redo", target.state, redoes=target.seq))
    return target is not None


def test_a_new_home_is_private_and_empty(tmp_path: Path) -> None:
    home = tmp_path / "deep" / "home"
    notebook = Notebook.open(home)
    assert notebook.trouble is None and notebook.on_disk
    assert (notebook.tail().seq, notebook.tail().state) == (0, {})
    assert notebook.undo_target() is None and notebook.redo_target() is None
    assert stat.S_IMODE(home.stat().st_mode) == 0o700
    assert stat.S_IMODE((home / "notebook.sqlite3").stat().st_mode) == 0o600
    assert [path.name for path in home.iterdir() if ".new-" in path.name] == []


def test_writes_go_through_to_the_disk(tmp_path: Path) -> None:
    notebook = Notebook.open(tmp_path)
    assert notebook._connection.execute("PRAGMA journal_mode").fetchone()[0] == "wal"
    assert notebook._connection.execute("PRAGMA synchronous").fetchone()[0] == 2  # FULL


def test_a_restart_finds_everything(tmp_path: Path) -> None:
    first = Notebook.open(tmp_path, knowledge="k7")
    assert note_down(first, said("18 rolls of 90 g", {"pieces": 18})) == 1
    assert note_down(first, said("how much salt?", asks=True)) == 2
    first.close()
    again = Notebook.open(tmp_path)
    assert (again.tail().seq, again.tail().state) == (2, {"pieces": 18})
    assert [entry.text for entry in again.entries()] == ["how much salt?", "18 rolls of 90 g"]
    assert again._connection.execute("SELECT schema, knowledge FROM events WHERE seq = 1").fetchone()[:] == (2, "k7")


def test_undo_skips_questions_and_crosses_a_restart(tmp_path: Path) -> None:
    notebook = Notebook.open(tmp_path)
    note_down(notebook, said("18 rolls", {"pieces": 18}))
    note_down(notebook, said("make it 24", {"pieces": 24}))
    note_down(notebook, said("how long at 19?", {"pieces": 24, "asked": "timing"}, asks=True))
    notebook.close()
    notebook = Notebook.open(tmp_path)
    target = notebook.undo_target()
    assert target is not None and target.what.text == "make it 24" and target.state == {"pieces": 18}
    assert undo(notebook) and notebook.tail().state == {"pieces": 18}
    assert undo(notebook) and notebook.tail().state == {}
    assert not undo(notebook)
    assert redo(notebook) and redo(notebook) and not redo(notebook)
    assert notebook.tail().state == {"pieces": 24}
    assert undo(notebook) and notebook.tail().state == {"pieces": 18}
    note_down(notebook, said("30 rolls", {"pieces": 30}))
    assert not redo(notebook), "a new change closes the way back"


def test_entries_leave_out_what_was_taken_back(tmp_path: Path) -> None:
    notebook = Notebook.open(tmp_path)
    note_down(notebook, said("note: flour was thirsty", {"notes": 1}))
    note_down(notebook, said("note: wrong", {"notes": 2}))
    undo(notebook)
    assert [entry.text for entry in notebook.entries(limit=2)] == ["undo", "note: flour was thirsty"]
    kept = {entry.text: entry.taken_back for entry in notebook.entries("formula", taken_back=True)}
    assert kept["note: wrong"] is True and kept["note: flour was thirsty"] is False
    redo(notebook)
    assert "note: wrong" in [entry.text for entry in notebook.entries()]


def test_a_write_on_a_stale_tail_is_turned_away(tmp_path: Path) -> None:
    chat, one_shot = Notebook.open(tmp_path), Notebook.open(tmp_path)
    seen = chat.tail().seq
    note_down(one_shot, said("12 flatbreads", {"pieces": 12}))
    with pytest.raises(Moved):
        chat.append(said("18 rolls", {"pieces": 18}), after=seen)
    assert chat.tail().state == {"pieces": 12}
    assert note_down(chat, said("18 rolls", {"pieces": 18})) == 2
    assert one_shot.tail().state == {"pieces": 18}


def test_events_can_neither_be_changed_nor_removed(tmp_path: Path) -> None:
    notebook = Notebook.open(tmp_path)
    note_down(notebook, said("18 rolls", {"pieces": 18}))
    for attempt in ("DELETE FROM events", "UPDATE events SET text = 'x'"):
        with pytest.raises(sqlite3.IntegrityError):
            notebook._connection.execute(attempt)


def test_a_state_that_is_as_before_is_not_stored_twice(tmp_path: Path) -> None:
    notebook = Notebook.open(tmp_path)
    note_down(notebook, said("18 rolls", {"pieces": 18}))
    note_down(notebook, said("show again", {"pieces": 18}, asks=True))
    stored = notebook._connection.execute("SELECT count(*) FROM events WHERE state IS NOT NULL").fetchone()[0]
    assert stored == 1 and notebook.tail().state == {"pieces": 18}


def test_a_long_state_that_changes_little_takes_little_room(tmp_path: Path) -> None:
    notebook = Notebook.open(tmp_path)
    bakes = [{"name": f"{n} rolls", "steps": [f"{n * k % 97:02}:30" for k in range(60)]} for n in range(12)]
    for count in range(200):
        bakes = [*bakes[1:], {**bakes[count % 12], "name": f"{count} rings"}]
        note_down(notebook, replace(said("rings", {"bakes": bakes}), change={}))
    notebook.close()
    assert Notebook.open(tmp_path).tail().state == {"bakes": bakes}
    assert (tmp_path / "notebook.sqlite3").stat().st_size < 200 * 1500


def test_a_notebook_that_was_closed_is_one_file(tmp_path: Path) -> None:
    notebook = Notebook.open(tmp_path)
    note_down(notebook, said("18 rolls", {"pieces": 18}))
    notebook.close()
    assert [path.name for path in tmp_path.iterdir()] == ["notebook.sqlite3"]


def test_a_notebook_of_the_first_form_is_read_and_gone_on_with(tmp_path: Path) -> None:
    notebook = Notebook.open(tmp_path)
    note_down(notebook, said("18 rolls", {"pieces": 18}))
    notebook.close()
    old = sqlite3.connect(tmp_path / "notebook.sqlite3")
    old.execute("DROP TRIGGER events_stay")
    row = old.execute(f"SELECT {COLUMNS} FROM events").fetchone()
    row = tuple('{"pieces":18}' if isinstance(value, bytes) else value for value in row)
    old.execute("UPDATE events SET state = ?, check_sum = ?", (row[5], check_sum(row)))
    old.execute("PRAGMA user_version = 1")
    old.commit()
    old.close()
    again = Notebook.open(tmp_path)
    assert again.tail().state == {"pieces": 18}
    assert again._connection.execute("PRAGMA user_version").fetchone()[0] == 1, "opening changes nothing"
    note_down(again, said("make it 20", {"pieces": 20}))
    assert again._connection.execute("PRAGMA user_version").fetchone()[0] == 2
    assert undo(again) and again.tail().state == {"pieces": 18}


def test_a_question_does_not_wait_for_another_hand(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    waited: list[float] = []
    notebook, hand = Notebook.open(tmp_path), sqlite3.connect(tmp_path / "notebook.sqlite3", isolation_level=None)
    monkeypatch.setattr(notebook, "_wait", waited.append)
    notebook._connection.execute("PRAGMA busy_timeout = 1")
    hand.execute("BEGIN IMMEDIATE")
    for event in (said("why?", asks=True), said("18 rolls", {"pieces": 18})):
        with pytest.raises(NotKept, match="another program is writing"):
            note_down(notebook, event)
    hand.execute("ROLLBACK")
    assert waited[0] < 1 < waited[1]


def test_a_disk_that_takes_nothing_more_is_said(tmp_path: Path) -> None:
    notebook = Notebook.open(tmp_path)
    note_down(notebook, said("18 rolls", {"pieces": 18}))
    pages = notebook._connection.execute("PRAGMA page_count").fetchone()[0]
    notebook._connection.execute(f"PRAGMA max_page_count = {pages}")
    with pytest.raises(NotKept, match="could not be written"):
        note_down(notebook, said("note: " + "long " * 4000, {"pieces": 19}))
    assert notebook.tail().state == {"pieces": 18}


class Shadow:
    """Undo and redo the simple way: two stacks of whole states."""

    def __init__(self) -> None:
        self.past: list[dict[str, Any]] = []
        self.now: dict[str, Any] = {}
        self.future: list[dict[str, Any]] = []

    def move(self, step: str | int) -> None:
        if isinstance(step, int):
            self.past, self.now, self.future = [*self.past, self.now], {"pieces": step}, []
        elif step == "undo" and self.past:
            self.future.append(self.now)
            self.now = self.past.pop()
        elif step == "redo" and self.future:
            self.past.append(self.now)
            self.now = self.future.pop()


@given(st.lists(st.one_of(st.integers(1, 99), st.sampled_from(["undo", "redo", "ask"])), max_size=25))
def test_any_run_of_changes_undos_and_redos_stands_where_two_stacks_would(steps: list[str | int]) -> None:
    notebook, shadow = Notebook.in_memory(), Shadow()
    for step in steps:
        if isinstance(step, int):
            note_down(notebook, said(f"{step} rolls", {"pieces": step}))
        elif step == "ask":
            note_down(notebook, said("why?", asks=True))
        else:
            undo(notebook) if step == "undo" else redo(notebook)
        shadow.move(step)
        assert notebook.tail().state == shadow.now


def steps_of(notebook: Notebook, call: Callable[[], object]) -> int:
    """How many steps SQLite's machine takes for a call."""
    taken = 0

    def step() -> int:
        nonlocal taken
        taken += 1
        return 0

    notebook._connection.set_progress_handler(step, 1)
    call()
    notebook._connection.set_progress_handler(None, 1)
    return taken


def test_tail_undo_and_append_cost_the_same_at_any_length(tmp_path: Path) -> None:
    notebook = Notebook.open(tmp_path)
    costs = []
    for length in (10, 2000):
        while notebook.tail().seq < length:
            seq = notebook.tail().seq
            notebook.append(said(f"{seq} rolls", {"pieces": seq, "talk": [*range(200)]}), after=seq)
        costs.append(
            (
                steps_of(notebook, notebook.tail),
                steps_of(notebook, notebook.undo_target),
                steps_of(notebook, lambda: note_down(notebook, said("why?", asks=True))),
            )
        )
    assert costs[0] == costs[1]
