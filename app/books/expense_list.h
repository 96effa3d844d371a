#pragma once

#include "app/books/entry_list.h"

namespace secondpull::app {

/// The costs of the shop in a year. Object names: expense..., expenseCategory, expenseAmount, expenseNote.
class ExpenseList : public EntryList {
  Q_OBJECT
 public:
  ExpenseList(Session& session, QWidget* parent);

 protected:
  void addFields(Form& form) override;
  void fill(const AnyId& record) override;
  QString title(bool changing) const override;
  QString whatGoesHere() const override;
  Result<Change> typed(const std::optional<AnyId>& changing) const override;
  AnyId recordAt(int row) const override { return model_->row(row).id; }
  void setRows(int year) override;

 private:
  ExpenseList(Session& session, RowModel<Expense>* model, QWidget* parent);
  RowModel<Expense>* model_;
  QLineEdit *category_ = nullptr, *note_ = nullptr;
  MoneyEdit* amount_ = nullptr;
};

}  // namespace secondpull::app
