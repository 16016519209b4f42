"""What to ask the building department, before anyone buys."""

from typing import Final

from foamwright.reader import N_
from foamwright.sheets import drawings
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.problems import notes_block

ID: Final = "permission"
SECTION: Final = "permission"
TITLE: Final = N_("Ask before you buy")


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    s = desk.s
    return [
        {
            "kind": "text",
            "tone": "lead",
            "text": s._(
                "Many places let a small building stand without a permit, but they count its floor in different ways. Here "
                "are three areas, and the height. Which one counts where you build, only the building department there can say."
            ),
        },
        desk.figures("shape.floor_area_m2", "shape.headroom_area_m2", "shape.footprint_m2", "shape.height_m"),
        notes_block(desk, desk.notes("permit_unasked", "permit_over_limit", "headroom_none", "shell_not_checked")),
        {"kind": "text", "tone": "plain", "text": s.p_("drawing", 
            "Take plan, section and elevations along: they stand to scale in the sheet \"%(sheet)s\".", sheet=desk.say(drawings.TITLE))},
        {"kind": "heading", "text": s._("Questions to take along")},
        {
            "kind": "points",
            "items": [
                s._("Which floor area do you count, and up to which size may one build without a permit?"),
                s._("Is a curved shell counted as wall or as roof, and from which slope?"),
                s._("How far from the boundary must it stand, and how high may it be?"),
                s._("Which loads of wind, snow and earthquake must an engineer show?"),
                s._("Is a shell of foamed concrete without steel accepted, and on whose signature?"),
                s._("Free of a permit does not mean free of the code: which rules hold all the same?"),
            ],
        },
        {"kind": "heading", "text": s._("What this estimate assumes")},
        {
            "kind": "points",
            "items": [
                s._("A shell of foamed concrete blocks, wet density %(wet)s, oven-dry %(dry)s.",
                    wet=desk.text("mix.wet_density_kg_m3"), dry=desk.text("mix.oven_dry_density_kg_m3")),
                s._("Openings are cut straight through the shell along the radius; their arches and lintels are not sized."),
                s._("Base, bars and skins are counted as they were typed. Nobody has sized them here, nor any tie or ring that holds the shell together."),
                s._("Only its own weight has been put on it, as a first look. It is an estimate of quantities and no design."),
            ],
        },
    ]  # fmt: skip
