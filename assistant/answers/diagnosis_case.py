"""A complaint as evidence: what the line says, what the bake in hand adds, what kind of bread it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from assistant.answers.account_kept import account_of
from assistant.answers.bread_meant import bread_of_formula
from assistant.answers.diagnosis_kind import bread_of, kind_found, raised_with_yeast
from assistant.answers.diagnosis_model import model_of
from assistant.answers.dough_in_hand import formula_in_hand
from assistant.answers.fermentation_models import models
from assistant.answers.what_ferments import fresh_in
from assistant.engine.course.told import Account
from assistant.engine.diagnosis.bake import Bake
from assistant.engine.diagnosis.evidence import Evidence, Figure, Tables, danger_of
from assistant.engine.diagnosis.figures import figures_of
from assistant.talk.room import Room
from grammar.requests.diagnosis import DiagnosisRequest
from knowledge.records.breads import Bread
from knowledge.records.diagnosis_dangers import Danger

_FRIDGE_C = 8.0
"""A rise this cold or colder was a stay in the fridge."""


@dataclass(frozen=True, slots=True)
class Case:
    """A complaint ready to be weighed. from_bench: figures taken from the dough in hand; bread: its own limits."""

    evidence: Evidence
    said: Mapping[str, float]
    from_bench: tuple[str, ...]
    bread: Bread | None
    danger: Danger | None
    assumed: tuple[str, ...]


def case_of(request: DiagnosisRequest, room: Room) -> Case:
    """The evidence of a complaint: its own words first, then the dough in hand."""
    t = model_of(room.kb)
    said = dict(request.figures)
    bread = bread_of(request, room)
    bench = _from_bench(request, room, bread, said)
    findings = _one_of_each(request.findings, t)
    if "salt_pct" in bench and any(t.findings[f].about == "salt" for f in findings):
        del bench["salt_pct"]  # said in words of this bake; the formula only says what was meant
    merged = {**bench, **said}
    symptoms, told = _of_one_trade(request.symptoms, t)
    findings = _one_of_each((*told, *findings), t)
    yeasted = raised_with_yeast(merged, findings)
    findings = (*findings, *kind_found(findings, bread, yeasted, symptoms, merged))
    known = _tidy(merged, request.subject)
    bake = Bake(known, bread, yeasted, findings, _kitchen(room, known))
    figures = figures_of(bake, t.measures, models(room.kb).k)
    findings = _without_doubles(findings, figures, t)
    evidence = Evidence(symptoms, request.absent, figures, findings)
    assumed = tuple(dict.fromkeys(piece for figure in figures for piece in figure.assumed))
    return Case(evidence, known, tuple(bench), bread, _danger(request, evidence, t), assumed)


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
    fresh = fresh_in(formula, room.kb)
    figures = {"hydration_pct": formula.hydration_pct, "salt_pct": formula.salt_pct}
    if formula.starter_pct:
        figures["starter_pct"] = formula.starter_pct
    if fresh:
        figures["yeast_fresh_pct"] = fresh
    of_bread = any(model_of(room.kb).symptoms[one].of == "bread" for one in request.symptoms)
    if not of_bread and not _OF_A_RISE & set(said):
        figures |= _of_its_rise(account_of(room), room.now.replace(tzinfo=None), request.symptoms)
    for name in ("starter_pct", "yeast_fresh_pct"):
        if {"starter_pct", "yeast_fresh_pct"} & set(said):
            figures.pop(name, None)
    return {name: value for name, value in figures.items() if name not in said}


_OF_A_RISE = frozenset({"bulk_h", "bulk_c", "dough_c", "room_c", "proof_h"})
"""Figures of a rise: a line with one of them tells of its own."""


def _of_its_rise(account: Account, now: datetime, symptoms: Sequence[str]) -> dict[str, float]:
    """What was told of the first rise of a dough that is none baked yet: its hours in all, or so far where it is too
    little of a rise that is complained of; its warmth."""
    begun = next((one.at for one in account.marks if one.step == "mix"), None)
    if begun is None or not account.raw:
        return {}
    over = next((one.at for one in account.marks if one.step in ("divide", "preshape", "shape", "retard")), now)
    hours = max(0.0, (over - begun).total_seconds() / 3600)
    measured = account.of("dough_c")
    told = over is not now or _TOO_LITTLE_RISE & set(symptoms)
    return ({"bulk_h": hours} if told else {}) | ({"dough_c": measured[-1].value} if measured else {})


_TOO_LITTLE_RISE = frozenset({"not_rising", "flat", "dense"})


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


def _tidy(said: Mapping[str, float], subject: str | None) -> dict[str, float]:
    """Figures that mean another thing in this company: a rise in the fridge, the kitchen where a jar stands."""
    known = dict(said)
    if subject == "starter":
        for name, meant in (("room_c", "jar_c"), ("bulk_c", "jar_c"), ("hydration_pct", "jar_water_pct")):
            if name in known and meant not in known:
                known[meant] = known.pop(name)
    for stage in ("bulk", "proof"):
        hours, warmth = f"{stage}_h", f"{stage}_c"
        if "retard_h" not in known and hours in known and known.get(warmth, 99.0) <= _FRIDGE_C:
            known["retard_h"], known["fridge_c"] = known.pop(hours), known.pop(warmth)
    return known


def _kitchen(room: Room, said: Mapping[str, float]) -> float | None:
    return room.kitchen_c if room.kitchen_is_set and "room_c" not in said else None


def _without_doubles(findings: tuple[str, ...], figures: tuple[Figure, ...], t: Tables) -> tuple[str, ...]:
    """Findings less those that a figure says more exactly."""
    measured = {about for figure in figures for about in t.measures[figure.measure].in_words}
    return tuple(f for f in findings if t.findings[f].about not in measured)


def _danger(request: DiagnosisRequest, evidence: Evidence, t: Tables) -> Danger | None:
    """The danger heard, the gravest first, else the one a symptom is."""
    return t.dangers[request.dangers[0]] if request.dangers else danger_of(evidence, t)
