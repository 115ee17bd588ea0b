#include "gui/words_pane.h"

#include <imgui_stdlib.h>

#include <algorithm>

#include "gui/block_words.h"
#include "gui/program_text.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

// The word in its colour at the left, its sentences beside it; beneath it where the page is narrow.
void drawWord(const Page& page, const WordExplained& word, float column) {
    const PaneContext& context = page.context();
    const ImFont& mono = *context.fonts.mono;
    const ImFont& text = *context.fonts.text;
    const float pad = page.pad();
    const bool beside = column < 0.4f * page.width();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddText(&mono, mono.FontSize, {at.x + pad, at.y}, ink(inkOfWord(context.palette, word.word)),
                 word.word.c_str());
    const float left = pad + (beside ? column : 0);
    const std::string told = wrapped(text, page.width() - (beside ? column : 0), word.text);
    const float down = beside ? 0 : mono.FontSize + context.px(2);
    list.AddText(&text, text.FontSize, {at.x + left, at.y + down}, ink(context.palette.text), told.c_str());
    ImGui::Dummy({page.width(), std::max(mono.FontSize, heightOf(text, told)) + down + context.px(5)});
}

}  // namespace

Colour inkOfWord(const Palette& palette, std::string_view word) {
    const std::vector<TextRun> runs = runsOf(word);
    return runs.empty() ? palette.text : colourOf(palette, runs.front().kind);
}

void tellWord(const PaneContext& context, const WordExplained& word) {
    ImGui::BeginTooltip();
    ImGui::PushFont(context.fonts.mono);
    ImGui::TextColored(tint(inkOfWord(context.palette, word.word)), "%s", word.word.c_str());
    ImGui::PopFont();
    ImGui::TextUnformatted(wrapped(*context.fonts.text, context.px(360), word.text).c_str());
    ImGui::EndTooltip();
}

void tellOrigin(const PaneContext& context, const ModalOrigin& origin) {
    const Trial& trial = *context.session.trial();
    for (WordExplained& word : explainBlock(trial, origin.block)) {
        if (word.span.column != origin.span.column) continue;
        std::string where = blockTitle(trial, origin.block);
        where += '\n';
        word.text.insert(0, where);
        tellWord(context, word);
        return;
    }
}

bool tellWordAt(const PaneContext& context, std::size_t line, std::size_t byte) {
    const Session& session = context.session;
    if (session.stale() || session.showsChanges() || !context.instant) return false;
    const Trial& trial = *session.trial();
    const auto block = static_cast<BlockId>(line);
    if (block >= trial.program.endBlockOf(0)) return false;
    const Program& program = trial.program;
    const Block& text = program.blocks[block];
    const Instant& now = *context.instant;
    for (const Word* word = program.begin(text); word != program.end(text); ++word) {
        const std::size_t from = word->offset - text.offset;
        if (byte < from || byte >= from + word->length) continue;
        const bool runs = now.block == block && trial.toolpath.steps[now.step].block == block;
        const auto told = explainBlock(trial, block, runs ? std::optional(now.step) : std::nullopt);
        tellWord(context, told[static_cast<std::size_t>(word - program.begin(text))]);
        return true;
    }
    return false;
}

void WordsPane::take(const PaneContext& context) {
    const Instant& now = *context.instant;
    const bool same = trial_ == context.session.outcome->trial && block_ == now.block && step_ == now.step;
    if (same) return;
    trial_ = context.session.outcome->trial;
    block_ = now.block;
    step_ = now.step;
    const bool own = trial_->toolpath.steps[step_].block == block_;
    words_ = explainBlock(*trial_, block_, own ? std::optional(step_) : std::nullopt);
}

void WordsPane::draw(const PaneContext& context, const Rect& rect) {
    Page page(context, "words", rect);
    ImGui::SetCursorPosX(page.pad());
    ImGui::SetNextItemWidth(page.width());
    ImGui::InputTextWithHint("##look up", tr("look up: G71, thread, depth of cut …"), &typed_);
    page.gap();
    if (typed_.find_first_not_of(' ') != std::string::npos) {
        drawLookUp(page);
    } else if (!context.instant || context.session.trial()->toolpath.steps.empty()) {
        page.quiet(tr("No block runs."));
    } else {
        take(context);
        drawBlock(page);
    }
}

