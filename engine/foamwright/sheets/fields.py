"""What the form asks: the words of every field and the order in which they stand.

The rules of a field (kind, limits, choices) come from the project's own metadata; here stand only its
words, the quantity by which the reader sees it, and where it stands.
"""

from typing import Final

from attrs import frozen

from foamwright.reader import N_, NP_, Message

#: Where a field needs no help.
NOTHING: Final = Message("")


@frozen
class FieldText:
    """The words of one field; ``kind`` is the reader's quantity, empty where there is no unit."""

    label: Message
    help: Message = NOTHING
    kind: str = ""


_PUBLISHED_IF_EMPTY: Final = N_("Empty: as published for the kind. 0: left out.")
_PARTS: Final = N_("Parts to one part of cement.")
_COVERAGE: Final = N_("As the tin says it; this page assumes none.")
#: The fields of one skin, the same outside and inside.
_SKIN: Final[dict[str, FieldText]] = {
    "kind": FieldText(N_("Kind of skin"), N_("Nothing is counted until you choose.")),
    "mesh": FieldText(NP_("reinforcement", "Mesh in it")),
    "scratch_thickness_m": FieldText(
        NP_("plaster", "Scratch coat, thickness"), _PUBLISHED_IF_EMPTY, "length_coat"
    ),
    "scratch_sand_parts": FieldText(NP_("plaster", "Scratch coat, sand"), _PARTS, "ratio"),
    "scratch_lime_parts": FieldText(NP_("plaster", "Scratch coat, lime"), _PARTS, "ratio"),
    "brown_thickness_m": FieldText(NP_("plaster", "Brown coat, thickness"), _PUBLISHED_IF_EMPTY, "length_coat"),
    "brown_sand_parts": FieldText(NP_("plaster", "Brown coat, sand"), _PARTS, "ratio"),
    "brown_lime_parts": FieldText(NP_("plaster", "Brown coat, lime"), _PARTS, "ratio"),
    "finish_thickness_m": FieldText(NP_("plaster", "Finish coat, thickness"), _PUBLISHED_IF_EMPTY, "length_coat"),
    "finish_sand_parts": FieldText(NP_("plaster", "Finish coat, sand"), _PARTS, "ratio"),
    "finish_lime_parts": FieldText(NP_("plaster", "Finish coat, lime"), _PARTS, "ratio"),
    "waterproofing_coats": FieldText(NP_("plaster", "Coats of waterproofing"), NOTHING, "count"),
    "waterproofing_coverage_m2_l": FieldText(N_("Waterproofing covers"), _COVERAGE, "coverage"),
    "paint_coats": FieldText(NP_("plaster", "Coats of paint"), NOTHING, "count"),
    "paint_coverage_m2_l": FieldText(N_("Paint covers"), _COVERAGE, "coverage"),
}

