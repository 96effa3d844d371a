#pragma once

#include <memory>

#include <QDeadlineTimer>
#include <QLineEdit>
#include <QPushButton>
#include <QTest>
#include <gtest/gtest.h>

#include "app/frame/page.h"
#include "app/parts/data_table.h"
#include "app/sale/machine_panel.h"
#include "app/sale/sale_page.h"
#include "app/sale/suggestion_panel.h"
#include "tests/app/sale/trading_shop.h"

namespace secondpull::app::test {

/// The For sale screen of a shop with two machines out front and one mended; each failure there is a test of
/// its own.
class SaleScreenTest : public ::testing::Test {
 protected:
  SaleScreenTest() {
    out_front = shop.buy(day(2026, 3, 2), cents(4000), MachineKind::push, Source::private_sale, "Tarnwick");
    second = shop.buy(day(2026, 3, 5), cents(2000), MachineKind::push, Source::curb, "Ostrel");
    mended = shop.buy(day(2026, 4, 1), cents(2550), MachineKind::self_propelled, Source::curb, "Fennimoor");
    for (const MachineId machine : {out_front, second, mended})
      shop.mend(machine, day(2026, 4, 10));
    shop.list(out_front, day(2026, 5, 3), cents(16000), SoldAs::running);
    shop.list(second, day(2026, 5, 4), cents(8000), SoldAs::as_is);
  }
  Page& show() {
    if (!page) {
      page.reset(makeSalePage(shop.session(), nullptr));
      QObject::connect(&shop.session(), &Session::changed, page.get(), &Page::refresh);
      QObject::connect(page.get(), &Page::wantsSaid, page.get(),
                       [this](const QString& sentence, bool) { said = sentence; });
      page->resize(1280, 700);
      page->refresh({});
      page->show();
      (void)QTest::qWaitForWindowExposed(page.get());
      page->activateWindow();
      (void)QTest::qWaitForWindowActive(page.get());
    }
    return *page;
  }
  MachinePanel& panel() { return child<MachinePanel>(show(), "salePanel"); }
  QString text(const char* label) { return child<QLabel>(show(), label).text(); }
  bool visible(const char* widget) { return child<QWidget>(show(), widget).isVisible(); }
  void type(const char* field, const QString& text) {
    auto& edit = child<QLineEdit>(show(), field);
    edit.setFocus();
    edit.selectAll();
    QTest::keyClicks(&edit, text);
  }
  void enter(const char* field) { QTest::keyClick(&child<QLineEdit>(show(), field), Qt::Key_Return); }
  void press(const char* button) { child<QPushButton>(show(), button).click(); }
  /// Until the outlook of the machine shown is there.
  void waitForOutlook() {
    for (QDeadlineTimer patience{20000}; panel().suggestion().isWorking() && !patience.hasExpired();)
      QApplication::processEvents(QEventLoop::WaitForMoreEvents, 50);
    ASSERT_FALSE(panel().suggestion().isWorking());
  }
  OfferId offer(MachineId machine, const char* amount, const char* who, const char* comes = "") {
    panel().setMachine(machine);
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);  // the form of the one before
    panel().openOffer();
    type("offerAmount", amount);
    type("offerWho", who);
    type("offerComes", comes);
    enter("offerWho");
    return std::prev(shop.shop()->all<Offer>().end())->id;
  }

  TradingShop shop;
  MachineId out_front{}, second{}, mended{};
  QString said;
  std::unique_ptr<Page> page;
};

}  // namespace secondpull::app::test
