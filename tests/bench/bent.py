"""How much bending a line stands: every table line with filler, another order, synonyms or slips put in.

    python tests/bench/bent.py [TABLE ...] [--seed 1] [--show]

Prints the share of bent lines that keep their kind and every expected figure, and the share that are silently wrong
(another figure, and nothing owned up to as unread).
"""

from __future__ import annotations

import argparse
import random
import re
import sys
from datetime import datetime
from pathlib import Path
from typing import Any

import yaml

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "requests")]

from test_requests import NOW, check, reached  # noqa: E402

from assistant.notebook import Notebook  # noqa: E402
from assistant.talk.conversation import Conversation  # noqa: E402
from knowledge import Knowledge, load  # noqa: E402

BEFORE = ("ok ", "right then, ", "hi, ", "please ", "so ", "um ", "hey can you do ", "i think ", "well ", "lol ")
AFTER = (" please", " thanks", ", cheers", " if you can", " ok?", "...", "!")
SYNONYMS = (
    (r"\bhydration\b", ("hyd", "water")),
    (r"\bgrams\b", ("g", "gr")),
    (r"\bpercent\b", ("%", "per cent")),
    (r"(\d) ?%", (r"\1 percent", r"\1 %", r"\1%")),
    (r"\bstarter\b", ("levain", "leaven")),
    (r"\bwholemeal\b", ("whole wheat",)),
    (r"(\d) ?g\b", (r"\1 g", r"\1g", r"\1 grams")),
    (r"\bkitchen\b", ("room",)),
)


def bends(line: str, dice: random.Random) -> list[tuple[str, str]]:
    """(kind of bend, bent line) for one line; a paste of several lines is left alone."""
    if "\n" in line:
        return []
    out = [("filler", dice.choice(BEFORE) + line), ("filler", line + dice.choice(AFTER)), ("shout", line.upper())]
    parts = [part for part in re.split(r", | and (?=\d)", line) if part]
    if len(parts) > 2 and ":" not in line and ";" not in line:
        head, tail = parts[0], parts[1:]
        dice.shuffle(tail)
        out.append(("order", ", ".join([head, *tail])))
    for pattern, choices in SYNONYMS:
        if re.search(pattern, line) and dice.random() < 0.5:
            out.append(("synonym", re.sub(pattern, dice.choice(choices), line, count=1)))
    words = list(re.finditer(r"[a-z]{6,}", line))
    if words:
        word = dice.choice(words)
        at = word.start() + dice.randrange(1, len(word.group()) - 2)
        out.append(("slip", line[:at] + line[at + 1] + line[at] + line[at + 2 :]))
        out.append(("slip", line[:at] + line[at + 1 :]))
    return out


def verdict(case: dict[str, Any], line: str, kb: Knowledge) -> str:
    """ "kept", "owned up" (unread, refused or words named as unread) or "wrong"."""
    now = case.get("now", NOW)
    now = now if isinstance(now, datetime) else datetime.fromisoformat(str(now))
    talk = Conversation(kb, Notebook.in_memory(), now=lambda: now)
    for earlier in case.get("given", []):
        talk.reply(earlier)
    reply = talk.reply(line).as_json()
    kinds = case["kind"] if isinstance(case["kind"], list) else [case["kind"]]
    try:
        assert reply["kind"] in kinds
        for path, wanted in (case.get("answer") or {}).items():
            check(path, reached(reply["answer"], path), wanted)
    except AssertionError:
        return "owned up" if reply["kind"] in ("unread", "refused") or reply["unread"] else "wrong"
    return "kept"


def main() -> None:
    """Bend the tables named, or all of them."""
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("tables", nargs="*")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--show", action="store_true")
    said = options.parse_args()
    dice = random.Random(said.seed)
    kb = load()
    counts: dict[str, dict[str, int]] = {}
    for path in sorted((ROOT / "tests" / "requests").glob("*.yaml")):
        if said.tables and path.stem not in said.tables:
            continue
        for case in yaml.safe_load(path.read_text(encoding="utf-8")):
            lines = [case["say"]] if isinstance(case["say"], str) else case["say"]
            for line in lines:
                for kind, bent in bends(line, dice):
                    found = verdict(case, bent, kb)
                    tally = counts.setdefault(f"{path.stem} {kind}", {"kept": 0, "owned up": 0, "wrong": 0})
                    tally[found] += 1
                    if said.show and found != "kept":
                        print(f"{found:9} {kind:8} {bent}")
    total = {name: sum(tally[name] for tally in counts.values()) for name in ("kept", "owned up", "wrong")}
    every = sum(total.values()) or 1
    for name, tally in counts.items():
        print(f"{name:24} kept {tally['kept']:4}  owned up {tally['owned up']:3}  wrong {tally['wrong']:3}")
    print(f"kept {100 * total['kept'] / every:.1f} %, silently wrong {100 * total['wrong'] / every:.1f} % of {every}")


if __name__ == "__main__":
    main()