void WordsPane::drawBlock(const Page& page) {
    const PaneContext& context = page.context();
    page.words(blockTitle(*trial_, block_), context.palette.quiet);
    page.gap();
    if (words_.empty()) {
        const Block::Kind kind = trial_->program.blocks[block_].kind;
        page.words(kind == Block::Kind::Statement
                       ? tr("A macro statement: it works out, jumps or repeats, and moves nothing.")
                   : kind == Block::Kind::Percent ? tr("Start or end of the program as it is sent to the control.")
                                                  : tr("No words: the block does nothing."),
                   context.palette.text);
        return;
    }
    float column = 0;
    const ImFont& mono = *context.fonts.mono;
    for (const WordExplained& word : words_)
        column = std::max(column, mono.CalcTextSizeA(mono.FontSize, 1e9f, 0, word.word.c_str()).x);
    for (const WordExplained& word : words_) drawWord(page, word, column + context.px(12));
}

void WordsPane::drawLookUp(const Page& page) {
    const PaneContext& context = page.context();
    const Trial* trial = context.session.trial();
    const CodeSystem system = trial ? trial->setup.control.codeSystem : CodeSystem::A;
    std::string in(languageInUse());
    in += static_cast<char>('A' + static_cast<int>(system));
    if (in != referenceIn_) {
        reference_ = codeReference(system);
        referenceIn_ = std::move(in);
        found_.clear();
    }
    if (typed_ != found_) {
        found_ = typed_;
        rows_ = searchReference(reference_, found_);
        open_ = rows_.size() == 1 ? rows_.front() : static_cast<std::size_t>(-1);
    }
    if (rows_.empty()) page.words(tr("Nothing is known here by these words."), context.palette.text);
    constexpr std::size_t kMostRows = 60;
    for (std::size_t i = 0; i < std::min(rows_.size(), kMostRows); ++i) drawRow(page, rows_[i]);
    if (rows_.size() > kMostRows) page.words(say("and {} more", rows_.size() - kMostRows), context.palette.quiet);
}

// A click tells a row in full: its letters, how long it holds, an example.
void WordsPane::drawRow(const Page& page, std::size_t index) {
    const PaneContext& context = page.context();
    const ReferenceRow& row = reference_.rows[index];
    const ImVec2 at = ImGui::GetCursorScreenPos();
    drawWord(page, {{}, row.code, row.meaning}, context.px(78));
    const ImVec2 end = ImGui::GetCursorScreenPos();
    ImGui::SetCursorScreenPos({at.x, at.y});
    ImGui::PushID(static_cast<int>(index));
    if (ImGui::InvisibleButton("row", {page.width() + page.pad(), std::max(1.0f, end.y - at.y)}))
        open_ = open_ == index ? static_cast<std::size_t>(-1) : index;
    ImGui::PopID();
    ImGui::SetCursorScreenPos(end);
    if (open_ != index) return;
    if (!row.carriedOut) page.words(tr("It is not carried out here."), warningInk(context, Severity::Warning));
    for (const std::string* text : {&row.group, &row.holds, &row.ends}) {
        if (!text->empty()) page.words(*text, context.palette.quiet);
    }
    CycleBlock block = CycleBlock::Only;
    for (const ReferenceWord& word : row.words) {
        if (word.block != block) page.words(cycleBlockName(word.block), context.palette.quiet);
        block = word.block;
        std::string text = word.meaning;
        if (!word.measure.empty()) {
            text += ", ";
            text += word.measure;
        }
        drawWord(page, {{}, word.letter, text}, context.px(24));
    }
    if (!row.example.empty()) drawWord(page, {{}, row.example, ""}, page.width());
    page.gap();
}

}  // namespace firstoff::gui
