#pragma once

#include <optional>
#include <vector>

#include <QWidget>

#include "core/planning/backlog_plan.h"
#include "core/planning/scout.h"
#include "core/shop/finds.h"

class QLabel;
class QVBoxLayout;

namespace secondpull::app {

class NumberedChoices;
class Session;

/// What the planner says of a find: the offer, the chance, what it takes, and the question that changes the
/// answer most, with a numbered button for each answer. Object names: "scoutOffer", "scoutAsked",
/// "scoutChance", "scoutTakes", "scoutCounts", "scoutQuestion", "scoutAnswer1"..., "scoutSaid1"... (answers
/// given; pressing one takes it back), "scoutOther1"... (the other questions).
class OfferPanel : public QWidget {
  Q_OBJECT
 public:
  OfferPanel(Session& session, QWidget* parent = nullptr);
  void showLead(const planning::Lead& lead);  ///< what was asked last
  void showWorth(const Result<planning::LeadWorth>& worth, const planning::HourValue& hour);
  void showQuestions(std::vector<planning::SellerQuestion> questions);
  void showSaid(const std::vector<SellerSaid>& said);
  bool press(int number);  ///< an answer by its number
  void start();

 signals:
  void answered(const QString& test, const QString& outcome);  ///< by name; outcome empty: taken back
  void symptomSaid(const QString& symptom);

 private:
  void ask(std::size_t question);
  void showOthers();
  QString moneyWords(double amount) const;

  Session& session_;
  planning::Lead lead_;
  std::vector<planning::SellerQuestion> questions_;
  std::size_t asked_ = 0;
  std::vector<SellerSaid> said_;
  QLabel* offer_;
  QLabel* price_;
  QLabel* chance_;
  QLabel* takes_;
  QLabel* counts_;
  QLabel* head_;
  QLabel* question_;
  QLabel* worth_;
  NumberedChoices* choices_;
  QVBoxLayout* said_list_;
  QVBoxLayout* others_;
};

}  // namespace secondpull::app
