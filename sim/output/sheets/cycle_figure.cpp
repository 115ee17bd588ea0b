#include "sim/output/sheets/cycle_figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/output/sheets/part_outline.h"
#include "sim/output/sheets/sketch_marks.h"

namespace firstoff {

namespace {

constexpr double kEdgeMm = 3;        // of the sketch round what is drawn
constexpr double kTallestMm = 88;    // of the drawing
constexpr double kRoundMm = 4;       // of paper beyond the moves
constexpr double kSeenOfToolMm = 9;  // of paper
constexpr std::size_t kMany = 8;     // passes that are told apart with narrow lines
constexpr double kLegendRowMm = 4.5;
constexpr double kNumberMm = 2.4;  // height of the numbers of passes and of the legend
constexpr int kChords = 24;        // of an arc

bool hasProfile(Order order) {
    return order == Order::RoughingAlong || order == Order::RoughingAcross || order == Order::PatternRepeat ||
           order == Order::FinishingCycle;
}

// A letter of the block that calls the cycle, in mm.
double lengthWord(const Trial& trial, BlockId id, char letter, bool inches) {
    const Block& block = trial.program.blocks[id];
    for (const Word* word = trial.program.begin(block); word != trial.program.end(block); ++word) {
        if (word->letter != letter || word->form != Word::Form::Number || word->comma) continue;
        const bool increments =
            !word->hasPoint && trial.setup.control.wholeNumbers == ControlOptions::WholeNumbers::Increments;
        const double unit = inches ? kMmPerInch : 1;
        return word->value * unit * (increments ? (inches ? 1e-4 : 1e-3) : 1);
    }
    return 0;
}

// Points of a move by its chords, turret reference, without the first.
void append(std::vector<Point>& points, const Move& move) {
    const bool arc = move.kind == MoveKind::ArcClockwise || move.kind == MoveKind::ArcAnticlockwise;
    if (arc) {
        TimedMove whole;
        whole.from = move.from;
        whole.to = move.to;
        whole.centre = move.centre;
        whole.kind = move.kind;
        for (int i = 1; i < kChords; ++i) points.push_back(pointAt(whole, static_cast<double>(i) / kChords));
    }
    points.push_back(move.to);
}

// What is drawn of a line within a box, in runs.
std::vector<std::vector<Point>> within(const std::vector<Point>& line, const Box& box) {
    std::vector<std::vector<Point>> runs;
    bool open = false;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const Point a = line[i], d = line[i + 1] - line[i];
        double from = 0, to = 1;
        const auto cut = [&](double at, double way, double least, double most) {
            if (way == 0) {
                if (at < least || at > most) to = -1;
                return;
            }
            const double t0 = (least - at) / way, t1 = (most - at) / way;
            from = std::max(from, std::min(t0, t1));
            to = std::min(to, std::max(t0, t1));
        };
        cut(a.z, d.z, box.zMin, box.zMax);
        cut(a.r, d.r, box.rMin, box.rMax);
        if (from > to) {
            open = false;
            continue;
        }
        if (!open || from > 0) runs.push_back({a + from * d});
        runs.back().push_back(a + to * d);
        open = to >= 1;
    }
    return runs;
}

class CycleDrawing {
public:
    CycleDrawing(const Trial& trial, const CycleRun& run, double widthMm)
        : t_(trial), run_(run), path_(trial.toolpath), profile_(programmedProfile(trial, run)) {
        sketch_.width = widthMm;
        sketch_.title = say("The cycle of {}, drawn to scale", blockName(trial.program, run.block));
        findBox();
    }

    Sketch draw() {
        metal();
        tool();
        axis();
        if (profile_.size() > 1) line(profile_, LineKind::Wide);
        const bool many = run_.passes.size() > kMany;
        for (const CyclePass& pass : run_.passes) {
            const bool ends = &pass == &run_.passes.front() || &pass == &run_.passes.back();
            ways(pass, ends || !many, many ? LineKind::Fine : LineKind::Narrow);
        }
        numbers();
        datum();
        legend();
        return std::move(sketch_);
    }

private:
    const Move& move(std::uint32_t i) const { return path_.moves[i]; }
    Point tip(const Move& m, Point turret) const { return turret + path_.tipShift(m); }

    void widen(Point p) {
        if (!any_) box_ = {p.z, p.z, p.r, p.r};
        any_ = true;
        box_ = {std::min(box_.zMin, p.z), std::max(box_.zMax, p.z), std::min(box_.rMin, p.r), std::max(box_.rMax, p.r)};
    }

