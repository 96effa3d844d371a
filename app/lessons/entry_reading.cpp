#include <algorithm>
#include <cmath>

#include <QCoreApplication>

#include "app/lessons/entry_sheet.h"
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

/// Reads field by field; the first problem is kept.
class FromSheet {
 public:
  FromSheet(const QString& section, std::string id, const EntrySheet& sheet, const KnowledgeBase& base,
            const Currency& currency)
      : section_{section}, id_{std::move(id)}, sheet_{sheet}, base_{base}, currency_{currency} {}

  Result<db::KnowledgeEntry> read() {
    db::KnowledgeEntry out;
    if (section_ == "symptoms") out.of = symptom();
    if (section_ == "causes") out.of = Cause{id_, name(), lines("also")};
    if (section_ == "tests") out.of = test();
    if (section_ == "repairs") out.of = repair();
    if (section_ == "known_work")
      out.of = PieceOfWork{.id = id_,
                           .name = name(),
                           .also = lines("also"),
                           .kinds = kinds(),
                           .cost = money("cost"),
                           .minutes = range("minutes")};
    if (section_ == "parts_to_pull") out.of = part();
    if (section_ == "kinds") out.of = figures();
    out.text.says = cell("says");
    out.text.ask = cell("ask");
    out.text.origin = origin();
    if (section_ == "checks")
      out.of = SaleCheck{.id = id_,
                         .name = name(),
                         .kinds = kinds(),
                         .must = cell("level") == "must",
                         .origin = out.text.origin};
    if (wrong_) return tl::unexpected(*std::move(wrong_));
    return out;
  }

 private:
  QString label(const QString& key) const {
    for (const FieldSpec& field : fieldsOf(section_))
      if (field.key == key) return field.label;
    return key;
  }
  /// "Minutes: “abc” is no number."
  void refuse(const QString& key, const QString& value, const QString& what) {
    if (wrong_) return;
    wrong_ = Problem{QStringLiteral("%1: %2").arg(label(key), what).toStdString(), key.toStdString(),
                     value.toStdString()};
  }

  const Rows& rows(const QString& key) const { return rowsOf(sheet_, key); }
  QString cellText(const QString& key, qsizetype column = 0) const {
    const Rows& all = rows(key);
    return all.empty() ? QString{} : all.front().value(column).trimmed();
  }
  std::string cell(const QString& key) const { return plainText(cellText(key)); }
  std::vector<std::string> lines(const QString& key) const {
    std::vector<std::string> out;
    for (const QStringList& row : rows(key))
      if (std::string words = plainText(row.value(0)); !words.empty()) out.push_back(std::move(words));
    return out;
  }
  std::vector<MachineKind> kinds() const {
    std::vector<MachineKind> out;
    for (const std::string& one : lines("kinds"))
      if (const auto kind = from_word<MachineKind>(one)) out.push_back(*kind);
    return out;
  }
  /// Not empty, and no other entry's of the section.
  std::string name() {
    const std::string given = cell("name");
    if (given.empty()) {
      refuse("name", {}, say("write what it is called."));
      return given;
    }
    for (const auto& [id, other] : entriesOf(base_, section_))
      if (id.toStdString() != id_ && same_word(other.toStdString(), given))
        refuse("name", text(given), say("“%1” is called so already.").arg(other));
    return given;
  }

  double number(const QString& key, const QString& typed, const QString& where = {}) {
    const auto value = typedNumber(typed);
    if (value && *value >= 0) return *value;
    const QString what = typed.trimmed().isEmpty() ? say("a number is missing.")
                         : value                   ? say("“%1” is below 0.").arg(typed)
                                                   : say("“%1” is no number.").arg(typed);
    refuse(key, typed, where.isEmpty() ? what : QStringLiteral("%1: %2").arg(where, what));
    return 0;
  }
  Money amount(const QString& key, const QString& typed) {
    if (typed.trimmed().isEmpty()) {
      refuse(key, typed, say("an amount is missing."));
      return {};
    }
    const auto value = parse_typed_amount(typed.toStdString(), currency_, key.toStdString());
    if (value && *value >= Money{}) return *value;
    refuse(key, typed, say("“%1” is no amount.").arg(typed));
    return {};
  }
  void rise(const QString& key, bool rises) {
    if (rises) return;
    const QString three = rows(key).front().join(QStringLiteral(", "));
    refuse(key, three, say("%1: low, usual and high must rise.").arg(three));
  }
  Range range(const QString& key) {
    const Range out{number(key, cellText(key, 0)), number(key, cellText(key, 1)),
                    number(key, cellText(key, 2))};
    rise(key, wrong_ || (out.low <= out.typical && out.typical <= out.high));
    return out;
  }
  MoneyRange money(const QString& key) {
    const MoneyRange out{amount(key, cellText(key, 0)), amount(key, cellText(key, 1)),
                         amount(key, cellText(key, 2))};
    rise(key, wrong_ || (out.low <= out.typical && out.typical <= out.high));
    return out;
  }

