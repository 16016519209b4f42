"""Every profile, and vaults, as the reader sees them: the drawing, its words, the form, problems in words."""

import json
import re
from typing import Any

import attrs
import pytest
from foamwright import page
from foamwright.estimate import estimate
from foamwright.project.model import Opening, Part, Project
from foamwright.project.write import write_project
from foamwright.reader import Reader, speaker
from foamwright.shape.meridian import PROFILES
from foamwright.sheets.desk import Desk
from foamwright.sheets.form import sections
from foamwright.sheets.glance import drawing
from foamwright.sheets.landowner import message
from foamwright.sheets.problems import problem_text
from foamwright.sheets.view import view

DOOR = Opening(form="pointed", height_m=1.7)
WINDOWS = Opening(form="round", sill_m=0.9, azimuth_deg=60.0, count=2)


def _desk(part: Part, **reader: Any) -> Desk:
    project = Project(parts=(part,))
    return Desk(project, estimate(project), speaker(Reader(**reader)))


def _part(shape: str, profile: str, **more: Any) -> Part:
    high = {"segment": 1.9, "pointed": 3.6}.get(profile, 2.4)
    return Part(shape=shape, profile=profile, rise_m=high, openings=(DOOR, WINDOWS), **more)


def _paths(svg: str) -> set[str]:
    return set(re.findall(r'data-path="parts\[0\]\.([^"]*)"', svg))


@pytest.mark.parametrize("profile", PROFILES)
@pytest.mark.parametrize("shape", ["dome", "vault"])
def test_a_drawing_of_every_profile(shape: str, profile: str) -> None:
    """Nothing lies outside the picture, every size can be touched, and the words say its sizes."""
    desk = _desk(_part(shape, profile))
    made = drawing(desk, 0)
    assert "nan" not in made["svg"] and "inf" not in made["svg"]
    left, top, wide, tall = map(float, re.findall(r'viewBox="([^"]*)"', made["svg"])[0].split())
    for points in re.findall(r'\bd="([^"]*)"', made["svg"]):
        for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", points):
            assert left - 1 <= float(x) <= left + wide + 1 and top - 1 <= float(y) <= top + tall + 1
    for x, y, w, h in re.findall(r'class="plate" x="([^"]*)" y="([^"]*)" width="([^"]*)" height="([^"]*)"', made["svg"]):
        assert left - 1 <= float(x) and float(x) + float(w) <= left + wide + 1
        assert top - 1 <= float(y) and float(y) + float(h) <= top + tall + 1
    own = profile not in ("hemisphere", "semicircle")
    expected = {"thickness_m", "stem_height_m", "openings[0].form", "openings[1].form"}
    expected |= {"inside_span_m"} if shape == "vault" else {"inside_diameter_m"}
    expected |= {"rise_m"} if own else set()
    assert _paths(made["svg"]) == expected
    rise = desk.s.quantity(desk.e.shape.parts[0].rise_m, "length")
    assert not own or (rise in made["svg"] and rise in made["words"])
    assert desk.s.quantity(desk.e.shape.height_m, "length") in made["words"]
    assert ("vault" in made["words"]) == (shape == "vault")


def test_a_drawing_of_a_tapering_dome_under_glass() -> None:
    part = _part("dome", "catenary", crown_thickness_m=0.13, crown_opening_m=0.8, crown_closed_by="glazed")
    made = drawing(_desk(part), 0)
    assert "crown_opening_m" in _paths(made["svg"])
    assert "glazed" in made["words"] and "0.80" in made["words"] and "13" in made["words"]
    closed = drawing(_desk(attrs.evolve(part, crown_opening_m=0.0)), 0)
    assert {"crown_thickness_m"} <= _paths(closed["svg"]) and "glazed" not in closed["words"]


def test_a_vault_is_drawn_towards_the_end_that_has_a_door() -> None:
    """Seen towards end a, side a is on the right: its window is cut there."""
    window = Opening(form="round", sill_m=0.9, face="side_a")
    towards_b = drawing(_desk(Part(shape="vault", openings=(window,))), 0)
    towards_a = drawing(_desk(Part(shape="vault", openings=(window, attrs.evolve(DOOR, face="end_a")))), 0)

    def jamb(svg: str) -> float:
        (path,) = re.findall(r'class="jamb" d="M(-?[\d.]+) ', svg)
        return float(path)

    assert jamb(towards_b["svg"]) < 0 < jamb(towards_a["svg"])
    assert "end B" in towards_b["words"] and "end A" in towards_a["words"]


