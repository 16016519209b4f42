"""Problems and notes in words: each names the field, the value and the limit, and says what to do."""

from typing import Any, Final

from foamwright.project.model import Part
from foamwright.project.notes import Note, Problem
from foamwright.reader import NP_, Message, N_
from foamwright.sheets.desk import Desk, pattern
from foamwright.sheets.fields import CHOICES

PROBLEMS: Final[dict[str, Message]] = {
    "not_text": N_("This is not a text that can be read. Nothing was changed."),
    "not_json": N_("This is not a project file, or it is damaged. Nothing was changed."),
    "not_object": N_("This file holds something else than a project. Nothing was changed."),
    "too_large": N_("This is longer than a project can be: %(value)s, at most %(limit)s. Nothing was changed."),
    "too_deep": N_("This file is nested deeper than a project can be. Nothing was changed."),
    "format_missing": N_("The file does not say its format number, so it cannot be read safely."),
    "format_newer": N_(
        "This was made by a newer version of this page (format %(value)s; this one reads up to %(limit)s). Open it there, "
        "or ask for a newer page."
    ),
    "format_unknown": N_("The format number %(value)s is not known."),
    "code_damaged": N_("This code is damaged: a part is missing or changed. Ask for it to be sent again."),
    "code_foreign": N_("This is not a project code."),
    "code_newer": N_("This code was made by a newer version of this page. Ask for a newer page, or for the project file."),
    "unknown_key": N_("The file has a field that this page does not know: %(path)s."),
    "duplicate_key": N_("The file names this field twice: %(path)s."),
    "wrong_kind": N_("%(field)s: %(value)s is not the kind of value that belongs here."),
    "not_finite": N_("%(field)s: %(value)s is not a number that can be used."),
    "too_small": N_("%(field)s: %(value)s is too small. The least is %(limit)s."),
    "too_big": N_("%(field)s: %(value)s is too large. The most is %(limit)s."),
    "not_a_choice": N_("%(field)s: %(value)s is not one of the choices."),
    "not_whole": N_("%(field)s: %(value)s is not whole. It must be a whole number."),
    "text_too_long": N_("%(field)s: “%(value)s” is too long. The most is %(limit)s characters."),
    "text_unprintable": N_("%(field)s: “%(value)s” has characters that cannot be printed."),
    "too_many": N_("%(field)s: there are too many. The most is %(limit)s."),
    "too_few": N_("%(field)s: there are too few. The least is %(limit)s."),
    "missing": N_("%(field)s: a value is missing."),
    "duplicate_id": N_("%(field)s: two parts have the name %(value)s. Give each its own."),
    "number_empty": N_("%(field)s: type a number."),
    "number_unreadable": N_("%(field)s: “%(value)s” cannot be read as a number."),
    "number_ambiguous": N_("%(field)s: “%(value)s” can be read in two ways. Which one do you mean?"),
    "opening_too_high": N_(
        "%(field)s: the top of the opening, %(value)s above the floor, passes the inside of the shell. At this width it can "
        "reach %(limit)s."
    ),
    "opening_too_wide": N_("%(field)s: %(value)s is wider than the shell is there. The most is %(limit)s."),
    "openings_overlap": N_("%(field)s overlaps another opening. Move one of them, or make it smaller."),
    "opening_below_floor": N_("%(field)s: the opening would start below the floor."),
    "openings_too_many": N_("%(field)s: so many openings do not fit beside each other. At most %(limit)s fit."),
    "arch_head_too_low": N_("%(field)s: an arched or pointed opening of this width must be at least %(limit)s high; it is %(value)s."),
    "opening_in_open_end": N_("%(field)s: that end of the vault is open, so no opening can be cut in it. Wall it, or move the opening."),
    "opening_beyond_wall": N_("%(field)s: at %(value)s the opening runs beyond its wall. The nearest place is %(limit)s."),
    "hood_beyond_face": N_(
        "%(field)s: with %(value)s the hood runs past the end of the face behind it. The most is %(limit)s."
    ),
    "hood_no_room": N_(
        "%(field)s: with %(value)s the hood runs into another opening or its hood. The most is %(limit)s. Where that is nothing, move one of them."
    ),
    "plan_too_few": N_("%(field)s of %(part)s: %(value)s corners make no such wall or area. At least %(limit)s are needed."),
    "plan_open": N_("%(field)s of %(part)s: an open line holds no fill. Choose a closed plan."),
    "plan_side_short": N_(
        "%(part)s, side %(side)s: two corners that follow each other stand %(value)s apart. They must be at least %(limit)s apart: move one, or "
        "remove it."
    ),
    "plan_crosses_itself": N_("%(part)s: side %(other)s of the plan crosses or touches side %(side)s. Move a corner."),
    "wall_side_short": N_(
        "%(part)s, side %(side)s: at %(value)s it is shorter than its corners take at this thickness. It must be at least %(limit)s long."
    ),
    "wall_corner_sharp": N_(
        "%(part)s, corner %(corner)s: its sides meet at %(value)s, too sharp to be built. The least is %(limit)s."
    ),
    "wall_meets_itself": N_("%(part)s: at a thickness of %(value)s two stretches of the wall run into each other. Make it thinner, or move them apart."),
    "side_missing": N_("%(field)s: %(part)s has no side %(value)s. Its last one is %(limit)s."),
    "passage_to_nowhere": N_(
        "%(field)s: the opening of %(part)s leads to “%(to)s”, and no other dome, vault or wall has that name. Choose one of the parts, or "
        "leave it empty."
    ),
    "passage_misses": N_(
        "%(field)s: the passage from %(part)s misses %(to)s, or leaves it again through its side. Turn or move the opening, or one of the parts."
    ),
    "passage_too_wide": N_(
        "%(field)s: at %(value)s the passage from %(part)s is wider than what %(to)s offers there. The most is %(limit)s."
    ),
    "passage_too_high": N_(
        "%(field)s: at %(value)s the passage from %(part)s is higher than what %(to)s offers there. The most is %(limit)s."
    ),
    "beams_too_high": N_("%(field)s of %(part)s: ring beams of %(value)s leave no wall between them. They must stay below %(limit)s."),
    "posts_too_wide": N_("%(field)s of %(part)s: posts of %(value)s leave no wall between them. They must stay below %(limit)s."),
    "rise_too_high": N_("%(field)s of %(part)s: %(value)s is higher than a segment of this width can rise. The most is half the width, %(limit)s."),
    "rise_too_low": N_("%(field)s of %(part)s: %(value)s is lower than half the width, so it cannot be pointed. The least is %(limit)s."),
    "crown_sinks": N_(
        "%(field)s of %(part)s: at %(value)s the outside sinks towards the crown and holds water. It must be more than %(limit)s."
    ),
    "crown_thicker_than_foot": N_("%(field)s of %(part)s: %(value)s is thicker than the foot. The most is %(limit)s."),
    "crown_opening_too_wide": N_("%(field)s of %(part)s: %(value)s is as wide as the dome or wider. It must stay below %(limit)s."),
    "mix_underdetermined": N_("The recipe is not complete: one more quantity is needed to work out the rest."),
    "mix_contradiction": N_("%(field)s: %(value)s does not fit the rest of the recipe, which gives %(limit)s."),
    "mix_impossible": N_("%(field)s: no batch can be made of this recipe. It says %(value)s; with the rest as it stands the limit is %(limit)s."),
    "bucket_window_order": N_("%(field)s: the foam that you aim at must lie between the lightest and the heaviest."),
    "drum_marks_order": N_("%(field)s: each mark must hold more water and stand higher than the one before."),
    "drum_shape_incomplete": N_("%(field)s: the form of the drum is not complete."),
    "lap_too_long": N_(
        "%(field)s: a lap of %(value)s bar diameters is as long as a bar or longer. With these bars it must be shorter than %(limit)s."
    ),
    "lap_too_wide": N_(
        "%(field)s: an overlap of %(value)s leaves too little of the roll. It must be less than %(limit)s."
    ),
    "date_unreadable": N_("%(field)s: “%(value)s” is not a date. Write year-month-day, such as 2026-03-15."),
    "file_unreadable": N_("This file cannot be opened: %(value)s."),
    "more_problems": N_("More problems are not listed: %(value)s."),
    "currency_unknown": N_("%(field)s: “%(value)s” is not the code of a currency."),
    "unknown_call": N_("The page asked for something that the engine does not know. Reload the page."),
    "engine_fault": N_("The engine met a fault of its own. Your project is safe. Undo the last change, or reload the page."),
}

