// How long frames took.
#pragma once

#include <string>
#include <vector>

namespace firstoff::gui {

class FrameTimes {
public:
    void add(double seconds) { seconds_.push_back(seconds); }
    // The time that `share` (0…1) of the frames did not exceed, s; 0 without frames.
    double percentile(double share) const;
    double framesPerSecond() const;
    // Frames per second, percentiles and a histogram, as text.
    std::string report() const;

private:
    std::vector<double> seconds_;
};

}  // namespace firstoff::gui
