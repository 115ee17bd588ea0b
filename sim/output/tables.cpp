#include "sim/output/tables.h"

#include <algorithm>
#include <initializer_list>
#include <iterator>
#include <map>
#include <stdexcept>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/output/table_figures.h"
#include "sim/stock/billet_columns.h"

namespace firstoff {

namespace {

bool isFeed(MoveKind kind) {
    return isArc(kind) || kind == MoveKind::Feed || kind == MoveKind::Thread;
}

const char* sideOf(Compensation compensation) {
    switch (compensation) {
        case Compensation::Off:
            return "off";
        case Compensation::Left:
            return "left";
        case Compensation::Right:
            return "right";
    }
    return "";
}

class MoveRows {
public:
    explicit MoveRows(const Trial& trial) : trial_(trial) {}

    std::string run() {
        text_ = "line,block,pass,tool,kind,x0,z0,x1,z1,xc,zc,feed_mm_per_rev,rpm_start,rpm_end,t0_s,t1_s,comp\n";
        for (std::size_t i = 0; i < trial_.toolpath.moves.size(); ++i) row(i);
        return std::move(text_);
    }

private:
    void row(std::size_t index) {
        const Move& move = trial_.toolpath.moves[index];
        const auto number = static_cast<std::uint32_t>(index);
        const TimedMove& first = trial_.timeline.moves[trial_.timeline.firstOf[index]];
        const TimedMove& work = trial_.timeline.moves[trial_.timeline.workOf(number)];
        const TimedMove& last = trial_.timeline.moves[trial_.timeline.firstOf[index + 1] - 1];
        const Point shift = trial_.toolpath.programmedShift(move);
        place(move);
        fmt::format_to(std::back_inserter(text_), "{},{},{}", move.pass, trial_.toolpath.calls[move.call].station,
                       name(move.kind));
        point(move.from + shift);
        point(move.to + shift);
        if (isArc(move.kind)) {
            point(move.centre + shift);
        } else {
            text_ += ",,";
        }
        text_ += ',';
        feed(move, work);
        cells({work.rpmStart, last.rpmEnd, first.t0, last.t1});
        text_ += ',';
        text_ += sideOf(move.compensation);
        text_ += '\n';
    }

    void place(const Move& move) {
        const BlockId block = move.block != kNoBlock ? move.block : move.cycleBlock;
        if (block == kNoBlock) {
            text_ += ",,";
            return;
        }
        fmt::format_to(std::back_inserter(text_), "{},", trial_.program.lineOf(block));
        const std::int32_t number = trial_.program.blocks[block].sequenceNumber;
        if (number >= 0) fmt::format_to(std::back_inserter(text_), "{}", number);
        text_ += ',';
    }

    void point(Point p) { cells({2 * p.r, p.z}); }

    void cells(std::initializer_list<double> values) {
        for (double value : values) {
            text_ += ',';
            appendTableFigure(text_, value);
        }
    }

    // Feed per minute is written as what it comes to per revolution at the start of the move.
    void feed(const Move& move, const TimedMove& timed) {
        if (!isFeed(move.kind)) return;
        const bool perRev = trial_.toolpath.modals[move.modal].feedPerRev || move.kind == MoveKind::Thread;
        if (perRev) return appendTableFigure(text_, move.feed);
        if (timed.rpmStart > 0) appendTableFigure(text_, move.feed / timed.rpmStart);
    }

    const Trial& trial_;
    std::string text_;
};

void appendContour(std::string& text, const SectionContour& contour, int number, double datumZ) {
    const auto row = [&](Point p) {
        fmt::format_to(std::back_inserter(text), "{},{},", contour.piece, number);
        appendTableFigure(text, p.z - datumZ);
        text += ',';
        appendTableFigure(text, std::max(0.0, p.r));
        text += '\n';
    };
    const std::vector<Point> points = polyline(contour.outline, tolerance::kSectionMm);
    for (Point p : points) row(p);
    if (!points.empty()) row(points.front());
}

}  // namespace

std::string movesTable(const Trial& trial) {
    return MoveRows(trial).run();
}

Point sectionDatum(const Trial& trial) {
    const auto& moves = trial.toolpath.moves;
    auto first = std::find_if(moves.begin(), moves.end(), [](const Move& m) { return isFeed(m.kind); });
    if (first == moves.end()) first = moves.begin();
    return first == moves.end() ? trial.toolpath.datums.front() : trial.toolpath.datumOf(*first);
}

double sectionAngle(const Trial& trial, double angle) {
    if (!trial.stock) return 0;
    const StockCursor start(trial.stock);
    return start.billet().sectorAngle(start.billet().sectorNear(angle));
}

std::string sectionTable(const Trial& trial, double timeS, double angle) {
    if (!trial.stock) throw std::runtime_error(tr("the set-up gives no usable bar, so there is no section"));
    StockCursor cursor(trial.stock);
    if (!trial.timeline.moves.empty()) {
        const std::size_t at = trial.timeline.at(timeS);
        const double fraction = fractionAt(trial.timeline.moves[at], trial.toolpath, trial.setup, timeS);
        cursor.seek(static_cast<std::uint32_t>(at), fraction);
    }
    return sectionTable(cursor.contours(cursor.billet().sectorNear(angle)), sectionDatum(trial).z);
}

std::string sectionTable(const std::vector<SectionContour>& contours, double datumZ) {
    std::string text = "piece,loop,z_mm,r_mm\n";
    std::map<int, int> loops;  // how many of each piece so far
    for (const SectionContour& contour : contours) appendContour(text, contour, loops[contour.piece]++, datumZ);
    return text;
}

}  // namespace firstoff
