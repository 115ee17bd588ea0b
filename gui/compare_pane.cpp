#include "gui/compare_pane.h"

#include <algorithm>
#include <cmath>

#include "gui/figures.h"
#include "gui/program_text.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr float kBar = 12;      // scroll bar
constexpr float kGutter = 56;   // between the columns, with the arrows
constexpr float kNumbers = 46;  // line numbers of a column

std::string shownText(std::string_view text) {
    std::string out;
    for (char c : text) {
        if (c == '\t') {
            out.append(4 - out.size() % 4, ' ');
        } else {
            out += static_cast<unsigned char>(c) < 0x20 ? '?' : c;
        }
    }
    return out;
}

float widthOf(const ImFont& font, std::string_view text) {
    return font.CalcTextSizeA(font.FontSize, 1e9f, 0, text.data(), text.data() + text.size()).x;
}

}  // namespace

void ComparePane::open(std::string name, std::filesystem::path path, std::string text) {
    open_ = true;
    name_ = std::move(name);
    path_ = std::move(path);
    other_ = TextDocument(std::move(text));
    savedRevision_ = other_.revision();
    compared_ = ComparedTexts();
    taken_.clear();
    takenToLeft_.reset();
    chosen_ = 0;
    top_ = 0;
    showFirst_ = true;
}

void ComparePane::leftChanged(const TextDocument& left) {
    if (!takenToLeft_) return;
    compared_.settled(*std::exchange(takenToLeft_, std::nullopt), Side::Left, left, other_);
    taken_.push_back(Side::Left);
}

void ComparePane::draw(const PaneContext& context) {
    if (!open_) return;
    compared_.poll(context.session.document, other_);
    const std::string label = say("{} beside {}", context.session.programName(), name_) + "###compare";
    if (!ImGui::IsPopupOpen("###compare")) ImGui::OpenPopup("###compare");
    const ImVec2 display = ImGui::GetIO().DisplaySize;
    const float edge = context.px(10);
    ImGui::SetNextWindowPos({edge, edge});
    ImGui::SetNextWindowSize({display.x - 2 * edge, display.y - 2 * edge});
    if (!ImGui::BeginPopupModal(label.c_str(), nullptr,
                                ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                                    ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse |
                                    ImGuiWindowFlags_NoNav)) {
        return;
    }
    drawHead(context);
    const ImVec2 at = ImGui::GetCursorScreenPos(), room = ImGui::GetContentRegionAvail();
    if (room.x > context.px(120) && room.y > context.px(20)) drawColumns(context, {at.x, at.y, room.x, room.y});
    handleKeys(context);
    if (!open_) ImGui::CloseCurrentPopup();
    ImGui::EndPopup();
}

void ComparePane::drawHead(const PaneContext& context) {
    const std::size_t count = compared_.differences().size();
    chosen_ = std::min(chosen_, count == 0 ? 0 : count - 1);
    if (compared_.known() && std::exchange(showFirst_, false) && count > 0) show(0);
    if (ImGui::ArrowButton("##before", ImGuiDir_Up) && chosen_ > 0) show(chosen_ - 1);
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s (%s)", tr("the difference before"), tr("Shift+F3"));
    ImGui::SameLine(0, context.px(4));
    if (ImGui::ArrowButton("##next", ImGuiDir_Down) && chosen_ + 1 < count) show(chosen_ + 1);
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s (F3)", tr("the next difference"));
    ImGui::SameLine();
    ImGui::AlignTextToFramePadding();
    const std::string told = !compared_.known() ? std::string(tr("comparing…"))
                             : count == 0       ? std::string(tr("no difference"))
                                          : say("difference {} of {}", wholeNumber(static_cast<double>(chosen_ + 1)),
                                                wholeNumber(static_cast<double>(count)));
    ImGui::TextUnformatted(told.c_str());
    ImGui::SameLine(0, context.px(16));
    ImGui::BeginDisabled(taken_.empty());
    if (ImGui::Button(tr("Undo"))) undo(context);
    ImGui::EndDisabled();
    if (!path_.empty() && otherModified()) {
        ImGui::SameLine();
        if (ImGui::Button(say("Save {}", path_.filename().string()).c_str())) context.commands.add(SaveCompared{});
    }
    const float close = context.px(80);
    ImGui::SameLine(ImGui::GetWindowWidth() - close - context.px(10));
    if (ImGui::Button(tr("Close"), {close, 0})) open_ = false;
}

void ComparePane::show(std::size_t difference) {
    if (difference >= compared_.differences().size()) return;
    chosen_ = difference;
    const double visible = height_ / lineHeight_;
    const auto row = static_cast<double>(compared_.rowOf(difference));
    if (row < top_ + 2 || row > top_ + visible - 4) top_ = row - std::floor(visible / 3);
}

