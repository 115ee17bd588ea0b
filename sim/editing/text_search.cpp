#include "sim/editing/text_search.h"

#include <algorithm>
#include <charconv>

#include "sim/base/characters.h"

namespace firstoff {

namespace {

// What a number goes on with.
bool isOfNumber(char c) {
    return isDigit(c) || c == '.';
}
bool isSigned(char c) {
    return isOfNumber(c) || c == '-' || c == '+';
}
unsigned char capital(unsigned char c) {
    return c >= 'a' && c <= 'z' ? static_cast<unsigned char>(c - 'a' + 'A') : c;
}

bool beginsWord(char before, char first) {
    if (isLetter(first)) return !isLetter(before) && before != ',';
    if (isSigned(first)) return !isLetter(before) && !isSigned(before) && before != '#';
    return true;
}

bool endsWord(char last, char behind) {
    if (isLetter(last)) return !isLetter(behind) && !isSigned(behind);
    if (isOfNumber(last)) return !isOfNumber(behind);
    return true;
}

}  // namespace

TextSearch::TextSearch(TextQuery query) : query_(std::move(query)), folded_(query_.what) {
    for (std::size_t c = 0; c < fold_.size(); ++c) {
        const auto byte = static_cast<unsigned char>(c);
        fold_[c] = query_.matchCase ? byte : capital(byte);
    }
    for (char& c : folded_) c = static_cast<char>(fold_[static_cast<unsigned char>(c)]);
    shift_.fill(folded_.size());
    for (std::size_t i = 0; i + 1 < folded_.size(); ++i) {
        shift_[static_cast<unsigned char>(folded_[i])] = folded_.size() - 1 - i;
    }
}

bool TextSearch::equals(std::string_view text, std::size_t at) const {
    for (std::size_t i = 0; i < folded_.size(); ++i) {
        if (fold_[static_cast<unsigned char>(text[at + i])] != static_cast<unsigned char>(folded_[i])) return false;
    }
    return true;
}

bool TextSearch::isWhole(std::string_view text, std::size_t at) const {
    const std::size_t end = at + folded_.size();
    const bool begins = at == 0 || beginsWord(text[at - 1], text[at]);
    return begins && (end == text.size() || endsWord(text[end - 1], text[end]));
}

std::optional<std::size_t> TextSearch::occurrence(std::string_view text, std::size_t from, std::size_t before) const {
    const std::size_t size = folded_.size();
    if (size == 0 || text.size() < size) return std::nullopt;
    const std::size_t end = std::min(before, text.size() - size + 1);
    for (std::size_t at = from; at < end;) {
        if (equals(text, at)) return at;
        at += shift_[fold_[static_cast<unsigned char>(text[at + size - 1])]];
    }
    return std::nullopt;
}

std::optional<TextMatch> TextSearch::next(std::string_view text, std::size_t from, std::size_t before) const {
    for (auto at = occurrence(text, from, before); at; at = occurrence(text, *at + 1, before)) {
        if (!query_.wholeWords || isWhole(text, *at)) return TextMatch{*at, *at + folded_.size()};
    }
    return std::nullopt;
}

// Backwards in stretches that double, so that a near match is found at once and a far one in one go.
std::optional<TextMatch> TextSearch::previous(std::string_view text, std::size_t before) const {
    before = std::min(before, text.size());
    for (std::size_t stretch = 4096; before > 0; stretch *= 2) {
        const std::size_t from = before - std::min(before, stretch);
        std::optional<TextMatch> last;
        for (auto match = next(text, from, before); match; match = next(text, match->from + 1, before)) last = match;
        if (last) return last;
        before = from;
    }
    return std::nullopt;
}

bool TextSearch::matches(std::string_view text, TextMatch place) const {
    if (empty() || place.to > text.size() || place.from > place.to || place.to - place.from != folded_.size())
        return false;
    return equals(text, place.from) && (!query_.wholeWords || isWhole(text, place.from));
}

TextChanges replaceAll(std::string_view text, const TextSearch& search, std::string_view with) {
    TextChanges changes;
    for (auto match = search.next(text, 0); match; match = search.next(text, match->to)) {
        changes.push_back({match->from, match->to, std::string(with)});
    }
    return changes;
}

namespace {

// The sequence number with which a line begins, behind blanks and a block skip; -1 without one.
long numberOf(std::string_view line) {
    std::size_t at = 0;
    const auto blanks = [&] {
        while (at < line.size() && (line[at] == ' ' || line[at] == '\t')) ++at;
    };
    blanks();
    if (at < line.size() && line[at] == '/') {
        ++at;
        blanks();
        if (at < line.size() && isDigit(line[at])) ++at;
        blanks();
    }
    if (at >= line.size() || capital(static_cast<unsigned char>(line[at])) != 'N') return -1;
    ++at;
    blanks();
    long number = -1;
    std::from_chars(line.data() + at, line.data() + line.size(), number);
    return number;
}

std::optional<std::size_t> lineOfNumber(std::string_view text, long number, std::size_t from) {
    std::optional<std::size_t> first;
    std::size_t line = 0;
    for (std::size_t at = 0; at <= text.size(); ++line) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        if (numberOf(text.substr(at, end - at)) == number) {
            if (line > from) return line;
            if (!first) first = line;
        }
        at = end + 1;
    }
    return first;
}

}  // namespace

std::optional<std::size_t> lineAskedFor(std::string_view text, std::string_view wish, std::size_t from) {
    const auto strip = [&](auto drop) {
        while (!wish.empty() && drop(wish.front())) wish.remove_prefix(1);
        while (!wish.empty() && drop(wish.back())) wish.remove_suffix(1);
    };
    const auto isBlank = [](char c) { return c == ' ' || c == '\t'; };
    strip(isBlank);
    const bool sequence = !wish.empty() && (wish.front() == 'N' || wish.front() == 'n');
    if (sequence) wish.remove_prefix(1);
    strip(isBlank);
    long number = -1;
    const auto [end, error] = std::from_chars(wish.data(), wish.data() + wish.size(), number);
    if (error != std::errc() || end != wish.data() + wish.size() || number < 0) return std::nullopt;
    if (sequence) return lineOfNumber(text, number, from);
    const auto lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')) + 1;
    const auto line = static_cast<std::size_t>(number);
    if (line == 0 || line > lines) return std::nullopt;
    return line - 1;
}

}  // namespace firstoff
