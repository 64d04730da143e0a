"""What comes back for one line: the machine form and the page a person sees."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from assistant.voice.page import Line, Page, rendered

if TYPE_CHECKING:
    from assistant.talk.bench import Bench


class Unclear(Exception):
    """A request that can be taken in more than one way; the baker is asked, and nothing changes.

    Args:
        question: what to ask, one sentence.
        near: the readings, each a line that could be typed instead.
    """

    def __init__(self, question: str, near: tuple[str, ...]) -> None:
        super().__init__(question)
        self.question = question
        self.near = near


@dataclass(frozen=True, slots=True)
class Outcome:
    """An answer as its topic makes it.

    kind, answer: as the machine form names them; read_as: what was understood, every quantity with its unit; page: what
    a person sees; bench: the bench afterwards where it changed; change: what is noted of that change (plain JSON with
    at least "what"), None where the line only asked; unread: further words the answer could make nothing of;
    focus: the request a follow-up continues, where it is not the request answered; asked: names of slots an open
    question asks for.
    """

    kind: str
    answer: Mapping[str, Any]
    read_as: str
    page: Page
    assumed: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    unread: tuple[str, ...] = ()
    bench: Bench | None = None
    change: Mapping[str, Any] | None = None
    focus: Any = None
    asked: tuple[str, ...] = ()

    def reply_to(self, text: str, read_as: str | None = None, margin: float | None = None) -> Reply:
        """The answer as the reply to a line. read_as: what was understood, where it is told otherwise than here."""
        said = self.read_as if read_as is None else read_as
        return Reply(
            text, said, self.kind, self.answer, self.page, self.assumed, self.cautions, self.sources, self.unread,
            margin=margin,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Reply:
    """One reply; the fields are those of the machine form, `page` stands for its `text`."""

    request: str
    read_as: str
    kind: str
    answer: Mapping[str, Any]
    page: Page
    assumed: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    unread: tuple[str, ...] = ()
    margin: float | None = field(default=None, compare=False)

    def render(self, width: int | None = None, more: bool = False) -> str:
        """The page as plain text, no line wider than `width`."""
        return rendered(self.page, width, more)

    def as_json(self) -> dict[str, Any]:
        """The machine form as plain JSON values."""
        return {
            "request": self.request,
            "read_as": self.read_as,
            "kind": self.kind,
            "answer": plain(self.answer),
            "assumed": list(self.assumed),
            "cautions": list(self.cautions),
            "sources": list(self.sources),
            "unread": list(self.unread),
            "text": self.render(),
        }

    def with_unread(self, words: tuple[str, ...]) -> Reply:
        """The same reply, owning up to words it did not read before anything else: they may change what follows."""
        fresh = tuple(word for word in words if word not in self.unread)
        if not fresh:
            return self
        said = "not read: " + ", ".join(f"“{word}”" for word in fresh)
        return replace(self, unread=(*self.unread, *fresh), page=Page((Line(said, role="warn"), *self.page.blocks)))


def plain(value: Any) -> Any:
    """Mappings and tuples as dicts and lists; numbers, words and None as they are."""
    if isinstance(value, Mapping):
        return {str(key): plain(one) for key, one in value.items()}
    if isinstance(value, tuple | list):
        return [plain(one) for one in value]
    return value
