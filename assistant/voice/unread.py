"""What is said when a line was not understood, or could be taken in several ways."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.voice.page import Line, Page
from grammar.reader import Read


def unread_page(found: Read, near: Sequence[str]) -> Page:
    """The line with the unclear words marked, what was understood, and the nearest that can be answered, in words."""
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
    if near:
        blocks.append(Line("Was it this?", role="ask"))
        blocks.extend(_numbered(near))
    else:
        blocks.append(Line("Say it another way, or type help to see what can be asked."))
    return Page(tuple(blocks))


def tie_page(near: Sequence[str]) -> Page:
    """Several readings lie too close together: which one is meant?"""
    return asked_page("That can be taken in several ways. Which is meant?", near)


def number_page(figure: str, near: Sequence[str]) -> Page:
    """A number was left over that may change the answer: what is it?"""
    return asked_page(f"What is the {figure}? A word beside it is enough, or a number of these:", near)


def asked_page(question: str, near: Sequence[str]) -> Page:
    """A question with the readings that would answer it, numbered."""
    return Page((Line(question, role="ask"), *_numbered(near)))


def _numbered(near: Sequence[str]) -> list[Line]:
    return [Line(f"{place}  {said}", indent=2) for place, said in enumerate(near, 1)]
