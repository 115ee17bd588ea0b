#include "sim/drawing/dxf_reader.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "sim/base/say.h"
#include "sim/drawing/dxf_entity.h"
#include "sim/drawing/dxf_groups.h"

namespace firstoff {

namespace {

// Faults of one sort that are told one by one.
constexpr std::size_t kMostFaults = 20;

bool sameLayer(std::string_view a, std::string_view b) {
    const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [&](char x, char y) { return lower(x) == lower(y); });
}

class DxfReading {
public:
    DxfReading(std::string_view text, const DxfOptions& options) : text_(text), groups_(text), options_(options) {}

    Drawing run() {
        if (isBinary()) {
            add("drawing-not-dxf", 0, tr("This is not a text file; binary DXF is not read."),
                tr("Save the drawing as ASCII DXF."));
            return std::move(drawing_);
        }
        readThings();
        finishPolyline();
        checkEnd();
        tellLeftOut();
        takeUnit();
        checkLayer();
        return std::move(drawing_);
    }

private:
    bool isBinary() const {
        constexpr std::size_t kLook = 1024;
        return text_.substr(0, kLook).find('\0') != std::string_view::npos;
    }

    void readThings() {
        DxfThing thing;
        bool any = false;
        while (const auto group = groups_.next()) {
            if (group->code == 0) {
                if (any) take(thing);
                thing = {group->value, group->line, {}};
                any = true;
                if (thing.kind == "EOF") break;
            } else if (any) {
                thing.groups.push_back(*group);
            } else {
                startsWrong_ = true;
            }
        }
        if (any) take(thing);
    }

    void take(const DxfThing& thing) {
        if (thing.kind == "EOF") {
            ended_ = true;
        } else if (thing.kind == "SECTION") {
            section_ = thing.text(2);
            sections_ += 1;
            if (section_ == "HEADER") readHeader(thing);
        } else if (thing.kind == "ENDSEC") {
            finishPolyline();
            section_ = {};
        } else if (section_ == "ENTITIES") {
            takeEntity(thing);
        }
    }

    // Variables: code 9 and a name, then their values.
    void readHeader(const DxfThing& header) {
        for (std::size_t i = 0; i + 1 < header.groups.size(); ++i) {
            if (header.groups[i].code != 9 || header.groups[i + 1].code != 70) continue;
            const long value = drawnWhole(header.groups[i + 1].value).value_or(-1);
            if (header.groups[i].value == "$INSUNITS") {
                unit_ = value;
                unitLine_ = header.groups[i + 1].line;
            }
            if (header.groups[i].value == "$MEASUREMENT") imperial_ = value == 0;
        }
    }

    void takeEntity(const DxfThing& entity) {
        if (entity.kind == "VERTEX" && polyline_) return polyline_->add(entity);
        finishPolyline();
        if (entity.kind == "SEQEND" || entity.kind == "VERTEX") return;
        constexpr int kOnLayout = 67;
        if (entity.whole(kOnLayout, 0) != 0) {
            onLayout_ += 1;
        } else if (drawsNoOutline(entity.kind)) {
            noOutline_ += 1;
        } else if (isAskedFor(entity)) {
            if (entity.kind == "POLYLINE") {
                polyline_.emplace(entity);
            } else {
                keep(entity, readEntity(entity));
            }
        }
    }

    bool isAskedFor(const DxfThing& entity) {
        const std::string_view layer = entity.text(8);
        layers_.insert(std::string(layer));
        return options_.layer.empty() || sameLayer(layer, options_.layer);
    }

    void finishPolyline() {
        if (!polyline_) return;
        keep(polyline_->head(), polyline_->finish());
        polyline_.reset();
    }

    void keep(const DxfThing& entity, EntityReading reading) {
        if (reading.path) drawing_.paths.push_back(std::move(*reading.path));
        if (reading.fault) tell(std::move(*reading.fault));
        if (reading.understood) return;
        auto [at, fresh] =
            others_.try_emplace(inMessage(entity.kind), Others{0, entity.line, inMessage(std::string(entity.text(8)))});
        at->second.count += 1;
    }

    void tell(DrawingFault fault) {
        if (++told_ <= kMostFaults) drawing_.faults.push_back(std::move(fault));
    }

    DrawingFault& add(const char* code, std::size_t line, std::string message, std::string remedy) {
        DrawingFault fault;
        fault.code = code;
        fault.line = line;
        fault.message = std::move(message);
        fault.remedy = std::move(remedy);
        drawing_.faults.push_back(std::move(fault));
        return drawing_.faults.back();
    }

    void note(const char* code, std::size_t line, std::string message, std::string remedy) {
        DrawingFault& fault = add(code, line, std::move(message), std::move(remedy));
        fault.severity = Severity::Note;
        fault.unproven = false;
    }

    void checkEnd() {
        if (groups_.broken()) {
            add("drawing-not-dxf", groups_.line(),
                tr("A group code, a whole number on a line of its own, should stand here; nothing was read from here "
                   "on."),
                tr("Save the drawing anew as ASCII DXF."));
        } else if (sections_ == 0 || startsWrong_) {
            add("drawing-not-dxf", 1, tr("The file does not begin with a section, as DXF does."),
                tr("Save the drawing as ASCII DXF."));
        } else if (!ended_) {
            add("drawing-cut-short", groups_.line(), tr("The file ends without EOF, so some of it may be missing."),
                tr("Save or copy the drawing anew."));
        }
        if (told_ > kMostFaults) {
            add("drawing-bad-number", 0, say("{} more entities like these.", told_ - kMostFaults),
                tr("Save the drawing anew."));
        }
    }