FIELDS: Final[dict[str, FieldText]] = {
    "name": FieldText(N_("Name of the job")),
    "note": FieldText(N_("A note to the landowner"), N_("It goes with the link and the message.")),
    "place.name": FieldText(N_("Where will it stand?"), N_("A village, a farm, a hill: your own words.")),
    "permit.counts": FieldText(
        N_("Which floor area does the building department count?"),
        N_("Ask before anyone buys: places differ."),
    ),
    "permit.limit_m2": FieldText(
        N_("Largest area without a permit there"), N_("As the department says it."), "area"
    ),
    "permit.answer": FieldText(N_("What they said, who and when")),
    "market.country": FieldText(N_("Country, two letters")),
    "market.currency": FieldText(N_("Currency")),
    "market.cement_bag_kg": FieldText(
        N_("Cement in one bag"), N_("Read the net mass printed on the bag."), "mass"
    ),
    "market.cement_type": FieldText(N_("Cement type"), N_("It is printed on the bag.")),
    "market.strength_class": FieldText(N_("Strength class"), N_("It is printed beside the type.")),
    "market.prices[].item": FieldText(N_("What is bought")),
    "market.prices[].label": FieldText(N_("Your name for it")),
    "market.prices[].quantity": FieldText(
        N_("How many"), N_("Only for lines of your own; the rest is worked out."), "count"
    ),
    "market.prices[].unit": FieldText(N_("Sold by")),
    "market.prices[].price": FieldText(N_("Price of one"), NOTHING, "money"),
    "parts[].id": FieldText(N_("Name of the part")),
    "parts[].inside_diameter_m": FieldText(
        N_("Inside diameter"), N_("Clear from face to face, before the skin."), "length"
    ),
    "parts[].shape": FieldText(N_("Shape")),
    "parts[].profile": FieldText(N_("Profile"), N_("The line from the springing to the crown.")),
    "parts[].inside_span_m": FieldText(
        N_("Inside span"), N_("Clear from side to side, before the skin."), "length"
    ),
    "parts[].length_m": FieldText(
        N_("Inside length"), N_("Clear from end to end; the walls at the ends stand beyond it."), "length"
    ),
    "parts[].rise_m": FieldText(
        N_("Rise"),
        N_("From the springing to the inside of the crown. Empty: a usual one for the profile; the drawing shows it."),
        "length",
    ),
    "parts[].crown_thickness_m": FieldText(
        N_("Thickness at the crown"), N_("Empty: as thick as the foot. Between them it changes with the height."), "length_small"
    ),
    "parts[].crown_opening_m": FieldText(
        N_("Opening at the crown"), N_("Its diameter, cut upright; 0 where the crown is closed."), "length"
    ),
    "parts[].crown_closed_by": FieldText(N_("The crown's opening is")),
    "parts[].ends": FieldText(N_("Walls at the ends")),
    "parts[].end_thickness_m": FieldText(
        N_("Thickness of the end walls"), N_("Empty: as thick as the shell."), "length_small"
    ),
    "parts[].stem_height_m": FieldText(
        N_("Stem wall"), N_("The straight wall from the floor to where the shell springs."), "length"
    ),
    "parts[].thickness_m": FieldText(
        N_("Thickness"), N_("Of the foamed concrete alone, square to the face."), "length_small"
    ),
    "parts[].at_m": FieldText(N_("Place on the plan"), NOTHING, "length"),
    "parts[].at_m[0]": FieldText(
        N_("Its middle, to the right"), N_("On the plan of all parts, from a point of your choice; of a plan by corners, the point they are counted from."), "length"
    ),
    "parts[].at_m[1]": FieldText(N_("Its middle, upwards on the plan"), NOTHING, "length"),
    "parts[].bearing_deg": FieldText(
        N_("Turned by"), N_("Degrees on the plan, counted anticlockwise; its openings turn with it."), "angle"
    ),
    "parts[].plan_form": FieldText(N_("Plan"), N_("A closed wall follows its inside face, an open line the middle of the wall.")),
    "parts[].plan": FieldText(N_("Corners of the plan")),
    "parts[].plan[][0]": FieldText(N_("To the right"), N_("On the plan, from a point of your choice."), "length"),
    "parts[].plan[][1]": FieldText(N_("Upwards on the plan"), NOTHING, "length"),
    "parts[].wall.height_m": FieldText(N_("Height of the wall"), N_("From the floor, gables not counted."), "length"),
    "parts[].wall.gable_rise_m": FieldText(N_("Rise of the gables"), N_("Above the wall; 0 where there are none."), "length"),
    "parts[].wall.gable_sides": FieldText(N_("Sides with a gable")),
    "parts[].wall.gable_sides[]": FieldText(N_("Side"), N_("The plan has the number of each side beside it."), "count"),
    "parts[].wall.build": FieldText(N_("How the wall is built")),
    "parts[].wall.post_width_m": FieldText(
        N_("Width of a post"), N_("Along the wall; it is as deep as the wall is thick."), "length_small"
    ),
    "parts[].wall.post_spacing_m": FieldText(
        N_("Posts at most this far apart"), N_("From middle to middle, besides those at corners. Common practice, no source."), "length"
    ),
    "parts[].wall.ring_beams": FieldText(
        N_("Ring beams"), N_("The uppermost at the top of the wall, others evenly below it."), "count"
    ),
    "parts[].wall.ring_beam_height_m": FieldText(N_("Height of a ring beam"), NOTHING, "length_small"),
    "parts[].wall.steel_sized": FieldText(
        N_("Bars in posts and beams"), N_("This page never sizes a bar. Whoever is licensed to do so says which and how many.")
    ),
    "parts[].wall.steel_sized_by": FieldText(N_("Sized by whom")),
    "parts[].wall.bar_diameter_m": FieldText(N_("Diameter of a bar"), NOTHING, "length_fine"),
    "parts[].wall.post_bars": FieldText(N_("Bars in each post"), NOTHING, "count"),
    "parts[].wall.beam_bars": FieldText(N_("Bars in each ring beam"), NOTHING, "count"),
    "parts[].wall.gust_m_s": FieldText(
        N_("Gust to reckon with while it is fresh"), N_("Ask the weather service for the strongest gust of the season."), "speed"
    ),
    "parts[].wall.brace_kn": FieldText(
        N_("What one brace holds"), N_("Pulled or pushed at its top, as whoever sizes it says."), "force"
    ),
    "parts[].fill.kind": FieldText(N_("What is filled")),
    "parts[].fill.depth_m": FieldText(N_("Depth"), N_("Of a fill to falls, where it is least."), "length_small"),
    "parts[].fill.slope_fraction": FieldText(N_("Slope"), N_("Fall over the way that water runs. Two per hundred is one in fifty."), "fraction"),
    "parts[].fill.fall_deg": FieldText(
        N_("Water runs towards"), N_("Degrees on the plan, counted anticlockwise; 0 is to the right, along the length."), "angle"
    ),
    "parts[].fill.volume_m3": FieldText(N_("Volume of the void"), N_("As measured, or by the water or sand that it takes."), "volume"),
    "parts[].fill.void_depth_m": FieldText(
        N_("Greatest depth of the void"), NP_("concrete", "Empty: not known, and lifts are not counted."), "length"
    ),
    "parts[].fill.placed_c": FieldText(
        N_("Temperature when it is poured"), N_("Of the fresh mix; on a hot site some 30 °C or 86 °F. Empty: no peak is shown."), "temperature"
    ),
    "parts[].order.count": FieldText(N_("How many blocks"), NOTHING, "count"),
    "parts[].order.length_m": FieldText(N_("Length of a block"), NOTHING, "length_small"),
    "parts[].order.height_m": FieldText(N_("Height of a block"), NOTHING, "length_small"),
    "parts[].openings[].form": FieldText(N_("Form")),
    "parts[].openings[].width_m": FieldText(N_("Width"), NOTHING, "length"),
    "parts[].openings[].height_m": FieldText(N_("Height"), N_("With the arch, where there is one."), "length"),
    "parts[].openings[].diameter_m": FieldText(N_("Diameter"), NOTHING, "length"),
    "parts[].openings[].sill_m": FieldText(N_("Lowest point above the floor"), NOTHING, "length"),
    "parts[].openings[].face": FieldText(
        N_("Which wall"), N_("Seen from end A towards end B, side A is on the left.")
    ),
    "parts[].openings[].along_m": FieldText(
        N_("Distance along the wall"),
        N_(
            "To the middle of the opening; in a vault on a side from end A, on an end from side A; in a wall from the side's first "
            "corner. Empty: spread evenly."
        ),
        "length",
    ),
    "parts[].openings[].side": FieldText(
        N_("In which side"), N_("The plan has the number of each side beside it."), "count"
    ),
    "parts[].openings[].to": FieldText(
        N_("Leads to"),
        N_("The part that one walks into here. What both have in one place is then counted once, the passage is taken out of both, and a gap gets a neck."),
    ),
    "parts[].openings[].azimuth_deg": FieldText(
        N_("Direction of the first"),
        N_("Degrees on the plan, counted anticlockwise; 0 is the way the drawing is cut."),
        "angle",
    ),
    "parts[].openings[].count": FieldText(N_("How many alike, this one counted"), NOTHING, "count"),
    "parts[].openings[].spacing_deg": FieldText(
        N_("Angle from one to the next"), N_("Empty: spread evenly all round."), "angle"
    ),
    "parts[].openings[].hood": FieldText(N_("Hood"), N_("A collar of foamed concrete that stands out from the outside face.")),
    "parts[].openings[].hood_projection_m": FieldText(
        N_("The hood stands out by"), N_("Level, from where the face under it lies farthest out to its flat front."), "length_small"
    ),
    "parts[].openings[].hood_thickness_m": FieldText(
        N_("Thickness of the hood"), N_("From the edge of the opening outwards, before any skin."), "length_small"
    ),
    "block.length_m": FieldText(N_("Block length"), N_("The inside of the mould. Common practice, no source: 12 in or 30 cm."), "length_small"),
    "block.height_m": FieldText(
        N_("Block height"),
        N_("Common practice, no source: 12 in or 30 cm. The third side is the shell's thickness: 4 to 12 in, or 10 to 30 cm."),
        "length_small",
    ),
    "block.joint_m": FieldText(
        N_("Thickness of the joints"), N_("0 where blocks are laid dry. It is as wide inside as outside."), "length_fine"
    ),
    "block.joint_material": FieldText(N_("Joints are filled with")),
    "block.moulds": FieldText(N_("Blocks cast in a day"), N_("As many as there are moulds to fill. Empty: days are not counted."), "count"),
    "mix.given": FieldText(N_("What do you start from?"), N_("The rest is worked out.")),
    "mix.cement_kg": FieldText(N_("Cement in a batch"), NOTHING, "mass"),
    "mix.water_l": FieldText(N_("Water in the slurry"), N_("Without the water that the foam brings."), "liquid"),
    "mix.foam_density_kg_m3": FieldText(N_("Foam density"), NOTHING, "foam_density"),
    "mix.yield_l": FieldText(
        NP_("volume of foamed concrete that a batch makes", "Yield of the batch"), NOTHING, "liquid"
    ),
    "mix.wet_density_kg_m3": FieldText(
        N_("Wet density"), N_("Fresh from the mixer, full of water."), "density"
    ),
    "mix.oven_dry_density_kg_m3": FieldText(
        N_("Oven-dry density"), NP_("weight", "Dried out in an oven: much lighter than fresh."), "density"
    ),
    "mix.water_cement_ratio": FieldText(
        N_("Water-cement ratio of the slurry"), N_("By mass, without the foam's water."), "ratio"
    ),
    "mix.total_water_cement_ratio": FieldText(
        N_("Water-cement ratio, foam water counted"), N_("By mass."), "ratio"
    ),
    "mix.cement_density_kg_m3": FieldText(
        N_("Density of the cement grains"),
        NP_("weight", "As it is for plain Portland cement; the grains of blended cements are lighter."),
        "density",
    ),
    "mix.additions[].kind": FieldText(N_("What else goes in")),
    "mix.additions[].per": FieldText(N_("Stated by")),
    "mix.additions[].kg_per_kg": FieldText(N_("How much to one part of cement"), N_("By mass, as it is weighed, damp."), "ratio"),
    "mix.additions[].kg_per_m3": FieldText(N_("How much in the foamed concrete made"), N_("As it is weighed, damp."), "density"),
    "mix.additions[].moisture_fraction": FieldText(
        N_("Water in it"), N_("All of its water over its oven-dry mass: weigh some, dry it in a pan, weigh again."), "fraction"
    ),
    "mix.additions[].absorption_fraction": FieldText(
        N_("Water that its grains drink"), N_("Over the oven-dry mass; 0 where it is not known."), "fraction"
    ),
    "mix.additions[].grain_kg_m3": FieldText(
        N_("Density of its grains"), NP_("weight", "Empty: 2650 kg/m³ for sand, and what is usual for the others."), "density"
    ),
    "wish.strength_mpa": FieldText(
        N_("Strength wanted"), N_("In compression at 28 days. The sheet says which densities are published to reach it."), "stress"
    ),
    "wish.conductivity_w_mk": FieldText(
        N_("Most conductivity wanted"),
        N_("In use. An R of 1 per inch is 1 Btu·in/(h·ft²·°F) or 0.144 W/(m·K), and half the conductivity is twice the R."), "conductivity"
    ),
    "weather.air_c": FieldText(N_("Air now"), N_("In the shade."), "temperature"),
    "weather.night_c": FieldText(N_("Coldest air of the coming nights"), N_("As the forecast says it."), "temperature"),
    "weather.water_c": FieldText(N_("Mixing water"), NOTHING, "temperature"),
    "weather.cement_c": FieldText(N_("Cement"), N_("A thermometer in the bag. Empty: as the air."), "temperature"),
    "weather.mix_wanted_c": FieldText(N_("Temperature wanted of the mix"), NOTHING, "temperature"),
    "weather.humidity_fraction": FieldText(N_("Relative humidity"), NOTHING, "fraction"),
    "weather.wind_m_s": FieldText(N_("Wind over the fresh surface"), NOTHING, "speed"),
    "weather.hardness": FieldText(N_("Hardness of the water"), N_("As a test strip or the waterworks say it.")),
    "weather.hardness_unit": FieldText(N_("Hardness is in")),
    "base.kind": FieldText(N_("What does the shell stand on?"), N_("Nothing is counted until you choose.")),
    "base.frost_depth_m": FieldText(
        N_("Frost depth there"), N_("Ask the building department. A base that frost can heave cracks the shell."), "length"
    ),
    "base.trench_depth_m": FieldText(N_("Trench depth"), N_("From the ground as it is found."), "length"),
    "base.trench_width_m": FieldText(N_("Trench width"), NOTHING, "length"),
    "base.trench_gravel_m": FieldText(N_("Gravel in the trench"), N_("Its depth once it is tamped."), "length_small"),
    "base.topsoil_m": FieldText(N_("Topsoil taken off"), N_("Over the whole plan."), "length_small"),
    "base.bulking_fraction": FieldText(N_("Dug soil is looser by"), N_("Common practice, no source."), "fraction"),
    "base.beam_width_m": FieldText(N_("Width of the footing or ring beam"), NOTHING, "length_small"),
    "base.beam_height_m": FieldText(N_("Height of the footing or ring beam"), NOTHING, "length_small"),
    "base.steel_sized": FieldText(
        N_("Bars in it"), N_("This page never sizes a bar. Whoever is licensed to do so says which and how many.")
    ),
    "base.steel_sized_by": FieldText(N_("Sized by whom")),
    "base.bar_diameter_m": FieldText(N_("Diameter of a bar"), NOTHING, "length_fine"),
    "base.bars": FieldText(N_("Bars side by side"), N_("All that run along the beam, top and bottom."), "count"),
    "base.bar_length_m": FieldText(N_("Length of a bar as sold"), NOTHING, "length"),
    "base.lap_diameters": FieldText(
        N_("Lap, in bar diameters"), N_("Common practice, no source; whoever sizes the bars decides."), "ratio"
    ),
    "base.damp_course": FieldText(N_("Damp-proof layer between base and shell")),
    "base.damp_waste_fraction": FieldText(N_("Laps and waste of the damp-proof layer"), NOTHING, "fraction"),
    "base.floor": FieldText(N_("Floor")),
    "base.slab_gravel_m": FieldText(N_("Gravel under the slab"), NOTHING, "length_small"),
    "base.slab_insulation_m": FieldText(N_("Insulation under the slab"), N_("0 where there is none."), "length_small"),
    "base.slab_thickness_m": FieldText(N_("Slab thickness"), NOTHING, "length_small"),
    "base.floor_finish_m": FieldText(N_("Mortar on the slab"), N_("0 where there is none."), "length_small"),
    "base.floor_finish_sand_parts": FieldText(
        N_("Sand in that mortar"), N_("Parts by volume to one part of cement."), "ratio"
    ),
    "base.concrete": FieldText(N_("Where is the concrete mixed?")),
    "base.sand_parts": FieldText(N_("Sand in the concrete"), N_("Parts by volume to one part of cement."), "ratio"),
    "base.gravel_parts": FieldText(N_("Gravel in the concrete"), N_("Parts by volume to one part of cement."), "ratio"),
    "base.water_cement_ratio": FieldText(
        N_("Water-cement ratio of concrete and floor mortar"), N_("By mass, with the water that damp sand brings."), "ratio"
    ),
    "base.concrete_waste_fraction": FieldText(N_("Waste of concrete and floor mortar"), NOTHING, "fraction"),
    "base.gravel_waste_fraction": FieldText(
        N_("Waste of gravel and insulation"), N_("Gravel shrinks when it is tamped: count that here."), "fraction"
    ),
    **{f"skins.{side}.{name}": words for side in ("outside", "inside") for name, words in _SKIN.items()},
    "skins.reveals": FieldText(N_("Reveals of the openings"), N_("Which skin goes round them.")),
    "skins.mix_by": FieldText(N_("Parts are measured by")),
    "skins.water_cement_ratio": FieldText(
        N_("Water over cement and lime"), N_("By mass, with the water that damp sand brings."), "ratio"
    ),
    "skins.roll_width_m": FieldText(N_("Width of a roll"), NOTHING, "length"),
    "skins.roll_length_m": FieldText(N_("Length of a roll"), NOTHING, "length"),
    "skins.lap_m": FieldText(N_("Overlap of neighbouring strips"), N_("Common practice, no source."), "length_small"),
    "skins.foot_return_m": FieldText(
        N_("Turned on at the foot"), N_("How far each strip goes on over the base."), "length_small"
    ),
    "skins.lay": FieldText(N_("How the strips run")),
    "skins.mesh_strength_n_mm": FieldText(
        NP_("reinforcement", "Strength of the mesh after ageing in alkali"),
        N_("As the maker's sheet says it. At least 20 N/mm."),
        "line_strength",
    ),
    "skins.mesh_kept_fraction": FieldText(
        N_("Share of its strength that it keeps"), N_("As the maker's sheet says it. At least half."), "fraction"
    ),
    "skins.coat_waste_fraction": FieldText(N_("Waste of mortar"), NOTHING, "fraction"),
    "skins.mesh_waste_fraction": FieldText(
        NP_("reinforcement", "Waste of mesh"), N_("Each strip is cut longer by this share."), "fraction"
    ),
    "skins.paint_waste_fraction": FieldText(N_("Waste of waterproofing and paint"), NOTHING, "fraction"),
    "aggregate.sand_bulk_kg_m3": FieldText(
        N_("Loose sand weighs"), N_("Fill a bucket, strike it off and weigh it."), "density"
    ),
    "aggregate.gravel_bulk_kg_m3": FieldText(N_("Loose gravel weighs"), NOTHING, "density"),
    "aggregate.lime_bulk_kg_m3": FieldText(N_("Loose lime weighs"), NOTHING, "density"),
    "foam.agent_dilution": FieldText(
        N_("Parts of water to one part of concentrate"), N_("As the maker of the concentrate says."), "ratio"
    ),
    "bucket.volume_l": FieldText(
        N_("Measuring bucket"),
        N_("What it holds when struck off level. Fill it with water, weigh, take the empty bucket off: a kilogram is a litre."),
        "liquid_bucket",
    ),
    "bucket.foam_low_kg_m3": FieldText(N_("Lightest foam you accept"), NOTHING, "foam_density"),
    "bucket.foam_aim_kg_m3": FieldText(N_("Foam you aim at"), NOTHING, "foam_density"),
    "bucket.foam_high_kg_m3": FieldText(N_("Heaviest foam you accept"), NOTHING, "foam_density"),
    "batch.bags_each": FieldText(
        N_("Bags in a batch"), N_("Left to itself, the largest share of a bag that the drum holds.")
    ),
    "batch.drum_l": FieldText(N_("Mixing drum holds"), N_("Filled to the brim."), "liquid"),
    "batch.freeboard_fraction": FieldText(
        N_("Room left under the brim"), N_("So that nothing spills while the foam is folded in."), "fraction"
    ),
    "batch.drum_form": FieldText(N_("Form of the drum"), N_("For the marks inside it.")),
    "batch.drum_diameter_m": FieldText(N_("Inside diameter of the drum"), NOTHING, "length_small"),
    "batch.drum_bottom_diameter_m": FieldText(N_("Inside diameter at the bottom"), NOTHING, "length_small"),
    "batch.drum_top_diameter_m": FieldText(N_("Inside diameter at the top"), NOTHING, "length_small"),
    "batch.drum_depth_m": FieldText(N_("Inside depth"), NOTHING, "length_small"),
    "batch.drum_marks[].volume_l": FieldText(N_("Water poured in so far"), NOTHING, "liquid"),
    "batch.drum_marks[].height_m": FieldText(N_("It stands this high"), NOTHING, "length_small"),
    "batch.emptying": FieldText(N_("How does the drum empty?"), NP_("raising by hand", "A full drum is never lifted.")),
    "batch.slurry_minutes": FieldText(N_("Time to mix the slurry"), NOTHING, "duration"),
    "batch.fold_minutes": FieldText(N_("Time to fold in the foam"), NOTHING, "duration"),
    "batch.pour_within_minutes": FieldText(
        N_("Pour within"), N_("Counted from when the first foam goes into the slurry. Common practice, no source."), "duration"
    ),
    "waste.lost_batches_fraction": FieldText(N_("Batches lost"), N_("Collapsed, off their weight."), "fraction"),
    "waste.breakage_fraction": FieldText(N_("Blocks broken"), N_("In the mould, carried, laid."), "fraction"),
    "waste.cutting_fraction": FieldText(
        N_("Cut away"), N_("Sawn off at openings and to fit the curve. Empty: as counted from the lay plan."), "fraction"
    ),
    "waste.calibration_batches": FieldText(
        N_("Batches to find the foam's weight"), N_("Mixed before the first block counts."), "count"
    ),
}

