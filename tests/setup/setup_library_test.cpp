// Machine and tool files that a set-up takes keys from.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "sim/setup/setup.h"
#include "tests/setup/lathe_text.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

// Files by name, as they would stand beside a set-up.
class Shelf {
public:
    explicit Shelf(std::map<std::string, std::string> files) : files_(std::move(files)) {}
    ReadSetupFile reader() const {
        return [this](std::string_view name) -> std::optional<std::string> {
            const auto at = files_.find(std::string(name));
            return at == files_.end() ? std::nullopt : std::optional(at->second);
        };
    }

private:
    std::map<std::string, std::string> files_;
};

const std::string kJob = R"([stock]
shape = "bar"
diameter_mm = 50
length_mm = 110
stick_out_mm = 70
[work_offsets.G54]
z_from_bar_end_mm = -1.0
)";
// Machine and chuck of the lathe in lathe_text.h, nothing of a job.
std::string machineText() {
    const std::string all = shop::latheText();
    return all.substr(0, all.find("[stock]")) + shop::kDisc;
}
const std::string kTool = R"([tool]
kind = "turning"
needs = "M03"
insert = "CNMG120408"
holder = "PCLNR 2020 K12"
overhang_mm = 35
)";
const std::string kPlaced = "[[tool]]\nstation = 1\nfrom = \"../tools/t.toml\"\ntip_x_mm = -120\ntip_z_mm = -60\n";

std::string told(const firstoff::Setup& setup) {
    std::string all;
    for (const Finding& f : setup.findings) {
        all += fmt::format("\n{} line {}: {}", f.code, f.span.line, f.message);
    }
    return all;
}

TEST(SetupLibrary, AMachineFileSaysWhatTheSetUpDoesNot) {
    const Shelf shelf({{"../machines/m.toml", machineText()}});
    const std::string own = "machine_file = \"../machines/m.toml\"\n[machine]\nindex_time_s = 2\n" + kJob;
    const auto setup = readSetup(own, "job.toml", shelf.reader());
    EXPECT_EQ(told(setup), "");
    EXPECT_EQ(setup.machine.indexTimeS, 2);
    EXPECT_EQ(setup.machine.maxRevPerMin, 4500);
    EXPECT_EQ(setup.chuck.bodyRadius, 82.5);
    ASSERT_TRUE(setup.turret);
    EXPECT_EQ(setup.turret->axisR, 192);
    // Places in the machine file are told at the key that names it.
    EXPECT_EQ(setup.turret->span.part, 0);
    EXPECT_EQ(setup.turret->span.line, 1u);
}

TEST(SetupLibrary, IsTheSameAsWritingItAll) {
    const Shelf shelf({{"m.toml", machineText()}, {"../tools/t.toml", kTool}});
    const auto taken = readSetup("machine_file = \"m.toml\"\n" + kJob + kPlaced, "a", shelf.reader());
    std::string tool = kTool;
    tool.replace(0, std::string("[tool]").size(), "[[tool]]\nstation = 1\ntip_x_mm = -120\ntip_z_mm = -60");
    const auto written = readSetup(machineText() + kJob + tool, "a");
    EXPECT_EQ(told(taken), "");
    EXPECT_EQ(told(written), "");
    ASSERT_EQ(taken.tools.size(), 1u);
    EXPECT_EQ(taken.tools[0].enteringAngle, written.tools[0].enteringAngle);
    EXPECT_EQ(taken.tools[0].shankSize, written.tools[0].shankSize);
    EXPECT_EQ(taken.machine.travelR.min, written.machine.travelR.min);
    EXPECT_EQ(taken.toolBlock.z.min, written.toolBlock.z.min);
    EXPECT_EQ(taken.workOffsets, written.workOffsets);
}

TEST(SetupLibrary, AKeyOfTheToolItselfCounts) {
    const Shelf shelf({{"../tools/t.toml", kTool}});
    const auto setup =
        readSetup(shop::latheText() + kPlaced + "overhang_mm = 41\nname = \"mine\"\n", "", shelf.reader());
    EXPECT_EQ(told(setup), "");
    EXPECT_EQ(setup.tools.at(0).overhang, 41);
    EXPECT_EQ(setup.tools.at(0).name, "mine");
}

