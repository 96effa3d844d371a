#pragma once

#include "app/books/entry_list.h"
#include "core/books/year_papers.h"

namespace secondpull::app {

class RecordPicker;
class TenthsEdit;

/// The mileage log of a year. Object names: trip..., tripMiles, tripPurpose, tripDestination, tripAbout.
class TripList : public EntryList {
  Q_OBJECT
 public:
  TripList(Session& session, QWidget* parent);
  const MileageLog& log() const { return log_; }

 protected:
  void addFields(Form& form) override;
  void fill(const AnyId& record) override;
  QString title(bool changing) const override;
  QString whatGoesHere() const override;
  Result<Change> typed(const std::optional<AnyId>& changing) const override;
  AnyId recordAt(int row) const override { return model_->row(row).trip; }
  void setRows(int year) override;
  int fieldsInARow() const override { return 5; }

 private:
  TripList(Session& session, RowModel<LoggedTrip>* model, QWidget* parent);
  RowModel<LoggedTrip>* model_;
  MileageLog log_;
  TenthsEdit* miles_ = nullptr;
  QLineEdit *purpose_ = nullptr, *destination_ = nullptr;
  RecordPicker* about_ = nullptr;
};

}  // namespace secondpull::app
