"""Oven settings, lengths and tins in other units."""

from __future__ import annotations

from typing import Any

from assistant.engine.cups_and_spoons import fraction
from assistant.engine.oven_settings import celsius, degree_meant, fahrenheit, gas_c, setting_of
from assistant.engine.pans import round_cm2, straight_ml
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from assistant.voice.page import Block, Line, Page
from grammar.requests.conversion import ConversionRequest
from grammar.requests.measure_said import Measure
from knowledge.records.oven_marks import OvenMark

CM_PER_INCH = 2.54
OVEN_FROM_C = 100.0
_LENGTHS = {"cm": 1.0, "mm": 0.1, "m": 100.0, "inch": CM_PER_INCH, "foot": 12 * CM_PER_INCH}


def heat_answer(request: ConversionRequest, heat: Measure, room: Room) -> Outcome:
    """An oven or other temperature in the other scales."""
    marks = room.kb.all(OvenMark)
    assumed: list[str] = []
    degree = "gas"
    source = "definition of the scales"
    if heat.unit == "gas":
        record = gas_c(heat.value, marks.values())
        c, said, source = record.c, f"gas mark {_mark(heat.value)}", record.source
        if request.called:
            said = request.called.lower()
            assumed.append(f"a {said} is gas mark {_mark(heat.value)}, give or take one")
    else:
        degree = {"degC": "C", "degF": "F"}.get(heat.unit) or degree_meant(heat.value)
        if request.called:
            assumed.append(f"{request.called.lower()}: about {heat.value:g} °C")
            source = "food safety advice; trade practice"
        if heat.unit not in ("degC", "degF"):
            reason = "no home oven's dial goes that far in °C" if degree == "F" else "what an oven's dial shows"
            assumed.append(f"{heat.value:g} read as °{degree}: {reason}")
        c = heat.value if degree == "C" else celsius(heat.value)
        said = f"{heat.value:g} °{degree}"
    if not -60 <= c <= 600:
        raise Refused(f"{said} is beyond any kitchen", "an oven setting between 50 and 300 °C")
    if request.fan:
        assumed.append("a fan oven is set 20 °C lower than a conventional one")
        said += " fan"
        c += 20.0
    found = setting_of(c, marks.values())
    if request.to_fan:
        assumed.append("a fan oven is set 20 °C lower than a conventional one")
    out_c = found.fan_c if request.to_fan else found.c
    unit = _heat_target(request, heat)
    amount = {"C": out_c, "F": fahrenheit(out_c), "gas": found.mark}[unit]
    if amount is None:
        raise Refused(f"{said} has no gas mark: they run from 1/4 (110 °C) to 10 (260 °C)", f"{said} in C")
    answer: dict[str, Any] = {
        "from": {"amount": heat.value, "unit": degree},
        "to": {"amount": amount, "unit": unit},
        "item": None,
        "c": out_c,
        "f": fahrenheit(out_c),
        "gas": found.mark,
        "fan_c": found.fan_c,
        "basis": "°C = (°F - 32) / 1.8; gas mark 1 is 275 °F and each mark 25 °F more; fan 20 °C lower",
    }
    words = _heat_words(unit, amount)
    if heat.high is not None and heat.high > heat.value and heat.unit != "gas":
        most_c = (heat.high if degree == "C" else celsius(heat.high)) + (20.0 if request.fan else 0.0)
        high = setting_of(most_c, marks.values())
        most = {"C": high.fan_c if request.to_fan else high.c, "F": fahrenheit(high.c), "gas": high.mark}[unit]
        if most is not None:
            answer["from"]["high"], answer["to"]["high"] = heat.high, most
            said = said.replace(f"{heat.value:g}", f"{heat.value:g} to {heat.high:g}", 1)
            words += f" to {_heat_words(unit, most)}"
    oven = c >= OVEN_FROM_C
    blocks: list[Block] = [
        Line(f"{said} = {words}{' fan' if request.to_fan else ''}.", role="head")
    ]
    if oven:
        blocks.append(Line(_all_scales(found.c, found.mark, found.fan_c)))
    if assumed:
        blocks.append(Line("Assumed: " + "; ".join(assumed) + "."))
    return Outcome(
        "conversion", answer, f"{said} in {'gas marks' if unit == 'gas' else '°' + unit}", Page(tuple(blocks)),
        tuple(assumed), sources=(source,), focus=request,
    )  # fmt: skip


def _heat_target(request: ConversionRequest, heat: Measure) -> str:
    if request.to in ("degC", "degF", "gas"):
        return {"degC": "C", "degF": "F", "gas": "gas"}[request.to]
    said_c = heat.unit == "degC" or (heat.unit not in ("degF", "gas") and degree_meant(heat.value) == "C")
    return "F" if said_c and not (request.fan or request.to_fan) else "C"


