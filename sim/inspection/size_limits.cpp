#include "sim/inspection/size_limits.h"

#include <fmt/format.h>

#include <cmath>

#include "sim/base/point.h"
#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/inspection/iso_2768.h"
#include "sim/inspection/iso_286.h"
#include "sim/inspection/metric_thread.h"

namespace firstoff {

namespace {

using Kind = WantedDimension::Kind;

std::optional<SizeLimits> generalLimits(const WantedDimension& d, char grade, std::string& why) {
    if (d.kind == Kind::Thread || d.kind == Kind::RunOut) {
        why = tr("ISO 2768-1 says nothing about it");
        return std::nullopt;
    }
    const bool rounding = d.kind == Kind::Radius || d.kind == Kind::Chamfer;
    // Of the two sides of a cone the shorter one cannot be seen here: the stretch along Z is never longer than its
    // side.
    const auto either = d.kind == Kind::Taper ? generalAngle(grade, std::abs(d.to.z - d.at.z))
                        : rounding            ? generalRoundingMm(grade, d.size)
                                              : generalLengthMm(grade, d.size);
    if (!either) {
        why = say("ISO 2768-1 has no value of grade {} for it", grade);
        return std::nullopt;
    }
    return SizeLimits{d.size - *either, d.size + *either, fmt::format("ISO 2768-{}", grade)};
}

std::optional<SizeLimits> threadLimits(const WantedDimension& d, std::string& why) {
    const MetricThread thread = metricThread(d.size, d.pitch);
    if (d.above && d.below) {
        return SizeLimits{thread.pitchDiameterMm + *d.below, thread.pitchDiameterMm + *d.above, {}};
    }
    if (d.threadClass != (d.inside ? "6H" : "6g")) {
        why = d.inside ? say("of ISO 965-1, 6H are reckoned for inside threads, not {}", d.threadClass)
                       : say("of ISO 965-1, 6g are reckoned for outside threads, not {}", d.threadClass);
        return std::nullopt;
    }
    const ThreadLimits limits = d.inside ? nutPitch6H(thread) : boltPitch6g(thread);
    return SizeLimits{limits.least, limits.most, d.threadClass + " of ISO 965-1"};
}

std::string sizeInWords(const WantedDimension& d, const char* (*word)(const char*)) {
    switch (d.kind) {
        case Kind::Diameter:
            return fmt::format("Ø{:.6g}", d.size);
        case Kind::Length:
            return fmt::format("{} {:.6g}", d.inside ? word(later("depth")) : word(later("length")), d.size);
        case Kind::Taper:
            return fmt::format("{} {:.6g}°", word(later("taper")), degrees(d.size));
        case Kind::Radius:
            return fmt::format("R{:.6g}", d.size);
        case Kind::Chamfer:
            return fmt::format("{} {:.6g}", word(later("chamfer")), d.size);
        case Kind::GrooveWidth:
            return fmt::format("{} {:.6g}", word(later("groove")), d.size);
        case Kind::Thread:
            return fmt::format("M{:.6g}x{:.6g}", d.size, d.pitch);
        case Kind::RunOut:
            return word(later("run-out"));
    }
    return "";
}

}  // namespace

std::optional<SizeLimits> limitsOf(const WantedDimension& d, char grade, std::string& why) {
    if (d.kind == Kind::RunOut) {
        if (d.above) return SizeLimits{0, *d.above, {}};
        why = tr("no greatest reading is given (above_mm)");
        return std::nullopt;
    }
    if (d.kind == Kind::Thread) return threadLimits(d, why);
    if (d.above && d.below) return SizeLimits{d.size + *d.below, d.size + *d.above, {}};
    if (!d.fit.empty()) {
        const auto deviations = classDeviations(d.size, d.fit, why);
        if (!deviations) return std::nullopt;
        return SizeLimits{d.size + deviations->lower, d.size + deviations->upper, d.fit + " of ISO 286",
                          deviations->fromMemory};
    }
    if (grade != 0) return generalLimits(d, grade, why);
    why = tr("it has no limits: neither a class nor deviations, and the drawing has no general grade");
    return std::nullopt;
}

std::string nameOf(const WantedDimension& d, const char* (*word)(const char*)) {
    // The size of a row that cannot be gauged may be what it lacks.
    const bool sizeless = !d.trouble.empty() && d.size <= 0;
    if (sizeless) return d.name.empty() ? word(later("dimension")) : d.name;
    std::string name = d.name;
    const std::string& fit = d.kind == Kind::Thread ? d.threadClass : d.fit;
    for (const std::string& part : {sizeInWords(d, word), fit}) {
        if (!part.empty()) name += (name.empty() ? "" : " ") + part;
    }
    return name;
}

}  // namespace firstoff
