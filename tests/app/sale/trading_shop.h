#pragma once

#include <memory>
#include <stdexcept>
#include <string>

#include <QLabel>
#include <QTemporaryDir>
#include <QWidget>

#include "app/frame/session.h"
#include "core/shop/bench.h"
#include "core/shop/intake.h"
#include "core/shop/selling.h"

namespace secondpull::app::test {

constexpr Date day(int year, unsigned month, unsigned of_month) {
  return std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{of_month};
}
constexpr Money cents(std::int64_t units) {
  return Money::from_minor(units);
}

/// A shop in a folder of its own on 20 May 2026 that buys, mends and sells.
class TradingShop {
 public:
  TradingShop() {
    auto store = db::Store::create((folder_.path() + "/shop").toStdString(), Settings{}, now_);
    if (!store) throw std::runtime_error(store.error().sentence);
    session_ = std::make_unique<Session>(*std::move(store), [this] { return now_; });
  }
  Session& session() { return *session_; }
  std::shared_ptr<const Shop> shop() const { return session_->shop(); }
  std::shared_ptr<const Books> books() const { return session_->books(); }

  void perform(Result<Change> change) {
    if (const auto wrong = session_->perform(std::move(change))) throw std::runtime_error(wrong->sentence);
  }
  /// One machine, with an hour and 20 minutes of cleaning on it.
  MachineId buy(Date date, Money price, MachineKind kind, Source source, const char* make) {
    NewAcquisition acquisition;
    acquisition.date = date;
    acquisition.source = source;
    acquisition.price = price;
    NewMachine machine;
    machine.kind = kind;
    machine.make = make;
    machine.model = "21";
    acquisition.machines = {machine};
    perform(log_acquisition(*shop(), acquisition));
    const MachineId id = std::prev(shop()->all<Machine>().end())->id;
    perform(log_labour(*shop(), id, date, Minutes{80}, Work::clean, ""));
    return id;
  }
  void mend(MachineId machine, Date date) {
    perform(open_fault(*shop(), machine, date, "does not start", "", ""));
    const FaultId fault = std::prev(shop()->all<Fault>().end())->id;
    perform(end_fault(*shop(), fault, date, FaultEnd::mended, "carburettor"));
    perform(add_material(*shop(), machine, date, "gasket", cents(349)));
  }
  void list(MachineId machine, Date date, Money asking, std::optional<SoldAs> as = std::nullopt) {
    perform(list_machine(*shop(), machine, date, "notice board", asking, as));
  }
  void sell(MachineId machine, Date date, Money price, const char* buyer) {
    NewSale sale;
    sale.machine = machine;
    sale.date = date;
    sale.buyer.new_name = buyer;
    sale.price = price;
    sale.labour = Minutes{25};
    perform(secondpull::sell(*shop(), sale));
  }
  void spend(Date date, Money amount) {
    Change change{*shop(), "Spent"};
    change.add(Expense{.date = date, .category = "supplies", .amount = amount});
    perform(change);
  }

 private:
  QTemporaryDir folder_;
  db::Instant now_ = std::chrono::sys_days{day(2026, 5, 20)} + std::chrono::hours{12};
  std::unique_ptr<Session> session_;
};

/// The figure that a WhyFigure of that object name shows.
inline QString figureOf(const QWidget& page, const char* name) {
  const auto* figure = page.findChild<QWidget*>(QString::fromLatin1(name));
  if (figure == nullptr) return QStringLiteral("no such figure");
  for (const QLabel* label : figure->findChildren<QLabel*>())
    if (label->property("rank") == QStringLiteral("figure")) return label->text();
  return QStringLiteral("no figure in it");
}

template <class Widget>
Widget& child(const QWidget& page, const char* name) {
  auto* found = page.findChild<Widget*>(QString::fromLatin1(name));
  if (found == nullptr) throw std::runtime_error(std::string{"no widget "} + name);
  return *found;
}

}  // namespace secondpull::app::test
