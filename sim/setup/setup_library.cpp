#include "sim/setup/setup_library.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>

#include "sim/base/say.h"
#include "sim/setup/setup_keys.h"

namespace firstoff {

namespace {

// What belongs to the machine and not to the job.
constexpr auto kMachineTables =
    std::to_array<std::string_view>({"machine", "spindle", "times", "turret", "chuck", "tailstock", "second_spindle",
                                     "steady_rest", "body", "m_codes", "control"});
constexpr std::string_view kNearMiss = "near_miss";

bool belongsToMachine(const SetupTable& table) {
    const std::string_view keyTable = keyTableOf(table.name);
    return keyTable == kNearMiss ||
           std::find(kMachineTables.begin(), kMachineTables.end(), keyTable) != kMachineTables.end();
}

void putInto(std::uint16_t part, SetupDocument& document) {
    for (SetupTable& table : document.tables) {
        table.span.part = part;
        for (SetupEntry& entry : table.entries) entry.keySpan.part = entry.value.span.part = part;
    }
    for (Finding& finding : document.findings) finding.span.part = part;
}

// Letter of the kind that a table says it is of, 0 if it does not.
char kindSaid(const SetupTable& table, std::string_view keyTable) {
    const SetupEntry* kind = table.find(kindKeyOf(keyTable));
    return kind && kind->value.form == SetupValue::Form::Text ? kindLetter(keyTable, kind->value.text) : '\0';
}

// Keys that the own table does not say. Where it says another kind, those of that kind only.
void takeEntries(SetupTable& own, const SetupTable& from) {
    const std::string_view keyTable = keyTableOf(own.name);
    const char kind = kindSaid(own, keyTable);
    const bool other = kind != '\0' && kind != kindSaid(from, keyTable);
    for (const SetupEntry& entry : from.entries) {
        if (own.find(entry.key)) continue;
        const SetupKey* key = setupKey(keyTable, entry.key);
        if (other && key && !key->kinds.empty() && key->kinds.find(kind) == std::string_view::npos) continue;
        own.entries.push_back(entry);
    }
}

}  // namespace

class SetupLibrary::Taking {
public:
    Taking(SetupLibrary& library, SetupDocument& document, const ReadSetupFile& readFile)
        : files_(library.files_), document_(document), readFile_(readFile) {}

    void run() {
        takeMachine();
        for (SetupTable& table : document_.tables) {
            if (table.name == "tool") takeTool(table);
        }
    }

private:
    void stop(SourceSpan span, std::string message, std::string remedy) {
        document_.findings.push_back(setupStop("setup-library-file", span, std::move(message), std::move(remedy)));
    }

    // The name in a key, where it is one; what else is wrong with the key the check says.
    static const SetupEntry* named(const SetupTable& table, std::string_view key) {
        const SetupEntry* entry = table.find(key);
        return entry && entry->value.form == SetupValue::Form::Text ? entry : nullptr;
    }

    // Nothing if the file cannot be had or is no TOML, which is said.
    std::optional<SetupDocument> read(const SetupEntry& entry) {
        const std::string& name = entry.value.text;
        if (files_.size() >= std::numeric_limits<std::uint16_t>::max()) return std::nullopt;
        const std::optional<std::string> text = readFile_ && !name.empty() ? readFile_(name) : std::nullopt;
        if (!text) {
            stop(entry.value.span,
                 name.empty() ? say("{} names no file.", entry.key)
                              : say("The file \"{}\" cannot be had, so what it says is missing here.", name),
                 tr("Write its name as seen from the folder of this set-up, e.g. \"../machines/slant-bed-12.toml\"; a "
                    "set-up that was never saved has no folder yet."));
            return std::nullopt;
        }
        SetupDocument document = readSetupDocument(*text);
        files_.push_back({name, entry.value.span});
        putInto(static_cast<std::uint16_t>(files_.size()), document);
        if (document.findings.empty()) return document;
        // Not as a syntax error of the set-up itself, which is readable.
        stop(document.findings.front().span, document.findings.front().message, document.findings.front().remedy);
        return std::nullopt;
    }

