#include <algorithm>
#include <cctype>
#include <optional>

#include "sim/plain_words/code_reference.h"

namespace firstoff {

namespace {

// How well a word fits a row, the lower the better.
enum Fit : int { Itself = 0, CodeBegins = 1, InMeaning = 2, InWords = 3, Somewhere = 4 };

// Whole words add up to a better fit than the sum of their parts would.
constexpr int kOnePhrase = -2;
// Shorter ones count only where a word begins with them: "u" is in nearly every row.
constexpr std::size_t kLongEnough = 3;

bool isWordy(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || static_cast<unsigned char>(c) >= 0x80;
}

std::vector<std::string> wordsOf(std::string_view typed) {
    std::vector<std::string> words;
    bool within = false;
    for (const char c : typed) {
        const bool blank = std::isspace(static_cast<unsigned char>(c)) != 0;
        if (!blank && !within) words.emplace_back();
        if (!blank) words.back() += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        within = !blank;
    }
    return words;
}

// "g1" as the table writes it: "g01".
std::string asWritten(const std::string& word) {
    const bool oneFigure = word.size() > 1 && (word[0] == 'g' || word[0] == 'm') && word[1] >= '0' && word[1] <= '9' &&
                           (word.size() == 2 || word[2] == '.');
    if (!oneFigure) return word;
    std::string written(1, word[0]);
    written += '0';
    written += word.substr(1);
    return written;
}

bool wordBegins(std::string_view text, std::string_view with) {
    for (std::size_t at = text.find(with); at != std::string_view::npos; at = text.find(with, at + 1)) {
        if (at == 0 || !isWordy(text[at - 1])) return true;
    }
    return false;
}

std::optional<int> fit(const ReferenceRow& row, const std::string& word) {
    if (row.codeLower == word || row.codeLower == asWritten(word)) return Itself;
    if (row.codeLower.starts_with(word)) return CodeBegins;
    if (wordBegins(row.meaningLower, word)) return InMeaning;
    if (wordBegins(row.allLower, word)) return InWords;
    if (word.size() >= kLongEnough && row.allLower.find(word) != std::string::npos) return Somewhere;
    return std::nullopt;
}

std::optional<int> fit(const ReferenceRow& row, const std::vector<std::string>& words) {
    int all = 0;
    std::string phrase;
    for (const std::string& word : words) {
        const std::optional<int> one = fit(row, word);
        if (!one) return std::nullopt;
        all += *one;
        if (!phrase.empty()) phrase += ' ';
        phrase += word;
    }
    const bool together = words.size() > 1 && row.allLower.find(phrase) != std::string::npos;
    return all + (together ? kOnePhrase : 0);
}

}  // namespace

std::vector<std::size_t> searchReference(const CodeReference& reference, std::string_view typed) {
    const std::vector<std::string> words = wordsOf(typed);
    std::vector<std::pair<int, std::size_t>> ranked;
    for (std::size_t i = 0; i < reference.rows.size(); ++i) {
        if (const auto rank = fit(reference.rows[i], words)) ranked.emplace_back(*rank, i);
    }
    std::sort(ranked.begin(), ranked.end());
    std::vector<std::size_t> rows;
    rows.reserve(ranked.size());
    for (const auto& [rank, row] : ranked) rows.push_back(row);
    return rows;
}

}  // namespace firstoff
