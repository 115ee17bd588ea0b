#include "sim/trial/previous_blank.h"

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/setup/blank_check.h"
#include "sim/stock/left_over.h"

namespace firstoff {

namespace {

void tellNothing(Setup& setup, const StockHistory& previous) {
    const Stock& stock = setup.stock;
    const std::size_t fallen = previous.severances().size();
    Finding finding;
    finding.severity = Severity::Stop;
    finding.code = "previous-leaves-nothing";
    finding.unproven = true;
    finding.span = stock.sizeSpan;
    finding.message = stock.piece == 0 ? say("{} leaves no metal in the chuck.", stock.previousProgram)
                                       : say("{} leaves no piece {}; pieces that fell: {}.", stock.previousProgram,
                                             stock.piece, fallen);
    finding.remedy = tr("Correct piece in [stock]: 0 is what is left in the chuck, 1 the first piece that falls.");
    setup.findings.push_back(std::move(finding));
}

}  // namespace

void takePrevious(Setup& setup, const std::shared_ptr<const StockHistory>& previous) {
    if (setup.stock.shape != Stock::Shape::Previous || !previous) return;
    const std::optional<Billet> left = billetLeft(previous, setup.stock.piece);
    if (left) setup.stock = sizedBy(std::move(setup.stock), columnsOf(*left));
    if (setup.stock.outerRadius > 0) {
        checkBlankInChuck(setup);
    } else {
        tellNothing(setup, *previous);
    }
}

}  // namespace firstoff