_SKIN_KINDS: Final[dict[str, Message]] = {
    "unstated": N_("Not stated yet"),
    "none": N_("Bare, no skin"),
    "thin_mesh": NP_("reinforcement", "Thin skin on mesh"),
    "solid_base": NP_("plaster", "Three coats on the solid face"),
    "solid_base_two": NP_("plaster", "Two coats on the solid face"),
    "lath": NP_("plaster", "Three coats on lath"),
}
_MESH: Final[dict[str, Message]] = {
    "by_kind": N_("As the kind has it"),
    "yes": N_("Yes"),
    "no": N_("No"),
}

_STEEL: Final[dict[str, Message]] = {
    "unsized": N_("Not sized: none is counted"),
    "placeholder": N_("A placeholder, not sized"),
    "typed": N_("Typed, sized by the person named"),
}

CHOICES: Final[dict[str, dict[str, Message]]] = {
    "permit.counts": {
        "unasked": N_("Not asked yet"),
        "inside": N_("Clear floor inside"),
        "footprint": N_("Outside footprint"),
        "headroom": N_("Floor with headroom"),
    },
    "parts[].shape": {
        "dome": N_("Dome"),
        "vault": N_("Vault"),
        "wall": N_("Wall"),
        "fill": N_("Fill, poured in place"),
        "blocks": N_("Blocks to order"),
    },
    "parts[].plan_form": {
        "rectangle": N_("Rectangle"),
        "polygon": N_("Corner by corner, closed"),
        "circle": N_("Circle"),
        "run": N_("Corner by corner, open"),
    },
    "parts[].wall.build": {
        "blocks": N_("Blocks that carry the load"),
        "infill": N_("Blocks between concrete posts and ring beams"),
    },
    "parts[].wall.steel_sized": _STEEL,
    "parts[].fill.kind": {
        "falls": N_("A roof or floor, to falls"),
        "layer": N_("A level layer, such as floor insulation"),
        "void": N_("A void, by its volume"),
    },
    "parts[].profile": {
        "hemisphere": N_("Hemisphere"),
        "semicircle": N_("Semicircle"),
        "segment": N_("Segment of a circle"),
        "pointed": N_("Pointed, of two arcs"),
        "catenary": N_("Catenary"),
        "parabola": N_("Parabola"),
        "ellipse": N_("Ellipse"),
    },
    "parts[].crown_closed_by": {"open": N_("Left open"), "glazed": N_("Glazed")},
    "parts[].ends": {"both": N_("At both ends"), "one": N_("At end A only"), "open": N_("Open at both ends")},
    "parts[].openings[].face": {
        "around": N_("By its direction"),
        "side_a": N_("Side A"),
        "side_b": N_("Side B"),
        "end_a": N_("End A"),
        "end_b": N_("End B"),
    },
    "parts[].openings[].form": {
        "rectangular": N_("Rectangular"),
        "arched": N_("Arched"),
        "pointed": N_("Pointed"),
        "round": N_("Round"),
    },
    "parts[].openings[].hood": {
        "none": N_("No hood"),
        "head": N_("Over the head"),
        "around": N_("All round"),
    },
    "market.cement_type": {
        "unstated": N_("Not known yet"),
        "cem_i": N_("CEM I (Portland)"),
        "cem_ii_a": N_("CEM II/A (up to a fifth blended)"),
        "cem_ii_b": N_("CEM II/B (up to a third blended)"),
        "cem_iii_a": N_("CEM III/A (slag)"),
        "cem_iii_b": N_("CEM III/B (mostly slag)"),
        "cem_iv": N_("CEM IV (pozzolanic)"),
        "cem_v": N_("CEM V (composite)"),
        "astm_i": N_("ASTM C150 Type I"),
        "astm_ii": N_("ASTM C150 Type II"),
        "astm_iii": N_("ASTM C150 Type III (early strength)"),
        "astm_v": N_("ASTM C150 Type V (sulfate resisting)"),
        "astm_il": N_("ASTM C595 Type IL (limestone)"),
        "astm_ip": N_("ASTM C595 Type IP (pozzolan)"),
        "astm_is": N_("ASTM C595 Type IS (slag)"),
        "masonry": N_("Masonry cement (EN 413-1, ASTM C91)"),
    },
    "market.strength_class": {"unstated": N_("Not known yet")},
    "market.prices[].item": {
        "cement": N_("Cement"),
        "agent": N_("Foaming agent, concentrate"),
        "water": N_("Water"),
        "other": N_("A line of your own"),
        "sand": N_("Sand"),
        "gravel": N_("Gravel"),
        "lime": N_("Lime, hydrated"),
        "ready_concrete": N_("Ready-mixed concrete"),
        "bar": N_("Reinforcing bar"),
        "damp_course": N_("Damp-proof layer"),
        "insulation": N_("Insulation under the slab"),
        "mesh_roll": NP_("reinforcement", "Mesh, in rolls"),
        "waterproofing": N_("Waterproofing"),
        "paint": N_("Paint"),
        "joint_mortar": N_("Mortar for the joints"),
        "joint_adhesive": N_("Adhesive for the joints"),
        "fly_ash": N_("Fly ash"),
        "fibres": N_("Fibres"),
        "accelerator": N_("Accelerator"),
    },
    "market.prices[].unit": {
        "bag": N_("bag"),
        "kg": N_("kilogram"),
        "t": N_("tonne"),
        "lb": N_("pound"),
        "L": N_("litre"),
        "m3": N_("cubic metre"),
        "us_gal": N_("US gallon"),
        "imp_gal": N_("imperial gallon"),
        "piece": N_("piece"),
        "day": N_("day"),
        "lump": N_("all together"),
        "m": N_("metre"),
        "m2": N_("square metre"),
        "ft": N_("foot"),
        "ft2": N_("square foot"),
        "yd3": N_("cubic yard"),
    },
    "base.kind": {
        "unstated": N_("Not stated yet"),
        "none": N_("A base that is there already"),
        "footing": N_("A footing"),
        "ring_beam": N_("A ring beam"),
    },
    "base.steel_sized": _STEEL,
    "base.damp_course": {"yes": N_("Yes"), "no": N_("No")},
    "base.floor": {"slab": N_("A slab on gravel"), "no": N_("No floor here")},
    "base.concrete": {"site": N_("On site"), "ready": N_("Bought ready-mixed")},
    "skins.outside.kind": _SKIN_KINDS,
    "skins.inside.kind": _SKIN_KINDS,
    "skins.outside.mesh": _MESH,
    "skins.inside.mesh": _MESH,
    "skins.reveals": {
        "outside": N_("The outside skin"),
        "inside": N_("The inside skin"),
        "no": N_("Left bare"),
    },
    "skins.mix_by": {"volume": N_("Volume, loose"), "mass": N_("Mass")},
    "skins.lay": {
        "gores": N_("Up from the foot to the crown"),
        "bands": N_("Level, one above the other"),
    },
    "block.joint_material": {"mortar": N_("Mortar"), "adhesive": N_("Adhesive")},
    "mix.additions[].kind": {
        "sand": N_("Sand"),
        "fly_ash": N_("Fly ash"),
        "lime": N_("Lime, hydrated"),
        "fibres": N_("Fibres"),
        "accelerator": N_("Accelerator"),
    },
    "mix.additions[].per": {"cement": N_("The cement"), "yield": N_("The foamed concrete made")},
    "weather.hardness_unit": {
        "mg_l": N_("Milligrams a litre, as calcium carbonate (ppm)"),
        "grain_us_gal": N_("Grains a US gallon"),
        "german": N_("German degrees"),
        "french": N_("French degrees"),
    },
    "batch.drum_form": {
        "straight": N_("Straight sides"),
        "tapered": N_("Tapered sides"),
        "calibrated": N_("Any form, marked with water"),
    },
    "batch.emptying": {
        "in_place": N_("Poured where it is mixed"),
        "tip": N_("Tipped on a frame"),
        "bottom_outlet": N_("Through an outlet at the bottom"),
        "buckets": N_("By bucket"),
    },
    "mix.given": {
        "cement_kg+water_l+foam_density_kg_m3+yield_l": N_("A recipe, and how much it makes"),
        "cement_kg+water_l+foam_density_kg_m3+wet_density_kg_m3": N_("A recipe, and its wet density"),
        "cement_kg+water_cement_ratio+foam_density_kg_m3+wet_density_kg_m3": N_("A wet density to reach"),
        "cement_kg+water_cement_ratio+foam_density_kg_m3+oven_dry_density_kg_m3": N_(
            "An oven-dry density to reach"
        ),
    },
    "batch.bags_each": {
        "": N_("The largest share that fits"),
        "1": N_("One bag"),
        "3/4": N_("Three quarters of a bag"),
        "2/3": N_("Two thirds of a bag"),
        "1/2": N_("Half a bag"),
        "1/3": N_("A third of a bag"),
        "1/4": N_("A quarter of a bag"),
    },
}

