#include "sim/drawing/section_table.h"

#include <array>
#include <cmath>
#include <set>

#include "sim/base/say.h"
#include "sim/drawing/dxf_entity.h"
#include "sim/drawing/dxf_groups.h"

namespace firstoff {

namespace {

constexpr std::string_view kHeading = "piece,loop,z_mm,r_mm";

class TableReading {
public:
    TableReading(std::string_view text, int piece) : rest_(text), piece_(piece) {
        drawing_.unit = DrawingUnit::Millimetre;
    }

    Drawing run() {
        if (rest_.starts_with("\xEF\xBB\xBF")) rest_.remove_prefix(3);
        if (nextLine() != kHeading) {
            fault("drawing-not-a-section", say("The first line must be {}.", kHeading),
                  tr("Take a table as `firstoff section` writes it, or a DXF drawing."));
            return std::move(drawing_);
        }
        while (!rest_.empty() && !broken_) {
            const std::string_view row = nextLine();
            if (!row.empty()) takeRow(row);
        }
        endLoop();
        if (broken_) drawing_.paths.clear();
        if (drawing_.paths.empty() && drawing_.faults.empty()) tellMissing();
        return std::move(drawing_);
    }

private:
    std::string_view nextLine() {
        const std::size_t end = rest_.find('\n');
        std::string_view line = rest_.substr(0, end);
        rest_ = end == std::string_view::npos ? std::string_view() : rest_.substr(end + 1);
        ++line_;
        while (!line.empty() && (line.back() == '\r' || line.back() == ' ')) line.remove_suffix(1);
        return line;
    }

    void takeRow(std::string_view row) {
        std::array<std::string_view, 4> cells;
        std::string_view rest = row;
        std::size_t count = 0;
        for (bool more = true; more; ++count) {
            const std::size_t comma = rest.find(',');
            more = comma != std::string_view::npos;
            if (count < cells.size()) cells[count] = rest.substr(0, comma);
            if (more) rest.remove_prefix(comma + 1);
        }
        const auto piece = drawnWhole(cells[0]);
        const auto loop = drawnWhole(cells[1]);
        const auto z = drawnNumber(cells[2]);
        const auto r = drawnNumber(cells[3]);
        const bool good = count == cells.size() && piece && loop && z && r && std::abs(*z) <= kLargestDrawnMm &&
                          std::abs(*r) <= kLargestDrawnMm;
        if (!good) {
            broken_ = true;
            return fault("drawing-bad-number",
                         say("\"{}\" is no row of piece, loop, z and r; nothing was taken.", inMessage(row)),
                         tr("Write the section anew."));
        }
        pieces_.insert(*piece);
        if (*piece != atPiece_ || *loop != atLoop_) {
            endLoop();
            atPiece_ = *piece;
            atLoop_ = *loop;
            loopLine_ = line_;
        }
        if (*piece == piece_) corners_.push_back({{*z, *r}, 0});
    }

    void endLoop() {
        Contour loop;
        for (const ContourCorner& corner : corners_) {
            if (loop.empty() || !(loop.back().at == corner.at)) loop.push_back(corner);
        }
        while (loop.size() > 1 && loop.front().at == loop.back().at) loop.pop_back();
        corners_.clear();
        if (loop.empty()) return;
        if (loop.size() < 3) {
            line_ = loopLine_;
            return fault("drawing-empty", tr("This loop has fewer than three points."), tr("Write the section anew."));
        }
        drawing_.paths.push_back({std::move(loop), true, {}, loopLine_});
    }

    void tellMissing() {
        std::string held;
        for (long piece : pieces_) {
            if (held.size() > 100) break;
            held += (held.empty() ? "" : ", ") + std::to_string(piece);
        }
        line_ = 0;
        fault("drawing-empty", say("The table holds no loop of piece {}.", piece_),
              held.empty() ? tr("Write the section anew.") : say("It holds pieces {}.", held));
    }

    void fault(const char* code, std::string message, std::string remedy) {
        DrawingFault fault;
        fault.code = code;
        fault.line = line_;
        fault.message = std::move(message);
        fault.remedy = std::move(remedy);
        if (drawing_.faults.size() < 20) drawing_.faults.push_back(std::move(fault));
    }

    std::string_view rest_;
    int piece_;
    Drawing drawing_;
    std::size_t line_ = 0;
    std::size_t loopLine_ = 0;
    long atPiece_ = -1, atLoop_ = -1;
    bool broken_ = false;
    Contour corners_;
    std::set<long> pieces_;
};

}  // namespace

Drawing readSectionTable(std::string_view text, int piece) {
    return TableReading(text, piece).run();
}

}  // namespace firstoff