    // Round all that the cycle does; the axis with it where there is room.
    void findBox() {
        for (std::uint32_t i = run_.firstMove(); i < run_.endMove(); ++i) {
            // The way to the cycle may come from far.
            if (i > run_.firstMove()) widen(tip(move(i), move(i).from));
            widen(tip(move(i), move(i).to));
        }
        for (Point p : profile_) widen(p);
        const double room = sketch_.width - 2 * kEdgeMm;
        view_.scale = std::min(standardScale(box_.zMax - box_.zMin, room - 2 * kRoundMm),
                               standardScale(box_.rMax - box_.rMin, kTallestMm - 2 * kRoundMm));
        widenForTool();
        const double round = kRoundMm / view_.scale;
        box_ = {box_.zMin - round, box_.zMax + round, box_.rMin - round, box_.rMax + round};
        if (view_.scale * box_.rMax <= kTallestMm * 1.1) box_.rMin = std::min(box_.rMin, -1 / view_.scale);
        // What is left of the width shows more of the part towards the chuck.
        box_.zMin =
            std::min(box_.zMin, std::max(box_.zMax - room / view_.scale, box_.zMin - kMostBeside / view_.scale));
        const double left = (sketch_.width - view_.scale * (box_.zMax - box_.zMin)) / 2;
        view_.origin = {left - view_.scale * box_.zMin, kEdgeMm + view_.scale * box_.rMax};
        sketch_.height = 2 * kEdgeMm + view_.scale * (box_.rMax - box_.rMin);
    }

    // As much of the edge as tells which way it stands.
    void widenForTool() {
        const Move* last = lastCut();
        const int index = last == nullptr ? -1 : path_.calls[last->call].toolIndex;
        if (index < 0) return;
        const Tool& tool = t_.setup.tools[static_cast<std::size_t>(index)];
        if (tool.cutting.empty()) return;
        const Box edge = boundingBox(tool.cutting);
        const double most = kSeenOfToolMm / view_.scale;
        const Point at = tip(*last, last->to);
        // A hole is seen by its walls.
        if (worksOnTheAxis(tool.kind)) return widen(at + Point{0, edge.rMax + most / 2});
        widen(at + Point{std::max(edge.zMin, -most), std::max(edge.rMin, -most)});
        widen(at + Point{std::min(edge.zMax, most), std::min(edge.rMax, most)});
    }

    void line(const std::vector<Point>& points, LineKind kind) {
        for (const auto& run : within(points, box_)) {
            sketch_.marks.push_back(Stroke{kind, Shade::None, false, view_.at(run)});
        }
    }

    std::vector<Loop> sectionAt(std::uint32_t beforeMove) const {
        if (!t_.stock) return {};
        StockCursor cursor(t_.stock);
        cursor.seek(t_.timeline.firstOf[beforeMove], 0);
        return loopsOf(cursor.section(0.01 / view_.scale), 0);
    }

    // Without its edges along the axis, where nothing is to be seen.
    void outline(const Loop& loop, LineKind kind) {
        std::vector<Point> run;
        const auto end = [&] {
            if (run.size() > 1) line(run, kind);
            run.clear();
        };
        for (std::size_t i = 0; i < loop.points.size(); ++i) {
            const Point a = loop.points[i], b = loop.points[(i + 1) % loop.points.size()];
            constexpr double kOnAxis = 1e-6;
            if (a.r < kOnAxis && b.r < kOnAxis) {
                end();
                continue;
            }
            if (run.empty()) run.push_back(a);
            run.push_back(b);
        }
        end();
    }

    void metal() {
        const std::vector<Loop> after = sectionAt(run_.endMove());
        for (const Loop& loop : after) {
            std::vector<Point> inside = clipped(loop.points, box_);
            if (inside.size() > 2) addPolygon(sketch_, view_.at(inside), LineKind::None, Shade::Light);
        }
        for (const Loop& loop : sectionAt(run_.firstMove())) outline(loop, LineKind::Phantom);
        if (profile_.empty()) {
            for (const Loop& loop : after) outline(loop, LineKind::Wide);
        }
    }

    // The last one; of a tool on the axis, which may feed out again, the deepest.
    const Move* lastCut() const {
        const Move* found = nullptr;
        for (std::uint32_t i = run_.endMove(); i-- > run_.firstMove();) {
            if (!isFed(move(i))) continue;
            const int tool = path_.calls[move(i).call].toolIndex;
            const bool onAxis = tool >= 0 && worksOnTheAxis(t_.setup.tools[static_cast<std::size_t>(tool)].kind);
            if (found == nullptr || move(i).to.z < found->to.z) found = &move(i);
            if (!onAxis) break;
        }
        return found;
    }

