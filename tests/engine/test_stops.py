"""Where a stage stops, acidity as a tendency, and the picture of a rise."""

from collections.abc import Mapping

import pytest

from assistant.engine.acidity import acidity
from assistant.engine.fermentation import Dough, advance, minutes_to, mixed, rise_pct
from assistant.engine.growth import Kinetics
from assistant.engine.stops import bulk_stop_before_cold_pct, straight_glass
from assistant.engine.temperature_path import relaxing, steady
from assistant.voice.curve import curve
from knowledge.records.kinetics import Kinetic


@pytest.mark.trade_window
@pytest.mark.parametrize(("dough_c", "rise"), [(27, 30), (25, 50), (21, 75), (18, 100), (20, 100), (30, 30), (15, 100)])
def test_bulk_stop_before_the_fridge(records: Mapping[str, Kinetic], dough_c: float, rise: float) -> None:
    assert bulk_stop_before_cold_pct(records, dough_c) == rise


def test_a_warmer_dough_stops_sooner(records: Mapping[str, Kinetic]) -> None:
    stops = [bulk_stop_before_cold_pct(records, 18 + half / 2) for half in range(20)]
    assert stops == sorted(stops, reverse=True)


def test_a_third_seen_in_a_straight_glass(records: Mapping[str, Kinetic]) -> None:
    glass = straight_glass(records, 33)
    assert glass.stop_ml / glass.start_ml == pytest.approx(1.33)
    assert 30 <= glass.start_ml <= 36


def test_acidity_is_a_tendency(k: Kinetics, records: Mapping[str, Kinetic]) -> None:
    def after(dough: Dough, temp_c: float, hours: float) -> object:
        return acidity(records, dough, advance(k, dough, mixed(k, dough), steady(temp_c), hours * 60), temp_c)

    short = after(Dough(80, 2, 20), 27, 4)
    long = after(Dough(58, 2, 20, wholegrain_share=0.8), 19, 40)
    assert (short.strength, short.lean) == ("mild", "lactic")  # type: ignore[attr-defined]
    assert long.lean == "acetic" and long.strength in ("tangy", "sharp")  # type: ignore[attr-defined]
    assert after(Dough(65, 2, yeast_fresh_pct=1), 24, 3) is None


@pytest.mark.parametrize("width", [40, 100])
def test_the_curve_fits_its_width_and_shows_both_ends(k: Kinetics, width: int) -> None:
    dough, path = Dough(70, 2, 20), relaxing(26, 18, 2.7)
    minutes = [minutes_to(k, dough, path, 75) * step / 30 for step in range(31)]
    rises = [rise_pct(k, dough, advance(k, dough, mixed(k, dough), path, each)) for each in minutes]
    lines = curve(minutes, rises, [path.temp_c(each) for each in minutes], width)
    assert all(len(line) <= width for line in lines)
    assert len(lines) == 8 + 3
    assert lines[0].startswith("80%|") and lines[0].endswith("26°C")
    assert lines[7].lstrip().startswith("0%|") and lines[7].endswith("18°C")
    plot = [line.split("|")[1] for line in lines[:8]]
    assert plot[0][-1] == "#", "the rise ends at the top"
    assert plot[0][0] == "o", "the dough begins at its warmest"
    assert plot[7][0] == "#" and plot[7][-1] == "o"
    assert "0h" in lines[9] and "rise" in lines[10]


def test_a_flat_curve_is_still_a_picture() -> None:
    lines = curve([0, 60], [0, 0], [22, 22], 40, 4)
    assert "20°C" in lines[3] and "24°C" in lines[0]


@pytest.mark.parametrize(("minutes", "width", "height"), [([0.0], 40, 8), ([0.0, 1.0], 10, 8), ([0.0, 1.0], 40, 1)])
def test_a_curve_needs_room_and_samples(minutes: list[float], width: int, height: int) -> None:
    with pytest.raises(ValueError):
        curve(minutes, minutes, minutes, width, height)
