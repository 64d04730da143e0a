"""How the parts of a page look: the terminal's own colours, sparingly; the words carry the meaning without them."""

from __future__ import annotations

from collections.abc import Mapping

# Roles of a page's lines and the parts of the desk, as styles of prompt_toolkit. Nothing here is needed to read a page.
STYLES: Mapping[str, str] = {
    "head": "bold",
    "warn": "ansired",
    "note": "ansibrightblack",
    "ask": "ansicyan",
    "mark": "ansicyan",
    "bottom-toolbar": "noreverse ansibrightblack",
    "bottom-toolbar.text": "noreverse ansibrightblack",
    "auto-suggestion": "ansibrightblack",
    "completion-menu": "noreverse bg:default fg:default",
    "completion-menu.completion": "noreverse bg:default fg:default",
    "completion-menu.completion.current": "reverse",
    "completion-menu.multi-column-meta": "noreverse bg:default fg:default",
}

_SPELLINGS = {
    "°C": "C", "°F": "F", "°": " deg ", "½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "×": "x", "·": "-",
    "–": "-", "—": "-", "−": "-", "…": "...", "→": "->", "≈": "about ", "±": "+/-", "≥": "at least ", "≤": "at most ",
    "“": '"', "”": '"', "‘": "'", "’": "'", "\u00a0": " ", "█": "#", "─": "-", "│": "|",
}  # fmt: skip


def spelled(text: str, encoding: str | None) -> str:
    """The text in characters that the terminal's encoding has; others are spelled out, or become a question mark."""
    wanted = encoding or "utf-8"
    try:
        text.encode(wanted)
        return text
    except (UnicodeEncodeError, LookupError):
        for sign, spelling in _SPELLINGS.items():
            if sign in text and not _has(wanted, sign):
                text = text.replace(sign, spelling)
        wanted = wanted if _has(wanted, "a") else "ascii"
        return text.encode(wanted, "replace").decode(wanted)


def _has(encoding: str, sign: str) -> bool:
    try:
        sign.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return False
    return True

