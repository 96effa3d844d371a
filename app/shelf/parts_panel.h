#pragma once

#include <QPointer>

#include "app/parts/data_table.h"
#include "app/shelf/shelf_panel.h"
#include "app/shelf/stock_rows.h"

class QLabel;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace secondpull::app {

class CountEdit;
class EmptyState;
class Form;

/// The parts: what is on hand, on order and for which machine, off donors, what it cost, what runs low.
/// Beside the table the part it stands on: where its pieces came from, its facts (changed in place), pieces
/// written off. Object names: "partFilter", "partTable", "partName", "partPieces", "partFacts",
/// "writeOffLine", "writeOff", "sellPart", "foundPart", and in its form "part.name", "part.number",
/// "part.supplier", "part.reorder_at".
class PartsPanel : public ShelfPanel {
  Q_OBJECT
 public:
  PartsPanel(Session& session, QWidget* parent);
  void refresh() override;
  void start() override;
  void editFacts();
  void startWriteOff();
  void sellSome();   ///< the part it stands on, by itself
  void takeFound();  ///< parts that turned up

 signals:
  void wantsOrder();  ///< there is no part yet: the first step is an order

 private:
  void openForm(Form* form, QVBoxLayout* into);
  void showCurrent();
  void writeOff();
  std::optional<StockRow> current() const;
  QString piecesInWords(PartId part) const;

  QLineEdit* filter_;
  RowModel<StockRow>* model_;
  DataTable* table_;
  QWidget* full_;
  EmptyState* empty_;
  QWidget* detail_;
  QLabel* name_;
  QLabel* says_;
  QLabel* pieces_;
  QPushButton* facts_;
  QPushButton *sell_, *found_;
  QVBoxLayout *form_slot_, *found_slot_;
  QPointer<Form> form_;
  PartId editing_{};  ///< what form_ is about, if it is about one part
  CountEdit* write_off_;
  QPushButton* write_off_button_;
};

}  // namespace secondpull::app