    void tool() {
        const Move* last = lastCut();
        if (last == nullptr) return;
        const int index = path_.calls[last->call].toolIndex;
        if (index < 0) return;
        const Tool& tool = t_.setup.tools[static_cast<std::size_t>(index)];
        const Point at = tip(*last, last->to);
        std::vector<const Outline*> parts;
        if (!tool.cutting.empty()) parts.push_back(&tool.cutting);
        for (const Outline& step : tool.steps) parts.push_back(&step);
        for (const Outline* part : parts) {
            std::vector<Point> points = drawnPoints(*part, view_.scale);
            for (Point& p : points) p = p + at;
            points = clipped(points, box_);
            if (points.size() > 2) addPolygon(sketch_, view_.at(points), LineKind::Narrow, Shade::Middle);
        }
    }

    void axis() {
        if (box_.rMin > 0) return;
        addLine(sketch_, view_.at(Point{box_.zMin, 0}), view_.at(Point{box_.zMax, 0}), LineKind::Centre);
    }

    // One open line for all that a pass cuts, rapids dashed, and the way of the nose's centre.
    void ways(const CyclePass& pass, bool withRapids, LineKind kind) {
        std::vector<Point> cut;
        std::vector<std::vector<Point>> rapids, centres;
        for (std::uint32_t i = pass.first; i < pass.end; ++i) {
            const Move& m = move(i);
            if (m.kind == MoveKind::Dwell || m.kind == MoveKind::Index) continue;
            if (!isFed(m)) {
                if (withRapids && i > run_.firstMove()) rapids.push_back(rapidWay(i));
                continue;
            }
            std::vector<Point> points{m.from};
            append(points, m);
            for (Point& p : points) p = tip(m, p);
            if (cut.empty()) cut.push_back(points.front());
            cut.insert(cut.end(), points.begin() + 1, points.end());
            if (m.compensation != Compensation::Off) follow(centres, points, m);
        }
        for (const auto& rapid : rapids) line(rapid, LineKind::Hidden);
        for (const auto& centre : centres) line(centre, LineKind::Centre);
        centresDrawn_ |= !centres.empty();
        rapidsDrawn_ |= !rapids.empty();
        // Not clipped: the box goes round it, and a pass is one line.
        if (cut.size() > 1) sketch_.marks.push_back(Stroke{kind, Shade::None, false, view_.at(cut)});
    }

    // A rapid as the axes really go.
    std::vector<Point> rapidWay(std::uint32_t i) const {
        std::vector<Point> way{tip(move(i), move(i).from)};
        for (std::uint32_t k = t_.timeline.firstOf[i]; k < t_.timeline.firstOf[i + 1]; ++k) {
            way.push_back(tip(move(i), t_.timeline.moves[k].to));
        }
        return way;
    }

    void follow(std::vector<std::vector<Point>>& centres, std::vector<Point> points, const Move& m) const {
        const int index = path_.calls[m.call].toolIndex;
        if (index < 0) return;
        const Tool& tool = t_.setup.tools[static_cast<std::size_t>(index)];
        const Point toCentre = -tool.noseRadius * tipFromNoseCentre(tool.tipNumber);
        for (Point& p : points) p = p + toCentre;
        constexpr double kSamePlace = 1e-6;
        if (!centres.empty() && distance(centres.back().back(), points.front()) < kSamePlace) {
            centres.back().insert(centres.back().end(), points.begin() + 1, points.end());
        } else {
            centres.push_back(std::move(points));
        }
    }

    // Numbers of the passes where their cuts begin, or end on the axis, as far as there is room for them.
    void numbers() {
        if (run_.passes.size() < 2) return;
        std::vector<PaperPoint> taken;
        for (std::size_t i = 0; i < run_.passes.size(); ++i) {
            const CyclePass& pass = run_.passes[i];
            const auto* cut = firstCut(pass);
            if (cut == nullptr) continue;
            const bool alongZ = std::abs(cut->to.z - cut->from.z) >= std::abs(cut->to.r - cut->from.r);
            const bool onAxis = std::abs(tip(*cut, cut->to).r) < 1e-3;
            PaperPoint at = view_.at(tip(*cut, onAxis ? cut->to : cut->from));
            at.x += onAxis ? 0.6 : alongZ ? 1.2 : 0.8;
            at.y += onAxis ? kNumberMm + 1 : alongZ ? kNumberMm / 2 : kNumberMm + 1;
            const bool crowded = std::any_of(taken.begin(), taken.end(), [&](PaperPoint p) {
                return std::abs(p.x - at.x) < 3.2 && std::abs(p.y - at.y) < kNumberMm + 0.3;
            });
            if (crowded) continue;
            taken.push_back(at);
            addText(sketch_, at, std::to_string(i + 1), Lettering::Anchor::Start, kNumberMm);
        }
    }