def _entries(part: Part) -> dict[str, dict[str, Any]]:
    shape = sections(_desk(part))["shape"]
    (parts,) = (entry for entry in shape if entry.get("path") == "parts")
    found: dict[str, dict[str, Any]] = {}

    def walk(entries: list[dict[str, Any]]) -> None:
        for entry in entries:
            if "value" in entry:
                found[entry["path"].removeprefix("parts[0].")] = entry
            for item in entry.get("items", []):
                walk(item["entries"])
            walk(entry.get("entries", []))

    walk(parts["items"][0]["entries"])
    return found


def test_the_form_asks_what_means_something() -> None:
    dome = _entries(Part(openings=(DOOR,)))
    assert not {"inside_span_m", "length_m", "ends", "end_thickness_m", "rise_m", "crown_closed_by"} & set(dome)
    assert not {"openings[0].face", "openings[0].along_m"} & set(dome)
    assert {"inside_diameter_m", "crown_opening_m", "openings[0].azimuth_deg"} <= set(dome)
    assert {"rise_m", "crown_closed_by"} <= set(_entries(Part(profile="parabola", crown_opening_m=0.5)))
    vault = _entries(Part(shape="vault", openings=(attrs.evolve(DOOR, face="end_a"), WINDOWS)))
    assert not {"inside_diameter_m", "crown_opening_m", "openings[0].azimuth_deg", "openings[1].along_m"} & set(vault)
    assert {"inside_span_m", "length_m", "ends", "end_thickness_m", "openings[0].along_m", "openings[1].azimuth_deg"} <= set(vault)
    assert "end_thickness_m" not in _entries(Part(shape="vault", ends="open"))


@pytest.mark.parametrize(("shape", "word"), [("dome", "Hemisphere"), ("vault", "Semicircle")])
@pytest.mark.parametrize("profile", ["hemisphere", "semicircle", "parabola"])
def test_a_circle_is_offered_once(shape: str, word: str, profile: str) -> None:
    entry = _entries(Part(shape=shape, profile=profile, rise_m=2.0))["profile"]
    labels = [choice["label"] for choice in entry["choices"]]
    assert len(labels) == 6 and labels.count(word) == 1
    assert not {"Hemisphere", "Semicircle"} - {word} & set(labels)
    assert entry["value"] in [choice["value"] for choice in entry["choices"]]


@pytest.mark.parametrize(
    ("part", "says"),
    [
        (Part(id="hall", profile="segment", rise_m=3.5), ["Rise", "hall", "3.5", "3"]),
        (Part(id="hall", profile="pointed", rise_m=2.0), ["Rise", "hall", "2", "3"]),
        (Part(id="hall", crown_thickness_m=0.3), ["crown", "hall", "30", "20"]),
        (Part(id="hall", crown_opening_m=7.0), ["crown", "hall", "7", "6"]),
        (Part(shape="vault", ends="open", openings=(Opening(face="end_a"),)), ["wall", "open"]),
        (Part(shape="vault", openings=(Opening(face="side_a", height_m=1.0, along_m=0.2),)), ["along", "0.2", "0.45"]),
    ],
)
def test_what_cannot_be_is_said_with_its_part(part: Part, says: list[str]) -> None:
    project = Project(parts=(part,))
    outcome = estimate(project)
    said = problem_text(Desk(project, outcome, speaker(Reader())), outcome.problems[0])
    assert "%(" not in said
    for word in says:
        assert word in said, said


def test_the_message_calls_a_vault_a_vault() -> None:
    said = message(_desk(_part("vault", "parabola")), "code")
    assert "Vault" in said and "Dome," not in said and "4.00" in said and "6.00" in said


@pytest.mark.parametrize("profile", PROFILES)
def test_the_page_shows_every_profile(profile: str) -> None:
    project = Project(parts=(_part("dome", profile, id="a"), _part("vault", profile, id="b", at_m=(12.0, 0.0))))
    made = view(project, speaker(Reader()))
    assert made["sheets"] and not made["problems"]
    assert "%(" not in json.dumps(made)


def test_a_new_part_stands_clear_of_a_long_vault() -> None:
    text = write_project(Project(parts=(Part(shape="vault", length_m=20.0, bearing_deg=30.0),)))
    reader = {"language": "en", "units": "metric", "digits": "auto", "numbers": "auto", "catalog": None}
    asked = {"project": text, "reader": reader, "action": {"name": "add", "path": "parts"}, "want": []}
    answer = json.loads(page.call("act", json.dumps(asked)))
    assert answer["ok"], answer
    added = json.loads(answer["value"]["project"])["parts"]
    assert len(added) == 2
    from foamwright.project.read import read_project

    project = read_project(answer["value"]["project"]).project
    assert project is not None
    assert "parts_overlap" not in {note.code for note in estimate(project).notes}
