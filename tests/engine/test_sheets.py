"""The sheets say everything that the rooms can say, in every language, and never move the building."""

import json
import re
from typing import Any

import attrs
import pytest
from foamwright import page
from foamwright.estimate import estimate
from foamwright.project.codes import NOTE_CODES, PROBLEM_CODES
from foamwright.project.model import Base, Market, Opening, Part, Price, Project, Skin, Skins
from foamwright.project.read import read_project
from foamwright.project.write import write_project
from foamwright.reader import Reader, languages, speaker
from foamwright.sheets import text
from foamwright.sheets.desk import Desk, pattern
from foamwright.sheets.fields import CHOICES, FIELDS, LISTS
from foamwright.sheets.form import lookup, metadata
from foamwright.sheets.glance import drawing
from foamwright.sheets.problems import NOTES, PROBLEMS, note_text, problem_text
from foamwright.sheets.view import SHEETS, view

TAGS = [language.tag for language in languages()]
READERS = [Reader(language=tag, units=units) for tag in TAGS for units in ("metric", "us", "imperial")]
HARD = Project(
    name="شرق " + "n" * 70,
    market=Market(prices=(Price(item="cement", unit="bag", price=123456789.5),)),
    parts=(Part(openings=tuple(
        Opening(form="round", diameter_m=0.3, sill_m=1.0 + 0.05 * i, azimuth_deg=30.0 * i) for i in range(12))),),
)  # fmt: skip

FINISHED = attrs.evolve(
    Project(),
    base=Base(kind="ring_beam", steel_sized="typed", steel_sized_by="A. N. Other", bar_diameter_m=0.012, bars=4,
              concrete="ready", slab_insulation_m=0.05),
    skins=Skins(
        outside=Skin(kind="lath", waterproofing_coats=1, waterproofing_coverage_m2_l=4.0, paint_coats=2),
        inside=Skin(kind="thin_mesh"), lay="bands",
    ),
    market=Market(prices=(Price(item="mesh_roll", unit="piece", price=60.0), Price(item="lime", unit="m2", price=1.0))),
)  # fmt: skip


def _call(op: str, **args: Any) -> Any:
    answer = json.loads(page.call(op, json.dumps(args)))
    assert answer["ok"], answer
    return answer["value"]


def test_every_problem_and_note_has_words() -> None:
    assert set(PROBLEMS) == PROBLEM_CODES
    assert {code.split("/")[0] for code in NOTES} == NOTE_CODES


def _notes_drawn() -> list[tuple[Project, Any]]:
    """Projects that draw many notes, with the notes that they draw."""
    plain = Project()
    batch, mix, part = plain.batch, plain.mix, plain.parts[0]
    projects = [
        plain,
        attrs.evolve(plain, batch=attrs.evolve(batch, bags_each=1.0, drum_l=120.0)),
        attrs.evolve(plain, batch=attrs.evolve(batch, drum_l=20.0)),
        attrs.evolve(plain, market=attrs.evolve(plain.market, cement_bag_kg=50.0)),
        attrs.evolve(plain, batch=attrs.evolve(batch, drum_form="calibrated")),
        attrs.evolve(plain, mix=attrs.evolve(mix, foam_density_kg_m3=200.0)),
        attrs.evolve(plain, mix=attrs.evolve(mix, yield_l=700.0)),
        attrs.evolve(plain, parts=(attrs.evolve(part, thickness_m=0.08),)),
        attrs.evolve(plain, parts=(part, attrs.evolve(part, id="other"))),
        attrs.evolve(plain, permit=attrs.evolve(plain.permit, counts="inside", limit_m2=10.0)),
        attrs.evolve(plain, block=attrs.evolve(plain.block, length_m=1.0, height_m=0.6)),
        attrs.evolve(plain, market=attrs.evolve(plain.market, cement_type="masonry", prices=(
            Price(item="cement", unit="piece", price=1.0), Price(item="cement", unit="kg", price=1.0)))),
        attrs.evolve(plain, market=attrs.evolve(plain.market, cement_type="cem_iv")),
    ]  # fmt: skip
    bare = Base(kind="ring_beam", frost_depth_m=0.9, beam_width_m=0.1, trench_width_m=0.05)
    thin = Skins(outside=Skin(kind="lath", finish_thickness_m=0.0, paint_coats=1), mesh_strength_n_mm=10.0)
    projects += [
        FINISHED,
        attrs.evolve(plain, base=bare, market=FINISHED.market),
        attrs.evolve(plain, base=attrs.evolve(bare, steel_sized="placeholder", frost_depth_m=None)),
        attrs.evolve(plain, base=attrs.evolve(bare, steel_sized="placeholder", bar_diameter_m=0.01, bars=2)),
        attrs.evolve(plain, base=attrs.evolve(bare, steel_sized="typed", bar_diameter_m=0.01, bars=2)),
        attrs.evolve(plain, skins=thin),
        attrs.evolve(plain, skins=attrs.evolve(thin, inside=Skin(kind="none"))),
    ]
    return [(project, note) for project in projects for note in estimate(project).notes]


