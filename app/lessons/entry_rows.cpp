#include "app/lessons/entry_rows.h"

#include <algorithm>

#include "app/frame/session.h"
#include "db/exchange/knowledge_json.h"

namespace secondpull::app {

std::optional<std::string> ownText(const Shop& shop, const QString& section, const QString& id) {
  for (const KnowledgeEdit& own : shop.all<KnowledgeEdit>())
    if (own.section == section.toStdString() && own.entry == id.toStdString()) return own.text;
  return std::nullopt;
}

QString whoseWords(const EntryRow& row) {
  if (row.id.isEmpty()) return QObject::tr("new, not saved");
  const QString whose = !row.is_own        ? QObject::tr("published")
                        : row.is_published ? QObject::tr("own")
                                           : QObject::tr("own, added");
  return row.is_typed ? QObject::tr("%1, not saved").arg(whose) : whose;
}

std::vector<EntryRow> entryRows(const Session& session) {
  const auto shop = session.shop();
  const auto base = session.knowledge();
  std::vector<EntryRow> rows;
  for (const SectionSpec& section : editedSections()) {
    const QString name = QString::fromLatin1(section.id);
    auto entries = entriesOf(*base, name);
    for (const KnowledgeEdit& own : shop->all<KnowledgeEdit>()) {
      const QString id = QString::fromStdString(own.entry);
      if (own.section == section.id &&
          std::none_of(entries.begin(), entries.end(), [&](const auto& each) { return each.first == id; }))
        entries.emplace_back(id, id);
    }
    for (const auto& [id, called] : entries) {
      EntryRow row{.section = name, .id = id, .name = called};
      row.is_own = ownText(*shop, name, id).has_value();
      row.is_published = db::find_entry(db::published_knowledge(), section.id, id.toStdString()).has_value();
      if (const auto entry = db::find_entry(*base, section.id, id.toStdString()))
        std::visit(
            [&](const auto& given) {
              if constexpr (requires { given.also; })
                for (const std::string& words : given.also)
                  row.also += QString::fromStdString(words) + QLatin1Char('\n');
            },
            entry->of);
      rows.push_back(row);
    }
  }
  return rows;
}

std::vector<TableColumn<EntryRow>> entryColumns() {
  return {
      {.key = "name", .title = QObject::tr("Entry"), .text = [](const EntryRow& row) { return row.name; }},
      {.key = "whose",
       .title = QObject::tr("Whose"),
       .text = [](const EntryRow& row) { return whoseWords(row); }},
      {.key = "section",
       .title = QObject::tr("Sort"),
       .text = [](const EntryRow& row) { return sectionSpec(row.section).one; }},
      {.key = "also",
       .title = QObject::tr("Also called"),
       .text = [](const EntryRow& row) { return QString{row.also}.replace('\n', "; "); },
       .shown = false}};
}

}  // namespace secondpull::app
