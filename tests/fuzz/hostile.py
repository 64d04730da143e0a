"""Conversations that nobody would hold, from a seed: the trade's words, numbers, signs and controls in any order.

python -m tests.fuzz.hostile 100000 [seed]     says so many lines and prints each fault found
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from datetime import datetime
from random import Random

from assistant.command.lines import beyond_bounds
from assistant.command.plain import harmless
from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from knowledge import Knowledge
from knowledge.vocabulary import vocabulary
from tests.e2e.test_any_text import EXAMPLES, KB, UNITS, faults

NUMBERS = (
    "0", "-1", "-0.5", "½", "1 1/2", "1/0", "0/3", "1e308", "1e-9", "12", "24", "80", "66", "2.5", "1,000", "1.000.000",
    "99999", "999999999999", "0.0001", "7:30", "25:61", "24:00", "31 April", "29 February", "2026-02-30", "9999-12-31",
    "0001-01-01", "the 32nd", "a dozen", "half", "no", "one", "twenty-four", "3-4", "10 to 5", "٣", "²", "…", "...",
)  # fmt: skip
SIGNS = (
    ",", ".", "?", "!", ";", ":", "-", "–", "/", "x", "×", "%", "‰", "(", ")", "[", '"', "'", "<<<", ">>>", "#", "|",
    "\t", "\x00", "\x07", "\x1b[31m", "\x1b]0;x\x07", "\r", "\u202e", "\u200b", "\U000e0041", "\ud800", "é", "ß", "麦",
    "🥖", "a" * 300, "=", "+", "@", "~", "\\", "${HOME}", "%s", "{0}",
)  # fmt: skip
TURNS = (
    "make it", "no", "without", "and", "at", "for", "instead of", "undo", "redo", "why", "how long", "show the dough",
    "plan for", "mixed at", "kitchen", "sorry,", "no wait", "half the oven", "my usual is", "forget", "note:", "again",
    "1", "the second", "what did I bake on", "card as csv", "ready by", "started bulk", "pot takes", "each", "in all",
)  # fmt: skip
QUESTIONS = ("how long does bulk take at", "why is it", "what is", "how much", "what did I bake on", "is it ready at")
"""Ways to begin that ask: what follows changes no dough."""
_BEGUN = "24 rolls of 80 g at 66 %, 20 % starter"


def line(random: Random, words: list[str]) -> str:
    """One line."""
    kind = random.random()
    if kind < 0.15:
        example = random.choice(EXAMPLES)
        return example[: random.randrange(len(example))] + " " + random.choice(EXAMPLES)[random.randrange(9) :]
    if kind < 0.2:
        return random.choice((*TURNS, *NUMBERS)) * random.randrange(1, 400)
    said = random.choices((words, NUMBERS, UNITS, TURNS, SIGNS), (5, 4, 2, 2, 1), k=random.randrange(1, 12))
    return random.choice((" ", " ", " ", "", "\n")).join(random.choice(kinds) for kinds in said)


def found(seed: int, kb: Knowledge = KB, turns: int = 4) -> Iterator[str]:
    """What goes wrong in one conversation of so many lines after a dough; each fault with the line it came of."""
    random, words = Random(seed), list(vocabulary(kb))
    talk = Conversation(kb, Notebook.in_memory(), now=lambda: datetime(2026, 3, 14, 7, 30))
    if random.random() < 0.7:
        talk.reply(_BEGUN)
    for turn in range(turns):
        asks = turn == turns - 1
        said = line(random, words)
        said = f"{random.choice(QUESTIONS)} {said.split('.')[0]}?" if asks else said
        if beyond_bounds(said) is not None:
            continue
        said = harmless(said)
        dough = talk.bench.bake
        try:
            reply = talk.reply(said)
            told = list(faults(reply.as_json(), said))
        except Exception as wrong:
            told = [f"{type(wrong).__name__}: {wrong}"]
        for fault in told:
            yield f"{seed}: {said!r} {fault}"
        if asks and not told and reply.kind in ("explanation", "timing", "unread", "refused", "recall", "help"):
            after = talk.bench.bake
            if (dough and dough.said) != (after and after.said):
                yield f"{seed}: {said!r} is answered as {reply.kind} and changes the dough"


def main(lines: int, first: int) -> None:
    """So many lines from a seed on; each fault is printed as it is found."""
    bad = 0
    for seed in range(first, first + lines // 4):
        for fault in found(seed):
            bad += 1
            print(fault[:600], flush=True)
    print(f"{lines} lines from seed {first}: {bad} faults")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000, int(sys.argv[2]) if len(sys.argv) > 2 else 0)