@pytest.mark.parametrize("tag", TAGS)
def test_notes_are_said_with_all_their_values(tag: str) -> None:
    drawn = _notes_drawn()
    assert len({note.code for _, note in drawn}) >= 18
    for project, note in drawn:
        said = note_text(Desk(project, estimate(project), speaker(Reader(language=tag))), note)
        assert said and "%(" not in said, note.code
        assert not re.search(r"\d\.\d{7}", said), f"{note.code} shows a raw float: {said}"


BAD = [
    ('{"format": 1, "parts": [{"thickness_m": -0.2}]}', "Thickness", "-20", "3"),
    ('{"format": 1, "parts": [{"openings": [{"form": "rectangular", "height_m": 9}]}]}', "Height", "9", "3.4"),
    ('{"format": 1, "bucket": {"foam_low_kg_m3": 99, "foam_aim_kg_m3": 95}}', "Lightest", "", ""),
    ('{"format": 1, "mix": {"yield_l": 20}}', "Yield", "20", "36"),
    ('{"format": 1, "market": {"currency": "dollars"}}', "Currency", "dollars", ""),
    ('{"format": 1, "place": {"latitude": 400}}', "place.latitude", "400", "90"),
    ('{"format": 1, "parts": [{"openings": [{}, {}]}]}', "overlaps", "", ""),
    ('{"format": 1, "skins": {"outside": {"kind": "lath"}, "lap_m": 0.6}}', "Overlap", "60", "50"),
    ('{"format": 1, "base": {"kind": "footing", "steel_sized": "typed", "bars": 4, "bar_diameter_m": 0.05, "bar_length_m": 1}}',
     "Lap", "40", "20"),
]


@pytest.mark.parametrize(("source", "field", "value", "limit"), BAD)
def test_a_problem_names_field_value_and_limit(source: str, field: str, value: str, limit: str) -> None:
    reading = read_project(source)
    problems = reading.problems or (estimate(reading.project).problems if reading.project else ())
    assert problems
    said = problem_text(Desk(Project(), estimate(Project()), speaker(Reader())), problems[0])
    assert field in said and value in said and limit in said, said


@pytest.mark.parametrize("reader", READERS, ids=str)
@pytest.mark.parametrize("project", [Project(), HARD, FINISHED], ids=["plain", "hard", "finished"])
def test_every_sheet_in_every_language_and_unit(reader: Reader, project: Project) -> None:
    made = view(project, speaker(reader))
    assert made["sheets"] and len(made["sheets"]) == len(SHEETS)
    flat = json.dumps(made, ensure_ascii=False)
    assert "%(" not in flat and "nan" not in flat.lower().split() and "None" not in flat
    assert text.render(project, reader).count("\n") > 100


def _coordinates(svg: str) -> list[str]:
    """All that places anything in a drawing, save the plates behind labels, whose width follows the words."""
    svg = re.sub(r'<rect class="plate"[^>]*>', "", svg)
    return re.findall(r'(?:\bd|viewBox|\bx|\by|cx|cy|\br)="([^"]*)"', svg)


