"""Blocks as they are laid: counted course by course, what is cast for them, how they are sawn, and their joints."""

from collections.abc import Iterable
from typing import Final

from attrs import evolve, frozen

from foamwright.finishes.finish import Need
from foamwright.material.density import OvenDryDensity, WetDensity
from foamwright.project.model import Block, Part, Waste
from foamwright.project.notes import Note, Scalar
from foamwright.project.whole import ceiling
from foamwright.shape.bond import LAID, lay
from foamwright.shape.courses import SLIVER, Course
from foamwright.shape.measure import Shape
from foamwright.site.batches import Casting
from foamwright.site.blocks import Blocks, BlockSize, block_mass, block_mass_dry, count_blocks
from foamwright.site.jointed import beside_joints

#: Blocks whose sizes differ by less than this are sawn alike: nobody saws foamed concrete finer. Common practice, no source [mm].
_ALIKE_MM: Final = 1.0
#: Shares of a block that differ by less than this are the same [-].
_SAME: Final = 1e-9


@frozen
class Pattern:
    """Blocks that are sawn alike.

    Attributes
    ----------
    kind : str
        ``stem``, ``springer``, ``ring``, ``rim``, ``plug``, ``key``, ``wall`` or ``gable`` [-]
    parts : tuple of int
        Places in the project of the parts that take them [-]
    courses : tuple of int
        Places of their courses among all courses [-]
    count : int
        Blocks laid of it, cut ones counted as one each [-]
    course : Course
        The first of its courses, whose sizes they have [-]
    volume_m3 : float
        Of one such block [m3]
    fresh_mass_kg : float
        Of one such block, as wet as it was cast [kg]
    """

    kind: str
    parts: tuple[int, ...]
    courses: tuple[int, ...]
    count: int
    course: Course
    volume_m3: float
    fresh_mass_kg: float


@frozen
class MouldSet:
    """How a mould is set: how high, and how thick.

    Attributes
    ----------
    height_m : float
        Height of the block, at most that of the mould; a strip of the rest is put in [m]
    thickness_m : float
        Thickness of the block [m]
    count : int
        Blocks to cast so, broken ones not counted [-]
    fresh_mass_kg : float
        Of one as cast, in the mould's full length [kg]
    """

    height_m: float
    thickness_m: float
    count: int
    fresh_mass_kg: float


@frozen
class Masonry:
    """All blocks of the job.

    Attributes
    ----------
    count : int
        Blocks laid: whole ones, and cut ones as one each; those left out at openings are not in it [-]
    basis : str
        ``courses``; ``mixed`` where some parts are still counted by volume; ``volume`` where all are [-]
    to_cast : int
        Blocks to cast: every block that is opened for a whole or a cut one, and those that break [-]
    volume_m3 : float
        Of the largest block; 0 where there is none, since a fill is poured [m3]
    fresh_mass_kg : float
        Of the largest block as cast [kg]
    sawn_mass_kg : float or None
        Of the heaviest block once it is sawn to shape, as wet as it was cast; absent where no course is laid [kg]
    oven_dry_mass_kg : float
        Of the largest block dried in the oven [kg]
    sizes : tuple of BlockSize
        One for each mould and thickness [-]
    by_volume : Blocks
        The same counted by volume, for comparison [-]
    courses : tuple of Course
        All courses, part after part, the lowest first [-]
    owners : tuple of int
        Place in the project of the part of each course [-]
    cut : int
        Blocks among them that an opening or the end of a row cuts [-]
    left_out : int
        Blocks that openings take whole [-]
    offcuts_used : int
        Cut blocks that come from the rest of another one [-]
    patterns : tuple of Pattern
        The distinct blocks [-]
    types : int
        How many distinct blocks there are [-]
    mould_sets : tuple of MouldSet
        How the moulds are set for them [-]
    moulds : int or None
        Blocks cast in a day; absent if not stated [-]
    days_to_cast : int or None
        Days of casting, all moulds filled once a day; absent likewise [-]
    cut_away_fraction : float or None
        What is sawn off and thrown away, over the blocks in place; absent where no course is laid [-]
    laid_m3 : float
        Blocks laid in courses, joints and openings taken out [m3]
    cast_m3 : float
        Blocks cast for them as they come out of the mould, broken ones not counted [m3]
    joint_material : str or None
        What the joints are filled with; absent where they have no thickness [-]
    joint_volume_m3 : float
        All joints of the courses, openings taken out [m3]
    joint_l : float or None
        The same as it is bought; absent where joints have no thickness [L]
    """

    count: int
    basis: str
    to_cast: int
    volume_m3: float
    fresh_mass_kg: float
    sawn_mass_kg: float | None
    oven_dry_mass_kg: float
    sizes: tuple[BlockSize, ...]
    by_volume: Blocks
    courses: tuple[Course, ...]
    owners: tuple[int, ...]
    cut: int
    left_out: int
    offcuts_used: int
    patterns: tuple[Pattern, ...]
    types: int
    mould_sets: tuple[MouldSet, ...]
    moulds: int | None
    days_to_cast: int | None
    cut_away_fraction: float | None
    laid_m3: float
    cast_m3: float
    joint_material: str | None
    joint_volume_m3: float
    joint_l: float | None


