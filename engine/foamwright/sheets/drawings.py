"""Plans and elevations to scale, of each part and of the whole: what a helper sets out by, and a building department asks for."""

import re
from functools import lru_cache
from typing import Final

from attrs import evolve

from foamwright.estimate import Outcome
from foamwright.project.model import SHELLS, Block as BlockSizes, Opening, Part, Project
from foamwright.reader import N_, NP_, Speaker
from foamwright.shape.bond import lay
from foamwright.shape.courses import Course
from foamwright.shape.meridian import half_width
from foamwright.shape.openings import azimuths, cut
from foamwright.shape.vault import end_thickness, spots
from foamwright.shape.views import gaps, radii, rings
from foamwright.shape.wall import places
from foamwright.sheets import elevation, plan_drawing
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.drawing_wall import drawn_sides
from foamwright.sheets.elevation import Face
from foamwright.sheets.fields import CHOICES
from foamwright.sheets.glance import drawing_words, opening_words
from foamwright.sheets.paper import TALL_MM, WIDE_MM, Hand
from foamwright.sheets.walls import words as wall_words

ID: Final = "drawings"
SECTION: Final = "permission"
TITLE: Final = NP_("drawing", "Plans and elevations to scale")

#: So many different parts are drawn; what further ones measure stands in the other sheets.
_DRAWN: Final = 20
_TALL: Final = re.compile(r'viewBox="0 0 [\d.]+ ([\d.]+)"')


def _wall_name(desk: Desk, wall: str) -> str:
    return desk.say(CHOICES["parts[].openings[].face"][wall])


def _azimuths(hand: Hand, values: tuple[float, ...]) -> str:
    return hand.s.list_join([hand.turn(value) for value in values])


def _places(desk: Desk, part: Part, opening: Opening) -> str:
    """Where an opening and its repeats stand, in words."""
    s, hand, q = desk.s, Hand(desk.s), desk.s.quantity
    if part.shape == "vault":
        found: dict[str, list[str]] = {}
        for spot in spots(part, opening):
            found.setdefault(spot.wall, []).append(q(spot.along_m, "length"))
        told = []
        for wall, along in found.items():
            text = (
                N_("%(wall)s, %(along)s from end A") if wall.startswith("side") else N_("%(wall)s, %(along)s from the inside of side A")
            )
            told.append(desk.say(text, wall=_wall_name(desk, wall), along=s.list_join(along)))
        return "; ".join(told)
    if part.shape == "wall" and part.plan_form != "circle":
        stands = s.list_join([q(place, "length") for place in places(part, opening)])
        return s._("Side %(side)s, %(along)s from its first corner", side=s.whole(opening.side), along=stands)
    return s._("Azimuth %(azimuths)s", azimuths=_azimuths(hand, azimuths(opening)))


def _table(desk: Desk, part: Part) -> Block | None:
    """The openings of a part by the numbers that the drawings give them."""
    s, q = desk.s, desk.s.quantity
    if not part.openings:
        return None
    rows = []
    for i, opening in enumerate(part.openings):
        section = cut(opening)
        what = opening_words(desk, opening)
        if opening.to is not None:
            what = s._("%(what)s, leads to %(part)s", what=what, part=s.isolate(opening.to))
        rows.append([
            {"text": s.whole(i + 1), "head": True}, {"text": what},
            {"text": q(section.low_m, "length")}, {"text": q(section.high_m, "length")},
            {"text": _places(desk, part, opening)},
        ])  # fmt: skip
    titles = ((N_("Opening"), False), (N_("What"), False), (N_("Lowest point"), False), (N_("Highest point"), False), (N_("Where"), False))
    head = [{"text": desk.say(words), "number": number} for words, number in titles]
    return {"kind": "table", "caption": s._("Openings by their numbers in the drawings"), "head": head, "rows": rows}


def _drawing(name: str, title: str, words: str, svg: str) -> Block:
    found = _TALL.search(svg)
    tall = float(found.group(1)) / 5 if found else TALL_MM
    return {"kind": "drawing", "id": name, "title": title, "words": words, "svg": svg, "touch": True, "print_mm": [WIDE_MM, tall]}


def _named(desk: Desk, names: str, what: str) -> str:
    return desk.s._("%(part)s: %(what)s", part=names, what=what) if names else what


