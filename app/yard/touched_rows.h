#pragma once

#include <vector>

#include <QJsonArray>
#include <QWidget>

#include "core/shop/evening.h"

namespace secondpull::app {

class Session;

/// The machines that may have been worked on in a day, a row each: a tick, how long, what kind of work, and
/// what was used. Object names in evening_page.h.
class TouchedRows : public QWidget {
  Q_OBJECT
 public:
  explicit TouchedRows(Session& session, QWidget* parent = nullptr);
  ~TouchedRows() override;
  void offer(Date day);         ///< afresh, from the record
  void add(MachineId machine);  ///< one that was not offered, ticked
  std::vector<EveningMachine> ticked() const;
  std::optional<Problem> problem() const;  ///< of a ticked row; the field is marked and focused
  bool isEmpty() const;
  void setTabAfter(QWidget* field);
  void focusFirst();

  QJsonArray draft() const;
  void restore(const QJsonArray& draft);

 signals:
  void edited();

 private:
  struct Impl;
  Impl* impl_;  // a child object
};

}  // namespace secondpull::app
