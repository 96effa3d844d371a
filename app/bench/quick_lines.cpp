#include "app/bench/quick_lines.h"

#include <algorithm>
#include <optional>

#include <QCoreApplication>
#include <QRegularExpression>
#include <QStringList>

namespace secondpull::app {
namespace {

constexpr qsizetype kLeastLettersOfWork = 3;
/// "1 h 20 min" is four words; a length of time never takes more.
constexpr qsizetype kMostWordsOfTime = 4;

QStringList wordsOf(const QString& line) {
  static const QRegularExpression blanks{QStringLiteral("\\s+")};
  return line.trimmed().split(blanks, Qt::SkipEmptyParts);
}

/// Takes the longest run of words at one end that reads as a length of time out of `words`.
std::optional<Minutes> takeMinutes(QStringList& words, bool from_front) {
  for (qsizetype count = std::min(kMostWordsOfTime, words.size()); count > 0; --count) {
    const QStringList run = from_front ? words.first(count) : words.last(count);
    if (const auto minutes = parse_typed_minutes(run.join(u' ').toStdString(), "minutes")) {
      words = from_front ? words.mid(count) : words.first(words.size() - count);
      return *minutes;
    }
  }
  return std::nullopt;
}

/// The only kind of work that begins with these letters, if they are enough of them or the whole word.
std::optional<Work> workOf(QString letters) {
  letters = letters.toLower();
  if (letters.size() < kLeastLettersOfWork) return std::nullopt;
  std::optional<Work> found;
  for (const Work work : all_words<Work>()) {
    const std::string_view text = word(work);
    const QString name = QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
    if (!name.startsWith(letters)) continue;
    if (name.size() == letters.size()) return work;
    if (found) return std::nullopt;
    found = work;
  }
  return found;
}

/// Takes the kind of work at the front out of `words`; two words before one ("test run" before "test").
std::optional<Work> takeWork(QStringList& words) {
  for (qsizetype count = std::min<qsizetype>(2, words.size()); count > 0; --count) {
    if (const auto work = workOf(words.first(count).join(u' '))) {
      words = words.mid(count);
      return work;
    }
  }
  return std::nullopt;
}

QString say(const char* text) {
  return QCoreApplication::translate("QuickLines", text);
}

}  // namespace

Result<LabourEntry> readLabour(const QString& line, Work otherwise) {
  QStringList words = wordsOf(line);
  std::optional<Minutes> minutes = takeMinutes(words, true);
  if (!minutes) minutes = takeMinutes(words, false);
  if (!minutes)
    return problem(say("Say how long, then what it was: \"1h20 repair\".").toStdString(), "minutes",
                   line.toStdString());
  if (minutes->count == 0)
    return problem(say("Work of no minutes is none: say how long it took.").toStdString(), "minutes",
                   line.toStdString());
  const std::optional<Work> work = takeWork(words);
  return LabourEntry{*minutes, work.value_or(otherwise), words.join(u' ')};
}

Result<MaterialEntry> readMaterial(const QString& line, const Currency& currency) {
  QStringList words = wordsOf(line);
  const auto amountAt = [&](qsizetype index) -> std::optional<Money> {
    if (words.empty()) return std::nullopt;
    const auto amount = parse_typed_amount(words.at(index).toStdString(), currency, "cost");
    return amount ? std::optional{*amount} : std::nullopt;
  };
  std::optional<Money> cost = amountAt(words.size() - 1);
  if (cost) {
    words.removeLast();
  } else if ((cost = amountAt(0))) {
    words.removeFirst();
  } else {
    return problem(say("Say what it was and what it cost: \"degreaser 3.50\".").toStdString(), "cost",
                   line.toStdString());
  }
  // A comma between the two belongs to neither.
  QString what = words.join(u' ');
  while (what.endsWith(u',') || what.endsWith(u':'))
    what.chop(1);
  if (what.trimmed().isEmpty())
    return problem(say("Say what was used, before its cost: \"degreaser 3.50\".").toStdString(), "what",
                   line.toStdString());
  return MaterialEntry{what.trimmed(), *cost};
}

PartEntry readPart(const QString& line, const std::function<bool(const QString&)>& matches) {
  const QString whole = line.simplified();
  if (matches(whole)) return {whole, 1};
  static const QRegularExpression last{QStringLiteral("^(.+?)\\s+[x×]\\s*(\\d{1,3})$"),
                                       QRegularExpression::CaseInsensitiveOption};
  static const QRegularExpression first{QStringLiteral("^(\\d{1,3})\\s*[x×]\\s+(.+)$"),
                                        QRegularExpression::CaseInsensitiveOption};
  const auto entry = [&](const QString& name, const QString& count) -> std::optional<PartEntry> {
    const std::int64_t quantity = count.toLongLong();
    if (quantity < 1 || quantity > kMostPieces) return std::nullopt;
    return PartEntry{name.trimmed(), quantity};
  };
  if (const auto match = last.match(whole); match.hasMatch())
    if (const auto read = entry(match.captured(1), match.captured(2))) return *read;
  if (const auto match = first.match(whole); match.hasMatch())
    if (const auto read = entry(match.captured(2), match.captured(1))) return *read;
  return {whole, 1};
}

}  // namespace secondpull::app
