"""Every table of requests beside this file: real lines, and what must come back.

A case:
    say: [several ways of saying one thing]     # each is tried on its own
    given: [lines said before]                  # optional
    now: 2026-03-14T07:30                       # optional
    kind: formula                               # one kind or a list of them
    # number: within 0.6 (or 0.1 %); [low, high]; text; null
    answer: {hydration_pct: 66, flour_g: [900, 903], mix.starter.g: 120}
    refuses: regex over `why`                   # for refusals
    text: regex the page must show; not_text: regex it must not
    unread: [words]                             # default: nothing may be unread; "any" allows it
    assumed: regex; cautions: regex; read_as: regex
    echo: any                                   # a figure of the line may stand for another: "3 to 1" for 75 %
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
import yaml

from assistant.notebook import Notebook
from assistant.papers.cards import Cards
from assistant.talk.conversation import Conversation
from knowledge import Knowledge, load

HERE = Path(__file__).parent
NOW = datetime(2026, 3, 14, 7, 30)
ECHOED = frozenset(
    ["formula", "conversion", "timing", "feed", "water", "plan", "loads", "swap", "mend", "topping", "bath", "cost"]
)
"""Kinds of answer that work from the figures of the line; the others keep or weigh them, in units of their own."""


def cases() -> Iterator[Any]:
    seen: dict[tuple[str, str], str] = {}
    for path in sorted(HERE.glob("*.yaml")):
        for case in yaml.safe_load(path.read_text(encoding="utf-8")) or []:
            given = "\n".join(case.get("given", []))
            for line in [case["say"]] if isinstance(case["say"], str) else case["say"]:
                assert (given, line) not in seen, f"{path.name} and {seen[given, line]} both hold {line!r}"
                seen[given, line] = path.name
                yield pytest.param(case, line, id=f"{path.stem}: {line[:70]}")


@pytest.fixture(scope="session")
def kb() -> Knowledge:
    return load()


@pytest.mark.parametrize(("case", "line"), list(cases()))
def test_request(case: dict[str, Any], line: str, kb: Knowledge, tmp_path: Path) -> None:
    now = case.get("now", NOW)
    now = now if isinstance(now, datetime) else datetime.fromisoformat(str(now))
    talk = Conversation(kb, Notebook.in_memory(), now=lambda: now, cards=Cards(tmp_path / "cards"))
    for earlier in case.get("given", []):
        talk.reply(earlier)
    reply = talk.reply(line).as_json()
    kinds = case["kind"] if isinstance(case["kind"], list) else [case["kind"]]
    assert reply["kind"] in kinds, reply["text"]
    if case.get("unread") != "any":
        assert reply["unread"] == case.get("unread", []), reply["text"]
    for path, wanted in (case.get("answer") or {}).items():
        check(path, reached(reply["answer"], path), wanted)
    if "refuses" in case:
        assert re.search(case["refuses"], str(reply["answer"]["why"]), re.I), reply["answer"]
    for field in ("text", "assumed", "cautions", "read_as"):
        if field in case:
            said = reply[field] if isinstance(reply[field], str) else "\n".join(reply[field])
            assert re.search(case[field], said, re.I), f"{field}: {said}"
    if case.get("echo") != "any":
        tokens = talk.read(line).tokens
        gone = figures(line) if any(token.taken_back for token in tokens) else set()
        lost = unheard(line, reply) - gone if reply["kind"] in ECHOED else set()
        assert not lost, f"{lost} of the line stand nowhere in what was read: {reply['read_as']}"
    if "not_text" in case:
        assert not re.search(case["not_text"], reply["text"], re.I), reply["text"]


def unheard(line: str, reply: dict[str, Any]) -> set[float]:
    """The figures of a line that come back neither in what was read, nor in what was not, nor in what is said."""
    if "\n" in line.strip():
        return set()
    said = (reply["read_as"], *reply["unread"], reply["text"], str(reply["answer"].get("why")))
    return figures(line) - figures(" ".join(said))


def figures(text: str) -> set[float]:
    """The plain numbers of a text."""
    return {float(found.replace(",", ".")) for found in re.findall(r"\d+(?:[.,]\d+)?", text)}


def reached(value: Any, path: str) -> Any:
    """What stands at a dotted path: keys, list places, or the row of a list whose item is named."""
    for step in path.split("."):
        if isinstance(value, list):
            if step.lstrip("-").isdigit():
                value = value[int(step)]
            elif step == "length":
                value = len(value)
            else:
                value = next(
                    (row for row in value if step in (row.get("item"), row.get("cause"), row.get("step"))), None
                )
        else:
            assert isinstance(value, dict), f"nothing at {path}"
            value = value.get(step)
        if value is None:
            return None
    return value


def check(path: str, got: Any, wanted: Any) -> None:
    """A number within its tolerance, a range, a word, a pattern (between slashes) or nothing."""
    if isinstance(wanted, list) and len(wanted) == 2 and all(isinstance(x, int | float) for x in wanted):
        assert isinstance(got, int | float), f"{path} is {got!r}"
        assert wanted[0] <= got <= wanted[1], f"{path} is {got}, not within {wanted}"
    elif isinstance(wanted, int | float) and not isinstance(wanted, bool):
        assert isinstance(got, int | float), f"{path} is {got!r}"
        assert abs(got - wanted) <= max(0.06, abs(wanted) * 0.001), f"{path} is {got}, not {wanted}"
    elif isinstance(wanted, str) and wanted.startswith("/"):
        assert re.search(wanted.strip("/"), str(got), re.I), f"{path} is {got!r}"
    else:
        assert got == wanted, f"{path} is {got!r}, not {wanted!r}"
