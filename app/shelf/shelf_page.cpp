#include "app/shelf/shelf_page.h"

#include <QShortcut>
#include <QStackedLayout>
#include <QVBoxLayout>

#include "app/parts/choices.h"
#include "app/parts/look.h"
#include "app/shelf/orders_panel.h"
#include "app/shelf/part_out_panel.h"
#include "app/shelf/parts_panel.h"

namespace secondpull::app {
namespace {

enum Shown { kParts, kOrders, kPartOut };

class ShelfPage : public Page {
 public:
  ShelfPage(Session& session, QWidget* parent);

  QString word() const override { return tr("Shelf"); }
  QString iconName() const override { return QStringLiteral("shelf"); }
  QKeySequence key() const override { return QKeySequence{Qt::ALT | Qt::Key_3}; }
  void refresh(const std::vector<AnyId>& ids) override;
  void openMachine(MachineId machine) override;
  void start() override { current()->start(); }
  std::vector<Deed> deeds() override;

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  void turnTo(Shown which);
  ShelfPanel* current() const { return static_cast<ShelfPanel*>(stack_->currentWidget()); }
  void placeOrder() {
    turnTo(kOrders);
    orders_->placeOrder();
  }

  bool stale_ = true;
  WordRow* words_;
  QStackedLayout* stack_;
  PartsPanel* parts_;
  OrdersPanel* orders_;
  PartOutPanel* part_out_;
};

ShelfPage::ShelfPage(Session& session, QWidget* parent)
    : Page(session, parent),
      words_{new WordRow(tr("What is shown"), {tr("Parts"), tr("Orders"), tr("Part out a machine")}, this)},
      stack_{new QStackedLayout},
      parts_{new PartsPanel(session, this)},
      orders_{new OrdersPanel(session, this)},
      part_out_{new PartOutPanel(session, this)} {
  setObjectName(QStringLiteral("shelfPage"));
  words_->setObjectName(QStringLiteral("shelfWords"));
  for (ShelfPanel* panel : {static_cast<ShelfPanel*>(parts_), static_cast<ShelfPanel*>(orders_),
                            static_cast<ShelfPanel*>(part_out_)}) {
    stack_->addWidget(panel);
    connect(panel, &ShelfPanel::said, this, &Page::wantsSaid);
    connect(panel, &ShelfPanel::wantsMachine, this, &Page::wantsMachine);
  }
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(3 * kGrid, 2 * kGrid, 3 * kGrid, kGrid);
  column->setSpacing(2 * kGrid);
  column->addWidget(words_);
  column->addLayout(stack_, 1);
  connect(words_, &WordRow::chosen, this, [this](int index) { turnTo(static_cast<Shown>(index)); });
  connect(parts_, &PartsPanel::wantsOrder, this, &ShelfPage::placeOrder);

  const auto key = [this](const QKeySequence& keys, const std::function<void()>& run) {
    auto* shortcut = new QShortcut(keys, this);
    shortcut->setContext(Qt::WidgetWithChildrenShortcut);
    connect(shortcut, &QShortcut::activated, this, run);
  };
  key(Qt::Key_F5, [this] { turnTo(kParts); });
  key(Qt::Key_F6, [this] { turnTo(kOrders); });
  key(Qt::Key_F7, [this] { turnTo(kPartOut); });
  key(Qt::CTRL | Qt::Key_N, [this] { placeOrder(); });
  key(Qt::Key_F4, [this] {
    if (current() == parts_) parts_->editFacts();
  });
  key(Qt::Key_F8, [this] {
    turnTo(kOrders);
    orders_->receive();
  });
  key(Qt::Key_F9, [this] {
    turnTo(kParts);
    parts_->startWriteOff();
  });
  key(Qt::Key_F11, [this] {
    turnTo(kParts);
    parts_->sellSome();
  });
  key(Qt::Key_F12, [this] {
    turnTo(kParts);
    parts_->takeFound();
  });
}

void ShelfPage::turnTo(Shown which) {
  words_->setCurrent(which);
  stack_->setCurrentIndex(which);
  current()->refresh();
  current()->start();
}

void ShelfPage::refresh(const std::vector<AnyId>&) {
  stale_ = true;
  if (!isVisible()) return;
  stale_ = false;
  current()->refresh();
}

void ShelfPage::showEvent(QShowEvent* event) {
  Page::showEvent(event);
  if (stale_) refresh({});
}

void ShelfPage::openMachine(MachineId machine) {
  turnTo(kPartOut);
  part_out_->setDonor(machine);
}

std::vector<Page::Deed> ShelfPage::deeds() {
  return {
      {tr("parts on hand"), Qt::Key_F5, [this] { turnTo(kParts); }},
      {tr("orders under way"), Qt::Key_F6, [this] { turnTo(kOrders); }},
      {tr("place an order"), QKeySequence{Qt::CTRL | Qt::Key_N}, [this] { placeOrder(); }},
      {tr("an order is here"), Qt::Key_F8,
       [this] {
         turnTo(kOrders);
         orders_->receive();
       }},
      {tr("part out a machine"), Qt::Key_F7, [this] { turnTo(kPartOut); }},
      {tr("write a part off"), Qt::Key_F9,
       [this] {
         turnTo(kParts);
         parts_->startWriteOff();
       }},
      {tr("sell a part by itself"), Qt::Key_F11,
       [this] {
         turnTo(kParts);
         parts_->sellSome();
       }},
      {tr("a part turned up"), Qt::Key_F12,
       [this] {
         turnTo(kParts);
         parts_->takeFound();
       }},
  };
}

}  // namespace

Page* makeShelfPage(Session& session, QWidget* parent) {
  return new ShelfPage(session, parent);
}

}  // namespace secondpull::app
