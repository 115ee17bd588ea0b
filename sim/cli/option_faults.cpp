#include "sim/cli/option_faults.h"

#include <array>
#include <regex>

#include "sim/base/say.h"

namespace firstoff {

namespace {

// Its sentences, with what stands in them.
struct Fault {
    const char* told;   // a regular expression
    const char* words;  // its groups in their order
};
constexpr std::array kFaults{
    Fault{R"(A subcommand is required)", later("A subcommand is required")},
    Fault{R"((.+) is required)", later("{} is required")},
    Fault{R"(The following argument was not expected: (.+))", later("The following argument was not expected: {}")},
    Fault{R"(The following arguments were not expected: (.+))", later("The following arguments were not expected: {}")},
    Fault{R"((.+): 1 required \S+ missing)", later("{}: what it is to be is missing")},
    Fault{R"(Could not convert: (.+) = (.+))", later("{}: {} cannot be read")},
    Fault{R"((.+): Value (\S+) not in range (-?[0-9.]+?)\.?0* to (-?[0-9.]+?)\.?0*)",
          later("{}: {} is not in the range {} to {}")},
    Fault{R"((.+): (\S+) not in \{(.+)\})", later("{}: {} is none of {}")},
    Fault{R"((.+) requires (.+))", later("{} requires {}")},
    Fault{R"((.+) excludes (.+))", later("{} excludes {}")},
};

}  // namespace

std::string optionFault(std::string_view told) {
    const std::string text(told);
    for (const Fault& fault : kFaults) {
        std::smatch groups;
        if (!std::regex_match(text, groups, std::regex(fault.told))) continue;
        const auto group = [&](std::size_t n) { return n < groups.size() ? groups[n].str() : std::string(); };
        return fmt::format(fmt::runtime(tr(fault.words)), group(1), group(2), group(3), group(4));
    }
    return text;
}

}  // namespace firstoff
