#pragma once

#include "app/books/books_panel.h"
#include "app/parts/data_table.h"
#include "core/books/year_papers.h"

class QLabel;

namespace secondpull::app {

class WordRow;

class TaxPaidList;
class WhyFigure;

/// Sales tax of a year by place, and what was handed on. Object names: salesTaxTable, salesTaxOwed,
/// salesTaxNone, and those of TaxPaidList.
class SalesTaxPanel : public BooksPanel {
  Q_OBJECT
 public:
  SalesTaxPanel(Session& session, QWidget* parent);
  void refresh() override;
  void start() override;
  Report report() const override;

 protected:
  void changeEvent(QEvent* event) override;

 private:
  /// Large text leaves height for one of the tables at a time: the words salesTaxWhich choose.
  void fit();
  WordRow* which_;
  WhyFigure *before_, *collected_, *handed_on_, *owed_;
  QLabel* none_;
  RowModel<TaxOfPlace>* model_;
  DataTable* table_;
  TaxPaidList* paid_;
};

}  // namespace secondpull::app