def opened(courses: Iterable[Course]) -> tuple[int, tuple[int, ...]]:
    """Return how many blocks are opened for the cut ones of courses whose blocks come out of the mould alike.

    Source: arithmetic: the longest piece first, each from the first opened block that still holds it (first-fit decreasing).

    Parameters
    ----------
    courses : Iterable of Course
        The courses [-]

    Returns
    -------
    tuple of (int, tuple of int)
        Blocks opened, and for each course, up to the last that has some, its pieces that come from the rest of another block [-]

    Examples
    --------
    >>> half = evolve(lay(Part(), Block())[0], cut_shares=(0.5, 0.5, 0.7))
    >>> opened([half]), opened([half, half])
    ((2, (1,)), (4, (1, 1)))
    """
    pieces = [(share, place) for place, course in enumerate(courses) for share in course.cut_shares]
    rests: list[float] = []
    reused: dict[int, int] = {}
    spent, begin, before = 0, 0, 0.0
    for share, place in sorted(pieces, key=lambda piece: (-piece[0], piece[1])):
        if share != before:
            # What did not hold a piece as long as this does not hold it now; a shorter one it may.
            begin, before = 0, share
        while begin < len(rests) and rests[begin] < share - _SAME:
            begin += 1
        rest = 1.0 - share
        if begin < len(rests):
            reused[place] = reused.get(place, 0) + 1
            rest = rests[begin] - share
        # No piece is shorter than a sliver, so what is left of one holds nothing more.
        if rest < SLIVER - _SAME:
            spent += 1
            if begin < len(rests):
                rests.pop(begin)
        elif begin < len(rests):
            rests[begin] = rest
        else:
            rests.append(rest)
    return spent + len(rests), tuple(reused.get(place, 0) for place in range(max(reused, default=-1) + 1))


def _alike(course: Course) -> tuple[object, ...]:
    """What two courses must have in common so that their blocks are sawn alike."""
    sizes = (
        course.height_outside_m, course.height_inside_m, course.thickness_m, course.taper_outside_low_m,
        course.taper_outside_high_m, course.taper_inside_low_m, course.taper_inside_high_m,
    )  # fmt: skip
    return (course.kind, *(round(size * 1000 / _ALIKE_MM) for size in sizes))


def _one(course: Course) -> float:
    """Volume of one whole block of a course, its joints taken off."""
    if course.kind in ("wall", "gable"):
        # Level rows end in parts of blocks and under slopes: a whole block is more than their mean.
        return (course.taper_outside_low_m + course.taper_inside_low_m) / 2 * course.height_outside_m * course.thickness_m
    return max(0.0, course.volume_m3 - course.joint_m3) / course.around


