#include "sim/training/lesson_text.h"

#include <cmark.h>

#include <charconv>
#include <cmath>
#include <memory>

#include "sim/base/say.h"
#include "sim/output/finding_words.h"

namespace firstoff {

namespace {

constexpr const char* kViewNames[] = {later("machine"), later("part"),    later("close"),
                                      later("end-on"),  later("section"), later("finish")};

struct FreeNode {
    void operator()(cmark_node* node) const { cmark_node_free(node); }
};
using OwnedNode = std::unique_ptr<cmark_node, FreeNode>;

std::string_view orEmpty(const char* text) {
    return text ? std::string_view(text) : std::string_view();
}

std::uint32_t lineOfNode(cmark_node* node) {
    const int line = cmark_node_get_start_line(node);
    return line > 0 ? static_cast<std::uint32_t>(line) : 0;
}

std::optional<double> secondsOf(std::string_view text) {
    if (text.size() < 2 || text.back() != 's') return std::nullopt;
    double value = 0;
    const char* end = text.data() + text.size() - 1;
    const auto read = std::from_chars(text.data(), end, value);
    if (read.ec != std::errc() || read.ptr != end || !(value >= 0) || !std::isfinite(value)) return std::nullopt;
    return value;
}

std::optional<LessonFigure> figureOf(std::string_view url) {
    const std::size_t at = url.find('@');
    if (at == std::string_view::npos) return std::nullopt;
    const std::optional<LessonView> view = lessonViewNamed(url.substr(0, at));
    if (!view) return std::nullopt;
    LessonFigure figure{*view, {}, {}};
    const std::string_view when = url.substr(at + 1);
    if (when == "end") return figure;
    figure.atTimeS = secondsOf(when);
    if (!figure.atTimeS) figure.afterLine = linePlaceOf(when);
    if (!figure.atTimeS && !figure.afterLine) return std::nullopt;
    return figure;
}

// Walks the tree of a text in the order of reading and lays its leaves down as blocks.
class Laying {
public:
    explicit Laying(ReadLessonText& out) : out_(out) {}

    void run(cmark_node* root) {
        std::unique_ptr<cmark_iter, void (*)(cmark_iter*)> iter(cmark_iter_new(root), cmark_iter_free);
        for (cmark_event_type event = cmark_iter_next(iter.get()); event != CMARK_EVENT_DONE;
             event = cmark_iter_next(iter.get())) {
            cmark_node* node = cmark_iter_get_node(iter.get());
            if (event == CMARK_EVENT_ENTER) {
                enter(node);
            } else {
                leave(node);
            }
        }
    }

private:
    void enter(cmark_node* node) {
        switch (cmark_node_get_type(node)) {
            case CMARK_NODE_BLOCK_QUOTE:
                ++quotes_;
                break;
            case CMARK_NODE_LIST:
                lists_.push_back(cmark_node_get_list_type(node) == CMARK_ORDERED_LIST ? cmark_node_get_list_start(node)
                                                                                      : 0);
                break;
            case CMARK_NODE_ITEM:
                itemBegins_ = true;
                break;
            case CMARK_NODE_HEADING:
            case CMARK_NODE_PARAGRAPH:
                begin(node);
                break;
            case CMARK_NODE_CODE_BLOCK:
                add(TextBlock::Kind::Code, node).code = orEmpty(cmark_node_get_literal(node));
                break;
            case CMARK_NODE_THEMATIC_BREAK:
                add(TextBlock::Kind::Rule, node);
                break;
            case CMARK_NODE_HTML_BLOCK:
            case CMARK_NODE_HTML_INLINE:
                noHtml(node);
                break;
            default:
                enterRun(node);
        }
    }

    void enterRun(cmark_node* node) {
        switch (cmark_node_get_type(node)) {
            case CMARK_NODE_TEXT:
                addRun(orEmpty(cmark_node_get_literal(node)), false);
                break;
            case CMARK_NODE_CODE:
                addRun(orEmpty(cmark_node_get_literal(node)), true);
                break;
            case CMARK_NODE_SOFTBREAK:
                addRun(" ", false);
                break;
            case CMARK_NODE_LINEBREAK:
                addRun("\n", false);
                break;
            case CMARK_NODE_STRONG:
                ++strong_;
                break;
            case CMARK_NODE_EMPH:
                ++emphasis_;
                break;
            case CMARK_NODE_IMAGE:
                beginPicture(node);
                break;
            default:
                break;  // of a link the text stays
        }
    }

