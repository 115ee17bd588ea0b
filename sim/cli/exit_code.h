// What the command tells the shell.
#pragma once

#include "sim/base/finding.h"

namespace firstoff::cli {

enum class ExitCode : int { Clear = 0, Problems = 1, Unusable = 2, NotProven = 3 };

constexpr ExitCode exitCode(Verdict verdict) {
    switch (verdict) {
        case Verdict::Clear:
            return ExitCode::Clear;
        case Verdict::Problems:
            return ExitCode::Problems;
        case Verdict::NotProven:
            return ExitCode::NotProven;
    }
    return ExitCode::NotProven;
}

// The worse of two: unusable, then problems, then not proven, then clear.
constexpr ExitCode worse(ExitCode a, ExitCode b) {
    const auto rank = [](ExitCode code) {
        switch (code) {
            case ExitCode::Unusable:
                return 3;
            case ExitCode::Problems:
                return 2;
            case ExitCode::NotProven:
                return 1;
            case ExitCode::Clear:
                return 0;
        }
        return 3;
    };
    return rank(a) >= rank(b) ? a : b;
}

}  // namespace firstoff::cli
