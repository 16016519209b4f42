"""A part that cannot be built as stated is left out, named and told; the rest is estimated as if it stood alone."""

import json
from typing import Any

import pytest
from attrs import evolve
from foamwright import page
from foamwright.estimate import as_json, estimate
from foamwright.project import Project
from foamwright.project.model import Base, Mix, Opening, Part, Price, Skin, Skins, Wall
from foamwright.project.write import write_project
from foamwright.reader import Reader, languages, speaker
from foamwright.sheets import landowner
from foamwright.sheets.desk import Desk
from foamwright.sheets.problems import problem_text
from foamwright.sheets.text import render
from foamwright.sheets.why import why

READER = {"language": "en", "units": "metric"}
AT = (30.0, 0.0)
#: Parts that nobody can build, and the code of their fault.
IMPOSSIBLE = {
    "rise_too_low": Part(id="far", at_m=AT, profile="pointed", rise_m=1.0),
    "crown_opening_too_wide": Part(id="far", at_m=AT, crown_opening_m=6.5),
    "plan_crosses_itself": Part(
        id="far", at_m=AT, shape="wall", plan_form="polygon", plan=((0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0))
    ),
    "arch_head_too_low": Part(id="far", at_m=AT, openings=(Opening(form="pointed", width_m=2.0, height_m=0.5),)),
    "opening_too_high": Part(id="far", at_m=AT, openings=(Opening(height_m=5.0),)),
    "beams_too_high": Part(
        id="far", at_m=AT, shape="wall", wall=Wall(build="infill", ring_beams=3, ring_beam_height_m=0.9)
    ),
}
RICH = Project(
    base=Base(kind="footing"),
    skins=Skins(Skin(kind="thin_mesh"), Skin(kind="thin_mesh")),
    market=evolve(Project().market, prices=(Price("cement", "bag", 9.0),)),
)


def _view(project: Project, **more: Any) -> Any:
    args = {"project": write_project(project), "reader": READER, "want": None} | more
    return json.loads(page.call("view", json.dumps(args)))["value"]


def _without(data: Any, *names: str) -> Any:
    """Plain data without what names places in the project."""
    if isinstance(data, dict):
        return {key: _without(value, *names) for key, value in data.items() if key not in names}
    return [_without(item, *names) for item in data] if isinstance(data, list) else data


@pytest.mark.parametrize("code", IMPOSSIBLE)
@pytest.mark.parametrize("first", [True, False])
@pytest.mark.parametrize("project", [Project(), RICH], ids=["shell", "whole"])
def test_the_rest_is_estimated_as_if_it_stood_alone(code: str, first: bool, project: Project) -> None:
    """The estimate is that of the sound part to the last bit, wherever the other stands in the list."""
    sound, far = project.parts[0], IMPOSSIBLE[code]
    parts = (far, sound) if first else (sound, far)
    alone, made = as_json(estimate(project)), as_json(estimate(evolve(project, parts=parts)))
    place = int(first)
    assert made["left_out"] == ["far"] and [problem["code"] for problem in made["problems"]] == [code]
    assert "left_out" not in alone
    (problem,) = made["problems"]
    assert problem["path"].startswith(f"parts[{1 - place}].") and problem["params"]["part"] == "far"
    assert made["estimate"]["structure"]["stands"] == ([False, True] if first else [True, False])
    assert made["estimate"]["shape"]["places"] == [place] and set(made["estimate"]["blocks"]["owners"]) == {place}
    assert {owner for one in made["estimate"]["blocks"]["patterns"] for owner in one["parts"]} == {place}
    where = ("places", "owners", "stands", "barred")
    once, again = (_without(answer["estimate"], *where) for answer in (alone, made))
    for answer in (once, again):
        for pattern in answer["blocks"]["patterns"]:
            del pattern["parts"]
    assert once == again
    assert made["notes"] == json.loads(json.dumps(alone["notes"]).replace("parts[0]", f"parts[{place}]"))


