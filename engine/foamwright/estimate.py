"""The road itself: rooms called in job order, each a pure function of what stands before it."""

import re
from typing import Any, Final

from attrs import evolve, field, fields, frozen, has

from foamwright.finishes import Finishes, finish, stated
from foamwright.material import BlendResult, CementChoice, FoamResult, MixResult, choose, solve_blend, weigh
from foamwright.money import Money, bill
from foamwright.project import FORMAT, Note, Problem, Project
from foamwright.shape import PermitArea, Shape, measure, permit_area
from foamwright.site import (
    Ahead,
    Batches,
    Masonry,
    Site,
    addition_needs,
    additions_of,
    casting,
    joint_need,
    lifting,
    look_ahead,
    masonry,
    plan,
    stated_differs,
)
from foamwright.structure import Structure, look, pours

#: A path that leads into a part.
_PART: Final = re.compile(r"parts\[(\d+)\]")


@frozen
class Estimate:
    """All that follows from a project.

    Attributes
    ----------
    shape : Shape
        Volumes, faces and floors [-]
    permit : PermitArea
        The floor area that counts for a permit [-]
    structure : Structure
        A first look at stability [-]
    blocks : Masonry
        Blocks as they are laid, course by course [-]
    mix : MixResult
        One batch as stated [-]
    blend : BlendResult
        The same batch with its additions [-]
    foam : FoamResult
        What the measuring bucket must weigh [-]
    cement : CementChoice
        Which cements serve [-]
    batches : Batches
        The batch made on site, and what the whole job takes [-]
    finishes : Finishes or None
        Base and skins, as far as they are stated; absent where neither is [-]
    site : Site
        What is lifted by hand [-]
    money : Money
        The bill, as far as the job is stated [-]
    ahead : Ahead
        What to expect of the batch, what the weather asks for, and how it hardens and dries [-]
    """

    shape: Shape
    permit: PermitArea
    structure: Structure
    blocks: Masonry
    mix: MixResult
    blend: BlendResult
    foam: FoamResult
    cement: CementChoice
    batches: Batches
    finishes: Finishes | None
    site: Site
    money: Money
    ahead: Ahead


@frozen
class Outcome:
    """An estimate, or what stands in its way; where only some parts are at fault, the estimate of the rest.

    Attributes
    ----------
    estimate : Estimate or None
        Absent where nothing can be built as stated [-]
    problems : tuple of Problem
        What cannot be taken, by path; those of a part carry its name as ``part`` [-]
    notes : tuple of Note
        What a reader must be told beside the figures [-]
    left_out : tuple of str
        Names of the parts that are not in the estimate, since they cannot be built as stated [-]
    """

    estimate: Estimate | None
    problems: tuple[Problem, ...]
    notes: tuple[Note, ...]
    left_out: tuple[str, ...] = field(default=())


def part_of(path: str) -> int | None:
    """Return the place of the part that a path leads into.

    Source: the project file's own paths.

    Parameters
    ----------
    path : str
        A path such as ``parts[1].thickness_m`` [-]

    Returns
    -------
    int or None
        Its place in the project, the first at 0; absent where it leads elsewhere [-]

    Examples
    --------
    >>> part_of("parts[1].openings[0].width_m"), part_of("parts"), part_of("mix.given")
    (1, None, None)
    """
    match = _PART.match(path)
    return int(match[1]) if match else None


def estimate(project: Project) -> Outcome:
    """Estimate a project; parts that cannot be built as stated are left out, named and told.

    Source: arithmetic; each room names its own sources.

    Parameters
    ----------
    project : Project
        What the builder states, read and checked [-]

    Returns
    -------
    Outcome
        The estimate with its notes, or the problems of every room that could be asked [-]

    Examples
    --------
    >>> outcome = estimate(Project())
    >>> outcome.estimate.batches.cement_bags, outcome.problems
    (103, ())
    >>> from foamwright.project.model import Part
    >>> beside = (*Project().parts, Part(id="far", profile="pointed", rise_m=1.0, at_m=(20.0, 0.0)))
    >>> outcome = estimate(Project(parts=beside))
    >>> outcome.estimate.batches == estimate(Project()).estimate.batches, outcome.left_out, outcome.problems[0].code
    (True, ('far',), 'rise_too_low')
    """
    places = tuple(range(len(project.parts)))
    first = found = _road(project, places)
    problems: list[Problem] = []
    while found.problems:
        problems += found.problems
        faulty = {part_of(problem.path) for problem in found.problems}
        places = tuple(place for place in places if place not in faulty)
        if None in faulty or not places:
            return Outcome(None, _named(project, problems), first.notes)
        found = _road(project, places)
    if not problems:
        return found
    left = tuple(part.id for i, part in enumerate(project.parts) if i not in places)
    return Outcome(found.estimate, _named(project, problems), found.notes, left)


