#pragma once

#include <chrono>
#include <memory>
#include <stdexcept>
#include <string>

#include <QTemporaryDir>

#include "app/frame/session.h"
#include "core/shop/bench.h"
#include "core/shop/intake.h"
#include "core/shop/selling.h"
#include "core/shop/shelf.h"

namespace secondpull::app {

constexpr Date day(int year, unsigned month, unsigned of_month) {
  return std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{of_month};
}
constexpr Money cents(std::int64_t units) {
  return Money::from_minor(units);
}

/// A shop in a folder of its own on 20 May 2026, noon UTC, and a few ways to fill it.
class TestShop {
 public:
  TestShop() : session_{makeSession()} {}

  Session& session() { return *session_; }
  std::shared_ptr<const Shop> shop() const { return session_->shop(); }
  std::shared_ptr<const Books> books() const { return session_->books(); }
  void pass(std::chrono::minutes time) { now_ += time; }

  /// Performs it; throws what was wrong.
  void perform(Result<Change> change) {
    if (const auto failed = session_->perform(std::move(change))) throw std::runtime_error(failed->sentence);
  }

  MachineId logMachine(Date date, Money price, MachineKind kind = MachineKind::push,
                       const char* symptom = "") {
    NewAcquisition acquisition;
    acquisition.date = date;
    acquisition.price = price;
    NewMachine machine;
    machine.kind = kind;
    machine.make = "Tarnwick";
    machine.model = "21P";
    machine.symptom = symptom;
    acquisition.machines = {machine};
    perform(log_acquisition(*shop(), acquisition));
    return std::prev(shop()->all<Machine>().end())->id;
  }

  /// Pieces of a part over the counter at a price each; the part is made if it is not known.
  PartId buy(const char* name, std::int64_t quantity, Money each, Date date) {
    NewOrder order;
    order.date = date;
    order.arrived = date;
    order.lines = {{choose(name), quantity, each, std::nullopt}};
    perform(place_order(*shop(), order));
    return *find(name);
  }

  PartChoice choose(const char* name) const {
    PartChoice part;
    part.known = find(name);
    if (!part.known) part.new_name = name;
    return part;
  }
  std::optional<PartId> find(const char* name) const {
    for (const Part& part : shop()->all<Part>())
      if (part.name == name) return part.id;
    return std::nullopt;
  }

 private:
  std::unique_ptr<Session> makeSession() {
    if (!folder_.isValid()) throw std::runtime_error("no folder for the test's shop");
    auto store = db::Store::create((folder_.path() + "/shop").toStdString(), Settings{}, now_);
    if (!store) throw std::runtime_error(store.error().sentence);
    return std::make_unique<Session>(std::move(*store), [this] { return now_; });
  }

  QTemporaryDir folder_;
  db::Instant now_ = std::chrono::sys_days{day(2026, 5, 20)} + std::chrono::hours{12};
  std::unique_ptr<Session> session_;
};

}  // namespace secondpull::app
