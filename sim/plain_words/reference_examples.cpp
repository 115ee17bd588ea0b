#include "sim/plain_words/reference_examples.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <iterator>
#include <string_view>

namespace firstoff {

namespace {

// Stations of the tools in the examples.
enum Station : std::uint8_t { Turning = 1, Grooving, Threading, Boring, Drilling, Tapping };

struct Template {
    Order order = Order::Unknown;
    Station station = Turning;
    const char* before = "";  // lines that bring the tool there; not part of the example
    const char* lines = "";
    const char* linesBC = nullptr;  // in code systems B and C where they write it otherwise
    const char* behind = "";        // programs behind the end
};

constexpr const char* kBySideOfBar = "G00 X64. Z2.\n";
constexpr const char* kOnAxis = "G00 X0 Z5.\n";

constexpr Template kTemplates[] = {
    {Order::Rapid, Turning, "", "{} X62. Z2."},
    {Order::Feed, Turning, "G00 X40. Z2.\n", "{} Z-30. F0.2"},
    {Order::ArcClockwise, Turning, "G00 X30. Z2.\n", "G01 Z-20. F0.15\n{} X40. Z-25. R5."},
    {Order::ArcAnticlockwise, Turning, "G00 X20. Z2.\n", "G01 Z0 F0.15\n{} X30. Z-5. R5."},
    {Order::Thread, Threading, "G00 X26. Z6.\n", "G00 X19.4\n{} Z-25. F1.5\nG00 X26."},
    {Order::ThreadOfVariableLead, Threading, "G00 X26. Z6.\n", "G00 X19.4\n{} Z-25. F1.5 K0.01\nG00 X26."},
    {Order::TurningPass, Turning, kBySideOfBar, "{} X56. Z-30. F0.25\nX52."},
    {Order::ThreadingPass, Threading, "G00 X26. Z6.\n", "{} X19.4 Z-25. F1.5\nX18.8\nX18.4\nX18.16"},
    {Order::FacingPass, Turning, "G00 X64. Z3.\n", "{} X20. Z1. F0.2\nZ0"},
    {Order::DrillCancel, Drilling, kOnAxis, "G81 Z-25. R-3. F0.15\n{}", "G81 Z-25. R2. F0.15\n{}"},
    {Order::Drill, Drilling, kOnAxis, "{} Z-25. R-3. F0.15\nG80", "{} Z-25. R2. F0.15\nG80"},
    {Order::DrillWithDwell, Drilling, kOnAxis, "{} Z-25. R-3. P300 F0.15\nG80", "{} Z-25. R2. P300 F0.15\nG80"},
    {Order::PeckDrill, Drilling, kOnAxis, "{} Z-40. R-3. Q5000 F0.15\nG80", "{} Z-40. R2. Q5000 F0.15\nG80"},
    {Order::Tap, Tapping, kOnAxis, "{} Z-18. R-1. F1.5\nG80", "{} Z-18. R4. F1.5\nG80"},
    {Order::Bore, Drilling, kOnAxis, "{} Z-25. R-3. F0.15\nG80", "{} Z-25. R2. F0.15\nG80"},
    {Order::Dwell, Turning, "G00 X40. Z2.\nG01 Z-10. F0.2\n", "{} X0.5"},
    {Order::DataEntry, Turning, "", "{} P3 X-0.04 Z0"},
    {Order::Reference, Turning, kBySideOfBar, "{} U0 W0", "G91 {} X0 Z0\nG90"},
    {Order::CoordinateSetting, Turning, kBySideOfBar, "{} S2500\nG96 S180"},
    {Order::LocalShift, Turning, "", "{} Z-5.\nG00 X62. Z2.\n{} Z0"},
    {Order::MachinePosition, Turning, kBySideOfBar, "{} G00 X0 Z0"},
    {Order::MacroCall, Turning, kBySideOfBar, "{} P9010 A40. B30.", nullptr,
     "O9010\nG00 X#1\nG01 Z[-#2] F0.2\nG00 X64.\nZ2.\nM99\n"},
    {Order::ModalMacroCall, Turning, kBySideOfBar, "{} P9011 A0.5\nG00 X62. Z-10.\nZ-20.\nG67", nullptr,
     "O9011\nG04 X#1\nM99\n"},
    {Order::ModalMacroEnd, Turning, kBySideOfBar, "G66 P9011 A0.5\nG00 X62. Z-10.\n{}", nullptr,
     "O9011\nG04 X#1\nM99\n"},
    {Order::FinishingCycle, Turning,
     "G00 X64. Z2.\n{71} U2. R0.5\n{71} P100 Q120 U0.4 W0.1 F0.25\nN100 G00 X20.\nG01 Z-30. F0.12\nX40. Z-40.\n"
     "N120 X62.\n",
     "{} P100 Q120"},
    {Order::RoughingAlong, Turning, kBySideOfBar,
     "{} U2. R0.5\n{} P100 Q120 U0.4 W0.1 F0.25\nN100 G00 X20.\nG01 Z-30. F0.12\nX40. Z-40.\nN120 X62."},
    {Order::RoughingAcross, Turning, kBySideOfBar,
     "{} W2. R0.5\n{} P100 Q120 U0.4 W0.1 F0.2\nN100 G00 Z-20.\nG01 X40. F0.12\nZ-8.\nX20.\nN120 Z2."},
    {Order::PatternRepeat, Turning, kBySideOfBar,
     "{} U4. W2. R3\n{} P100 Q120 U0.4 W0.1 F0.25\nN100 G00 X20. Z0\nG01 Z-30. F0.12\nX40. Z-40.\nN120 X62."},
    {Order::FacePeck, Drilling, kOnAxis, "{} R1.\n{} Z-30. Q8000 F0.12"},
    {Order::GroovePeck, Grooving, "G00 X64. Z-20.\n", "{} R0.5\n{} X44. Z-30. P3000 Q2500 F0.08"},
    {Order::ThreadingCycle, Threading, "G00 X26. Z6.\n", "{} P020060 Q50 R0.02\n{} X18.16 Z-25. P920 Q250 F1.5"},
    {Order::Millimetres, Turning, "", "{} G40 {99}"},
    {Order::CompensationOff, Turning, "G00 X30. Z5.\nG42 X20. Z2.\nG01 Z-20. F0.12\nX62. Z-21.\n", "G00 {} X66. Z-18."},
    {Order::CompensationLeft, Boring, "G00 X20. Z5.\n", "G00 {} X30. Z2.\nG01 Z-15. F0.1\nX24.\nG00 G40 X20. Z-13."},
    {Order::CompensationRight, Turning, "G00 X64. Z5.\n",
     "G00 {} X20. Z2.\nG01 Z-20. F0.12\nX30. Z-25.\nX62.\nG00 G40 X66. Z-23."},
    {Order::ExactStop, Turning, "G00 X40. Z2.\n", "{} G01 Z-20. F0.2\nX62.\nG64"},
    {Order::ExactStopHere, Turning, "G00 X40. Z2.\n", "{} G01 Z-20. F0.2\nX62."},
    {Order::SurfaceSpeed, Turning, "G00 X62. Z2.\n", "{50} S2500\n{} S180"},
    {Order::FixedSpeed, Turning, "G00 X62. Z2.\n", "{} S800"},
    {Order::FeedPerMinute, Turning, "G00 X40. Z2.\n", "{} G01 Z-20. F120."},
    {Order::FeedPerRev, Turning, "G00 X40. Z2.\n", "{} G01 Z-20. F0.2"},
    {Order::Absolute, Turning, kBySideOfBar, "{} G00 X40. Z2."},
    {Order::Incremental, Turning, "G00 X40. Z2.\n", "{} G01 Z-22. F0.2\nG90"},
    {Order::ReturnToStart, Drilling, kOnAxis, "{} G81 Z-25. R2. F0.15\nG80"},
    {Order::ReturnToRetract, Drilling, kOnAxis, "{} G81 Z-25. R2. F0.15\nG80"},
    {Order::SpindleForward, Turning, "", "G97 S600 {}"},
    {Order::CoolantOn, Turning, "", "G00 X62. Z2. {}"},
    {Order::SubprogramCall, Turning, kBySideOfBar, "{} P1001 L2", nullptr,
     "O1001\nG00 X40. Z2.\nG01 Z-10. F0.2\nG00 X64.\nM99\n"},
};

int numberIn(const CodeEntry& entry, CodeSystem system) {
    return entry.number[entry.letter == 'G' ? static_cast<std::size_t>(system) : 0];
}

// The code that orders in `system` what G`number` orders in A.
std::string sameOrder(int number, CodeSystem system) {
    const CodeEntry* entry = codeEntry('G', 10 * number, CodeSystem::A);
    return entry == nullptr ? std::string() : writtenCode('G', numberIn(*entry, system));
}

std::string filled(std::string_view text, const std::string& code, CodeSystem system) {
    std::string out;
    while (!text.empty()) {
        const std::size_t open = text.find('{');
        out += text.substr(0, open);
        if (open == std::string_view::npos) break;
        const std::size_t close = text.find('}', open);
        const std::string inside(text.substr(open + 1, close - open - 1));
        out += inside.empty() ? code : sameOrder(std::atoi(inside.c_str()), system);
        text = text.substr(close + 1);
    }
    return out;
}

}  // namespace

std::string writtenCode(char letter, int tenths) {
    const std::string whole = fmt::format("{}{:02}", letter, tenths / 10);
    return tenths % 10 == 0 ? whole : fmt::format("{}.{}", whole, tenths % 10);
}

ReferenceExample exampleOf(const CodeEntry& entry, CodeSystem system) {
    const int number = numberIn(entry, system);
    const auto* found = std::find_if(std::begin(kTemplates), std::end(kTemplates),
                                     [&](const Template& t) { return t.order == entry.order; });
    if (number < 0 || found == std::end(kTemplates)) return {};
    const std::string code = writtenCode(entry.letter, number);
    const bool other = system != CodeSystem::A && found->linesBC != nullptr;
    ReferenceExample made;
    made.lines = filled(other ? found->linesBC : found->lines, code, system);
    made.program =
        filled(fmt::format("O0001\n{{21}} G40 {{99}}\nT{0:02}{0:02}\nG97 S500 M03\n", static_cast<int>(found->station)),
               code, system);
    made.program += filled(found->before, code, system);
    made.program += made.lines;
    made.program += "\nG00 X200. Z100.\nM05\nM30\n";
    made.program += found->behind;
    return made;
}

}  // namespace firstoff