def test_the_order_does_not_matter() -> None:
    """Two sound parts with impossible ones before, between and after them."""
    sound = (Project().parts[0], Part(id="vault", at_m=(-30.0, 0.0), shape="vault"))
    low, wide = (evolve(IMPOSSIBLE[code], id=code) for code in ("rise_too_low", "crown_opening_too_wide"))
    alone = estimate(Project(parts=sound)).estimate
    assert alone is not None
    for parts in ((low, *sound, wide), (sound[0], wide, sound[1], low), (*sound, low, wide)):
        made = estimate(Project(parts=parts))
        assert made.estimate is not None and set(made.left_out) == {"rise_too_low", "crown_opening_too_wide"}
        assert made.left_out == tuple(part.id for part in parts if part.id in made.left_out)
        assert [problem.params["part"] for problem in made.problems] == list(made.left_out)
        assert made.estimate.batches == alone.batches and made.estimate.shape.parts == alone.shape.parts
        assert made.estimate.blocks.courses == alone.blocks.courses
        for owner, course in zip(made.estimate.blocks.owners, made.estimate.blocks.courses, strict=True):
            assert parts[owner].id == course.part
        for note in made.notes:
            if "part" in note.params and note.path.startswith("parts["):
                assert parts[int(note.path[6])].id == note.params["part"]


def test_faults_of_rooms_that_come_later_are_found_too() -> None:
    """One part fails where it is measured, another where its frame is: both are told."""
    parts = (
        evolve(IMPOSSIBLE["beams_too_high"], id="a"), Project().parts[0], evolve(IMPOSSIBLE["rise_too_low"], id="b"),
    )  # fmt: skip
    made = estimate(Project(parts=parts))
    assert made.estimate is not None and made.left_out == ("a", "b")
    assert [problem.code for problem in made.problems] == ["beams_too_high", "rise_too_low"]


def test_nothing_left_and_faults_of_no_part_leave_no_estimate() -> None:
    """All parts at fault, or the recipe: no estimate, and every fault is told."""
    far = IMPOSSIBLE["rise_too_low"]
    nothing = estimate(Project(parts=(far, evolve(far, id="other"))))
    assert nothing.estimate is None and nothing.left_out == () and len(nothing.problems) == 2
    recipe = estimate(Project(parts=(Project().parts[0], far), mix=Mix(given=("cement_kg",))))
    assert recipe.estimate is None and recipe.left_out == ()
    assert {problem.code for problem in recipe.problems} == {"rise_too_low", "mix_underdetermined"}
    assert set(as_json(recipe)) == {"format", "estimate", "problems", "notes"}


@pytest.mark.parametrize("code", IMPOSSIBLE)
def test_the_sentence_names_the_part_once_there_are_several(code: str) -> None:
    """Beside another part the sentence says which; alone it need not."""
    project = Project(parts=(Project().parts[0], IMPOSSIBLE[code]))
    outcome = estimate(project)
    said = problem_text(Desk(project, outcome, speaker(Reader())), outcome.problems[0])
    assert said.count("far") == 1 and "Part 2" not in said
    alone = Project(parts=(evolve(IMPOSSIBLE[code], id="dome"),))
    outcome = estimate(alone)
    assert "%(" not in problem_text(Desk(alone, outcome, speaker(Reader())), outcome.problems[0])


def test_every_sheet_and_the_message_say_what_is_missing() -> None:
    """At the head of every sheet, in the message, in the summary of a code and beside every figure's why."""
    project = evolve(RICH, parts=(IMPOSSIBLE["crown_opening_too_wide"], RICH.parts[0]))
    made = _view(project)
    assert len(made["problems"]) == 1 and made["sheets"] and made["strip"]
    for sheet in made["sheets"]:
        head = sheet["blocks"][0]
        assert head["kind"] == "notes" and head["items"][0]["severity"] == "warning"
        assert head["items"][0]["text"].startswith("Without far, which cannot be built as stated: ")
        assert head["items"][0]["path"] == "parts[0].crown_opening_m"
    text = json.dumps(made["sheets"])
    assert "parts[1].inside_diameter_m" in text and "parts[0].inside_diameter_m" not in text
    desk = Desk(project, estimate(project), speaker(Reader()))
    assert "Without far, which cannot be built as stated: " in landowner.message(desk, "fw")
    answer = why(desk, "batches.cement_bags")
    assert "Without far" in answer["leaves_out"]
    assert {one["path"][:8] for one in answer["inputs"] if one.get("path", "").startswith("parts")} <= {"parts[1]"}
    shared = json.loads(page.call("share", json.dumps({"project": write_project(project), "reader": READER})))["value"]
    assert "Without far, which cannot be built as stated" in shared["message"]
    opened = json.loads(page.call("open_code", json.dumps({"code": shared["code"], "reader": READER})))["value"]
    assert opened["outcome"] == "taken" and "Without far, which cannot be built as stated." in opened["summary"]


