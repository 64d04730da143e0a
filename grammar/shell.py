"""The harmless words round a line, for readers that take it whole: what opens it up to a comma, what closes it."""

from __future__ import annotations

from collections.abc import Sequence

from grammar.aspects import marked
from grammar.frames import Line
from grammar.lexicon import Lexicon, fold
from grammar.phrases import phrases
from grammar.scanner import scan
from grammar.tokens import Token, still_said


def without_shell(line: Line) -> Line | None:
    """The line without the small talk at its ends; None where it has none, or is nothing else."""
    if "\n" in line.text.strip():
        return None
    tokens = line.tokens
    first, last = _opened(tokens), _closed(tokens, line.lexicon)
    if first >= last or (first == 0 and last == len(tokens)):
        return None
    end = tokens[last].start if last < len(tokens) else len(line.text)
    asked = next((sign for sign in "?:" if line.text.rstrip().endswith(sign)), "")
    text = line.text[tokens[first].start : end].rstrip(" ,;?:") + asked
    return part_of(line, text)


def without_opening(text: str, lexicon: Lexicon) -> str:
    """A text without the small talk before its first comma; words that take something back are none."""
    if "," not in text[:_OPENING] or "\n" in text:
        return text
    tokens = scan(text, lexicon)
    first = _opened(tokens)
    said = {fold(token.text) for token in tokens[:first]}
    return text if not first or said & lexicon.takes_back else text[tokens[first].start :]


_OPENING = 40
"""Characters within which a greeting ends."""


def part_of(line: Line, text: str) -> Line:
    """A stretch of a line, as a line of its own in the same talk."""
    part = Line(text, scan(text, line.lexicon), (), line.lexicon, line.context)
    return with_phrases(part) if line.phrases else part


def with_phrases(line: Line) -> Line:
    """A line that was only cut into words, with its phrases."""
    pieces = marked(phrases(line.tokens), still_said(line.text, line.tokens), line.lexicon)
    return Line(line.text, line.tokens, pieces, line.lexicon, line.context)


def _opened(tokens: Sequence[Token]) -> int:
    """The place of the first token behind the harmless words that a comma cuts off."""
    place = next((i for i, token in enumerate(tokens) if not _harmless(token)), 0)
    cut_off = place > 0 and tokens[place].kind == "MARK" and tokens[place].text in ",;:"
    return place + 1 if cut_off and place + 1 < len(tokens) else 0


def _closed(tokens: Sequence[Token], lexicon: Lexicon) -> int:
    """The place behind the last token that is not harmless: a sign, or small talk of a chatty phrase. What closes a
    question about a thing ("is a stone necessary") is no small talk."""
    place = len(tokens)
    while place > 0 and (_harmless(tokens[place - 1]) or tokens[place - 1].kind == "MARK"):
        place -= 1
    asks = any("need" in (shape for shape, _ in lexicon.shapes.get(fold(t.text), ())) for t in tokens[place:])
    return len(tokens) if asks else place


def _harmless(token: Token) -> bool:
    return token.kind == "FILL" or token.idle