NOTES: Final[dict[str, Message]] = {
    "batch_does_not_fit": N_(
        "This batch makes %(yield_l)s and does not fit: the drum takes %(limit)s with the room left under its brim. This fits: "
        "%(fits)s."
    ),
    "no_fraction_fits": N_("No share of a bag fits the drum: even the smallest makes %(yield_l)s, and the drum takes %(limit)s."),
    "stated_batch_differs": N_(
        "The recipe is written for %(stated_kg)s of cement; on site a batch takes %(site_kg)s, in the same proportions."
    ),
    "last_batch_is_part": N_("The last batch is a part of one: %(cement_kg)s of cement, and the rest in proportion."),
    "foamed_concrete_only": N_(
        "This is the foamed concrete only. Base and skins take nearly as much cement again; bags on top, roughly: %(bags_low)s to "
        "%(bags_high)s (common practice, no source; not a quantity to buy by)."
    ),
    "base_unstated": N_(
        "The base is not in it yet. It and what is stated of the skins take roughly %(bags_low)s to %(bags_high)s more bags of cement than are "
        "counted (common practice, no source; not a quantity to buy by)."
    ),
    "skins_unstated": N_(
        "The skins are not all in it yet. They take roughly %(bags_low)s to %(bags_high)s more bags of cement than are counted (common "
        "practice, no source; not a quantity to buy by)."
    ),
    "footing_not_designed": N_(
        "Width, height and depth of the base are as typed. Nobody has looked at the ground or the load: local codes and a licensed engineer "
        "decide."
    ),
    "frost_depth_unasked": N_("Ask the building department how deep the frost goes. The trench here is only what was typed."),
    "trench_above_frost": N_(
        "The trench ends %(depth_m)s below the ground, and the frost goes %(limit)s deep. Ground that freezes under a base heaves and cracks "
        "the shell."
    ),
    "beam_narrow": N_("The footing or ring beam is %(width_m)s wide, less than the wall on it: %(limit)s."),
    "trench_narrow": N_("The trench is %(width_m)s wide, less than what stands in it: %(limit)s."),
    "steel_unsized": N_(
        "No bar is counted: nobody has sized one. A ring holds the thrust of a shell only by its bars, so ask a licensed engineer."
    ),
    "steel_incomplete": N_("No bar is counted yet: diameter or number is missing."),
    "steel_placeholder": N_(
        "Bars are a placeholder, not sized: they are there for the price and not to be built. A licensed engineer sizes them."
    ),
    "steel_sized_by_missing": N_("Bars are typed, and nobody is named who sized them. Name the person, or call them a placeholder."),
    "steel_typed": N_("Bars are as typed, sized by %(by)s. This page has not checked them."),
    "skin_thin": NP_(
        "plaster",
        "%(field)s: all coats together are %(thickness_m)s thick, less than the %(limit)s published for this kind.",
    ),
    "coverage_unasked": N_("%(field)s: how far a litre goes is not typed, so none is counted. Read it on the tin."),
    "mesh_alkali_unasked": NP_(
        "reinforcement",
        "Ask for the mesh's sheet: in cement only alkali-resistant glass lasts (lath of steel is galvanised). After ageing it must keep at least %(kept)s of its strength and "
        "%(strength_n_mm)s (EAD 040083, from memory).",
    ),
    "mesh_alkali_weak": NP_(
        "reinforcement",
        "This mesh keeps too little strength in cement: after ageing at least %(kept)s of it and %(strength_n_mm)s are asked for (EAD 040083, "
        "from memory). Do not use it.",
    ),
    "price_unused": N_("%(item)s has a price, but the job as it is stated takes none."),
    "price_missing": N_("No price or no quantity yet: %(item)s. The total leaves it out."),
    "price_repeated": N_("%(item)s has more than one price. Only the first one counts."),
    "price_unit_unusable": N_("%(item)s is not sold by this unit (%(unit)s), so the total leaves it out."),
    "no_prices": N_("No prices yet. Put in what cement costs where the landowner buys."),
    "permit_unasked": N_("Ask the building department which floor area it counts and where its limit lies, before anyone buys."),
    "permit_over_limit": N_("The area that counts there is %(area_m2)s, over the limit of %(limit)s: a permit is needed."),
    "cement_unstated": N_("The cement's type and class are not known yet. Ask for a photograph of the bag."),
    "cement_slow": N_("This cement gains strength slowly: leave blocks longer in the mould, most of all in the cold."),
    "cement_not_suited": N_("This cement does not suit foamed concrete. See which types serve."),
    "wet_density_outside_published": N_(
        "The wet density %(value)s lies outside the published range of %(low)s to %(high)s."
    ),
    "water_cement_outside_common": N_("The water-cement ratio %(value)s lies outside %(low)s to %(high)s (common practice, no source)."),
    "foam_density_outside_common": N_("Foam of %(value)s lies outside %(low)s to %(high)s (common practice, no source)."),
    "foam_density_outside_common/astm_c796_foam_window": N_(
        "Foam of %(value)s lies outside %(low)s to %(high)s, a window commonly attributed to ASTM C796 (from memory). Windows "
        "disagree: see the foam card."
    ),
    "foam_window_excludes_mix": N_("The recipe counts on foam of %(value)s, but the bucket accepts only %(low)s to %(high)s."),
    "shell_not_checked": N_(
        "Only a first look at stability was taken: own weight alone, no openings, skins, wind, snow or earthquake. Local codes and a "
        "licensed engineer decide whether the shell stands."
    ),
    "not_to_be_built": N_(
        "%(part)s: not to be built until an engineer has sized ties, buttresses or ring. Thickness over radius is %(ratio)s; without "
        "tension this shape needs at least %(limit)s, which is a thickness of %(least_m)s."
    ),
    "not_to_be_built/thrust_line_taper": N_(
        "%(part)s: not to be built until an engineer has sized ties, buttresses or ring. Thickness over radius is %(ratio)s; without "
        "tension this shape needs at least %(limit)s, which is a thickness of %(least_m)s at the springing, and a crown thicker in the same "
        "proportion."
    ),
    "not_to_be_built/thrust_line_none": N_(
        "%(part)s: not to be built until an engineer has sized ties, buttresses or ring. Thickness over radius is %(ratio)s, and no "
        "thickness was found that carries this shape without tension."
    ),
    "not_to_be_built/thrust_stem": N_(
        "%(part)s: not to be built until an engineer has sized ties, buttresses or ring. The vault pushes outward with "
        "%(thrust_kn_m)s, more than its stem walls hold by their weight."
    ),
    "not_to_be_built/thrust_base_weight": N_(
        "%(part)s: not to be built until an engineer has sized ties, buttresses or ring. The vault pushes outward with "
        "%(thrust_kn_m)s, more than its base holds by its weight."
    ),
    "not_to_be_built/wall_wind": N_(
        "%(part)s: not to be built until an engineer has sized ties, buttresses or ring. The gust that was typed, %(gust_m_s)s, topples this "
        "wall while it is fresh (from %(low_m_s)s on), and nobody has said yet what a brace holds."
    ),
    "slender_shell": N_(
        "%(part)s: slender. Thickness over radius is %(ratio)s, less than half of what the classical round shape needs (%(limit)s). Its own "
        "weight would allow it; wind, snow or a person on one side may not. Ask a licensed engineer."
    ),
    "opening_cuts_frame": N_(
        "%(field)s: the opening cuts a post or a ring beam of %(part)s. Whoever sizes them decides; the concrete is counted whole there, and the "
        "foamed concrete too low by as much."
    ),
    "frame_not_designed": N_(
        "%(part)s: sizes and spacing of posts and beams are as typed, and their stirrups are not counted. Nobody has looked at the load: local "
        "codes and a licensed engineer decide."
    ),
    "frame_steel_unsized": N_("%(part)s: no bar of posts and beams is counted: nobody has sized one. Ask a licensed engineer."),
    "frame_steel_incomplete": N_("%(part)s: no bar of posts and beams is counted yet: diameter or number is missing."),
    "frame_steel_placeholder": N_(
        "%(part)s: bars of posts and beams are a placeholder, not sized: they are there for the price and not to be built. A licensed engineer "
        "sizes them."
    ),
    "frame_steel_sized_by_missing": N_(
        "%(part)s: bars of posts and beams are typed, and nobody is named who sized them. Name the person, or call them a placeholder."
    ),
    "frame_steel_typed": N_("%(part)s: bars of posts and beams are as typed, sized by %(by)s. This page has not checked them."),
    "wall_topples": N_(
        "%(part)s: while it is fresh and stands loose, without skin, brace or cross wall, a gust of %(low_m_s)s topples this wall near an end, "
        "and one of %(high_m_s)s anywhere. Brace it on both sides as it goes up, and keep everybody away from its fall in wind."
    ),
    "wall_holds_gust": N_(
        "%(part)s: by its weight alone this wall takes the stated gust of %(gust_m_s)s; it topples from %(low_m_s)s near an end. Wind on a "
        "brace, a sheet or a scaffold tied to it is not in it."
    ),
    "gust_unasked": N_("%(part)s: type the gust to reckon with, and the spacing of braces and a day's height follow."),
    "brace_unasked": N_("%(part)s: ask whoever sizes the braces what one of them holds, and type it: the spacing follows."),
    "fill_feather_edge": N_(
        "%(part)s: at its thin edge the fill is %(least_m)s deep. Below %(limit)s it crumbles (common practice, no source)."
    ),
    "hood_on_passage": N_("%(part)s: a passage to another part has no outside face there, so its hood is not counted."),
    "hood_far": N_(
        "%(part)s: a hood stands out %(projection_m)s and is %(limit)s thick. Nothing but its own strength holds it there: let it stand out no "
        "further than it is thick, or ask whoever sizes bars (common practice, no source)."
    ),
    "hoods_not_checked": N_(
        "%(part)s: hoods are not in the first look (%(number)s). They load the edge of their openings, outside the shell. Cast them in forms, "
        "keyed into the shell behind them, and leave the forms on until they are hard; nobody stands under one before."
    ),
    "pour_heat": NP_(
        "concrete",
        "%(part)s: a thick pour keeps its heat. If none is lost, its cement warms it by %(rise_low_k)s to %(rise_high_k)s. Mass concrete must stay "
        "below %(limit)s (ACI 301-20); near boiling it steams and cracks, and foam may come apart before it sets. Pour in lifts, put a "
        "thermometer into the first one, and go no deeper than it allows.",
    ),
    "pour_peak": NP_(
        "concrete",
        "%(part)s: placed at %(start_c)s, its core would reach %(peak_low_c)s to %(peak_high_c)s if no heat were lost; mass concrete must stay below "
        "%(limit)s (ACI 301-20). From %(boils_c)s on the figure says only that its water boils. Pour in lifts, and put a thermometer into the first.",
    ),
    "pour_start_unasked": NP_("concrete", "%(part)s: type how warm the mix is when it is poured, and the warmest that the core can become follows."),
    "pour_depth_unasked": NP_("concrete", "%(part)s: type the greatest depth of the void, and the number of lifts follows."),
    "ring_to_be_sized": N_(
        "%(part)s: not to be built until an engineer has sized ties, buttresses or ring. The stem wall does not hold the dome's outward thrust "
        "of %(thrust_kn_m)s by its own weight: a ring at the springing must take a tension of %(ring_tension_kn)s, the skins' share on top. "
        "A door that cuts the ring needs the ring to go round it."
    ),
    "springing_needs_ring": N_(
        "%(part)s: the dome pushes outward on its base with %(thrust_kn_m)s. A ring in the base must take a tension of "
        "%(ring_tension_kn)s, the skins' share on top; whoever sizes the ring decides. A door that cuts the ring needs the ring to "
        "go round it."
    ),
    "springing_pushes_base": N_(
        "%(part)s: the vault pushes outward on its base with %(thrust_kn_m)s, the skins' share on top. Footings that are tied to each other, "
        "or buttresses, must hold it; whoever sizes them decides."
    ),
    "springing_held": N_(
        "%(part)s: by its weight the stem holds the outward thrust of %(thrust_kn_m)s one and a half times over, while nothing "
        "cuts it and the ground does not give way."
    ),
    "base_holds_thrust": N_(
        "%(part)s: away from openings the base as typed holds the outward thrust of %(thrust_kn_m)s by its weight, one and a half times over, "
        "even under skins as heavy as the shell, with a friction of 0.4 on the ground (common practice, no source). Wet clay and loose fill hold less."
    ),
    "springing_pushes_base/thrust_base_weight": N_(
        "%(part)s: the vault pushes outward on its base with %(thrust_kn_m)s. Without skins the base as typed holds that by its weight; under skins as "
        "heavy as the shell it does not. A wider base, footings that are tied to each other, or buttresses must hold the rest; whoever sizes "
        "them decides."
    ),
    "springing_cut": N_(
        "%(part)s: doors or windows cut through the springing (%(number)s, together %(cut_m)s of %(whole_m)s). A ring at the springing is cut there "
        "too, and the shell beside the opening must carry more. The ring must go round each of them in one piece; whoever sizes the ring "
        "sizes this as well."
    ),
    "springing_cut/thrust_base": N_(
        "%(part)s: doors or windows cut through the foot of the shell (%(number)s, together %(cut_m)s of %(whole_m)s). A ring in the base runs on "
        "under them, but the shell beside each must carry more, and this look has not seen it. Ask whoever sizes the ring."
    ),
    "springing_cut_vault": N_(
        "%(part)s: doors or windows cut through the springing (%(number)s, together %(cut_m)s of %(whole_m)s). The strip of vault above each has "
        "nothing to stand on: an arch or a lintel must carry it to both sides, and this look has not seen that. Ask whoever sizes the "
        "ties or buttresses."
    ),
    "crown_glass_not_checked": N_(
        "%(part)s: the glass over the crown is not in this look. It presses on the rim with its own weight, its frame, snow, and whoever cleans it."
    ),
    "skins_add_load": N_(
        "The skins weigh %(fraction)s of the fresh foamed concrete of domes and vaults. Thrust and ring tension of the first look grow by "
        "about as much."
    ),
    "openings_not_checked": N_(
        "%(part)s: doors and windows are not in this look (%(number)s). Each weakens the shell around it, most of all where it cuts the springing."
    ),
    "lift_heavy_block": N_("A fresh block weighs %(mass_kg)s. HSE INDG143 asks for a closer look above %(men_kg)s (men) or %(women_kg)s (women) in the "
        "best posture (from memory). Use a smaller mould, two people or a hoist."
    ),
    "cutting_more_than_stated": N_(
        "Sawing the blocks to shape takes %(fraction)s of what stands in the wall; the share that you typed for it is %(limit)s, and only so much "
        "is mixed for it: bags may run short. Leave the share empty, and it is counted from the lay plan."
    ),
    "piece_over_mould": NP_(
        "masonry", "%(part)s: a block of course %(course)s is %(height_m)s high, more than the mould holds (%(limit)s). Cast it in a form of its own."
    ),
    "lift_heavy_bag": NP_(
        "raising by hand",
        "A bag of %(mass_kg)s is more than one person should lift: NIOSH 94-110 stops at %(load_constant_kg)s in the best posture. "
        "Carry it with two people or a barrow."
    ),
    "full_drum_not_lifted": NP_("raising by hand", "A full drum is never lifted: its contents alone weigh %(mass_kg)s."),
    "parts_overlap": N_(
        "%(first)s and %(second)s stand in each other's place, and no opening leads from the one to the other. The doubled material is counted "
        "twice: let an opening lead there, or move them apart."
    ),
    "joint_not_checked": N_(
        "%(part)s is joined to %(to)s. The first look at stability takes each part as if it stood alone and whole: shells that are cut open there no longer "
        "hold themselves as rings. A licensed engineer must size the arch of the passage and what takes the thrust."
    ),
    "neck_long": N_(
        "The neck from %(part)s to %(to)s is %(gap_m)s long. Beyond %(limit)s it is better stated as a vault of its own, so that its blocks and its "
        "thrust are looked at."
    ),
    "drum_marks_missing": N_("Mark the drum with water first: at least two marks are needed."),
    "drum_marks_beyond": N_("The batch stands above or below the marks that you made. Add a mark beyond it."),
    "headroom_none": N_("Nowhere is the ceiling %(limit)s high."),
    "opening_near_crown": N_("%(field)s: the opening reaches %(top_m)s high, where the dome has grown narrow and little shell is left above."),
}