  Symptom symptom() {
    Symptom out{.id = id_, .name = name(), .also = lines("also"), .kinds = kinds()};
    const std::string engine = cell("engine");
    out.engine = engine == "none"    ? Engine::none
                 : engine == "turns" ? Engine::turns
                 : engine == "runs"  ? Engine::runs
                                     : Engine::unknown;
    for (const QStringList& row : rows("causes"))
      out.causes.emplace_back(plainText(row.value(0)),
                              number("causes", row.value(1), nameOf(base_, "causes", row.value(0))));
    return out;
  }

  Test test() {
    Test out{
        .id = id_, .name = name(), .also = lines("also"), .kinds = kinds(), .symptoms = lines("symptoms")};
    const std::string needs = cell("needs");
    out.needs = needs == "turning"                 ? Needs::turning
                : needs == "turning, not starting" ? Needs::turning_but_not_starting
                : needs == "running"               ? Needs::running
                                                   : Needs::nothing;
    for (const QStringList& row : rows("after"))
      out.after.push_back(after(row));
    out.group = cell("group");
    out.minutes = about(number("minutes", cellText("minutes")));
    if (!cellText("cost").isEmpty()) out.cost = amount("cost", cellText("cost"));
    outcomes(out);
    for (const QStringList& row : rows("likelihood")) {
      if (row.value(0) != kAnyOther) {
        out.likelihood.emplace_back(plainText(row.value(0)), chances(row, out.outcomes.size()));
        continue;
      }
      const bool blank = std::all_of(row.begin() + 1, row.end(),
                                     [](const QString& chance) { return chance.trimmed().isEmpty(); });
      if (!blank) out.otherwise = chances(row, out.outcomes.size());
    }
    return out;
  }
  After after(const QStringList& row) {
    After out{.test = plainText(row.value(0)), .outcomes = {}};
    const Test* const before = base_.knowledge.test(out.test);
    if (before == nullptr) return out;
    const QStringList typed = row.value(1).split(QLatin1Char(';'), Qt::SkipEmptyParts);
    if (typed.isEmpty()) refuse("after", {}, say("%1: what must it have shown?").arg(text(before->name)));
    for (const QString& each : typed) {
      if (const Outcome* const shown = learning::outcome(*before, plainText(each))) {
        out.outcomes.push_back(shown->id);
        continue;
      }
      QStringList can;
      for (const Outcome& one : before->outcomes)
        can << text(one.name);
      refuse("after", each.trimmed(),
             say("“%1” is nothing that %2 shows; it shows: %3.")
                 .arg(each.trimmed(), text(before->name), can.join(QStringLiteral("; "))));
    }
    return out;
  }
  void outcomes(Test& out) {
    for (const QStringList& row : rows("outcomes")) {
      Outcome made{plainText(row.value(0)), plainText(row.value(1)), {}};
      if (made.name.empty()) refuse("outcomes", {}, say("one of them has no name."));
      for (const QString& each : row.value(2).split(QLatin1Char(';'), Qt::SkipEmptyParts))
        if (std::string words = plainText(each); !words.empty()) made.also.push_back(std::move(words));
      const auto called = [&](const std::string& id) {
        return std::any_of(out.outcomes.begin(), out.outcomes.end(),
                           [&](const Outcome& other) { return other.id == id; });
      };
      for (const Outcome& other : out.outcomes)
        if (same_word(other.name, made.name))
          refuse("outcomes", text(made.name), say("“%1” stands there twice.").arg(text(made.name)));
      // A new one is called by its name until it has an id.
      if (made.id.empty()) made.id = db::new_entry_id({}, {}, made.name);
      for (int count = 2; called(made.id); ++count)
        made.id = db::new_entry_id({}, {}, made.name) + "-" + std::to_string(count);
      out.outcomes.push_back(std::move(made));
    }
    if (out.outcomes.empty()) refuse("outcomes", {}, say("a test shows something; add what it can show."));
  }
  std::vector<double> chances(const QStringList& row, std::size_t outcomes) {
    const QString cause = nameOf(base_, "causes", row.value(0));
    std::vector<double> out;
    double sum = 0, percent = 0;
    QStringList typed;
    for (std::size_t at = 1; at <= outcomes; ++at) {
      const QString words = row.value(static_cast<qsizetype>(at)).trimmed();
      typed << words;
      percent += number("likelihood", words, cause);
      out.push_back(typedNumber(words, true).value_or(0));
      sum += out.back();
    }
    if (!wrong_ && std::abs(sum - 1) > diagnosis::row_tolerance)
      refuse("likelihood", typed.join(QStringLiteral(" + ")),
             say("%1: %2 is %3 %; a row must add up to 100 %.")
                 .arg(cause, typed.join(QStringLiteral(" + ")), QString::number(percent, 'g', 10)));
    return out;
  }

