#include "app/cli/answer_json.h"

#include "core/decision/why.h"

namespace secondpull::cli {
namespace {

using Json = nlohmann::ordered_json;
using namespace decision;
using diagnosis::Case;

Json move_json(const NamedMove& move) {
  return {{"kind", word(move.kind)}, {"id", move.id}};
}

Json or_null(const std::optional<double>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json belief_json(const std::vector<double>& belief, const Answer& answer, const Case& of) {
  Json out = Json::object();
  for (const diagnosis::Cause& cause : of.causes)
    out[cause.id] = 0.0;
  for (std::size_t c = 0; c < belief.size(); ++c)
    out[of.causes[answer.model.causes[c].in_case].id] = belief[c];
  return out;
}

/// How a node's outcome is called: what the test showed, or whether the repair mended it.
std::string outcome_word(const PlanNode& parent, const PlanNode& child, const Answer& answer,
                         const Case& of) {
  if (parent.move.kind == Move::Kind::test)
    return of.tests[answer.model.tests[parent.move.place].in_case].outcomes[*child.outcome];
  return child.what == PlanNode::What::revived ? "mended" : "failed";
}

Json node_json(const PlanNode& node, const Answer& answer, const Case& of) {
  Json out = Json::object();
  const bool revived = node.what == PlanNode::What::revived;
  out["move"] =
      revived ? Json{{"kind", "revived"}, {"id", "revived"}} : move_json(named(of, answer.model, node.move));
  out["probability"] = node.chance;
  out["worth"] = node.worth;
  out["belief"] = belief_json(node.belief, answer, of);
  if (!revived) out["why"] = why(node, answer, of);
  out["outcomes"] = Json::array();
  for (const PlanNode& child : node.children) {
    Json entry = {{"outcome", outcome_word(node, child, answer, of)}};
    entry.update(node_json(child, answer, of));
    out["outcomes"].push_back(std::move(entry));
  }
  return out;
}

Json ranking_json(const std::vector<Ranked>& ranking) {
  Json out = Json::array();
  for (const Ranked& ranked : ranking) {
    Json entry = move_json(ranked.move);
    entry["value"] = ranked.value;
    entry["at_most"] = ranked.at_most;
    out.push_back(std::move(entry));
  }
  return out;
}

/// Figures that are those of the best plan found, not proved to be the best there is.
Json unproved(const Answer& answer) {
  Json out = Json::array();
  if (!answer.break_even_price.exact) out.push_back("break_even_price");
  if (!answer.worth_per_hour.exact) out.push_back("worth_per_hour");
  return out;
}

}  // namespace

Json json_of(const Answer& answer, const Case& of) {
  Json out = Json::object();
  out["next"] = move_json(answer.next);
  out["verdict"] = answer.verdict;
  out["value"] = answer.value;
  out["stop_now"] = {{"id", answer.stop_now.id}, {"value", answer.stop_now_value}};
  out["gain"] = answer.gain;
  out["gap"] = answer.gap;
  out["expected_cash"] = answer.expected.cash;
  out["expected_hours"] = answer.expected.hours;
  out["expected_days"] = answer.expected.days;
  out["chance_revived"] = answer.expected.revived;
  out["chances"] = {{"revived", answer.expected.revived}};
  for (std::size_t s = 0; s < of.stops.size(); ++s)
    out["chances"][of.stops[s].id] = answer.chance_of_stop[s];
  out["posterior"] = Json::object();
  for (std::size_t c = 0; c < of.causes.size(); ++c)
    out["posterior"][of.causes[c].id] = answer.posterior[c];
  out["break_even_price"] = or_null(answer.break_even_price.value);
  out["worth_per_hour"] = or_null(answer.worth_per_hour.value);
  if (const Json list = unproved(answer); !list.empty()) out["unproved"] = list;
  out["profit"] = {{"p10", answer.profit.p10},
                   {"p50", answer.profit.p50},
                   {"p90", answer.profit.p90},
                   {"chance_of_loss", answer.profit.chance_of_loss}};
  out["why"] = why(answer.plan.root, answer, of);
  out["ranking"] = ranking_json(answer.ranking);
  out["plan"] = node_json(answer.plan.root, answer, of);
  return out;
}

Json json_of(const HoursAnswer& answer) {
  Json queue = Json::array();
  for (const Queued& machine : answer.queue)
    queue.push_back({{"id", machine.id},
                     {"worth_per_hour", or_null(machine.worth_per_hour)},
                     {"expected_hours", machine.expected_hours},
                     {"gain", machine.gain}});
  return {{"hour_value", answer.hour_value}, {"queue", queue}, {"stop_now", answer.stop_now}};
}

Json json_of(const std::vector<Demand>& demand) {
  Json out = Json::array();
  for (const Demand& step : demand)
    out.push_back({{"hour_value", step.hour_value}, {"hours", step.hours}});
  return out;
}

}  // namespace secondpull::cli
