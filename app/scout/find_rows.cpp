#include "app/scout/find_rows.h"

#include <algorithm>

#include "app/frame/session.h"
#include "core/learning/knowledge_base.h"
#include "core/shop/describe.h"

namespace secondpull::app {
namespace {

QString text(std::string_view words) {
  return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}

QString howItEnded(const Find& find, const Session& session) {
  if (!find.how) return QObject::tr("open");
  const QString day = find.ended ? text(shown(*find.ended)) : QString{};
  if (find.how == FindEnd::bought && find.machine)
    return QObject::tr("bought as #%1, %2").arg(session.tagOf(*find.machine), day);
  return QObject::tr("%1, %2").arg(text(word(*find.how)), day);
}

}  // namespace

std::vector<FindRow> findRows(const Session& session) {
  const auto shop = session.shop();
  const auto base = session.knowledge();
  std::vector<FindRow> rows;
  for (const Find& find : shop->all<Find>()) {
    const auto* symptom = base->knowledge.symptom(find.symptom);
    rows.push_back({.find = find.id,
                    .seen = find.date,
                    .what = text(called(find)),
                    .symptom = find.symptom.empty() ? QObject::tr("not tried")
                                                    : text(symptom != nullptr ? symptom->name : find.symptom),
                    .asking = find.asking,
                    .how = howItEnded(find, session)});
  }
  std::reverse(rows.begin(), rows.end());
  return rows;
}

std::vector<TableColumn<FindRow>> findColumns(const Session& session) {
  return {{.key = "seen",
           .title = QObject::tr("Seen"),
           .text = [](const FindRow& row) { return text(shown(row.seen)); },
           .sort = [](const FindRow& row) { return QVariant{text(iso(row.seen))}; }},
          {.key = "what", .title = QObject::tr("What"), .text = [](const FindRow& row) { return row.what; }},
          {.key = "symptom",
           .title = QObject::tr("What it does"),
           .text = [](const FindRow& row) { return row.symptom; }},
          {.key = "asking",
           .title = QObject::tr("Asked"),
           .text = [&session](const FindRow& row) { return session.money(row.asking); },
           .sort = [](const FindRow& row) { return QVariant::fromValue(row.asking.minor()); },
           .number = true,
           .plain =
               [&session](const FindRow& row) {
                 return QString::fromStdString(plain(row.asking, session.currency()));
               }},
          {.key = "how", .title = QObject::tr("What came of it"), .text = [](const FindRow& row) {
             return row.how;
           }}};
}

}  // namespace secondpull::app