  Repair repair() {
    Repair out{.id = id_,
               .name = name(),
               .also = lines("also"),
               .kinds = kinds(),
               .minutes = range("minutes"),
               .parts = money("parts"),
               .parts_named = lines("parts_named")};
    if (!cellText("days").isEmpty()) out.days = number("days", cellText("days"));
    if (!cellText("tries").isEmpty()) {
      const double tries = number("tries", cellText("tries"));
      constexpr double kMost = 100;  // diagnosis::problems_of
      if (!wrong_ && (tries < 1 || tries > kMost || tries != std::floor(tries)))
        refuse("tries", cellText("tries"), say("%1 is no count of tries.").arg(cellText("tries")));
      out.tries = static_cast<int>(std::clamp(tries, 1.0, kMost));
    }
    for (const QStringList& row : rows("cures")) {
      const QString cause = nameOf(base_, "causes", row.value(0));
      const double worked = number("cures", row.value(1), cause);
      const double tried = number("cures", row.value(2), cause);
      if (!wrong_ && (worked <= 0 || worked >= tried))
        refuse("cures", QStringLiteral("%1, %2").arg(row.value(1), row.value(2)),
               say("%1: %2 of %3 times; it must have worked more than 0 times and fewer than all, even by a "
                   "little (0.5 of 1).")
                   .arg(cause, row.value(1), row.value(2)));
      out.cures.emplace_back(plainText(row.value(0)), Beta{worked, tried - worked});
    }
    return out;
  }
  PartToPull part() {
    PartToPull out{.id = id_,
                   .name = name(),
                   .kinds = kinds(),
                   .price = money("price"),
                   .minutes = range("minutes"),
                   .spoiled_by = lines("spoiled_by")};
    const double percent = number("chance", cellText("chance"));
    constexpr double kAll = 100;
    if (!wrong_ && percent > kAll)
      refuse("chance", cellText("chance"), say("%1 % is more than 100 %.").arg(cellText("chance")));
    out.chance = typedNumber(cellText("chance"), true).value_or(0);
    if (const auto with = lines("goes_with"); !with.empty()) {
      out.goes_with = with.front();
      if (with.size() > 1) refuse("goes_with", text(with[1]), say("it can go with one other only."));
    }
    return out;
  }
  KindFigures figures() {
    return {.kind = from_word<MachineKind>(id_).value_or(MachineKind::other),
            .running_price = money("running_price"),
            .as_is_price = money("as_is_price"),
            .minutes_to_sell = range("minutes_to_sell"),
            .days_to_sell = range("days_to_sell"),
            .weight = range("weight")};
  }
  Origin origin() {
    Origin out{.sources = {}, .note = cell("note")};
    for (const QString& each : cellText("sources").split(QLatin1Char(','), Qt::SkipEmptyParts)) {
      const std::string source = plainText(each);
      if (source.empty()) continue;
      if (!base_.sources.contains(source))
        refuse("sources", text(source), say("“%1” is none of the publications listed.").arg(text(source)));
      out.sources.push_back(source);
    }
    if (out.sources.empty() && out.note.empty())
      refuse("note", {}, say("say where it comes from; “own experience” will do."));
    return out;
  }

  QString section_;
  std::string id_;
  const EntrySheet& sheet_;
  const KnowledgeBase& base_;
  const Currency& currency_;
  std::optional<Problem> wrong_;
};

}  // namespace

Result<db::KnowledgeEntry> entryOf(const QString& section, const std::string& id, const EntrySheet& sheet,
                                   const KnowledgeBase& base, const Currency& currency) {
  return FromSheet{section, id, sheet, base, currency}.read();
}

}  // namespace secondpull::app
