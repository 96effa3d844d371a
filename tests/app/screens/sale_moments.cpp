#include "tests/app/screens/sale_moments.h"

#include <QApplication>
#include <QDeadlineTimer>
#include <QPushButton>
#include <QScrollBar>

#include "app/frame/main_window.h"
#include "app/frame/session.h"
#include "app/parts/form.h"
#include "app/parts/look.h"
#include "app/sale/deal_list.h"
#include "app/sale/machine_panel.h"
#include "app/sale/suggestion_panel.h"
#include "core/shop/deal.h"
#include "core/shop/deposits.h"
#include "core/shop/offers.h"

namespace secondpull::app {

void waitForSuggestion(MainWindow& window) {
  auto* panel = window.findChild<SuggestionPanel*>();
  for (QDeadlineTimer patience{20000}; panel != nullptr && panel->isWorking() && !patience.hasExpired();)
    QApplication::processEvents(QEventLoop::WaitForMoreEvents, 50);
}

QStringList drawSaleMoments(Session& session, MainWindow& window,
                            const std::function<void(const QString& name)>& take) {
  QStringList faults;
  std::vector<MachineId> out;
  const auto shop = session.shop();
  for (const Listing& listing : shop->all<Listing>())
    if (!listing.ended) out.push_back(listing.machine);
  if (out.size() < 2) return {"fewer than two machines are out front"};
  int actions = 0;
  const auto perform = [&](Result<Change> change) {
    const auto wrong = session.perform(std::move(change));
    if (wrong)
      faults << QString::fromStdString(wrong->sentence);
    else
      ++actions;
  };
  const Date today = session.today();
  const auto offer = [&](const char* who, std::int64_t whole, int in_days) {
    perform(record_offer(*session.shop(), {.machine = out[0],
                                           .date = plus_days(today, -1),
                                           .amount = Money::from_minor(whole * 100),
                                           .who = who,
                                           .comes = plus_days(today, in_days)}));
    return std::prev(session.shop()->all<Offer>().end())->id;
  };
  offer("Ruel", 60, 1);
  const OfferId taken = offer("Imre", 140, 0);
  perform(take_deposit(*session.shop(), taken, today, Money::from_minor(2000), "cash"));

  window.goTo("For sale", out[0]);  // makes the page
  auto* panel = window.findChild<MachinePanel*>();
  auto* bar = panel->verticalScrollBar();
  for (const Theme theme : {Theme::light, Theme::dark}) {
    setTheme(*qApp, theme);
    window.goTo("For sale", out[0]);
    waitForSuggestion(window);
    bar->setValue(0);
    take("offers");
    for (const char* figure : {"salesAsk", "salesDays", "salesFloor", "salesHold"}) {
      auto* why = window.findChild<QWidget*>(figure)->findChild<QPushButton*>();
      why->click();
      take(QStringLiteral("why-%1").arg(figure));
      why->click();
    }
    bar->setValue(bar->maximum());
    take("listing");
    panel->openSale(taken);
    window.findChild<DealList*>()->add(out[1]);
    take("deal");
    auto* form = window.findChild<Form*>("saleForm");
    form->clear();
    form->leave();
    QApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  }
  perform(
      sell_together(*session.shop(), {.date = today,
                                      .buyer = {.known = {}, .new_name = "Imre"},
                                      .machines = {{.machine = out[0], .taken = taken}, {.machine = out[1]}},
                                      .price = Money::from_minor(19900)}));
  for (const Theme theme : {Theme::light, Theme::dark}) {
    setTheme(*qApp, theme);
    window.goTo("For sale", out[0]);
    take("sold");
  }
  for (; actions > 0; --actions)
    session.undo();
  return faults;
}

}  // namespace secondpull::app
