#include "sim/cutting/engaged_front.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/units.h"
#include "sim/cutting/front_on_columns.h"

namespace firstoff {

namespace {

// Elements whose normal leans on the travel by less than this slide along it.
constexpr double kSlides = 1e-9;

Outline mirrored(const Outline& outline) {
    const auto turned = [](Point p) { return Point{p.z, -p.r}; };
    Outline result;
    for (auto e = outline.elements.rbegin(); e != outline.elements.rend(); ++e) {
        result.elements.push_back({turned(e->to), turned(e->from), turned(e->centre), e->radius, e->cutting});
    }
    return result;
}

}  // namespace

ToolFront::ToolFront(const Tool& tool, double exponent, bool farSide)
    : exponent_(exponent),
      height_(tool.centreHeight),
      eitherEnd_(isBlade(tool.kind) || tool.insertShape == 'R'),
      onAxis_(worksOnTheAxis(tool.kind)) {
    if (!tool.cutting.empty()) parts_.push_back(tool.cutting);
    for (const Outline& step : tool.steps) {
        if (!step.empty()) parts_.push_back(step);
    }
    if (!farSide) return;
    for (Outline& part : parts_) part = mirrored(part);
}

void ToolFront::appendLine(Point a, Point b, std::vector<FrontPiece>& front) const {
    const double len = distance(a, b);
    if (len <= 0) return;
    // Anticlockwise: the outward normal lies to the right of the way round.
    const Point normal = (-1 / len) * leftOf(b - a);
    const double ahead = dot(normal, u_);
    if (ahead <= kSlides) return;
    FrontPiece piece;
    piece.from = a.z <= b.z ? a : b;
    piece.to = a.z <= b.z ? b : a;
    piece.normal = normal;
    piece.ahead = ahead;
    piece.aheadPow = std::pow(ahead, 1 - exponent_);
    front.push_back(piece);
}

// The stretch of it that looks ahead, parted where it turns back along z or r.
void ToolFront::appendArc(const OutlineElement& arc, std::vector<FrontPiece>& front) const {
    const auto angleOf = [&](Point p) { return std::atan2(p.r - arc.centre.r, p.z - arc.centre.z); };
    const double begin = angleOf(arc.from);
    double end = angleOf(arc.to);
    while (end < begin) end += 2 * kPi;
    const double ahead = std::atan2(u_.r, u_.z);
    for (int turn = -1; turn <= 1; ++turn) {
        double from = std::max(begin, ahead - kPi / 2 + 2 * kPi * turn);
        const double to = std::min(end, ahead + kPi / 2 + 2 * kPi * turn);
        while (from < to - 1e-12) {
            const double quarter = (std::floor(from / (kPi / 2) + 1e-9) + 1) * (kPi / 2);
            const double until = std::min(to, quarter);
            const auto at = [&](double a) { return arc.centre + arc.radius * Point{std::cos(a), std::sin(a)}; };
            const Point a = at(from), b = at(until);
            FrontPiece piece;
            piece.from = a.z <= b.z ? a : b;
            piece.to = a.z <= b.z ? b : a;
            piece.centre = arc.centre;
            piece.radius = arc.radius;
            piece.upper = std::sin((from + until) / 2) > 0;
            if (piece.to.z > piece.from.z) front.push_back(piece);
            from = until;
        }
    }
}

void ToolFront::appendFront(const Outline& part, std::vector<FrontPiece>& front) const {
    for (const OutlineElement& e : part.elements) {
        if (e.radius == 0) {
            appendLine(e.from, e.to, front);
        } else {
            appendArc(e, front);
        }
    }
}

// Whether another part has its front further ahead at the same place across the travel. Of fronts that lie in one, the
// first counts.
bool ToolFront::isHidden(Point at, std::size_t part, const std::vector<std::vector<FrontPiece>>& fronts) const {
    constexpr double kSameMm = 1e-9;
    const double w = cross(u_, at), along = dot(u_, at);
    for (std::size_t other = 0; other < fronts.size(); ++other) {
        if (other == part) continue;
        for (const FrontPiece& piece : fronts[other]) {
            const double wFrom = cross(u_, piece.from), wTo = cross(u_, piece.to);
            if (w < std::min(wFrom, wTo) || w > std::max(wFrom, wTo)) continue;
            double there = 0;
            if (piece.radius == 0) {
                there = dot(u_, piece.from + ((w - wFrom) / (wTo - wFrom)) * (piece.to - piece.from));
            } else {
                const double side = w - cross(u_, piece.centre);
                there = dot(u_, piece.centre) + std::sqrt(std::max(0.0, piece.radius * piece.radius - side * side));
            }
            if (there > along + (other < part ? -kSameMm : kSameMm)) return true;
        }
    }
    return false;
}

// The stretches of a piece that no other part hides. They begin and end at corners of other parts or where two fronts
// cross; steps of a hundredth of a piece do not miss a stretch of drills and step drills, whose fronts are a few long
// straight edges, and the crossing itself is found by halving.
void ToolFront::appendSeen(const FrontPiece& piece, std::size_t part,
                           const std::vector<std::vector<FrontPiece>>& fronts) {
    constexpr int kSteps = 100;
    const auto at = [&](double share) {
        return piece.radius == 0 ? piece.from + share * (piece.to - piece.from)
                                 : atZ(piece, piece.from.z + share * (piece.to.z - piece.from.z));
    };
    const auto border = [&](double seen, double hidden) {
        for (int i = 0; i < 50; ++i) {
            const double middle = (seen + hidden) / 2;
            (isHidden(at(middle), part, fronts) ? hidden : seen) = middle;
        }
        return seen;
    };
    const auto append = [&](double from, double to) {
        if (to - from < 1e-9) return;
        FrontPiece some = piece;
        some.from = at(from);
        some.to = at(to);
        pieces_.push_back(some);
    };
    double begin = 0;
    double before = 0.5 / kSteps;
    bool seen = !isHidden(at(before), part, fronts);
    for (int i = 1; i < kSteps; ++i) {
        const double here = (i + 0.5) / kSteps;
        const bool now = !isHidden(at(here), part, fronts);
        if (now && !seen) begin = border(here, before);
        if (!now && seen) append(begin, border(before, here));
        seen = now;
        before = here;
    }
    if (seen) append(begin, 1);
}

void ToolFront::face(Point u) {
    if (u == u_ && !pieces_.empty()) return;
    u_ = u;
    pieces_.clear();
    if (parts_.size() == 1) {
        appendFront(parts_.front(), pieces_);
    } else {
        std::vector<std::vector<FrontPiece>> fronts(parts_.size());
        for (std::size_t i = 0; i < parts_.size(); ++i) appendFront(parts_[i], fronts[i]);
        for (std::size_t i = 0; i < parts_.size(); ++i) {
            for (const FrontPiece& piece : fronts[i]) appendSeen(piece, i, fronts);
        }
    }
    zMin_ = wMin_ = std::numeric_limits<double>::infinity();
    zMax_ = wMax_ = -zMin_;
    for (const FrontPiece& piece : pieces_) {
        zMin_ = std::min(zMin_, piece.from.z);
        zMax_ = std::max(zMax_, piece.to.z);
        for (Point end : {piece.from, piece.to}) {
            wMin_ = std::min(wMin_, cross(u_, end));
            wMax_ = std::max(wMax_, cross(u_, end));
        }
    }
}

// Adds up engaged stretches.
struct ToolFront::Sum {
    EngagedSection section;
    Point u;
    double exponent = 0;  // 1 - mc
    bool most = false;    // of the bar's greatest reach: only `forceMost` and `torqueMost`
    // Ends of what is engaged, across the travel.
    double wMin = std::numeric_limits<double>::infinity(), wMax = -wMin;

