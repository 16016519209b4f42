"""Every code that a Problem or a Note may carry, in one place.

A code is a promise to translators and to anyone who reads the JSON: add freely, do not rename.
"""

from typing import Final

#: Why a value, a file or a link could not be taken (Problem.code).
PROBLEM_CODES: Final[frozenset[str]] = frozenset(
    {
        # the file or link as a whole
        "not_text",  # not Unicode text (a lone surrogate, bytes that are no UTF-8)
        "not_json",  # not JSON at all
        "not_object",  # JSON, but not an object
        "too_large",  # longer than the limit
        "too_deep",  # nested deeper than the limit
        "format_missing",
        "format_newer",  # made by a newer Foamwright
        "format_unknown",
        "code_damaged",  # a link code whose checksum does not fit
        "code_foreign",  # not one of our codes
        "code_newer",
        "file_unreadable",  # no such file, or not ours to open
        "more_problems",  # counts those that are not listed
        # one field
        "unknown_key",
        "duplicate_key",
        "wrong_kind",  # a text where a number belongs, and the like
        "not_finite",
        "too_small",
        "too_big",
        "not_a_choice",
        "not_whole",
        "text_too_long",
        "text_unprintable",  # control characters, lone surrogates
        "too_many",
        "too_few",
        "missing",
        "duplicate_id",
        # numbers as people type them
        "number_empty",
        "number_unreadable",
        "number_ambiguous",
        # things that do not go together
        "opening_too_high",
        "arch_head_too_low",  # an arched opening lower than its own semicircular head
        "opening_too_wide",
        "openings_overlap",
        "opening_below_floor",
        "openings_too_many",
        "opening_in_open_end",  # an end wall that is not there
        "opening_beyond_wall",  # its place along a wall of a vault
        "hood_beyond_face",  # the face ends under a collar
        "hood_no_room",  # a collar meets another opening or its collar
        "plan_too_few",  # corners that make no wall
        "plan_open",  # an open run where an area is filled
        "plan_side_short",
        "plan_crosses_itself",
        "wall_side_short",  # shorter than its corners take at this thickness
        "wall_corner_sharp",
        "wall_meets_itself",  # for its thickness
        "side_missing",  # a wall has no side of that number
        "passage_to_nowhere",  # it names no dome, vault or wall of the project
        "passage_misses",
        "passage_too_wide",  # for what it leads to
        "passage_too_high",
        "beams_too_high",
        "posts_too_wide",
        "rise_too_high",
        "rise_too_low",
        "crown_sinks",
        "crown_thicker_than_foot",
        "crown_opening_too_wide",
        "mix_underdetermined",
        "mix_contradiction",
        "mix_impossible",
        "bucket_window_order",
        "drum_marks_order",
        "drum_shape_incomplete",
        "lap_too_long",  # a lap of bars as long as a bar
        "lap_too_wide",  # a lap of mesh that leaves nothing of the roll
        "currency_unknown",
        "date_unreadable",
        "unknown_call",
        "engine_fault",
        # diary
        "gross_below_empty",
        "drain_not_rising",
        "drain_more_than_liquid",
        "entry_id_unreadable",
        "csv_separator",
        "csv_damaged",
    }
)

#: What the estimate wants said beside its figures (Note.code).
NOTE_CODES: Final[frozenset[str]] = frozenset(
    {
        "batch_does_not_fit",
        "no_fraction_fits",
        "stated_batch_differs",
        "last_batch_is_part",
        "foamed_concrete_only",
        "base_unstated",
        "skins_unstated",
        "footing_not_designed",
        "frost_depth_unasked",
        "trench_above_frost",
        "beam_narrow",
        "trench_narrow",
        "steel_unsized",
        "steel_incomplete",
        "steel_placeholder",
        "steel_sized_by_missing",
        "steel_typed",
        "skin_thin",
        "coverage_unasked",
        "mesh_alkali_weak",
        "mesh_alkali_unasked",
        "price_unused",
        "price_missing",
        "price_unit_unusable",
        "no_prices",
        "permit_unasked",
        "permit_over_limit",
        "cement_unstated",
        "cement_slow",
        "cement_not_suited",
        "wet_density_outside_published",
        "water_cement_outside_common",
        "foam_density_outside_common",
        "foam_window_excludes_mix",
        "shell_not_checked",
        "lift_heavy_block",
        "cutting_more_than_stated",
        "piece_over_mould",  # a crown plug, a rim or a springer that no mould holds
        "full_drum_not_lifted",
        "drum_marks_missing",
        "drum_marks_beyond",
        "headroom_none",
        "opening_near_crown",
        "parts_overlap",
        "joint_not_checked",
        "neck_long",
        "price_repeated",
        "lift_heavy_bag",
        "not_to_be_built",
        "slender_shell",
        "springing_held",
        "springing_needs_ring",
        "ring_to_be_sized",
        "springing_pushes_base",
        "base_holds_thrust",
        "springing_cut",
        "springing_cut_vault",
        "crown_glass_not_checked",
        "skins_add_load",
        "openings_not_checked",
        "opening_cuts_frame",
        "frame_not_designed",
        "frame_steel_unsized",
        "frame_steel_incomplete",
        "frame_steel_placeholder",
        "frame_steel_sized_by_missing",
        "frame_steel_typed",
        "wall_topples",
        "wall_holds_gust",
        "gust_unasked",
        "brace_unasked",
        "fill_feather_edge",
        "hood_on_passage",
        "hood_far",
        "hoods_not_checked",
        "pour_heat",
        "pour_peak",
        "pour_start_unasked",
        "pour_depth_unasked",
        # blend
        "sand_in_light_mix",
        "accelerator_chloride",
        "addition_water_covers",
        "additions_not_published",
        # expect and wish
        "expect_outside_published",
        "trade_r_value",
        "made_for_dense_concrete",
        "no_published_row_reaches",
        # check
        "bucket_cannot_tell",
        "reading_doubtful",
        "batch_height_falling",
        "foam_failed",
        "batch_too_late",
        "correction_out_of_reach",
        "take_out_first",
        "slurry_cures_no_foam",
        "correction_large",
        # temper
        "ice_needed",
        "water_too_hot",
        "mix_hot",
        "mix_cold",
        "air_cold",
        "night_freezes",
        "evaporation_high",
        "temperature_outside_range",
        "hardness_classes_differ",
        # strength
        "seven_days_differ",
        "characteristic_not_positive",
        "few_specimens",
        "specimen_shape_unconverted",
        # core
        "core_hot",
        "heat_from_memory",
        # drying
        "drying_rough",
        # diary
        "water_temperature_outside",  # of the density formula; the nearest end was taken
        "scale_too_coarse",
        "foam_cannot_tell",
        "foam_below_window",
        "foam_above_window",
        "generator_settings_too_few",
        "generator_settings_together",
        "generator_no_effect",
        "generator_contrary",
        "generator_step_limited",
        "generator_setting_out_of_reach",
        "chart_too_few",
        "chart_stop",
        "chart_look",
        "chart_no_spread",
        "drain_not_reached",
        "drain_soon",
        "drain_worse_than_own",
        "diary_conflict",
        "undo_without_target",
        "undo_in_circle",
        "plan_too_few",
        "plan_yield_not_given",
        "plan_beyond_limit",
        "plan_days_unknown",
        "cause_nothing_recorded",
        "cause_no_reading",
        "cause_close",
    }
)
