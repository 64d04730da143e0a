"""What a baker sees of a diagnosis: danger first, the likeliest cause with its reasons, what to do, the question."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from assistant.voice.page import Block, Line, Page, Picture, laid_out

REASONS = 3
_COMPACT, _LINES = 80, 8
"""A compact answer is at most so many lines at so many columns."""
_SHORTER = ((3, True, True), (2, True, True), (1, True, True), (1, False, True), (1, False, False))
"""Ways to tell it, each shorter: how many reasons, whether the other causes, whether the next time."""
_BAR = "█"


@dataclass(frozen=True, slots=True)
class Blamed:
    """One cause as it is told. share: 0 to 1; because, against: reasons in sentences."""

    name: str
    share: float
    because: tuple[str, ...]
    against: tuple[str, ...]
    now: str
    next_time: str
    mechanism: str
    check: str


_HALF, _THIRD = 0.5, 1 / 3
"""Under a third of the blame a cause is only "perhaps"."""


def diagnosis_page(
    blamed: Sequence[Blamed],
    question: str | None,
    danger: tuple[str, str] | None,
    notes: Sequence[str] = (),
) -> Page:
    """The page of a diagnosis.

    danger: what to do and why. What to do now comes first, then what it most likely is.
    """
    blocks: list[Block] = []
    if danger is not None:
        act, why = danger
        blocks += [Line(act, role="warn"), Line(f"Why: {why}.")]
        blocks += [Line(note, role="warn") for note in notes]
        return Page(tuple(blocks))
    page = Page()
    for reasons, others, later in _SHORTER:
        page = _told(blamed, question, notes, reasons, others, later)
        if sum(line_role != "warn" for line_role, _ in laid_out(page, _COMPACT)) <= _LINES:
            break
    return page


def _told(
    blamed: Sequence[Blamed],
    question: str | None,
    notes: Sequence[str],
    reasons: int,
    others_shown: bool,
    later_shown: bool,
) -> Page:
    """The page with so many reasons, with or without the other causes and the next time; the rest waits for "more"."""
    first = blamed[0]
    sure = "Most likely" if first.share >= _HALF else "Likely" if first.share > _THIRD else "Perhaps"
    head = Line(f"{sure}: {first.name} ({_pct(first.share)}).", role="head")
    now = Line(f"Now: {first.now}", role="head")
    why = [Line(_sentence(reason), indent=2, more=n >= reasons) for n, reason in enumerate(first.because)]
    blocks: list[Block] = [now, head, *why]
    blocks.append(Line(f"Next time: {first.next_time}", more=not later_shown))
    others = [f"{one.name} {_pct(one.share)}" for one in blamed[1:4] if one.share >= 0.03]
    if others:
        blocks.append(Line("Else: " + ", ".join(others) + ".", more=not others_shown))
    if question is not None:
        blocks.append(Line(question, role="ask"))
    blocks += [Line(note, role="warn") for note in notes]
    blocks.append(Line(f"What happens: {first.mechanism}. To be sure: {first.check.rstrip('?.')}.", more=True))
    blocks += [Line(f"Against it: {reason}.", more=True) for reason in first.against[:REASONS]]
    blocks.append(Picture(bars(blamed), more=True))
    return Page(tuple(blocks))


def others_page(blamed: Sequence[Blamed], question: str | None) -> Page:
    """What else it could be, each with its best reason."""
    head = Line(f"Besides {blamed[0].name} ({_pct(blamed[0].share)}):", role="head")
    rest = [
        Line(f"{one.name}, {_pct(one.share)}{f': {one.because[0]}' if one.because else ''}.", indent=2)
        for one in blamed[1:5]
    ]
    asked = [Line(question, role="ask")] if question is not None else []
    return _fitted([head, *rest, *asked], keep=(0, 1, len(rest) + 1))


def _fitted(lines: Sequence[Line], keep: Sequence[int]) -> Page:
    """The lines as a compact page: those at the end that are not kept wait for "more" until the rest fits."""
    held: set[int] = set()
    for place in (*reversed([n for n in range(len(lines)) if n not in keep]), -1):
        page = Page(tuple(replace(line, more=n in held) for n, line in enumerate(lines)))
        if sum(role != "warn" for role, _ in laid_out(page, _COMPACT)) <= _LINES or place < 0:
            return page
        held.add(place)
    return Page(tuple(lines))


def reasons_page(blamed: Sequence[Blamed], question: str | None) -> Page:
    """Why the first is first, and what speaks against it."""
    first = blamed[0]
    lines = [Line(f"For {first.name} ({_pct(first.share)}):", role="head")]
    lines += [Line(_sentence(reason), indent=2) for reason in first.because]
    lines += [Line(f"Against it: {reason}.") for reason in first.against]
    lines.append(Line(f"What happens: {first.mechanism}. To be sure: {first.check.rstrip('?.')}."))
    if question is not None:
        lines.append(Line(question, role="ask"))
    last = len(lines) - 1
    return _fitted(lines, keep=(0, 1, last))


def remedy_page(blamed: Sequence[Blamed], question: str | None, eaten: str | None = None) -> Page:
    """What to do now and next time. eaten: whether it may still be eaten, where that was asked: it stands first."""
    first = blamed[0]
    lines = [Line(eaten, role="head")] if eaten is not None else []
    lines += [Line(f"Now: {first.now}", role="head"), Line(f"That is for {first.name} ({_pct(first.share)}).")]
    if first.share < 0.6 and len(blamed) > 1:
        second = blamed[1]
        lines.append(Line(f"If it is {second.name} ({_pct(second.share)}): {second.now}"))
    kept = len(lines)
    lines.append(Line(f"Next time: {first.next_time}"))
    if question is not None:
        lines.append(Line(question, role="ask"))
    return _fitted(lines, keep=(*range(kept), kept + 1))


def evidence_page(blamed: Sequence[Blamed], question: str | None) -> Page:
    """The leaders as bars with what speaks for and against the first; of the others on "more"."""
    first = blamed[0]
    blocks: list[Block] = [Picture(bars(blamed[:4]))]
    blocks += [Line(f"+ {reason}", more=n > 0) for n, reason in enumerate(first.because[:REASONS])]
    blocks += [Line(f"- {reason}", more=n > 0) for n, reason in enumerate(first.against[:REASONS])]
    for one in blamed[1:4]:
        blocks.append(Line(f"{one.name}:", role="head", more=True))
        blocks += [Line(f"+ {reason}", indent=2, more=True) for reason in one.because[:REASONS]]
        blocks += [Line(f"- {reason}", indent=2, more=True) for reason in one.against[:2]]
    if question is not None:
        blocks.append(Line(question, role="ask", more=True))
    return Page(tuple(blocks))


def bars(blamed: Sequence[Blamed]) -> Callable[[int], Sequence[str]]:
    """Shares drawn as bars, made for the width there is."""
    told = tuple((one.name, one.share) for one in blamed[:6])

    def draw(columns: int) -> Sequence[str]:
        widest = max((len(name) for name, _ in told), default=0)
        names = min(widest, max(8, columns - 20))
        room = max(4, columns - names - 7)
        return [
            f"{name[:names]:<{names}} {_BAR * max(1, round(share * room)) if share >= 0.005 else '·'} {_pct(share)}"
            for name, share in told
        ]

    return draw


def read_as(parts: Mapping[str, Sequence[str]]) -> str:
    """What was understood, in plain words: the fault, what it is not, figures, reports."""
    return "; ".join(
        f"{head}: {', '.join(words)}" if head else ", ".join(words) for head, words in parts.items() if words
    )


def _pct(share: float) -> str:
    return f"{100 * share:.0f} %"


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:].rstrip(".") + "."
