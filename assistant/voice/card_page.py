"""A card as one web page: a sheet of paper when printed, one column on a phone, light or dark as the screen is."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from assistant.voice.card import CardFacts, grams
from assistant.voice.card_data import as_json_ld
from assistant.voice.timeline_svg import timeline_svg

_STYLE = """
:root { color-scheme: light dark; }
body { font: 1rem/1.4 system-ui, sans-serif; max-width: 46rem; margin: 0 auto; padding: 1rem; }
h1 { font-size: 1.5rem; margin: 0 0 .25rem; }
h2 { font-size: 1.1rem; margin: 1rem 0 .25rem; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: right; padding: .2rem .4rem; border-bottom: 1px solid currentColor; }
th:first-child, .words td, .words th { text-align: left; }
tfoot th, tfoot td { border-bottom: 0; font-weight: bold; }
ol, ul { padding-left: 1.4rem; margin: .25rem 0; }
.allergens { border: 2px solid currentColor; padding: .4rem .6rem; font-weight: bold; }
@media (max-width: 30rem) { .wide { display: none; } body { padding: .6rem; } }
@media print {
  @page { size: A4; margin: 12mm; }
  :root { color-scheme: light; }
  body { font-size: 9.5pt; max-width: none; padding: 0; }
  h1 { font-size: 15pt; } h2 { font-size: 11pt; margin: 2mm 0 1mm; }
  th, td { padding: .4mm 1.5mm; }
  section { break-inside: avoid; }
}
"""


def as_html(card: CardFacts) -> str:
    """The whole page, nothing fetched from anywhere; the recipe's data stands in it for programs."""
    data = as_json_ld(card).strip().replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")
    parts = [
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        f"<title>{escape(card.title)}</title>\n<style>{_STYLE}</style>",
        f'<script type="application/ld+json">\n{data}\n</script>\n</head>\n<body>\n<main>',
        f"<h1>{escape(card.title)}</h1>\n<p>{escape(card.lead)}</p>",
        _weights(card),
        _listed("Good to know", (*card.inside, *card.facts), "ul"),
        _listed("What to do", card.steps, "ol"),
        _hours(card),
        f'<section>\n<h2>Allergens and keeping</h2>\n<p class="allergens">{escape(card.allergens)}</p>',
        f"<p>{escape(card.keeping)}</p>\n</section>",
        _listed("Take care", card.cautions, "ul"),
        f'<p>Written <time datetime="{card.made.isoformat()}">{card.made.isoformat()}</time>.</p>',
        "</main>\n</body>\n</html>",
    ]
    return "\n".join(part for part in parts if part) + "\n"


def _weights(card: CardFacts) -> str:
    heads = (("g", ""), ("scale", ""), ("%", ""), ("half, g", "wide"), ("double, g", "wide"))
    head = "".join(f'<th scope="col"{_class(name)}>{said}</th>' for said, name in heads)
    rows = [
        f'<tr><th scope="row">{escape(row.name)}</th><td>{grams(row.g)}</td><td>{grams(row.scale_g)}</td>'
        f'<td>{row.pct:.1f}</td><td class="wide">{grams(row.half_g)}</td>'
        f'<td class="wide">{grams(row.twice_g)}</td></tr>'
        for row in card.rows
    ]
    total = f'<tr><th scope="row">dough</th><td>{grams(card.dough_g)}</td><td></td><td></td>'
    total += '<td class="wide"></td><td class="wide"></td></tr>'
    return (
        "<section>\n<h2>Weights</h2>\n<table>\n"
        f'<thead><tr><th scope="col">into the bowl</th>{head}</tr></thead>\n<tbody>\n'
        + "\n".join(rows)
        + f"\n</tbody>\n<tfoot>{total}</tfoot>\n</table>\n</section>"
    )


def _hours(card: CardFacts) -> str:
    if not card.hours:
        return ""
    rows = "\n".join(
        f'<tr><th scope="row">{escape(at)}</th><td>{escape(what)}</td><td>{escape(sign)}</td></tr>'
        for at, what, sign in card.hours
    )
    head = "".join(f'<th scope="col">{said}</th>' for said in ("hour", "what", "look for"))
    return (
        f"<section>\n<h2>Hours</h2>\n{timeline_svg(card.bars)}\n"
        f'<table class="words">\n<thead><tr>{head}</tr></thead>\n<tbody>\n{rows}\n'
        "</tbody>\n</table>\n</section>"
    )


def _listed(title: str, lines: Iterable[str], kind: str) -> str:
    items = "\n".join(f"<li>{escape(line)}</li>" for line in lines)
    return f"<section>\n<h2>{title}</h2>\n<{kind}>\n{items}\n</{kind}>\n</section>" if items else ""


def _class(name: str) -> str:
    return f' class="{name}"' if name else ""
