#include "app/lessons/entry_beside.h"

#include <cmath>
#include <numeric>

#include <QCoreApplication>

#include "app/bench/chances_view.h"
#include "app/bench/step_words.h"
#include "core/learning/shrink.h"

namespace secondpull::app {

using namespace learning;

namespace {

using Kind = FieldSpec::Kind;

QString say(const char* text, int n = -1) {
  return QCoreApplication::translate("KnowledgeEntry", text, nullptr, n);
}
QString text(const std::string& words) {
  return QString::fromStdString(words);
}
QString times(std::size_t count) {
  return count == 1 ? say("once") : say("%1 times").arg(count);
}
QString minutes(double count) {
  return say("%1 min").arg(QString::number(count, 'f', std::abs(count - std::round(count)) < 0.05 ? 0 : 1));
}

}  // namespace

QString inWords(const FieldSpec& field, const Rows& rows, const KnowledgeBase& base) {
  QStringList all;
  for (const QStringList& row : rows) {
    if (field.kind == Kind::choice) {
      for (const auto& [kept, shown] : field.words)
        if (kept == row.value(0)) all << shown;
    } else if (field.kind == Kind::picks) {
      const QString name = nameOf(base, QString::fromLatin1(field.of), row.value(0));
      const QStringList cells = row.mid(1);
      all << (cells.isEmpty()
                  ? name
                  : QStringLiteral("%1 %2").arg(
                        name, cells.join(field.key == "cures" ? say(" of ") : QStringLiteral(", "))));
    } else if (field.kind == Kind::outcomes) {
      all << row.value(1);
    } else {
      all << row.join(QStringLiteral(", "));
    }
  }
  if (field.kind == Kind::kinds && all.isEmpty()) return say("any");
  const QString words = all.join(QStringLiteral("; "));
  return words.trimmed().isEmpty() ? say("nothing") : words;
}

Beside::Beside(QString section, std::string id, std::optional<EntrySheet> published,
               std::shared_ptr<const planning::Situation> situation)
    : section_{std::move(section)},
      id_{std::move(id)},
      published_{std::move(published)},
      situation_{std::move(situation)} {}

QStringList Beside::titles(const FieldSpec& field) const {
  QStringList titles;
  if (field.key == "likelihood") titles << say("sum");
  if (field.kind == Kind::picks && published_) titles << say("published");
  if (field.key == "causes" || field.key == "cures") titles << say("your record") << say("together");
  return titles;
}

QStringList Beside::publishedRow(const FieldSpec& field, const QString& id) const {
  if (!published_ || field.kind != Kind::picks) return {};
  for (const QStringList& row : rowsOf(*published_, field.key)) {
    if (row.value(0) != id) continue;
    if (field.key == "cures") return {say("%1 of %2").arg(row.value(1), row.value(2))};
    return {row.size() > 1 ? row.mid(1).join(QStringLiteral(" / ")) : say("yes")};
  }
  return {say("no")};
}

QStringList Beside::causeRow(const QString& cause) const {
  const auto* symptom = typed_ ? std::get_if<Symptom>(&typed_->of) : nullptr;
  if (symptom == nullptr) return {};
  const Tallies& tallies = situation_->learned().tallies;
  const auto own = tallies.causes.find(id_);
  double cases = 0;
  if (own != tallies.causes.end())
    if (const auto at = own->second.find(cause.toStdString()); at != own->second.end()) cases = at->second;
  return {cases > 0 ? say("%1 found").arg(numberText(cases)) : say("—"),
          percent(causes_of(*symptom, tallies).mean(cause.toStdString()))};
}

QStringList Beside::cureRow(const QString& cause) const {
  const auto* repair = typed_ ? std::get_if<Repair>(&typed_->of) : nullptr;
  if (repair == nullptr) return {};
  const Tallies& tallies = situation_->learned().tallies;
  const Tries own = tallies.tries(id_, cause.toStdString());
  const auto chance = cure(*repair, cause.toStdString(), tallies);
  return {own.tried > 0 ? say("%1 of %2 cured").arg(own.cured).arg(own.tried) : say("—"),
          chance ? percent(chance->mean()) : say("—")};
}

QStringList Beside::row(const FieldSpec& field, const QStringList& row) const {
  QStringList words;
  if (field.key == "likelihood") {
    double sum = 0;
    bool all = row.size() > 1, any = false;
    for (const QString& cell : row.mid(1)) {
      const auto value = typedNumber(cell);
      all = all && value;
      any = any || !cell.trimmed().isEmpty();
      sum += value.value_or(0);
    }
    constexpr double kHundred = 100, kNear = 1e-7;
    const bool adds_up = all && std::abs(sum - kHundred) <= kNear;
    words << (!any && row.value(0) == kAnyOther ? say("alike")
              : adds_up                         ? say("100 %")
              : !all                            ? say("a number is missing")
                                                : say("%1 %, not 100").arg(QString::number(sum, 'g', 6)));
  }
  words << publishedRow(field, row.value(0));
  if (field.key == "causes") words << causeRow(row.value(0));
  if (field.key == "cures") words << cureRow(row.value(0));
  return words;
}

QString Beside::published(const FieldSpec& field, const Rows& rows) const {
  if (!published_) return {};
  const Rows& theirs = rowsOf(*published_, field.key);
  if (sameRows(rows, theirs)) return {};
  if (field.kind != Kind::picks)
    return say("changed; published: %1").arg(inWords(field, theirs, situation_->base()));
  QStringList gone;
  for (const QStringList& row : theirs)
    if (std::none_of(rows.begin(), rows.end(),
                     [&](const QStringList& own) { return own.value(0) == row.value(0); }))
      gone << nameOf(situation_->base(), QString::fromLatin1(field.of), row.value(0));
  return gone.isEmpty() ? say("changed")
                        : say("changed; published also: %1").arg(gone.join(QStringLiteral("; ")));
}

QString Beside::minutesOfRecord() const {
  const Tallies& tallies = situation_->learned().tallies;
  const auto own = tallies.minutes.find(id_);
  if (own == tallies.minutes.end() || own->second.empty() || !typed_) return {};
  std::optional<Range> known;
  if (const auto* test = std::get_if<Test>(&typed_->of)) known = test->minutes;
  if (const auto* repair = std::get_if<Repair>(&typed_->of)) known = repair->minutes;
  if (const auto* work = std::get_if<PieceOfWork>(&typed_->of)) known = work->minutes;
  if (!known) return {};
  const double sum = std::accumulate(own->second.begin(), own->second.end(), 0.0);
  return say("your record: %1, %2 on average; together %3")
      .arg(times(own->second.size()), minutes(sum / static_cast<double>(own->second.size())),
           minutes(minutes_of(id_, *known, tallies)));
}

QString Beside::salesOfRecord(SoldAs as) const {
  const auto* figures = typed_ ? std::get_if<KindFigures>(&typed_->of) : nullptr;
  if (figures == nullptr) return {};
  const auto& sales = situation_->learned().sales;
  const Currency& currency = situation_->shop().settings.currency;
  double sum = 0;
  std::size_t count = 0;
  for (const OwnSale& sale : sales)
    if (sale.kind == figures->kind && sale.as == as) sum += sale.price, ++count;
  if (count == 0) return {};
  const bool can_be_together = figures->running_price.low.minor() > 0 && figures->as_is_price.low.minor() > 0;
  const QString own = say("your record: sold %1, %2 on average")
                          .arg(times(count), wholeMoney(sum / static_cast<double>(count), currency));
  if (!can_be_together) return own;
  const PriceBelief belief = as == SoldAs::running ? running_price(sales, *figures, currency)
                                                   : as_is_price(sales, *figures, {}, currency);
  return say("%1; together %2").arg(own, wholeMoney(belief.median, currency));
}

QString Beside::record(const FieldSpec& field) const {
  const Tallies& tallies = situation_->learned().tallies;
  if (field.key == "minutes") return minutesOfRecord();
  if (field.key == "running_price") return salesOfRecord(SoldAs::running);
  if (field.key == "as_is_price") return salesOfRecord(SoldAs::as_is);
  if (section_ == "causes" && field.key == "name") {
    double cases = 0;
    for (const auto& [symptom, causes] : tallies.causes)
      if (const auto at = causes.find(id_); at != causes.end()) cases += at->second;
    return cases > 0 ? say("your record: found %1").arg(times(static_cast<std::size_t>(cases))) : QString{};
  }
  if (field.key != "also" || (section_ != "symptoms" && section_ != "causes")) return {};
  constexpr int kMost = 6;
  QStringList unread;
  for (const auto& [words, count] :
       section_ == "symptoms" ? tallies.unknown_symptoms : tallies.unknown_causes)
    if (unread.size() < kMost) unread << QStringLiteral("“%1” (%2)").arg(text(words)).arg(count);
  return unread.isEmpty() ? QString{}
                          : say("your record has words that no entry knows yet: %1")
                                .arg(unread.join(QStringLiteral(", ")));
}

}  // namespace secondpull::app