    void takeMachine() {
        const auto loose = std::find_if(document_.tables.begin(), document_.tables.end(),
                                        [](const SetupTable& t) { return t.name.empty(); });
        if (loose == document_.tables.end()) return;
        const SetupEntry* entry = named(*loose, "machine_file");
        if (!entry) return;
        const std::optional<SetupDocument> machine = read(*entry);
        if (!machine) {
            document_.incomplete = true;
            return;
        }
        for (const SetupTable& table : machine->tables) takeMachineTable(table);
    }

    void takeMachineTable(const SetupTable& table) {
        if (table.name.empty()) {
            for (const SetupEntry& entry : table.entries) {
                stop(entry.keySpan, say("{} cannot stand in a machine file.", entry.key),
                     entry.key == "machine_file" ? tr("A machine file takes no keys from another file.")
                                                 : tr("Move it under the heading it belongs to."));
            }
        } else if (!belongsToMachine(table)) {
            if (table.name == "work_offsets" || table.name == "m_codes") {
                for (const SetupEntry& entry : table.entries) notOfTheMachine(entry.keySpan, entry.key);
            } else {
                notOfTheMachine(table.span, fmt::format("[{}]", table.name));
            }
        } else if (table.ofMany || !ownTable(table.name)) {
            document_.tables.push_back(table);
            if (table.name == "body") seeFromSetup(document_.tables.back());
        } else {
            takeEntries(*ownTable(table.name), table);
        }
    }

    // A mesh that a machine file names stands beside that file.
    void seeFromSetup(SetupTable& body) const {
        for (SetupEntry& entry : body.entries) {
            if (entry.key != "file" || entry.value.text.empty() || entry.value.text.front() == '/') continue;
            const std::string& machine = files_.back().name;
            entry.value.text.insert(0, machine.substr(0, machine.find_last_of("/\\") + 1));
        }
    }

    void notOfTheMachine(SourceSpan span, const std::string& what) {
        stop(span, say("{} does not belong in a machine file; it was not used.", what),
             say("A machine file holds {} and {}; the rest belongs in the set-up.", fmt::join(kMachineTables, ", "),
                 kNearMiss));
    }

    SetupTable* ownTable(std::string_view name) {
        for (SetupTable& table : document_.tables) {
            if (table.name == name) return &table;
        }
        return nullptr;
    }

    void takeTool(SetupTable& own) {
        const SetupEntry* entry = named(own, "from");
        if (!entry) return;
        const std::optional<SetupDocument> file = read(*entry);
        if (!file) {
            own.incomplete = true;
            return;
        }
        const SetupTable* tool = nullptr;
        for (const SetupTable& table : file->tables) {
            if (table.name == "tool" && !tool) {
                tool = &table;
            } else {
                stop(table.span.line > 0 ? table.span : table.entries.front().keySpan,
                     tr("A tool file holds one table, [tool]; the rest was not used."),
                     tr("Write one file for each tool."));
            }
        }
        if (!tool) {
            stop(entry->value.span, say("The file \"{}\" holds no tool.", entry->value.text),
                 tr("A tool file has one table, [tool], with the keys of a [[tool]]."));
            own.incomplete = true;
            return;
        }
        SetupTable taken = *tool;
        std::erase_if(taken.entries, [&](const SetupEntry& e) {
            if (e.key != "from" && e.key != "station") return false;
            stop(e.keySpan, say("{} cannot stand in a tool file; it was not used.", e.key),
                 tr("Write it in the [[tool]] of the set-up."));
            return true;
        });
        takeEntries(own, taken);
    }

    std::vector<File>& files_;
    SetupDocument& document_;
    const ReadSetupFile& readFile_;
};

void SetupLibrary::take(SetupDocument& document, const ReadSetupFile& readFile) {
    Taking(*this, document, readFile).run();
}

void SetupLibrary::tellInSetup(Finding& finding) const {
    if (finding.span.part == 0 || finding.span.part > files_.size()) return;
    const File& file = files_[finding.span.part - 1u];
    finding.message = say("{}, line {}: {}", file.name, finding.span.line, finding.message);
    finding.span = file.namedAt;
}

void SetupLibrary::tellInSetup(SourceSpan& span) const {
    if (span.part > 0 && span.part <= files_.size()) span = files_[span.part - 1u].namedAt;
}

}  // namespace firstoff
