"""A complaint as evidence: what the line says, what the bake in hand adds, what a bare answer means to a question."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from functools import lru_cache

from assistant.answers.account_kept import account_of
from assistant.answers.fermenting import bread_of_formula, formula_in_hand, models
from assistant.engine.course.told import Account, is_raw
from assistant.engine.diagnosis import Evidence, Figure, Tables, danger_of, tables
from assistant.engine.diagnosis_figures import Bake, figures_of
from assistant.talk.room import Room
from grammar.requests.diagnosis import DiagnosisRequest
from knowledge import Knowledge
from knowledge.records.breads import Bread
from knowledge.records.diagnosis_dangers import Danger
from knowledge.records.oven_marks import OvenMark
from knowledge.records.yeasts import Yeast

_ASKED_FIGURES: Mapping[str, tuple[tuple[str, str, float], ...]] = {
    # question: (dimension of the bare amount, figure, factor to the figure's unit)
    "first_rise_question": (
        ("time", "bulk_h", 1 / 60),
        ("temperature", "bulk_c", 1),
        ("pct", "starter_pct", 1),
        ("num", "bulk_c", 1),
    ),
    "growth_question": (("pct", "bulk_rise_pct", 1), ("num", "bulk_rise_pct", 1)),
    "proof_question": (("time", "proof_h", 1 / 60), ("temperature", "proof_c", 1), ("num", "proof_c", 1)),
    "dough_warmth_question": (("temperature", "dough_c", 1), ("num", "dough_c", 1)),
    "starter_used_question": (("time", "starter_fed_h", 1 / 60),),
    "flour_question": (("num", "protein_pct", 1),),
    "salt_question": (("pct", "salt_pct", 1), ("num", "salt_pct", 1)),
    "core_question": (("temperature", "core_c", 1), ("num", "core_c", 1), ("pct", "loss_pct", 1)),
    "bake_question": (("time", "bake_min", 1), ("temperature", "oven_c", 1), ("num", "oven_c", 1)),
    "oven_question": (("temperature", "oven_real_c", 1), ("num", "oven_real_c", 1), ("time", "preheat_min", 1)),
    "cut_question": (("time", "cut_after_min", 1),),
    "steam_question": (("time", "steam_min", 1), ("num", "steam_min", 1)),
    "score_question": (("temperature", "score_deg", 1), ("length", "score_mm", 10), ("num", "score_deg", 1)),
    "fridge_question": (("time", "retard_h", 1 / 60), ("temperature", "fridge_c", 1), ("num", "retard_h", 1)),
    "boil_question": (("time", "boil_s", 60), ("num", "boil_s", 1)),
    "yeast_heat_question": (("temperature", "water_c", 1), ("num", "water_c", 1)),
    "yeast_amount_question": (("pct", "yeast_fresh_pct", 3), ("num", "yeast_fresh_pct", 3)),
    "extras_question": (("pct", "sugar_pct", 1),),
    "kneading_question": (("time", "mix_min", 1), ("num", "mix_min", 1)),
    "cover_question": (("time", "bare_min", 1),),
    "standing_question": (("length", "tray_gap_cm", 1), ("num", "tray_gap_cm", 1)),
    "jar_fed_question": (("time", "starter_fed_h", 1 / 60),),
    "jar_age_question": (("time", "starter_age_d", 1 / 1440), ("num", "starter_age_d", 1)),
    "jar_warmth_question": (("temperature", "jar_c", 1), ("num", "jar_c", 1)),
    "jar_water_question": (("pct", "jar_water_pct", 1), ("num", "jar_water_pct", 1)),
}
"""What a bare amount means when a question is open."""
_LIKELY: Mapping[str, tuple[float, float]] = {
    "oven_c": (110, 550), "oven_real_c": (110, 550), "core_c": (55, 108), "bulk_c": (0, 50), "proof_c": (0, 60),
    "dough_c": (2, 50), "fridge_c": (-5, 14), "jar_c": (0, 60), "bake_min": (1, 150), "protein_pct": (5, 40),
    "boil_s": (1, 900), "steam_min": (0, 120), "score_deg": (0, 90), "mix_min": (0.2, 90), "preheat_min": (0, 180),
    "salt_pct": (0, 12), "water_c": (0, 100), "loss_pct": (1, 45), "starter_pct": (0.1, 200),
}  # fmt: skip
"""What a figure can be: a bare amount that cannot be the one asked for is looked at afresh."""
_RYE = frozenset({"high_rye", "rye_wheat"})
_ROLL_G = 150.0
_NOT_BREAD_PIECES = frozenset({"base", "cake", "piece"})


@dataclass(frozen=True, slots=True)
class Case:
    """A complaint ready to be weighed. from_bench: figures taken from the dough in hand; bread: its own limits."""

    evidence: Evidence
    said: Mapping[str, float]
    from_bench: tuple[str, ...]
    bread: Bread | None
    danger: Danger | None
    assumed: tuple[str, ...]


@lru_cache(maxsize=4)
def model_of(kb: Knowledge) -> Tables:
    """The evidence model over this knowledge."""
    return tables(kb)


def settled_request(request: DiagnosisRequest, kb: Knowledge) -> DiagnosisRequest:
    """The request with the answer to its open question put in its place: a yes, a no, a bare number."""
    question = model_of(kb).questions.get(request.answering or "")
    first_rise = {"stage_h": "bulk_h", "stage_c": "bulk_c"}  # hours that nobody said the stage of
    figures = {first_rise.get(name, name): value for name, value in request.figures}
    if "gas_mark" in figures:
        marks = {mark.mark: mark.c for mark in kb.all(OvenMark).values()}
        meant_c = marks.get(figures.pop("gas_mark"))
        if meant_c is not None:
            figures.setdefault("oven_c", meant_c)
    findings = list(request.findings)
    left: list[tuple[str, float]] = []
    for dim, value in request.bare:
        warm = [name for name in figures if name in ("bulk_c", "proof_c", "dough_c", "room_c")]
        if request.corrects and warm and dim in ("temperature", "num") and 0 <= value <= 45:
            figures[warm[-1]] = value  # "no sorry, 17"
            continue
        wanted = _ASKED_FIGURES.get(question.id, ()) if question is not None else ()
        name, factor = next(
            (
                (figure, factor)
                for one, figure, factor in wanted
                if one == dim and figure not in figures and _likely(figure, value * factor)
            ),
            (_unasked(dim, value, request), 1.0),
        )
        if name is not None and name not in figures:
            figures[name] = value * factor
        elif question is not None:
            left.append((dim, value))
    if question is None:
        return replace(request, figures=tuple(figures.items()), bare=())
    meant = {True: question.yes, False: question.no, None: None}[request.said_yes]
    settles = {t for t in request.findings if model_of(kb).findings[t].about in question.asks}
    if meant is not None and not settles:
        findings.append(meant)
    return replace(
        request,
        figures=tuple(figures.items()),
        findings=tuple(findings),
        bare=tuple(left),
        answering=None,
        said_yes=None,
    )


def case_of(request: DiagnosisRequest, room: Room) -> Case:
    """The evidence of a complaint: its own words first, then the dough in hand."""
    t = model_of(room.kb)
    said = dict(request.figures)
    bread = _bread(request, room)
    bench = _from_bench(request, room, bread, said)
    findings = _one_of_each(request.findings, t)
    if "salt_pct" in bench and any(t.findings[f].about == "salt" for f in findings):
        del bench["salt_pct"]  # said in words of this bake; the formula only says what was meant
    merged = {**bench, **said}
    symptoms, told = _of_one_trade(request.symptoms, t)
    findings = _one_of_each((*told, *findings), t)
    yeasted = _yeasted(merged, findings, bread, request)
    findings = (*findings, *_context(findings, bread, yeasted, symptoms, merged))
    known = _tidy(merged, request.subject)
    bake = Bake(known, bread, yeasted, findings, _kitchen(room, known))
    figures = figures_of(bake, t.measures, models(room.kb).k)
    findings = _without_doubles(findings, figures, t)
    evidence = Evidence(symptoms, request.absent, figures, findings)
    assumed = tuple(dict.fromkeys(piece for f in figures if f.how for piece in _assumed_in(f.how)))
    return Case(evidence, known, tuple(bench), bread, _danger(request, evidence, t), assumed)


def _likely(figure: str, value: float) -> bool:
    low, high = _LIKELY.get(figure, (float("-inf"), float("inf")))
    return low <= value <= high


_OF_THE_MIDDLE = frozenset({"gummy", "collapsed", "dry"})
"""Faults of which a bare number between 80 and 108 can only be the degrees in the middle."""


def _unasked(dim: str, value: float, request: DiagnosisRequest) -> str | None:
    """What degrees can only mean where nobody said of what: the jar's, the oven's, the middle's, the first rise's."""
    if request.subject == "starter" and dim in ("temperature", "num") and 4 <= value <= 45:
        return "jar_c"
    if dim == "num" and 80 <= value <= 108 and _OF_THE_MIDDLE & set(request.symptoms):
        return "core_c"
    if dim == "num" and 5 <= value <= 40:
        said = dict(request.figures)
        open_stages = [f"{stage}_c" for stage in ("proof", "bulk") if f"{stage}_h" in said and f"{stage}_c" not in said]
        return open_stages[0] if open_stages else None
    if dim != "temperature":
        return None
    return "oven_c" if value >= 110 else "core_c" if value >= 60 else "bulk_c"


def _assumed_in(how: str) -> tuple[str, ...]:
    """The figures a reason itself calls assumed."""
    out = []
    if " (assumed) with" in how:
        out.append(how.split(" (assumed) with")[0].rsplit(" at ", 1)[-1])
    if " (assumed):" in how:
        out.append(how.split(" (assumed):")[0].rsplit(" with ", 1)[-1])
    return tuple(out)


def _bread(request: DiagnosisRequest, room: Room) -> Bread | None:
    """The bread named, or that its pieces plausibly are, or the one in hand."""
    for name in request.breads:
        if name in room.kb.breads:
            return room.kb.breads[name]
    for piece in request.pieces:
        word = room.kb.words.get(f"piece {piece}")
        if word is not None and word.bread is not None and piece not in _NOT_BREAD_PIECES:
            return room.kb.breads[word.bread]
    if any(s in ("sinks_in_bath", "hole_closed") for s in request.symptoms):
        return room.kb.breads["ring_roll"]
    if "no_puff" in request.symptoms:
        return room.kb.breads["pita"]
    said = room.formula_said
    return bread_of_formula(room, said) if said is not None else None


def _from_bench(
    request: DiagnosisRequest, room: Room, bread: Bread | None, said: Mapping[str, float]
) -> dict[str, float]:
    """Figures of the dough in hand that the line does not say otherwise; none where it names another bread."""
    if request.subject == "starter":
        return {}
    formula = formula_in_hand(room)
    if formula is None:
        return {}
    held = bread_of_formula(room, room.formula_said)
    if bread is not None and held is not None and bread.id != held.id and request.breads:
        return {}
    kinds = room.kb.all(Yeast)
    fresh = sum(row.pct / kinds[row.item].per_fresh for row in formula.rows if row.item in kinds)
    figures = {"hydration_pct": formula.hydration_pct, "salt_pct": formula.salt_pct}
    if formula.starter_pct:
        figures["starter_pct"] = formula.starter_pct
    if fresh:
        figures["yeast_fresh_pct"] = fresh
    figures |= _of_its_rise(account_of(room), room.now.replace(tzinfo=None))
    for name in ("starter_pct", "yeast_fresh_pct"):
        if {"starter_pct", "yeast_fresh_pct"} & set(said):
            figures.pop(name, None)
    return {name: value for name, value in figures.items() if name not in said}


def _of_its_rise(account: Account, now: datetime) -> dict[str, float]:
    """What was told of the first rise of a dough that is none baked yet: its hours so far or in all, its warmth."""
    begun = next((one.at for one in account.marks if one.step == "mix"), None)
    if begun is None or not is_raw(account):
        return {}
    over = next((one.at for one in account.marks if one.step in ("divide", "preshape", "shape", "retard")), now)
    hours = max(0.0, (over - begun).total_seconds() / 3600)
    measured = account.of("dough_c")
    return {"bulk_h": hours} | ({"dough_c": measured[-1].value} if measured else {})


def _one_of_each(findings: tuple[str, ...], t: Tables) -> tuple[str, ...]:
    """One finding about each thing: the last said."""
    last = {t.findings[one].about: one for one in findings if one in t.findings}
    return tuple(last.values())


def _of_one_trade(symptoms: tuple[str, ...], t: Tables) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Symptoms of the starter beside a fault of bread or dough are reports on the starter used."""
    kinds = {t.symptoms[s].of for s in symptoms}
    if "starter" not in kinds or len(kinds) == 1:
        return symptoms, ()
    told = tuple(f for s in symptoms if (f := t.symptoms[s].told_of_starter) is not None)
    return tuple(s for s in symptoms if t.symptoms[s].told_of_starter is None), told


