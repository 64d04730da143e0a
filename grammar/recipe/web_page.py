"""A web page to the Recipe data it carries, or to its visible text with one line for each block.

Scripts and styles are skipped; nothing is fetched or run.
"""

from __future__ import annotations

import re
from html.parser import HTMLParser

from grammar.recipe.data import BadRecipeData, RecipeData, data_in_json

HTML = re.compile(
    r"<\s*(?:!doctype|html|head|body|script|div|p|ul|ol|li|table|section|article|span|h[1-6]|br|tr|td|meta)\b", re.I
)
_BLOCK = frozenset(
    {
        "p", "div", "li", "ul", "ol", "br", "tr", "table", "h1", "h2", "h3", "h4", "h5", "h6", "section",
        "article", "header", "footer", "main", "aside", "dt", "dd", "blockquote", "pre", "hr", "label",
    }
)  # fmt: skip
_SILENT = frozenset(
    {
        "script", "style", "noscript", "template", "svg", "iframe", "object", "embed", "canvas", "video",
        "audio", "select", "button", "head", "nav", "form",
    }
)  # fmt: skip
_HEADINGS = frozenset({"h1", "h2", "h3", "h4", "h5", "h6"})


def parse_page(text: str) -> tuple[RecipeData | None, str]:
    """(the page's Recipe data if it carries any, the page's visible text with one line for each block)."""
    reader = _PageReader()
    reader.feed(text)
    reader.close()
    found: RecipeData | None = None
    for block in reader.data_blocks:
        try:
            found = data_in_json(block)
        except BadRecipeData:
            continue  # a page with a broken block still has its visible text
        if found is not None:
            return found, ""
    if reader.marked:
        return RecipeData(name=reader.title, ingredients=tuple(reader.marked)), ""
    return None, reader.text()


class _PageReader(HTMLParser):
    """Visible text by block, JSON-LD blocks, and elements marked up as recipe ingredients."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.data_blocks: list[str] = []
        self.marked: list[str] = []
        self.title = ""
        self._parts: list[str] = []
        self._silent = 0
        self._data: list[str] | None = None
        self._mark: list[str] | None = None
        self._mark_depth = 0
        self._in_title = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = {name: value or "" for name, value in attrs}
        if tag == "script" and "ld+json" in named.get("type", "").lower():
            self._data = []
            return
        if tag == "title":
            self._in_title = True
        if tag in _SILENT:
            self._silent += 1
            return
        if self._silent:
            return
        if tag in _BLOCK:
            self._parts.append("\n# " if tag in _HEADINGS else "\n- " if tag == "li" else "\n")
        elif tag in ("td", "th"):
            self._parts.append(" ")
        if self._mark is not None:
            self._mark_depth += tag not in ("br", "img", "input", "hr", "meta", "link")
        elif named.get("itemprop", "").lower() in ("recipeingredient", "ingredients"):
            self._mark, self._mark_depth = [], 1

    def handle_endtag(self, tag: str) -> None:
        if tag == "title":
            self._in_title = False
        if tag == "script" and self._data is not None:
            self.data_blocks.append("".join(self._data))
            self._data = None
            return
        if tag in _SILENT:
            self._silent = max(0, self._silent - 1)
            return
        if tag in _BLOCK and not self._silent:
            self._parts.append("\n")
        if self._mark is not None:
            self._mark_depth -= 1
            if self._mark_depth <= 0:
                said = " ".join("".join(self._mark).split())
                if said:
                    self.marked.append(said)
                self._mark = None

    def handle_data(self, data: str) -> None:
        if self._data is not None:
            self._data.append(data)
            return
        if self._in_title and not self.title:
            self.title = " ".join(data.split())[:120]
        if self._silent:
            return
        self._parts.append(data.replace("\n", " "))
        if self._mark is not None:
            self._mark.append(data)

    def text(self) -> str:
        """The visible text, one line for each block."""
        return "\n".join(line for line in "".join(self._parts).splitlines() if line.strip(" #-"))
