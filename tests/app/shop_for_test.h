#pragma once

#include <memory>

#include <QTemporaryDir>
#include <gtest/gtest.h>

#include "app/frame/session.h"
#include "core/shop/intake.h"

namespace secondpull::app::test {

/// A shop in a folder of its own, with a clock that a test moves.
class ShopForTest {
 public:
  ShopForTest() {
    Settings settings;
    settings.name = "Test garage";
    Result<db::Store> store = db::Store::create(path(), settings, now);
    if (!store) throw std::runtime_error(store.error().sentence);
    open(*std::move(store));
  }
  /// Closes the shop and opens it again, as after the end of the program.
  void reopen() {
    session.reset();
    Result<db::Store> store = db::Store::open(path(), db::Access::write, now);
    if (!store) throw std::runtime_error(store.error().sentence);
    open(*std::move(store));
  }
  MachineId logMachine(const std::string& make, const std::string& model) {
    NewAcquisition in;
    in.date = session->today();
    in.source = Source::curb;
    in.machines.push_back(
        {.kind = MachineKind::push, .make = make, .model = model, .symptom = "will not start"});
    const auto wrong = session->perform(log_acquisition(*session->shop(), in));
    EXPECT_FALSE(wrong) << wrong->sentence;
    MachineId newest{};
    for (const Machine& machine : session->shop()->all<Machine>())
      newest = std::max(newest, machine.id);
    return newest;
  }
  std::filesystem::path path() const { return (folder_.path() + "/shop").toStdString(); }

  db::Instant now = std::chrono::sys_days{std::chrono::year{2026} / 5 / 4} + std::chrono::hours{15};
  std::unique_ptr<Session> session;

 private:
  void open(db::Store store) {
    session = std::make_unique<Session>(std::move(store), [this] { return now; });
  }
  QTemporaryDir folder_;
};

}  // namespace secondpull::app::test
