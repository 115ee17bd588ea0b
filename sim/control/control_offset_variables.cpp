// The offset pages as variables of a program. Numbers by common practice, from memory, no source; work offsets as in
// NISTIR 6556 table 2 (first at #5221, 20 apart).
//   #2001 … X wear   #2101 … Z wear   #2201 … nose radius   #2301 … tip number    of offsets 1 to 64
//   #2701 … X gauge  #2801 … Z gauge                                             of offsets 1 to 49
//   #5201 #5202 external work offset, #5221 #5222 G54, #5241 #5242 G55 … #5321 #5322 G59, in machine coordinates
// X as it is programmed, lengths in the units in force.
#include <cmath>

#include "sim/control/control.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

enum class Column : std::uint8_t { WearX, WearZ, Radius, Tip, GaugeX, GaugeZ };

struct OffsetPlace {
    int number = 0;
    Column column = Column::WearX;
};

std::optional<OffsetPlace> offsetPlace(std::int32_t index) {
    struct Page {
        std::int32_t before;
        int most;
        Column column;
    };
    constexpr Page kPages[] = {{2000, 64, Column::WearX}, {2100, 64, Column::WearZ},  {2200, 64, Column::Radius},
                               {2300, 64, Column::Tip},   {2700, 49, Column::GaugeX}, {2800, 49, Column::GaugeZ}};
    for (const Page& page : kPages) {
        const std::int32_t number = index - page.before;
        if (number >= 1 && number <= page.most) return OffsetPlace{number, page.column};
    }
    return std::nullopt;
}

struct WorkPlace {
    int number = 0;  // 0 external, 1 for G54
    bool alongZ = false;
};

std::optional<WorkPlace> workPlace(std::int32_t index) {
    if (index < 5201 || index > 5322) return std::nullopt;
    const std::int32_t axis = (index - 5201) % 20;
    if (axis > 1) return std::nullopt;
    return WorkPlace{(index - 5201) / 20, axis == 1};
}

}  // namespace

std::optional<double> Control::offsetVariable(std::int32_t index) const {
    const double alongX = (setup_.control.radiusProgramming ? 1 : 2) / scale();
    const double alongZ = 1 / scale();
    if (const auto work = workPlace(index)) {
        const Point origin = work->number == 0 ? externalOffset_
                                               : workOffsets_[static_cast<std::size_t>(work->number - 1)] -
                                                     Point{setup_.machine.home.z, 0};
        return work->alongZ ? alongZ * origin.z : alongX * origin.r;
    }
    const auto at = offsetPlace(index);
    if (!at) return std::nullopt;
    const Offset* entry = offset(at->number);
    const Tool* tool = setup_.toolAt(at->number);
    const Point wear = entry != nullptr ? entry->wear : Point{};
    const Point own = tool != nullptr ? tool->tip : Point{};
    const Point gauge = entry != nullptr ? entry->gauge.value_or(own) : own;
    switch (at->column) {
        case Column::WearX:
            return alongX * wear.r;
        case Column::WearZ:
            return alongZ * wear.z;
        case Column::GaugeX:
            return alongX * gauge.r;
        case Column::GaugeZ:
            return alongZ * gauge.z;
        case Column::Radius:
            return alongZ * (entry != nullptr && entry->noseRadius ? *entry->noseRadius
                             : tool != nullptr                     ? tool->noseRadius
                                                                   : 0.0);
        case Column::Tip:
            return entry != nullptr && entry->tipNumber ? *entry->tipNumber : tool != nullptr ? tool->tipNumber : 0;
    }
    return std::nullopt;
}

// False for a variable that is on none of the pages. Null counts as 0.
bool Control::setOffsetVariable(BlockId block, std::int32_t index, double value, const Word& word) {
    const double figures = isNull(value) ? 0 : value;
    const double alongX = figures * scale() * (setup_.control.radiusProgramming ? 1 : 0.5);
    const double alongZ = figures * scale();
    if (const auto work = workPlace(index)) {
        setWorkOffset(work->number, work->alongZ, work->alongZ ? alongZ : alongX);
        return true;
    }
    const auto at = offsetPlace(index);
    if (!at) return false;
    Offset& entry = offsetToEnter(at->number);
    const Tool* tool = setup_.toolAt(at->number);
    Point gauge = entry.gauge ? *entry.gauge : tool != nullptr ? tool->tip : Point{};
    switch (at->column) {
        case Column::WearX:
            entry.wear.r = alongX;
            break;
        case Column::WearZ:
            entry.wear.z = alongZ;
            break;
        case Column::GaugeX:
            gauge.r = alongX;
            entry.gauge = gauge;
            break;
        case Column::GaugeZ:
            gauge.z = alongZ;
            entry.gauge = gauge;
            break;
        case Column::Radius:
            entry.noseRadius = std::abs(alongZ);
            break;
        case Column::Tip:
            setTip(entry, block, figures, word);
            break;
    }
    takeUpOffset(at->number, block, word);
    return true;
}

void Control::setWorkOffset(int number, bool alongZ, double mm) {
    const bool external = number == 0;
    const auto index = static_cast<std::size_t>(external ? 0 : number - 1);
    const double homeZ = external ? 0 : setup_.machine.home.z;
    Point& origin = external ? externalOffset_ : workOffsets_[index];
    if (alongZ) {
        origin.z = homeZ + mm;
        if (!external) workOffsetGiven_[index] = true;
    } else {
        origin.r = mm;
    }
    refreshDatum();
}

}  // namespace firstoff
