#include "core/books/books.h"

#include <algorithm>
#include <numeric>
#include <stdexcept>

#include <fmt/format.h>

#include "core/books/books_data.h"
#include "core/books/describe.h"

namespace secondpull {

using namespace bookkeeping;

namespace {

/// The machines' places in order of tag.
std::vector<Position> places_by_tag(const Table<Machine>& machines) {
  std::vector<Position> places(machines.size());
  std::iota(places.begin(), places.end(), Position{0});
  const auto rows = machines.begin();
  std::sort(places.begin(), places.end(), [&](Position a, Position b) { return rows[a].tag < rows[b].tag; });
  return places;
}

std::vector<Transaction> written_out(const Shop& shop, const Ledger& ledger) {
  std::vector<Transaction> transactions;
  transactions.reserve(ledger.happenings().size());
  for (std::size_t i = 0; i < ledger.happenings().size(); ++i) {
    const Ledger::Happening& happening = ledger.happenings()[i];
    Transaction& transaction = transactions.emplace_back(
        Transaction{happening.date, happening.event, what_happened(shop, happening), {}});
    const auto [first, last] = ledger.legs(i);
    for (const Ledger::Entry* leg = first; leg != last; ++leg) {
      Account account{leg->account, MachineId{}, ledger.name(leg->name)};
      std::optional<MachineId> about;
      if (leg->machine != nowhere) about = shop.all<Machine>().begin()[leg->machine].id;
      if (leg->account == AccountKind::machines) account.machine = *about;
      const auto same = std::find_if(
          transaction.postings.begin(), transaction.postings.end(),
          [&](const Posting& posting) { return posting.account == account && posting.about == about; });
      if (same == transaction.postings.end())
        transaction.postings.push_back({std::move(account), about, leg->amount});
      else
        same->amount += leg->amount;
    }
    std::erase_if(transaction.postings, [](const Posting& posting) { return posting.amount.is_zero(); });
  }
  return transactions;
}

}  // namespace

namespace bookkeeping {

LinesOfMachines::LinesOfMachines(std::size_t machines, const Ledger& ledger) : first(machines + 1, 0) {
  for (const Ledger::Entry& entry : ledger.entries())
    if (entry.line) ++first[entry.machine + 1];
  std::partial_sum(first.begin(), first.end(), first.begin());
  entries.resize(first.back());
  std::vector<std::size_t> next(first.begin(), first.end() - 1);
  for (std::size_t i = 0; i < ledger.entries().size(); ++i)
    if (const Ledger::Entry& entry = ledger.entries()[i]; entry.line)
      entries[next[entry.machine]++] = static_cast<std::uint32_t>(i);
}

}  // namespace bookkeeping

Money Books::Data::spent_until(Position place, Date day) const {
  Money spent;
  for (std::size_t i = lines.first[place]; i < lines.first[place + 1]; ++i) {
    const Ledger::Entry& entry = ledger.entries()[lines.entries[i]];
    if (group_of(*entry.line) == LineGroup::cost && *entry.line != LineKind::gift &&
        ledger.happenings()[entry.happening].date <= day)
      spent += entry.amount;
  }
  return spent;
}

Money Books::Data::more_overheads(Position place, Date day, Minutes more) const {
  if (more.count == 0) return {};
  const auto with = [&](Minutes minutes) {
    return overhead_share_with(yearly_overheads, work, year_of(day), place, rank[place], minutes);
  };
  return with(more) - with({});
}

Result<Books> Books::of(std::shared_ptr<const Shop> shop, const MileageRates& rates) {
  auto books = without_unrated_trips(std::move(shop), rates);
  if (books && !books->data_->unrated.empty()) return tl::unexpected(books->data_->unrated.front().problem);
  return books;
}

Result<Books> Books::without_unrated_trips(std::shared_ptr<const Shop> shop, const MileageRates& rates) try {
  ByMachine by_machine{*shop};
  LinesByPlace lines_by_place;
  lines_by_place.reserve(shop->all<Machine>().size());
  for (const Machine& machine : shop->all<Machine>())
    lines_by_place.push_back(&by_machine.of(machine.id));
  auto lots = Lots::of(*shop);
  if (!lots) return tl::unexpected(lots.error());
  auto stock = Stock::of(*shop);
  if (!stock) return tl::unexpected(stock.error());
  const auto order = DayOrder::of(*shop, lines_by_place, stock->arrivals());
  if (!order) return tl::unexpected(order.error());

  Bookkeeper keeper{*shop, rates, *std::move(lots), *std::move(stock), lines_by_place};
  keeper.ledger().reserve(order->size());
  const auto keep = [&](Turn turn, const auto& row) { return keeper.keep(turn, row); };
  std::vector<Inventory> inventories;
  const auto year_over = [&](int year) {
    inventories.push_back(take_inventory(year, keeper.machines(), keeper.stock()));
  };
  if (auto wrong = order->each(keep, year_over)) return tl::unexpected(*std::move(wrong));
  keeper.ledger().close();

  const std::vector<Position> by_tag = places_by_tag(shop->all<Machine>());
  std::vector<Position> rank(by_tag.size());
  for (std::size_t i = 0; i < by_tag.size(); ++i)
    rank[by_tag[i]] = static_cast<Position>(i);
  auto work = work_by_year(*shop, keeper.lots(), keeper.places(), rank);
  if (!work) return tl::unexpected(work.error());
  std::map<int, Money> yearly_overheads = overheads_by_year(keeper.ledger());
  std::vector<OverheadShare> overheads = overhead_shares(yearly_overheads, *work);
  std::vector<MachineSums> sums = sum_up(by_tag.size(), keeper.ledger(), overheads, *work);

  std::vector<MachineFigures> figures;
  figures.reserve(by_tag.size());
  for (const Position place : by_tag)
    figures.push_back(figures_of(sums[place], keeper.machines()[place], *lines_by_place[place]));

  LinesOfMachines lines{by_tag.size(), keeper.ledger()};
  std::vector<StockReceipt> on_hand = keeper.stock().on_hand();
  return Books{std::shared_ptr<const Data>{new Data{.shop = shop,
                                                    .rates = rates,
                                                    .by_machine = std::move(by_machine),
                                                    .places = keeper.places(),
                                                    .lots = keeper.lots(),
                                                    .ledger = std::move(keeper.ledger()),
                                                    .unrated = keeper.unrated(),
                                                    .inventories = std::move(inventories),
                                                    .accounts = std::move(keeper.machines()),
                                                    .sums = std::move(sums),
                                                    .work = *std::move(work),
                                                    .yearly_overheads = std::move(yearly_overheads),
                                                    .overheads = std::move(overheads),
                                                    .lines = std::move(lines),
                                                    .rank = std::move(rank),
                                                    .figures = std::move(figures),
                                                    .stock = std::move(on_hand),
                                                    .written = {},
                                                    .transactions = {}}}};
} catch (const std::overflow_error&) {
  return problem("The amounts in the records are too large to be added up.", "amount");
}

const std::vector<Transaction>& Books::transactions() const {
  std::call_once(data_->written, [this] { data_->transactions = written_out(*data_->shop, data_->ledger); });
  return data_->transactions;
}

const std::vector<MachineFigures>& Books::machines() const {
  return data_->figures;
}

const MachineFigures* Books::machine(MachineId id) const {
  const Position place = data_->places.of(id);
  return place == nowhere ? nullptr : &data_->figures[data_->rank[place]];
}

std::vector<FigureLine> Books::lines(MachineId id) const {
  const Position place = data_->places.of(id);
  std::vector<FigureLine> lines;
  if (place == nowhere) return lines;
  const bool of_lot = data_->lots.machines(data_->lots.acquisition(place)).size() > 1;
  for (std::size_t i = data_->lines.first[place]; i < data_->lines.first[place + 1]; ++i) {
    const Ledger::Entry& entry = data_->ledger.entries()[data_->lines.entries[i]];
    const Ledger::Happening& happening = data_->ledger.happenings()[entry.happening];
    lines.push_back({*entry.line, happening.date, happening.event,
                     what_it_is(*data_->shop, happening, *entry.line, of_lot), -entry.amount});
  }
  const auto [first, last] =
      std::equal_range(data_->overheads.begin(), data_->overheads.end(), OverheadShare{place, 0, {}},
                       [](const OverheadShare& a, const OverheadShare& b) { return a.machine < b.machine; });
  for (auto share = first; share != last; ++share)
    lines.push_back({LineKind::overhead, std::chrono::year{share->year} / 12 / 31, std::nullopt,
                     fmt::format("share of the overheads of {}", share->year), -share->amount});
  std::stable_sort(lines.begin(), lines.end(),
                   [](const FigureLine& a, const FigureLine& b) { return a.date < b.date; });
  return lines;
}

std::optional<MachineFigures> Books::if_sold(MachineId id, Money price, Money fee, Money delivery, Date day,
                                             Minutes selling) const {
  const Position place = data_->places.of(id);
  if (place == nowhere || !is_here(machine(id)->stage)) return std::nullopt;
  try {
    MachineFigures figures = *machine(id);
    const Money net = price - fee - delivery;
    if (const auto& gift = data_->accounts[place].gift)
      figures.cost_basis += settled_basis(*gift, data_->spent_until(place, day), net) - gift->carried;
    figures.stage = Stage::sold;
    figures.sold = day;
    figures.net_proceeds = data_->sums[place].net_proceeds + net;
    figures.minutes += selling;
    figures.running_costs += data_->more_overheads(place, day, selling);
    figures.days_held = days_between(figures.acquired, day);
    const ByMachine::Lines& lines = data_->by_machine.of(id);
    figures.days_for_sale = days_listed(lines, here_since(lines), day);
    work_out_profit(figures);
    return figures;
  } catch (const std::overflow_error&) {
    return std::nullopt;
  }
}

const std::vector<StockReceipt>& Books::stock() const {
  return data_->stock;
}

namespace {

auto receipts_of(const std::vector<StockReceipt>& stock, PartId part) {
  return std::equal_range(stock.begin(), stock.end(), StockReceipt{part, {}, {}, {}, 0, {}},
                          [](const StockReceipt& a, const StockReceipt& b) { return a.part < b.part; });
}

}  // namespace

std::int64_t Books::on_hand(PartId part) const {
  const auto [first, last] = receipts_of(data_->stock, part);
  return std::accumulate(first, last, std::int64_t{0}, [](std::int64_t sum, const StockReceipt& receipt) {
    return sum + receipt.quantity;
  });
}

std::optional<Money> Books::cost_of_next(PartId part, std::int64_t quantity) const {
  if (quantity < 0) return std::nullopt;
  Money cost;
  const auto [first, last] = receipts_of(data_->stock, part);
  for (auto receipt = first; receipt != last && quantity > 0; ++receipt) {
    const std::int64_t taken = std::min(quantity, receipt->quantity);
    cost += cost_of_pieces(receipt->cost, receipt->quantity, 0, taken);
    quantity -= taken;
  }
  if (quantity > 0) return std::nullopt;
  return cost;
}

const ByMachine& Books::by_machine() const {
  return data_->by_machine;
}

const Shop& Books::shop() const {
  return *data_->shop;
}

}  // namespace secondpull
