#pragma once

#include "app/parts/form.h"
#include "core/planning/scout.h"
#include "core/shop/finds.h"

namespace secondpull::app {

/// The description of a find. Object names: form "scout.find"; "findKind", "findWhat", "findYear",
/// "findSymptom", "findAsking", "findMargin", "findMiles", "findMinutes", "findPickup", "findPlace"; "save",
/// "leave".
class LeadForm : public Form {
  Q_OBJECT
 public:
  explicit LeadForm(Session& session, QWidget* parent = nullptr);
  ~LeadForm() override;
  void fillFrom(const Find& find);  ///< puts a kept find into the fields
  void startAfresh();               ///< the shop's usual kind and margin, and nothing else
  void setSymptom(const QString& symptom);
  /// As it stands in the fields, what cannot be read left out. Driving counts at the published rate of the
  /// day where the shop keeps its books in dollars.
  planning::Lead lead() const;
  NewFind newFind() const;
  Find over(Find find) const;  ///< the find with the fields in the place of its facts

 signals:
  void edited();  ///< anything changed: typed, chosen, or put in

 private:
  struct Entry;
  Entry* entry_;  // a child object
};

}  // namespace secondpull::app