#: Words of the lists that the form can add to: title of the list, of one item, add, remove.
LISTS: Final[dict[str, tuple[Message, Message, Message, Message]]] = {
    "parts": (N_("Parts"), N_("Part %(number)s"), N_("Add a part"), N_("Remove this part")),
    "parts[].openings": (
        N_("Doors and windows"),
        N_("Opening %(number)s"),
        N_("Add an opening"),
        N_("Remove this opening"),
    ),
    "parts[].plan": (N_("Corners of the plan"), N_("Corner %(number)s"), N_("Add a corner"), N_("Remove this corner")),
    "parts[].wall.gable_sides": (N_("Sides with a gable"), N_("Gable %(number)s"), N_("Add a gable"), N_("Remove this gable")),
    "market.prices": (N_("Prices"), N_("Price %(number)s"), N_("Add a price"), N_("Remove this price")),
    "mix.additions": (N_("What else goes into the slurry"), N_("Addition %(number)s"), N_("Add an addition"), N_("Remove this addition")),
    "batch.drum_marks": (
        N_("Marks made with water"),
        N_("Mark %(number)s"),
        N_("Add a mark"),
        N_("Remove this mark"),
    ),
}

#: Groups of fields that occur twice: what their labels need before them, away from the form.
WITHIN: Final[dict[str, Message]] = {
    "skins.outside.": N_("Outside skin"),
    "skins.inside.": N_("Inside skin"),
}

