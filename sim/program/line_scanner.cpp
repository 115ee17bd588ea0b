#include "sim/program/line_scanner.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <limits>
#include <string_view>

#include "sim/base/characters.h"
#include "sim/program/decimal.h"

namespace firstoff {

namespace {

constexpr std::size_t kMostFindings = 100;
constexpr std::size_t kMostWords = std::numeric_limits<std::uint16_t>::max();
constexpr std::ptrdiff_t kLongestWord = std::numeric_limits<std::uint16_t>::max();

// Left in files by old transfers and editors: vertical tab, form feed, end-of-file mark, delete. They mean nothing.
bool isSilent(char c) {
    return isBlank(c) || c == '\v' || c == '\f' || c == '\x1a' || c == '\x7f';
}
bool startsComment(char c) {
    return c == '(' || c == ';';
}

const char* skipBlanks(const char* at, const char* end) {
    while (at < end && isBlank(*at)) ++at;
    return at;
}

bool startsWith(const char* at, const char* end, std::string_view capitals) {
    if (static_cast<std::size_t>(end - at) < capitals.size()) return false;
    for (std::size_t i = 0; i < capitals.size(); ++i) {
        if (upper(at[i]) != capitals[i]) return false;
    }
    return true;
}

struct Keyword {
    std::string_view name;
    std::string_view followers;  // what may stand behind it
};
constexpr std::array<Keyword, 6> kKeywords = {{{"IF", "["},
                                               {"WHILE", "["},
                                               {"GOTO", "0123456789#["},
                                               {"DO", "0123456789"},
                                               {"END", "0123456789"},
                                               {"THEN", "#"}}};

}  // namespace

LineScanner::LineScanner(Program& program)
    : program_(program), base_(program.text.data()), firstFinding_(program.findings.size()) {}

void LineScanner::scan(const char* begin, const char* end, std::uint32_t line) {
    begin_ = begin;
    end_ = end;
    line_ = line;
    reported_ = false;
    full_ = false;
    block_ = Block{};
    block_.offset = offset(begin);
    block_.length = static_cast<std::uint32_t>(end - begin);
    block_.firstWord = static_cast<std::uint32_t>(program_.words.size());
    const char* at = begin;
    while (at < end && isSilent(*at)) ++at;
    if (at < end && *at == '%') {
        block_.kind = Block::Kind::Percent;
        keepAsText(at + 1);
    } else {
        scanFrom(at);
    }
    block_.wordCount = static_cast<std::uint16_t>(program_.words.size() - block_.firstWord);
    program_.blocks.push_back(block_);
}

void LineScanner::scanFrom(const char* at) {
    while (at < end_ && !full_) {
        const char c = *at;
        if (isLetter(c)) {
            if (at + 1 < end_ && isLetter(at[1]) && startsStatement(at)) return statement(at);
            at = word(at, at, false);
        } else if (isSilent(c)) {
            ++at;
        } else if (c == '(') {
            at = comment(at);
        } else if (c == ';') {
            at = lineComment(at);
        } else if (c == ',') {
            at = comma(at);
        } else if (c == '/') {
            at = skipMark(at);
        } else if (c == '#') {
            return statement(at);
        } else if (c == ':') {
            at = word(at, at, false);
        } else if (isDigit(c) || c == '.' || c == '-' || c == '+') {
            at = strayNumber(at);
        } else {
            at = strayCharacter(at);
        }
    }
}

// `start` is where the word begins: the letter, or the comma before it.
const char* LineScanner::word(const char* letterAt, const char* start, bool comma) {
    const char* behind = skipBlanks(letterAt + 1, end_);
    if (behind < end_) {
        const char* unsignedAt = *behind == '-' || *behind == '+' ? skipBlanks(behind + 1, end_) : behind;
        const bool expressionFollows =
            unsignedAt < end_ &&
            (*unsignedAt == '#' || *unsignedAt == '[' || (isLetter(*unsignedAt) && functionName(unsignedAt, end_) > 0));
        if (expressionFollows) return expression(letterAt, start, unsignedAt, comma);
    }
    return number(letterAt, start, comma);
}

const char* LineScanner::number(const char* letterAt, const char* start, bool comma) {
    const Decimal decimal = readDecimal(letterAt + 1, end_);
    Word result;
    result.letter = *letterAt == ':' ? 'O' : upper(*letterAt);
    result.offset = offset(start);
    result.comma = comma;
    result.hasPoint = decimal.hasPoint;
    result.value = decimal.value;
    const char* end = decimal.end;
    if (decimal.kind == Decimal::Fault::NoDigits) {
        end = letterAt + 1;
        result.form = Word::Form::Missing;
        result.hasPoint = false;
        // Where an unreadable character follows, that is the cause and is reported instead.
        const char* behind = skipBlanks(end, end_);
        const bool causeFollows = behind < end_ && (static_cast<unsigned char>(*behind) >= 0x80 || *behind == ',');
        if (!causeFollows) report(fault::letterWithoutNumber(place(letterAt), result.letter));
    }
    if (end - start > kLongestWord) {
        report(fault::lineTooLong(place(start)));
        full_ = true;
        return end_;
    }
    result.length = static_cast<std::uint16_t>(end - start);
    if (decimal.kind == Decimal::Fault::SecondPoint) {
        report(fault::secondPoint(place(decimal.fault), std::string_view(start, result.length)));
    }
    if (!push(result)) return end_;
    if (result.letter == 'N' && !comma) noteSequenceNumber(result, letterAt);
    if (result.letter == 'O' && !comma) noteProgramNumber(result);
    return end;
}

const char* LineScanner::expression(const char* letterAt, const char* start, const char* from, bool comma) {
    const char* end = endOfExpression(from);
    Word result;
    result.letter = *letterAt == ':' ? 'O' : upper(*letterAt);
    result.offset = offset(start);
    result.comma = comma;
    result.form = Word::Form::Expression;
    if (end - start > kLongestWord) {
        report(fault::lineTooLong(place(start)));
        full_ = true;
        return end_;
    }
    result.length = static_cast<std::uint16_t>(end - start);
    result.value = static_cast<double>(program_.expressions.size());
    ExpressionParser parser(program_.instructions, base_, letterAt + 1, end);
    program_.expressions.push_back(parser.operand());
    report(parser);
    return push(result) ? end : end_;
}

// Past one value: `#12`, `##2`, `#[…]`, `[…]`, `SIN[…]`, `ATAN[…]/[…]`.
const char* LineScanner::endOfExpression(const char* at) {
    if (isLetter(*at)) {
        const bool quotient = startsWith(at, end_, "ATAN");
        at = endOfBracket(skipBlanks(at + functionName(at, end_), end_));
        const char* slash = skipBlanks(at, end_);
        if (!quotient || slash >= end_ || *slash != '/') return at;
        const char* second = skipBlanks(slash + 1, end_);
        return second < end_ && *second == '[' ? endOfBracket(second) : at;
    }
    const char* hash = at;
    while (at < end_ && (*at == '#' || isBlank(*at))) ++at;
    if (at < end_ && *at == '[') return endOfBracket(at);
    const Decimal index = readDecimal(at, end_);
    if (index.kind != Decimal::Fault::NoDigits) return index.end;
    report(fault::letterWithoutNumber(place(hash), '#'));
    return at;
}

const char* LineScanner::endOfBracket(const char* at) {
    int depth = 0;
    for (const char* p = at; p < end_; ++p) {
        if (*p == '[') ++depth;
        if (*p == ']' && --depth == 0) return p + 1;
    }
    report(fault::unclosedBracket(place(at)));
    return end_;
}

const char* LineScanner::comma(const char* at) {
    const char* letterAt = skipBlanks(at + 1, end_);
    if (letterAt < end_ && isLetter(*letterAt)) return word(letterAt, at, true);
    if (letterAt < end_ && isDigit(*letterAt)) {
        report(fault::decimalComma(place(at)));
        return readDecimal(letterAt, end_).end;
    }
    return strayCharacter(at);
}

const char* LineScanner::comment(const char* at) {
    const char* end = at + 1;
    bool nested = false;
    for (; end < end_ && *end != ')'; ++end) {
        if (*end == '(' && !nested) {
            report(fault::nestedComment(place(end)));
            nested = true;
        }
    }
    if (end == end_) {
        report(fault::unclosedComment(place(at, static_cast<std::size_t>(end - at))));
    } else {
        ++end;
    }
    program_.comments.push_back({offset(at), static_cast<std::uint32_t>(end - at)});
    return end;
}

const char* LineScanner::lineComment(const char* at) {
    program_.comments.push_back({offset(at), static_cast<std::uint32_t>(end_ - at)});
    return end_;
}

// `/` or `/n`, before the first word or just behind the sequence number.
const char* LineScanner::skipMark(const char* at) {
    const std::size_t words = program_.words.size() - block_.firstWord;
    const bool atStart = words == 0 || (words == 1 && program_.words.back().letter == 'N');
    if (!atStart || block_.skip != 0) {
        report(fault::skipInsideBlock(place(at)));
        return at + 1;
    }
    block_.skip = 1;
    const char* level = skipBlanks(at + 1, end_);
    if (level < end_ && *level >= '1' && *level <= '9') {
        block_.skip = static_cast<std::uint8_t>(*level - '0');
        return level + 1;
    }
    return at + 1;
}

const char* LineScanner::strayNumber(const char* at) {
    const Decimal decimal = readDecimal(at, end_);
    if (decimal.kind == Decimal::Fault::NoDigits) return strayCharacter(at);
    const auto length = static_cast<std::size_t>(decimal.end - at);
    report(fault::numberWithoutLetter(place(at, length), std::string_view(at, length)));
    return decimal.end;
}

const char* LineScanner::strayCharacter(const char* at) {
    if (*at == ')') {
        report(fault::unopenedComment(place(at)));
        return at + 1;
    }
    const std::string_view rest(at, static_cast<std::size_t>(end_ - at));
    report(fault::badCharacter(place(at), rest));
    // The other bytes of the same character are part of it.
    const char* next = at + 1;
    while (next < end_ && (static_cast<unsigned char>(*next) & 0xc0) == 0x80) ++next;
    return next;
}

bool LineScanner::startsStatement(const char* at) const {
    for (const Keyword& keyword : kKeywords) {
        if (!startsWith(at, end_, keyword.name)) continue;
        const char* behind = skipBlanks(at + keyword.name.size(), end_);
        if (behind < end_ && keyword.followers.find(*behind) != std::string_view::npos) return true;
    }
    return false;
}

void LineScanner::statement(const char* at) {
    block_.kind = Block::Kind::Statement;
    keepAsText(at);
    block_.statement = static_cast<std::uint32_t>(program_.statements.size());
    readStatement(at);
}

void LineScanner::readStatement(const char* at) {
    ExpressionParser parser(program_.instructions, base_, at, end_);
    for (std::size_t i = block_.firstWord; i < program_.words.size(); ++i) {
        const Word& word = program_.words[i];
        if (word.letter == 'N' || word.letter == 'O') continue;
        parser.fail(ExpressionError::WordsBeside, base_ + word.offset, word.length);
    }
    Statement statement;
    if (parser.error() == ExpressionError::None) {
        statement = parseStatement(parser, program_.assignments, program_.instructions);
    }
    statement.textOffset = offset(at);
    statement.textLength = static_cast<std::uint32_t>(std::find_if(at, end_, startsComment) - at);
    while (statement.textLength > 0 && isSilent(at[statement.textLength - 1])) --statement.textLength;
    program_.statements.push_back(statement);
    report(parser);
}

void LineScanner::report(const ExpressionParser& parser) {
    if (parser.error() != ExpressionError::None) {
        const std::string_view text(parser.errorAt(),
                                    std::min(parser.errorLength(), static_cast<std::size_t>(end_ - parser.errorAt())));
        report(fault::expression(place(parser.errorAt(), text.size()), parser.error(), text));
    } else if (parser.unsureOrderAt() != nullptr) {
        report(fault::operatorOrder(place(parser.unsureOrderAt())));
    }
}

// Only comments and brackets are looked for.
void LineScanner::keepAsText(const char* at) {
    while (at < end_) {
        if (*at == '(') {
            at = comment(at);
        } else if (*at == ';') {
            at = lineComment(at);
        } else if (*at == '[') {
            at = endOfBracket(at);
        } else {
            ++at;
        }
    }
}

bool LineScanner::push(const Word& word) {
    if (program_.words.size() - block_.firstWord >= kMostWords) {
        report(fault::lineTooLong(place(base_ + word.offset)));
        full_ = true;
        return false;
    }
    program_.words.push_back(word);
    return true;
}

void LineScanner::noteSequenceNumber(const Word& word, const char* letterAt) {
    if (word.form != Word::Form::Number || block_.sequenceNumber >= 0) return;
    if (word.value < 0 || word.value > 2e9 || word.value != std::floor(word.value)) {
        report(fault::oddSequenceNumber(place(letterAt, word.length)));
        return;
    }
    block_.sequenceNumber = static_cast<std::int32_t>(word.value);
    // The letter and five figures; NISTIR 6556 sec. 3.3.1.
    if (word.length > 6 && !word.hasPoint) {
        int figures = 0;
        for (char c : program_.textOf(word)) figures += isDigit(c) ? 1 : 0;
        if (figures > 5) report(fault::longSequenceNumber(place(letterAt, word.length)));
    }
}

void LineScanner::noteProgramNumber(const Word& word) {
    const bool whole = word.form == Word::Form::Number && word.value >= 0 && word.value <= 2e9;
    if (whole && word.value == std::floor(word.value)) block_.programNumber = static_cast<std::int32_t>(word.value);
}

void LineScanner::report(Finding finding) {
    const std::size_t count = program_.findings.size() - firstFinding_;
    if (reported_ || count > kMostFindings) return;
    reported_ = true;
    if (count == kMostFindings) {
        program_.findings.push_back(fault::tooManyFaults(kMostFindings, {line_, 1, 1}));
        return;
    }
    program_.findings.push_back(std::move(finding));
}

TextPlace LineScanner::place(const char* at, std::size_t length) const {
    return {line_, static_cast<std::uint32_t>(at - begin_) + 1, static_cast<std::uint32_t>(length)};
}

}  // namespace firstoff