def _plan_words(desk: Desk, part: Part) -> str:
    """What the plan of one part shows."""
    s, q = desk.s, desk.s.quantity
    if part.shape == "wall":
        told = [wall_words(desk, part)]
        if part.plan_form == "circle":
            told.append(s._("Outside it is %(outside)s across.", outside=q(2 * radii(part)[1], "length")))
    elif part.shape == "vault":
        half, far = radii(part)
        told = [s._(
            "Plan of a vault at its foot: %(length)s by %(span)s clear inside, %(outside)s across outside; side walls %(side)s thick, end walls %(end)s.",
            length=q(part.length_m, "length"), span=q(2 * half, "length"), outside=q(2 * far, "length"),
            side=q(far - half, "length_small"), end=q(end_thickness(part), "length_small"))]  # fmt: skip
        if part.ends != "both":
            told.append(s._("Both ends are open.") if part.ends == "open" else s._("End B is open."))
        outer = rings(part)[0].corners_m
        told.append(s._("Its whole length outside is %(length)s.", length=q(outer[1][0] - outer[0][0], "length")))
    else:
        near, far = radii(part)
        told = [s._(
            "Plan of a dome at its foot: %(inside)s across inside, %(outside)s outside, %(thickness)s thick.",
            inside=q(2 * near, "length"), outside=q(2 * far, "length"), thickness=q(part.thickness_m, "length_small"))]  # fmt: skip
    for i, opening in enumerate(part.openings):
        told.append(s._("Opening %(number)s: %(where)s.", number=s.whole(i + 1), where=_places(desk, part, opening)))
    return " ".join(told)


def _face_words(desk: Desk, part: Part, face: Face, title: str) -> str:
    """What an elevation shows, with every length that it tells."""
    s, q = desk.s, desk.s.quantity
    left, right, _ = face.across
    told = [s._("%(title)s: %(width)s wide and %(height)s high outside.", title=title,
                width=q(right - left, "length"), height=q(face.total.height_m, "length"))]  # fmt: skip
    if part.shape in SHELLS and part.stem_height_m > 0:
        told.append(s._("The springing stands %(height)s above the floor.", height=q(part.stem_height_m, "length")))
    if part.shape == "wall" and face.total.path.endswith("gable_rise_m"):
        told.append(s._("The gable begins %(height)s above the floor.", height=q(part.wall.height_m, "length")))
    beds = len({round(b[1], 6) for kind, pairs in face.lines if kind == "springing" for _, b in pairs if b[0] >= 0})
    if beds:
        told.append(s.np_("masonry", "%(number)s bed is drawn.", "%(number)s beds are drawn.", beds, number=s.whole(beds)))
    for i in dict.fromkeys(sight.opening for sight in face.sights):
        section = cut(part.openings[i])
        told.append(s._(
            "Opening %(number)s, %(what)s: lowest point %(low)s, highest point %(high)s above the floor.", number=s.whole(i + 1),
            what=opening_words(desk, part.openings[i]), low=q(section.low_m, "length"), high=q(section.high_m, "length")))  # fmt: skip
        mine = [sight for sight in face.sights if sight.opening == i]
        turns = [sight.turn_deg for sight in mine]
        if any(sight.along_m is not None for sight in mine):
            along = s.list_join([q(sight.along_m or 0.0, "length") for sight in mine])
            told.append(s._("Its middle stands %(along)s from where that wall begins.", along=along))
        elif any(abs(turn) > 1e-6 for turn in turns):
            sides = [_turned(desk, turn) for turn in turns]
            told.append(s._("It is seen %(turns)s.", turns=s.list_join(sides)))
    return " ".join(told)


def _section_words(desk: Desk, part: Part, face: Face) -> str:
    """What the section shows, with every length that it tells."""
    s, q = desk.s, desk.s.quantity
    left, right, _ = face.across
    beds = len({round(a[1], 6) for a, _ in face.lines[0][1]})
    met = sorted({sight.opening for sight in (*face.sights, *face.cuts)})
    return " ".join([
        drawing_words(desk, part),
        s._("Outside it is %(width)s wide and %(height)s high.", width=q(right - left, "length"), height=q(face.total.height_m, "length")),
        s.np_("masonry", "%(number)s bed is drawn.", "%(number)s beds are drawn.", beds, number=s.whole(beds)),
        *([s.n_("Opening seen or cut: %(numbers)s.", "Openings seen or cut: %(numbers)s.", len(met),
                numbers=s.list_join([s.whole(i + 1) for i in met]))] if met else []),
    ])  # fmt: skip


