"""The words of the diary: causes, signs, tests, verdicts, and what is asked about a strange reading."""

from collections.abc import Mapping
from typing import Final

from foamwright.reader import NP_, Message, N_

CONTROLS: Final[dict[str, Message]] = {"air": NP_("foam generator", "air"), "liquid": NP_("foam generator", "liquid")}
REASONS: Final[dict[str, Message]] = {
    "window": N_("the last reading lies outside the window"),
    "test_0": N_("a jump between two readings"),
    "test_1": N_("one reading far beyond the usual spread"),
    "test_2": N_("nine readings on one side of the mean"),
    "test_3": N_("six readings that only rise or only fall"),
    "test_4": N_("fourteen readings up and down in turn"),
    "test_5": N_("two of three readings near the same limit"),
    "test_6": N_("four of five readings off to the same side"),
}
#: What is counted where there is too little to learn from.
COUNTED: Final[dict[str, Message]] = {
    "batches": N_("batches"),
    "blocks": NP_("moulded", "blocks"),
    "yields": NP_("concrete", "batches with cement and yield written down"),
    "foam": N_("foam readings"),
    "sound_blocks": N_("sound blocks"),
}
SYMPTOMS: Final[dict[str, Message]] = {
    "sinks": N_("It sinks after it was poured"),
    "splits": N_("It splits or cracks"),
    "hot_core": N_("Its middle is hot"),
    "weak_core": N_("Its middle is weak"),
    "crumbly": N_("It crumbles"),
    "wet_foam": N_("The foam looks wet"),
    "floats": N_("Foam floats on the slurry"),
}
CAUSES: Final[dict[str, Message]] = {
    "foam_too_wet": N_("Foam too wet"),
    "foam_too_dry": N_("Foam too dry"),
    "agent_bad": N_("Foaming agent gone bad"),
    "agent_overdiluted": N_("Too little agent in the water"),
    "hard_water": N_("Minerals in the water"),
    "cold": N_("Cold"),
    "too_much_foam": N_("Too much foam"),
    "too_little_foam": N_("Too little foam"),
    "slurry_too_thin": N_("Slurry too thin"),
    "slurry_too_stiff": N_("Slurry too stiff"),
    "waited_too_long": N_("Waited too long before pouring"),
    "not_folded_in": N_("Foam not folded in"),
    "core_too_hot": N_("Middle too hot"),
    "dried_too_fast": N_("Dried too fast"),
    "touched_too_early": N_("Touched too early"),
    "cement_poor": N_("Poor cement"),
}
ABOUT: Final[dict[str, Message]] = {
    "quality": NP_("cause", "The foam itself"),
    "quantity": NP_("cause", "How much foam went in"),
    "mix": NP_("cause", "Water and cement"),
    "temperature": NP_("cause", "Temperature"),
    "handling": NP_("cause", "Handling"),
    "curing": NP_("cause", "Curing"),
}
CERTAINTIES: Final[dict[str, Message]] = {
    "strong": NP_("certainty", "likely"),
    "fair": NP_("certainty", "possible"),
    "weak": NP_("certainty", "a guess"),
    "against": NP_("certainty", "unlikely"),
}
#: The signs that are measured.
READINGS: Final[dict[str, Message]] = {
    "foam_density_ratio": N_("Weight of the foam over the weight aimed at"),
    "drain_quarter_minutes": N_("Minutes until a quarter drained"),
    "drain_soft_ratio": N_("How many times longer foam stands with soft water"),
    "agent_dilution_ratio": N_("Dilution over the dilution wanted"),
    "agent_age_months": N_("Age of the agent in months"),
    "water_hardness_mg_l": N_("Hardness of the water in mg/L"),
    "mix_temperature_c": N_("Temperature of the mix"),
    "night_low_c": N_("Lowest temperature of the night"),
    "wet_density_ratio": N_("Wet density over the one wanted"),
    "foam_volume_ratio": N_("Foam that went in over the foam wanted"),
    "water_cement_ratio": N_("Water over cement"),
    "minutes_foam_to_pour": N_("Minutes from foam to pouring"),
    "fold_minutes": N_("Minutes of folding in"),
    "height_lost_fraction": N_("Height lost in an hour"),
    "core_rise_k": N_("How far the middle is warmer than the air"),
    "thickness_m": NP_("concrete", "Thickness"),
    "humidity_fraction": N_("Relative humidity"),
    "wind_m_s": N_("Wind"),
    "air_temperature_c": N_("Temperature of the air"),
    "demould_hours": N_("Hours in the mould"),
    "cement_age_months": N_("Age of the cement in months"),
    "strength_ratio": N_("Strength over the one expected"),
}
READING_KINDS: Final[Mapping[str, str]] = {
    "mix_temperature_c": "temperature", "night_low_c": "temperature", "air_temperature_c": "temperature",
    "core_rise_k": "temperature_step", "thickness_m": "length_small", "wind_m_s": "speed", "demould_hours": "hours",
    "height_lost_fraction": "fraction", "humidity_fraction": "fraction",
}  # fmt: skip
TESTS: Final[dict[str, Message]] = {
    "": N_("Nothing is left that would tell."),
    "weigh_foam": N_("Weigh a bucket of foam."),
    "drain_foam": N_("Let a litre of foam stand, and note when a quarter has drained."),
    "drain_with_soft_water": N_("Let foam made with bottled soft water stand, and compare."),
    "measure_dilution": N_("Measure a dilution out anew."),
    "read_label": N_("Read the date on the container of agent."),
    "dip_strip": N_("Dip a hardness strip into the water."),
    "thermometer_in_mix": N_("Hold a thermometer in the mix."),
    "thermometer_overnight": N_("Leave a thermometer out overnight."),
    "weigh_batch": N_("Weigh a bucket of the fresh foamed concrete."),
    "time_output": N_("Take the time in which the generator fills a known drum."),
    "weigh_water_and_cement": N_("Weigh the water and the cement of a batch."),
    "watch_the_clock": N_("Take the time of folding in and pouring."),
    "measure_height": N_("Measure the height when filled, and an hour later."),
    "thermometer_in_core": N_("Put a thermometer into the middle."),
    "measure_thickness": N_("Measure how thick it is."),
    "read_hygrometer": N_("Read a hygrometer."),
    "judge_wind": N_("Judge the wind."),
    "thermometer_in_shade": N_("Hang a thermometer in the shade."),
    "read_diary": N_("Look in the diary when it came out of the mould."),
    "read_bag_date": N_("Read the date on a bag of cement."),
    "crush_cubes": N_("Have cubes crushed."),
}
#: What a reading may have been that looks like a slip.
SLIPS: Final[dict[str, Message]] = {
    "gross_below_empty": N_("The full bucket weighs no more than the empty one. Were the two swapped?"),
    "scale_in_ounces": NP_("weighing", "Does the scale show ounces?"),
    "scale_in_pounds": NP_("weighing", "Does the scale show pounds?"),
    "scale_in_kilograms": NP_("weighing", "Does the scale show kilograms?"),
    "scale_in_grams": NP_("weighing", "Does the scale show grams?"),
    "typed_ten_times": N_("Is it typed ten times too large?"),
    "typed_a_tenth": N_("Is it typed ten times too small?"),
    "net_typed_as_gross": N_("Is this the weight without the bucket?"),
    "other_bucket": N_("Is this another bucket?"),
    "reading_far_off": NP_("weighing", "This is far from what is wanted. Look at the scale and the number again."),
}
BASES: Final[dict[str, Message]] = {
    "agent_ages": N_("an old agent foams worse"), "agent_is_fresh": N_("the agent is fresh"),
    "as_strong_as_meant": N_("it is as strong as meant"), "binds_badly": N_("it binds badly"),
    "bubbles_break": N_("bubbles break"), "cement_fresh": N_("the cement is fresh"), "cement_settles": N_("cement settles"),
    "cement_takes_up_damp": N_("old cement takes up damp"), "cold_needs_longer": N_("in the cold it needs longer"),
    "cold_night": N_("a cold night"), "cool_air": N_("the air is cool"), "core_far_above_the_air": N_("the middle is far warmer than the air"),
    "core_grows_and_face_does_not": N_("the middle grows and the face does not"), "core_near_the_air": N_("the middle is about as warm as the air"),
    "core_was_warm": N_("the middle was warm"), "damp_air": N_("the air is damp"), "dilution_explains_it": N_("the dilution explains it"),
    "dilution_right": N_("the dilution is right"), "dry_air": N_("the air is dry"), "dry_foam_takes_up_badly": N_("dry foam is taken up badly"),
    "dry_slurry_breaks_foam": N_("dry slurry breaks foam"), "edges_break": N_("edges break"),
    "face_dried_before_it_hardened": N_("the face dried before it hardened"), "felt_hot": N_("it felt hot"), "foam_ages": N_("foam ages"),
    "foam_as_meant_or_less": N_("there was as much foam as meant, or less"), "foam_as_meant_or_more": N_("there was as much foam as meant, or more"),
    "foam_breaks_before_setting": N_("foam breaks before the cement sets"), "foam_does_not_stand": N_("the foam does not stand"),
    "foam_drained_standing": N_("the foam drained while it stood"), "foam_drains_in_the_mix": N_("wet foam drains in the mix"),
    "foam_gives_way_before_setting": N_("foam gives way before the cement sets"), "foam_is_heavy": NP_("weight", "the foam is heavy"),
    "foam_is_light": NP_("weight", "the foam is light"), "foam_is_not_taken_up": N_("the foam is not taken up"),
    "foam_lets_its_water_go": N_("the foam lets its water go"), "foam_lies_on_top": N_("foam lies on top"),
    "foam_rises_on_thin_slurry": N_("foam rises on thin slurry"), "foam_stands": N_("the foam stands"),
    "foam_stands_and_still_it_sinks": N_("the foam stands, and still it sinks"), "foam_was_lost": N_("foam was lost"),
    "folded_long_enough": N_("it was folded long enough"), "folded_too_short": N_("it was folded too short"), "handled_green": N_("it was handled while green"),
    "hard_by_class": NP_("water", "hard by its class"), "hard_water_explains_it": N_("hard water explains it"), "heat_explains_it": N_("the heat explains it"),
    "heavier_foam_carries_more_water": N_("heavier foam carries more water"), "heavier_than_meant": N_("it is heavier than meant"),
    "heavy_is_strong": N_("heavy concrete is strong"), "hot_air": N_("the air is hot"), "less_cement_in_a_litre": N_("there is less cement in a litre"),
    "less_foam_than_meant": N_("there was less foam than meant"), "lighter_than_meant": NP_("weight", "it is lighter than meant"),
    "long_enough_in_the_mould": N_("it was long enough in the mould"), "long_folding_breaks_foam": N_("long folding breaks foam"),
    "mild_night": N_("a mild night"), "minerals_break_foam": N_("minerals break foam"), "moderate_by_class": NP_("water", "moderately hard by its class"),
    "more_cement_in_a_litre": N_("there is more cement in a litre"), "more_foam_than_meant": N_("there was more foam than meant"),
    "much_water": N_("there is much water"), "nothing_sank": N_("nothing sank"), "out_of_the_mould_too_soon": N_("it left the mould too soon"),
    "poured_at_once": N_("it was poured at once"), "seen_wet": N_("the foam was seen to be wet"),
    "sets_at_six_tenths_of_the_rate_or_less": N_("so cold it sets at six tenths of the usual rate or less"), "sets_late": N_("it sets late"),
    "sets_slower": N_("it sets more slowly"), "shrinkage_cracks": N_("it cracks as it shrinks"),
    "slurry_draws_water_from_the_foam": N_("the slurry draws water from the foam"), "soft_by_class": NP_("water", "soft by its class"),
    "soft_water_changes_nothing": N_("soft water changes nothing"), "soft_water_mends_it": N_("soft water mends it"), "still_air": N_("the air is still"),
    "streaks": N_("streaks show"), "strength_comes_late": N_("strength comes late"), "thick": NP_("concrete", "it is thick"), "thin": NP_("concrete", "it is thin"),
    "thin_films_break_in_mixing": N_("thin films break in mixing"), "too_little_agent_in_the_water": N_("there is too little agent in the water"),
    "very_hard_by_class": NP_("water", "very hard by its class"), "volume_was_there_and_went": N_("the volume was there and went"),
    "walls_of_cells_too_thin": N_("the walls of its cells are too thin"), "warm_air_leaves": N_("warm air leaves it"), "warm_enough": N_("it is warm enough"),
    "water_does_not_explain_it": N_("the water does not explain it"), "water_enough": N_("there is enough water"), "water_not_much": N_("there is not much water"),
    "water_of_the_foam_weakens": N_("water of the foam weakens it"), "water_shrinks": N_("much water shrinks"), "water_weakens": N_("water weakens it"),
    "weak_at_the_right_weight": N_("it is weak at the right weight"), "weaker_than_meant": N_("it is weaker than meant"),
    "weight_in_window": N_("the weight lies in the window"), "weight_right_and_yet_it_fails": N_("the weight is right, and yet it fails"),
    "wet_density_right": N_("the wet density is right"), "wet_foam_drains_sooner": N_("wet foam drains sooner"), "wind_dries": N_("wind dries"),
}  # fmt: skip
#: Texts that stand for codes inside notes of the diary: code of the note -> name -> code -> words.
SAID: Final[Mapping[str, Mapping[str, Mapping[str, Message]]]] = {
    **{code: {"control": CONTROLS} for code in (
        "generator_no_effect", "generator_contrary", "generator_step_limited", "generator_setting_out_of_reach")},
    "chart_stop": {"reason": REASONS},
    "plan_too_few": {"what": COUNTED},
    "cause_close": {"first": CAUSES, "second": CAUSES, "test": TESTS},
}  # fmt: skip
