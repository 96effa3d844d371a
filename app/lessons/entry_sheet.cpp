#include "app/lessons/entry_sheet.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include <QCoreApplication>
#include <QLocale>

#include "app/parts/natural_order.h"
#include "core/planning/names.h"
#include "core/typed_words.h"

namespace secondpull::app {

using namespace learning;

namespace {

QString say(const char* text) {
  return QCoreApplication::translate("KnowledgeEntry", text);
}
QString text(std::string_view words) {
  return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}
std::string plainText(const QString& words) {
  return words.trimmed().toStdString();
}

QString percentText(double chance) {
  constexpr double kHundred = 100;
  return QString::number(chance * kHundred, 'g', 15);
}
Rows line(const QString& words) {
  return {{words}};
}
Rows linesOf(const std::vector<std::string>& all) {
  Rows rows;
  for (const std::string& each : all)
    rows.push_back({text(each)});
  return rows;
}
Rows kindRows(const std::vector<MachineKind>& kinds) {
  Rows rows;
  for (const MachineKind kind : all_words<MachineKind>())
    if (std::find(kinds.begin(), kinds.end(), kind) != kinds.end()) rows.push_back({text(word(kind))});
  return rows;
}
Rows three(const Range& range) {
  return {{numberText(range.low), numberText(range.typical), numberText(range.high)}};
}

/// Writes the fields of one sort of entry.
class ToSheet {
 public:
  ToSheet(const db::KnowledgeEntry& entry, const KnowledgeBase& base, const Currency& currency)
      : entry_{entry}, base_{base}, currency_{currency} {}

  EntrySheet made() {
    std::visit(*this, entry_.of);
    QStringList sources;
    for (const std::string& id : entry_.text.origin.sources)
      sources << text(id);
    out_["sources"] = line(sources.join(QStringLiteral(", ")));
    out_["note"] = line(text(entry_.text.origin.note));
    return std::move(out_);
  }

  void operator()(const Symptom& given) {
    named(given);
    out_["also"] = linesOf(given.also);
    out_["kinds"] = kindRows(given.kinds);
    out_["engine"] = line(given.engine == Engine::none    ? "none"
                          : given.engine == Engine::turns ? "turns"
                          : given.engine == Engine::runs  ? "runs"
                                                          : "");
    for (const auto& [cause, weight] : given.causes)
      out_["causes"].push_back({text(cause), numberText(weight)});
  }
  void operator()(const Cause& given) {
    named(given);
    out_["also"] = linesOf(given.also);
    says();
  }
  void operator()(const Test& given) {
    named(given);
    out_["also"] = linesOf(given.also);
    says();
    out_["ask"] = line(text(entry_.text.ask));
    out_["kinds"] = kindRows(given.kinds);
    out_["symptoms"] = linesOf(given.symptoms);
    out_["needs"] = line(given.needs == Needs::turning                    ? "turning"
                         : given.needs == Needs::turning_but_not_starting ? "turning, not starting"
                         : given.needs == Needs::running                  ? "running"
                                                                          : "");
    for (const After& after : given.after) {
      QStringList shown;
      for (const std::string& outcome : after.outcomes)
        shown << text(planning::called_outcome(after.test, outcome, base_.knowledge));
      out_["after"].push_back({text(after.test), shown.join(QStringLiteral("; "))});
    }
    out_["group"] = line(text(given.group));
    out_["minutes"] = line(numberText(given.minutes.typical));
    out_["cost"] = line(moneyText(given.cost));
    for (const Outcome& outcome : given.outcomes) {
      QStringList also;
      for (const std::string& each : outcome.also)
        also << text(each);
      out_["outcomes"].push_back({text(outcome.id), text(outcome.name), also.join(QStringLiteral("; "))});
    }
    const auto row = [](const QString& id, const std::vector<double>& chances) {
      QStringList cells{id};
      for (const double chance : chances)
        cells << percentText(chance);
      return cells;
    };
    for (const auto& [cause, chances] : given.likelihood)
      out_["likelihood"].push_back(row(text(cause), chances));
    QStringList others = given.otherwise ? row(kAnyOther, *given.otherwise) : QStringList{kAnyOther};
    while (others.size() <= static_cast<qsizetype>(given.outcomes.size()))
      others << QString{};
    out_["likelihood"].push_back(others);
  }
  void operator()(const Repair& given) {
    named(given);
    out_["also"] = linesOf(given.also);
    says();
    out_["kinds"] = kindRows(given.kinds);
    out_["minutes"] = three(given.minutes);
    out_["parts"] = money(given.parts);
    out_["parts_named"] = linesOf(given.parts_named);
    out_["days"] = line(numberText(given.days));
    out_["tries"] = line(numberText(given.tries));
    for (const auto& [cause, counts] : given.cures)
      out_["cures"].push_back({text(cause), numberText(counts.a), numberText(counts.a + counts.b)});
  }
  void operator()(const PieceOfWork& given) {
    named(given);
    out_["also"] = linesOf(given.also);
    says();
    out_["kinds"] = kindRows(given.kinds);
    out_["cost"] = money(given.cost);
    out_["minutes"] = three(given.minutes);
  }
  void operator()(const PartToPull& given) {
    named(given);
    says();
    out_["kinds"] = kindRows(given.kinds);
    out_["price"] = money(given.price);
    out_["chance"] = line(percentText(given.chance));
    out_["minutes"] = three(given.minutes);
    out_["spoiled_by"] = linesOf(given.spoiled_by);
    out_["goes_with"] = given.goes_with.empty() ? Rows{} : line(text(given.goes_with));
  }
  void operator()(const KindFigures& given) {
    out_["running_price"] = money(given.running_price);
    out_["as_is_price"] = money(given.as_is_price);
    out_["minutes_to_sell"] = three(given.minutes_to_sell);
    out_["days_to_sell"] = three(given.days_to_sell);
    out_["weight"] = three(given.weight);
  }
  void operator()(const SaleCheck& given) {
    named(given);
    out_["kinds"] = kindRows(given.kinds);
    out_["level"] = line(given.must ? "must" : "should");
  }
  void operator()(const Caution&) {}
  void operator()(const Measurement&) {}

