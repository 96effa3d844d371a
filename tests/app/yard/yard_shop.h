#pragma once

#include <memory>
#include <stdexcept>

#include <QApplication>
#include <QTemporaryDir>
#include <QTest>

#include "app/frame/page.h"
#include "app/frame/session.h"
#include "core/shop/intake.h"
#include "core/shop/selling.h"
#include "core/shop/shelf.h"

namespace secondpull::app {

/// A shop in a folder of its own, seen at noon on Wednesday 20 May 2026.
class YardShop {
 public:
  YardShop() { reopen(); }

  Session& session() { return *session_; }
  std::shared_ptr<const Shop> shop() const { return session_->shop(); }
  static Date today() { return std::chrono::year{2026} / std::chrono::May / 20; }

  /// Closes the shop and opens it again, as after a crash.
  void reopen() {
    session_.reset();
    const std::filesystem::path folder = (folder_.path() + "/shop").toStdString();
    const db::Instant noon = std::chrono::sys_days{today()} + std::chrono::hours{12};
    auto store = std::filesystem::exists(folder) ? db::Store::open(folder, db::Access::write, noon)
                                                 : db::Store::create(folder, Settings{}, noon);
    if (!store) throw std::runtime_error(store.error().sentence);
    session_ = std::make_unique<Session>(*std::move(store), [noon] { return noon; });
  }
  void perform(Result<Change> change) {
    if (const auto wrong = session_->perform(std::move(change))) throw std::runtime_error(wrong->sentence);
  }
  MachineId log(const char* make, Date date, int dollars, const char* symptom = "will not start") {
    NewAcquisition found{.date = date, .price = Money::from_minor(dollars * 100)};
    found.machines = {{.make = make, .model = "21", .symptom = symptom}};
    perform(log_acquisition(*shop(), found));
    return std::prev(shop()->all<Machine>().end())->id;
  }
  PartId buy(const char* part, std::int64_t quantity, int cents_each) {
    NewOrder order{.date = today(), .arrived = today()};
    order.lines.push_back(
        {.part = {.new_name = part}, .quantity = quantity, .price = Money::from_minor(cents_each)});
    perform(place_order(*shop(), order));
    return std::prev(shop()->all<Part>().end())->id;
  }
  QString folder() const { return folder_.path(); }

 private:
  QTemporaryDir folder_;
  std::unique_ptr<Session> session_;
};

template <class Widget = QWidget>
Widget* named(const QWidget* in, const char* name) {
  auto* found = in->findChild<Widget*>(QString::fromLatin1(name));
  if (found == nullptr) throw std::runtime_error(std::string{"no widget named "} + name);
  return found;
}

/// Shows a page by itself and keeps it told of changes, as the frame does.
inline std::unique_ptr<Page> shown(Session& session, Page* (*make)(Session&, QWidget*)) {
  std::unique_ptr<Page> page{make(session, nullptr)};
  QObject::connect(&session, &Session::changed, page.get(),
                   [at = page.get()](const std::vector<AnyId>& ids) { at->refresh(ids); });
  page->resize(1280, 720);
  page->show();
  page->activateWindow();
  QApplication::setActiveWindow(page.get());
  page->start();
  return page;
}

/// Presses keys one by one where the focus is, and counts them.
class Keys {
 public:
  explicit Keys(QWidget* page) : page_{page} {}
  void press(Qt::Key key, Qt::KeyboardModifiers modifiers = {}) {
    ++pressed_;
    QTest::keyClick(target(), key, modifiers);
  }
  void letter(char key) {
    ++pressed_;
    QTest::keyClick(target(), key);
  }
  /// Text is what anybody has to type, whatever the form; it is not counted.
  void type(const char* text) { QTest::keyClicks(target(), QString::fromUtf8(text)); }
  int pressed() const { return pressed_; }

 private:
  QWidget* target() const {
    QWidget* focus = page_->focusWidget();
    return focus != nullptr ? focus : page_;
  }
  QWidget* page_;
  int pressed_ = 0;
};

/// Does what the page offers under these words, as the What-now line and a key would.
inline void doDeed(Page& page, const char* words) {
  for (const Page::Deed& deed : page.deeds())
    if (deed.words == QLatin1String{words}) return deed.run();
  throw std::runtime_error(std::string{"no deed "} + words);
}

}  // namespace secondpull::app
