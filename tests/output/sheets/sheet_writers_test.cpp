// Sheets as HTML and PDF: hostile texts, many pages, the same bytes every time.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fmt/format.h>

#include "sim/output/sheets/sheet_html.h"
#include "sim/output/sheets/sheet_pdf.h"
#include "tests/output/sheets/paper_reader.h"

namespace firstoff {
namespace {

using testing::HasSubstr;
using testing::Not;

Sheet sheet() {
    Sheet s;
    s.title = "Set-up sheet";
    s.subject = "O1000 PIN";
    s.made = {{"Program", "pin.nc"}, {"Set-up", "pin.toml"}};
    s.running = "Set-up sheet · pin.nc";
    s.cautions = {"Keep a hand on the feed hold."};
    return s;
}

std::size_t count(const std::string& text, const std::string& what) {
    std::size_t found = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + what.size())) ++found;
    return found;
}

SheetTable longTable(std::size_t rows) {
    SheetTable table;
    table.columns = {{"Head of it", "mm", SheetColumn::Kind::Figure}, {"What", "", SheetColumn::Kind::Text}};
    for (std::size_t i = 0; i < rows; ++i) table.rows.push_back({std::to_string(i), fmt::format("row {} of them", i)});
    return table;
}

Sheet everything() {
    Sheet s = sheet();
    Sketch sketch;
    sketch.width = 30;
    sketch.height = 20;
    sketch.title = "a ring";
    sketch.marks.emplace_back(Ring{LineKind::Wide, Shade::Light, {10, 10}, 5});
    Lettering upright;
    upright.at = {25, 15};
    upright.text = "upright";
    upright.upwards = true;
    sketch.marks.emplace_back(upright);
    SheetCard card{"T1 turning", sketch, {{"Offset", "1"}}, {"a remark"}};
    SheetEntry entry{"STOP", true, "line 12 [rapid-into-material]", {{SheetParagraph::Kind::Quote, "N10 G00 X0"}}};
    SheetTable table = longTable(3);
    table.columns.push_back({"By hand", "", SheetColumn::Kind::Blank});
    for (auto& row : table.rows) row.emplace_back();
    table.strongRows = {1};
    s.sections = {
        {"Of every kind",
         {SheetParagraph{SheetParagraph::Kind::Verdict, "CLEAR"}, SheetParagraph{SheetParagraph::Kind::Item, "one"},
          SheetParagraph{SheetParagraph::Kind::Item, "two"}, SheetFacts{{{"label", "value"}}},
          SheetFigure{sketch, "a caption"}, card, entry, table,
          SheetParagraph{SheetParagraph::Kind::Caution, "with care"}, SheetSigning{{"Gauged by", "Released by"}}}}};
    return s;
}

TEST(SheetAsHtml, HasEveryKindOfPartAndNeedsNothingElse) {
    const std::string html = sheetHtml(everything());
    EXPECT_EQ(shop::xmlComplaints(html), "");
    for (const char* what : {"CLEAR", "<li>one</li>", "<li>two</li>", "<dt>label</dt><dd>value</dd>", "a caption",
                             "T1 turning", "a remark", "STOP", "N10 G00 X0", "row 2 of them", "with care", "Gauged by",
                             "Keep a hand on the feed hold."}) {
        EXPECT_THAT(html, HasSubstr(what));
    }
    EXPECT_EQ(count(html, "<ul>"), 1u) << "items that follow one another are one list";
    for (const char* what : {"<script", "http:", "https:", "url(", "@import", "src=", "<link", "onload"}) {
        // The names of the two languages are no addresses that are fetched.
        std::string without = html;
        for (const char* name : {"http://www.w3.org/1999/xhtml", "http://www.w3.org/2000/svg"}) {
            for (std::size_t at; (at = without.find(name)) != std::string::npos;)
                without.erase(at, std::string(name).size());
        }
        EXPECT_THAT(without, Not(HasSubstr(what)));
    }
}

