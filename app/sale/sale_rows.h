#pragma once

#include <vector>

#include <QString>

#include "app/parts/data_table.h"
#include "core/books/books.h"

namespace secondpull::app {

class Session;

/// Which machines the table of the For sale screen holds.
enum class SaleView {
  to_sell,  ///< out front, and those ready to be listed
  coming,   ///< none: who comes is a list of its own (coming_list.h)
  here,     ///< every machine that is here
  sold      ///< sold and not brought back
};

/// One machine as one who sells it sees it.
struct SaleRow {
  MachineId machine{};
  QString tag, name;
  QString stands;  ///< "out front since 3 May at $195"
  Stage stage = Stage::in_the_yard;
  bool ready = false;  ///< mended and not for sale yet
  std::optional<Money> asking;
  std::optional<int> days;  ///< out front
  int open_offers = 0;
  std::optional<Money> best_offer;  ///< of the open ones
  Money cost;
  std::optional<Money> profit, pay_per_hour;  ///< sold: as it was; else if sold at the asking price today
};

/// In the order in which one wants to see them: what stands out front longest first; sold ones latest first.
std::vector<SaleRow> saleRows(const Session& session, SaleView view);
std::vector<TableColumn<SaleRow>> saleColumns(const Session& session);

/// The listing that is out now: the latest since the machine came in that has not ended, or nullptr.
const Listing* listingNow(const ByMachine::Lines& lines);

/// Mended and not for sale yet: in its test run, or every fault of it ended and at least one of them mended.
bool isReadyToList(const ByMachine::Lines& lines);

/// The asking prices as words, the latest first: "Asking $189 since 28 Sep, roadside, running. Before that
/// $210 from 1 Sep, 27 days." Empty if it never was for sale.
QString priceHistory(const Session& session, const ByMachine::Lines& lines);

}  // namespace secondpull::app
