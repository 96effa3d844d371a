#pragma once

#include <QLineEdit>

#include "app/bench/bench_panel.h"
#include "app/bench/part_offers.h"
#include "core/calendar/date.h"

class QComboBox;
class QPushButton;

namespace secondpull::app {

class MoneyEdit;

/// A line in which Ctrl+Enter means something of its own. (An event filter would not do: an open list of
/// completions hands keys straight to the field.)
class PartField : public QLineEdit {
  Q_OBJECT
 public:
  using QLineEdit::QLineEdit;

 signals:
  void controlReturnPressed();

 protected:
  void keyPressEvent(QKeyEvent* event) override;
};

/// Fitting a part: any bit of its name or number, "x2" behind it for two; the line under it says what Enter
/// will fit and what it costs. A part that the shelf has not but the hand has is taken in and fitted with
/// Ctrl+Enter, at the cost shown: its last price as a guess, else 0. Object names: "partLine", "partFit",
/// "partFound", "foundCost", "partFrom", "partHint".
class PartLine : public BenchPanel {
  Q_OBJECT
 public:
  PartLine(Session& session, std::function<Date()> day, QWidget* parent);
  void refresh() override;
  void start();

 protected:
  void turned() override;

 private:
  /// What the typed text means now.
  struct Meant {
    std::optional<PartOffer> offer;  ///< the best match among known parts
    QString name;                    ///< as typed, without the quantity
    std::int64_t quantity = 1;
  };
  Meant meant() const;
  void explain();
  void showSources(const Meant& meant);
  void guessCost(const Meant& meant);
  void fit();
  void fitFound();

  std::function<Date()> day_;
  std::vector<PartOffer> offers_;
  PartOfferModel* model_;
  PartField* line_;
  QComboBox* from_;
  QPushButton* fit_;
  QPushButton* found_;
  MoneyEdit* cost_;
  HintLine* hint_;
};

}  // namespace secondpull::app
