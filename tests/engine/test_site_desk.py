"""The site view's calls: every tool, strange readings, two phones, and what the estimate learns.

Readings are invented; what is expected of them follows from arithmetic or from the source named beside it.
"""

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from properties import cases

from foamwright.data import load
from foamwright.diary import asked
from foamwright.material.check import SLIPS as WET_SLIPS
from foamwright.estimate import Outcome
from foamwright.page import call
from foamwright.project.model import Project
from foamwright.project.notes import Note
from foamwright.reader import Reader, languages, speaker
from foamwright.sheets import diary_words as words
from foamwright.sheets.desk import Desk
from foamwright.sheets.problems import note_text
from foamwright.sheets.site_tools import TOOLS

METRIC = Reader("en").to_json()
NOW = "2026-05-01T08:00:00+00:00"
FOAM = {"volume_l": "1", "empty_g": "200", "resolution_g": "1"}
#: What is typed in each tool where all goes well.
TYPED: dict[str, dict[str, str]] = {
    "foam": FOAM | {"gross_g": "295"},
    "batch": {"gross_g": "5.3", "empty_g": "0.5", "volume_l": "10"},
    "blocks": {"made": "20", "broken": "1"},
    "bucket": {"gross_g": "1450", "empty_g": "500", "water_temperature_c": "20", "resolution_g": "1"},
    "output": {"drum_l": "60", "seconds": "40"},
    "drain": {"net_g": "95", "quarter_minutes": "16"},
    "height": {"filled_m": "60", "after_m": "60"},
    "water": {"hardness_mg_l": "40"},
    "weather": {"air_c": "18", "night_low_c": "10"},
    "crushed": {"load_kn": "12", "form": "cube", "width_m": "10", "height_m": "10", "age_days": "28"},
    "delivery": {"quantity": "10"},
    "note": {"text": "dry"},
    "cause": {"sinks": "yes"},
}


def ask(op: str, project: str = '{"format": 1}', reader: Any = METRIC, **more: Any) -> Any:
    answer = json.loads(call(op, json.dumps({"project": project, "reader": reader, "entries": [], "now": NOW, **more})))
    assert answer["ok"], answer
    return answer["value"]


def entered(entries: list[Any], tool: str, typed: dict[str, str], **more: Any) -> Any:
    made = ask("enter", entries=entries, tool=tool, typed=typed, device="k3", counter=len(entries), at=NOW, **more)
    if made["entry"]:
        entries.append(made["entry"])
    return made


def test_every_tool_has_its_way() -> None:
    entries: list[Any] = []
    assert set(TYPED) == {tool.id for tool in TOOLS}
    for tool, typed in TYPED.items():
        assert ask("judge", tool=tool, typed=typed)["outcome"] == "taken", tool
        made = entered(entries, tool, typed)
        assert made["outcome"] == "taken" and made["verdict"]["word"], tool
    view = ask("site", entries=entries)
    assert [each["id"] for each in view["log"]] == [each["id"] for each in reversed(sorted(entries, key=lambda e: (e["at"], e["id"])))]
    assert all(not each["struck"] for each in view["log"])


def test_nothing_is_said_while_something_is_wanting() -> None:
    for tool in TOOLS:
        assert ask("judge", tool=tool.id, typed={})["outcome"] == "waiting", tool.id


@pytest.mark.parametrize(
    "gross,tone", [("295", "good"), ("330", "bad"), ("275", "bad"), ("290.5", "unsure")]
)
def test_foam_against_its_window(gross: str, tone: str) -> None:
    """90 to 100 g/L (common practice, no source) in a litre."""
    assert ask("judge", tool="foam", typed=FOAM | {"gross_g": gross})["verdict"]["tone"] == tone