    void add(const FrontPiece& piece, Point a, Point b, double weight) {
        if (!most) {
            const double w = cross(u, a), v = cross(u, b);
            wMin = std::min({wMin, w, v});
            wMax = std::max({wMax, w, v});
            section.farthest = std::max({section.farthest, a.r, b.r});
        }
        if (piece.radius == 0) return addLine(piece, a, b, weight);
        addArc(piece, a, b, weight);
    }

private:
    void addLine(const FrontPiece& piece, Point a, Point b, double weight) {
        const double db = weight * distance(a, b);
        const double force = piece.aheadPow * db;
        const Point middle = 0.5 * (a + b);
        if (most) {
            section.forceMost += force;
            section.torqueMost += middle.r * force;
            return;
        }
        section.across += piece.ahead * db;
        section.moment += middle.r * piece.ahead * db;
        section.width += db;
        section.greatest = std::max(section.greatest, piece.ahead);
        section.force += force;
        section.torque += middle.r * force;
        section.push = section.push + force * piece.normal;
        section.place = section.place + db * middle;
    }

    // By Gauss-Legendre with two points over stretches in which c hardly bends.
    void addArc(const FrontPiece& piece, Point a, Point b, double weight) {
        constexpr double kStep = 0.4;  // rad
        constexpr double kGauss = 0.28867513459481287;
        const Point p = a - piece.centre, q = b - piece.centre;
        const double turn = std::atan2(cross(p, q), dot(p, q));
        if (turn == 0) return;
        const int steps = 1 + static_cast<int>(std::abs(turn) / kStep);
        const double begin = std::atan2(p.r, p.z);
        const double db = weight * std::abs(turn) / steps * piece.radius / 2;
        double atBest = std::max(dot(p, u), dot(q, u)) / piece.radius;
        for (int i = 0; i < 2 * steps; ++i) {
            const double share = (i / 2 + 0.5 + (i % 2 == 0 ? -kGauss : kGauss)) / steps;
            const double angle = begin + share * turn;
            const Point normal{std::cos(angle), std::sin(angle)};
            const double ahead = std::max(0.0, dot(normal, u));
            const double force = std::pow(ahead, exponent) * db;
            const Point at = piece.centre + piece.radius * normal;
            if (most) {
                section.forceMost += force;
                section.torqueMost += at.r * force;
                continue;
            }
            section.moment += at.r * ahead * db;
            section.width += db;
            section.force += force;
            section.torque += at.r * force;
            section.push = section.push + force * normal;
            section.place = section.place + db * at;
            atBest = std::max(atBest, ahead);
        }
        if (most) return;
        section.across += weight * std::abs(cross(u, b - a));
        section.greatest = std::max(section.greatest, std::min(1.0, atBest));
    }
};

EngagedSection ToolFront::engagedIn(const Billet& billet, Point tip) const {
    // A hair ahead of where it stands: metal that it only rests on is not yet engaged, metal before it is.
    constexpr double kHairMm = 1e-7;
    const Point shift = tip + kHairMm * u_;
    Sum sum;
    sum.u = u_;
    sum.exponent = 1 - exponent_;
    const FrontOnColumns columns(billet, height_);
    const auto meet = [&](FrontOnColumns::Of of) {
        bool round = true;
        for (FrontPiece piece : pieces_) {
            piece.from = piece.from + shift;
            piece.to = piece.to + shift;
            piece.centre = piece.centre + shift;
            const bool roundHere =
                columns.meet(piece, of, [&](Point a, Point b, double weight) { sum.add(piece, a, b, weight); });
            round = round && roundHere;
        }
        return round;
    };
    const bool round = meet(FrontOnColumns::Of::Metal);
    if (sum.section.width > 0) {
        const double at = cross(u_, shift);
        tellAside(sum.wMin - at - wMin_, wMax_ + at - sum.wMax, sum.section);
    }
    if (round) {
        sum.section.forceMost = sum.section.force;
        sum.section.torqueMost = sum.section.torque;
        return sum.section;
    }
    sum.most = true;
    meet(FrontOnColumns::Of::Envelope);
    return sum.section;
}

void ToolFront::tellAside(double belowMm, double aboveMm, EngagedSection& section) const {
    // A column of the billet: so far off an end of the front still counts as in metal.
    constexpr double kReachMm = 0.002;
    if (onAxis_) {
        section.leavesSurface = true;
        return;
    }
    // Of an insert the end that lies nearer to the tip, whatever is engaged; of a blade the one that metal reaches.
    const double below = eitherEnd_ ? belowMm : std::abs(wMin_), above = eitherEnd_ ? aboveMm : std::abs(wMax_);
    if (std::abs(below - above) > kReachMm) section.aside = (below < above ? -1.0 : 1.0) * leftOf(u_);
    const bool byBelow = below <= above + kReachMm && belowMm <= kReachMm;
    const bool byAbove = above <= below + kReachMm && aboveMm <= kReachMm;
    section.leavesSurface = byBelow || byAbove;
}

}  // namespace firstoff