    void leave(cmark_node* node) {
        switch (cmark_node_get_type(node)) {
            case CMARK_NODE_BLOCK_QUOTE:
                --quotes_;
                break;
            case CMARK_NODE_LIST:
                lists_.pop_back();
                break;
            case CMARK_NODE_ITEM:
                itemBegins_ = false;
                if (!lists_.empty() && lists_.back() > 0) ++lists_.back();
                break;
            case CMARK_NODE_HEADING:
            case CMARK_NODE_PARAGRAPH:
                end();
                break;
            case CMARK_NODE_STRONG:
                --strong_;
                break;
            case CMARK_NODE_EMPH:
                --emphasis_;
                break;
            case CMARK_NODE_IMAGE:
                endPicture();
                break;
            default:
                break;
        }
    }

    TextBlock blockFor(TextBlock::Kind kind, cmark_node* node) const {
        TextBlock block;
        block.kind = kind;
        block.level = static_cast<int>(lists_.size());
        block.quoted = quotes_ > 0;
        block.line = lineOfNode(node);
        return block;
    }

    TextBlock& add(TextBlock::Kind kind, cmark_node* node) {
        out_.blocks.push_back(blockFor(kind, node));
        return out_.blocks.back();
    }

    void begin(cmark_node* node) {
        const bool heading = cmark_node_get_type(node) == CMARK_NODE_HEADING;
        open_ = blockFor(heading ? TextBlock::Kind::Heading : TextBlock::Kind::Paragraph, node);
        if (heading) open_.level = cmark_node_get_heading_level(node);
        if (!heading && itemBegins_ && !lists_.empty()) {
            open_.kind = TextBlock::Kind::ListItem;
            open_.number = lists_.back();
            itemBegins_ = false;
        }
    }

    void end() {
        if (!open_.runs.empty()) out_.blocks.push_back(open_);
        open_.runs.clear();
    }

    void addRun(std::string_view text, bool code) {
        std::vector<TextRun>& runs = inPicture_ ? picture_.runs : open_.runs;
        TextRun run{std::string(text), strong_ > 0, emphasis_ > 0, code};
        if (runs.empty() && (text == " " || text == "\n")) return;
        if (!runs.empty() && runs.back().strong == run.strong && runs.back().emphasis == run.emphasis &&
            runs.back().code == run.code) {
            runs.back().text += run.text;
        } else {
            runs.push_back(std::move(run));
        }
    }

    // A picture stands by itself: what is before it in its paragraph is a paragraph, and what comes behind is another.
    void beginPicture(cmark_node* node) {
        end();
        picture_ = blockFor(TextBlock::Kind::Picture, node);
        picture_.line = open_.line;
        inPicture_ = true;
        const std::string url(orEmpty(cmark_node_get_url(node)));
        const std::optional<LessonFigure> figure = figureOf(url);
        pictureKnown_ = figure.has_value();
        if (figure) {
            picture_.figure = *figure;
            return;
        }
        out_.faults.push_back({picture_.line, say("The picture \"{}\" is none of the lesson's job.", plainText(url)),
                               say("Write a view, @ and when, as in section@N210, part@14.5s or part@end; "
                                   "views are {}.",
                                   "machine, part, close, end-on, section, finish")});
    }

    void endPicture() {
        inPicture_ = false;
        if (pictureKnown_) out_.blocks.push_back(picture_);
    }

    void noHtml(cmark_node* node) {
        std::uint32_t line = lineOfNode(node);
        if (line == 0) line = open_.line;
        const bool comment = orEmpty(cmark_node_get_literal(node)).starts_with("<!--");
        if (comment) return;  // a remark of the writer to himself
        out_.faults.push_back({line, tr("HTML is not shown; it was left out."),
                               tr("Write it as Markdown, or put a text with < and > between `marks of code`.")});
    }

