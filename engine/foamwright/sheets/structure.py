"""The first look at stability, and what laying asks for."""

from typing import Final

from foamwright.reader import N_
from foamwright.sheets.cautions import cautions
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.pours import poured
from foamwright.sheets.problems import notes_block
from foamwright.structure.stability import SAFE

ID: Final = "structure"
SECTION: Final = "shape"
TITLE: Final = N_("First look at stability")


def _verdict(desk: Desk, index: int) -> Block:
    """What the look found for one part, in words."""
    part, s = desk.e.structure.parts[index], desk.s
    taken = {
        "dome": N_("Taken as a dome cut into slices that may push on their neighbours around each ring but never pull."),
        "arch": N_("Taken as strips of arch side by side, without any tension."),
    }[part.taken_as]
    if part.shell_stands:
        found = s._("A line of thrust fits within its thickness, as long as its springing is held.")
    else:
        found = s._("No line of thrust fits within its thickness.")
    if part.shell_stands and part.least_thickness_m is None:
        found += " " + s._("Its own weight alone would let it be thinner than anyone builds. That says nothing of wind, snow or a person on it.")
    return {"kind": "text", "tone": "plain", "text": f"{desk.say(taken)} {found}"}


def while_laid(desk: Desk, index: int) -> list[Block]:
    """Props, centring and platforms of one part."""
    part, s = desk.e.structure.parts[index], desk.s
    made = part.laying
    points = [s.p_("masonry", "Nobody stands below or inside an open course, propped or not.")]
    if part.taken_as == "arch":
        points.append(s._("No arch of a vault stands before its last block is in. Lay it on centring. Take the centring away only when the arch is "
                          "closed and hard, and when what holds its outward push is in: footings, ties or buttresses, as an engineer sizes them."))  # fmt: skip
        if any(stated.id == part.id and stated.ends != "open" for stated in desk.project.parts):
            points.append(s._("An end wall that stands alone topples in wind: brace it on both sides until the vault is closed against it."))
    elif part.stem_holds is None:
        points.append(s.p_("masonry", "The ring in the base, as an engineer sizes it, is in and hard before the first course is laid."))
    elif not part.stem_holds:
        points.append(s.p_("masonry", "The stem wall alone does not hold this dome. The ring at the springing, as an engineer sizes it, is in and hard "
                                      "before any course is laid above it."))  # fmt: skip
    if part.taken_as == "dome" and made.props_from_m is not None and made.props_from_course is not None:
        points.append(
            s.p_("masonry", "From course %(course)s on (%(height)s up) the beds lean more than %(low)s. Hold every fresh block there with a prop, a line or "
                            "a form until its ring is closed (common practice, no source).",
                 course=s.whole(made.props_from_course), height=desk.text(f"structure.props_from_m#{index}"),
                 low=s.quantity(made.slides_low_deg, "angle"))
        )  # fmt: skip
        if made.props_most is not None:
            points.append(
                s.np_("masonry", "Have props for %(number)s block ready: each block of a ring is held until the ring is closed.",
                      "Have props for %(number)s blocks ready: each block of a ring is held until the ring is closed.",
                      made.props_most, number=s.whole(made.props_most))
            )  # fmt: skip
        if made.props_all_from_course is not None:
            points.append(
                s.p_("masonry", "From course %(course)s on they lean more than %(high)s: there no fresh block stays by itself (common practice, no source).",
                     course=s.whole(made.props_all_from_course), high=s.quantity(made.slides_high_deg, "angle"))
            )  # fmt: skip
    elif part.taken_as == "dome" and made.props_from_m is not None:
        points.append(
            s._("From %(height)s up the beds lean more than %(low)s: hold every fresh block with a prop, a line or a form until its ring "
                "closes. From a lean of %(high)s count on none to stay by itself (common practice, no source).",
                height=desk.text(f"structure.props_from_m#{index}"), low=s.quantity(made.slides_low_deg, "angle"),
                high=s.quantity(made.slides_high_deg, "angle"))
        )  # fmt: skip
    if made.centring_m > 0:
        points.append(s.p_("masonry", "Build the arches over openings on centring, and leave it in until the course above them is closed and hard."))
    if made.platform_levels:
        points.append(
            s.n_("%(number)s level of platform, inside and outside, at about %(reach)s from one to the next (common practice, no source).",
                 "%(number)s levels of platform, inside and outside, at about %(reach)s from one to the next (common practice, no source).",
                 made.platform_levels, number=s.whole(made.platform_levels), reach=s.quantity(made.reach_m, "length"))
        )  # fmt: skip
    return [
        # Centring carries every block of a vault, from the lowest on.
        desk.figures(*([f"structure.props_from_m#{index}"] if part.taken_as == "dome" else []),
                     f"structure.centring_m#{index}", f"structure.centring_m2#{index}"),
        {"kind": "points", "items": points},
    ]


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    s = desk.s
    out: list[Block] = [
        {"kind": "text", "tone": "lead", "text": s._(
            "A first look, never a design. It asks one question: can the shape carry its own weight without tension? Openings, skins, "
            "wind, snow, earthquake, ground and footing are not in it. A licensed engineer and the local codes decide.")},
        notes_block(desk, desk.notes(
            "springing_needs_ring", "springing_pushes_base", "springing_held", "base_holds_thrust", "springing_cut", "springing_cut_vault",
            "slender_shell", "opening_near_crown", "crown_glass_not_checked", "openings_not_checked", "hoods_not_checked", "hood_far", "hood_on_passage", "skins_add_load")),
    ]  # fmt: skip
    several = len(desk.project.parts) > 1
    for i, part in enumerate(desk.e.structure.parts):
        if several:
            out.append({"kind": "heading", "text": part.id})
        out.append(_verdict(desk, i))
        asked = s._("at least %(limit)s is asked for", limit=s.number(SAFE, decimals=1))
        needed = ""
        if part.least_thickness_ratio is not None:
            needed = s._("at least %(limit)s is needed", limit=s.number(part.least_thickness_ratio, decimals=4))
        remarks = {"thickness_ratio": needed, "stem_overturning_ratio": asked, "base_ratio": asked, "base_skinned_ratio": asked}
        shown = (
            "thickness_ratio", "least_thickness_m", "thrust_kn_m", "ring_tension_kn", "stem_overturning_ratio", "base_ratio",
            "base_skinned_ratio", "meridian_max_kpa", "hoop_max_kpa",
        )  # fmt: skip
        out.append({"kind": "figures", "items": [
            desk.item(f"structure.{name}#{i}", note=remarks.get(name, "")) for name in shown if desk.value(f"structure.{name}#{i}") is not None
        ]})  # fmt: skip
        out.append({"kind": "heading", "text": s._("While it is laid")})
        out += while_laid(desk, i)
    for i, wall in enumerate(desk.e.structure.walls):
        out.append({"kind": "heading", "text": wall.id if several else s._("While it is laid")})
        out.append({"kind": "text", "tone": "plain", "text": s._(
            "Taken as a wall that stands loose on its base and alone: no skin, no brace, no corner, no cross wall.")})
        out.append(desk.figures(*(f"structure.wall_{name}#{i}" for name in ("wind_low", "wind", "braces", "day_height", "centring"))))
        if wall.day_height_m < desk.project.block.height_m:
            out.append({"kind": "text", "tone": "plain", "text": s.p_(
                "masonry", "That is less than one course: brace this wall from its first course on, or wait for calmer weather.")})
    if desk.e.structure.walls:
        out.append(notes_block(desk, desk.notes("wall_topples", "wall_holds_gust", "gust_unasked", "brace_unasked")))
    out += poured(desk)
    out.append(cautions(desk, ("laying", "pouring") if desk.e.structure.pours else ("laying",)))
    return out
