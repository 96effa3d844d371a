#pragma once

#include "app/lessons/entry_sheet.h"
#include "core/planning/situation.h"

namespace secondpull::app {

/// What stands beside an entry that is read or changed: what is published, and what the shop's record adds.
class Beside {
 public:
  /// @param published  absent: nothing of that id is published
  Beside(QString section, std::string id, std::optional<EntrySheet> published,
         std::shared_ptr<const planning::Situation> situation);

  /// The entry as it is typed; the last that could be read counts on while one cannot.
  void setTyped(const db::KnowledgeEntry& entry) { typed_ = entry; }

  /// The titles of what stands beside the rows of a table, and the words of one of its rows.
  QStringList titles(const FieldSpec& field) const;
  QStringList row(const FieldSpec& field, const QStringList& row) const;
  /// "changed; published: 5, 10, 20"; empty where nothing differs or nothing is published.
  QString published(const FieldSpec& field, const Rows& rows) const;
  /// "your record: 4 times, 12 min on average; together 11 min"; empty where it says nothing.
  QString record(const FieldSpec& field) const;

  bool isPublished() const { return published_.has_value(); }

 private:
  QString minutesOfRecord() const;
  QString salesOfRecord(SoldAs as) const;
  QStringList cureRow(const QString& cause) const;
  QStringList causeRow(const QString& cause) const;
  QStringList publishedRow(const FieldSpec& field, const QString& id) const;

  QString section_;
  std::string id_;
  std::optional<EntrySheet> published_;
  std::shared_ptr<const planning::Situation> situation_;
  std::optional<db::KnowledgeEntry> typed_;
};

/// What a field says, in a line: "5, 10, 20", "Main jet clogged 60; Plug fouled 20".
QString inWords(const FieldSpec& field, const Rows& rows, const learning::KnowledgeBase& base);

}  // namespace secondpull::app
