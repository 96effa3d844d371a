#pragma once

#include <vector>

#include <QJsonArray>
#include <QStringList>
#include <QWidget>

#include "core/shop/evening.h"

namespace secondpull::app {

class Session;

/// Sums that went out for the shop in general: amount, what kind of cost, a note. A new row appears when the
/// last one is begun. Object names in evening_page.h.
class SpentRows : public QWidget {
  Q_OBJECT
 public:
  explicit SpentRows(Session& session, QWidget* parent = nullptr);
  ~SpentRows() override;
  void clear();  ///< one empty row
  std::vector<EveningExpense> expenses() const;
  std::optional<Problem> problem() const;
  void setTabAfter(QWidget* field);

  QJsonArray draft() const;
  void restore(const QJsonArray& draft);

 signals:
  void edited();

 private:
  struct Impl;
  Impl* impl_;  // a child object
};

/// The kinds of cost that this shop has written down, the most frequent first; a few usual ones in a new
/// shop.
QStringList usedCategories(const Session& session);

}  // namespace secondpull::app