    ReadLessonText& out_;
    TextBlock open_, picture_;
    bool inPicture_ = false, pictureKnown_ = false;
    bool itemBegins_ = false;
    int strong_ = 0, emphasis_ = 0, quotes_ = 0;
    std::vector<int> lists_;  // the number of the next item; 0: dots
};

// The first line that is no text; 0: all are.
std::uint32_t firstSpoiltLine(std::string_view bytes) {
    std::uint32_t line = 1;
    while (!bytes.empty()) {
        const std::size_t end = std::min(bytes.find('\n'), bytes.size());
        std::string_view text = bytes.substr(0, end);
        if (!text.empty() && text.back() == '\r') text.remove_suffix(1);
        std::string spaced(text);
        for (char& c : spaced) {
            if (c == '\t') c = ' ';
        }
        if (plainText(text) != spaced) return line;
        bytes.remove_prefix(std::min(end + 1, bytes.size()));
        ++line;
    }
    return 0;
}

std::string mark(const TextBlock& block) {
    if (block.kind != TextBlock::Kind::ListItem) return {};
    return block.number > 0 ? fmt::format("{}. ", block.number) : std::string("- ");
}

std::size_t characters(std::string_view text) {
    std::size_t n = 0;
    for (const char c : text) n += continuesPoint(c) ? 0 : 1;
    return n;
}

void wrap(std::string_view text, const std::string& first, const std::string& rest, std::size_t width,
          std::string& out) {
    std::string line = first;
    bool bare = true;  // no word in it yet
    const auto flush = [&] {
        out += line;
        out += '\n';
        line = rest;
        bare = true;
    };
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of(" \n"), text.size());
        const std::string_view word = text.substr(0, end);
        if (!word.empty()) {
            if (!bare && characters(line) + 1 + characters(word) > width) flush();
            if (!bare) line += ' ';
            line += word;
            bare = false;
        }
        if (end < text.size() && text[end] == '\n' && !bare) flush();
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    if (!bare) flush();
}

std::string whenOf(const LessonFigure& figure) {
    if (figure.afterLine) return say("after {}", inWords(*figure.afterLine));
    if (figure.atTimeS) return say("at {:.1f} s", *figure.atTimeS);
    return tr("at the end");
}

void codeLines(const TextBlock& block, const std::string& indent, std::string& out) {
    std::string_view code = block.code;
    while (!code.empty()) {
        const std::size_t end = std::min(code.find('\n'), code.size());
        out += indent;
        out += "    ";
        out += code.substr(0, end);
        out += '\n';
        code.remove_prefix(std::min(end + 1, code.size()));
    }
}

}  // namespace

std::optional<LessonView> lessonViewNamed(std::string_view text) {
    for (std::size_t i = 0; i < std::size(kViewNames); ++i) {
        if (text == kViewNames[i]) return static_cast<LessonView>(i);
    }
    return std::nullopt;
}

const char* name(LessonView view) {
    return kViewNames[static_cast<std::size_t>(view)];
}

ReadLessonText readLessonText(std::string_view markdown) {
    ReadLessonText result;
    if (markdown.substr(0, 3) == "\xEF\xBB\xBF") markdown.remove_prefix(3);
    if (markdown.size() > kMostTextBytes) {
        result.faults.push_back({0, say("The text has {} bytes; up to {} are read.", markdown.size(), kMostTextBytes),
                                 tr("Make two lessons of it.")});
        return result;
    }
    if (const std::uint32_t line = firstSpoiltLine(markdown)) {
        result.faults.push_back({line, tr("Here stand bytes that are no text in UTF-8; the file was not read."),
                                 tr("Save it as plain text in UTF-8.")});
        return result;
    }
    const OwnedNode root(cmark_parse_document(markdown.data(), markdown.size(), CMARK_OPT_DEFAULT));
    Laying(result).run(root.get());
    return result;
}

std::string plainRuns(const std::vector<TextRun>& runs) {
    std::string text;
    for (const TextRun& run : runs) text += run.text;
    return text;
}

std::string plainLines(const LessonText& text, std::size_t width) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const TextBlock& block = text[i];
        const bool item = block.kind == TextBlock::Kind::ListItem;
        const bool sameList = item && i > 0 && text[i - 1].kind == TextBlock::Kind::ListItem;
        if (i > 0 && !sameList) out += '\n';
        const bool heading = block.kind == TextBlock::Kind::Heading;
        const int deep = heading ? 0 : block.level - (item ? 1 : 0);
        std::string indent(2 * static_cast<std::size_t>(std::max(0, deep)), ' ');
        if (block.quoted) indent += "| ";
        if (block.kind == TextBlock::Kind::Code) {
            codeLines(block, indent, out);
        } else if (block.kind == TextBlock::Kind::Rule) {
            out += "---\n";
        } else if (block.kind == TextBlock::Kind::Picture) {
            const std::string under =
                fmt::format("[{}, {}: {}]", tr(name(block.figure.view)), whenOf(block.figure), plainRuns(block.runs));
            wrap(under, indent, indent, width, out);
        } else {
            const std::string dot = mark(block);
            wrap(plainRuns(block.runs), indent + dot, indent + std::string(dot.size(), ' '), width, out);
        }
    }
    return out;
}

}  // namespace firstoff