def _yeasted(
    said: Mapping[str, float], findings: tuple[str, ...], bread: Bread | None, request: DiagnosisRequest
) -> bool | None:
    if "made_with_starter" in findings or "starter_pct" in said or any(f.startswith(("starter_",)) for f in findings):
        return False
    if {"starter_age_d", "starter_fed_h", "starter_doubles_h"} & set(said):
        return False
    if "made_with_yeast" in findings or "yeast_fresh_pct" in said or any(f.startswith("yeast_") for f in findings):
        return True
    if "yeast_age_months" in said:
        return True
    return None


def _context(
    findings: tuple[str, ...],
    bread: Bread | None,
    yeasted: bool | None,
    symptoms: tuple[str, ...],
    said: Mapping[str, float],
) -> tuple[str, ...]:
    """What the bread is, as findings: boiled or not, rye, raised with what."""
    out = []
    both = said.get("starter_pct") and said.get("yeast_fresh_pct")
    if yeasted is not None and not both and not {"made_with_starter", "made_with_yeast"} & set(findings):
        out.append("made_with_yeast" if yeasted else "made_with_starter")
    bathed = {
        "boil_s",
        "bath_c",
        "bath_soda_g_l",
        "bath_malt_g_l",
        "bath_carbonate_g_l",
        "bath_lye_pct",
        "lye_s",
    } & set(said)
    if not {"boiled_bread", "unboiled_bread"} & set(findings):
        if (
            (bread is not None and bread.boil_s_per_side)
            or "sinks_in_bath" in symptoms
            or "hole_closed" in symptoms
            or bathed
            or (_small(bread) and any(f.startswith(("bath_", "boil_")) for f in findings))
        ):
            out.append("boiled_bread")
        elif bread is not None:
            out.append("unboiled_bread")
    if bread is not None and bread.id in _RYE and "rye_bread" not in findings:
        out.append("rye_bread")
    return tuple(out)