def _heat_words(unit: str, amount: float) -> str:
    return f"gas mark {_mark(amount)}" if unit == "gas" else f"{amount:.0f} °{unit}"


def _all_scales(c: float, mark: float | None, fan_c: float) -> str:
    parts = [f"{c:.0f} °C", f"{fahrenheit(c):.0f} °F", f"{fan_c:.0f} °C fan"]
    if mark is not None:
        parts.insert(2, f"gas {_mark(mark)}")
    return "The same oven: " + ", ".join(parts) + "."


def _mark(mark: float) -> str:
    return fraction(mark)


def lengths_answer(request: ConversionRequest) -> Outcome:
    """A length or a tin's sizes in the other unit, or a tin's volume."""
    target = request.to or "cm"
    if request.length is not None and request.deep_cm is not None and target in ("l", "ml", "cl", "dl"):
        return _tin_volume(request, target)
    if request.sizes_cm and target in ("l", "ml", "cl", "dl"):
        return _tin_volume(request, target)
    if target not in _LENGTHS:
        raise Unclear("Lengths turn into cm or inches; a tin's three lengths into litres.", ("8 inches in cm",))
    per = _LENGTHS[target]
    if request.length is not None:
        cm = request.length.value * _LENGTHS.get(request.length.unit, 1.0)
        said = f"{request.length.value:g} {'inches' if request.length.unit == 'inch' else request.length.unit}"
        answer: dict[str, Any] = {
            "from": {"amount": request.length.value, "unit": request.length.unit},
            "to": {"amount": cm / per, "unit": target}, "item": None, "cm": cm, "basis": "1 inch = 2.54 cm",
        }  # fmt: skip
        shown = f"{cm / per:.1f}".removesuffix(".0")
    else:
        sizes = tuple(size / per for size in request.sizes_cm)
        said = " x ".join(f"{size / CM_PER_INCH:g}" if target != "inch" else f"{size:g}" for size in request.sizes_cm)
        said += " inches" if target != "inch" else " cm"
        answer = {
            "from": {"amount": request.sizes_cm[0] / CM_PER_INCH, "unit": "inch"},
            "to": {"amount": sizes[0], "unit": target}, "item": None, "cm": request.sizes_cm[0],
            "sizes": list(sizes), "sizes_cm": list(request.sizes_cm), "basis": "1 inch = 2.54 cm",
        }  # fmt: skip
        shown = " x ".join(f"{size:.1f}".removesuffix(".0") for size in sizes)
    word = "inches" if target == "inch" else target
    blocks: list[Block] = [Line(f"{said} = {shown} {word}.", role="head")]
    if request.tin and target == "cm" and request.length is not None:
        blocks.append(Line(f"A tin sold as {round(answer['cm']):d} cm is the same."))
    return Outcome(
        "conversion",
        answer,
        f"{said} in {word}",
        Page(tuple(blocks)),
        sources=("definition of the inch",),
        focus=request,
    )


def _tin_volume(request: ConversionRequest, target: str) -> Outcome:
    sizes = request.sizes_cm
    across = request.length.value * _LENGTHS.get(request.length.unit, 1.0) if request.length is not None else 0.0
    if across and request.deep_cm is not None:
        sizes = (across, request.deep_cm)
    elif len(sizes) != 3:
        raise Refused(
            "what a tin holds goes by three lengths, and one is missing",
            "its length, width and depth: 23 x 13 x 7 cm tin in litres",
        )
    ml = straight_ml(*sizes) if len(sizes) == 3 else round_cm2(sizes[0]) * sizes[1]
    if ml <= 0 or ml > 100_000:
        raise Refused("no tin has these lengths", "its length, width and depth in cm or inches")
    amount = ml / {"l": 1000, "ml": 1, "cl": 10, "dl": 100}[target]
    said = " x ".join(f"{size:g}" for size in sizes) + " cm tin"
    answer = {
        "from": {"amount": sizes[0], "unit": "cm"}, "to": {"amount": amount, "unit": target}, "item": None, "ml": ml,
        "sizes_cm": list(sizes), "basis": " x ".join(f"{size:g}" for size in sizes) + f" cm = {ml:.0f} ml to the brim",
    }  # fmt: skip
    blocks: list[Block] = [
        Line(f"{said} = {ml / 1000:.2f} l to the brim.", role="head"),
        Line(
            "Straight sides are reckoned; a tin that narrows to its base holds less. "
            "Water on the scale tells: 1 g is 1 ml."
        ),
    ]
    return Outcome(
        "conversion",
        answer,
        f"{said} in litres",
        Page(tuple(blocks)),
        ("straight sides",),
        sources=("geometry",),
        focus=request,
    )
