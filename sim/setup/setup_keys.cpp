#include "sim/setup/setup_keys.h"

#include <array>

namespace firstoff {

namespace {

using Form = SetupKey::Form;
constexpr auto kOptional = SetupKey::Need::Optional;
constexpr auto kRequired = SetupKey::Need::Required;

constexpr double kSmallest = 0.01;  // mm; a size of nothing is no size
constexpr double kLongest = 10000;  // mm

constexpr std::array<std::string_view, 9> kTables{"machine", "chuck",  "tailstock", "stock",  "work_offsets",
                                                  "tool",    "offset", "m_codes",   "control"};

constexpr SetupKey kKeys[] = {
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
    {"machine", "turret_diameter_mm", Form::Number, kRequired, 1, kLongest, 300},
    {"machine", "turret_thickness_mm", Form::Number, kRequired, 1, kLongest, 80},

    {"chuck", "body_diameter_mm", Form::Number, kRequired, 1, kLongest, 200},
    {"chuck", "body_length_mm", Form::Number, kRequired, 1, kLongest, 80},
    {"chuck", "jaws", Form::Whole, kOptional, 1, 8, 3},
    {"chuck", "jaw_length_mm", Form::Number, kRequired, 0, kLongest, 30},
    {"chuck", "jaw_outer_diameter_mm", Form::Number, kRequired, 1, kLongest, 200},
    {"chuck", "jaw_width_mm", Form::Number, kOptional, 1, 1000, 30},
    {"chuck", "through_bore_mm", Form::Number, kOptional, 0, kLongest, 0},
    {"chuck", "max_rev_per_min", Form::Number, kOptional, 1, 100000, 0},

    {"tailstock", "quill_diameter_mm", Form::Number, kRequired, 1, 1000, 60},
    {"tailstock", "quill_length_mm", Form::Number, kRequired, 1, kLongest, 100},
    {"tailstock", "centre_angle_deg", Form::Number, kOptional, 10, 150, 60},
    {"tailstock", "centre_diameter_mm", Form::Number, kRequired, 1, 1000, 25},
    {"tailstock", "centre_z_from_chuck_face_mm", Form::Number, kRequired, -kLongest, kLongest, kLongest},
    {"tailstock", "advanced", Form::Flag, kRequired},

    {"stock", "shape", Form::Choice, kRequired, 0, 0, 0, "bar|tube|hexagon|square|cross-section|half-section|previous"},
    {"stock", "diameter_mm", Form::Number, kRequired, 0.1, 2000, 0, {}, "bt"},
    {"stock", "across_flats_mm", Form::Number, kRequired, 0.1, 2000, 0, {}, "hs"},
    {"stock", "bore_mm", Form::Number, kOptional, 0, 2000, 0, {}, "bths"},
    {"stock", "eccentricity_mm", Form::Number, kOptional, 0, 500, 0, {}, "bths"},
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

    {"work_offsets", "z_from_bar_end_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"work_offsets", "z_from_chuck_face_mm", Form::Number, kOptional, -kLongest, kLongest, 0},
    {"work_offsets", "x_mm", Form::Number, kOptional, -kLongest, kLongest, 0},

    {"tool", "station", Form::Whole, kRequired, 1, 99, 0},
    {"tool", "name", Form::Text},
    {"tool", "kind", Form::Choice, kRequired, 0, 0, 0, "turning|boring|grooving|parting|drill|threading|tap"},
    {"tool", "needs", Form::Choice, kRequired, 0, 0, 0, "M03|M04"},
    {"tool", "tip_x_mm", Form::Number, kRequired, -kLongest, kLongest, 0},
    {"tool", "tip_z_mm", Form::Number, kRequired, -kLongest, kLongest, 0},
    {"tool", "tip_number", Form::Whole, kOptional, 0, 9, 0, {}, "tbgpv"},
    {"tool", "centre_height_mm", Form::Number, kOptional, -5, 5, 0},
    {"tool", "overhang_mm", Form::Number, kRequired, kSmallest, 2000, 0},
    {"tool", "shank_mm", Form::Number, kRequired, kSmallest, 500, 20, {}, "tbgpv"},
    {"tool", "insert", Form::Text, kRequired, 0, 0, 0, {}, "tb"},
    {"tool", "edge_length_mm", Form::Number, kOptional, 0.1, 200, 12, {}, "tb"},
    {"tool", "nose_radius_mm", Form::Number, kOptional, 0, 100, 0, {}, "tbv"},
    {"tool", "entering_angle_deg", Form::Number, kOptional, 1, 179, 95, {}, "tb"},
    {"tool", "width_mm", Form::Number, kRequired, kSmallest, 200, 3, {}, "gp"},
    {"tool", "corner_radius_mm", Form::Number, kOptional, 0, 100, 0, {}, "gp"},
    {"tool", "cutting_depth_mm", Form::Number, kRequired, kSmallest, 1000, 20, {}, "gpv"},
    {"tool", "diameter_mm", Form::Number, kRequired, kSmallest, 500, 10, {}, "da"},
    {"tool", "point_angle_deg", Form::Number, kOptional, 30, 179, 118, {}, "d"},
    {"tool", "flute_length_mm", Form::Number, kRequired, kSmallest, 2000, 50, {}, "da"},
    {"tool", "shank_diameter_mm", Form::Number, kOptional, kSmallest, 500, 0, {}, "da"},

    {"tool", "thread_angle_deg", Form::Number, kOptional, 10, 120, 60, {}, "v"},
    {"tool", "nose_flat_mm", Form::Number, kOptional, 0, 50, 0, {}, "v"},
    {"tool", "inside", Form::Flag, kOptional, 0, 0, 0, {}, "v"},
    {"tool", "pitch_mm", Form::Number, kOptional, kSmallest, 100, 0, {}, "va"},

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
};

}  // namespace

std::span<const SetupKey> setupKeys() {
    return kKeys;
}

char kindLetter(std::string_view table, std::string_view kind) {
    if (kind == "threading") return 'v';
    if (kind == "tap") return 'a';
    if (table == "stock" && kind == "half-section") return 'd';
    return kind.empty() ? '\0' : kind.front();
}

std::string_view kindKeyOf(std::string_view table) {
    if (table == "tool") return "kind";
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
