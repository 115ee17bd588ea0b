#include "sim/drawing/contour_chain.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numeric>
#include <tuple>

#include "sim/base/contour_geometry.h"
#include "sim/base/say.h"

namespace firstoff {

namespace {

constexpr std::size_t kMostFaults = 20;
constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

// Puts points together that lie within kChainMm of each other. Points are sorted into square cells so small that all
// points of one cell belong together; then only cells two apart at most are looked at.
class Meeting {
public:
    explicit Meeting(const std::vector<Point>& points) : points_(points), group_(points.size()) {
        std::iota(group_.begin(), group_.end(), std::size_t{0});
        for (std::size_t i = 0; i < points.size(); ++i) cells_.push_back({cellOf(points[i].z), cellOf(points[i].r), i});
        std::sort(cells_.begin(), cells_.end());
        for (const Cell& cell : cells_) joinAround(cell);
    }

    std::size_t groupOf(std::size_t point) {
        while (group_[point] != point) point = group_[point] = group_[group_[point]];
        return point;
    }

private:
    using Cell = std::tuple<std::int64_t, std::int64_t, std::size_t>;
    static constexpr double kCellMm = kChainMm * 0.7;  // its diagonal is shorter than kChainMm
    // Points of one neighbouring cell that are looked at; more than that in one micrometre is a blot, not an outline.
    static constexpr int kMostInCell = 8;

    static std::int64_t cellOf(double mm) { return static_cast<std::int64_t>(std::floor(mm / kCellMm)); }

    void joinAround(const Cell& cell) {
        const auto [z, r, point] = cell;
        for (std::int64_t dz = -2; dz <= 2; ++dz) {
            for (std::int64_t dr = -2; dr <= 2; ++dr) joinWith(point, z + dz, r + dr);
        }
    }

    void joinWith(std::size_t point, std::int64_t z, std::int64_t r) {
        auto at = std::lower_bound(cells_.begin(), cells_.end(), Cell{z, r, 0});
        for (int n = 0; n < kMostInCell && at != cells_.end(); ++at, ++n) {
            if (std::get<0>(*at) != z || std::get<1>(*at) != r) return;
            const std::size_t other = std::get<2>(*at);
            if (distance(points_[point], points_[other]) <= kChainMm) join(point, other);
        }
    }

    // The group is known by its first point, so that it does not depend on the order of joining.
    void join(std::size_t a, std::size_t b) {
        a = groupOf(a);
        b = groupOf(b);
        group_[std::max(a, b)] = std::min(a, b);
    }

    const std::vector<Point>& points_;
    std::vector<std::size_t> group_;
    std::vector<Cell> cells_;
};

// One open path on its way between two nodes.
struct Link {
    std::size_t path = 0;
    std::size_t from = 0, to = 0;  // nodes
    bool used = false;
};

Contour reversed(const Contour& open) {
    Contour result(open.rbegin(), open.rend());
    for (std::size_t i = 0; i + 1 < result.size(); ++i) result[i].bulge = -result[i + 1].bulge;
    result.back().bulge = 0;
    return result;
}

bool isCircle(const Contour& c) {
    return c.size() == 2 && std::abs(c[0].bulge) == 1 && c[0].bulge == c[1].bulge;
}

bool everyCornerIsIn(const Contour& some, const Contour& other) {
    return std::all_of(some.begin(), some.end(), [&](const ContourCorner& corner) {
        return std::any_of(other.begin(), other.end(),
                           [&](const ContourCorner& o) { return distance(corner.at, o.at) <= kChainMm; });
    });
}

// A closed outline with what tells it from others.
struct Measured {
    std::size_t index = 0;
    Box box;
    double area = 0;
    // A mixture of the sides of its box, so that outlines side by side or in rows seldom have the same.
    double rank = 0;
};

// Outlines that are the same differ in rank by less than this: the weights of the mixture added up.
constexpr double kSameRank = 3 * kChainMm;

Measured measured(std::size_t index, const Contour& contour) {
    const Box box = boundingBox({contour});
    return {index, box, std::abs(areaOf(contour)), box.zMin + 0.618 * box.zMax + 0.377 * box.rMin + 0.272 * box.rMax};
}

bool sameOutline(const Measured& a, const Contour& ca, const Measured& b, const Contour& cb) {
    const auto near = [](double x, double y) { return std::abs(x - y) <= kChainMm; };
    const double around = 2 * (a.box.zMax - a.box.zMin + a.box.rMax - a.box.rMin);
    const bool alike = near(a.box.zMin, b.box.zMin) && near(a.box.zMax, b.box.zMax) && near(a.box.rMin, b.box.rMin) &&
                       near(a.box.rMax, b.box.rMax) && std::abs(a.area - b.area) <= kChainMm * around;
    if (!alike) return false;
    if (isCircle(ca) && isCircle(cb)) return true;
    return ca.size() == cb.size() && everyCornerIsIn(ca, cb) && everyCornerIsIn(cb, ca);
}

class Chaining {
public:
    explicit Chaining(const std::vector<DrawnPath>& paths) : paths_(paths) {}