SECTIONS: Final[dict[str, Message]] = {
    "place": NP_("section of the page", "Place"),
    "shape": NP_("section of the page", "Shape"),
    "permission": NP_("section of the page", "Permission"),
    "mix": NP_("section of the page", "Mix"),
    "base": NP_("section of the page", "Base and skins"),
    "money": NP_("section of the page", "Buying and cost"),
    "landowner": NP_("section of the page", "Landowner"),
    "site": NP_("section of the page", "Site"),
}

_OPENING = (
    "form", "width_m", "height_m", "diameter_m", "sill_m", "face", "side", "along_m", "azimuth_deg", "count", "spacing_deg", "to",
    "hood", "hood_projection_m", "hood_thickness_m",
)  # fmt: skip
_PART = (
    "id", "shape", "at_m[0]", "at_m[1]", "bearing_deg", "plan_form", ("plan", ()), "profile", "inside_diameter_m", "inside_span_m", "length_m", "rise_m", "stem_height_m", "thickness_m",
    "crown_thickness_m", "crown_opening_m", "crown_closed_by", "ends", "end_thickness_m",
    "wall.height_m", "wall.gable_rise_m", ("wall.gable_sides", ()), "wall.build", "wall.post_width_m", "wall.post_spacing_m",
    "wall.ring_beams", "wall.ring_beam_height_m", "wall.steel_sized", "wall.steel_sized_by", "wall.bar_diameter_m",
    "wall.post_bars", "wall.beam_bars", "wall.gust_m_s", "wall.brace_kn",
    "fill.kind", "fill.depth_m", "fill.slope_fraction", "fill.fall_deg", "fill.volume_m3", "fill.void_depth_m", "fill.placed_c",
    "order.count", "order.length_m", "order.height_m",
)  # fmt: skip
_PRICE = ("item", "label", "quantity", "unit", "price")

