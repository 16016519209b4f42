"""Blends, what to expect, weather, hardening and drying, as they stand on the sheets."""

import json
from typing import Any

import attrs
import pytest
from foamwright import page
from foamwright.estimate import Outcome, estimate
from foamwright.material import check, mix, strength
from foamwright.material.density import WetDensity
from foamwright.project.model import Addition, Base, Market, Mix, Price, Project, Weather, Wish
from foamwright.project.notes import Note
from foamwright.project.write import write_project
from foamwright.reader import Reader, speaker
from foamwright.sheets import batch, expected, text, weather
from foamwright.sheets.desk import Desk
from foamwright.sheets.problems import note_text, problem_text

PLAIN = Project()
SKY = Weather(
    air_c=30.0, night_c=-2.0, water_c=10.0, cement_c=40.0, mix_wanted_c=12.0, humidity_fraction=0.2, wind_m_s=9.0, hardness=130.0
)
ADDED = (
    Addition(kg_per_kg=0.5, moisture_fraction=0.05, absorption_fraction=0.01),
    Addition("fibres", "yield", kg_per_m3=0.9),
    Addition("accelerator", kg_per_kg=0.02),
)
MIXED = attrs.evolve(PLAIN, mix=attrs.evolve(PLAIN.mix, additions=ADDED))
FULL = attrs.evolve(MIXED, weather=SKY, wish=Wish(1.0, 0.16))


def _desk(project: Project, units: str = "metric") -> Desk:
    return Desk(project, estimate(project), speaker(Reader(units=units)))


def _said(blocks: list[dict[str, Any]]) -> str:
    """All that the blocks say, with plain spaces."""
    return _plain(json.dumps(blocks, ensure_ascii=False))


def _plain(said: str) -> str:
    return said.replace("\N{NO-BREAK SPACE}", " ").replace("\N{NARROW NO-BREAK SPACE}", " ")


def test_a_plain_project_is_estimated_as_before() -> None:
    """Without additions the batch is that of the plain solution to the last bit, and nothing more is bought or said."""
    outcome = estimate(PLAIN)
    assert outcome.estimate is not None
    assert outcome.estimate.mix == mix.solve(PLAIN.mix)[0]
    assert outcome.estimate.ahead.portions == ()
    assert {line.code for line in outcome.estimate.money.lines} == {"cement", "agent", "water"}
    new = ("mix.additions", "wish.", "weather.")
    assert not [note for note in outcome.notes if note.path.startswith(new)]


@pytest.mark.parametrize("units", ["metric", "us", "imperial"])
@pytest.mark.parametrize("project", [PLAIN, MIXED, FULL, attrs.evolve(FULL, weather=Weather(air_c=-20.0))], ids=["plain", "mixed", "full", "cold"])
def test_sheets_are_written_in_every_unit(project: Project, units: str) -> None:
    desk = _desk(project, units)
    for module in (expected, weather, batch):
        said = _said(module.blocks(desk))
        assert "%(" not in said and "nan" not in said.lower().split()
    assert text.render(project, Reader(units=units))  # type: ignore[arg-type]


def test_the_mix_is_as_warm_as_the_heat_balance_has_it() -> None:
    """Hand-worked: ACI 305R and 306R, from memory, 0.22 of the heat of water for cement; the air counts for next to nothing."""
    warmed = attrs.evolve(PLAIN, weather=attrs.evolve(SKY, air_c=20.0, cement_c=40.0, water_c=10.0))
    made = estimate(warmed).estimate
    assert made is not None and made.ahead.mix_c is not None
    cement, water = 0.22 * made.mix.cement_kg, made.mix.water_l + made.mix.foam_mass_kg
    by_hand = (cement * 40 + water * 10) / (cement + water)
    assert made.ahead.mix_c == pytest.approx(by_hand, abs=0.02)


def test_water_for_a_wanted_mix_gives_that_mix() -> None:
    """Round trip: poured as warm as was said, the mix is as warm as was wanted, with the foam as it was."""
    made = estimate(attrs.evolve(PLAIN, weather=SKY)).estimate
    assert made is not None and made.ahead.water_for_c is not None
    solid = 0.22 * made.mix.cement_kg
    air = made.mix.air_fraction * made.mix.yield_l * 0.0012 * 1.005 / 4.187
    heat = solid * 40 + made.mix.water_l * made.ahead.water_for_c + made.mix.foam_mass_kg * 10 + air * 30
    assert heat / (solid + made.mix.water_l + made.mix.foam_mass_kg + air) == pytest.approx(12.0, rel=1e-9)