    void tellLeftOut() {
        for (const auto& [kind, others] : others_) {
            if (drawing_.faults.size() > 3 * kMostFaults) break;
            add("drawing-entity-not-understood", others.line,
                others.count == 1 ? say("1 {} entity is not understood and left out; the first is on this line, layer "
                                        "\"{}\".",
                                        kind, others.layer)
                                  : say("{} {} entities are not understood and left out; the first is on this line, "
                                        "layer \"{}\".",
                                        others.count, kind, others.layer),
                kind == "INSERT"
                    ? tr("Explode inserted blocks before saving, or name the layer of the outline.")
                    : tr("Draw the outline of lines, arcs, circles and polylines in one plane, or name the "
                         "layer that holds it."));
        }
        if (onLayout_ > 0) {
            note("drawing-layout-left-out", 0,
                 say("What stands on layout sheets was left out: {} entities.", onLayout_),
                 tr("Nothing, if the outline was drawn in the model."));
        }
        if (noOutline_ > 0) {
            note("drawing-writing-left-out", 0,
                 say("Writing, dimensions, fillings and points were left out: {} entities.", noOutline_),
                 tr("Nothing, if none of them is part of the outline."));
        }
    }

    void takeUnit() {
        drawing_.unit = options_.unit ? *options_.unit : saidUnit();
        const double mm = millimetresIn(drawing_.unit);
        std::size_t far = 0;
        for (DrawnPath& path : drawing_.paths) {
            bool fits = true;
            for (ContourCorner& corner : path.corners) {
                corner.at = mm * corner.at;
                fits &= std::abs(corner.at.z) <= kLargestDrawnMm && std::abs(corner.at.r) <= kLargestDrawnMm;
                fits &= std::abs(corner.bulge) <= kLargestDrawnMm;
            }
            if (fits) continue;
            if (far++ == 0) {
                add("drawing-bad-number", path.line,
                    say("This entity lies more than {:g} mm away or bulges beyond any circle; it was left out, "
                        "and so are others like it.",
                        kLargestDrawnMm),
                    tr("Correct it, or the unit of the drawing."));
            }
            path.corners.clear();
        }
        if (far > 0) std::erase_if(drawing_.paths, [](const DrawnPath& path) { return path.corners.empty(); });
    }

    DrawingUnit saidUnit() {
        switch (unit_) {
            case 1:
                return DrawingUnit::Inch;
            case 4:
                return DrawingUnit::Millimetre;
            case 5:
                return DrawingUnit::Centimetre;
            case 6:
                return DrawingUnit::Metre;
            case 0:
                break;
            default:
                add("drawing-unit-not-understood", unitLine_,
                    say("$INSUNITS is {}; mm (4), cm (5), m (6) and inch (1) are understood. mm were taken.", unit_),
                    tr("Save the drawing in mm, or say its unit in the set-up."));
                return DrawingUnit::Millimetre;
        }
        if (imperial_) {
            add("drawing-unit-not-said", unitLine_,
                tr("The drawing does not say its unit, only that it is imperial; inches were taken."),
                tr("Say its unit in the set-up, or save the drawing with one."));
            return DrawingUnit::Inch;
        }
        if (drawing_.paths.empty()) return DrawingUnit::NotSaid;
        note("drawing-unit-not-said", unitLine_, tr("The drawing does not say its unit; mm were taken."),
             tr("Look at the size of the blank."));
        return DrawingUnit::NotSaid;
    }

    void checkLayer() {
        const bool told = std::any_of(drawing_.faults.begin(), drawing_.faults.end(),
                                      [](const DrawingFault& fault) { return fault.unproven; });
        if (!drawing_.paths.empty() || told) return;
        if (!options_.layer.empty() && !layers_.empty()) {
            std::string names;
            std::size_t named = 0;
            for (const std::string& layer : layers_) {
                if (++named > kMostFaults) break;
                names += (names.empty() ? "" : ", ") + inMessage(layer);
            }
            add("drawing-layer-missing", 0, say("Nothing is drawn on layer \"{}\".", inMessage(options_.layer)),
                say("Layers with something on them: {}.", names));
            return;
        }
        add("drawing-empty", 0, tr("No line, arc, circle or polyline was found."),
            tr("Draw the outline in the model and save it as ASCII DXF."));
    }

    struct Others {
        std::size_t count = 0;
        std::size_t line = 0;
        std::string layer;  // of the first
    };

    std::string_view text_;
    DxfGroups groups_;
    const DxfOptions& options_;
    Drawing drawing_;
    std::string_view section_;
    std::size_t sections_ = 0;
    bool startsWrong_ = false;
    bool ended_ = false;
    long unit_ = 0;
    std::size_t unitLine_ = 0;
    bool imperial_ = false;
    std::optional<PolylineReading> polyline_;
    std::map<std::string, Others> others_;  // by kind
    std::set<std::string> layers_;
    std::size_t onLayout_ = 0;
    std::size_t noOutline_ = 0;
    std::size_t told_ = 0;
};

}  // namespace

Drawing readDxf(std::string_view text, const DxfOptions& options) {
    return DxfReading(text, options).run();
}

}  // namespace firstoff
