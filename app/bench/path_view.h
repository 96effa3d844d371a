#pragma once

#include <QAbstractListModel>
#include <QListView>

#include "app/bench/bench_panel.h"
#include "app/bench/day_book.h"

class QPushButton;

namespace secondpull::app {

/// The lines of a machine's day book as a list.
class DayBookModel : public QAbstractListModel {
  Q_OBJECT
 public:
  explicit DayBookModel(Session& session, QObject* parent = nullptr);
  void setLines(std::vector<DayBookLine> lines);
  const DayBookLine& line(int row) const { return lines_[static_cast<std::size_t>(row)]; }
  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QString dayOf(int row) const;     ///< "5 Mar"; empty if the line above is of the same day
  QString longestDay() const;       ///< the widest text that dayOf gives
  QString amountOf(int row) const;  ///< money and time of the line, as far as it has them

 private:
  Session& session_;
  std::vector<DayBookLine> lines_;
};

/// The path so far: everything that happened to the machine as tags on a string, newest first. Enter or F2
/// changes a line in place, Delete takes it out. Object names: "pathList", "pathChange", "pathRemove".
class PathView : public BenchPanel {
  Q_OBJECT
 public:
  PathView(Session& session, QWidget* parent);
  void refresh() override;
  void start();  ///< the focus into the list

 signals:
  void wantsChange(const AnyId& record);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void removeCurrent();
  void changeCurrent();
  void showDeeds();

  DayBookModel* model_;
  QListView* list_;
  QPushButton* change_;
  QPushButton* remove_;
};

}  // namespace secondpull::app
