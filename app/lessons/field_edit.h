#pragma once

#include <QWidget>

#include "app/lessons/entry_sheet.h"

namespace secondpull::app {

/// The field of an entry, to be typed in. Object names: "knowledge.KEY", of low, usual and high
/// "knowledge.KEY.1" to ".3", of kinds of machine "knowledge.KEY.push" and so on.
class FieldEdit : public QWidget {
  Q_OBJECT
 public:
  using QWidget::QWidget;
  virtual Rows rows() const = 0;
  virtual void setRows(const Rows& rows) = 0;
  virtual void start() = 0;  ///< puts the focus into it

 signals:
  void edited();   ///< by the person
  void entered();  ///< Enter in a line of it
};

/// The editor of any field but those that are a table (table_edit.h).
FieldEdit* makeFieldEdit(const FieldSpec& field, QWidget* parent);

}  // namespace secondpull::app