    ChainedContours run() {
        gather();
        dropDoubles();
        listNodes();
        judgeNodes();
        for (std::size_t i = 0; i < links_.size(); ++i) follow(i);
        std::stable_sort(found_.begin(), found_.end(), [](const Found& a, const Found& b) { return a.path < b.path; });
        dropSameOutlines();
        noteDoubles();
        for (Found& found : found_) result_.contours.push_back(std::move(found.contour));
        return std::move(result_);
    }

private:
    struct Found {
        std::size_t path = 0;
        Contour contour;
    };

    void gather() {
        std::vector<std::size_t> open;
        for (std::size_t i = 0; i < paths_.size(); ++i) {
            const DrawnPath& path = paths_[i];
            if (path.corners.size() < 2) continue;
            if (path.closed) {
                found_.push_back({i, path.corners});
            } else {
                open.push_back(i);
                points_.push_back(path.corners.front().at);
                points_.push_back(path.corners.back().at);
            }
        }
        Meeting meeting(points_);
        for (std::size_t k = 0; k < open.size(); ++k) {
            const Link link{open[k], meeting.groupOf(2 * k), meeting.groupOf(2 * k + 1)};
            if (link.from != link.to) {
                links_.push_back(link);
            } else if (paths_[link.path].corners.size() > 2) {
                Contour corners = paths_[link.path].corners;
                corners.pop_back();
                found_.push_back({link.path, std::move(corners)});
            }
        }
    }

