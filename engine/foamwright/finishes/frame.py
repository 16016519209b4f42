"""Posts and ring beams of infill walls: their concrete, and their bars as typed. Nothing here sizes a bar."""

from attrs import frozen

from foamwright.finishes.packing import Pieces, pack, split
from foamwright.finishes.steel import bar_mass, hoop, laps
from foamwright.project.model import Base, Part
from foamwright.project.notes import Note, Problem, Scalar, Severity
from foamwright.shape import Frame, numbered, outline
from foamwright.shape import frame as posts_and_beams


@frozen
class FrameSteel:
    """Bars of the posts and beams of one wall, as typed; stirrups are not counted.

    Attributes
    ----------
    sized : str
        ``placeholder`` or ``typed`` [-]
    sized_by : str
        Who sized them, as typed [-]
    diameter_m : float
        Nominal diameter [m]
    post_bars : int
        Bars in each post [-]
    beam_bars : int
        Bars side by side in each beam; 0 without beams [-]
    lap_m : float
        Length of a lap [m]
    laps : int
        Laps in all, one at the foot of every bar of a post among them [-]
    length_m : float
        Bar in place, laps in it [m]
    mass_kg : float
        The same [kg]
    to_buy : int
        Bars of the stated length to buy [-]
    bought_kg : float
        What those weigh [kg]
    """

    sized: str
    sized_by: str
    diameter_m: float
    post_bars: int
    beam_bars: int
    lap_m: float
    laps: int
    length_m: float
    mass_kg: float
    to_buy: int
    bought_kg: float


@frozen
class FramePart:
    """The posts and beams of one wall.

    Attributes
    ----------
    id : str
        Name of the part in the project [-]
    posts : int
        Posts [-]
    posts_m3 : float
        Their concrete in place [m3]
    beams : int
        Ring beams [-]
    beams_m3 : float
        Their concrete in place [m3]
    steel : FrameSteel or None
        Bars; absent where nobody typed any [-]
    """

    id: str
    posts: int
    posts_m3: float
    beams: int
    beams_m3: float
    steel: FrameSteel | None


@frozen
class FrameResult:
    """The posts and beams of all infill walls.

    Attributes
    ----------
    posts : int
        Posts [-]
    posts_m3 : float
        Their concrete in place [m3]
    beams_m3 : float
        Concrete of the ring beams in place [m3]
    concrete_m3 : float
        Both, waste counted [m3]
    steel_kg : float or None
        Bars in place, laps counted; absent where nobody typed any [kg]
    steel_to_buy : int or None
        Bars of the stated length to buy [-]
    steel_bought_kg : float or None
        What those weigh [kg]
    cement_kg : float
        Cement of the concrete, waste counted; 0 where it is bought ready-mixed [kg]
    parts : tuple of FramePart
        The infill walls, in the order of the project [-]
    """

    posts: int
    posts_m3: float
    beams_m3: float
    concrete_m3: float
    steel_kg: float | None
    steel_to_buy: int | None
    steel_bought_kg: float | None
    cement_kg: float
    parts: tuple[FramePart, ...]