void ComparePane::handleKeys(const PaneContext& context) {
    for (const InputEvent& event : context.input) {
        if (event.key == Key::Escape && !event.repeat) open_ = false;
        if (event.key == Key::F3 || event.key == Key::Down || event.key == Key::Up) {
            const bool up = event.key == Key::F3 ? event.shift : event.key == Key::Up;
            if (event.key != Key::F3) {
                top_ += up ? -1 : 1;
            } else if (!up || chosen_ > 0) {
                show(up ? chosen_ - 1 : chosen_ + 1);
            }
        }
        const double page = std::max(1.0, std::floor(static_cast<double>(height_ / lineHeight_)) - 1);
        if (event.key == Key::PageDown) top_ += page;
        if (event.key == Key::PageUp) top_ -= page;
        if (event.key == Key::Home) top_ = 0;
        if (event.key == Key::End) top_ = static_cast<double>(compared_.rowCount());
        if (event.ctrl && event.is('Z')) undo(context);
    }
}

void ComparePane::take(const PaneContext& context, std::size_t difference, Side into) {
    chosen_ = difference;
    const TextDocument& left = context.session.document;
    if (into == Side::Left) {
        takenToLeft_ = difference;
        context.commands.add(ChangeText{compared_.taken(difference, other_, left, Side::Left), left.revision()});
        return;
    }
    other_.replace(compared_.taken(difference, left, other_, Side::Right), 0);
    compared_.settled(difference, Side::Right, left, other_);
    taken_.push_back(Side::Right);
}

void ComparePane::undo(const PaneContext& context) {
    if (taken_.empty()) return;
    const Side side = taken_.back();
    taken_.pop_back();
    if (side == Side::Right) {
        other_.undo();
    } else {
        context.commands.add(EditProgram{EditProgram::What::Undo});
    }
}

void ComparePane::drawColumns(const PaneContext& context, const Rect& area) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImFont& small = *context.fonts.small;
    const Rect heads{area.x, area.y, area.w - context.px(kBar), small.FontSize + context.px(8)};
    const Rect rows{area.x, heads.bottom(), heads.w, area.h - heads.h};
    const float middle = rows.x + 0.5f * rows.w;
    const auto head = [&](const std::string& text, float x) {
        list.AddText(context.fonts.small, small.FontSize, {x, area.y + context.px(3)}, ink(context.palette.quiet),
                     fitted(small, 0.5f * rows.w - context.px(kGutter), text).c_str());
    };
    head(say("{} as it is edited", context.session.programName()), rows.x + context.px(kNumbers));
    head(name_, middle + context.px(0.5f * kGutter + kNumbers));
    lineHeight_ = std::round(context.fonts.mono->FontSize * 1.3f);
    height_ = rows.h;
    const double visible = rows.h / lineHeight_;
    const ImGuiIO& io = ImGui::GetIO();
    if (ImGui::IsWindowHovered() && io.MouseWheel != 0) top_ -= 3.0 * io.MouseWheel;
    top_ = std::clamp(top_, 0.0, std::max(0.0, static_cast<double>(compared_.rowCount()) + 1 - visible));
    list.PushClipRect({rows.x, rows.y}, {rows.right(), rows.bottom()}, true);
    const auto first = static_cast<std::size_t>(top_);
    const std::size_t end = std::min(compared_.rowCount(), first + static_cast<std::size_t>(visible) + 2);
    for (std::size_t row = first; compared_.known() && row < end; ++row) {
        const float y = std::round(rows.y + static_cast<float>((static_cast<double>(row) - top_) * lineHeight_));
        drawRow(context, rows, row, y, middle);
        if (!compared_.known()) break;  // taken over: all rows are others now
    }
    list.PopClipRect();
    drawBar(context, {rows.right(), rows.y, context.px(kBar), rows.h}, visible);
}

void ComparePane::drawRow(const PaneContext& context, const Rect& area, std::size_t index, float y, float middle) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ComparedTexts::Row row = compared_.row(index);
    const TextDocument& left = context.session.document;
    const float gutter = context.px(0.5f * kGutter);
    const Rect leftPlace{area.x, y, 0.5f * area.w - gutter, lineHeight_};
    const Rect rightPlace{middle + gutter, y, 0.5f * area.w - gutter, lineHeight_};
    WordDifferences words;
    constexpr std::size_t kNone = ComparedTexts::kNoLine;
    if (row.difference != kNone) {
        const bool chosen = row.difference == chosen_;
        const Palette& palette = context.palette;
        for (const auto& [place, line] : {std::pair{&leftPlace, row.left}, std::pair{&rightPlace, row.right}}) {
            const Colour ground = line == kNone ? palette.line : palette.accent;
            const float alpha = line == kNone ? 0.18f : chosen ? 0.26f : 0.14f;
            list.AddRectFilled({place->x, y}, {place->right(), y + lineHeight_}, ink(ground, alpha));
        }
        if (row.left != kNone && row.right != kNone) {
            words = wordDifferences(left.line(row.left).substr(0, 1024), other_.line(row.right).substr(0, 1024));
        }
    }
    if (row.left != kNone && row.left < left.lineCount()) drawLine(context, left, row.left, leftPlace, words.left);
    if (row.right != kNone && row.right < other_.lineCount())
        drawLine(context, other_, row.right, rightPlace, words.right);
    if (row.difference != kNone && compared_.rowOf(row.difference) == index)
        drawTakers(context, row.difference, middle, y);
}