TEST(SheetAsPdf, HasEveryKindOfPart) {
    const std::string pdf = sheetPdf(everything());
    EXPECT_EQ(shop::pdfPages(pdf), 1);
    const std::string text = shop::pdfText(pdf);
    for (const char* what :
         {"Set-up sheet", "O1000 PIN", "CLEAR", "one", "label", "value", "a caption", "T1 turning", "a remark", "STOP",
          "N10 G00 X0", "row 2 of them", "with care", "Gauged by", "Keep a hand on the feed hold.", "page 1 of 1"}) {
        EXPECT_THAT(text, HasSubstr(what));
    }
}

TEST(Sheets, AreTheSameBytesEveryTime) {
    EXPECT_EQ(sheetHtml(everything()), sheetHtml(everything()));
    const std::string pdf = sheetPdf(everything());
    EXPECT_EQ(pdf, sheetPdf(everything()));
    EXPECT_THAT(pdf, Not(HasSubstr("CreationDate")));
}

TEST(SheetAsPdf, RepeatsTheHeadOfATableAndNumbersItsPages) {
    Sheet s = sheet();
    s.sections = {{"Long", {longTable(300)}}};
    const std::string pdf = sheetPdf(s);
    const int pages = shop::pdfPages(pdf);
    ASSERT_GT(pages, 3);
    const std::string text = shop::pdfText(pdf);
    EXPECT_EQ(count(text, "Head of it"), static_cast<std::size_t>(pages));
    EXPECT_EQ(count(text, "Keep a hand on the feed hold."), static_cast<std::size_t>(pages));
    for (int i = 1; i <= pages; ++i) EXPECT_THAT(text, HasSubstr(fmt::format("page {} of {}", i, pages)));
    for (int i = 0; i < 300; ++i) EXPECT_EQ(count(text, fmt::format("row {} of them", i)), 1u) << i;
}

TEST(SheetAsPdf, KeepsHeadingsWithWhatTheyHead) {
    // Whatever stands before it, a heading is never the last thing on a page.
    for (int lines = 20; lines < 70; lines += 3) {
        Sheet s = sheet();
        SheetSection first{"Before", {}};
        for (int i = 0; i < lines; ++i)
            first.parts.emplace_back(SheetParagraph{SheetParagraph::Kind::Plain, "filling"});
        s.sections = {first, {"THE HEADING", {longTable(4)}}};
        const std::string text = shop::pdfText(sheetPdf(s));
        const std::size_t at = text.find("THE HEADING");
        ASSERT_NE(at, std::string::npos);
        const std::size_t row = text.find("row 0 of them", at), page = text.find('\f', at);
        EXPECT_LT(row, page) << lines << " lines before it";
    }
}

TEST(SheetAsPdf, LeavesNoPageNearlyEmpty) {
    for (int lines = 30; lines < 140; ++lines) {
        Sheet s = sheet();
        SheetSection first{"Some", {}};
        for (int i = 0; i < lines; ++i)
            first.parts.emplace_back(SheetParagraph{SheetParagraph::Kind::Plain, "filling"});
        s.sections = {first};
        const std::string pdf = sheetPdf(s);
        const int pages = shop::pdfPages(pdf);
        std::string text = shop::pdfText(pdf);
        EXPECT_EQ(count(text, "filling"), static_cast<std::size_t>(lines));
        EXPECT_EQ(count(text, fmt::format("of {}", pages)), static_cast<std::size_t>(pages));
        if (pages == 1) continue;
        for (int page = 1; page < pages; ++page) text = text.substr(text.find('\f') + 1);
        // Of 50 and more that a page holds; a fifth.
        EXPECT_GE(count(text, "filling"), 10u) << lines;
    }
}

TEST(SheetAsPdf, LeavesNoRowOfATableAlone) {
    for (int rows = 30; rows < 90; ++rows) {
        Sheet s = sheet();
        s.sections = {{"Long", {longTable(static_cast<std::size_t>(rows))}}};
        const std::string pdf = sheetPdf(s);
        std::string text = shop::pdfText(pdf);
        for (int page = 1; page < shop::pdfPages(pdf); ++page) text = text.substr(text.find('\f') + 1);
        EXPECT_NE(count(text, " of them"), 1u) << rows;
    }
}