def test_weather_asks_for_what_it_asks_for() -> None:
    codes = {note.code for note in estimate(attrs.evolve(PLAIN, weather=SKY)).notes}
    assert {"air_cold", "night_freezes"} <= codes
    hot = attrs.evolve(SKY, air_c=45.0, cement_c=70.0, water_c=38.0, night_c=25.0)
    codes = {note.code for note in estimate(attrs.evolve(PLAIN, weather=hot)).notes}
    assert {"mix_hot", "ice_needed", "evaporation_high"} <= codes
    only_night = estimate(attrs.evolve(PLAIN, weather=Weather(night_c=-1.0))).notes
    assert "night_freezes" in {note.code for note in only_night}


def test_additions_are_named_on_the_card_in_kilograms_and_bought() -> None:
    """Half a kilogram of sand to each of cement: half of the cement of the batch and of the job, by arithmetic."""
    desk = _desk(MIXED)
    made, card = desk.e, _said(batch.blocks(desk))
    assert made.mix.yield_l == PLAIN.mix.yield_l
    sand = made.batches.batch.cement_kg / 2
    assert desk.value("portion.batched_kg#0") == pytest.approx(sand, rel=1e-12)
    assert f"{sand:.1f} kg" in card and "Sand" in card and "Accelerator" in card
    assert f"{0.9 * made.batches.batch.yield_l:.0f} g" in card, "fibres are weighed in grams"
    sold = Market(prices=(Price("sand", "kg", 0.1), Price("fibres", "kg", 5.0)))
    lines = {line.code: line for line in _desk(attrs.evolve(MIXED, market=sold)).e.money.lines}
    assert lines["sand"].price_quantity == pytest.approx(made.batches.cement_kg / 2, rel=1e-9)
    assert lines["fibres"].price_quantity == pytest.approx(0.9 * made.batches.count * made.batches.batch.yield_l / 1000, rel=1e-9)
    assert lines["accelerator"].amount is None


def test_sand_of_the_base_and_of_the_mix_is_bought_together() -> None:
    sold = Market(prices=(Price("sand", "kg", 0.1),))

    def bought(**changes: Any) -> float:
        lines = {line.code: line for line in _desk(attrs.evolve(PLAIN, market=sold, **changes)).e.money.lines}
        found = lines["sand"].price_quantity
        assert found is not None
        return found

    both = bought(base=Base(kind="footing"), mix=MIXED.mix)
    assert both == pytest.approx(bought(base=Base(kind="footing")) + bought(mix=MIXED.mix), rel=1e-12)


def test_a_damp_sand_that_floods_the_mix_is_a_problem() -> None:
    wet = Addition(kg_per_kg=5.0, moisture_fraction=0.4)
    ratio = Mix(given=("cement_kg", "water_cement_ratio", "foam_density_kg_m3", "wet_density_kg_m3"), water_cement_ratio=0.5,
                wet_density_kg_m3=1200.0, additions=(wet,))  # fmt: skip
    outcome = estimate(attrs.evolve(PLAIN, mix=ratio))
    assert [problem.code for problem in outcome.problems] == ["mix_impossible"]


def test_the_sheet_says_what_to_type_where() -> None:
    said = _said(expected.blocks(_desk(FULL)))
    assert "An oven-dry density to reach" in said and "400 kg/m³ to 800 kg/m³" in said
    none = attrs.evolve(PLAIN, wish=Wish(strength_mpa=50.0))
    said = _said(expected.blocks(_desk(none)))
    assert "No published row reaches 50" in said


def test_trade_talk_is_called_that() -> None:
    """R 1.8 to 2.2 stands in its row as talk, above what the tables give."""
    said = _said(expected.blocks(_desk(PLAIN)))
    assert "Common practice, no source: trade talk" in said and "R 1.80 to 2.20 per inch is trade talk" in said


def test_the_sheet_warns_that_curves_are_of_dense_concrete() -> None:
    said = _said(weather.blocks(_desk(PLAIN)))
    assert "made for dense concrete" in said and "ages are told for 20°C" in said
    assert "80% at seven days" in said