// Another kind than the file's: what belongs to the old one is left aside, without a word.
TEST(SetupLibrary, AnotherKindLeavesTheKeysOfTheOldOne) {
    const Shelf shelf({{"m.toml", machineText()}});
    const auto setup = readSetup(
        "machine_file = \"m.toml\"\n[turret]\nkind = \"gang\"\nplate_x_mm = [80, 300]\nplate_y_mm = [-50, 50]\n" + kJob,
        "", shelf.reader());
    EXPECT_EQ(told(setup), "");
    EXPECT_EQ(setup.turret->kind, Turret::Kind::Gang);
    EXPECT_EQ(setup.toolBlock.width, 60);
}

TEST(SetupLibrary, BodiesComeOnTopAndTheirMeshesStandBesideTheMachineFile) {
    const std::string bodies =
        "[[body]]\nname = \"a\"\nfile = \"a.stl\"\n[[body]]\nname = \"b\"\nfile = \"/shop/b.stl\"\n";
    const Shelf shelf({{"../machines/m.toml", machineText() + bodies}});
    const auto setup =
        readSetup("machine_file = \"../machines/m.toml\"\n" + kJob + "[[body]]\nname = \"c\"\nfile = \"c.stl\"\n", "",
                  shelf.reader());
    EXPECT_EQ(told(setup), "");
    std::vector<std::string> files;
    for (const ExtraBody& body : setup.extraBodies) files.push_back(body.file);
    EXPECT_THAT(files, testing::UnorderedElementsAre("c.stl", "../machines/a.stl", "/shop/b.stl"));
}

TEST(SetupLibrary, AFindingSaysFileAndLineAndStandsAtTheKey) {
    std::string wrong = machineText();
    wrong.replace(wrong.find("= 384"), 5, "= 96");
    const Shelf shelf({{"m.toml", wrong}});
    const auto setup = readSetup("\nmachine_file = \"m.toml\"\n" + kJob, "", shelf.reader());
    ASSERT_EQ(setup.findings.size(), 1u) << told(setup);
    const Finding& f = setup.findings[0];
    EXPECT_EQ(f.code, "setup-turret");
    EXPECT_EQ(f.span.line, 2u);
    EXPECT_EQ(f.span.column, 16u);
    EXPECT_EQ(f.span.part, 0);
    EXPECT_THAT(f.message, testing::StartsWith("m.toml, line 22: "));
}

struct Wrong {
    const char* name;
    std::string machine, tool, own;
    const char* code;
    const char* says;
};

class EveryLibrary : public testing::TestWithParam<Wrong> {};

TEST_P(EveryLibrary, ThatCannotBeUsedIsOneFinding) {
    const Wrong& wrong = GetParam();
    const Shelf shelf({{"m.toml", wrong.machine}, {"../tools/t.toml", wrong.tool}});
    const auto setup = readSetup(wrong.own, "", shelf.reader());
    ASSERT_EQ(setup.findings.size(), 1u) << told(setup);
    EXPECT_EQ(setup.findings[0].code, wrong.code);
    EXPECT_EQ(setup.findings[0].severity, Severity::Stop);
    EXPECT_THAT(setup.findings[0].message, HasSubstr(wrong.says));
    EXPECT_FALSE(setup.findings[0].remedy.empty());
    EXPECT_EQ(setup.findings[0].span.part, 0);
    EXPECT_GT(setup.findings[0].span.line, 0u);
}

const std::string kTaken = "machine_file = \"m.toml\"\n";

INSTANTIATE_TEST_SUITE_P(
    Ways, EveryLibrary,
    testing::Values(
        Wrong{"missing", "", "", "machine_file = \"n.toml\"\n" + kJob, "setup-library-file", "\"n.toml\""},
        Wrong{"no name", "", "", "machine_file = \"\"\n" + kJob, "setup-library-file", "names no file"},
        Wrong{"no text", "", "", "machine_file = 3\n" + shop::latheText(), "setup-wrong-type", "a text in quotes"},
        Wrong{"twisted", "[machine\n", "", kTaken + kJob, "setup-library-file", "m.toml, line 1"},
        Wrong{"names a file itself", "machine_file = \"m.toml\"\n" + machineText(), "", kTaken + kJob,
              "setup-library-file", "cannot stand in a machine file"},
        Wrong{"holds stock", machineText() + kJob.substr(0, kJob.find("[work")), "", kTaken + kJob,
              "setup-library-file", "[stock] does not belong"},
        Wrong{"key outside", "speed = 3\n" + machineText(), "", kTaken + kJob, "setup-library-file", "speed"},
        Wrong{"unknown key", machineText() + "colour = 3\n", "", kTaken + kJob, "setup-unknown-key", "colour"},
        Wrong{"tool missing", "", "", shop::latheText() + "[[tool]]\nstation = 1\nfrom = \"none.toml\"\n",
              "setup-library-file", "\"none.toml\""},
        Wrong{"tool file without tool", "", "# nothing\n", shop::latheText() + kPlaced, "setup-library-file",
              "holds no tool"},
        Wrong{"two tools", "", kTool + "[chuck]\njaws = 3\n", shop::latheText() + kPlaced, "setup-library-file",
              "one table, [tool]"},
        Wrong{"station in a tool file", "", kTool + "station = 4\n", shop::latheText() + kPlaced, "setup-library-file",
              "station cannot stand"},
        Wrong{"tool file from another", "", kTool + "from = \"../tools/t.toml\"\n", shop::latheText() + kPlaced,
              "setup-library-file", "from cannot stand"},
        Wrong{"wrong in a tool file", "", kTool + "colour = 1\n", shop::latheText() + kPlaced, "setup-unknown-key",
              "../tools/t.toml, line 7"}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = c == ' ' ? '_' : c;
        return name;
    });

