"""The road itself: rooms called in job order, each a pure function of what stands before it."""

from typing import Any

from attrs import fields, frozen, has

from foamwright.finishes import Finishes, finish, stated
from foamwright.material import CementChoice, FoamResult, MixResult, choose, solve, weigh
from foamwright.money import Money, bill
from foamwright.project import FORMAT, Note, Problem, Project
from foamwright.shape import PermitArea, Shape, measure, permit_area
from foamwright.site import Batches, Masonry, Site, joint_need, lifting, masonry, plan, stated_differs
from foamwright.structure import Structure, look


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
    """

    shape: Shape
    permit: PermitArea
    structure: Structure
    blocks: Masonry
    mix: MixResult
    foam: FoamResult
    cement: CementChoice
    batches: Batches
    finishes: Finishes | None
    site: Site
    money: Money


@frozen
class Outcome:
    """An estimate, or what stands in its way.

    Attributes
    ----------
    estimate : Estimate or None
        Absent where there are problems [-]
    problems : tuple of Problem
        What cannot be taken, by path [-]
    notes : tuple of Note
        What a reader must be told beside the figures [-]
    """

    estimate: Estimate | None
    problems: tuple[Problem, ...]
    notes: tuple[Note, ...]


def estimate(project: Project) -> Outcome:
    """Estimate a project.

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
    (94, ())
    """
    problems: list[Problem] = []
    notes: list[Note] = []
    shape, faults, remarks = measure(project.parts)
    problems.extend(faults)
    notes.extend(remarks)
    mix, faults, remarks = solve(project.mix)
    problems.extend(faults)
    notes.extend(remarks)
    foam = None
    if mix:
        foam, faults, remarks = weigh(project.bucket, mix)
        problems.extend(faults)
        notes.extend(remarks)
    cement, remarks = choose(project.market)
    notes.extend(remarks)
    if shape is None or mix is None or foam is None:
        return Outcome(None, tuple(problems), tuple(notes))
    permit, remarks = permit_area(shape, project.permit)
    notes.extend(remarks)
    structure, remarks = look(
        project.parts, project.block, mix.wet_density_kg_m3, mix.oven_dry_density_kg_m3
    )
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
        shape.shell_volume_m3 - blocks.joint_volume_m3, mix, project.market, project.batch, project.foam, project.waste
    )
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
        batches, project.market, shape.floor_area_m2, finishes, stated(project), spread, joint_need(blocks)
    )
    notes.extend(remarks)
    whole = Estimate(shape, permit, structure, blocks, mix, foam, cement, batches, finishes, site, money)
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
        ``format``, ``estimate`` (none where there are problems), ``problems`` and ``notes``; within
        the estimate a path that has no value is absent [-]

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
