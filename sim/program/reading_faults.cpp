#include "sim/program/reading_faults.h"

#include <algorithm>

#include "sim/base/say.h"

namespace firstoff {

namespace {

Finding make(Severity severity, const char* code, TextPlace at, std::string message, std::string remedy) {
    Finding finding;
    finding.severity = severity;
    finding.code = code;
    finding.span = {SourceSpan::File::Program, at.line, at.column, at.length};
    finding.message = std::move(message);
    finding.remedy = std::move(remedy);
    return finding;
}

// The code point of a well-formed character, or -1.
long codePoint(std::string_view bytes) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(bytes[i]); };
    const std::size_t count = characterBytes(byte(0));
    if (byte(0) < 0x80) return byte(0);
    if (count == 1 || bytes.size() < count) return -1;
    long value = byte(0) & (0xff >> (count + 1));
    for (std::size_t i = 1; i < count; ++i) {
        if ((byte(i) & 0xc0) != 0x80) return -1;
        value = value << 6 | (byte(i) & 0x3f);
    }
    return value;
}

std::string describe(std::string_view bytes, long point) {
    if (point >= 0x80) {
        return say("The character '{}' (U+{:04X})", bytes.substr(0, characterBytes(bytes[0])), point);
    }
    if (point > 0x20 && point < 0x7f) return say("The character '{}'", bytes[0]);
    return say("A byte of value {}, which is no character,", static_cast<int>(static_cast<unsigned char>(bytes[0])));
}

bool isDash(long point) {
    return point == 0x2212 || (point >= 0x2010 && point <= 0x2015);
}

std::string cure(long point) {
    if (isDash(point))
        return tr("Write the plain minus sign '-'; this dash usually comes from copying out of a document.");
    if (point == 0xa0)
        return tr("Replace this hard blank by an ordinary one; it usually comes from copying out of a document.");
    return tr("Take it out, or put it into a comment in brackets.");
}

}  // namespace

std::size_t characterBytes(unsigned char lead) {
    if (lead >= 0xf0 && lead < 0xf8) return 4;
    if (lead >= 0xe0) return lead < 0xf0 ? 3 : 1;
    return lead >= 0xc0 ? 2 : 1;
}