def masonry(
    parts: tuple[Part, ...], shape: Shape, block: Block, waste: Waste, wet: WetDensity, oven_dry: OvenDryDensity
) -> tuple[Masonry, tuple[Note, ...]]:
    """Count blocks as they are laid; parts that are not laid in courses here are counted by volume, and orders as ordered.

    Source: arithmetic; breakage as typed. Cutting is counted block by block; a typed share of it stands for what is mixed.

    Parameters
    ----------
    parts : tuple of Part
        The parts as stated [-]
    shape : Shape
        The same, measured [-]
    block : Block
        The mould, the joints, and how many blocks are cast in a day [-]
    waste : Waste
        Breakage and cutting [-]
    wet : WetDensity
        Density as cast [kg/m3]
    oven_dry : OvenDryDensity
        Density dried in the oven [kg/m3]

    Returns
    -------
    tuple of (Masonry, tuple of Note)
        The blocks, and what deserves a word [-]

    Examples
    --------
    >>> from foamwright.shape.measure import measure
    >>> made, _ = masonry((Part(),), measure((Part(),))[0], Block(), Waste(), WetDensity(484.0), OvenDryDensity(322.0))
    >>> made.count == sum(course.count for course in made.courses), made.by_volume.count
    (True, 755)
    """
    volume = count_blocks(shape, block, waste, wet, oven_dry)
    rest = count_blocks(
        evolve(shape, parts=tuple(part for part in shape.parts if part.shape not in LAID), places=()), block, waste, wet, oven_dry
    )
    courses: list[Course] = []
    owners: list[int] = []
    sizes: dict[tuple[float, float, float], list[int]] = {}
    sets: dict[tuple[int, int], tuple[float, float, int, float]] = {}
    net_volume = joints = 0.0
    offcuts = 0
    notes: list[Note] = []
    for i, part, seen in shape.beside(parts):
        if part.shape not in LAID:
            continue
        laid = list(beside_joints(parts, shape, i, lay(part, block)))
        whole = sum(course.volume_m3 for course in laid)
        # Hoods are cast in forms of their own.
        stands = seen.shell_volume_m3 - seen.hoods_volume_m3 - seen.necks_volume_m3
        joint = sum(course.joint_m3 for course in laid) * stands / whole
        joints += joint
        net_volume += stands - joint
        groups: dict[tuple[str, int, int], list[tuple[int, Course]]] = {}
        for place, course in enumerate(laid):
            alike = (course.element, round(course.height_outside_m * 1000), round(course.thickness_m * 1000))
            groups.setdefault(alike, []).append((place, course))
        for (element, *_), members in groups.items():
            group = [course for _, course in members]
            cut = sum(course.cut for course in group)
            used, again = opened(group)
            offcuts += cut - used
            for (place, course), number in zip(members, again, strict=False):
                if number:
                    laid[place] = evolve(course, offcuts=number)
            cast = sum(course.whole for course in group) + used
            first = group[0]
            thick = part.thickness_m if element == "shell" else first.thickness_m
            key = (thick, block.length_m, block.height_m)
            sizes.setdefault(key, [0, 0])
            sizes[key][0] += sum(course.count for course in group)
            sizes[key][1] += cast
            long = first.taper_outside_low_m if first.kind == "plug" else block.length_m
            one = long * first.height_outside_m * first.thickness_m
            mould = (round(first.height_outside_m * 1000), round(first.thickness_m * 1000))
            # One setting of a mould serves all blocks that are alike to a millimetre, so it is as large as the largest of them.
            held = sets.get(mould, (0.0, 0.0, 0, 0.0))
            sets[mould] = (
                max(held[0], first.height_outside_m), max(held[1], first.thickness_m), held[2] + cast, max(held[3], one),
            )  # fmt: skip
        out = [course for course in laid if not course.fits]
        for course in out:
            params: dict[str, Scalar] = {
                "part": part.id, "course": course.course,
                "height_m": course.height_outside_m, "limit": block.height_m,
            }  # fmt: skip
            notes.append(Note("piece_over_mould", "info", "block.height_m", params, "arithmetic"))
        courses.extend(laid)
        owners.extend([i] * len(laid))
    made: list[BlockSize] = []
    for (thick, length, height), (count, cast) in sizes.items():
        one = length * height * thick
        made.append(
            BlockSize(
                thickness_m=thick, length_m=length, height_m=height, count=count,
                to_cast=ceiling(cast * (1 + waste.breakage_fraction)), volume_m3=one,
                fresh_mass_kg=block_mass(one, wet), oven_dry_mass_kg=block_mass_dry(one, oven_dry),
            )
        )  # fmt: skip
    made.extend(rest.sizes)
    patterns = _patterns(courses, owners, wet)
    largest = max(made, key=lambda size: size.volume_m3, default=None)
    to_cast = sum(size.to_cast for size in made)
    cast_volume = sum(count * one for _, _, count, one in sets.values())
    sawn = max(0.0, cast_volume / net_volume - 1) if net_volume else None
    typed = waste.cutting_fraction
    if sawn is not None and typed is not None and sawn > typed:
        params = {"fraction": sawn, "limit": typed}
        notes.append(Note("cutting_more_than_stated", "caution", "waste.cutting_fraction", params, "arithmetic"))
    by_volume = any(part.shape not in LAID and part.ordered is None and part.fill is None for part in shape.parts)
    done = Masonry(
        count=sum(size.count for size in made),
        basis="volume" if not courses else "mixed" if by_volume else "courses",
        to_cast=to_cast,
        volume_m3=largest.volume_m3 if largest else 0.0,
        fresh_mass_kg=largest.fresh_mass_kg if largest else 0.0,
        sawn_mass_kg=max((pattern.fresh_mass_kg for pattern in patterns), default=None),
        oven_dry_mass_kg=largest.oven_dry_mass_kg if largest else 0.0,
        sizes=tuple(made),
        by_volume=volume,
        courses=tuple(courses),
        owners=tuple(owners),
        cut=sum(course.cut for course in courses),
        left_out=sum(course.left_out for course in courses),
        offcuts_used=offcuts,
        patterns=patterns,
        types=len(patterns),
        mould_sets=tuple(
            MouldSet(height, thick, count, block_mass(one, wet)) for height, thick, count, one in sets.values()
        ),
        moulds=block.moulds,
        days_to_cast=None if block.moulds is None else ceiling(to_cast / block.moulds),
        cut_away_fraction=sawn,
        laid_m3=net_volume,
        cast_m3=cast_volume,
        joint_material=block.joint_material if block.joint_m > 0 else None,
        joint_volume_m3=joints,
        joint_l=joints * 1000 if block.joint_m > 0 else None,
    )
    return done, tuple(notes)


