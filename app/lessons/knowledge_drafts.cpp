#include "app/lessons/knowledge_drafts.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include "app/frame/session.h"

namespace secondpull::app {
namespace {

const QString kDraft = QStringLiteral("knowledge");

QJsonObject asJson(const EntrySheet& sheet) {
  QJsonObject fields;
  for (const auto& [field, rows] : sheet) {
    QJsonArray lines;
    for (const QStringList& row : rows)
      lines.append(QJsonArray::fromStringList(row));
    fields[field] = lines;
  }
  return fields;
}

EntrySheet asSheet(const QJsonObject& fields) {
  EntrySheet sheet;
  for (auto field = fields.begin(); field != fields.end(); ++field)
    for (const QJsonValue& line : field.value().toArray()) {
      QStringList row;
      for (const QJsonValue& cell : line.toArray())
        row << cell.toString();
      sheet[field.key()].push_back(row);
    }
  return sheet;
}

}  // namespace

KnowledgeDrafts::KnowledgeDrafts(Session& session) : session_{session} {
  const QString kept = session_.draft(kDraft).value_or(QString{});
  for (const QJsonValue& each : QJsonDocument::fromJson(kept.toUtf8()).array())
    sheets_[{each["section"].toString(), each["entry"].toString()}] = asSheet(each["fields"].toObject());
}

const EntrySheet* KnowledgeDrafts::find(const Key& key) const {
  const auto at = sheets_.find(key);
  return at == sheets_.end() ? nullptr : &at->second;
}

void KnowledgeDrafts::write() const {
  if (sheets_.empty()) return session_.dropDraft(kDraft);
  QJsonArray all;
  for (const auto& [key, sheet] : sheets_)
    all.append(QJsonObject{{"section", key.first}, {"entry", key.second}, {"fields", asJson(sheet)}});
  session_.saveDraft(kDraft, QString::fromUtf8(QJsonDocument{all}.toJson(QJsonDocument::Compact)));
}

}  // namespace secondpull::app