@pytest.mark.parametrize(
    "typed,code,net",
    [
        ({"gross_g": "10.4", "empty_g": "7.05"}, "scale_in_ounces", 3.35 * 28.349523125),  # NIST SP 811, B.8
        ({"gross_g": "950", "empty_g": "0"}, "typed_ten_times", 95.0),
        ({"gross_g": "95", "empty_g": "200"}, "net_typed_as_gross", 95.0),
        ({"gross_g": "200", "empty_g": "295"}, "gross_below_empty", 95.0),
    ],
)
def test_a_strange_reading_is_asked_about_and_taken_as_meant(typed: dict[str, str], code: str, net: float) -> None:
    entries: list[Any] = []
    first = entered(entries, "foam", FOAM | typed)
    assert first["outcome"] == "ask" and entries == []
    assert f"meant:{code}" in [each["text"] for each in first["readings"]]
    assert entered(entries, "foam", FOAM | typed, confirmed=[f"meant:{code}"])["outcome"] == "taken"
    assert entries[0]["gross_g"] - entries[0]["empty_g"] == pytest.approx(net)


def test_a_strange_reading_may_be_meant_as_typed_but_no_impossible_one() -> None:
    entries: list[Any] = []
    assert entered(entries, "foam", FOAM | {"gross_g": "1150"}, confirmed=["typed"])["outcome"] == "taken"
    assert entries[0]["gross_g"] == 1150
    for confirmed in ([], ["typed"]):
        made = entered(entries, "foam", FOAM | {"gross_g": "190"}, confirmed=confirmed)
        assert made["outcome"] == "refused" and made["problems"][0]["path"] == "gross_g"


def test_another_bucket_is_asked_about() -> None:
    entries: list[Any] = []
    entered(entries, "foam", {"volume_l": "5", "empty_g": "400", "resolution_g": "1", "gross_g": "875"})
    entered(entries, "foam", FOAM | {"gross_g": "295"})
    made = entered(entries, "foam", FOAM | {"gross_g": "875"})
    assert made["outcome"] == "ask" and "meant:other_bucket" in [each["text"] for each in made["readings"]]


def test_an_ambiguous_number_is_asked_about_and_a_word_refused() -> None:
    made = ask("judge", tool="output", typed={"drum_l": "1.500", "seconds": "40"})
    assert made["outcome"] == "ask" and {each["path"] for each in made["readings"]} == {"drum_l"}
    made = ask("judge", tool="output", typed={"drum_l": "many", "seconds": "40"})
    assert made["outcome"] == "refused" and "many" in made["problems"][0]["text"]


def test_digits_of_the_reader() -> None:
    reader = Reader("ar", digits="native").to_json()
    made = ask("judge", reader=reader, tool="foam", typed={"volume_l": "١", "empty_g": "٢٠٠", "resolution_g": "١", "gross_g": "٢٩٥"})
    assert made["outcome"] == "taken" and made["verdict"]["tone"] == "good"
    made = ask("site", reader=reader, entries=[{"id": "k3-0", "at": NOW, "kind": "note", "text": "x"}])
    assert any("٠" <= letter <= "٩" for letter in made["log"][0]["when"])


def test_a_heavy_batch_comes_right_with_the_foam_that_is_told() -> None:
    made = ask("judge", tool="batch", typed=TYPED["batch"] | {"gross_g": "6.0", "in_drum_l": "100"})
    assert made["verdict"]["tone"] == "bad" and made["blocks"][0]["kind"] == "steps"
    said = ask("judge", tool="batch", typed=TYPED["batch"] | {"gross_g": "6.0", "falling": "yes"})
    assert said["verdict"]["word"] == "Do not pour."
    entries: list[Any] = []
    entered(entries, "foam", FOAM | {"gross_g": "330"})
    said = ask("judge", entries=entries, tool="batch", typed=TYPED["batch"] | {"gross_g": "6.0"})
    assert said["verdict"]["word"] == "Do not pour.", "slurry and foam do not cure bad foam"


