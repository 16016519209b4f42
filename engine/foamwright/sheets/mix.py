"""What one batch of the recipe holds, and what it is like."""

from typing import Final

from foamwright.reader import N_
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.problems import notes_block

ID: Final = "mix"
SECTION: Final = "mix"
TITLE: Final = N_("The recipe, worked out")
#: ACI 523.3R-14, abstract: 320 to 1920 kg/m3.
_PUBLISHED: Final = (320.0, 1920.0)


def _band(desk: Desk) -> Block:
    """The wet density between those that are published, on a line from 0 to 2000 kg/m3."""
    low, high, end = *_PUBLISHED, 2000.0
    value = desk.e.mix.wet_density_kg_m3
    q = desk.s.quantity
    return {
        "kind": "band",
        "figure": "mix.wet_density_kg_m3",
        "title": desk.s._("Wet density: %(value)s", value=q(value, "density")),
        "words": desk.s.p_(
            "weight", "Foamed concrete is made from %(low)s to %(high)s (ACI 523.3R-14, abstract). The lighter, the warmer and the weaker.",
            low=q(low, "density"), high=q(high, "density"),
        ),
        "low": low / end, "high": high / end, "chosen": min(max(value / end, 0.0), 1.0),
        "marks": [{"at": low / end, "text": q(low, "density")}, {"at": high / end, "text": q(high, "density")}],
        "ends": [desk.s.p_("concrete", "lighter"), desk.s.p_("concrete", "heavier")],
    }  # fmt: skip


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    s = desk.s
    return [
        {"kind": "text", "tone": "lead", "text": s._("One batch as the recipe states it. The batch for your bag and drum stands under Site.")},
        desk.figures(
            "mix.cement_kg", "mix.water_l", "mix.foam_volume_l", "mix.foam_mass_kg", "mix.yield_l", "mix.mass_kg",
            "mix.wet_density_kg_m3", "mix.oven_dry_density_kg_m3", "mix.water_cement_ratio",
            "mix.total_water_cement_ratio",
        ),
        _band(desk),
        notes_block(desk, desk.notes(
            "wet_density_outside_published", "water_cement_outside_common", "foam_density_outside_common",
            "foam_window_excludes_mix", "sand_in_light_mix", "accelerator_chloride", "addition_water_covers",
        )),
        {"kind": "text", "tone": "small", "text": s._(
            "Two densities, never to be mixed up: wet is what the fresh batch weighs, oven-dry is what stays when all free water has gone.")},
    ]  # fmt: skip
