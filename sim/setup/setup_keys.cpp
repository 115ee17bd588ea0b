#include "sim/setup/setup_keys.h"

#include <array>

namespace firstoff {

namespace {

using Form = SetupKey::Form;
constexpr auto kOptional = SetupKey::Need::Optional;
constexpr auto kRequired = SetupKey::Need::Required;

constexpr double kSmallest = 0.01;  // mm; a size of nothing is no size
constexpr double kLongest = 10000;  // mm

// The first is what stands above all tables.
constexpr auto kTables = std::to_array<std::string_view>(
    {"",          "machine",        "spindle",     "times",   "turret",    "chuck",
     "tailstock", "second_spindle", "steady_rest", "body",    "stock",     "work_offsets",
     "tool",      "offset",         "m_codes",     "control", "near_miss", "overrides",
     "feed_hold", "drawing",        "dimension",   "material"});

constexpr SetupKey kKeys[] = {
    {"", "machine_file", Form::Text},

    {"machine", "name", Form::Text},
    {"machine", "home_x_mm", Form::Number, kRequired, 0, kLongest, 400},
    {"machine", "home_z_mm", Form::Number, kRequired, 0, kLongest, 500},
    {"machine", "second_reference_x_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"machine", "second_reference_z_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"machine", "third_reference_x_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"machine", "third_reference_z_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"machine", "fourth_reference_x_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"machine", "fourth_reference_z_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"machine", "travel_x_mm", Form::Range, kRequired, -kLongest, kLongest},
    {"machine", "travel_z_mm", Form::Range, kRequired, -kLongest, kLongest},
    {"machine", "rapid_x_mm_per_min", Form::Number, kRequired, 1, 200000, 10000},
    {"machine", "rapid_z_mm_per_min", Form::Number, kRequired, 1, 200000, 10000},
    {"machine", "rapid", Form::Choice, kOptional, 0, 0, 0, "per-axis|straight"},
    {"machine", "max_feed_mm_per_min", Form::Number, kRequired, 1, 200000, 5000},
    {"machine", "max_rev_per_min", Form::Number, kRequired, 1, 100000, 3000},
    {"machine", "index_time_s", Form::Number, kRequired, 0, 600, 1},
    {"machine", "stations", Form::Whole, kRequired, 1, 99, 12},
    {"machine", "turret_diameter_mm", Form::Number, kOptional, 1, kLongest, 300},  // see readTurret
    {"machine", "turret_thickness_mm", Form::Number, kRequired, 1, kLongest, 80},
    {"machine", "acceleration_x_m_per_s2", Form::Number, kOptional, 0.01, 200, 0},
    {"machine", "acceleration_z_m_per_s2", Form::Number, kOptional, 0.01, 200, 0},
    {"machine", "jerk_x_m_per_s3", Form::Number, kOptional, 0.1, 100000, 0},
    {"machine", "jerk_z_m_per_s3", Form::Number, kOptional, 0.1, 100000, 0},
    {"machine", "block_end", Form::Choice, kOptional, 0, 0, 0, "flowing|exact-stop"},
    {"machine", "corner_jump_x_mm_per_min", Form::Number, kOptional, 0, 50000, 0},
    {"machine", "corner_jump_z_mm_per_min", Form::Number, kOptional, 0, 50000, 0},
    {"machine", "look_ahead_blocks", Form::Whole, kOptional, 1, 1e6, 0},

    {"spindle", "power_kw", Form::Number, kOptional, 0.01, 1000, 0},
    {"spindle", "efficiency", Form::Number, kOptional, 0.1, 1, 0},
    {"spindle", "curve_rev_per_min", Form::List, kOptional, 0, 100000},
    {"spindle", "curve_torque_nm", Form::List, kOptional, 0.01, 1e6},
    {"spindle", "inertia_kg_m2", Form::Number, kOptional, 1e-5, 1000, 0},
    {"spindle", "run_up_s", Form::Number, kOptional, 0.01, 600, 0},
    {"spindle", "waits_for_speed", Form::Flag},

    {"times", "chuck_s", Form::Number, kOptional, 0, 3600, 0},
    {"times", "tailstock_s", Form::Number, kOptional, 0, 3600, 0},
    {"times", "coolant_s", Form::Number, kOptional, 0, 3600, 0},
    {"times", "m_code_s", Form::Number, kOptional, 0, 3600, 0},
    {"times", "next_station_s", Form::Number, kOptional, 0, 600, 0},
    {"times", "change_part_s", Form::Number, kOptional, 0, 86400, 0},

    {"turret", "kind", Form::Choice, kRequired, 0, 0, 0, "disc|gang"},
    {"turret", "face_z_mm", Form::Number, kRequired, -kLongest, kLongest, 0},
    {"turret", "axis_x_mm", Form::Number, kRequired, kSmallest, kLongest, 0, {}, "d"},
    {"turret", "index", Form::Choice, kOptional, 0, 0, 0, "shortest|rising", "d"},
    {"turret", "head_diameter_mm", Form::Number, kOptional, 1, kLongest, 0, {}, "d"},
    {"turret", "head_length_mm", Form::Number, kOptional, 1, kLongest, 0, {}, "d"},
    {"turret", "plate_x_mm", Form::Range, kRequired, -kLongest, kLongest, 0, {}, "g"},
    {"turret", "plate_y_mm", Form::Range, kRequired, -kLongest, kLongest, 0, {}, "g"},
    {"turret", "block_z_mm", Form::Range, kOptional, -kLongest, kLongest},
    {"turret", "block_width_mm", Form::Number, kOptional, 1, 2000, 0},

    {"chuck", "body_diameter_mm", Form::Number, kRequired, 1, kLongest, 200},
    {"chuck", "body_length_mm", Form::Number, kRequired, 1, kLongest, 80},
    {"chuck", "kind", Form::Choice, kOptional, 0, 0, 0, "jaws|collet"},
    {"chuck", "jaws", Form::Whole, kOptional, 2, 8, 3, {}, "j"},
    {"chuck", "jaw", Form::Choice, kOptional, 0, 0, 0, "hard|soft|stepped", "j"},
    {"chuck", "grip", Form::Choice, kOptional, 0, 0, 0, "outside|inside", "j"},
    {"chuck", "grip_length_mm", Form::Number, kOptional, kSmallest, 1000, 0},
    {"chuck", "jaw_length_mm", Form::Number, kRequired, 0, kLongest, 30},
    {"chuck", "jaw_outer_diameter_mm", Form::Number, kRequired, 1, kLongest, 200},
    {"chuck", "jaw_width_mm", Form::Number, kOptional, 1, 1000, 30, {}, "j"},
    {"chuck", "step_diameters_mm", Form::List, kOptional, kSmallest, kLongest, 0, {}, "j"},
    {"chuck", "step_lengths_mm", Form::List, kOptional, kSmallest, kLongest, 0, {}, "j"},
    {"chuck", "through_bore_mm", Form::Number, kOptional, 0, kLongest, 0},
    {"chuck", "max_rev_per_min", Form::Number, kOptional, 1, 100000, 0},
    {"chuck", "grip_force_kn", Form::Number, kOptional, 0.01, 5000, 0},
    {"chuck", "jaw_mass_kg", Form::Number, kOptional, 0.001, 500, 0, {}, "j"},
    {"chuck", "jaw_mass_diameter_mm", Form::Number, kOptional, 1, kLongest, 0, {}, "j"},
    {"chuck", "base_jaw_moment_kg_m", Form::Number, kOptional, 0, 100, 0, {}, "j"},
    {"chuck", "friction", Form::Number, kOptional, 0.02, 1, 0},
    {"chuck", "force_safety", Form::Number, kOptional, 1, 10, 0},
    {"chuck", "speed_safety", Form::Number, kOptional, 1, 10, 0, {}, "j"},

    {"tailstock", "quill_diameter_mm", Form::Number, kRequired, 1, 1000, 60},
    {"tailstock", "quill_length_mm", Form::Number, kRequired, 1, kLongest, 100},
    {"tailstock", "centre_angle_deg", Form::Number, kOptional, 10, 150, 60},
    {"tailstock", "centre_diameter_mm", Form::Number, kRequired, 1, 1000, 25},
    {"tailstock", "centre_z_from_chuck_face_mm", Form::Number, kRequired, -kLongest, kLongest, kLongest},
    {"tailstock", "advanced", Form::Flag, kRequired},
    {"tailstock", "advanced_z_from_chuck_face_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"tailstock", "parked_z_from_chuck_face_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"tailstock", "centre", Form::Choice, kOptional, 0, 0, 0, "live|dead"},
    {"tailstock", "centre_length_mm", Form::Number, kOptional, kSmallest, 2000, 0},
    {"tailstock", "housing_diameter_mm", Form::Number, kOptional, 1, 1000, 0},
    {"tailstock", "housing_length_mm", Form::Number, kOptional, kSmallest, 2000, 0},
    {"tailstock", "casting_diameter_mm", Form::Number, kOptional, 1, kLongest, 0},
    {"tailstock", "casting_length_mm", Form::Number, kOptional, 1, kLongest, 0},
    {"tailstock", "force_kn", Form::Number, kOptional, 0.01, 1000, 0},

    {"second_spindle", "start_z_from_chuck_face_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"second_spindle", "approach_z_from_chuck_face_mm", Form::Number, kRequired, -kLongest, kLongest, kLongest},
    {"second_spindle", "parked_z_from_chuck_face_mm", Form::Number, kRequired, -kLongest, kLongest, kLongest},
    {"second_spindle", "max_rev_per_min", Form::Number, kOptional, 1, 100000, 0},

    {"steady_rest", "z_from_chuck_face_mm", Form::Number, kRequired, -kLongest, kLongest, 0},
    {"steady_rest", "width_mm", Form::Number, kRequired, 1, 2000, 40},
    {"steady_rest", "inner_diameter_mm", Form::Number, kRequired, 1, kLongest, 200},
    {"steady_rest", "outer_diameter_mm", Form::Number, kRequired, 1, kLongest, 300},
    {"steady_rest", "roller_diameter_mm", Form::Number, kRequired, 1, 1000, 30},
    {"steady_rest", "bar_diameter_mm", Form::Number, kRequired, 1, kLongest, 50},
    {"steady_rest", "rollers", Form::Whole, kOptional, 2, 6, 3},
    {"steady_rest", "open_from_deg", Form::Number, kOptional, -360, 360, 0},
    {"steady_rest", "open_to_deg", Form::Number, kOptional, -360, 360, 0},

    {"body", "name", Form::Text, kRequired},
    {"body", "kind", Form::Choice, kOptional, 0, 0, 0, "other|guard|door"},
    {"body", "on", Form::Choice, kOptional, 0, 0, 0, "bed|spindle|turret-slide|station|tailstock|second-spindle"},
    {"body", "station", Form::Whole, kOptional, 1, 99, 0},
    {"body", "z_mm", Form::Range, kOptional, -kLongest, kLongest},
    {"body", "x_mm", Form::Range, kOptional, -kLongest, kLongest},
    {"body", "y_mm", Form::Range, kOptional, -kLongest, kLongest},
    {"body", "file", Form::Text},
    {"body", "unit", Form::Choice, kOptional, 0, 0, 0, "mm|cm|m|inch"},
    {"body", "at_z_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"body", "at_x_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"body", "at_y_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"body", "turn_deg", Form::Number, kOptional, -360, 360, 0},

    {"stock", "shape", Form::Choice, kRequired, 0, 0, 0, "bar|tube|hexagon|square|cross-section|half-section|previous"},
    {"stock", "diameter_mm", Form::Number, kRequired, 0.1, 2000, 0, {}, "bt"},
    {"stock", "across_flats_mm", Form::Number, kRequired, 0.1, 2000, 0, {}, "hs"},
    {"stock", "bore_mm", Form::Number, kOptional, 0, 2000, 0, {}, "bths"},
    {"stock", "eccentricity_mm", Form::Number, kOptional, 0, 500, 0, {}, "bthsp"},
    {"stock", "drawing", Form::Text, kRequired, 0, 0, 0, {}, "cd"},
    {"stock", "drawing_layer", Form::Text, kOptional, 0, 0, 0, {}, "cd"},
    {"stock", "drawing_unit", Form::Choice, kOptional, 0, 0, 0, "mm|cm|m|inch", "cd"},
    {"stock", "after_program", Form::Text, kRequired, 0, 0, 0, {}, "p"},
    {"stock", "after_setup", Form::Text, kOptional, 0, 0, 0, {}, "p"},
    {"stock", "piece", Form::Whole, kOptional, 0, 1000, 0, {}, "dp"},
    {"stock", "turned_round", Form::Flag, kOptional, 0, 0, 0, {}, "dp"},
    {"stock", "length_mm", Form::Number, kRequired, 0.1, kLongest, 0, {}, "bthsc"},
    {"stock", "stick_out_mm", Form::Number, kRequired, 0, kLongest, 0},
    {"stock", "material", Form::Text},

    {"material", "name", Form::Text},
    {"material", "group", Form::Choice, kOptional, 0, 0, 0, "P|M|K|N|S|H"},
    {"material", "kc11_n_per_mm2", Form::Number, kOptional, 50, 20000, 0},
    {"material", "mc", Form::Number, kOptional, 0, 0.9, 0},
    {"material", "rake_angle_deg", Form::Number, kOptional, -30, 40, 0},
    {"material", "youngs_modulus_gpa", Form::Number, kOptional, 0.1, 1000, 0},
    {"material", "density_kg_per_dm3", Form::Number, kOptional, 0.1, 25, 0},
    {"material", "source", Form::Text},

    {"work_offsets", "z_from_bar_end_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"work_offsets", "z_from_chuck_face_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"work_offsets", "x_mm", Form::Number, kOptional, -kLongest, kLongest, 0},

    {"tool", "station", Form::Whole, kRequired, 1, 99, 0},
    {"tool", "name", Form::Text},
    {"tool", "kind", Form::Choice, kRequired, 0, 0, 0,
     "turning|boring|grooving|parting|drill|threading|tap|centre-drill|step-drill|reamer"},
    {"tool", "needs", Form::Choice, kRequired, 0, 0, 0, "M03|M04"},
    {"tool", "tip_x_mm", Form::Number, kRequired, -kLongest, kLongest, 0},
    {"tool", "tip_z_mm", Form::Number, kRequired, -kLongest, kLongest, 0},
    {"tool", "tip_number", Form::Whole, kOptional, 0, 9, 0, {}, "tbgpv"},
    {"tool", "centre_height_mm", Form::Number, kOptional, -5, 5, 0},
    {"tool", "overhang_mm", Form::Number, kRequired, kSmallest, 2000, 0},
    {"tool", "from", Form::Text},
    {"tool", "rake_angle_deg", Form::Number, kOptional, -30, 40, 0},
    {"tool", "edges", Form::Whole, kOptional, 1, 20, 0, {}, "dacsr"},
    {"tool", "max_cutting_force_n", Form::Number, kOptional, 1, 1e6, 0},
    {"tool", "max_feed_mm_per_rev", Form::Number, kOptional, 0.001, 50, 0},
    {"tool", "max_depth_mm", Form::Number, kOptional, 0.001, 200, 0, {}, "tb"},
    {"tool", "block_z_mm", Form::Range, kOptional, -kLongest, kLongest},
    {"tool", "block_x_mm", Form::Range, kOptional, -kLongest, kLongest},
    {"tool", "block_width_mm", Form::Number, kOptional, 1, 2000, 0},
    {"tool", "shank_mm", Form::Number, kOptional, kSmallest, 500, 20, {}, "tbgpv"},  // see ToolReading::readShank
    {"tool", "shank", Form::Choice, kOptional, 0, 0, 0, "steel|carbide|damped|damped-carbide", "bgv"},
    {"tool", "taylor_n", Form::Number, kOptional, 0.02, 1.5, 0},
    {"tool", "taylor_c_m_per_min", Form::Number, kOptional, 0.1, 100000, 0},
    {"tool", "edges_per_insert", Form::Whole, kOptional, 1, 40, 0},
    {"tool", "shank_height_mm", Form::Number, kOptional, kSmallest, 500, 0, {}, "tgpv"},
    {"tool", "holder", Form::Text, kOptional, 0, 0, 0, {}, "tb"},
    {"tool", "head_width_mm", Form::Number, kOptional, kSmallest, 500, 0, {}, "tb"},
    {"tool", "head_length_mm", Form::Number, kOptional, kSmallest, 2000, 0, {}, "tb"},
    {"tool", "collet_chuck_diameter_mm", Form::Number, kOptional, 1, 500, 0, {}, "dacsr"},
    {"tool", "collet_chuck_length_mm", Form::Number, kOptional, 1, 1000, 0, {}, "dacsr"},
    {"tool", "insert", Form::Text, kRequired, 0, 0, 0, {}, "tb"},
    {"tool", "edge_length_mm", Form::Number, kOptional, 0.1, 200, 12, {}, "tb"},
    {"tool", "edge_width_mm", Form::Number, kOptional, 0.1, 200, 0, {}, "tb"},
    {"tool", "nose_radius_mm", Form::Number, kOptional, 0, 100, 0, {}, "tbv"},
    {"tool", "entering_angle_deg", Form::Number, kOptional, 1, 179, 95, {}, "tb"},
    {"tool", "wiper_flat_mm", Form::Number, kOptional, 0, 50, 0, {}, "tb"},
    {"tool", "clearance_angle_deg", Form::Number, kOptional, 0.5, 45, 0, {}, "tbgp"},
    {"tool", "insert_thickness_mm", Form::Number, kOptional, 0.5, 50, 0, {}, "tb"},
    {"tool", "blade_height_mm", Form::Number, kOptional, 0.5, 200, 0, {}, "gp"},
    {"tool", "min_bore_mm", Form::Number, kOptional, kSmallest, 2000, 0, {}, "bgv"},
    {"tool", "width_mm", Form::Number, kRequired, kSmallest, 200, 3, {}, "gp"},
    {"tool", "corner_radius_mm", Form::Number, kOptional, 0, 100, 0, {}, "gp"},
    {"tool", "second_corner_radius_mm", Form::Number, kOptional, 0, 100, 0, {}, "gp"},
    {"tool", "front_angle_deg", Form::Number, kOptional, 0, 45, 0, {}, "gp"},
    {"tool", "leading_corner", Form::Choice, kOptional, 0, 0, 0, "piece|bar", "gp"},
    {"tool", "face_groove", Form::Flag, kOptional, 0, 0, 0, {}, "g"},
    {"tool", "face_groove_min_diameter_mm", Form::Number, kOptional, kSmallest, 2000, 0, {}, "g"},
    {"tool", "face_groove_max_diameter_mm", Form::Number, kOptional, kSmallest, 2000, 0, {}, "g"},
    {"tool", "cutting_depth_mm", Form::Number, kOptional, kSmallest, 1000, 20, {}, "gpv"},
    {"tool", "diameter_mm", Form::Number, kRequired, kSmallest, 500, 10, {}, "dasr"},
    {"tool", "point_angle_deg", Form::Number, kOptional, 30, 179, 118, {}, "dsc"},
    {"tool", "flute_length_mm", Form::Number, kRequired, kSmallest, 2000, 50, {}, "dasr"},
    {"tool", "shank_diameter_mm", Form::Number, kOptional, kSmallest, 500, 0, {}, "dacsr"},

    {"tool", "step_diameters_mm", Form::List, kRequired, kSmallest, 500, 0, {}, "s"},
    {"tool", "step_lengths_mm", Form::List, kRequired, 0, 2000, 0, {}, "s"},
    {"tool", "step_angles_deg", Form::List, kOptional, 10, 180, 90, {}, "s"},
    {"tool", "pilot_diameter_mm", Form::Number, kRequired, 0.1, 100, 2, {}, "c"},
    {"tool", "pilot_length_mm", Form::Number, kOptional, 0.1, 200, 0, {}, "c"},
    {"tool", "cone_angle_deg", Form::Number, kOptional, 20, 150, 60, {}, "c"},
    {"tool", "body_diameter_mm", Form::Number, kOptional, kSmallest, 200, 0, {}, "c"},
    {"tool", "centre_form", Form::Choice, kOptional, 0, 0, 0, "A|B", "c"},
    {"tool", "protective_diameter_mm", Form::Number, kOptional, kSmallest, 200, 0, {}, "c"},
    {"tool", "chamfer_length_mm", Form::Number, kOptional, kSmallest, 100, 0, {}, "r"},
    {"tool", "chamfer_angle_deg", Form::Number, kOptional, 1, 80, 45, {}, "r"},
    {"tool", "reaming_allowance_mm", Form::Number, kOptional, kSmallest, 10, 0, {}, "r"},

    {"tool", "thread_angle_deg", Form::Number, kOptional, 10, 120, 60, {}, "v"},
    {"tool", "nose_flat_mm", Form::Number, kOptional, 0, 50, 0, {}, "v"},
    {"tool", "inside", Form::Flag, kOptional, 0, 0, 0, {}, "v"},
    {"tool", "pitch_mm", Form::Number, kOptional, kSmallest, 100, 0, {}, "va"},
    {"tool", "profile", Form::Choice, kOptional, 0, 0, 0, "partial|full", "v"},
    {"tool", "mounted_angle_deg", Form::Number, kOptional, -20, 20, 0, {}, "gpv"},
    {"tool", "chamfer_threads", Form::Number, kOptional, 0.5, 20, 2.5, {}, "a"},

    {"offset", "number", Form::Whole, kRequired, 1, 999, 0},
    {"offset", "wear_x_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"offset", "wear_z_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"offset", "gauge_x_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"offset", "gauge_z_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"offset", "nose_radius_mm", Form::Number, kOptional, 0, 100, 0},
    {"offset", "tip_number", Form::Whole, kOptional, 0, 9, 0},

    {"m_codes", "meaning", Form::Text, kRequired},
    {"m_codes", "time_s", Form::Number, kOptional, 0, 3600, 0},
    {"m_codes", "spindle", Form::Choice, kOptional, 0, 0, 0, "forward|reverse|stop"},
    {"m_codes", "coolant", Form::Choice, kOptional, 0, 0, 0, "on|off"},
    {"m_codes", "does", Form::Choice, kOptional, 0, 0, 0,
     "tailstock-advance|tailstock-retract|chuck-open|chuck-close|second-spindle-approach|second-spindle-retract|"
     "second-spindle-grip|second-spindle-release|second-spindle-turns-alike|second-spindle-stop"},

    {"control", "code_system", Form::Choice, kOptional, 0, 0, 0, "A|B|C"},
    {"control", "compensate_in_roughing", Form::Flag},
    {"control", "compensation_start", Form::Choice, kOptional, 0, 0, 0, "A|B"},
    {"control", "arc_closure_mm", Form::Number, kOptional, 0, 1, 0.002},
    {"control", "roughing_retract_mm", Form::Number, kOptional, 0, 100, 0.5},
    {"control", "peck_clearance_mm", Form::Number, kOptional, 0, 100, 0.5},
    {"control", "peck_full_retract", Form::Flag},
    {"control", "thread_chamfer_leads", Form::Number, kOptional, 0, 9.9, 1},
    {"control", "block_skip", Form::Levels, kOptional, 1, 9, 0},
    {"control", "optional_stop", Form::Flag},
    {"control", "corner_words", Form::Choice, kOptional, 0, 0, 0, "comma|plain"},
    {"control", "offset_cancel", Form::Choice, kOptional, 0, 0, 0, "wear|all"},
    {"control", "whole_numbers", Form::Choice, kOptional, 0, 0, 0, "units|increments"},
    {"control", "x_programming", Form::Choice, kOptional, 0, 0, 0, "diameter|radius"},
    {"control", "max_blocks", Form::Whole, kOptional, 1, 1e9, 2e7},

    {"near_miss", "rapid_mm", Form::Number, kOptional, 0, 100, 2},
    {"near_miss", "feed_mm", Form::Number, kOptional, 0, 100, 0.5},

    {"overrides", "feed_percent", Form::Number, kOptional, 1, 200, 100},
    {"overrides", "rapid_percent", Form::Number, kOptional, 1, 100, 100},
    {"overrides", "spindle_percent", Form::Number, kOptional, 10, 150, 100},

    {"feed_hold", "line", Form::Whole, kRequired, 1, 1e9, 0},
    {"feed_hold", "seconds", Form::Number, kRequired, 0, 86400, 0},

    {"drawing", "file", Form::Text},
    {"drawing", "layer", Form::Text},
    {"drawing", "unit", Form::Choice, kOptional, 0, 0, 0, "mm|cm|m|inch"},
    {"drawing", "origin_z_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"drawing", "profile_line", Form::Whole, kOptional, 1, 1e9, 0},
    {"drawing", "grade", Form::Choice, kOptional, 0, 0, 0, "f|m|c|v"},

    {"dimension", "kind", Form::Choice, kRequired, 0, 0, 0,
     "diameter|length|taper|radius|chamfer|groove-width|thread|run-out"},
    {"dimension", "name", Form::Text},
    {"dimension", "inside", Form::Flag, kOptional, 0, 0, 0, {}, "dltrcgho"},
    {"dimension", "size_mm", Form::Number, kRequired, kSmallest, kLongest, 0, {}, "dlrcgh"},
    {"dimension", "size_deg", Form::Number, kRequired, kSmallest, 179, 0, {}, "t"},
    {"dimension", "z_mm", Form::Number, kRequired, -kLongest, kLongest, 0},
    {"dimension", "x_mm", Form::Number, kOptional, 0, kLongest, 0, {}, "dltrcgo"},
    {"dimension", "to_z_mm", Form::Number, kRequired, -kLongest, kLongest, 0, {}, "lth"},
    {"dimension", "to_x_mm", Form::Number, kOptional, 0, kLongest, 0, {}, "l"},
    {"dimension", "fit", Form::Text, kOptional, 0, 0, 0, {}, "dlg"},
    {"dimension", "above_mm", Form::Number, kOptional, -100, 100, 0, {}, "dlrcgho"},
    {"dimension", "below_mm", Form::Number, kOptional, -100, 100, 0, {}, "dlrcgh"},
    {"dimension", "above_deg", Form::Number, kOptional, -90, 90, 0, {}, "t"},
    {"dimension", "below_deg", Form::Number, kOptional, -90, 90, 0, {}, "t"},
    {"dimension", "thread_class", Form::Text, kOptional, 0, 0, 0, {}, "h"},
    {"dimension", "pitch_mm", Form::Number, kRequired, kSmallest, 100, 0, {}, "h"},
};

}  // namespace

std::span<const SetupKey> setupKeys() {
    return kKeys;
}

char kindLetter(std::string_view table, std::string_view kind) {
    if (kind == "threading") return 'v';
    if (kind == "tap") return 'a';
    if (table == "stock" && kind == "half-section") return 'd';
    if (table == "dimension" && kind == "thread") return 'h';
    if (table == "dimension" && kind == "run-out") return 'o';
    return kind.empty() ? '\0' : kind.front();
}

std::string_view kindKeyOf(std::string_view table) {
    if (table == "tool" || table == "chuck" || table == "turret" || table == "dimension") return "kind";
    return table == "stock" ? "shape" : std::string_view();
}

std::span<const std::string_view> setupTables() {
    return kTables;
}

const SetupKey* setupKey(std::string_view table, std::string_view key) {
    for (const SetupKey& known : kKeys) {
        if (known.table == table && known.key == key) return &known;
    }
    return nullptr;
}

int workOffsetOf(std::string_view tableName) {
    constexpr std::string_view kPlain = "work_offsets.G5";
    constexpr std::string_view kFurther = "work_offsets.G54.1 P";
    if (tableName.starts_with(kFurther)) {
        int number = 0;
        for (char c : tableName.substr(kFurther.size())) {
            if (c < '0' || c > '9' || number > 99) return -1;
            number = 10 * number + (c - '0');
        }
        const bool written = number >= 1 && number <= 48 && tableName[kFurther.size()] != '0';
        return written ? 5 + number : -1;
    }
    const bool plain = tableName.size() == kPlain.size() + 1 && tableName.starts_with(kPlain) &&
                       tableName.back() >= '4' && tableName.back() <= '9';
    return plain ? tableName.back() - '4' : -1;
}

std::string_view keyTableOf(std::string_view tableName) {
    if (workOffsetOf(tableName) >= 0) return "work_offsets";
    if (tableName == "second_spindle.chuck") return "chuck";
    return machineCodeNumber(tableName) ? std::string_view("m_codes") : tableName;
}

std::optional<int> machineCodeNumber(std::string_view tableName) {
    constexpr std::string_view kCodes = "m_codes.M";
    constexpr std::size_t kMostFigures = 3;
    if (!tableName.starts_with(kCodes)) return std::nullopt;
    const std::string_view figures = tableName.substr(kCodes.size());
    if (figures.empty() || figures.size() > kMostFigures) return std::nullopt;
    int number = 0;
    for (char c : figures) {
        if (c < '0' || c > '9') return std::nullopt;
        number = 10 * number + (c - '0');
    }
    return number;
}

}  // namespace firstoff