def test_the_generator_is_learnt_from_its_settings() -> None:
    """Two settings in a line: 130 g/L at 3, 115 g/L at 4; 95 g/L would lie at 5.33, half a span beyond is 4.5."""
    entries: list[Any] = []
    for air, gross in (("3", "330"), ("4", "315")):
        made = entered(entries, "foam", FOAM | {"gross_g": gross, "air": air})
    assert "More air: 0.5 up, to 4.5" in json.dumps(made["blocks"])


def test_chart_stands_after_a_reading() -> None:
    entries: list[Any] = []
    entered(entries, "foam", TYPED["foam"])
    foam = next(tool for tool in ask("site", entries=entries)["tools"] if tool["id"] == "foam")
    assert any(each["kind"] == "drawing" and each["svg"].startswith("<svg") for each in foam["blocks"])
    empty = next(each for each in foam["fields"] if each["path"] == "empty_g")
    assert empty["value"] == "200", "the empty weight of the last reading stands there already"


def test_symptoms_and_readings_lead_to_a_cause() -> None:
    entries: list[Any] = []
    entered(entries, "water", {"hardness_mg_l": "340"})
    entered(entries, "drain", {"net_g": "95", "quarter_minutes": "3"})
    entered(entries, "foam", TYPED["foam"])
    assert "Minerals in the water" in ask("judge", entries=entries, tool="cause", typed={"sinks": "yes"})["verdict"]["word"]
    without = [each for each in entries if each["kind"] != "water"]
    assert "Minerals" not in ask("judge", entries=without, tool="cause", typed={"sinks": "yes"})["verdict"]["word"]


def test_striking_and_striking_again() -> None:
    entries: list[Any] = []
    entered(entries, "note", {"text": "one"})
    made = ask("strike", entries=entries, target="k3-0", device="k3", counter=1, at=NOW)
    entries.append(made["entry"])
    assert made["outcome"] == "taken" and ask("site", entries=entries)["log"][0]["struck"]
    assert ask("strike", entries=entries, target="zz-9", device="k3", counter=2, at=NOW)["outcome"] == "refused"


def test_two_phones_meet_without_doubles() -> None:
    mine: list[Any] = []
    for tool, typed in TYPED.items():
        entered(mine, tool, typed)
    text = ask("diary_out", entries=mine)["text"]
    assert ask("diary_in", entries=[], text=text)["entries"] == sorted(mine, key=lambda each: (each["at"], each["id"]))
    again = ask("diary_in", entries=mine, text=text)
    assert again["outcome"] == "taken" and again["entries"] == []
    other = [mine[0] | {"gross_g": 296.0}]
    fresh = ask("diary_in", entries=mine, text=ask("diary_out", entries=other)["text"])["entries"]
    assert len(fresh) == 1 and fresh[0]["gross_g"] == 296.0
    both = [*mine, *fresh]
    assert ask("diary_in", entries=both, text=ask("diary_out", entries=other)["text"])["entries"] == []
    assert len(ask("site", entries=both)["log"]) == len(mine) + 1
    assert ask("diary_in", text="not a diary")["outcome"] == "refused"


def test_what_was_learnt_is_taken_as_said() -> None:
    """80 blocks, 16 broken: a fifth."""
    entries: list[Any] = []
    for _ in range(4):
        entered(entries, "blocks", {"made": "20", "broken": "4"})
    entered(entries, "bucket", TYPED["bucket"])
    found = {each["id"]: each for each in ask("site", entries=entries)["learn"]["edits"]}
    assert set(found) == {"waste.breakage_fraction", "bucket.volume_l"}
    made = ask("take", entries=entries, edits=["waste.breakage_fraction"], want=["glance"])
    project = json.loads(made["project"])
    assert project["waste"]["breakage_fraction"] == pytest.approx(0.2)
    assert "bucket" not in project or project["bucket"] == json.loads(ask("take", entries=[], edits=[], want=[])["project"])["bucket"]
    assert len(made["told"]) >= 2, "the edit, and what it moves"
    made = ask("take", entries=entries, edits=["bucket.volume_l"], want=[])
    # 950 g of water at 20 degrees C: 998.2 kg/m3 (IAPWS-IF97, from memory)
    assert json.loads(made["project"])["bucket"]["volume_l"] == pytest.approx(0.950 / 0.9982, abs=5e-5)


