#include "sim/output/part_file.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/drawing/dxf_writer.h"
#include "sim/output/part_colours.h"
#include "sim/output/part_grid.h"
#include "sim/output/section_svg.h"
#include "sim/output/solid_files.h"
#include "sim/output/tables.h"
#include "sim/output/whole_file.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/mesh_check.h"
#include "sim/stock/part_mesh.h"

namespace firstoff {

namespace {

constexpr std::array<std::pair<std::string_view, PartFileKind>, 7> kEndings = {{{".stl", PartFileKind::Stl},
                                                                                {".3mf", PartFileKind::ThreeMf},
                                                                                {".glb", PartFileKind::Glb},
                                                                                {".vdb", PartFileKind::Vdb},
                                                                                {".svg", PartFileKind::Svg},
                                                                                {".dxf", PartFileKind::Dxf},
                                                                                {".csv", PartFileKind::Csv}}};

struct Instant {
    std::uint32_t wholeMoves = 0;
    double fraction = 0;
};

Instant instantOf(const Trial& trial, double timeS) {
    if (!trial.stock) throw std::runtime_error(tr("the set-up gives no usable bar, so there is no part"));
    if (trial.timeline.moves.empty()) return {};
    const std::size_t at = trial.timeline.at(timeS);
    return {static_cast<std::uint32_t>(at), fractionAt(trial.timeline.moves[at], trial.toolpath, trial.setup, timeS)};
}

// Keeps the piece that was asked for.
template <typename Item>
void pick(std::vector<Item>& items, const std::optional<int>& piece) {
    int last = 0;
    for (const Item& item : items) last = std::max(last, item.piece);
    if (piece) std::erase_if(items, [&](const Item& item) { return item.piece != *piece; });
    if (!items.empty()) return;
    if (!piece) throw std::runtime_error(tr("there is no metal left to write"));
    throw std::runtime_error(last == 0
                                 ? say("--piece {}: nothing has been cut off by then; there is only piece 0", *piece)
                                 : say("--piece {}: there are pieces 0 (held) to {} by then", *piece, last));
}

// A fifth of the distance for the section, the rest for the run between two meridians.
MeshOptions meshOptions(const PartFileOptions& options) {
    MeshOptions result;
    result.sectionMm = options.toleranceMm / 5;
    result.sagittaMm = options.toleranceMm * 4 / 5;
    return result;
}

std::vector<SolidBody> bodies(const Trial& trial, const Instant& instant, const PartFileOptions& options) {
    StockCursor cursor(trial.stock);
    cursor.seek(instant.wholeMoves, instant.fraction);
    std::vector<PartMesh> meshes = partMeshes(*trial.stock, cursor.billet(), instant.wholeMoves, meshOptions(options));
    pick(meshes, options.piece);
    const double datumZ = sectionDatum(trial).z;
    std::vector<SolidBody> result;
    for (PartMesh& mesh : meshes) {
        for (MeshPoint& p : mesh.points) p.z -= datumZ;
        if (!meshFaults(mesh).none()) {
            throw std::runtime_error(
                say("the surface of piece {} does not close; a fault of this program", mesh.piece));
        }
        std::string name = mesh.piece == 0 ? std::string("held") : fmt::format("piece {}", mesh.piece);
        result.push_back({std::move(name), std::move(mesh)});
    }
    return result;
}

std::uint32_t colourOf(const Trial& trial, CutId cut) {
    if (cut == kCutBefore) return kCutBeforeColour;
    if (cut >= trial.timeline.moves.size()) return kUncutColour;
    const Move& move = trial.toolpath.moves[trial.timeline.moves[cut].move];
    return stationColour(trial.toolpath.calls[move.call].station);
}

std::vector<Loop> sectionLoops(const Trial& trial, const Instant& instant, const PartFileOptions& options) {
    StockCursor cursor(trial.stock);
    cursor.seek(instant.wholeMoves, instant.fraction);
    std::vector<Loop> loops = cursor.section(options.toleranceMm / 5, cursor.billet().sectorNear(options.angle));
    pick(loops, options.piece);
    const double datumZ = sectionDatum(trial).z;
    for (Loop& loop : loops) {
        for (Point& p : loop.points) p.z -= datumZ;
    }
    return loops;
}

std::vector<SectionContour> sectionContours(const Trial& trial, const Instant& instant,
                                            const PartFileOptions& options) {
    StockCursor cursor(trial.stock);
    cursor.seek(instant.wholeMoves, instant.fraction);
    std::vector<SectionContour> contours = cursor.contours(cursor.billet().sectorNear(options.angle));
    pick(contours, options.piece);
    return contours;
}

// With its true arcs.
std::string sectionDxf(const Trial& trial, const std::vector<SectionContour>& contours) {
    const double datumZ = sectionDatum(trial).z;
    std::vector<DrawnPath> paths;
    double z0 = std::numeric_limits<double>::infinity(), z1 = -z0;
    for (const SectionContour& contour : contours) {
        DrawnPath path;
        path.closed = true;
        path.layer = contour.piece == 0 ? "HELD" : fmt::format("PIECE_{}", contour.piece);
        for (ContourCorner corner : contour.outline) {
            corner.at.z -= datumZ;
            path.corners.push_back(corner);
            z0 = std::min(z0, corner.at.z);
            z1 = std::max(z1, corner.at.z);
        }
        paths.push_back(std::move(path));
    }
    DrawnPath axis;
    axis.layer = "AXIS";
    axis.corners = {{{z0, 0}, 0}, {{z1, 0}, 0}};
    paths.push_back(std::move(axis));
    return dxfText(paths);
}

}  // namespace

std::optional<PartFileKind> partFileKind(const std::filesystem::path& path) {
    std::string ending = path.extension().string();
    for (char& c : ending) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    for (const auto& [known, kind] : kEndings) {
        if (ending == known) return kind;
    }
    return std::nullopt;
}

std::string_view partFileEndings() {
    return "stl, 3mf, glb, vdb, svg, dxf, csv";
}

void writePartFile(const Trial& trial, double timeS, const std::filesystem::path& path, PartFileKind kind,
                   const PartFileOptions& options) {
    const Instant instant = instantOf(trial, timeS);
    if (kind == PartFileKind::Svg) {
        const std::string title = std::filesystem::path(trial.program.name).filename().string();
        return writeWholeFile(path, sectionSvg(sectionLoops(trial, instant, options), title));
    }
    if (kind == PartFileKind::Dxf)
        return writeWholeFile(path, sectionDxf(trial, sectionContours(trial, instant, options)));
    if (kind == PartFileKind::Csv) {
        return writeWholeFile(path, sectionTable(sectionContours(trial, instant, options), sectionDatum(trial).z));
    }
    const std::vector<SolidBody> solids = bodies(trial, instant, options);
    switch (kind) {
        case PartFileKind::Stl:
            return writeWholeFile(path, stlFile(solids));
        case PartFileKind::ThreeMf:
            return writeWholeFile(path, threeMfFile(solids));
        case PartFileKind::Glb:
            return writeWholeFile(path, glbFile(solids, [&](CutId cut) { return colourOf(trial, cut); }));
        case PartFileKind::Vdb:
            checkGridSize(solids, options.voxelMm);
            return replaceWholeFile(
                path, [&](const std::filesystem::path& part) { writePartGrid(solids, options.voxelMm, part); });
        case PartFileKind::Svg:
        case PartFileKind::Dxf:
        case PartFileKind::Csv:
            break;
    }
}

}  // namespace firstoff
