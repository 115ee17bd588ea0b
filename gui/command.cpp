#include "gui/command.h"

#include <tuple>

#include "gui/any_command.h"

namespace firstoff::gui {

Commands::Commands() : list_(std::make_unique<List>()) {}
Commands::~Commands() = default;
Commands::Commands(Commands&&) noexcept = default;
Commands& Commands::operator=(Commands&&) noexcept = default;

template <class One>
void Commands::add(One command) {
    list_->all.emplace_back(std::move(command));
}

namespace {

template <class Any>
struct Adding;
template <class... One>
struct Adding<std::variant<One...>> {
    static constexpr std::tuple kAll{&Commands::add<One>...};
};

}  // namespace

// Makes the functions above for every command, so that the other files find them.
extern const decltype(Adding<Command>::kAll) kAddingOfEach;
const decltype(Adding<Command>::kAll) kAddingOfEach = Adding<Command>::kAll;

bool Commands::empty() const {
    return list_->all.empty();
}

std::vector<Seek> Commands::takeSeeks() {
    std::vector<Command>& all = list_->all;
    std::vector<Seek> seeks;
    for (const Command& command : all) {
        if (!std::holds_alternative<Seek>(command)) break;
        seeks.push_back(std::get<Seek>(command));
    }
    all.erase(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(seeks.size()));
    return seeks;
}

}  // namespace firstoff::gui
