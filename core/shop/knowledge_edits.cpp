#include "core/shop/knowledge_edits.h"

#include <algorithm>
#include <string_view>

#include <fmt/format.h>

#include "core/shop/checks.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

const KnowledgeEdit* entry_at(const Shop& shop, std::string_view section, std::string_view entry) {
  const auto& all = shop.all<KnowledgeEdit>();
  const auto at = std::find_if(all.begin(), all.end(), [&](const KnowledgeEdit& one) {
    return one.section == section && one.entry == entry;
  });
  return at != all.end() ? &*at : nullptr;
}

}  // namespace

Result<Change> keep_entry(const Shop& shop, const std::string& section, const std::string& entry,
                          const std::string& text) {
  if (const Objection objection =
          first_of({check_said(section, "section"), check_said(entry, "entry"), check_said(text, "text")}))
    return tl::unexpected(*objection);
  const std::string in{trimmed(section)};
  const std::string id{trimmed(entry)};
  Change change{shop, fmt::format("Own entry: {} {}", in, id)};
  const KnowledgeEdit* const before = entry_at(shop, in, id);
  if (before == nullptr) {
    change.add(KnowledgeEdit{.section = in, .entry = id, .text = text});
  } else if (before->text != text) {
    KnowledgeEdit after = *before;
    after.text = text;
    change.replace(after);
  }
  return change;
}

Result<Change> drop_entry(const Shop& shop, const std::string& section, const std::string& entry) {
  if (const Objection objection = first_of({check_said(section, "section"), check_said(entry, "entry")}))
    return tl::unexpected(*objection);
  const std::string_view in = trimmed(section);
  const std::string_view id = trimmed(entry);
  Change change{shop, fmt::format("Dropped the own entry: {} {}", in, id)};
  if (const KnowledgeEdit* const before = entry_at(shop, in, id)) change.remove(*before);
  return change;
}

}  // namespace secondpull