TEST(SetupLibrary, WithoutFilesASetUpSaysSo) {
    const auto setup = readSetup("machine_file = \"m.toml\"\n" + kJob, "");
    ASSERT_EQ(setup.findings.size(), 1u) << told(setup);
    EXPECT_EQ(setup.findings[0].code, "setup-library-file");
}

// Whatever the files say, the set-up is read, and what is wrong stands in the set-up itself.
RC_GTEST_PROP(SetupLibrary, AnyMistypedByteInAFileIsSurvived, ()) {
    const std::string keyboard = "0123456789.-+e\"[]=#abcxyz \n";
    std::string machine = machineText(), tool = kTool;
    const int slips = *rc::gen::inRange(1, 6);
    for (int i = 0; i < slips; ++i) {
        std::string& text = *rc::gen::arbitrary<bool>() ? machine : tool;
        const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
        text[at] = keyboard[*rc::gen::inRange<std::size_t>(0, keyboard.size())];
    }
    const Shelf shelf({{"m.toml", machine}, {"../tools/t.toml", tool}});
    const auto setup = readSetup("machine_file = \"m.toml\"\n" + kJob + kPlaced, "slip", shelf.reader());
    for (const Finding& f : setup.findings) {
        RC_ASSERT(f.span.part == 0);
        RC_ASSERT(!f.message.empty() && !f.remedy.empty());
    }
    for (const Tool& one : setup.tools) {
        RC_ASSERT(std::isfinite(boundingBox(one.cutting).zMax));
        const auto block = toolBlockOf(setup, one);
        RC_ASSERT(!block || (block->r.min < block->r.max && block->z.min < block->z.max));
    }
}

// A set-up of words and figures from the table of keys in any order: it ends, and no figure of it is not a number.
RC_GTEST_PROP(SetupLibrary, AnyTablesAreRead, ()) {
    static const std::vector<std::string> kPieces = {"[turret]\n",
                                                     "kind = \"disc\"\n",
                                                     "kind = \"gang\"\n",
                                                     "kind = \"collet\"\n",
                                                     "axis_x_mm = 1e4\n",
                                                     "plate_x_mm = [1, 2]\n",
                                                     "block_z_mm = [-5, 5]\n",
                                                     "block_width_mm = 3\n",
                                                     "[chuck]\n",
                                                     "step_diameters_mm = [1, 2]\n",
                                                     "step_lengths_mm = []\n",
                                                     "jaw = \"stepped\"\n",
                                                     "grip = \"inside\"\n",
                                                     "grip_length_mm = 9\n",
                                                     "[second_spindle]\n",
                                                     "[second_spindle.chuck]\n",
                                                     "approach_z_from_chuck_face_mm = 5\n",
                                                     "parked_z_from_chuck_face_mm = -5\n",
                                                     "[steady_rest]\n",
                                                     "bar_diameter_mm = 9999\n",
                                                     "[[body]]\n",
                                                     "name = \"x\"\n",
                                                     "on = \"station\"\n",
                                                     "station = 3\n",
                                                     "file = \"\"\n",
                                                     "z_mm = [0, 1]\n",
                                                     "x_mm = [0, 1]\n",
                                                     "y_mm = [0, 1]\n",
                                                     "[tailstock]\n",
                                                     "centre = \"dead\"\n",
                                                     "housing_diameter_mm = 4\n",
                                                     "[[tool]]\n",
                                                     "kind = \"turning\"\n",
                                                     "kind = \"drill\"\n",
                                                     "holder = \"PCLNR 2020 K12\"\n",
                                                     "holder = \"S20S-SCLCR 09\"\n",
                                                     "insert = \"CNMG120408\"\n",
                                                     "overhang_mm = 3\n",
                                                     "head_length_mm = 2\n",
                                                     "shank_mm = 400\n",
                                                     "collet_chuck_length_mm = 2\n",
                                                     "[m_codes.M7]\n",
                                                     "does = \"chuck-open\"\n",
                                                     "[near_miss]\n",
                                                     "feed_mm = 0\n",
                                                     "machine_file = \"m\"\n",
                                                     "from = \"m\"\n",
                                                     "[machine]\n",
                                                     "stations = 2\n",
                                                     "turret_diameter_mm = 2\n"};
    const auto picks = *rc::gen::container<std::vector<std::size_t>>(rc::gen::inRange<std::size_t>(0, kPieces.size()));
    std::string text;
    for (const std::size_t pick : picks) text += kPieces[pick];
    const Shelf shelf({{"m", text}});
    const auto setup = readSetup(text, "", shelf.reader());
    RC_ASSERT(!setup.findings.empty());  // there is never a whole set-up
    for (const Tool& tool : setup.tools) {
        const Box box = boundingBox(tool.cutting);
        RC_ASSERT(std::isfinite(box.zMin + box.zMax + box.rMin + box.rMax));
    }
}