def test_why_of_every_figure_shown_can_be_asked() -> None:
    """Each figure of a sheet of the rest answers, those of a part by the part's own place."""
    fill = Part(id="roof", shape="fill", at_m=(-30.0, 0.0))
    project = evolve(RICH, parts=(IMPOSSIBLE["rise_too_low"], RICH.parts[0], fill))
    desk = Desk(project, estimate(project), speaker(Reader()))

    def asked(data: Any) -> set[str]:
        if isinstance(data, dict):
            return {data["figure"]} if "figure" in data else {name for item in data.values() for name in asked(item)}
        return {name for item in data for name in asked(item)} if isinstance(data, list) else set()

    names = asked(_view(project)["sheets"])
    assert "part.volume#2" in names
    for name in names:
        assert why(desk, name)["value"]


@pytest.mark.parametrize("language", [language.tag for language in languages()])
def test_every_language_renders_the_rest(language: str) -> None:
    """The sheets of the rest, in every language and both ways of writing."""
    project = evolve(RICH, parts=(IMPOSSIBLE["plan_crosses_itself"], RICH.parts[0]))
    said = render(project, Reader(language=language))
    assert said.count("far") >= 2 and "%(" not in said


def test_an_opening_is_added_clear_of_others_while_another_part_is_at_fault() -> None:
    """What is wrong elsewhere does not keep a new opening from finding its place."""
    project = Project(parts=(Project().parts[0], IMPOSSIBLE["rise_too_low"]))
    action = {"name": "add", "path": "parts[0].openings"}
    args = {"project": write_project(project), "reader": READER, "action": action, "want": ["glance"]}
    made = json.loads(page.call("act", json.dumps(args)))["value"]
    assert [problem["path"] for problem in made["view"]["problems"]] == ["parts[1].rise_m"]


def test_a_passage_that_misses_its_neighbour_is_told_with_its_part() -> None:
    """The part with the passage is left out; the neighbour is estimated as if it stood alone."""
    sound = Project().parts[0]
    far = Part(id="far", at_m=AT, openings=(Opening(azimuth_deg=90.0, to=sound.id),))
    project = Project(parts=(sound, far))
    outcome = estimate(project)
    assert outcome.left_out == ("far",) and outcome.problems[0].path.startswith("parts[1].openings[0].")
    said = problem_text(Desk(project, outcome, speaker(Reader())), outcome.problems[0])
    assert "far" in said and sound.id in said
    alone = estimate(Project()).estimate
    assert outcome.estimate is not None and alone is not None
    assert outcome.estimate.batches == alone.batches and outcome.estimate.shape.parts == alone.shape.parts


def test_a_passage_to_a_part_that_is_left_out_is_a_plain_opening() -> None:
    """What leads to the missing part still opens the shell that stands."""
    door = Opening(azimuth_deg=0.0)
    far = IMPOSSIBLE["rise_too_low"]
    plain = estimate(Project(parts=(Part(openings=(door,)),))).estimate
    made = estimate(Project(parts=(Part(openings=(evolve(door, to="far"),)), far)))
    assert made.left_out == ("far",) and made.estimate is not None and plain is not None
    assert made.estimate.shape.shell_volume_m3 == plain.shape.shell_volume_m3
    assert made.estimate.batches == plain.batches
