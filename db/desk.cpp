#include "db/desk.h"

#include <random>

#include "db/failure.h"
#include "db/instant.h"
#include "db/rows/columns.h"

namespace secondpull::db {

Desk::State Desk::state() const {
  SQLite::Statement row{database_, "SELECT next_id, revision, stamp, sitting FROM state"};
  if (!row.executeStep()) return {};
  return {.next_id = row.getColumn(0).getInt64(),
          .revision = row.getColumn(1).getInt64(),
          .stamp = row.getColumn(2).getInt64(),
          .sitting = row.getColumn(3).getInt64()};
}

void Desk::set_state(const State& state) {
  SQLite::Statement row{
      database_,
      "INSERT OR REPLACE INTO state (id, next_id, revision, stamp, sitting) VALUES (1, ?1, ?2, ?3, ?4)"};
  row.bind(1, state.next_id);
  row.bind(2, state.revision);
  row.bind(3, state.stamp);
  row.bind(4, state.sitting);
  row.exec();
}

Desk::State Desk::advanced(State state) {
  std::random_device random;
  state.revision += 1;
  state.stamp = std::uniform_int_distribution<std::int64_t>{}(random);
  return state;
}

Settings Desk::settings() const {
  SQLite::Statement row{
      database_, "SELECT name, currency, hour_value, day_cost, hours_a_week, unit_of_distance FROM settings"};
  if (!row.executeStep()) throw Failure{{"The shop file has no settings; it is damaged.", "", ""}};
  Settings settings;
  settings.name = read_value<std::string>(row, 0);
  const auto currency = currency_of(row.getColumn(1).getString());
  if (!currency) throw Failure{currency.error()};
  settings.currency = *currency;
  settings.hour_value = read_value<std::optional<Money>>(row, 2);
  settings.day_cost = read_value<std::optional<Money>>(row, 3);
  settings.hours_a_week = read_value<std::optional<Tenths>>(row, 4);
  settings.unit_of_distance = read_value<DistanceUnit>(row, 5);
  return settings;
}

void Desk::set_settings(const Settings& settings) {
  SQLite::Statement row{
      database_,
      "INSERT OR REPLACE INTO settings (id, name, currency, hour_value, day_cost, hours_a_week,"
      " unit_of_distance) VALUES (1, ?1, ?2, ?3, ?4, ?5, ?6)"};
  bind_value(row, 1, settings.name);
  bind_value(row, 2, settings.currency.code);
  bind_value(row, 3, settings.hour_value);
  bind_value(row, 4, settings.day_cost);
  bind_value(row, 5, settings.hours_a_week);
  bind_value(row, 6, settings.unit_of_distance);
  row.exec();
}

std::optional<Clock> Desk::clock() const {
  SQLite::Statement row{database_, "SELECT machine_id, started FROM clock"};
  if (!row.executeStep()) return std::nullopt;
  return Clock{read_value<MachineId>(row, 0), instant_from_column(row.getColumn(1).getInt64())};
}

void Desk::set_clock(const std::optional<Clock>& clock) {
  if (!clock) {
    database_.exec("DELETE FROM clock");
    return;
  }
  SQLite::Statement row{database_,
                        "INSERT OR REPLACE INTO clock (id, machine_id, started) VALUES (1, ?1, ?2)"};
  bind_value(row, 1, clock->machine);
  row.bind(2, to_column(clock->started));
  row.exec();
}

std::vector<Draft> Desk::drafts() const {
  SQLite::Statement rows{database_, "SELECT form, text, saved FROM drafts ORDER BY form"};
  std::vector<Draft> drafts;
  while (rows.executeStep())
    drafts.push_back({rows.getColumn(0).getString(), rows.getColumn(1).getString(),
                      instant_from_column(rows.getColumn(2).getInt64())});
  return drafts;
}

void Desk::save_draft(const Draft& draft) {
  SQLite::Statement row{database_, "INSERT OR REPLACE INTO drafts (form, text, saved) VALUES (?1, ?2, ?3)"};
  bind_value(row, 1, draft.form);
  bind_value(row, 2, draft.text);
  row.bind(3, to_column(draft.saved));
  row.exec();
}

void Desk::drop_draft(const std::string& form) {
  SQLite::Statement row{database_, "DELETE FROM drafts WHERE form = ?1"};
  bind_value(row, 1, form);
  row.exec();
}

std::optional<std::string> Desk::preference(const std::string& key) const {
  SQLite::Statement row{database_, "SELECT value FROM preferences WHERE key = ?1"};
  bind_value(row, 1, key);
  if (!row.executeStep()) return std::nullopt;
  return row.getColumn(0).getString();
}

void Desk::set_preference(const std::string& key, const std::string& value) {
  SQLite::Statement row{database_, "INSERT OR REPLACE INTO preferences (key, value) VALUES (?1, ?2)"};
  bind_value(row, 1, key);
  bind_value(row, 2, value);
  row.exec();
}

}  // namespace secondpull::db
