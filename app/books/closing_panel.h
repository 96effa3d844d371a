#pragma once

#include "app/books/books_panel.h"
#include "app/parts/data_table.h"
#include "core/books/closing.h"
#include "core/books/unfinished.h"

class QLabel;
class QPushButton;

namespace secondpull::app {

class TwoSides;

/// Where each year stands, what is worth a look before one is closed, closing it and opening it again, and
/// the figures that were kept beside those of now. Object names: closingYears, closingChecks,
/// closingDo (closes or opens), closingSays, closingDrift.
class ClosingPanel : public BooksPanel {
  Q_OBJECT
 public:
  /// A year as the table shows it.
  struct YearState {
    int year = 0;
    std::optional<Date> closed;
    std::optional<Money> net_profit;
    bool same = true;  ///< the kept figures are those of now
  };

  ClosingPanel(Session& session, QWidget* parent);
  void refresh() override;
  void start() override;
  Report report() const override;

 private:
  void showChecks();
  void showKept();
  void closeOrOpen();
  void go(const UnfinishedItem& item);
  std::vector<UnfinishedItem> items_;
  RowModel<YearState>* years_model_;
  RowModel<UnfinishedItem>* checks_model_;
  RowModel<KeptAgainstNow>* kept_model_;
  DataTable *years_, *checks_, *kept_;
  QLabel *title_, *says_, *years_title_, *checks_title_, *kept_title_;
  QPushButton* do_;
  TwoSides* sides_;
};

}  // namespace secondpull::app
