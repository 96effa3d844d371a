#pragma once

#include <functional>
#include <vector>

#include "app/lessons/lessons_panel.h"
#include "app/lessons/range_chart.h"
#include "app/parts/data_table.h"

class QLabel;
class QPushButton;
class QStackedWidget;
class QVBoxLayout;

namespace secondpull::app {

class TwoSides;
class WordRow;

/// A finding in plain words: what it is, what to do about it where the numbers carry that, and behind "why?"
/// the numbers and the words of statistics.
class PlainSentence : public QWidget {
  Q_OBJECT
 public:
  /// `name`: object name of the sentence; its "why?" is NAMEWhy.
  explicit PlainSentence(const QString& name, QWidget* parent = nullptr);
  void say(const QString& sentence, const QString& to_do, const QString& why);
  QString sentence() const;  ///< with what to do

 private:
  QLabel *sentence_, *to_do_, *answer_;
  QPushButton* ask_;
};

/// What a view of a sub-page shows besides its table.
struct LessonSays {
  QString sentence;
  QString to_do;                ///< empty: nothing that the numbers carry
  QString why;                  ///< rich text
  RangeChartOf chart;           ///< without a title: there is none, and the table has the whole width
  std::vector<int> chart_rows;  ///< the table's source row of each row of the chart
};

/// A sub-page that answers its question in a few views: a sentence in front, a table, and a chart of it. A
/// row of words chooses the view. Object names begin with the name given: NAMEViews, NAMESentence, NAMEChart,
/// NAMESides.
class TablesPanel : public LessonsPanel {
  Q_OBJECT
 public:
  void start() override;
  Report report() const override;
  int view() const;
  void turnTo(int view);

 protected:
  TablesPanel(Session& session, const QString& name, const QString& title, QWidget* parent);

  /// Adds a view: its word, what a screen reader calls its table, the table's object name.
  template <class Row>
  RowModel<Row>* addView(const QString& word, const QString& accessible, const QString& table_name,
                         std::vector<TableColumn<Row>> columns) {
    auto* model = new RowModel<Row>{std::move(columns), this};
    addTable(word, accessible, table_name, model);
    return model;
  }
  DataTable* table(int view) const { return views_[static_cast<std::size_t>(view)].table; }
  /// After all views were added: lays the page out. `figures` stand in front of the sentence. While it is
  /// empty, it says what goes here and offers a step on another screen.
  void layOut(const std::vector<QWidget*>& figures, const QString& when_empty, const QString& step,
              const QString& screen);
  void setEmpty(bool empty);
  void say(int view, LessonSays says);
  /// Sentences that go under the tables on paper.
  virtual QStringList notes() const { return {}; }

 private:
  struct View {
    QString word;
    DataTable* table = nullptr;
    LessonSays says;
  };
  void addTable(const QString& word, const QString& accessible, const QString& table_name,
                RowModelBase* model);
  void showView();
  void followTable();  ///< the chart in the table's order, its current row framed
  void markRow();

  QString name_, title_;
  std::vector<View> views_;
  std::vector<int> shown_;  ///< the source row of each row of the chart as shown
  WordRow* words_ = nullptr;
  PlainSentence* sentence_ = nullptr;
  QStackedWidget *whole_ = nullptr, *tables_ = nullptr;
  QLabel* chart_title_ = nullptr;
  RangeChart* chart_ = nullptr;
  TwoSides* sides_ = nullptr;
  QWidget* chart_side_ = nullptr;
};

}  // namespace secondpull::app