CATALOG_FAULTS: Final[dict[str, Message]] = {
    "too_large": N_("This file is too large to be a catalog."),
    "not_a_catalog": N_("Line %(line)s: this is not a catalog of translations, or it is damaged there."),
    "language_missing": N_("The catalog does not say its language."),
    "plural_rule": N_("The catalog's rule for plurals cannot be read."),
    "plural_count": N_("Line %(line)s: the number of plural forms differs from the catalog's rule. The source text is shown."),
    "placeholder_mismatch": N_("Line %(line)s: the places to be filled differ from those of the source text, which is shown."),
}

#: How a value inside a note is shown, by its name; what is not here is shown as text or as a number.
_PARAM_KINDS: Final[dict[str, str]] = {
    "yield_l": "liquid",
    "stated_kg": "mass",
    "site_kg": "mass",
    "cement_kg": "mass",
    "mass_kg": "mass",
    "men_kg": "mass",
    "women_kg": "mass",
    "load_constant_kg": "mass",
    "bags_low": "count",
    "bags_high": "count",
    "area_m2": "area",
    "top_m": "length",
    "ratio": "ratio4",
    "least_m": "length_small",
    "cut_m": "length",
    "whole_m": "length",
    "thrust_kn_m": "line_load",
    "ring_tension_kn": "force",
    "number": "count",
    "low_m_s": "speed",
    "high_m_s": "speed",
    "gust_m_s": "speed",
    "depth_m": "length",
    "width_m": "length_small",
    "thickness_m": "length_coat",
    "strength_n_mm": "line_strength",
    "kept": "fraction",
    "fraction": "fraction",
    "course": "count",
    "projection_m": "length_small",
    "rise_low_k": "temperature_step",
    "rise_high_k": "temperature_step",
    "start_c": "temperature",
    "peak_low_c": "temperature",
    "peak_high_c": "temperature",
    "boils_c": "temperature",
}
#: The same where one name has another kind in some notes.
_NOTE_KINDS: Final[dict[str, str]] = {
    "fill_feather_edge": "length_small",
    "hood_far": "length_small",
    "pour_heat": "temperature",
    "pour_peak": "temperature",
    "batch_does_not_fit": "liquid",
    "no_fraction_fits": "liquid",
    "permit_over_limit": "area",
    "wet_density_outside_published": "density",
    "water_cement_outside_common": "ratio",
    "foam_density_outside_common": "foam_density",
    "foam_window_excludes_mix": "foam_density",
    "not_to_be_built": "ratio4",
    "slender_shell": "ratio4",
    "headroom_none": "length",
    "parts_overlap": "length",
    "neck_long": "length",
    "trench_above_frost": "length",
    "beam_narrow": "length_small",
    "trench_narrow": "length_small",
    "skin_thin": "length_coat",
    "cutting_more_than_stated": "fraction",
    "piece_over_mould": "length_small",
}
_SEVERITY: Final[dict[str, Message]] = {
    "info": N_("Good to know"),
    "caution": N_("Look at this"),
    "warning": N_("Warning"),
}