def test_a_shell_holds_tonnes_of_water() -> None:
    """The water of a cubic metre by the batch's own balance, times the volume in place: arithmetic."""
    made = _desk(PLAIN).e
    assert made.ahead.drying is not None
    water = (made.mix.water_l * 0.99997 + made.mix.foam_mass_kg) / made.mix.yield_l * 1000 * made.shape.shell_volume_m3
    assert made.ahead.drying.cast_kg == pytest.approx(water, rel=1e-3)


def _notes() -> list[Note]:
    """Notes of the rooms that the sheets of the diary show, and of all that a project can draw here."""
    found: list[Note] = []
    outcomes: list[Outcome] = [
        estimate(project)
        for project in (
            FULL,
            attrs.evolve(PLAIN, weather=attrs.evolve(SKY, air_c=45.0, cement_c=70.0, water_c=38.0, night_c=25.0)),
            attrs.evolve(PLAIN, weather=attrs.evolve(SKY, air_c=2.0, cement_c=-20.0, water_c=2.0, mix_wanted_c=45.0)),
            attrs.evolve(PLAIN, wish=Wish(50.0, 0.02)),
        )
    ]
    for outcome in outcomes:
        assert outcome.estimate is not None
        found += [*outcome.notes, *outcome.estimate.ahead.expected_notes, *outcome.estimate.ahead.seven_notes]
    found += strength.crushed((1.0, 3.0, 0.2), WetDensity(484.0))[2]
    found += strength.crushed((1.0,))[2]
    found += strength.ages(((24.0, -5.0),))[2]
    return found


@pytest.mark.parametrize("units", ["metric", "us", "imperial"])
def test_every_note_is_said_with_its_values(units: str) -> None:
    found = _notes()
    assert len({note.code for note in found}) >= 20
    for note in found:
        said = _plain(note_text(_desk(PLAIN, units), note))
        assert said and "%(" not in said and "_" not in said, note.code
        assert not any(len(word.rpartition(".")[2]) > 4 and word.replace(".", "").isdigit() for word in said.split()), said


def test_a_correction_is_said_in_litres() -> None:
    made = mix.solve(Mix())[0]
    assert made is not None
    late = Note("batch_too_late", "warning", "check.minutes", {"minutes": 25.0, "latest": check.LATEST_MIN}, "practice_latest")
    assert _plain(note_text(_desk(PLAIN), late)) == "25 min since foaming; after 20 min it is not put right."
    full = Note("take_out_first", "caution", "check.usable_l", {"take_out_l": 12.34}, "arithmetic")
    assert _plain(note_text(_desk(PLAIN), full)) == "Take out 12.3 L first; there is no room."


def test_the_form_takes_an_addition() -> None:
    reader = {"language": "en", "units": "metric", "digits": "auto", "numbers": "auto", "catalog": None}

    def call(op: str, **asked: Any) -> Any:
        answer = json.loads(page.call(op, json.dumps({"reader": reader, "want": []} | asked)))
        assert answer["ok"], answer
        return answer["value"]

    added = call("act", project=write_project(PLAIN), action={"name": "add", "path": "mix.additions"})
    assert added["outcome"] == "taken"
    typed = call("edit", project=added["project"], path="mix.additions[0].kg_per_kg", text="0.5")
    assert typed["outcome"] == "taken"
    shown = json.dumps(typed["view"]["sections"]["mix"])
    assert "mix.additions[0].kg_per_kg" in shown and "mix.additions[0].kg_per_m3" not in shown
    gone = call("act", project=typed["project"], action={"name": "remove", "path": "mix.additions[0]"})
    assert json.loads(gone["project"]) == json.loads(write_project(PLAIN))


def test_additions_that_drink_all_the_water_are_a_problem() -> None:
    """Grains that drink more than is poured leave none for the cement, and are told as such."""
    dry = attrs.evolve(PLAIN, mix=attrs.evolve(PLAIN.mix, additions=(Addition(kg_per_kg=0.7, absorption_fraction=1.0),)))
    outcome = estimate(dry)
    assert [(problem.path, problem.code) for problem in outcome.problems] == [("mix.additions", "mix_impossible")]
    assert "What else goes into the slurry" in problem_text(Desk(PLAIN, estimate(PLAIN), speaker(Reader())), outcome.problems[0])
