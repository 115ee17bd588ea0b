#include "sim/setup/wanted_part_reader.h"

#include <fmt/format.h>

#include <utility>

#include "sim/base/say.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

using Kind = WantedDimension::Kind;

std::optional<Kind> kindNamed(std::string_view word) {
    static constexpr std::pair<std::string_view, Kind> kKinds[] = {
        {"diameter", Kind::Diameter}, {"length", Kind::Length},   {"taper", Kind::Taper},
        {"radius", Kind::Radius},     {"chamfer", Kind::Chamfer}, {"groove-width", Kind::GrooveWidth},
        {"thread", Kind::Thread},     {"run-out", Kind::RunOut}};
    for (const auto& [name, kind] : kKinds) {
        if (name == word) return kind;
    }
    return std::nullopt;
}

class DimensionReading {
public:
    DimensionReading(const TableReading& from, bool general) : from_(from), general_(general) {}

    WantedDimension run() {
        const std::size_t before = from_.findings.size();
        const auto kind = from_.says("kind") ? kindNamed(from_.text("kind")) : std::nullopt;
        d_.kind = kind.value_or(Kind::Diameter);
        d_.span = from_.table.span;
        d_.name = std::string(from_.text("name"));
        d_.inside = from_.flag("inside");
        d_.size = d_.kind == Kind::Taper ? radians(from_.number("size_deg")) : from_.number("size_mm");
        d_.pitch = from_.number("pitch_mm");
        d_.at = {from_.number("z_mm"), from_.number("x_mm") / 2};
        d_.to = {from_.number("to_z_mm"), from_.says("to_x_mm") ? from_.number("to_x_mm") / 2 : d_.at.r};
        if (!kind || !whole()) {  // said already
            d_.trouble = tr("a key of it is missing or wrong in the set-up");
            return std::move(d_);
        }
        readLimits();
        if (d_.kind == Kind::GrooveWidth && d_.at.r == 0) {
            from_.findings.push_back(setupStop("setup-dimension", from_.table.span,
                                               tr("A groove is gauged at a diameter, and none is given."),
                                               tr("Add x_mm.")));
        }
        if (from_.says("to_z_mm") && d_.to.z == d_.at.z) {
            from_.stop("setup-dimension", "to_z_mm", tr("The dimension begins and ends at one Z."),
                       tr("Correct z_mm or to_z_mm."));
        }
        if (from_.findings.size() != before) d_.trouble = asTrouble(from_.findings[before].message);
        return std::move(d_);
    }

private:
    // A message as the end of a sentence. All that are told here begin with an article, a word such as "only" or a key,
    // so that a capital is that of the sentence, in every language.
    static std::string asTrouble(std::string message) {
        if (message.ends_with('.')) message.pop_back();
        if (!message.empty() && message[0] >= 'A' && message[0] <= 'Z') {
            message[0] = static_cast<char>(message[0] - 'A' + 'a');
        }
        return message;
    }

    // No key was objected to, and none that this kind needs is missing; the check of the keys has said so otherwise.
    bool whole() const {
        for (const SetupEntry& entry : from_.table.entries) {
            if (!entry.usable) return false;
        }
        const std::string_view kind = from_.text("kind");
        const auto needs = [&](std::string_view key) { return from_.says(key); };
        if (!needs("z_mm")) return false;
        if (kind == "taper") return needs("size_deg") && needs("to_z_mm");
        if (kind == "run-out") return true;
        if (!needs("size_mm")) return false;
        if (kind == "length") return needs("to_z_mm");
        if (kind == "thread") return needs("to_z_mm") && needs("pitch_mm");
        return true;
    }

    void readLimits() {
        d_.fit = std::string(from_.text("fit"));
        d_.threadClass = std::string(from_.text("thread_class"));
        const bool angle = d_.kind == Kind::Taper;
        const char* above = angle ? "above_deg" : "above_mm";
        const char* below = angle ? "below_deg" : "below_mm";
        const auto deviation = [&](const char* key) -> std::optional<double> {
            if (!from_.says(key)) return std::nullopt;
            return angle ? radians(from_.number(key)) : from_.number(key);
        };
        d_.above = deviation(above);
        d_.below = deviation(below);
        const bool byClass = !d_.fit.empty() || !d_.threadClass.empty();
        if (d_.kind == Kind::RunOut) {
            if (!d_.above) missing(tr("above_mm, the greatest reading that is let pass"));
            return;
        }
        if (byClass && (d_.above || d_.below)) {
            from_.stop("setup-dimension", d_.above ? above : below,
                       tr("The dimension has a class and deviations as well; they may say different things."),
                       say("Keep the class, or {} and {}.", above, below));
        } else if (d_.above.has_value() != d_.below.has_value()) {
            from_.stop(
                "setup-dimension", d_.above ? above : below, say("Only {} is given.", d_.above ? above : below),
                say("Write both {} and {}, with their signs; 0 where the size itself is the limit.", above, below));
        } else if (d_.above && *d_.above <= *d_.below) {
            from_.stop("setup-dimension", above, say("{} is not larger than {}.", above, below),
                       tr("Both are signed deviations of the size: 0.1 and -0.1, or 0 and -0.021."));
        } else if (!byClass && !d_.above && d_.kind == Kind::Thread) {
            missing(tr("thread_class, such as \"6g\""));
        } else if (!byClass && !d_.above && !general_) {
            missing(d_.kind == Kind::Diameter || d_.kind == Kind::Length || d_.kind == Kind::GrooveWidth
                        ? say("fit, or {} and {}, or a grade to [drawing]", above, below)
                        : say("{} and {}, or a grade to [drawing]", above, below));
        }
    }

    void missing(const std::string& what) {
        from_.findings.push_back(setupStop("setup-dimension", from_.table.span,
                                           tr("The dimension has no limits to be gauged by."), say("Add {}.", what)));
    }

    const TableReading& from_;
    bool general_;
    WantedDimension d_;
};

}  // namespace

WantedPart readWantedPart(const TableReading& from) {
    WantedPart part;
    part.span = from.table.span;
    part.file = std::string(from.text("file"));
    part.layer = std::string(from.text("layer"));
    if (from.says("unit")) part.unit = std::string(from.text("unit"));
    part.originZ = from.number("origin_z_mm");
    if (from.says("profile_line")) part.line = static_cast<std::uint32_t>(from.number("profile_line"));
    if (from.says("grade")) part.grade = from.text("grade").front();
    if (from.table.find("file")) {
        part.span = from.spanOf("file");
        if (from.says("file") && part.file.empty()) {
            from.stop("setup-drawing", "file", tr("file names no file."),
                      tr("Write the name of a DXF file beside the set-up."));
        }
    } else {
        if (part.line) part.span = from.spanOf("profile_line");
        for (const char* key : {"layer", "unit", "origin_z_mm"}) {
            if (!from.table.find(key)) continue;
            from.stop("setup-drawing", key, say("{} is given, but no file that it belongs to.", key),
                      tr("Add file, or take it out."));
        }
    }
    if (!part.file.empty() && part.line) {
        from.stop("setup-drawing", "profile_line",
                  tr("The outline is to come from a file and from the program as well; the file is taken."),
                  tr("Take file or profile_line out."));
        part.line.reset();
    }
    return part;
}

WantedDimension readDimension(const TableReading& from, bool general) {
    return DimensionReading(from, general).run();
}

}  // namespace firstoff
