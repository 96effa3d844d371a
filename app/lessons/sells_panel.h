#pragma once

#include "app/lessons/tables_panel.h"
#include "core/lessons/seasons.h"
#include "core/market/days_to_sell.h"

namespace secondpull::app {

/// What sells how fast: by kind, by what was asked, and by month. Object names: sells... (TablesPanel);
/// tables sellsKinds, sellsAsked, sellsMonths.
class SellsPanel : public TablesPanel {
  Q_OBJECT
 public:
  SellsPanel(Session& session, QWidget* parent);
  void refresh() override;

 private:
  struct Kind {
    QString name;
    std::size_t sold = 0;         ///< running
    std::optional<double> price;  ///< the median of what they fetched
    market::DaysToSell days;      ///< listed today
    std::optional<double> usually;
  };
  struct Asked {
    QString name;
    std::size_t listings = 0, sold = 0;
    std::optional<double> median, low, high;  ///< days
  };
  struct Month {
    int number = 1;
    lessons::SeasonMonth of;
  };
  LessonSays ofKinds(const std::vector<Kind>& rows) const;
  LessonSays ofAsked(const std::vector<Asked>& rows) const;
  LessonSays ofMonths(const std::vector<Month>& rows) const;

  RowModel<Kind>* kinds_;
  RowModel<Asked>* asked_;
  RowModel<Month>* months_;
};

}  // namespace secondpull::app
