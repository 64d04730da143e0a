"""A notebook at fault: one clear line, the file untouched to the last byte, and the answer still comes."""

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from assistant.notebook import Event, Notebook, NotKept
from assistant.notebook import file as notebook_file

NAME = "notebook.sqlite3"


def written(home: Path, lines: int = 30) -> Path:
    notebook = Notebook.open(home)
    for count in range(1, lines + 1):
        event = Event(
            text=f"{count} rolls of 80 g",
            kind="formula",
            change={"pieces": count},
            state={"pieces": count, "filling": "poppy " * 60},
            said_at="2026-03-15T06:30",
        )
        notebook.append(event, after=count - 1)
    notebook.close()
    return home / NAME


def overwrite(path: Path, at: int, junk: bytes) -> None:
    with path.open("r+b") as file:
        file.seek(at)
        file.write(junk)


def another_program(path: Path) -> None:
    path.unlink()
    connection = sqlite3.connect(path)
    connection.execute("CREATE TABLE races (boat TEXT)")
    connection.commit()
    connection.close()


def newer(path: Path) -> None:
    connection = sqlite3.connect(path)
    connection.execute("PRAGMA user_version = 99")
    connection.close()


def a_table_short(path: Path) -> None:
    path.unlink()
    connection = sqlite3.connect(path)
    connection.executescript("PRAGMA application_id = 0x42454E43; PRAGMA user_version = 1; CREATE TABLE notes (x)")
    connection.close()


def last_line_smudged(path: Path) -> None:
    body = path.read_bytes()
    overwrite(path, body.rindex(b"30 rolls of 80 g"), b"31")


DAMAGE: dict[str, tuple[Callable[[Path], object], str]] = {
    "text": (lambda path: path.write_text("shopping list: flour, malt, poppy seed\n" * 20), "of another kind"),
    "cut_short": (lambda path: path.write_bytes(path.read_bytes()[:50]), "damaged"),
    "cut_in_half": (lambda path: path.write_bytes(path.read_bytes()[:9000]), "damaged"),
    "first_page_gone": (lambda path: overwrite(path, 100, b"\x00" * 3900), "damaged"),
    "a_page_gone": (lambda path: overwrite(path, 4096 * 3, b"\xff" * 4096), "damaged"),
    "last_line_smudged": (last_line_smudged, "does not match its check sum"),
    "header_gone": (lambda path: overwrite(path, 0, b"\x00" * 100), "of another kind"),
    "another_program": (another_program, "another program"),
    "newer": (newer, "newer version"),
    "a_table_short": (a_table_short, "table of events is missing"),
}


@pytest.mark.parametrize("damage", DAMAGE)
def test_a_notebook_at_fault_is_named_and_left_alone(tmp_path: Path, damage: str) -> None:
    spoil, says = DAMAGE[damage]
    path = written(tmp_path)
    spoil(path)
    before = path.read_bytes()
    notebook = Notebook.open(tmp_path)
    assert notebook.trouble is not None and not notebook.on_disk
    assert says in notebook.trouble and str(path) in notebook.trouble and "\n" not in notebook.trouble
    assert notebook.tail().state == {}
    notebook.append(Event(text="x", kind="formula", change={}, state={"pieces": 2}, said_at="now"), after=0)
    assert notebook.tail().state == {"pieces": 2}
    notebook.close()
    assert path.read_bytes() == before
    assert [found.name for found in tmp_path.iterdir()] == [NAME]


@pytest.mark.parametrize("what", ["file", "folder"])
def test_a_read_only_notebook_is_read_and_left_alone(tmp_path: Path, what: str) -> None:
    home = tmp_path / "home"
    path = written(home)
    locked = path if what == "file" else home
    mode = locked.stat().st_mode
    locked.chmod(0o444 if what == "file" else 0o555)
    before = path.read_bytes()
    try:
        notebook = Notebook.open(home)
        assert notebook.trouble is not None and "read-only" in notebook.trouble
        assert notebook.tail().state["pieces"] == 30, "what was in hand is still in hand"
        target = notebook.undo_target()
        assert target is not None and target.state["pieces"] == 29
        notebook.append(Event(text="x", kind="formula", change={}, state={"pieces": 2}, said_at="now"), after=30)
        assert notebook.tail().state == {"pieces": 2}
        assert path.read_bytes() == before and [found.name for found in home.iterdir()] == [NAME]
    finally:
        locked.chmod(mode)


def test_a_home_that_is_no_folder_is_named(tmp_path: Path) -> None:
    home = tmp_path / "home"
    home.write_text("a file stands here")
    notebook = Notebook.open(home)
    assert notebook.trouble is not None and "cannot be used" in notebook.trouble
    assert home.read_text() == "a file stands here"


def test_a_smudged_line_further_up_is_left_out_of_what_is_recalled(tmp_path: Path) -> None:
    path = written(tmp_path)
    body = path.read_bytes()
    overwrite(path, body.index(b"12 rolls of 80 g"), b"99")
    notebook = Notebook.open(tmp_path)
    texts = [entry.text for entry in notebook.entries()]
    assert len(texts) == 29 and "12 rolls of 80 g" not in texts and "99 rolls of 80 g" not in texts


def test_damage_met_while_writing_keeps_the_line_back(tmp_path: Path) -> None:
    notebook = Notebook.open(tmp_path)
    notebook.append(Event(text="18 rolls", kind="formula", change={}, state={"pieces": 18}, said_at="now"), after=0)
    notebook._connection.execute("DROP TABLE events")
    with pytest.raises(NotKept):
        notebook.append(Event(text="x", kind="formula", change={}, state={}, said_at="now"), after=1)


def test_another_call_that_is_writing_is_not_taken_for_damage(tmp_path: Path) -> None:
    path = written(tmp_path)
    hand = sqlite3.connect(path, isolation_level=None)
    hand.execute("BEGIN IMMEDIATE")
    notebook = Notebook.open(tmp_path)
    assert notebook.trouble is None and notebook.tail().seq == 30
    hand.execute("ROLLBACK")


def test_half_made_notebooks_do_not_stand_in_the_way(tmp_path: Path) -> None:
    (tmp_path / f"{NAME}.new-{2**22 + 1}").write_bytes(b"left by a call that was killed")
    assert Notebook.open(tmp_path).trouble is None
    assert (tmp_path / NAME).read_bytes()[68:72] == notebook_file.APPLICATION_ID.to_bytes(4, "big")
