"""A card in words and in files: plain text, Markdown, schema.org/Recipe as JSON-LD, and RFC 4180 CSV."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

from assistant.engine.nutrition import Values


@dataclass(frozen=True, slots=True)
class CardFacts:
    """All that stands on a card. rows: (name, grams as weighed, % of flour), which add up to dough_g."""

    title: str
    made: date
    yields: str
    rows: tuple[tuple[str, float, float], ...]
    dough_g: float
    inside: tuple[str, ...]
    steps: tuple[str, ...]
    allergens: str
    keeping: str
    cautions: tuple[str, ...]
    piece: Values | None
    bake_min: float | None
    whom: str | None = None

    @property
    def lead(self) -> str:
        """What stands under the title: who it is for, and what it makes."""
        return f"For {self.whom}: {self.yields}" if self.whom else self.yields


def as_text(card: CardFacts) -> str:
    """The card as plain text, no line wider than 76 columns where words allow it."""
    width = max(len(name) for name, _, _ in card.rows)
    lines = [card.title, "=" * len(card.title), card.lead, ""]
    lines += [f"  {name.ljust(width)}  {_g(g):>7} g  {pct:5.1f} %" for name, g, pct in card.rows]
    lines += [f"  {'dough'.ljust(width)}  {_g(card.dough_g):>7} g", "", *card.inside]
    lines += [f"{number}. {step}" for number, step in enumerate(card.steps, start=1)]
    lines += ["", card.allergens, card.keeping, *card.cautions, "", f"Written {card.made.isoformat()}."]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def as_markdown(card: CardFacts) -> str:
    """The card as Markdown with a table."""
    lines = [f"# {card.title}", "", card.lead, "", "| | g | % of flour |", "| --- | ---: | ---: |"]
    lines += [f"| {name} | {_g(g)} | {pct:.1f} |" for name, g, pct in card.rows]
    lines += [f"| **dough** | **{_g(card.dough_g)}** | |", ""]
    lines += [f"{line}\n" for line in card.inside]
    lines += [f"{number}. {step}" for number, step in enumerate(card.steps, start=1)]
    lines += ["", f"**{card.allergens}**", "", card.keeping, ""]
    lines += [f"- {caution}" for caution in card.cautions]
    lines += ["", f"Written {card.made.isoformat()}."]
    return "\n".join(lines) + "\n"


def as_json_ld(card: CardFacts) -> str:
    """The card as one schema.org/Recipe object."""
    recipe: dict[str, object] = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": card.title,
        "datePublished": card.made.isoformat(),
        "recipeYield": card.yields,
        "description": " ".join((card.allergens, card.keeping, *card.cautions)),
        "recipeIngredient": [f"{_g(g)} g {name}" for name, g, _ in card.rows],
        "recipeInstructions": [{"@type": "HowToStep", "text": step} for step in card.steps],
    }
    if card.bake_min is not None:
        recipe["cookTime"] = f"PT{card.bake_min:.0f}M"
    if card.piece is not None:
        recipe["nutrition"] = {
            "@type": "NutritionInformation",
            "servingSize": f"{card.piece.g:.0f} g",
            "calories": f"{card.piece.kcal:.0f} kcal",
            "proteinContent": f"{card.piece.protein_g:.1f} g",
            "fatContent": f"{card.piece.fat_g:.1f} g",
            "carbohydrateContent": f"{card.piece.carbohydrate_g:.1f} g",
            "sugarContent": f"{card.piece.sugar_g:.1f} g",
            "fiberContent": f"{card.piece.fibre_g:.1f} g",
        }
    return json.dumps(recipe, ensure_ascii=False, indent=2) + "\n"


def as_csv(card: CardFacts) -> str:
    """The card as a table: a row for each ingredient, step and note; lines end as RFC 4180 has it."""
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\r\n")
    table.writerow(("kind", "name", "g", "pct_of_flour", "text"))
    table.writerow(("title", card.title, "", "", card.lead))
    table.writerows(("ingredient", name, _g(g), f"{pct:.2f}", "") for name, g, pct in card.rows)
    table.writerow(("dough", "", _g(card.dough_g), "", ""))
    table.writerows(("step", str(number), "", "", step) for number, step in enumerate(card.steps, start=1))
    table.writerow(("allergens", "", "", "", card.allergens))
    table.writerow(("keeping", "", "", "", card.keeping))
    table.writerows(("caution", "", "", "", caution) for caution in card.cautions)
    return out.getvalue()


FORMATS: Mapping[str, tuple[str, Callable[[CardFacts], str]]] = {
    "text": ("txt", as_text), "markdown": ("md", as_markdown), "json": ("json", as_json_ld), "csv": ("csv", as_csv),
}  # fmt: skip
"""Each format's file ending and its writer."""


def _g(grams: float) -> str:
    return f"{grams:.1f}".removesuffix(".0")
