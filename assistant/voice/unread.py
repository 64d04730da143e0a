"""What is said when a line was not understood, or could be taken in two ways."""

from __future__ import annotations

from assistant.voice.page import Line, Page
from grammar.reader import Read


def unread_page(found: Read) -> Page:
    """The line with the unclear words marked, what was understood, and the nearest things that can be answered."""
    blocks = [Line("I could not make a request of that.", role="warn")]
    unclear = set(found.unknown)
    marked = found.text
    for word in sorted(unclear, key=len, reverse=True):
        marked = marked.replace(word, f"[{word}]")
    if unclear and len(marked) < 300:
        blocks.append(Line(marked.strip(), indent=2))
    known = [t.text for t in found.tokens if t.kind not in ("JUNK", "FILL", "MARK", "LINK")]
    if known:
        blocks.append(Line("understood: " + ", ".join(known[:12])))
    near = [reading.frame.examples[0] for reading in found.readings[:3] if reading.frame.examples]
    if near:
        blocks.append(Line("nearest: " + "; ".join(dict.fromkeys(near))))
    else:
        blocks.append(Line("Say it another way, or type help to see what can be asked."))
    return Page(tuple(blocks))


def tie_page(found: Read) -> Page:
    """Two readings lie too close together: which one is meant?"""
    first, second = found.readings[:2]
    ask = [reading.frame.examples[0] for reading in (first, second) if reading.frame.examples]
    blocks = [Line("That can be taken in two ways. Which is meant?", role="ask")]
    blocks.extend(Line(f"like: {example}", indent=2) for example in ask)
    return Page(tuple(blocks))