def _turned(desk: Desk, turn: float) -> str:
    if abs(turn) <= 1e-6:
        return desk.s._("square")
    angle = desk.s.quantity(abs(turn), "angle_set", trim=True)
    return desk.s._("turned %(angle)s to the right", angle=angle) if turn > 0 else desk.s._("turned %(angle)s to the left", angle=angle)


def _faces(desk: Desk, part: Part, path: str, courses: tuple[Course, ...]) -> list[tuple[str, Face]]:
    """The elevations of a part, each with what it shows."""
    s, hand = desk.s, Hand(desk.s)
    if part.shape == "vault":
        out = []
        for face in elevation.vault_faces(part, path, courses):
            walls = s.list_join([_wall_name(desk, wall) for wall in face.walls])
            out.append((s._("Elevation: %(walls)s", walls=walls), face))
        return out
    if part.shape == "dome" or part.plan_form == "circle":
        own = [course for course in courses if course.element in ("shell", "wall")]
        out = []
        for face in elevation.round_faces(part, path, own):
            if not face.sights:
                out.append((s._("Elevation, alike from every side"), face))
            else:
                out.append((s._("Elevation seen from azimuth %(azimuths)s", azimuths=_azimuths(hand, face.azimuths_deg)), face))
        return out
    return [
        (s._("Elevation of side %(side)s, from outside", side=s.whole(side + 1)), elevation.side_face(part, path, side, courses))
        for side in drawn_sides(part)
    ]


@lru_cache(maxsize=256)
def _part_blocks(s: Speaker, part: Part, mould: BlockSizes, index: int, names: str, barred: bool) -> tuple[Block, ...]:
    """Plan and elevations of one part, kept for whoever edits another: they follow from the part, its blocks and the reader alone."""
    desk, hand, path = Desk(Project(), Outcome(None, (), ()), s), Hand(s), f"parts[{index}]"
    title = _named(desk, names, s._("Plan"))
    told = _plan_words(desk, part)
    out = [_drawing(f"scale-plan-{index}", title, told, plan_drawing.plan(part, path, hand, title, barred))]
    courses = lay(part, mould)
    if part.shape in SHELLS:
        what = _named(desk, names, s._("Section across") if part.shape == "vault" else s._("Section along azimuth 0"))
        face = elevation.section_face(part, path, courses)
        svg = elevation.draw(face, hand, path, what, barred)
        out.append(_drawing(f"scale-section-{index}", what, _section_words(desk, part, face), svg))
    for k, (what, face) in enumerate(_faces(desk, part, path, courses)):
        title = _named(desk, names, what)
        told = _face_words(desk, part, face, title)
        out.append(_drawing(f"scale-face-{index}-{k}", title, told, elevation.draw(face, hand, path, title, barred)))
    table = _table(desk, part)
    return tuple(out) if table is None else (*out, table)