#: How values of a problem are shown whose path leads to a corner, or to another field than the value's.
_PROBLEM_KINDS: Final[dict[str, str]] = {
    "plan_side_short": "length",
    "wall_side_short": "length",
    "wall_corner_sharp": "angle",
}


def _shown(desk: Desk, path: str, value: Any, kind: str | None = None) -> str:
    """A value or limit as the reader would type it."""
    if value is None:
        return ""
    if isinstance(value, bool) or not isinstance(value, int | float):
        words = CHOICES.get(pattern(path), {}).get(str(value))
        return desk.say(words) if words else str(value)
    found = desk.field_text(path)
    kind = kind or (found.kind if found else "")
    if kind == "money":
        return desk.s.number(float(value), decimals=2)
    if kind in ("", "count", "ratio"):
        return desk.s.number(float(value), significant=6, trim=True)
    return desk.s.quantity(float(value), kind, significant=4, trim=True)


def problem_text(desk: Desk, problem: Problem, *, named: bool = True) -> str:
    """Return a problem as one sentence that names field, value and limit, and the part where there are several."""
    words = PROBLEMS[problem.code]
    name = str(problem.params.get("part") or "") if len(desk.project.parts) > 1 else ""
    # Where the sentence has a place for the part, the field need not name it too.
    label = "" if name and (not named or "%(part)s" in words.text) else name or None
    return desk.say(
        words,
        field=desk.label(problem.path, label),
        path=problem.path,
        value=_shown(desk, problem.path, problem.value, _PROBLEM_KINDS.get(problem.code)),
        limit=_shown(desk, problem.path, problem.limit, _PROBLEM_KINDS.get(problem.code)),
        part=str(problem.params.get("part") or ""),
        to=str(problem.params.get("to") or ""),
        **{name: desk.s.whole(int(problem.params.get(name) or 0)) for name in ("side", "other", "corner")},
    )


