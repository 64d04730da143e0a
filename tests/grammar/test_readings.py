"""How every line of the request tables is read, kept beside this file: a changed reading shows up in review.

After a change that is meant: BENCHSIDE_REWRITE=1 pytest tests/grammar/test_readings.py
"""

from __future__ import annotations

import os
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import yaml

from assistant.talk.lexicon import lexicon
from grammar.reader import read
from grammar.requests import frames
from knowledge import load

TABLES = Path(__file__).parents[1] / "requests"
KEPT = Path(__file__).parent / "readings.txt"


def corpus() -> list[str]:
    """Every line of the tables that stands alone, once, in the order of the tables."""
    lines: dict[str, None] = {}
    for path in sorted(TABLES.glob("*.yaml")):
        for case in yaml.safe_load(path.read_text(encoding="utf-8")) or []:
            for line in [case["say"]] if isinstance(case["say"], str) else case["say"]:
                if not case.get("given") and "\n" not in line:
                    lines[line] = None
    return list(lines)


def said(value: Any) -> Any:
    """A request as its name and what was said, figures short."""
    if is_dataclass(value) and not isinstance(value, type):
        pairs = ((one.name, getattr(value, one.name)) for one in fields(value))
        told = ", ".join(f"{name}={said(part)}" for name, part in pairs if part not in (None, (), False, ""))
        return f"{type(value).__name__}({told})"
    if isinstance(value, tuple):
        return "[" + ", ".join(str(said(part)) for part in value) + "]"
    return f"{value:.6g}" if isinstance(value, float) else value


def readings() -> str:
    """All of them, as the kept file holds them."""
    words, kinds = lexicon(load()), frames()
    out = []
    for line in corpus():
        best = read(line, words, kinds).best
        unread = f"  unread: {', '.join(best.unread)}" if best and best.unread else ""
        out.append(f"{line}\n    {said(best.request) if best else 'not read'}{unread}")
    return "\n".join(out) + "\n"


def test_every_line_is_read_as_it_was_looked_at() -> None:
    now = readings()
    if os.environ.get("BENCHSIDE_REWRITE"):
        KEPT.write_text(now, encoding="utf-8")
    kept = KEPT.read_text(encoding="utf-8")
    changed = [(a, b) for a, b in zip(kept.split("\n"), now.split("\n"), strict=False) if a != b]
    assert now == kept, changed[:10]
