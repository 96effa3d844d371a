#pragma once

#include "app/books/entry_list.h"

namespace secondpull::app {

/// Sales tax handed on in a year. Object names: taxPaid..., taxPaidPlace, taxPaidAmount.
class TaxPaidList : public EntryList {
  Q_OBJECT
 public:
  TaxPaidList(Session& session, QWidget* parent);

 protected:
  void addFields(Form& form) override;
  void fill(const AnyId& record) override;
  QString title(bool changing) const override;
  QString whatGoesHere() const override;
  Result<Change> typed(const std::optional<AnyId>& changing) const override;
  AnyId recordAt(int row) const override { return model_->row(row).id; }
  void setRows(int year) override;

 private:
  TaxPaidList(Session& session, RowModel<TaxPaid>* model, QWidget* parent);
  RowModel<TaxPaid>* model_;
  QLineEdit* place_ = nullptr;
  MoneyEdit* amount_ = nullptr;
};

}  // namespace secondpull::app