#: Said wherever something is added up, so that nobody buys too little.
_LEFT_OUT: Final = N_("Without %(part)s, which cannot be built as stated: %(why)s")


def without(desk: Desk) -> str:
    """Return the sentence that names the parts which the estimate leaves out; nothing where it is whole."""
    names = [desk.s.isolate(part) for part in desk.outcome.left_out]
    return desk.s._("Without %(parts)s, which cannot be built as stated.", parts=desk.s.list_join(names)) if names else ""


def left_out_lines(desk: Desk) -> list[tuple[str, str]]:
    """Return for each part that the estimate leaves out the path of its fault, and a sentence that says so."""
    found = []
    for part in desk.outcome.left_out:
        faults = [problem for problem in desk.outcome.problems if problem.params.get("part") == part]
        told = " ".join(problem_text(desk, problem, named=False) for problem in faults)
        found.append((faults[0].path, desk.say(_LEFT_OUT, part=part, why=told)))
    return found


def left_out_items(desk: Desk) -> list[dict[str, Any]]:
    """Return the same as items of a block of notes."""
    word = desk.say(_SEVERITY["warning"])
    return [{"severity": "warning", "word": word, "text": text, "path": path} for path, text in left_out_lines(desk)]


def problem_block(desk: Desk, problem: Problem) -> dict[str, str]:
    """Return a problem as the page shows it in its summary and beside its field."""
    return {
        "path": problem.path,
        "label": desk.label(problem.path),
        "text": problem_text(desk, problem),
        "code": problem.code,
    }