@pytest.mark.parametrize("project", [Project(), HARD], ids=["plain", "hard"])
@pytest.mark.parametrize("tag", [tag for tag in TAGS if tag != "en"])
def test_a_drawing_is_never_mirrored(tag: str, project: Project) -> None:
    def svg(language: str) -> str:
        desk = Desk(project, estimate(project), speaker(Reader(language=language)))
        return str(drawing(desk, 0)["svg"])

    assert len(_coordinates(svg("en"))) > 20
    assert _coordinates(svg(tag)) == _coordinates(svg("en"))


def test_markup_in_a_name_stays_text() -> None:
    name = '<img src=x onerror="alert(1)">'
    project = attrs.evolve(Project(), name=name, parts=(attrs.evolve(Project().parts[0], id=name[:40]),) * 1)
    made = view(project, speaker(Reader()))
    for sheet in made["sheets"]:
        for block in sheet["blocks"]:
            if block["kind"] == "drawing":
                assert "<img" not in block["svg"]


def _entries(node: Any) -> list[dict[str, Any]]:
    found = []
    if isinstance(node, dict):
        if "path" in node and "kind" in node and node["kind"] not in ("list",):
            found.append(node)
        for value in node.values():
            found += _entries(value)
    elif isinstance(node, list):
        for value in node:
            found += _entries(value)
    return found


@pytest.mark.parametrize("reader", READERS, ids=str)
def test_a_field_reads_back_as_itself(reader: Reader) -> None:
    """What a field shows can be typed into it again: it is never asked about and gives the same value."""
    source = write_project(HARD)
    s = speaker(reader)
    for entry in _entries(view(HARD, s)["sections"]):
        answer = _call("edit", project=source, reader=reader.to_json(), path=entry["path"], text=entry["value"], want=[])
        assert answer["outcome"] == "taken", (entry["path"], entry["value"], answer["problem"])
        again = read_project(answer["project"]).project
        assert again is not None
        if entry["path"] == "mix.given":
            continue
        before, after = lookup(HARD, entry["path"]), lookup(again, entry["path"])
        assert after == before, entry["path"]


def test_all_fields_and_choices_have_words() -> None:
    for path in FIELDS:
        meta = metadata(path)
        if meta["kind"] == "choice":
            words = CHOICES[path]
            missing = set(meta["choices"]) - set(words)
            assert not missing or path == "market.strength_class", (path, missing)
    for path in LISTS:
        assert metadata(path)["kind"] in ("many", "points", "numbers")
    assert all(pattern(path) == path for path in FIELDS)


def test_another_way_to_state_the_mix_keeps_the_mix() -> None:
    source = write_project(Project())
    first = estimate(Project()).estimate
    assert first is not None
    for given in CHOICES["mix.given"]:
        answer = _call("edit", project=source, reader={}, path="mix.given", text=given, want=[])
        project = read_project(answer["project"]).project
        assert project is not None
        made = estimate(project).estimate
        assert made is not None
        assert made.mix.foam_volume_l == pytest.approx(first.mix.foam_volume_l, rel=1e-9)
        assert set(project.mix.given) == set(given.split("+"))


def test_an_added_opening_meets_no_other() -> None:
    source = write_project(Project())
    for _ in range(4):
        answer = _call("act", project=source, reader={}, action={"name": "add", "path": "parts[0].openings"}, want=[])
        assert answer["outcome"] == "taken" and answer["view"]["problems"] == []
        source = answer["project"]


def test_currency_with_prices_asks_and_each_answer_does_what_it_says() -> None:
    source = '{"format": 1, "market": {"currency": "USD", "prices": [{"item": "cement", "unit": "bag", "price": 10}]}}'
    act = {"name": "currency", "currency": "MXN"}
    asked = _call("act", project=source, reader={}, action=act, want=[])
    assert asked["outcome"] == "ask" and [r["how"] for r in asked["readings"]] == ["relabel", "convert", "clear"]
    assert asked["project"] == source

    def price(**more: str) -> tuple[str, float | None]:
        answer = _call("act", project=source, reader={}, action=act | more, want=[])
        project = read_project(answer["project"]).project
        assert answer["outcome"] == "taken" and project is not None
        return project.market.currency, project.market.prices[0].price

    assert price(how="relabel") == ("MXN", 10.0)
    assert price(how="clear") == ("MXN", None)
    assert price(how="convert", rate="18.5", date="2026-03-15") == ("MXN", 185.0)
    for rate in ("", "nan", "1.500"):
        bad = act | {"how": "convert", "rate": rate, "date": "2026-03-15"}
        answer = _call("act", project=source, reader={}, action=bad, want=[])
        assert answer["outcome"] in ("refused", "ask") and answer["problem"]["text"], rate
        assert answer["project"] == source
    answer = _call("act", project=source, reader={}, action={"name": "currency", "currency": "ABC"}, want=[])
    assert answer["outcome"] == "refused" and "ABC" in answer["problem"]["text"]