    // Paths of one edge that run between the same nodes with the same bulge are one path drawn twice.
    void dropDoubles() {
        constexpr double kSameBulge = 1e-6;
        std::vector<std::size_t> order(links_.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        const auto key = [&](std::size_t i) {
            const Link& link = links_[i];
            const Contour& corners = paths_[link.path].corners;
            const bool forward = link.from < link.to;
            const double bulge = forward ? corners.front().bulge : -corners.front().bulge;
            return std::tuple(corners.size(), std::min(link.from, link.to), std::max(link.from, link.to), bulge, i);
        };
        std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
        for (std::size_t n = 1; n < order.size(); ++n) {
            const auto [sizeA, fromA, toA, bulgeA, a] = key(order[n - 1]);
            const auto [sizeB, fromB, toB, bulgeB, b] = key(order[n]);
            const bool same = sizeA == 2 && sizeB == 2 && fromA == fromB && toA == toB && bulgeB - bulgeA < kSameBulge;
            if (!same) continue;
            links_[order[n]].used = true;
            countDouble(links_[order[n]].path);
        }
        std::erase_if(links_, [](const Link& link) { return link.used; });
    }

    void countDouble(std::size_t path) {
        if (doubles_++ == 0) doubleLine_ = paths_[path].line;
    }

    // Two outlines that lie on each other would make a hole of the whole blank.
    void dropSameOutlines() {
        std::vector<Measured> all;
        for (std::size_t i = 0; i < found_.size(); ++i) {
            all.push_back(measured(i, found_[i].contour));
        }
        std::stable_sort(all.begin(), all.end(), [](const Measured& a, const Measured& b) { return a.rank < b.rank; });
        std::vector<bool> drop(found_.size(), false);
        for (std::size_t i = 0; i < all.size(); ++i) {
            for (std::size_t k = i + 1; k < all.size(); ++k) {
                const Measured& a = all[i];
                const Measured& b = all[k];
                if (drop[a.index] || b.rank - a.rank > kSameRank) break;
                const std::size_t later = std::max(a.index, b.index);
                if (drop[later] || !sameOutline(a, found_[a.index].contour, b, found_[b.index].contour)) continue;
                drop[later] = true;
                countDouble(found_[later].path);
            }
        }
        std::vector<Found> kept;
        for (std::size_t i = 0; i < found_.size(); ++i) {
            if (!drop[i]) kept.push_back(std::move(found_[i]));
        }
        found_ = std::move(kept);
    }

    void noteDoubles() {
        if (doubles_ == 0) return;
        DrawingFault fault;
        fault.severity = Severity::Note;
        fault.code = "drawing-drawn-twice";
        fault.line = doubleLine_;
        fault.unproven = false;
        fault.message = say("{} lines, arcs or outlines lie on others and were taken once.", doubles_);
        fault.remedy = tr("Nothing, if the outline is whole.");
        result_.faults.push_back(std::move(fault));
    }

    void listNodes() {
        atNode_.resize(points_.size());
        for (std::size_t i = 0; i < links_.size(); ++i) {
            atNode_[links_[i].from].push_back(i);
            atNode_[links_[i].to].push_back(i);
        }
    }

    void judgeNodes() {
        std::vector<std::size_t> open;
        std::vector<std::size_t> branches;
        for (std::size_t node = 0; node < atNode_.size(); ++node) {
            if (atNode_[node].size() == 1) open.push_back(node);
            if (atNode_[node].size() > 2) branches.push_back(node);
        }
        for (std::size_t i = 0; i < std::min(open.size(), kMostFaults); ++i) tellOpen(open, i);
        for (std::size_t i = 0; i < std::min(branches.size(), kMostFaults); ++i) tellBranch(branches[i]);
        const std::size_t more =
            open.size() + branches.size() - std::min(open.size(), kMostFaults) - std::min(branches.size(), kMostFaults);
        if (more > 0) {
            add("drawing-open-end", 0, say("{} more open ends or branches like these.", more),
                tr("Close the outline."));
        }
    }

    void tellOpen(const std::vector<std::size_t>& open, std::size_t index) {
        const std::size_t node = open[index];
        double nearest = std::numeric_limits<double>::infinity();
        for (std::size_t other : open) {
            if (other != node) nearest = std::min(nearest, distance(points_[node], points_[other]));
        }
        const Point at = points_[node];
        DrawingFault& fault =
            add("drawing-open-end", paths_[links_[atNode_[node].front()].path].line,
                std::isfinite(nearest)
                    ? say("The outline is open at x {:.4f} y {:.4f} mm; the nearest other open end is {:.4g} mm away.",
                          at.z, at.r, nearest)
                    : say("The outline is open at x {:.4f} y {:.4f} mm.", at.z, at.r),
                say("Let the ends meet within {:g} mm; give centre lines and other helping lines a layer of "
                    "their own and name the layer of the outline.",
                    kChainMm));
        fault.place = points_[node];
    }

    void tellBranch(std::size_t node) {
        DrawingFault& fault =
            add("drawing-branch", paths_[links_[atNode_[node].back()].path].line,
                say("{} ends meet at x {:.4f} y {:.4f} mm, so where the outline runs on cannot be said.",
                    atNode_[node].size(), points_[node].z, points_[node].r),
                tr("Take helping lines out, or give them a layer of their own and name the layer of the outline."));
        fault.place = points_[node];
    }

    DrawingFault& add(const char* code, std::size_t line, std::string message, std::string remedy) {
        DrawingFault fault;
        fault.code = code;
        fault.line = line;
        fault.message = std::move(message);
        fault.remedy = std::move(remedy);
        result_.faults.push_back(std::move(fault));
        return result_.faults.back();
    }

    // Walks from one link until its start is reached again; nothing comes of it where an end is open or branches.
    void follow(std::size_t first) {
        if (links_[first].used) return;
        Contour contour;
        std::size_t at = links_[first].from;
        std::size_t index = first;
        while (index != kNone) {
            Link& link = links_[index];
            link.used = true;
            const Contour& corners = paths_[link.path].corners;
            const bool forward = link.from == at;
            const Contour& way = forward ? corners : reversed(corners);
            contour.insert(contour.end(), way.begin(), way.end() - 1);
            at = forward ? link.to : link.from;
            if (at == links_[first].from) break;
            index = nextAt(at, index);
        }
        const bool whole = index != kNone && atNode_[at].size() == 2;
        if (whole) found_.push_back({links_[first].path, std::move(contour)});
    }

    std::size_t nextAt(std::size_t node, std::size_t from) const {
        const std::vector<std::size_t>& here = atNode_[node];
        if (here.size() != 2) return kNone;
        const std::size_t next = here[0] == from ? here[1] : here[0];
        return links_[next].used ? kNone : next;
    }

    const std::vector<DrawnPath>& paths_;
    std::vector<Point> points_;  // both ends of every open path
    std::vector<Link> links_;
    std::vector<std::vector<std::size_t>> atNode_;
    std::vector<Found> found_;
    std::size_t doubles_ = 0;
    std::size_t doubleLine_ = 0;
    ChainedContours result_;
};

}  // namespace

ChainedContours chainContours(const std::vector<DrawnPath>& paths) {
    return Chaining(paths).run();
}

}  // namespace firstoff