def note_text(desk: Desk, note: Note) -> str:
    """Return a note in words, its values in the reader's units."""
    params: dict[str, str] = {"field": desk.label(note.path) if note.path else ""}
    for name, value in note.params.items():
        if isinstance(value, int | float):
            kind = _PARAM_KINDS.get(name) or _NOTE_KINDS.get(note.code, "ratio")
            params[name] = desk.show(kind, float(value))
        else:
            params[name] = "" if value is None else str(value)
    parts = desk.project.parts
    if len(parts) == 1 and params.get("part") == Part().id:
        # A part that nobody has named is called what it is.
        params["part"] = desk.say(CHOICES["parts[].shape"][parts[0].shape])
    if note.code == "batch_does_not_fit":
        whole, number = note.params["bags"], note.params["batches"]
        share = CHOICES["batch.bags_each"]["1" if number == 1 else f"{whole}/{number}"]
        params["fits"] = desk.say(share)
    if "item" in note.params:
        item = CHOICES["market.prices[].item"][str(note.params["item"])]
        params["item"] = str(note.params.get("label") or "") or desk.say(item)
    if "unit" in note.params:
        params["unit"] = desk.say(CHOICES["market.prices[].unit"][str(note.params["unit"])])
    return desk.say(NOTES.get(f"{note.code}/{note.source}", NOTES[note.code]), **params)


def notes_block(desk: Desk, notes: tuple[Note, ...]) -> dict[str, Any]:
    """Return notes as a block, the gravest first."""
    order = {"warning": 0, "caution": 1, "info": 2}
    items = [
        {
            "severity": note.severity,
            "word": desk.say(_SEVERITY[note.severity]),
            "text": note_text(desk, note),
            "path": note.path,
        }
        for note in sorted(notes, key=lambda note: order[note.severity])
    ]
    return {"kind": "notes", "items": items}


__all__ = ["NOTES", "PROBLEMS", "note_text", "notes_block", "pattern", "problem_block", "problem_text", "without"]