def test_bag_and_back_is_the_same_project_to_the_last_digit() -> None:
    source = write_project(Project())
    there = _call("act", project=source, reader={}, action={"name": "bag", "kg": 50.0}, want=[])["project"]
    assert there != source
    kept = Project().market.cement_bag_kg
    back = _call("act", project=there, reader={}, action={"name": "bag", "kg": kept}, want=[])["project"]
    assert back == source


@pytest.mark.parametrize("tag", TAGS)
def test_a_shared_code_opens_as_the_same_project(tag: str) -> None:
    source = write_project(HARD)
    sent = _call("share", project=source, reader={"language": tag}, to={"language": tag})
    assert sent["message"].endswith(sent["code"]) and sent["qr"].startswith("<svg")
    for given in (sent["code"], sent["fragment"], sent["message"]):
        opened = _call("open_code", code=given, reader={"language": tag})
        assert opened["outcome"] == "taken" and opened["project"] == source, given[:50]


def test_bad_calls_are_answered_in_words() -> None:
    for op, args in (
        ("nothing", {}),
        ("view", {"project": "not a project"}),
        ("why", {"project": '{"format": 1}', "figure": "no.such"}),
        ("act", {"project": '{"format": 1}', "action": {"name": "fly"}}),
    ):
        answer = json.loads(page.call(op, json.dumps(args)))
        assert not answer["ok"] and answer["problem"]["params"]["text"]
    edited = _call("edit", project='{"format": 1}', reader={}, path="no.such", text="1", want=[])
    assert edited["outcome"] == "refused" and "no.such" in edited["problem"]["text"]


@pytest.mark.parametrize("tag", TAGS)
def test_the_spread_skin_is_never_mirrored(tag: str) -> None:
    def svgs(language: str) -> list[str]:
        made = view(FINISHED, speaker(Reader(language=language)), ["finishes"])["sheets"]
        return [block["svg"] for block in made[0]["blocks"] if block["kind"] == "drawing"]

    assert len(svgs(tag)) == 2
    assert [_coordinates(svg) for svg in svgs(tag)] == [_coordinates(svg) for svg in svgs("en")]


def test_the_form_asks_only_what_means_something() -> None:
    """Nothing of a base or skin but its kind until one is chosen; then what belongs to it."""

    def paths(project: Project) -> set[str]:
        return {entry["path"] for entry in _entries(view(project, speaker(Reader()), [])["sections"]["base"])}

    assert paths(Project()) == {"base.kind", "skins.outside.kind", "skins.inside.kind"}
    full = paths(FINISHED)
    assert {"base.bar_diameter_m", "base.frost_depth_m", "skins.roll_width_m", "skins.outside.paint_coverage_m2_l"} <= full
    assert not full & {"base.gravel_parts", "skins.inside.brown_sand_parts", "skins.inside.paint_coverage_m2_l"}


def test_what_is_stated_replaces_the_allowance_for_the_landowner() -> None:
    def said(project: Project) -> str:
        sent = _call("share", project=write_project(project), reader={}, to={})
        return str(sent["message"])

    assert "come on top" in said(Project())
    whole = said(FINISHED)
    assert "on top" not in whole and "Rolls of mesh to buy: " in whole and "for the whole job" in whole
    partly = said(attrs.evolve(FINISHED, base=Base()))
    assert "What is not stated of base and skins comes on top" in partly