    const Move* firstCut(const CyclePass& pass) const {
        for (std::uint32_t i = pass.first; i < pass.end; ++i) {
            if (isFed(move(i))) return &move(i);
        }
        return nullptr;
    }

    void datum() {
        const Point at = path_.datumOf(move(run_.firstMove()));
        if (at.z < box_.zMin || at.z > box_.zMax || at.r < box_.rMin || at.r > box_.rMax) return;
        addDatumMark(sketch_, view_.at(at));
    }

    void legend() {
        double x = kEdgeMm, y = sketch_.height + kLegendRowMm / 2;
        const auto entry = [&](LineKind kind, Shade shade, const std::string& text) {
            constexpr double kSample = 8;
            const double wide = kSample + 1.5 + letteringWidth(text, kNumberMm) + 3;
            if (x + wide > sketch_.width && x > kEdgeMm) {
                x = kEdgeMm;
                y += kLegendRowMm;
            }
            if (shade == Shade::None) {
                addLine(sketch_, {x, y}, {x + kSample, y}, kind);
            } else {
                addPolygon(sketch_, {{x, y - 1.2}, {x + kSample, y - 1.2}, {x + kSample, y + 1.2}, {x, y + 1.2}}, kind,
                           shade);
            }
            addText(sketch_, {x + kSample + 1.5, y + kNumberMm / 2}, text, Lettering::Anchor::Start, kNumberMm);
            x += wide;
        };
        const bool many = run_.passes.size() > kMany;
        entry(LineKind::Phantom, Shade::None, tr("metal before"));
        entry(LineKind::None, Shade::Light, tr("metal left"));
        entry(LineKind::Wide, Shade::None, profile_.empty() ? tr("outline after it") : tr("programmed profile"));
        entry(many ? LineKind::Fine : LineKind::Narrow, Shade::None, tr("tip at feed"));
        if (rapidsDrawn_) {
            entry(LineKind::Hidden, Shade::None, many ? tr("at rapid, first and last pass") : tr("tip at rapid"));
        }
        if (centresDrawn_) entry(LineKind::Centre, Shade::None, tr("centre of the nose"));
        entry(LineKind::Narrow, Shade::Middle, tr("edge at the end of the cut"));
        const std::string scale = say("scale {}", scaleInWords(view_.scale));
        if (x + letteringWidth(scale, kNumberMm) > sketch_.width) {
            x = kEdgeMm;
            y += kLegendRowMm;
        }
        addText(sketch_, {x, y + kNumberMm / 2}, scale, Lettering::Anchor::Start, kNumberMm);
        sketch_.height = y + kLegendRowMm / 2;
    }

    static constexpr double kMostBeside = 25;  // mm of paper towards the chuck beyond what the cycle does

    const Trial& t_;
    const CycleRun& run_;
    const Toolpath& path_;
    std::vector<Point> profile_;
    Sketch sketch_;
    PaperView view_;
    Box box_;
    bool any_ = false, centresDrawn_ = false, rapidsDrawn_ = false;
};

}  // namespace

std::vector<Point> programmedProfile(const Trial& trial, const CycleRun& run) {
    if (!hasProfile(run.order)) return {};
    // With sharp edges compensation moves nothing: the tip runs along what is programmed.
    Setup sharp = trial.setup;
    for (Tool& tool : sharp.tools) tool.noseRadius = 0;
    for (Offset& offset : sharp.offsets) {
        if (offset.noseRadius) offset.noseRadius = 0;
    }
    const Toolpath path = interpret(trial.program, sharp);
    std::vector<Point> profile;
    Point left;  // what the cycle leaves on for finishing
    std::uint16_t pass = 0;
    for (const Move& move : path.moves) {
        if (move.cycleBlock != run.block) {
            if (!profile.empty()) break;
            continue;
        }
        if (!isFed(move) || move.block == run.block) continue;
        if (move.pass != pass) profile.clear();
        pass = move.pass;
        const ModalState& modal = path.modals[move.modal];
        if (run.order != Order::FinishingCycle) {
            const double across = trial.setup.control.radiusProgramming ? 1 : 2;
            left = {lengthWord(trial, run.block, 'W', modal.inches),
                    lengthWord(trial, run.block, 'U', modal.inches) / across};
        }
        const Point shift = path.calls[move.call].reckoned - left;
        std::vector<Point> points{move.from};
        append(points, move);
        for (Point& p : points) p = p + shift;
        profile.insert(profile.end(), points.begin() + (profile.empty() ? 0 : 1), points.end());
    }
    return profile;
}

Sketch cycleFigure(const Trial& trial, const CycleRun& run, double widthMm) {
    return CycleDrawing(trial, run, widthMm).draw();
}

}  // namespace firstoff
