#pragma once

#include <optional>

#include <QPointer>
#include <QWidget>

#include "app/frame/session.h"
#include "app/parts/data_table.h"
#include "app/parts/form.h"

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace secondpull::app {

class DateEdit;
class MoneyEdit;

/// Records of one kind that a person types line by line: the line to type on top, the table of those of a
/// year below. Enter on a row (or "Change") puts it into the line, Delete (or "Remove") takes it away. What
/// is typed is a draft until saved (form.h). Object names: NAMEForm, NAMETable, NAMENothing, NAMEChange,
/// NAMERemove.
class EntryList : public QWidget {
  Q_OBJECT
 public:
  /// Shows the records of a year: another year starts a new line.
  void refresh(int year);
  void start();  ///< to the line to type
  const DataTable& table() const { return *table_; }

 signals:
  void said(const QString& sentence, bool problem);

 protected:
  EntryList(Session& session, const QString& name, RowModelBase* model, QWidget* parent);

  virtual void addFields(Form& form) = 0;
  virtual void fill(const AnyId& record) = 0;  ///< puts the record into the fields
  virtual void fillNew() {}                    ///< what a new line starts with, its day apart
  virtual QString title(bool changing) const = 0;
  virtual QString whatGoesHere() const = 0;  ///< while the year has no line
  /// The change that saves what is typed: a new record, or `changing` as it is now.
  virtual Result<Change> typed(const std::optional<AnyId>& changing) const = 0;
  virtual AnyId recordAt(int row) const = 0;
  virtual int fieldsInARow() const { return 4; }  ///< fields side by side
  virtual void setRows(int year) = 0;

  Session& session() const { return session_; }
  DateEdit* addDay(Form& form);  ///< days without a year are of the year shown
  Date day() const;              ///< that it holds
  void setDay(Date date);

 private:
  void makeForm(const std::optional<AnyId>& changing);
  void change();
  void selectNewest();  ///< the line typed last, wherever it sorts
  void remove();
  Session& session_;
  QString name_;
  int year_ = 0;
  std::optional<Date> last_day_;  ///< of the line saved last: the next is often of the same
  QVBoxLayout* box_;
  QPointer<Form> form_;
  DateEdit* day_ = nullptr;
  DataTable* table_;
  QLabel* nothing_;
  QPushButton *change_, *remove_;
};

}  // namespace secondpull::app
