#include "tests/support/trial_shop.h"

#include <algorithm>
#include <limits>

namespace firstoff::shop {

namespace {

// Radii at which a vertical line at lathe `z` crosses the loops of a piece.
std::vector<double> crossings(const std::vector<Loop>& loops, double z) {
    std::vector<double> radii;
    for (const Loop& loop : loops) {
        for (std::size_t i = 0; i < loop.points.size(); ++i) {
            const Point a = loop.points[i];
            const Point b = loop.points[(i + 1) % loop.points.size()];
            if ((a.z <= z) == (b.z <= z)) continue;
            radii.push_back(a.r + (b.r - a.r) * (z - a.z) / (b.z - a.z));
        }
    }
    std::sort(radii.begin(), radii.end());
    return radii;
}

const Severance& fallen(const Trial& trial, int piece) {
    return trial.stock->severances().at(piece - 1);
}

double latheZ(const Trial& trial, double workZ) {
    return workZ + trial.setup.workOffsets[0].z;
}

}  // namespace

std::shared_ptr<const Trial> run(const std::string& program, firstoff::Setup setup) {
    return runTrial(readProgram(program, "test"), std::move(setup));
}

firstoff::Setup stepSetup() {
    auto setup = barStock(40, 60);
    setup.turret.reset();
    setup.nearMiss = {0, 0};
    addTurningTool(setup, 1, 'C', 0.8);
    return setup;
}

std::vector<std::string> codes(const std::vector<Finding>& findings) {
    std::vector<std::string> all;
    for (const Finding& finding : findings) all.push_back(finding.code);
    return all;
}

std::vector<Finding> findings(const Trial& trial, const std::string& code) {
    std::vector<Finding> some;
    for (const Finding& finding : trial.findings) {
        if (finding.code == code) some.push_back(finding);
    }
    return some;
}

std::string foundInTheCut(const Trial& trial) {
    Trial without;
    for (const Finding& finding : trial.findings) {
        const bool habit = finding.code == "section-needs-earlier-words" || finding.code == "surface-speed-left-on" ||
                           finding.code == "section-cuts-nothing";
        const bool ofTime = finding.code == "feed-in-air" || finding.code == "long-retract";
        if (!habit && !ofTime) without.findings.push_back(finding);
    }
    return found(without);
}

std::string found(const Trial& trial) {
    std::string text;
    for (const Finding& finding : trial.findings) {
        if (!text.empty()) text += ' ';
        text += finding.code + '@' + std::to_string(finding.span.line);
    }
    return text;
}

double diameterAt(const Trial& trial, double workZ) {
    StockCursor cursor(trial.stock);
    cursor.seek(static_cast<std::uint32_t>(trial.timeline.moves.size()), 0);
    return 2 * cursor.outermostAt(latheZ(trial, workZ)).outer;
}

double pieceDiameterAt(const Trial& trial, int piece, double workZ) {
    const std::vector<double> radii = crossings(fallen(trial, piece).section, latheZ(trial, workZ));
    return radii.empty() ? 0 : 2 * radii.back();
}

double pieceBoreAt(const Trial& trial, int piece, double workZ) {
    const std::vector<double> radii = crossings(fallen(trial, piece).section, latheZ(trial, workZ));
    return radii.size() < 2 ? 0 : 2 * radii.front();
}

std::vector<double> pieceFacesAt(const Trial& trial, int piece, double diameter) {
    std::vector<double> faces;
    const double r = diameter / 2;
    for (const Loop& loop : fallen(trial, piece).section) {
        for (std::size_t i = 0; i < loop.points.size(); ++i) {
            const Point a = loop.points[i];
            const Point b = loop.points[(i + 1) % loop.points.size()];
            if ((a.r <= r) == (b.r <= r)) continue;
            faces.push_back(a.z + (b.z - a.z) * (r - a.r) / (b.r - a.r) - trial.setup.workOffsets[0].z);
        }
    }
    std::sort(faces.begin(), faces.end());
    return faces;
}

}  // namespace firstoff::shop