#: What stands where: a path, or (group id, title, help, folded, entries).
LAYOUT: Final[dict[str, tuple[object, ...]]] = {
    "place": ("name", "place.name"),
    "shape": (
        ("parts", (*_PART, ("openings", _OPENING))),
        ("#blocks", N_("Blocks"), NOTHING, False,
         ("block.length_m", "block.height_m", "block.joint_m", "block.joint_material", "block.moulds")),
    ),
    "permission": ("permit.counts", "permit.limit_m2", "permit.answer"),
    "mix": (
        "mix.given",
        "mix.cement_kg",
        "mix.water_l",
        "mix.water_cement_ratio",
        "mix.total_water_cement_ratio",
        "mix.foam_density_kg_m3",
        "mix.yield_l",
        "mix.wet_density_kg_m3",
        "mix.oven_dry_density_kg_m3",
        ("mix.additions", ("kind", "per", "kg_per_kg", "kg_per_m3", "moisture_fraction", "absorption_fraction", "grain_kg_m3")),
        ("#wish", N_("Choose a density by what is wanted"), N_("Only to look up: nothing is worked out from it."), True,
         ("wish.strength_mpa", "wish.conductivity_w_mk")),
        ("#agent", N_("Cement grains and concentrate"), NOTHING, True,
         ("mix.cement_density_kg_m3", "foam.agent_dilution")),
        ("#waste", N_("What is mixed and never stands in the wall"), N_("Common practice, no source. Put in your own."),
         True,
         ("waste.lost_batches_fraction", "waste.breakage_fraction", "waste.cutting_fraction",
          "waste.calibration_batches")),
    ),
    "base": (
        "base.kind",
        ("#trench", N_("Trench and ground"), NOTHING, False,
         ("base.frost_depth_m", "base.trench_depth_m", "base.trench_width_m", "base.trench_gravel_m", "base.topsoil_m",
          "base.bulking_fraction")),
        ("#beam", N_("Footing or ring beam"), NOTHING, False,
         ("base.beam_width_m", "base.beam_height_m", "base.steel_sized", "base.steel_sized_by", "base.bar_diameter_m",
          "base.bars", "base.bar_length_m", "base.lap_diameters", "base.damp_course", "base.damp_waste_fraction")),
        ("#floor", N_("Floor"), NOTHING, False,
         ("base.floor", "base.slab_gravel_m", "base.slab_insulation_m", "base.slab_thickness_m", "base.floor_finish_m",
          "base.floor_finish_sand_parts")),
        ("#concrete", N_("Concrete of the base"), NOTHING, True,
         ("base.concrete", "base.sand_parts", "base.gravel_parts", "base.water_cement_ratio",
          "base.concrete_waste_fraction", "base.gravel_waste_fraction")),
        ("#outside", N_("Outside skin"), NOTHING, False, tuple(f"skins.outside.{name}" for name in _SKIN)),
        ("#inside", N_("Inside skin"), NOTHING, False, tuple(f"skins.inside.{name}" for name in _SKIN)),
        "skins.reveals",
        ("#mesh", NP_("reinforcement", "Mesh"), NOTHING, False,
         ("skins.roll_width_m", "skins.roll_length_m", "skins.lap_m", "skins.foot_return_m", "skins.lay",
          "skins.mesh_strength_n_mm", "skins.mesh_kept_fraction", "skins.mesh_waste_fraction")),
        ("#mortar", N_("Mortar, sand and waste"), N_("Common practice, no source. Put in your own."), True,
         ("skins.mix_by", "skins.water_cement_ratio", "aggregate.sand_bulk_kg_m3", "aggregate.gravel_bulk_kg_m3",
          "aggregate.lime_bulk_kg_m3", "skins.coat_waste_fraction", "skins.paint_waste_fraction")),
    ),
    "money": (
        "market.cement_bag_kg",
        "market.cement_type",
        "market.strength_class",
        "market.currency",
        ("market.prices", _PRICE),
    ),
    "landowner": ("note",),
    "site": (
        ("#bucket", N_("Foam and its bucket"), NOTHING, False,
         ("bucket.volume_l", "bucket.foam_low_kg_m3", "bucket.foam_aim_kg_m3", "bucket.foam_high_kg_m3")),
        ("#drum", N_("Drum and batch"), NOTHING, False,
         ("batch.bags_each", "batch.drum_l", "batch.freeboard_fraction", "batch.emptying", "batch.drum_form",
          "batch.drum_diameter_m", "batch.drum_bottom_diameter_m", "batch.drum_top_diameter_m",
          "batch.drum_depth_m", ("batch.drum_marks", ("volume_l", "height_m")))),
        ("#weather", N_("Weather and water"), N_("Measured on site; leave out what you do not know."), True,
         ("weather.air_c", "weather.night_c", "weather.water_c", "weather.cement_c", "weather.mix_wanted_c", "weather.humidity_fraction",
          "weather.wind_m_s", "weather.hardness", "weather.hardness_unit")),
        ("#minutes", N_("Minutes"), NOTHING, True,
         ("batch.slurry_minutes", "batch.fold_minutes", "batch.pour_within_minutes")),
    ),
}  # fmt: skip