namespace fault {

Finding badCharacter(TextPlace at, std::string_view bytes) {
    const long point = codePoint(bytes);
    if (point >= 0x80) at.length = static_cast<std::uint32_t>(characterBytes(static_cast<unsigned char>(bytes[0])));
    return make(Severity::Stop, "bad-character", at, say("{} has no meaning in a block.", describe(bytes, point)),
                cure(point));
}

Finding decimalComma(TextPlace at) {
    return make(Severity::Stop, "decimal-comma", at, tr("A comma stands inside a number."),
                tr("Write the decimal point: 20.5, not 20,5."));
}

Finding unclosedComment(TextPlace at) {
    return make(Severity::Stop, "unclosed-comment", at, tr("The comment that opens here is not closed on its line."),
                tr("Add ')' where the comment ends; everything behind it was taken as comment."));
}

Finding nestedComment(TextPlace at) {
    Finding finding =
        make(Severity::Warning, "nested-comment", at,
             tr("A second '(' stands inside a comment. Controls differ: here the comment ends at the first ')'."),
             tr("Use no brackets inside a comment."));
    finding.unproven = true;
    return finding;
}

Finding unopenedComment(TextPlace at) {
    return make(Severity::Stop, "unopened-comment", at, tr("A ')' closes a comment that was not opened."),
                tr("Take it out, or add the '(' where the comment begins."));
}

Finding unclosedBracket(TextPlace at) {
    return make(Severity::Stop, "unclosed-bracket", at, tr("The bracket that opens here is not closed on its line."),
                tr("Add the missing ']'."));
}

Finding secondPoint(TextPlace at, std::string_view word) {
    return make(Severity::Stop, "second-decimal-point", at,
                say("{} has two decimal points; only what stands before the second was read.", word),
                tr("Write the number with one decimal point."));
}

Finding letterWithoutNumber(TextPlace at, char letter) {
    return make(Severity::Stop, "letter-without-number", at, say("The letter {} has no number behind it.", letter),
                letter == 'O' ? tr("Was the figure 0 meant? Otherwise write the number, or take the letter out.")
                              : tr("Write the number, or take the letter out."));
}

Finding numberWithoutLetter(TextPlace at, std::string_view number) {
    return make(Severity::Stop, "number-without-letter", at, say("The number {} has no letter before it.", number),
                tr("Write the letter it belongs to, or take it out."));
}

Finding skipInsideBlock(TextPlace at) {
    Finding finding =
        make(Severity::Warning, "skip-inside-block", at,
             tr("A '/' stands behind words of the block. Controls differ in what they then leave out; here "
                "nothing of the block was left out."),
             tr("Put the '/' at the beginning of the block."));
    finding.unproven = true;
    return finding;
}

Finding lineTooLong(TextPlace at) {
    return make(Severity::Stop, "line-too-long", at,
                tr("The line is too long to be a block; the rest of it was not read."),
                tr("Check that this is a turning program, with a line end behind each block."));
}

Finding longSequenceNumber(TextPlace at) {
    return make(Severity::Note, "long-sequence-number", at,
                tr("The sequence number has more than five figures, which some controls refuse."),
                tr("Keep N between 0 and 99999."));
}

Finding oddSequenceNumber(TextPlace at) {
    return make(Severity::Warning, "bad-sequence-number", at,
                tr("A sequence number must be a whole number of 0 or more."),
                tr("Write N with a whole number; this block cannot be found by its number."));
}

Finding notText(TextPlace at, std::size_t offset) {
    return make(Severity::Stop, "not-a-text-file", at,
                say("Byte {} of the file is NUL: this is no text, so nothing of it was read.", offset + 1),
                tr("Choose the program's text file; save it as plain text (ASCII or UTF-8)."));
}

Finding binary() {
    return make(
        Severity::Stop, "not-a-text-file", {1, 1, 1},
        tr("Most of the file is made of bytes that no keyboard writes: this is no text, so nothing of it was read."),
        tr("Choose the program's text file; save it as plain text (ASCII or UTF-8)."));
}

Finding emptyFile() {
    return make(Severity::Stop, "empty-program", {}, tr("The file is empty."),
                tr("Choose another file, or write the program."));
}

Finding noWords() {
    return make(Severity::Stop, "empty-program", {},
                tr("There is not a single word in this file: nothing to carry out."),
                tr("Choose another file, or write the program."));
}

Finding fileTooLarge(std::size_t bytes) {
    return make(Severity::Stop, "program-too-large", {},
                say("The file has {} bytes; programs of up to 2 GiB are read.", bytes), tr("Split the program."));
}

Finding expression(TextPlace at, ExpressionError error, std::string_view text) {
    const auto stop = [&](const char* code, std::string message, std::string remedy) {
        return make(Severity::Stop, code, at, std::move(message), std::move(remedy));
    };
    const auto unproven = [](Finding finding) {
        finding.unproven = true;
        return finding;
    };
    switch (error) {
        case ExpressionError::BracketMissing:
            return stop("expression-faulty", tr("A square bracket is missing here."),
                        tr("Enclose what belongs together in [ and ]."));
        case ExpressionError::UnknownFunction:
            return stop("unknown-function", say("{} is no function that is known here.", text),
                        tr("Use ABS ACOS ASIN ATAN COS EXP FIX FUP LN POW ROUND SIN SQRT TAN with [ ] behind it."));
        case ExpressionError::RefusedFunction:
            return unproven(stop("function-not-carried-out",
                                 say("{} works on signals or settings of the machine, which a trial does not "
                                     "have; the expression was not calculated.",
                                     text),
                                 tr("Prove this part of the program on the machine.")));
        case ExpressionError::TooDeep:
            return stop("expression-faulty", say("More than {} brackets stand within each other.", kDeepestExpression),
                        tr("Calculate in several steps."));
        case ExpressionError::BadNumber:
            return stop("second-decimal-point", say("{} has two decimal points.", text),
                        tr("Write the number with one decimal point."));
        case ExpressionError::BadIndex:
            return stop("no-such-variable", say("#{} is no variable.", text),
                        say("Write a whole number up to {} behind #.", kLargestIndex));
        case ExpressionError::StrayText:
            return stop("statement-faulty", tr("The macro statement should end here, but goes on."),
                        tr("Write one statement in a block, with nothing behind it but a comment."));
        case ExpressionError::EqualsMissing:
            return stop("statement-faulty", tr("A variable begins this block, so = and a value should follow it."),
                        tr("Write #1=… to set the variable, or the letter it belongs to before it."));
        case ExpressionError::NoAction:
            return stop(
                "statement-faulty", tr("The condition is followed by nothing that depends on it."),
                tr("Write GOTO with an N number, or THEN and an assignment, behind IF […]; DO1 behind WHILE […]."));
        case ExpressionError::BadLoop:
            return stop("loop-number", tr("The number of a loop behind DO and END is 1, 2 or 3."),
                        tr("Number loops 1 to 3 from the outside inwards."));
        case ExpressionError::WordsBeside:
            return unproven(stop("words-beside-statement",
                                 tr("Words and a macro statement stand in one block; controls differ whether they take "
                                    "that. Neither was carried out."),
                                 tr("Give the statement a block of its own.")));
        default:
            return stop("expression-faulty", tr("A value is missing here."),
                        tr("Write a number, a variable such as #1, or an expression in [ ]."));
    }
}

Finding operatorOrder(TextPlace at) {
    Finding finding = make(Severity::Warning, "operator-order", at,
                           tr("AND, OR or XOR stands beside other operators without brackets; controls differ in which "
                              "they carry out first. Here AND OR XOR + - were carried out from left to right, before "
                              "comparisons."),
                           tr("Enclose what belongs together in [ and ]."));
    finding.unproven = true;
    return finding;
}

Finding tooManyFaults(std::size_t limit, TextPlace at) {
    return make(Severity::Stop, "too-many-faults", at,
                say("More than {} lines could not be read; later ones are not listed.", limit),
                tr("Check that this is a turning program, then mend the lines above."));
}

}  // namespace fault
}  // namespace firstoff
