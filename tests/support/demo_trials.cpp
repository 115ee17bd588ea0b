#include "tests/support/demo_trials.h"

#include <map>

#include "sim/output/setup_files.h"
#include "tests/support/shop.h"

namespace firstoff::shop {

const Trial& demoTrial(const std::string& name) {
    static std::map<std::string, std::shared_ptr<const Trial>> tried;
    std::shared_ptr<const Trial>& trial = tried[name];
    if (!trial) {
        const std::string base = "assets/jobs/" + name;
        trial = runTrial(readProgram(readFile(base + ".nc"), name + ".nc"),
                         readSetup(readFile(base + ".toml"), name + ".toml",
                                   setupFilesBeside(std::string(FIRSTOFF_SOURCE_DIR) + "/" + base + ".toml")));
    }
    return *trial;
}

}  // namespace firstoff::shop
