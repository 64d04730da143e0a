"""What a card can be written as: each format's file ending and its writer."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from assistant.voice.card import CardFacts, as_label, as_markdown, as_text
from assistant.voice.card_data import as_csv, as_json_ld
from assistant.voice.card_page import as_html

FORMATS: Mapping[str, tuple[str, Callable[[CardFacts], str]]] = {
    "text": ("txt", as_text), "markdown": ("md", as_markdown), "json": ("json", as_json_ld), "csv": ("csv", as_csv),
    "html": ("html", as_html), "label": ("txt", as_label),
}  # fmt: skip
