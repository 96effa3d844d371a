#pragma once

#include <optional>

#include "app/parts/form.h"
#include "core/shop/ids.h"

namespace secondpull::app {

class DateEdit;

/// A listing ends without a sale, and why. Object names: endListingForm, endReason, endDate.
class EndListingForm : public Form {
  Q_OBJECT
 public:
  EndListingForm(Session& session, ListingId listing, QWidget* parent = nullptr);

 private:
  std::optional<Problem> save();
  Session& session_;
  ListingId listing_;
  QLineEdit* reason_;
  DateEdit* date_;
};

}  // namespace secondpull::app
