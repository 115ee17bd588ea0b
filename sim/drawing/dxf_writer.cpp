#include "sim/drawing/dxf_writer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>
#include <string_view>

#include "sim/base/contour_geometry.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

int unitNumber(DrawingUnit unit) {
    switch (unit) {
        case DrawingUnit::NotSaid:
            return 0;
        case DrawingUnit::Inch:
            return 1;
        case DrawingUnit::Millimetre:
            return 4;
        case DrawingUnit::Centimetre:
            return 5;
        case DrawingUnit::Metre:
            return 6;
    }
    return 0;
}

std::string layerName(std::string_view name) {
    constexpr std::size_t kLongest = 31;
    if (name.empty()) return "0";
    std::string result(name.substr(0, kLongest));
    for (char& c : result) {
        const bool allowed = (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' ||
                             c == '_' || c == '$';
        if (!allowed) c = '_';
    }
    return result;
}

double degreesOf(Point direction) {
    const double degrees = std::atan2(direction.r, direction.z) * 180 / kPi;
    return degrees < 0 ? degrees + 360 : degrees;
}

class DxfWriting {
public:
    explicit DxfWriting(DrawingUnit unit) : unit_(unit) {}

    std::string run(const std::vector<DrawnPath>& paths) {
        header(paths);
        tables(paths);
        text(0, "SECTION");
        text(2, "ENTITIES");
        for (const DrawnPath& path : paths) entity(path);
        text(0, "ENDSEC");
        text(0, "EOF");
        return std::move(out_);
    }

private:
    void text(int code, std::string_view value) { fmt::format_to(std::back_inserter(out_), "{}\n{}\n", code, value); }
    void whole(int code, long value) { fmt::format_to(std::back_inserter(out_), "{}\n{}\n", code, value); }

    // The shortest figures that read as the same number, with a point, which some readers want to see.
    void number(int code, double value) {
        std::string figures = fmt::format("{}", value + 0.0);
        if (figures.find_first_of(".e") == std::string::npos) figures += ".0";
        text(code, figures);
    }

    void point(int code, Point mm) {
        number(code, inUnit(mm.z));
        number(code + 10, inUnit(mm.r));
        number(code + 20, 0);
    }

    // Divided rather than multiplied by the inverse, which would round twice.
    double inUnit(double mm) const { return mm / millimetresIn(unit_); }

    void header(const std::vector<DrawnPath>& paths) {
        text(0, "SECTION");
        text(2, "HEADER");
        variable("$ACADVER");
        text(1, "AC1009");
        variable("$INSUNITS");
        whole(70, unitNumber(unit_));
        variable("$MEASUREMENT");
        whole(70, unit_ == DrawingUnit::Inch ? 0 : 1);
        Box box;
        if (!paths.empty()) box = boxOf(paths);
        variable("$EXTMIN");
        point(10, {box.zMin, box.rMin});
        variable("$EXTMAX");
        point(10, {box.zMax, box.rMax});
        text(0, "ENDSEC");
    }

    void variable(std::string_view name) { text(9, name); }

    static Box boxOf(const std::vector<DrawnPath>& paths) {
        std::vector<Contour> edges;
        for (const DrawnPath& path : paths) {
            edges.push_back(path.corners);
            if (!path.closed && !path.corners.empty()) edges.back().back().bulge = 0;
        }
        return boundingBox(edges);
    }

    void tables(const std::vector<DrawnPath>& paths) {
        std::set<std::string> names{"0"};
        for (const DrawnPath& path : paths) names.insert(layerName(path.layer));
        text(0, "SECTION");
        text(2, "TABLES");
        text(0, "TABLE");
        text(2, "LAYER");
        whole(70, static_cast<long>(names.size()));
        for (const std::string& name : names) {
            text(0, "LAYER");
            text(2, name);
            whole(70, 0);
            whole(62, 7);
            text(6, "CONTINUOUS");
        }
        text(0, "ENDTAB");
        text(0, "ENDSEC");
    }

    void entity(const DrawnPath& path) {
        const Contour& corners = path.corners;
        if (corners.size() < 2) return;
        const bool oneEdge = corners.size() == 2 && !path.closed;
        const bool circle = corners.size() == 2 && path.closed && std::abs(corners[0].bulge) == 1 &&
                            corners[0].bulge == corners[1].bulge;
        const auto arc = arcOf(corners[0].at, corners[1].at, corners[0].bulge);
        if (circle) {
            begin("CIRCLE", path);
            point(10, 0.5 * (corners[0].at + corners[1].at));
            number(40, inUnit(distance(corners[0].at, corners[1].at) / 2));
        } else if (oneEdge && corners[0].bulge == 0) {
            begin("LINE", path);
            point(10, corners[0].at);
            point(11, corners[1].at);
        } else if (oneEdge && arc && isModest(*arc)) {
            begin("ARC", path);
            point(10, arc->centre);
            number(40, inUnit(arc->radius));
            const bool anticlockwise = arc->turn > 0;
            number(50, degreesOf((anticlockwise ? corners[0].at : corners[1].at) - arc->centre));
            number(51, degreesOf((anticlockwise ? corners[1].at : corners[0].at) - arc->centre));
        } else {
            polyline(path);
        }
    }

    // Very flat arcs have a centre so far away that their ends would suffer from the way through it.
    static bool isModest(const EdgeArc& arc) { return arc.radius < 1e4 && std::abs(arc.turn) < 1.99 * kPi; }

    void begin(std::string_view kind, const DrawnPath& path) {
        text(0, kind);
        text(8, layerName(path.layer));
    }

    void polyline(const DrawnPath& path) {
        begin("POLYLINE", path);
        whole(66, 1);
        point(10, {});
        whole(70, path.closed ? 1 : 0);
        for (const ContourCorner& corner : path.corners) {
            begin("VERTEX", path);
            point(10, corner.at);
            if (corner.bulge != 0) number(42, corner.bulge);
        }
        begin("SEQEND", path);
    }

    DrawingUnit unit_;
    std::string out_;
};

}  // namespace

std::string dxfText(const std::vector<DrawnPath>& paths, DrawingUnit unit) {
    return DxfWriting(unit).run(paths);
}

}  // namespace firstoff