 private:
  template <class Entry>
  void named(const Entry& given) {
    out_["name"] = line(text(given.name));
  }
  void says() { out_["says"] = line(text(entry_.text.says)); }
  QString moneyText(Money amount) const { return text(plain(amount, currency_)); }
  Rows money(const MoneyRange& range) const {
    return {{moneyText(range.low), moneyText(range.typical), moneyText(range.high)}};
  }

  const db::KnowledgeEntry& entry_;
  const KnowledgeBase& base_;
  const Currency& currency_;
  EntrySheet out_;
};

}  // namespace

EntrySheet sheetOf(const db::KnowledgeEntry& entry, const KnowledgeBase& base, const Currency& currency) {
  return ToSheet{entry, base, currency}.made();
}

const Rows& rowsOf(const EntrySheet& sheet, const QString& key) {
  static const Rows kNone;
  const auto at = sheet.find(key);
  return at == sheet.end() ? kNone : at->second;
}

bool sameRows(const Rows& a, const Rows& b) {
  const auto bare = [](const Rows& rows) {
    Rows out;
    for (const QStringList& row : rows) {
      QStringList cells;
      for (const QString& cell : row)
        cells << cell.simplified();
      while (!cells.isEmpty() && cells.back().isEmpty())
        cells.removeLast();
      if (!cells.isEmpty()) out.push_back(cells);
    }
    return out;
  };
  return bare(a) == bare(b);
}

EntrySheet emptySheet(const QString& section) {
  EntrySheet sheet;
  for (const FieldSpec& field : fieldsOf(section)) {
    if (field.kind == FieldSpec::Kind::line || field.kind == FieldSpec::Kind::words)
      sheet[field.key] = line({});
    if (field.kind == FieldSpec::Kind::three) sheet[field.key] = {{QString{}, QString{}, QString{}}};
    if (field.kind == FieldSpec::Kind::choice) sheet[field.key] = line(field.words.front().first);
  }
  if (section == "tests") sheet["likelihood"] = {{kAnyOther}};
  sheet["note"] = line(QStringLiteral("own experience"));
  return sheet;
}

QString nameOf(const KnowledgeBase& base, const QString& section, const QString& id) {
  if (section == "causes" && id == kAnyOther) return say("any other cause");
  if (section == "causes" && id.toStdString() == kUnlisted) return say("something not listed");
  const std::string wanted = id.toStdString();
  const auto among = [&](const auto& entries) {
    const auto at =
        std::find_if(entries.begin(), entries.end(), [&](const auto& each) { return each.id == wanted; });
    return at == entries.end() ? id : text(at->name);
  };
  if (section == "symptoms") return among(base.knowledge.symptoms);
  if (section == "causes") return among(base.knowledge.causes);
  if (section == "tests") return among(base.knowledge.tests);
  if (section == "repairs") return among(base.knowledge.repairs);
  if (section == "known_work") return among(base.knowledge.known_work);
  if (section == "parts_to_pull") return among(base.knowledge.parts_to_pull);
  return section == "checks" ? among(base.checks) : id;
}

std::vector<std::pair<QString, QString>> entriesOf(const KnowledgeBase& base, const QString& section) {
  std::vector<std::pair<QString, QString>> all;
  const auto take = [&](const auto& entries) {
    for (const auto& each : entries)
      all.emplace_back(text(each.id), text(each.name));
  };
  const Knowledge& knowledge = base.knowledge;
  if (section == "symptoms") take(knowledge.symptoms);
  if (section == "causes") take(knowledge.causes);
  if (section == "tests") take(knowledge.tests);
  if (section == "repairs") take(knowledge.repairs);
  if (section == "known_work") take(knowledge.known_work);
  if (section == "parts_to_pull") take(knowledge.parts_to_pull);
  if (section == "checks") take(base.checks);
  if (section == "kinds")
    for (const KindFigures& each : knowledge.kinds)
      all.emplace_back(text(word(each.kind)), text(word(each.kind)));
  std::sort(all.begin(), all.end(),
            [](const auto& a, const auto& b) { return naturallyBefore(a.second, b.second); });
  return all;
}

QString numberText(double value) {
  char digits[32];
  const auto [end, error] = std::to_chars(std::begin(digits), std::end(digits), value);
  return error == std::errc{} ? QString::fromLatin1(digits, end - digits) : QString{};
}

std::optional<double> typedNumber(const QString& typed, bool percent) {
  // The decimal point is moved in the text: dividing would be a digit off.
  const std::string words = plainText(typed) + (percent ? "e-2" : "");
  double value = 0;
  const auto [end, error] = std::from_chars(words.data(), words.data() + words.size(), value);
  const bool is_number = error == std::errc{} && end == words.data() + words.size() && std::isfinite(value);
  if (!is_number || plainText(typed).find_first_of("eEnN") != std::string::npos) return std::nullopt;
  return value;
}

}  // namespace secondpull::app