def _small(bread: Bread | None) -> bool:
    """Whether it may be boiled though nobody said so: anything but a loaf."""
    return bread is None or bread.piece_usual_g <= _ROLL_G


def _tidy(said: Mapping[str, float], subject: str | None) -> dict[str, float]:
    """Figures that mean another thing in this company: a bulk in the fridge, the kitchen where a jar stands."""
    known = dict(said)
    if subject == "starter":
        for name, meant in (("room_c", "jar_c"), ("bulk_c", "jar_c"), ("hydration_pct", "jar_water_pct")):
            if name in known and meant not in known:
                known[meant] = known.pop(name)
    if "retard_h" not in known and known.get("bulk_c", 99.0) <= 8 and "bulk_h" in known:
        known["retard_h"], known["fridge_c"] = known.pop("bulk_h"), known.pop("bulk_c")
    if "retard_h" not in known and known.get("proof_c", 99.0) <= 8 and "proof_h" in known:
        known["retard_h"], known["fridge_c"] = known.pop("proof_h"), known.pop("proof_c")
    return known


def _kitchen(room: Room, said: Mapping[str, float]) -> float | None:
    return room.kitchen_c if room.kitchen_is_set and "room_c" not in said else None


_DOUBLES: Mapping[str, tuple[str, ...]] = {
    # measure: groups of findings that say the same in words
    "retard_h": ("cold_rest",),
    "bulk_pct": ("bulk_said",),
    "proof_pct": ("proof_said",),
    "steam_min": ("steam",),
    "boil_s": ("boil",),
    "bath_soda_g_l": ("bath",),
    "bath_carbonate_g_l": ("bath",),
    "bath_malt_g_l": ("bath",),
    "bath_lye_pct": ("bath",),
    "cut_pct": ("cutting",),
    "salt_pct": (),
    "yeast_instant_pct": ("yeast_amount",),
    "starter_fed_h": ("feeding",),
    "water_c": ("liquid_heat",),
    "tray_gap_cm": ("spacing",),
    "bake_pct": ("bake_said",),
}


def _without_doubles(findings: tuple[str, ...], figures: tuple[Figure, ...], t: Tables) -> tuple[str, ...]:
    """Findings less those that a figure says more exactly."""
    measured = {about for figure in figures for about in _DOUBLES.get(figure.measure, ())}
    return tuple(f for f in findings if t.findings[f].about not in measured)


def _danger(request: DiagnosisRequest, evidence: Evidence, t: Tables) -> Danger | None:
    """The danger heard, the gravest first, else the one a symptom is."""
    return t.dangers[request.dangers[0]] if request.dangers else danger_of(evidence, t)
