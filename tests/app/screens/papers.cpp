#include "tests/app/screens/papers.h"

#include <algorithm>

#include <QApplication>
#include <QDeadlineTimer>
#include <QWidget>

#include "app/frame/session.h"
#include "app/planning/planning.h"
#include "app/print/bench_sheet_paper.h"
#include "app/print/listing_paper.h"
#include "app/print/machine_papers.h"
#include "app/print/paper.h"
#include "app/print/receipt_paper.h"
#include "app/print/tag_paper.h"
#include "app/scout/pocket_panel.h"
#include "core/learning/knowledge_base.h"

namespace secondpull::app {
namespace {

/// The sale whose buyer took the most along.
std::optional<SaleId> largestDeal(const Shop& shop) {
  std::optional<SaleId> found;
  std::size_t most = 0;
  for (const Sale& sale : shop.all<Sale>()) {
    const paper::Deal deal = paper::deal_of(shop, sale.id);
    if (deal.machines.size() + deal.parts.size() < most) continue;
    most = deal.machines.size() + deal.parts.size();
    found = sale.id;
  }
  return found;
}

std::optional<MachineId> outFront(const ByMachine& by_machine, const Shop& shop) {
  for (const Machine& machine : shop.all<Machine>())
    if (stage_of(by_machine.of(machine.id)) == Stage::for_sale) return machine.id;
  return std::nullopt;
}

}  // namespace

QStringList writePapers(Session& session, QWidget& window, const QString& folder) {
  QStringList wrong;
  const auto keep = [&](const std::optional<Problem>& problem) {
    if (problem) wrong << QString::fromStdString(problem->sentence);
  };
  const auto path = [&](const char* name) { return QStringLiteral("%1/paper-%2.pdf").arg(folder, name); };
  const auto shop = session.shop();
  const auto base = session.knowledge();
  const ByMachine by_machine{*shop};
  if (const auto tags = tagsOfAllHere(session).make()) keep(writeSheetPdf(*tags, path("tags")));
  const auto waiting = session.planning().backlog().machines;
  if (!waiting.empty()) {
    const MachineId machine = waiting.front().machine;
    keep(writeTagLabelPdf(paper::tag_of(by_machine.of(machine)), path("label")));
    session.planning().watch(machine);
    for (QDeadlineTimer patience{30000};
         benchSheetOf(session, machine).steps.empty() && !patience.hasExpired();)
      QApplication::processEvents(QEventLoop::WaitForMoreEvents, 50);
    keep(writeBenchSheetPdf(benchSheetOf(session, machine), path("bench-sheet")));
    keep(
        writeBenchSheetPdf(paper::blank_sheet(by_machine.of(machine), session.today()), path("blank-sheet")));
  }
  if (const auto sale = largestDeal(*shop))
    keep(writeReceiptPdf(paper::receipt_of(*shop, by_machine, *base, paper::deal_of(*shop, *sale)),
                         session.currency(), path("receipt")));
  if (const auto machine = outFront(by_machine, *shop)) {
    const ByMachine::Lines& lines = by_machine.of(*machine);
    const paper::ListingTerms terms = paper::terms_of(lines);
    ListingPaper listing{.words = paper::listing_words(*shop, lines, *base, terms, session.today()),
                         .price = session.money(terms.asking),
                         .seller = QString::fromStdString(shop->settings.name),
                         .number = QStringLiteral("#") + session.tagOf(*machine)};
    keep(writeListingPdf(listing, path("listing")));
  }
  if (auto* pocket = window.findChild<PocketPanel*>()) keep(writePdf(pocket->report(), path("pocket-card")));
  return wrong;
}

}  // namespace secondpull::app
