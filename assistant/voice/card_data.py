"""A card for programs: schema.org/Recipe as JSON-LD, and a table as RFC 4180 has it."""

from __future__ import annotations

import csv
import io
import json

from assistant.voice.card import CardFacts, grams


def as_json_ld(card: CardFacts) -> str:
    """The card as one schema.org/Recipe object, whose ingredient lines are read back as the same dough."""
    recipe: dict[str, object] = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": card.title,
        "datePublished": card.made.isoformat(),
        "recipeYield": card.yields,
        "description": " ".join((card.allergens, card.keeping, *card.cautions)),
        "recipeIngredient": [f"{grams(row.g)} g {row.read_as}" for row in card.rows],
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
    blank = ("", "", "", "", "")
    rows: list[tuple[str, ...]] = [("kind", "name", "g", "pct_of_flour", "scale_g", "half_g", "double_g", "text")]
    rows += [("title", card.title, *blank, card.lead), ("yield", "", *blank, card.yields)]
    rows += [
        ("ingredient", row.read_as, grams(row.g), f"{row.pct:.2f}", grams(row.scale_g), grams(row.half_g),
         grams(row.twice_g), "")
        for row in card.rows
    ]  # fmt: skip
    rows.append(("dough", "", grams(card.dough_g), "", "", "", "", ""))
    rows += [("step", str(number), *blank, step) for number, step in enumerate(card.steps, start=1)]
    rows += [("hour", at, *blank, f"{what}: {sign}") for at, what, sign in card.hours]
    rows += [("fact", "", *blank, fact) for fact in (*card.inside, *card.facts)]
    rows += [("allergens", "", *blank, card.allergens), ("keeping", "", *blank, card.keeping)]
    rows += [("caution", "", *blank, caution) for caution in card.cautions]
    table.writerows([_plain(cell) for cell in row] for row in rows)
    return out.getvalue()


def _plain(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{cell}" if cell.lstrip()[:1] in ("=", "+", "-", "@") or cell[:1] in ("\t", "\r") else cell
