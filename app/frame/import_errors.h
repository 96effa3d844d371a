#pragma once

#include <vector>

#include <QWidget>

#include "db/exchange/exchange.h"

class QLabel;

namespace secondpull::app {

class DataTable;
class Session;
template <class Row>
class RowModel;

/// Every error of an import as a list: file, line, column, value, and what is wrong; the chosen one is said
/// in full below it.
class ImportErrors : public QWidget {
  Q_OBJECT
 public:
  explicit ImportErrors(Session& session, QWidget* parent = nullptr);
  void setErrors(std::vector<db::ImportError> errors);

 private:
  RowModel<db::ImportError>* model_;
  DataTable* table_;
  QLabel* full_;
};

}  // namespace secondpull::app
