#include "sim/training/program_needs.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/control/codes.h"
#include "sim/output/finding_words.h"
#include "sim/output/table_figures.h"
#include "sim/training/cut_depth.h"
#include "sim/training/finished_part.h"

namespace firstoff {

namespace {

bool isFeed(MoveKind kind) {
    return kind == MoveKind::Feed || kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise;
}

const Move* moveOf(const Trial& trial, CutId cut) {
    if (!isCutHere(cut) || cut >= trial.timeline.moves.size()) return nullptr;
    return &trial.toolpath.moves[trial.timeline.moves[cut].move];
}

// The number in code system A of a cycle that a block calls for once; 0 if it calls none.
int oneShotCycle(const Trial& trial, BlockId id) {
    const Block& block = trial.program.blocks[id];
    for (const Word* word = trial.program.begin(block); word != trial.program.end(block); ++word) {
        if (word->letter != 'G' || word->form != Word::Form::Number) continue;
        const CodeEntry* code =
            codeEntry('G', static_cast<int>(std::lround(10 * word->value)), trial.setup.control.codeSystem);
        if (!code || code->order < Order::FinishingCycle || code->order > Order::ThreadingCycle) continue;
        constexpr int kFinishing = 70;  // G70 to G76 in the order of their list
        return kFinishing + static_cast<int>(code->order) - static_cast<int>(Order::FinishingCycle);
    }
    return 0;
}

class Needs {
public:
    Needs(const Trial& made, const Trial& model, const ProgramNeeds& needs)
        : made_(made), model_(model), needs_(needs) {}

    std::vector<std::string> unmet() {
        findings();
        time();
        speed();
        depth();
        if (needs_.speedClamp) clamp();
        if (needs_.compensation)
            likeTheModel(compensated, later("The surface that {} leaves was cut without nose-radius compensation."));
        if (needs_.surfaceSpeed)
            likeTheModel(atSurfaceSpeed,
                         later("The surface that {} leaves was not cut at constant surface speed (G96)."));
        cycles();
        return std::move(unmet_);
    }

private:
    std::string lineOf(std::size_t move) const { return made_.program.lineName(made_.shownBlock(move)); }

    void findings() {
        for (const Finding& finding : made_.findings) {
            if (std::find(needs_.gone.begin(), needs_.gone.end(), finding.code) == needs_.gone.end()) continue;
            if (finding.severity != Severity::Note && !finding.unproven) continue;  // told as a problem
            unmet_.push_back(say("Still there: {}: {} {}", whereOf(finding, made_.program, made_.setup.name),
                                 finding.message, finding.remedy));
        }
    }

    void time() {
        if (!needs_.mostLongerS) return;
        const double longer = made_.timeline.cycleTimeS - model_.timeline.cycleTimeS;
        if (longer <= *needs_.mostLongerS) return;
        unmet_.push_back(
            say("The program takes {}, {:.1f} s longer than the model solution; up to {:g} s more are allowed.",
                durationInWords(made_.timeline.cycleTimeS), longer, *needs_.mostLongerS));
    }

    void speed() {
        if (!needs_.mostRevPerMin) return;
        double most = *needs_.mostRevPerMin;
        const TimedMove* fastest = nullptr;
        for (const TimedMove& timed : made_.timeline.moves) {
            const double rev = std::max(timed.rpmStart, timed.rpmEnd);
            constexpr double kRounding = 1e-6;
            if (rev <= most + kRounding) continue;
            most = rev;
            fastest = &timed;
        }
        if (!fastest) return;
        unmet_.push_back(say("The spindle turns at up to {:.0f} rev/min in {}; no more than {:g} are allowed.", most,
                             lineOf(fastest->move), *needs_.mostRevPerMin));
    }

