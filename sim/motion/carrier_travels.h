// Tailstock and second spindle on their way, as M codes of the set-up send them.
#pragma once

#include <cstdint>
#include <optional>

#include "sim/motion/timeline.h"

namespace firstoff {

// Goes along with a timeline while it is laid out and adds its travels. What the set-up does not say, that there is
// such a carrier at all or where it is to go, becomes a finding, unproven: then it stays where it is.
class CarrierTravels {
public:
    // The references must outlive it.
    CarrierTravels(const Toolpath& toolpath, const Setup& setup, Timeline& timeline);

    // Move `index` of the toolpath has been laid out as the one timed move at the end of the timeline.
    void follow(std::uint32_t index);

private:
    void act(const MachineEvent& event);
    void sendTailstock(const MachineEvent& event);
    void sendSecondSpindle(const MachineEvent& event);
    void send(CarrierTravel::Carrier carrier, double& at, double to, const MachineEvent& event);
    Finding* add(const MachineEvent& event, Severity severity, const char* code);

    const Toolpath& toolpath_;
    const Setup& setup_;
    Timeline& timeline_;
    std::size_t next_ = 0;  // into Toolpath::machineEvents
    double tailstockZ_ = 0, secondSpindleZ_ = 0;
    std::uint32_t said_ = 0;  // a bit for each action about which something was said
};

// Where the point of the centre goes when M codes advance or park it: what the set-up says, else where it stands at the
// start if that is the one or the other. Nothing where neither is known.
std::optional<double> advancedPlace(const Tailstock& tailstock);
std::optional<double> parkedPlace(const Tailstock& tailstock);

// As findings name them: "advance the tailstock", "open the chuck" …
const char* spoken(MachineAction action);

}  // namespace firstoff
