"""A recipe line as it was meant: markup, entities, bullets, odd spaces and damaged characters put right.

Nothing of a paste is ever run or shown raw: tags and control characters are dropped here, before anything else looks.
"""

from __future__ import annotations

import html
import re
import unicodedata
from dataclasses import dataclass

LONGEST_LINE = 600
"""Characters of one line that are looked at; a longer one is prose or a hostile paste."""

_ESCAPES = re.compile(r"\x1b\[[0-9;?]*[ -/]*[@-~]|\x1b\][^\x07\x1b]*(?:\x07|\x1b\\)?|\x1b.?")
_TAGS = re.compile(r"</?[A-Za-z!][^<>]{0,300}>")
_LINK = re.compile(r"!?\[([^\[\]]{0,200})\]\([^()\s]{0,300}\)")
_BOX = re.compile(r"^\s*(?:[-*+•]\s+)?\[[ xX]?\]\s*")
_BULLET = re.compile(r"^\s*(?:[-*+•·●○◦▪▫■□▢☐☑✓✔►▸‣–—~]+\s+|[•·●○◦▪▫■□▢☐☑✓✔►▸‣]\s*|\d{1,2}[.)]\s+(?=\d))")
_HEADING = re.compile(r"^\s{0,3}#{1,6}\s+")
_BACKSLASH = re.compile(r"\\([\\`*_{}\[\]()#+\-.!~&|<>])")
_EMPHASIS = re.compile(r"\*\*|__|~~|(?<!\w)[*_](?=\S)|(?<=\S)[*_](?!\w)|`")
_ODD_SPACE = re.compile(r"[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000\t]")
_ZERO_WIDTH = re.compile(r"[\u00ad\u034f\u061c\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u206f\ufe00-\ufe0f\ufeff]")
_SLASHES = str.maketrans({"⁄": "/", "∕": "/", "÷": "/"})
_DASHES = str.maketrans({"‐": "-", "‑": "-", "‒": "–", "—": "–", "―": "–", "−": "-"})
_RULER = re.compile(r"^[\s|:+=_*-]+$")
_DAMAGED = re.compile("[ÂÃâ][\u0080-\u00ff\u0152-\u02dc\u2010-\u2122]")


@dataclass(frozen=True, slots=True)
class PlainLine:
    """A line ready to be read. heading: set off as one by its markup; lost: a character was lost in copying."""

    text: str
    heading: bool = False
    bullet: bool = False
    lost: bool = False


def plain_line(raw: str) -> PlainLine:
    """The line without markup, with every fraction written `1/2` and every dash that joins numbers kept.

    raw: one line of any text; only the first LONGEST_LINE characters are used.
    """
    text = harmless(raw[:LONGEST_LINE])
    heading = bool(_HEADING.match(text))
    text = _HEADING.sub("", text)
    bullet = bool(_BOX.match(text) or _BULLET.match(text))
    text = _BULLET.sub("", _BOX.sub("", text), count=1)
    if _RULER.match(text):
        return PlainLine("", heading, bullet)
    if text.count("|") >= 2 or text.lstrip().startswith("|"):
        text = " ".join(cell.strip() for cell in text.split("|"))
    text = _LINK.sub(r"\1", text)
    text = _EMPHASIS.sub("", _BACKSLASH.sub(r"\1", text))
    lost = "\ufffd" in text
    text = written_fractions(text.replace("\ufffd", " ").translate(_SLASHES).translate(_DASHES))
    text = re.sub(r"(?<=\d)['’](?=\d{3}\b)", "", re.sub(r"(?<=\d)\s?#(?=\s)", " lb", text))  # 1'000 g, 1# flour
    return PlainLine(" ".join(text.split()), heading, bullet, lost)


def harmless(text: str) -> str:
    """The text without escapes, tags, control and invisible characters; entities resolved, mojibake repaired."""
    text = _ESCAPES.sub("", text)
    for _ in range(2):  # pages double-escape: &amp;frac12;
        resolved = html.unescape(text)
        if resolved == text:
            break
        text = resolved
    text = _ESCAPES.sub("", _TAGS.sub(" ", text))
    text = _ZERO_WIDTH.sub("", _ODD_SPACE.sub(" ", text))
    if _DAMAGED.search(text):
        text = _undamaged(text)
    return "".join(c for c in text if c in "\n " or unicodedata.category(c)[0] != "C")


def _undamaged(text: str) -> str:
    """UTF-8 once read as Windows-1252 ("Â½", "â…“", "â€“") turned back, run by run."""

    def repaired(match: re.Match[str]) -> str:
        run = match.group(0)
        data = b""
        for character in run:
            try:
                data += character.encode("cp1252")
            except UnicodeEncodeError:
                if ord(character) > 0xFF:
                    return run
                data += bytes([ord(character)])
        try:
            return data.decode("utf-8")
        except UnicodeDecodeError:
            return run.replace("Â", "")

    return re.sub("[\u0080-\u02dc\u2010-\u2122]{2,4}", repaired, text)


def written_fractions(text: str) -> str:
    """Vulgar fractions spelled out with spaces around them: "2½" becomes "2 1/2"."""
    parts: list[str] = []
    for character in text:
        name = unicodedata.name(character, "") if ord(character) > 127 else ""
        if name.startswith("VULGAR FRACTION") and len(written := unicodedata.normalize("NFKC", character)) > 2:
            parts.append(f" {written.replace(chr(0x2044), '/')} ")
        else:
            parts.append(character)
    return "".join(parts)