    void depth() {
        if (!needs_.deepestCutMm || !made_.stock) return;
        double most = *needs_.deepestCutMm + tolerance::kTouchMm;
        const TimedMove* deepest = nullptr;
        for (std::size_t k = 0; k < made_.timeline.moves.size(); ++k) {
            const TimedMove& timed = made_.timeline.moves[k];
            if (!isFeed(timed.kind) || made_.stock->cuts()[k].deepestMm <= most) continue;
            const double depth = depthAlong(made_, k).value_or(0);
            if (depth <= most) continue;
            most = depth;
            deepest = &timed;
        }
        if (!deepest) return;
        unmet_.push_back(say("The cut of {} is {:.2f} mm deep; no more than {:g} are allowed.", lineOf(deepest->move),
                             most, *needs_.deepestCutMm));
    }

    void clamp() {
        for (std::size_t i = 0; i < made_.toolpath.moves.size(); ++i) {
            const Move& move = made_.toolpath.moves[i];
            const ModalState& modal = made_.toolpath.modals[move.modal];
            if (!isFeed(move.kind) || !modal.constantSurfaceSpeed || modal.clampRevPerMin > 0) continue;
            unmet_.push_back(
                say("In {} the surface speed is held without a speed clamp: write G50 S… before G96.", lineOf(i)));
            return;  // the first one says it all
        }
    }

    using Has = bool (*)(const Trial&, const Move&);

    static bool compensated(const Trial&, const Move& move) { return move.compensation != Compensation::Off; }
    static bool atSurfaceSpeed(const Trial& trial, const Move& move) {
        return trial.toolpath.modals[move.modal].constantSurfaceSpeed;
    }

    // Surfaces that the model leaves in some way must be left so here too. `{}`: the line that does not.
    void likeTheModel(Has has, const char* unmet) {
        const PartOutline wanted = finishedOutline(model_, pieceOfPart(model_));
        const PartOutline outline = finishedOutline(made_, pieceOfPart(made_));
        std::set<BlockId> told;
        for (const OutlineEdge& edge : outline.edges()) {
            const Move* mine = moveOf(made_, edge.cut);
            if (!mine || has(made_, *mine)) continue;
            const auto near = wanted.nearest(pointAlong(edge, 0.5));
            const Move* models = near ? moveOf(model_, wanted.edges()[near->edge].cut) : nullptr;
            if (!models || !has(model_, *models)) continue;
            const BlockId block = made_.shownBlock(made_.timeline.moves[edge.cut].move);
            if (!told.insert(block).second) continue;
            const std::string line = made_.program.lineName(block);
            unmet_.push_back(sayFormatted(unmet, fmt::make_format_args(line)));
        }
    }

    void cycles() {
        if (needs_.cycles.empty()) return;
        const std::vector<int> ran = cyclesCarriedOut(made_);
        auto at = ran.begin();
        for (const int cycle : needs_.cycles) {
            at = std::find(at, ran.end(), cycle);
            if (at == ran.end()) {
                unmet_.push_back(say("Asked for are the cycles {}; carried out were {}.", listed(needs_.cycles),
                                     ran.empty() ? std::string(tr("none")) : listed(ran)));
                return;
            }
            ++at;
        }
    }

    static std::string listed(const std::vector<int>& cycles) {
        std::string text;
        for (const int cycle : cycles) {
            if (!text.empty()) text += ", ";
            text += fmt::format("G{}", cycle);
        }
        return text;
    }

    const Trial& made_;
    const Trial& model_;
    const ProgramNeeds& needs_;
    std::vector<std::string> unmet_;
};

}  // namespace

std::vector<std::string> unmetNeeds(const Trial& made, const Trial& model, const ProgramNeeds& needs) {
    return Needs(made, model, needs).unmet();
}

std::vector<int> cyclesCarriedOut(const Trial& trial) {
    std::vector<int> cycles;
    BlockId last = kNoBlock;
    for (const Move& move : trial.toolpath.moves) {
        if (move.cycleBlock != kNoBlock && move.cycleBlock != last) {
            const int once = oneShotCycle(trial, move.cycleBlock);
            cycles.push_back(once > 0 ? once : trial.toolpath.modals[move.modal].motion);
        }
        last = move.cycleBlock;
    }
    return cycles;
}

}  // namespace firstoff
