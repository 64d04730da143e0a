"""A card in words: what stands on it, as plain text, as Markdown, and as a label for the table it is served from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from assistant.engine.nutrition import Values
from assistant.voice.timeline import Bar


@dataclass(frozen=True, slots=True)
class CardRow:
    """One thing that is weighed. read_as: its name in words that are read back as the same thing; scale_g: what the
    scale reads after it is poured, the bowl tared once; half_g and twice_g: for half and for twice the pieces."""

    name: str
    read_as: str
    g: float
    pct: float
    scale_g: float
    half_g: float
    twice_g: float


@dataclass(frozen=True, slots=True)
class CardFacts:
    """All that stands on a card. rows add up to dough_g; hours: (clock, what, its sign) of the plan or the bake as it
    runs, bars: the same to be drawn; facts: temperatures, bath, loads; contents: what is in it, most first."""

    title: str
    made: date
    yields: str
    rows: tuple[CardRow, ...]
    dough_g: float
    inside: tuple[str, ...]
    steps: tuple[str, ...]
    hours: tuple[tuple[str, str, str], ...]
    bars: tuple[Bar, ...]
    facts: tuple[str, ...]
    allergens: str
    keeping: str
    cautions: tuple[str, ...]
    contents: tuple[str, ...]
    piece: Values | None
    bake_min: float | None
    whom: str | None = None

    @property
    def lead(self) -> str:
        """What stands under the title: who it is for, and what it makes."""
        return f"For {self.whom}: {self.yields}" if self.whom else self.yields


def as_text(card: CardFacts) -> str:
    """The card as plain text: the weights in columns, then what to do and to look for."""
    width = max(len(row.name) for row in card.rows)
    lines = [card.title, "=" * len(card.title), card.lead, ""]
    lines.append(f"  {''.ljust(width)}  {'g':>8}  {'scale':>8}  {'%':>6}  {'half':>8}  {'double':>8}")
    lines += [
        f"  {row.name.ljust(width)}  {grams(row.g):>8}  {grams(row.scale_g):>8}  {row.pct:6.1f}"
        f"  {grams(row.half_g):>8}  {grams(row.twice_g):>8}"
        for row in card.rows
    ]
    lines += [f"  {'dough'.ljust(width)}  {grams(card.dough_g):>8}", "", *card.inside, *card.facts, ""]
    lines += [f"{number}. {step}" for number, step in enumerate(card.steps, start=1)]
    if card.hours:
        clock = max(len(at) for at, _, _ in card.hours)
        lines += ["", "Hours", *(f"  {at.rjust(clock)}  {what}: {sign}" for at, what, sign in card.hours)]
    lines += ["", card.allergens, card.keeping, *card.cautions, "", f"Written {card.made.isoformat()}."]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def as_markdown(card: CardFacts) -> str:
    """The card as Markdown with tables."""
    lines = [f"# {_md(card.title)}", "", _md(card.lead), ""]
    lines += ["| | g | scale | % of flour | half, g | double, g |", "| --- | ---: | ---: | ---: | ---: | ---: |"]
    lines += [
        f"| {_md(row.name)} | {grams(row.g)} | {grams(row.scale_g)} | {row.pct:.1f} | {grams(row.half_g)} "
        f"| {grams(row.twice_g)} |"
        for row in card.rows
    ]
    lines += [f"| **dough** | **{grams(card.dough_g)}** | | | | |", ""]
    lines += [f"{_md(line)}\n" for line in (*card.inside, *card.facts)]
    lines += [f"{number}. {_md(step)}" for number, step in enumerate(card.steps, start=1)]
    if card.hours:
        lines += ["", "| hour | what | look for |", "| ---: | --- | --- |"]
        lines += [f"| {_md(at)} | {_md(what)} | {_md(sign)} |" for at, what, sign in card.hours]
    lines += ["", f"**{_md(card.allergens)}**", "", _md(card.keeping), ""]
    lines += [f"- {_md(caution)}" for caution in card.cautions]
    lines += ["", f"Written {card.made.isoformat()}."]
    return "\n".join(lines) + "\n"


def as_label(card: CardFacts) -> str:
    """A label for the table: what it is, what is in it (most first), allergens, keeping."""
    contents = ", ".join(card.contents)
    lines = [card.title.split(" x ")[0], "", f"Contents, most first: {contents}.", card.allergens, card.keeping]
    lines += [one for one in card.cautions if "month" in one or "infant" in one]
    lines += ["Baked at home. Where it is sold, the local rules for labels come first.", f"{card.made.isoformat()}"]
    return "\n".join(lines) + "\n"


def grams(g: float) -> str:
    """Grams as a card shows them: a tenth where there is one."""
    return f"{g:.1f}".removesuffix(".0")


def _md(text: str) -> str:
    """Words that are no mark-up: a pipe would end a cell."""
    for sign in ("\\", "|", "*", "_", "`", "<", "[", "#"):
        text = text.replace(sign, f"\\{sign}")
    return " ".join(text.split())