void ComparePane::drawLine(const PaneContext& context, const TextDocument& document, std::size_t line,
                           const Rect& place, const std::vector<Stretch>& changed) const {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    ImFont* font = context.fonts.mono;
    const float down = std::round(0.5f * (lineHeight_ - font->FontSize));
    const std::string number = std::to_string(line + 1);
    const float numbers = context.px(kNumbers);
    list.AddText(font, font->FontSize, {place.x + numbers - context.px(8) - widthOf(*font, number), place.y + down},
                 ink(context.palette.quiet), number.c_str());
    const std::string_view text = document.line(line).substr(0, 1024);
    list.PushClipRect({place.x + numbers, place.y}, {place.right(), place.bottom()}, true);
    const auto xOf = [&](std::size_t byte) {
        return place.x + numbers + widthOf(*font, shownText(text.substr(0, std::min(byte, text.size()))));
    };
    for (const Stretch& stretch : changed) {
        const ImVec2 low{xOf(stretch.from), place.y + 1}, high{xOf(stretch.to), place.bottom() - 1};
        list.AddRectFilled(low, high, ink(context.palette.wordTool, 0.3f));
        list.AddRect(low, high, ink(context.palette.wordTool, 0.8f));
    }
    for (const TextRun& run : runsOf(text)) {
        list.AddText(font, font->FontSize, {xOf(run.from), place.y + down}, ink(colourOf(context.palette, run.kind)),
                     shownText(text.substr(run.from, run.to - run.from)).c_str());
    }
    list.PopClipRect();
}

// An arrow each way, at the first row of a difference.
void ComparePane::drawTakers(const PaneContext& context, std::size_t difference, float x, float y) {
    const ImVec2 size{context.px(24), lineHeight_};
    ImGui::PushID(static_cast<int>(difference));
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {0, 0});
    std::optional<Side> into;
    ImGui::SetCursorScreenPos({x - size.x - context.px(1), y});
    if (ImGui::Button("←", size)) into = Side::Left;
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", tr("take it over into the program"));
    ImGui::SetCursorScreenPos({x + context.px(1), y});
    if (ImGui::Button("→", size)) into = Side::Right;
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", say("take it over into {}", name_).c_str());
    ImGui::PopStyleVar();
    ImGui::PopID();
    if (into && !takenToLeft_) take(context, difference, *into);
}

void ComparePane::drawBar(const PaneContext& context, const Rect& bar, double visible) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const double rows = static_cast<double>(compared_.rowCount()) + 1;
    const double most = std::max(0.0, rows - visible);
    ImGui::SetCursorScreenPos({bar.x, bar.y});
    ImGui::InvisibleButton("bar", {bar.w, bar.h});
    const double grab = std::max(static_cast<double>(context.px(24)), bar.h * std::min(1.0, visible / rows));
    if (ImGui::IsItemActive() && most > 0) {
        const double at = (ImGui::GetIO().MousePos.y - bar.y - 0.5 * grab) / std::max(1.0, bar.h - grab);
        top_ = std::clamp(at, 0.0, 1.0) * most;
    }
    float drawnTo = -1;
    for (std::size_t i = 0; i < compared_.differences().size(); ++i) {
        const float y = bar.y + static_cast<float>(static_cast<double>(compared_.rowOf(i)) / rows) * bar.h;
        if (y < drawnTo + 2 && i != chosen_) continue;
        drawnTo = y;
        list.AddRectFilled({bar.x, y - 1}, {bar.right(), y + 1},
                           ink(context.palette.wordTool, i == chosen_ ? 1 : 0.7f));
    }
    if (most <= 0) return;
    const float top = bar.y + static_cast<float>(top_ / most * (bar.h - grab));
    list.AddRectFilled({bar.x + bar.w * 0.25f, top}, {bar.x + bar.w * 0.75f, top + static_cast<float>(grab)},
                       ink(context.palette.quiet, 0.5f), bar.w * 0.25f);
}

}  // namespace firstoff::gui
