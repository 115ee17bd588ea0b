// How an axis, or a tool along its path, gains and loses speed under an acceleration and, where it is known, a jerk.
//
// Notation. u, v: pace before and after, mm/s; d = |v - u|; a: acceleration, mm/s2; j: jerk, mm/s3. With jerk the
// acceleration grows to a, stays and falls again, standing at nothing at both ends:
//     time = d / a                                        without jerk
//     time = d / a + a / j             d >= a^2 / j       the acceleration reaches a
//     time = 2 sqrt(d / j)             else               it turns back before
// The pace runs point-symmetrically about the middle of the change, so that in every case
//     way = (u + v) / 2 * time.
// Elementary kinematics.
#pragma once

namespace firstoff {

struct PathDynamics {
    double acceleration = 0;  // mm/s2; 0: speeds change at once
    double jerk = 0;          // mm/s3; 0: the acceleration is there at once

    bool known() const { return acceleration > 0; }
};

double secondsOfChange(double from, double to, const PathDynamics& dynamics);
double wayOfChange(double from, double to, const PathDynamics& dynamics);

// Within a change: way and pace `time` seconds after its beginning, 0 <= time <= secondsOfChange().
double wayWithinChange(double from, double to, const PathDynamics& dynamics, double time);
double paceWithinChange(double from, double to, const PathDynamics& dynamics, double time);
// The inverse: when so much of the way has been gone, 0 <= way <= wayOfChange().
double secondsWithinChange(double from, double to, const PathDynamics& dynamics, double way);

// The greatest pace that can be reached from `pace` within a way; by symmetry also the greatest from which one can come
// down to it. Infinite where speeds change at once.
double paceWithinReach(double pace, double way, const PathDynamics& dynamics);

}  // namespace firstoff
