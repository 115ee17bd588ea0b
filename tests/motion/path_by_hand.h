// Toolpaths put together by hand for tests of the timeline. Positions are those of the turret reference in the lathe
// frame; no tool is called and the work frame is the lathe frame, so they are programmed positions as well.
#pragma once

#include <initializer_list>

#include "sim/control/toolpath.h"
#include "tests/support/shop.h"

namespace firstoff::shop {

// A lathe whose work frame is its lathe frame, with limits far away unless a test sets them.
inline Setup openLathe() {
    Setup setup = lathe();
    setup.workOffsets.fill({});
    setup.machine.travelZ = {-2000, 2000};
    setup.machine.travelR = {-2000, 2000};
    setup.machine.maxRevPerMin = 1e6;
    setup.machine.maxFeedMmPerMin = 1e6;
    setup.chuck.maxRevPerMin = 0;
    return setup;
}

inline ModalState constantSurfaceSpeed(double metresPerMin, double clampRevPerMin) {
    ModalState modal;
    modal.constantSurfaceSpeed = true;
    modal.speed = metresPerMin;
    modal.clampRevPerMin = clampRevPerMin;
    modal.spindle = SpindleDirection::Forward;
    return modal;
}

inline ModalState constantRevPerMin(double revPerMin) {
    ModalState modal;
    modal.speed = revPerMin;
    modal.spindle = SpindleDirection::Forward;
    return modal;
}

class PathByHand {
public:
    PathByHand(ModalState modal, double xDiameter, double z) : at_{z, xDiameter / 2} {
        path_.modals.push_back(modal);
        path_.calls.emplace_back();
    }
    PathByHand& rapid(double xDiameter, double z) { return add(MoveKind::Rapid, xDiameter, z, 0); }
    PathByHand& home(double xDiameter, double z) { return add(MoveKind::Home, xDiameter, z, 0); }
    PathByHand& feed(double xDiameter, double z, double feed) { return add(MoveKind::Feed, xDiameter, z, feed); }
    PathByHand& arc(MoveKind kind, double xDiameter, double z, double centreX, double centreZ, double feed) {
        add(kind, xDiameter, z, feed);
        path_.moves.back().centre = {centreZ, centreX / 2};
        return *this;
    }
    PathByHand& wait(MoveKind kind, double seconds) {
        add(kind, 2 * at_.r, at_.z, 0);
        path_.moves.back().seconds = seconds;
        return *this;
    }
    PathByHand& inBlock(BlockId block) {
        path_.moves.back().block = block;
        return *this;
    }
    Toolpath& path() { return path_; }

private:
    PathByHand& add(MoveKind kind, double xDiameter, double z, double feed) {
        Move move;
        move.from = at_;
        move.to = {z, xDiameter / 2};
        move.feed = feed;
        move.kind = kind;
        move.block = static_cast<BlockId>(path_.moves.size());
        path_.moves.push_back(move);
        at_ = move.to;
        return *this;
    }

    Toolpath path_;
    Point at_;
};

}  // namespace firstoff::shop
