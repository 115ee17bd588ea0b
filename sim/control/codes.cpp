#include "sim/control/codes.h"

namespace firstoff {

CodeGroup groupOfG(int tenths) {
    switch (tenths) {
        case 0:
        case 10:
        case 20:
        case 30:
            return CodeGroup::Motion;
        case 40:
        case 280:
        case 500:
        case 700:
        case 710:
        case 720:
        case 730:
            return CodeGroup::OneShot;
        case 530:
            return CodeGroup::Machine;
        case 200:
        case 210:
            return CodeGroup::Units;
        case 400:
        case 410:
        case 420:
            return CodeGroup::Compensation;
        case 540:
        case 550:
        case 560:
        case 570:
        case 580:
        case 590:
            return CodeGroup::WorkOffset;
        case 960:
        case 970:
            return CodeGroup::SpeedMode;
        case 980:
        case 990:
            return CodeGroup::FeedMode;
        default:
            return CodeGroup::Unknown;
    }
}

CodeGroup groupOfM(int tenths) {
    switch (tenths) {
        case 0:
        case 10:
        case 20:
        case 300:
        case 990:
            return CodeGroup::ProgramFlow;
        case 30:
        case 40:
        case 50:
            return CodeGroup::Spindle;
        case 60:
            return CodeGroup::ToolChange;
        case 80:
        case 90:
            return CodeGroup::Coolant;
        default:
            return CodeGroup::Unknown;
    }
}

}  // namespace firstoff