def _named(project: Project, problems: list[Problem]) -> tuple[Problem, ...]:
    """Give each problem of a part the part's name; those of the first part come first, those of no part last."""
    out = []
    for problem in problems:
        place = part_of(problem.path)
        if place is not None and "part" not in problem.params:
            problem = evolve(problem, params={**problem.params, "part": project.parts[place].id})
        out.append((len(project.parts) if place is None else place, problem))
    return tuple(problem for _, problem in sorted(out, key=lambda pair: pair[0]))


def _road(project: Project, places: tuple[int, ...]) -> Outcome:
    """Go once through all rooms with the parts at these places."""
    problems: list[Problem] = []
    notes: list[Note] = []
    shape, faults, remarks = measure(project.parts, places)
    problems.extend(faults)
    notes.extend(remarks)
    blend, faults, remarks = solve_blend(project.mix, additions_of(project.mix))
    mix = blend.mix if blend else None
    problems.extend(faults)
    notes.extend(remarks)
    foam = None
    if mix:
        foam, faults, remarks = weigh(project.bucket, mix)
        problems.extend(faults)
        notes.extend(remarks)
    cement, remarks = choose(project.market)
    notes.extend(remarks)
    if shape is None or blend is None or mix is None or foam is None:
        return Outcome(None, tuple(problems), tuple(notes))
    permit, remarks = permit_area(shape, project.permit)
    notes.extend(remarks)
    structure, remarks = look(
        project.parts, project.block, mix.wet_density_kg_m3, mix.oven_dry_density_kg_m3, project.base, places
    )
    notes.extend(remarks)
    poured, remarks = pours(project.parts, shape, mix, project.market.cement_type)
    structure = evolve(structure, pours=poured)
    notes.extend(remarks)
    blocks, remarks = masonry(
        project.parts,
        shape,
        project.block,
        project.waste,
        mix.wet_density_kg_m3,
        mix.oven_dry_density_kg_m3,
    )
    notes.extend(remarks)
    batches, faults, remarks = plan(
        shape.shell_volume_m3 - blocks.joint_volume_m3, mix, project.market, project.batch, project.foam, project.waste,
        casting(blocks, shape),
    )  # fmt: skip
    problems.extend(faults)
    notes.extend(remarks)
    if batches is None:
        return Outcome(None, tuple(problems), tuple(notes))
    recipe = project.mix.cement_kg if "cement_kg" in project.mix.given else None
    notes.extend(stated_differs(recipe, batches.batch))
    site, remarks = lifting(batches, blocks, project.market, project.batch)
    notes.extend(remarks)
    finishes, faults, remarks = finish(project, shape, mix)
    problems.extend(faults)
    notes.extend(remarks)
    if problems:
        return Outcome(None, tuple(problems), tuple(notes))
    spread: tuple[Finishes | None, Finishes | None] = (None, None)
    if finishes is not None and any(price.price is not None for price in project.market.prices):
        spread = (finish(project, shape, mix, 0.0)[0], finish(project, shape, mix, 2.0)[0])
    money, remarks = bill(
        batches, project.market, shape.floor_area_m2, finishes, stated(project), spread, joint_need(blocks),
        addition_needs(batches, blend, project.aggregate),
    )  # fmt: skip
    notes.extend(remarks)
    block_mass = blocks.fresh_mass_kg if blocks.to_cast else 0.0
    ahead, remarks = look_ahead(project, blend, shape.shell_volume_m3, block_mass, shape.places)
    notes.extend(remarks)
    whole = Estimate(shape, permit, structure, blocks, mix, blend, foam, cement, batches, finishes, site, money, ahead)
    return Outcome(whole, (), tuple(notes))


def as_json(outcome: Outcome) -> dict[str, Any]:
    """Return an outcome as plain data for JSON.

    Source: arithmetic.

    Parameters
    ----------
    outcome : Outcome
        What `estimate` returned [-]

    Returns
    -------
    dict
        ``format``, ``estimate`` (of the parts that can be built; none where there are none), ``problems`` and ``notes``, and
        ``left_out`` where parts are; within the estimate a path that has no value is absent [-]

    Examples
    --------
    >>> as_json(estimate(Project()))["estimate"]["blocks"]["basis"]
    'courses'
    """
    return {
        "format": FORMAT,
        "estimate": None if outcome.estimate is None else _plain(outcome.estimate, keep=False),
        "problems": [_plain(problem, keep=True) for problem in outcome.problems],
        "notes": [_plain(note, keep=True) for note in outcome.notes],
        **({"left_out": list(outcome.left_out)} if outcome.left_out else {}),
    }


def _plain(value: Any, keep: bool) -> Any:
    """Turn attrs classes and tuples into dicts and lists; leave absent values out unless kept."""
    if isinstance(value, tuple):
        return [_plain(item, keep) for item in value]
    if isinstance(value, dict):
        return dict(value)
    if not has(type(value)):
        return value
    pairs = ((name.name, getattr(value, name.name)) for name in fields(type(value)))
    return {name: _plain(item, keep) for name, item in pairs if keep or item is not None}