def frame_steel(
    part: Part, made: Frame, base: Base, path: str
) -> tuple[FrameSteel | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return bars, laps and mass of what was typed for one wall; nothing is sized here.

    Source: typed; laps of 40 diameters are common practice, no source. A bar of a post is as long as the wall is high
    and a lap; the bars of a beam run along the middle of the wall.

    Parameters
    ----------
    part : Part
        An infill wall [-]
    made : Frame
        Its posts and beams [-]
    base : Base
        Length of a bar as sold, and its lap [-]
    path : str
        Where the wall stands in the project [-]

    Returns
    -------
    tuple of (FrameSteel or None, tuple of Problem, tuple of Note)
        The bars, absent where none are typed [-]

    Examples
    --------
    >>> from foamwright.project.model import Wall
    >>> wall = Wall(build="infill", steel_sized="placeholder", bar_diameter_m=0.01, post_bars=4, beam_bars=4)
    >>> hut = Part(shape="wall", wall=wall)
    >>> bars, _, notes = frame_steel(hut, posts_and_beams(hut), Base(), "parts[0]")
    >>> bars.laps, round(bars.length_m, 2), notes[0].code
    (56, 201.6, 'frame_steel_placeholder')
    """
    wall = part.wall
    where = f"{path}.wall.steel_sized"
    names: dict[str, Scalar] = {"part": part.id}

    def note(code: str, severity: Severity, name: str = "steel_sized") -> tuple[Note, ...]:
        return (Note(code, severity, f"{path}.wall.{name}", names, "typed"),)

    if wall.steel_sized == "unsized":
        return None, (), (Note("frame_steel_unsized", "caution", where, names, "typed"),)
    wanted = ("bar_diameter_m", "post_bars", *(("beam_bars",) if made.beams else ()))
    missing = next((name for name in wanted if getattr(wall, name) is None), None)
    if missing or wall.bar_diameter_m is None or wall.post_bars is None:
        return None, (), note("frame_steel_incomplete", "caution", missing or "post_bars")
    lap = base.lap_diameters * wall.bar_diameter_m
    if lap >= base.bar_length_m:
        limit = base.bar_length_m / wall.bar_diameter_m
        return None, (Problem("base.lap_diameters", base.lap_diameters, limit, "lap_too_long"),), ()
    if wall.steel_sized == "placeholder":
        notes = note("frame_steel_placeholder", "caution")
    elif not wall.steel_sized_by.strip():
        notes = note("frame_steel_sized_by_missing", "caution", "steel_sized_by")
    else:
        names["by"] = wall.steel_sized_by.strip()
        notes = note("frame_steel_typed", "info", "steel_sized_by")
    upright = split(wall.height_m + lap, base.bar_length_m, lap)
    count = made.posts * wall.post_bars
    pieces: Pieces = [(length, n * count) for length, n in upright]
    # One lap joins every bar of a post to what comes out of the base, and one every piece to the next.
    joins = (laps(upright, False) + 1) * count
    beam_bars = (wall.beam_bars or 0) if made.beams else 0
    if beam_bars:
        closed = outline(part).closed
        run = hoop(made.beam_length_m, closed, base.bar_length_m, lap)
        pieces += [(length, n * beam_bars * made.beams) for length, n in run]
        joins += laps(run, closed) * beam_bars * made.beams
    length = sum(length * n for length, n in pieces)
    each, to_buy = bar_mass(wall.bar_diameter_m), pack(pieces, base.bar_length_m)
    return (
        FrameSteel(
            sized=wall.steel_sized,
            sized_by=wall.steel_sized_by.strip(),
            diameter_m=wall.bar_diameter_m,
            post_bars=wall.post_bars,
            beam_bars=beam_bars,
            lap_m=lap,
            laps=joins,
            length_m=length,
            mass_kg=length * each,
            to_buy=to_buy,
            bought_kg=to_buy * base.bar_length_m * each,
        ),
        (),
        notes,
    )


def frames(
    parts: tuple[Part, ...], base: Base, waste: float = 1.0, places: tuple[int, ...] | None = None
) -> tuple[FrameResult | None, tuple[Problem, ...], tuple[Note, ...]]:
    """Return the posts and beams of all infill walls, and what must be said about them.

    Source: arithmetic on typed sizes; nothing is sized here.

    Parameters
    ----------
    parts : tuple of Part
        All parts of the project [-]
    base : Base
        Waste of concrete, length of a bar as sold, and its lap [-]
    waste : float
        Multiple of the stated waste: 1, or 0 and 2 for the range of the bill [-]
    places : tuple of int or None
        Places of the parts that are taken; None takes them all [-]

    Returns
    -------
    tuple of (FrameResult or None, tuple of Problem, tuple of Note)
        Posts and beams; none where no wall has them [-]

    Examples
    --------
    >>> from foamwright.project.model import Wall
    >>> made, _, notes = frames((Part(shape="wall", wall=Wall(build="infill")),), Base(), 0.0)
    >>> round(made.concrete_m3, 6), [note.code for note in notes]
    (1.492, ['frame_not_designed', 'frame_steel_unsized'])
    """
    found: list[FramePart] = []
    problems: list[Problem] = []
    notes: list[Note] = []
    for i, part in numbered(parts, places):
        made = posts_and_beams(part) if part.shape == "wall" else None
        if made is None:
            continue
        path = f"parts[{i}]"
        bars, faults, remarks = frame_steel(part, made, base, path)
        problems.extend(faults)
        names: dict[str, Scalar] = {"part": part.id}
        where = f"{path}.wall.post_width_m"
        notes.append(Note("frame_not_designed", "info", where, names, "derived_no_structure"))
        notes.extend(remarks)
        found.append(FramePart(part.id, made.posts, made.posts_m3, made.beams, made.beams_m3, bars))
    if not found or problems:
        return None, tuple(problems), ()
    posts, beams = sum(part.posts_m3 for part in found), sum(part.beams_m3 for part in found)
    barred = [part.steel for part in found if part.steel is not None]
    result = FrameResult(
        posts=sum(part.posts for part in found),
        posts_m3=posts,
        beams_m3=beams,
        concrete_m3=(posts + beams) * (1 + waste * base.concrete_waste_fraction),
        steel_kg=sum(bars.mass_kg for bars in barred) if barred else None,
        steel_to_buy=sum(bars.to_buy for bars in barred) if barred else None,
        steel_bought_kg=sum(bars.bought_kg for bars in barred) if barred else None,
        cement_kg=0.0,
        parts=tuple(found),
    )
    return result, (), tuple(notes)