def _patterns(courses: list[Course], owners: list[int], wet: WetDensity) -> tuple[Pattern, ...]:
    """Put courses together whose blocks are sawn alike, in the order in which they are first laid."""
    groups: dict[tuple[object, ...], list[int]] = {}
    for place, course in enumerate(courses):
        groups.setdefault(_alike(course), []).append(place)
    out = []
    for places in groups.values():
        first = courses[places[0]]
        volume = max(_one(courses[place]) for place in places)
        out.append(
            Pattern(
                kind=first.kind,
                parts=tuple(dict.fromkeys(owners[place] for place in places)),
                courses=tuple(places),
                count=sum(courses[place].count for place in places),
                course=first,
                volume_m3=volume,
                fresh_mass_kg=block_mass(volume, wet),
            )
        )
    return tuple(out)


def casting(blocks: Masonry, shape: Shape) -> Casting:
    """Return how the foamed concrete of a job comes into place.

    Source: arithmetic.

    Parameters
    ----------
    blocks : Masonry
        The blocks as they are laid [-]
    shape : Shape
        The measured parts [-]

    Returns
    -------
    Casting
        What is laid, cast, ordered and poured [m3]

    Examples
    --------
    >>> from foamwright.estimate import estimate
    >>> from foamwright.project import Project
    >>> made = estimate(Project()).estimate
    >>> casting(made.blocks, made.shape).poured_m3
    0.0
    """
    return Casting(
        laid_m3=blocks.laid_m3,
        cast_m3=blocks.cast_m3,
        ordered_m3=sum(part.shell_volume_m3 for part in shape.parts if part.ordered is not None),
        poured_m3=sum(part.shell_volume_m3 for part in shape.parts if part.fill is not None) + shape.hoods_volume_m3 + shape.necks_volume_m3,
    )


def joint_need(blocks: Masonry) -> tuple[Need, ...]:
    """Return what is bought for the joints.

    Source: arithmetic; nothing is added for what is squeezed out.

    Parameters
    ----------
    blocks : Masonry
        The blocks as they are laid [-]

    Returns
    -------
    tuple of Need
        Mortar or adhesive in litres; none where joints have no thickness [-]

    Examples
    --------
    >>> from foamwright.estimate import estimate
    >>> from foamwright.project import Project
    >>> joint_need(estimate(Project()).estimate.blocks)
    ()
    """
    if blocks.joint_material is None or blocks.joint_l is None:
        return ()
    return (Need(f"joint_{blocks.joint_material}", litres=blocks.joint_l),)