struct Hostile {
    const char* name;
    std::string text;
};
class HostileText : public testing::TestWithParam<Hostile> {};

TEST_P(HostileText, StaysText) {
    const std::string& t = GetParam().text;
    Sheet s = sheet();
    s.title = s.subject = s.running = t;
    s.made = {{t, t}};
    SheetTable table;
    table.columns = {{t, t, SheetColumn::Kind::Text}, {"figure", "", SheetColumn::Kind::Figure}};
    table.rows = {{t, t}};
    Sketch sketch;
    sketch.title = t;
    sketch.width = sketch.height = 10;
    Lettering lettering;
    lettering.text = t;
    sketch.marks.emplace_back(lettering);
    s.sections = {{t,
                   {SheetParagraph{SheetParagraph::Kind::Quote, t}, table, SheetFigure{sketch, t},
                    SheetCard{t, sketch, {{t, t}}, {t}}, SheetEntry{t, true, t, {}}, SheetSigning{{t}}}}};
    s.cautions = {t};
    const std::string html = sheetHtml(s);
    EXPECT_EQ(shop::xmlComplaints(html), "");
    EXPECT_THAT(html, Not(HasSubstr("<script")));
    EXPECT_THAT(html, Not(HasSubstr("<img")));
    EXPECT_GE(shop::pdfPages(sheetPdf(s)), 1);
}

INSTANTIATE_TEST_SUITE_P(Table, HostileText,
                         testing::Values(Hostile{"script", "<script>alert(1)</script>"},
                                         Hostile{"quotes", "a\"b'c\" onload=\"x\" <img src=x>"},
                                         Hostile{"entities", "&lt;&amp;&#x3c;script]]>--><!--"},
                                         Hostile{"controls", std::string("a\0b\x1b[31m\x7f", 9)},
                                         Hostile{"noUtf8", "\xff\xfe\xc0\x80\xed\xa0\x80"},
                                         Hostile{"turned", "\u202Egnp.exe\u202C"},
                                         Hostile{"nonLatin", "Втулка 日本語 العربية 🛠"},
                                         Hostile{"long", std::string(5000, 'W')},
                                         Hostile{"longWords",
                                                 [] {
                                                     std::string text;
                                                     for (int i = 0; i < 800; ++i) text += "wort ";
                                                     return text;
                                                 }()},
                                         Hostile{"empty", ""}, Hostile{"markup", "<b>%s%n</b> {0} {}"}),
                         [](const auto& row) { return std::string(row.param.name); });

TEST(Sheets, MayBeEmpty) {
    EXPECT_EQ(shop::xmlComplaints(sheetHtml(Sheet{})), "");
    EXPECT_EQ(shop::pdfPages(sheetPdf(Sheet{})), 1);
}

TEST(Sheets, HoldMany) {
    Sheet s = sheet();
    SheetSection tools{"Tools", {}}, findings{"Findings", {}};
    Sketch sketch;
    sketch.width = 38;
    sketch.height = 30;
    for (int i = 0; i < 60; ++i) {
        tools.parts.emplace_back(SheetCard{fmt::format("T{} tool", i), sketch, {{"Offset", std::to_string(i)}}, {}});
    }
    for (int i = 0; i < 300; ++i) {
        findings.parts.emplace_back(
            SheetEntry{"STOP",
                       true,
                       fmt::format("line {} here", i),
                       {{SheetParagraph::Kind::Plain, "What is wrong."}, {SheetParagraph::Kind::Plain, "Do: this."}}});
    }
    s.sections = {tools, findings};
    EXPECT_EQ(shop::xmlComplaints(sheetHtml(s)), "");
    const std::string pdf = sheetPdf(s);
    const std::string text = shop::pdfText(pdf);
    EXPECT_GT(shop::pdfPages(pdf), 15);
    for (int i = 0; i < 60; ++i) EXPECT_EQ(count(text, fmt::format("T{} tool", i)), 1u);
    for (int i = 0; i < 300; ++i) EXPECT_EQ(count(text, fmt::format("line {} here", i)), 1u);
}

}  // namespace
}  // namespace firstoff
