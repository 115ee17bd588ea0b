// What the operator could change at the machine without touching program or set-up file: tried here first.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "sim/setup/setup.h"

namespace firstoff {

struct WhatIf {
    // Added to the wear of an offset; one that the set-up does not have starts at nothing.
    struct Wear {
        int offset = 0;
        double xMm = 0;  // as diameter; + makes an outside diameter larger
        double zMm = 0;
        friend bool operator==(const Wear&, const Wear&) = default;
    };
    // Another insert, or the edge at another height. The tool counts as gauged anew: its tip stays where it was.
    struct Edge {
        int station = 0;
        double noseRadiusMm = -1;   // instead of what it has; negative: as it is
        double centreHeightMm = 0;  // added
        friend bool operator==(const Edge&, const Edge&) = default;
    };
    std::vector<Wear> wears;
    std::vector<Edge> edges;
    double datumZMm = 0;                      // added to every work offset: Z0 further from the chuck
    double feed = 1, rapid = 1, spindle = 1;  // shares, on top of those of the set-up
    // Switches of the panel; without a value they stand as the set-up has them.
    std::optional<bool> optionalStop;
    std::optional<std::uint16_t> blockSkipLevels;  // bit n: blocks with /n are left out
    double dryRunMmPerMin = 0;                     // 0: off
    double dryRunClearMm = 0;                      // while it is on, added to every work offset along Z

    bool empty() const;
    // What stands on the panel, without what was changed at offsets, tools and datum.
    WhatIf panel() const;
    friend bool operator==(const WhatIf&, const WhatIf&) = default;
};

// The set-up with these changes. Offsets and stations that are not there, and nose radii of tools without a nose, are
// left alone. A nose radius that is entered on the offset page stays as it is entered, as at the machine.
Setup withChanges(Setup setup, const WhatIf& whatIf);

// Whether a tool's nose radius can be changed: it has an insert with one.
bool hasNose(const Tool& tool);

}  // namespace firstoff
