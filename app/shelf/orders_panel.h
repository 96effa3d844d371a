#pragma once

#include <QPointer>

#include "app/parts/data_table.h"
#include "app/shelf/shelf_panel.h"
#include "app/shelf/stock_rows.h"

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace secondpull::app {

class EmptyState;
class Form;

/// The orders, under way first; beside them the lines of the one the table stands on, and taking it in.
/// Placing an order opens above the table. Object names: "orderTable", "orderTitle", "orderLines",
/// "newOrder", "receive", "cameIn" (what can go on), and those of order_form.
class OrdersPanel : public ShelfPanel {
  Q_OBJECT
 public:
  OrdersPanel(Session& session, QWidget* parent);
  void refresh() override;
  void start() override;
  void placeOrder();
  void receive();

 private:
  void showCurrent();
  void keepForm(Form* form, QVBoxLayout* slot, QPointer<Form>& kept);
  QString linesAsTable(OrderId order) const;
  std::optional<OrderRow> current() const;

  RowModel<OrderRow>* model_;
  DataTable* table_;
  QWidget* full_;
  EmptyState* empty_;
  QWidget* order_scroll_;
  QVBoxLayout* order_slot_;
  QPointer<Form> order_form_;
  QPushButton* new_;
  QWidget* detail_;
  QLabel* title_;
  QLabel* standing_;
  QLabel* lines_;
  QPushButton* receive_;
  QVBoxLayout* receive_slot_;
  QPointer<Form> receive_form_;
  OrderId receiving_{};  ///< what receive_form_ is about
  QLabel* came_in_;
};

}  // namespace secondpull::app