// ---- The examples under assets ----

std::vector<std::string> exampleFiles(const std::string& folder) {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(FIRSTOFF_SOURCE_DIR "/assets/" + folder)) {
        names.push_back(entry.path().filename().string());
    }
    std::sort(names.begin(), names.end());
    return names;
}

std::optional<std::string> exampleBeside(std::string_view name) {
    return shop::readFile("assets/jobs/" + std::string(name));
}

TEST(Examples, EveryMachineIsReadWithoutAFinding) {
    const auto names = exampleFiles("machines");
    EXPECT_GE(names.size(), 8u);
    std::set<int> stations, jaws;
    for (const std::string& name : names) {
        std::string job = kJob;
        const std::string text = shop::readFile("assets/machines/" + name);
        if (text.find("\"inside\"") != std::string::npos) job.replace(job.find("\"bar\""), 5, "\"tube\"\nbore_mm = 40");
        if (text.find("\"collet\"") != std::string::npos) job.replace(job.find("= 50"), 4, "= 20");
        const auto setup = readSetup("machine_file = \"../machines/" + name + "\"\n" + job, name, exampleBeside);
        EXPECT_EQ(told(setup), "") << name;
        EXPECT_TRUE(setup.turret) << name;
        EXPECT_GT(setup.toolBlock.width, 0) << name;
        stations.insert(setup.machine.stations);
        if (setup.chuck.kind == Chuck::Kind::Jaws) jaws.insert(setup.chuck.jaws);
    }
    EXPECT_THAT(stations, testing::IsSupersetOf({8, 10, 12, 16}));
    EXPECT_THAT(jaws, testing::IsSupersetOf({2, 3, 4, 6}));
}

TEST(Examples, EveryToolIsReadWithoutAFindingAndHasItsBlock) {
    const auto names = exampleFiles("tools");
    EXPECT_GE(names.size(), 15u);
    for (const std::string& name : names) {
        auto setup =
            readSetup("machine_file = \"../machines/slant-bed-12.toml\"\n" + kJob +
                          "[[tool]]\nstation = 1\nfrom = \"../tools/" + name + "\"\ntip_x_mm = -80\ntip_z_mm = -30\n",
                      name, exampleBeside);
        ASSERT_EQ(setup.tools.size(), 1u) << name << told(setup);
        EXPECT_FALSE(setup.tools[0].cutting.empty()) << name;
        // Where the tip stands is the job's affair; across the axis it stands further in.
        if (!standsAlongZ(setup.tools[0])) {
            EXPECT_FALSE(setup.tools[0].holder.empty()) << name;
        } else {
            setup = readSetup("machine_file = \"../machines/slant-bed-12.toml\"\n" + kJob +
                                  "[[tool]]\nstation = 1\nfrom = \"../tools/" + name +
                                  "\"\ntip_x_mm = 0\ntip_z_mm = -120\n",
                              name, exampleBeside);
        }
        EXPECT_EQ(told(setup), "") << name;
        EXPECT_TRUE(toolBlockOf(setup, setup.tools[0])) << name;
    }
}

}  // namespace
}  // namespace firstoff
