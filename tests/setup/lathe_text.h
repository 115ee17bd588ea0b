// The text of a small set-up to which tests add tables.
#pragma once

#include <string>

namespace firstoff::shop {

// [machine] with a disc of 300, [stock] of D50 and nothing else; with `chuck` as the rest of [chuck], whose jaws are 30
// long and sweep 160.
inline std::string latheText(const std::string& chuck = "", const std::string& machine = "") {
    return R"([machine]
home_x_mm = 400
home_z_mm = 500
travel_x_mm = [-420, 0]
travel_z_mm = [-480, 0]
rapid_x_mm_per_min = 18000
rapid_z_mm_per_min = 24000
max_feed_mm_per_min = 5000
max_rev_per_min = 4500
index_time_s = 0.6
stations = 12
turret_diameter_mm = 300
turret_thickness_mm = 90
)" + machine +
           R"([chuck]
body_diameter_mm = 165
body_length_mm = 80
jaw_length_mm = 30
jaw_outer_diameter_mm = 160
)" + chuck +
           R"([stock]
shape = "bar"
diameter_mm = 50
length_mm = 110
stick_out_mm = 70
[work_offsets.G54]
z_from_bar_end_mm = -1.0
)";
}

// A disc whose axis stands 192 mm from the reference point, with blocks 60 wide.
inline const std::string kDisc = R"([turret]
kind = "disc"
face_z_mm = 0
axis_x_mm = 384
index = "rising"
head_diameter_mm = 240
head_length_mm = 200
block_z_mm = [-56, 80]
block_width_mm = 60
)";

}  // namespace firstoff::shop