def _whole(desk: Desk, shown: list[tuple[int, Part]], barred: bool) -> Block:
    """The plan of the whole project."""
    s, q, hand = desk.s, desk.s.quantity, Hand(desk.s)
    low, high = plan_drawing.whole_extent([part for _, part in shown])
    told = [s._("Plan of the whole, %(across)s by %(up)s: azimuth 0 points to the right, azimuths run anticlockwise.",
                across=q(high[0] - low[0], "length"), up=q(high[1] - low[1], "length"))]  # fmt: skip
    for i, j, apart in plan_drawing.distances([part for _, part in shown]):
        told.append(s._("From the middle of %(first)s to the middle of %(second)s: %(apart)s.", first=s.isolate(shown[i][1].id),
                        second=s.isolate(shown[j][1].id), apart=q(apart, "length")))  # fmt: skip
    for _, part in shown:
        if part.shape == "dome" or (part.shape == "wall" and part.plan_form == "circle"):
            near, far = radii(part)
            told.append(s._("%(part)s: %(inside)s across inside, %(outside)s outside.", part=s.isolate(part.id),
                            inside=q(2 * near, "length"), outside=q(2 * far, "length")))  # fmt: skip
        elif part.shape == "vault":
            told.append(s._("%(part)s: %(length)s by %(span)s clear inside, its axis along azimuth %(azimuth)s.", part=s.isolate(part.id),
                            length=q(part.length_m, "length"), span=q(2 * half_width(part), "length"), azimuth=hand.turn(part.bearing_deg)))  # fmt: skip
        turns = sorted({(gap.azimuth_deg + part.bearing_deg) % 360 for gap in gaps(part) if gap.azimuth_deg is not None})
        if turns:
            told.append(s._("Openings at azimuth %(azimuths)s.", azimuths=_azimuths(hand, tuple(turns))))
        for k, opening in enumerate(part.openings):
            if opening.to is not None:
                told.append(s._("Opening %(number)s of %(first)s leads to %(second)s.", number=s.whole(k + 1),
                                first=s.isolate(part.id), second=s.isolate(opening.to)))  # fmt: skip
    words, title = " ".join(told), s._("Plan of the whole project")
    return _drawing("scale-whole", title, words, plan_drawing.whole(shown, hand, title, barred))


def _parts_table(desk: Desk, shown: list[tuple[int, Part]]) -> Block:
    """Where the parts stand."""
    s, q, hand = desk.s, desk.s.quantity, Hand(desk.s)
    rows = [
        [
            {"text": s.whole(i + 1), "head": True}, {"text": part.id},
            {"text": q(part.at_m[0], "length")}, {"text": q(part.at_m[1], "length")},
            {"text": hand.turn(part.bearing_deg)},
        ]
        for i, part in shown
    ]  # fmt: skip
    titles = ((N_("Part"), False), (N_("Name"), False), (N_("To the right"), False), (N_("Upwards"), False), (N_("Turned by"), False))
    head = [{"text": desk.say(words), "number": number} for words, number in titles]
    return {"kind": "table", "caption": s._("Where the parts stand, from the origin of the plan"), "head": head, "rows": rows}


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    s = desk.s
    barred = {i for i, stamped in enumerate(desk.e.structure.barred) if stamped}
    planned = [(i, part) for i, part in desk.parts if rings(part)]
    alone = [(i, part) for i, part in planned if part.shape != "fill"]
    if not planned:
        return [{"kind": "text", "tone": "plain", "text": s._("No part of this project has a plan.")}]
    out: list[Block] = [
        {"kind": "text", "tone": "lead", "text": s.p_("drawing", 
            "Drawn to scale for paper as wide as A4 or Letter. Print at full size, without fitting to the page, and measure the bar. Numbers in rings are the "
            "numbers of the openings; in the plan of the whole project, of the parts.")},
        {"kind": "points", "items": [
            s._("Plans are drawn at the foot. Azimuth 0 points to the right, azimuths run anticlockwise; an opening above the floor has a broken edge."),
            s._("Elevations show a part from far away, as if it stood alone and without skins. Heights on the right count from the floor; places below "
                "count from the corner, end or side where their line begins."),
            s._("They show what this estimate assumes. They are no working drawings and no design."),
        ]},
    ]  # fmt: skip
    if len(planned) > 1:
        out.append(_whole(desk, planned, bool(barred)))
        out.append(_parts_table(desk, planned))
    alike: dict[tuple[Part, bool], list[int]] = {}
    for i, part in alone:
        alike.setdefault((evolve(part, id="", at_m=(0.0, 0.0), bearing_deg=0.0), i in barred), []).append(i)
    several = len(desk.project.parts) > 1
    for (_, stamped), same in list(alike.items())[:_DRAWN]:
        names = s.list_join([s.isolate(desk.project.parts[i].id) for i in same]) if several else ""
        if names:
            out.append({"kind": "heading", "text": names})
        first = same[0]
        out += _part_blocks(s, desk.project.parts[first], desk.project.block, first, names, stamped)
    if len(alike) > _DRAWN:
        out.append({"kind": "text", "tone": "small", "text": s._(
            "The first %(number)s different parts are drawn.", number=s.whole(_DRAWN))})
    return out