@pytest.mark.parametrize("language", [each.tag for each in languages()])
def test_every_language(language: str) -> None:
    entries: list[Any] = []
    for tool, typed in TYPED.items():
        entered(entries, tool, typed)
    for units in ("metric", "us"):
        reader = Reader(language, units=units).to_json()
        view = ask("site", reader=reader, entries=entries)
        assert "%(" not in json.dumps(view)
        for tool in view["tools"]:
            typed = {each["path"]: each["value"] for each in tool["fields"]}
            assert ask("judge", reader=reader, entries=entries, tool=tool["id"], typed=typed)["outcome"] in ("taken", "waiting", "ask")


def test_all_codes_have_words() -> None:
    table = load("causes")
    assert set(table["symptoms"]) == set(words.SYMPTOMS) and set(table["readings"]) == set(words.READINGS)
    assert set(table["causes"]) == set(words.CAUSES)
    rules = [rule for cause in table["causes"].values() for rule in cause["rules"]]
    assert {rule["basis"] for rule in rules} == set(words.BASES)
    assert {each["test"] for each in table["readings"].values()} | {""} == set(words.TESTS)
    assert {cause["about"] for cause in table["causes"].values()} == set(words.ABOUT)
    assert set(asked.Code.__args__) <= set(words.SLIPS)
    assert len(WET_SLIPS) == 5


def test_notes_of_the_diary_are_said() -> None:
    desk = Desk(Project(), Outcome(None, (), ()), speaker(Reader("en")))
    said = [
        Note("scale_too_coarse", params={"net": 10.0, "resolution": 1.0, "least": 20.0}),
        Note("chart_stop", params={"reason": "test_0", "value": 95.0, "side": "", "readings": 2}),
        Note("chart_look", params={"test": 7, "side": ""}),
        Note("generator_contrary", params={"control": "air", "slope": 1.0}),
        Note("diary_conflict", params={"id": "k3-0", "number": 2}),
        Note("plan_too_few", params={"what": "batches", "have": 1, "need": 5}),
        Note("plan_beyond_limit", path="waste.breakage_fraction", params={"value": 0.6, "low": 0.0, "high": 0.5}),
        Note("cause_close", params={"first": "cold", "second": "hard_water", "test": "dip_strip"}),
        Note("drain_worse_than_own", params={"ratio": 0.5}),
    ]
    texts = [note_text(desk, each) for each in said]
    assert all("%(" not in text and "_" not in text for text in texts), texts
    assert "20" in texts[0] and "jump" in texts[1] and "60" in texts[6] and "50" in texts[8]


wild = st.one_of(st.text(max_size=12), st.sampled_from(["0", "-1", "1e9", "999999999", "0.0000001", "1,5", "1.500", "nan", "٣"]), st.floats().map(str), st.integers(0, 5000).map(str))


@cases
@given(st.data())
def test_wild_text_always_has_an_outcome(data: st.DataObject) -> None:
    tool = data.draw(st.sampled_from(TOOLS))
    typed = {spot.path: data.draw(wild) for spot in tool.spots if spot.form != "choice" or data.draw(st.integers(0, 9)) == 0}
    confirmed = data.draw(st.sampled_from([[], ["typed"], ["meant:scale_in_ounces"]]))
    made = ask("enter", tool=tool.id, typed=typed, confirmed=confirmed, device="k3", counter=0, at=NOW)
    assert made["outcome"] in ("taken", "refused", "ask", "waiting")
    assert (made["entry"] is not None) == (made["outcome"] == "taken")
    if made["entry"]:
        view = ask("site", entries=[made["entry"]])
        assert len(view["log"]) == 1
