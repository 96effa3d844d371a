#include "core/planning/pocket_card.h"

#include <algorithm>
#include <cmath>

#include "core/learning/units.h"

namespace secondpull::planning {
namespace {

Money whole_units_below(double offer, const Currency& currency) {
  const double units = std::max(0.0, std::floor(offer));
  return Money::from_minor(std::llround(units * learning::minor_units(currency)));
}

}  // namespace

PocketCard pocket_card(const Situation& situation, double hour_value, Money margin,
                       const decision::Budget& each) {
  const learning::Knowledge& knowledge = situation.base().knowledge;
  const Currency& currency = situation.shop().settings.currency;
  PocketCard card{.rows = {PocketCard::Row{}}};
  for (const learning::Symptom& symptom : knowledge.symptoms)
    card.rows.push_back({.symptom = symptom.id});
  for (const learning::KindFigures& figures : knowledge.kinds) {
    if (each.go_on && !each.go_on({})) break;
    card.kinds.push_back(figures.kind);
    for (PocketCard::Row& row : card.rows)
      row.most_to_pay.emplace_back();
    const Lead lead{.machine = {.kind = figures.kind}, .minutes = kUsualFetch, .margin = margin};
    const auto asked = seller_questions(situation, lead, hour_value, each);
    if (!asked) continue;
    double not_tried = 0;
    for (const SellerAnswer& answer : asked->front().answers) {
      not_tried += answer.chance * answer.most_to_offer;
      const auto row = std::find_if(card.rows.begin(), card.rows.end(), [&](const PocketCard::Row& each_row) {
        return each_row.symptom == answer.outcome;
      });
      row->most_to_pay.back() = whole_units_below(answer.most_to_offer, currency);
    }
    card.rows.front().most_to_pay.back() = whole_units_below(not_tried, currency);
  }
  return card;
}

}  // namespace secondpull::planning
