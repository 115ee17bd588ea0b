#include "sim/output/sheets/sheet_html.h"

#include <algorithm>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/finding_words.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/output/xml_text.h"

namespace firstoff {

namespace {

std::string shown(std::string_view text) {
    return xmlText(plainText(text));
}

// For attributes, which quotation marks end.
std::string shownInAttribute(std::string_view text) {
    std::string result;
    for (const char c : shown(text)) {
        if (c == '"') {
            result += "&quot;";
        } else {
            result += c;
        }
    }
    return result;
}

std::string dashStyle(LineKind kind) {
    std::string dashes;
    for (double dash : dashesOf(kind)) dashes += fmt::format("{}{:.2f}", dashes.empty() ? "" : " ", dash);
    return fmt::format("stroke-width:{}{}", widthOf(kind), dashes.empty() ? "" : ";stroke-dasharray:" + dashes);
}

constexpr std::string_view kStyle = R"(
:root{color-scheme:light}
*{box-sizing:border-box}
body{margin:0 auto;padding:12px;max-width:182mm;background:#fff;color:#000;
 font:15px/1.4 "DejaVu Sans",Verdana,Helvetica,Arial,sans-serif;overflow-wrap:anywhere}
h1{font-size:1.5em;margin:0}
h2{font-size:1.15em;margin:1.6em 0 .5em;border-bottom:1.5px solid #000;break-after:avoid}
h3{font-size:1em;margin:0 0 .3em;break-after:avoid}
p{margin:.4em 0}
header{border:1.5px solid #000;padding:8px 10px}
header p{margin:.1em 0 .6em}
.facts{display:grid;grid-template-columns:repeat(auto-fill,minmax(8.5em,1fr));gap:.45em 1em;margin:.4em 0}
.facts div{break-inside:avoid}
dt{font-size:.78em;color:#333}
dd{margin:0;font-variant-numeric:tabular-nums}
dl{margin:0}
ul{margin:.4em 0;padding-left:1.2em}
li{margin:.2em 0}
.quote{font:.85em/1.4 "DejaVu Sans Mono",Menlo,Consolas,monospace;background:#f2f2f2;padding:.3em .5em;white-space:pre-wrap}
.caution{border:1.5px solid #000;border-left-width:8px;padding:.4em .7em;break-inside:avoid}
.verdict{font-weight:bold;border:2.5px solid #000;padding:.5em .7em;break-inside:avoid}
.minor,figcaption,footer{font-size:.8em}
figure{margin:.6em 0;break-inside:avoid}
svg{display:block;height:auto;max-width:100%}
svg path,svg circle{stroke:#000;fill:none;stroke-linejoin:round;stroke-linecap:butt}
svg .n{stroke:none}
.card{border-top:1px solid #888;padding:.6em 0;display:flex;gap:1em;break-inside:avoid}
.card>div{flex:1;min-width:0}
.card>figure{flex:none;margin:0;width:38mm}
.entry{border-top:1px solid #888;padding:.6em 0}
.entry h3,.entry p{break-inside:avoid}
.mark{border:1px solid #000;padding:0 .4em;margin-right:.4em;font-weight:normal}
.grave .mark{background:#000;color:#fff;font-weight:bold;print-color-adjust:exact;-webkit-print-color-adjust:exact}
table{border-collapse:collapse;width:100%;margin:.6em 0;font-size:.88em}
thead{display:table-header-group}
tr{break-inside:avoid}
th{text-align:left;vertical-align:bottom;border-bottom:1.5px solid #000;padding:.2em .4em}
th span{font-weight:normal}
td{vertical-align:top;border-bottom:1px solid #aaa;padding:.25em .4em}
td,th{overflow-wrap:break-word}
.f{text-align:right;font-variant-numeric:tabular-nums}
td.f{white-space:nowrap}
td.k{border:1px solid #000;min-width:14mm;height:2.2em}
.strong td{font-weight:bold}
.signing{display:flex;flex-wrap:wrap;gap:.6em;margin:.8em 0;break-inside:avoid}
.signing div{flex:1 1 9em;border:1px solid #000;height:4.4em;padding:.2em .4em;font-size:.78em}
.line{border-top:1px solid #ddd;padding:.25em 0;break-inside:avoid}
.line .code{display:flex;gap:.6em;font:bold .9em/1.4 "DejaVu Sans Mono",Menlo,Consolas,monospace}
.line .code span:first-child{flex:none;width:2.4em;text-align:right;font-weight:normal;color:#666}
.line .code span:last-child{white-space:pre-wrap}
.quiet .code{font-weight:normal;color:#666}
.line .words{display:grid;grid-template-columns:max-content 1fr;gap:.1em .8em;margin:.15em 0 .2em 3em;font-size:.85em}
.line .words dt{font:1em/1.4 "DejaVu Sans Mono",Menlo,Consolas,monospace;color:#000;min-width:4em}
.line .minor{margin:.1em 0 .2em 3.6em;color:#333}
.question{padding:.6em 0 .4em;break-inside:avoid}
.write{border-bottom:1px solid #888;height:1.9em}
.page{break-before:page}
footer{border-top:1.5px solid #000;margin-top:1.6em;padding-top:.4em}
@media(max-width:560px){
.card{display:block}
.card>figure{margin-bottom:.5em}
table,tbody{display:block}
thead{display:none}
tr{display:grid;grid-template-columns:repeat(3,1fr);gap:.2em .8em;border-top:1px solid #888;padding:.5em 0}
td,.f{border:0;padding:0;text-align:left;white-space:normal}
td.x{display:none}
td.wide{grid-column:1/-1}
td::before{content:attr(data-is);display:block;font-size:.82em;color:#333}
td.k{border:1px solid #000;min-width:0;padding:.1em .3em;height:3em}
td:not(.k)+td.k{grid-column:1}
}
@media print{@page{size:A4;margin:14mm}body{font-size:9.5pt;padding:0;max-width:none}a{color:inherit}}
)";

const char* classOf(SheetParagraph::Kind kind) {
    switch (kind) {
        case SheetParagraph::Kind::Quote:
            return " class=\"quote\"";
        case SheetParagraph::Kind::Caution:
            return " class=\"caution\"";
        case SheetParagraph::Kind::Verdict:
            return " class=\"verdict\"";
        case SheetParagraph::Kind::Minor:
            return " class=\"minor\"";
        case SheetParagraph::Kind::Plain:
        case SheetParagraph::Kind::Item:
            break;
    }
    return "";
}

class HtmlWriter {
public:
    std::string write(const Sheet& sheet) {
        text_ += fmt::format(
            "<!DOCTYPE html>\n<html lang=\"{}\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n<meta "
            "charset=\"utf-8\"/>\n",
            languageInUse());
        text_ += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>";
        text_ += shown(sheet.running) + "</title>\n<style>" + std::string(kStyle);
        for (const auto& [name, kind] :
             {std::pair('w', LineKind::Wide), std::pair('t', LineKind::Narrow), std::pair('h', LineKind::Hidden),
              std::pair('c', LineKind::Centre), std::pair('p', LineKind::Phantom), std::pair('b', LineKind::Broken),
              std::pair('f', LineKind::Fine)}) {
            text_ += fmt::format("svg .{}{{{}}}\n", name, dashStyle(kind));
        }
        text_ += "</style>\n</head>\n<body>\n<header>\n<h1>" + shown(sheet.title) + "</h1>\n";
        if (!sheet.subject.empty()) text_ += "<p>" + shown(sheet.subject) + "</p>\n";
        facts(sheet.made);
        text_ += "</header>\n";
        for (const SheetSection& section : sheet.sections) write(section);
        text_ += "<footer>\n";
        for (const std::string& caution : sheet.cautions) text_ += "<p>" + shown(caution) + "</p>\n";
        text_ += "</footer>\n</body>\n</html>\n";
        return std::move(text_);
    }

    void operator()(const SheetParagraph& p) {
        if (p.kind == SheetParagraph::Kind::Item) {
            text_ += "<li>" + shown(p.text) + "</li>\n";
        } else {
            text_ += fmt::format("<p{}>{}</p>\n", classOf(p.kind), shown(p.text));
        }
    }
    void operator()(const SheetFacts& f) { facts(f.facts); }
    void operator()(const SheetFigure& f) {
        text_ += "<figure>" + sketchSvg(f.sketch);
        if (!f.caption.empty()) text_ += "<figcaption>" + shown(f.caption) + "</figcaption>";
        text_ += "</figure>\n";
    }
    void operator()(const SheetCard& card) {
        text_ += "<section class=\"card\">";
        if (card.picture) text_ += "<figure>" + sketchSvg(*card.picture) + "</figure>";
        text_ += "<div><h3>" + shown(card.heading) + "</h3>\n";
        facts(card.facts);
        for (const std::string& remark : card.remarks) text_ += "<p class=\"minor\">" + shown(remark) + "</p>\n";
        text_ += "</div></section>\n";
    }
    void operator()(const SheetEntry& entry) {
        text_ += fmt::format("<section class=\"entry{}\"><h3><span class=\"mark\">{}</span>{}</h3>\n",
                             entry.grave ? " grave" : "", shown(entry.mark), shown(entry.heading));
        parts(entry.text);
        text_ += "</section>\n";
    }
    void operator()(const SheetTable& table) {
        text_ += "<table>\n<thead><tr>";
        for (const SheetColumn& column : table.columns) {
            text_ += fmt::format("<th{}>{}{}</th>", columnClass(column), shown(column.heading),
                                 column.unit.empty() ? "" : "<br/><span>" + shown(column.unit) + "</span>");
        }
        text_ += "</tr></thead>\n<tbody>\n";
        std::vector<std::vector<std::string>> columns(table.columns.size());
        for (std::size_t c = 0; c < columns.size(); ++c) {
            for (const auto& row : table.rows) columns[c].push_back(row[c]);
            if (table.columns[c].kind == SheetColumn::Kind::Figure) columns[c] = onThePoint(columns[c]);
        }
        for (std::size_t r = 0; r < table.rows.size(); ++r) {
            const bool strong = std::binary_search(table.strongRows.begin(), table.strongRows.end(), r);
            text_ += strong ? "<tr class=\"strong\">" : "<tr>";
            for (std::size_t c = 0; c < columns.size(); ++c) cell(table.columns[c], columns[c][r]);
            text_ += "</tr>\n";
        }
        text_ += "</tbody>\n</table>\n";
    }
    void operator()(const SheetSigning& signing) {
        text_ += "<div class=\"signing\">";
        for (const std::string& label : signing.labels) text_ += "<div>" + shown(label) + "</div>";
        text_ += "</div>\n";
    }
    void operator()(const SheetProgramLine& line) {
        text_ += fmt::format("<div class=\"line{}\"><div class=\"code\"><span>{}</span><span>{}</span></div>",
                             line.quiet ? " quiet" : "", shown(line.number), shown(line.text));
        if (!line.words.empty()) {
            text_ += "<dl class=\"words\">";
            for (const SheetFact& word : line.words) {
                text_ += "<dt>" + shown(word.label) + "</dt><dd>" + shown(word.value) + "</dd>";
            }
            text_ += "</dl>";
        }
        for (const std::string& remark : line.remarks) text_ += "<p class=\"minor\">" + shown(remark) + "</p>";
        text_ += "</div>\n";
    }
    void operator()(const SheetQuestion& question) {
        text_ += "<div class=\"question\"><h3><span class=\"mark\">" + shown(question.mark) + "</span>" +
                 shown(question.text) + "</h3>";
        for (int i = 0; i < question.lines; ++i) text_ += "<div class=\"write\"></div>";
        text_ += "</div>\n";
    }

private:
    static const char* columnClass(const SheetColumn& column) {
        return column.kind == SheetColumn::Kind::Figure ? " class=\"f\"" : "";
    }

    void cell(const SheetColumn& column, const std::string& value) {
        // On a phone a cell stands by itself: long ones take its width, empty ones go.
        constexpr std::size_t kThirdOfAPhone = 16;
        const bool blank = column.kind == SheetColumn::Kind::Blank;
        const char* kind = column.kind == SheetColumn::Kind::Figure ? "f"
                           : blank                                  ? "k"
                           : value.empty()                          ? "x"
                           : value.size() > kThirdOfAPhone          ? "wide"
                                                                    : "s";
        const std::string unit = column.unit.empty() ? "" : ", " + column.unit;
        text_ += fmt::format("<td class=\"{}\" data-is=\"{}\">{}</td>", kind, shownInAttribute(column.heading + unit),
                             shown(value));
    }

    void facts(const std::vector<SheetFact>& all) {
        if (all.empty()) return;
        text_ += "<dl class=\"facts\">";
        for (const SheetFact& fact : all) {
            text_ += "<div><dt>" + shown(fact.label) + "</dt><dd>" + shown(fact.value) + "</dd></div>";
        }
        text_ += "</dl>\n";
    }

    void write(const SheetSection& section) {
        text_ += section.newPage ? "<section class=\"page\">\n<h2>" : "<section>\n<h2>";
        text_ += shown(section.heading) + "</h2>\n";
        parts(section.parts);
        text_ += "</section>\n";
    }

    // Items that follow one another are one list.
    template <typename Part>
    void parts(const std::vector<Part>& all) {
        bool inList = false;
        for (const Part& part : all) {
            const bool item = isItem(part);
            if (item != inList) text_ += item ? "<ul>\n" : "</ul>\n";
            inList = item;
            take(part);
        }
        if (inList) text_ += "</ul>\n";
    }
    static bool isItem(const SheetParagraph& p) { return p.kind == SheetParagraph::Kind::Item; }
    static bool isItem(const SheetPart& part) {
        const auto* p = std::get_if<SheetParagraph>(&part);
        return p != nullptr && isItem(*p);
    }
    void take(const SheetParagraph& p) { (*this)(p); }
    void take(const SheetPart& part) { std::visit(*this, part); }

    std::string text_;
};

}  // namespace

std::string sheetHtml(const Sheet& sheet) {
    HtmlWriter writer;
    return writer.write(sheet);
}

}  // namespace firstoff
