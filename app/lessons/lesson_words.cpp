#include "app/lessons/lesson_words.h"

#include <cmath>

#include <QCoreApplication>

#include "app/frame/session.h"
#include "core/learning/units.h"
#include "core/shop/describe.h"

namespace secondpull::app {
namespace {

QString tr(const char* text) {
  return QCoreApplication::translate("LessonWords", text);
}

constexpr int kTen = 10;

int tenths(double chance) {
  return static_cast<int>(std::lround(chance * kTen));
}

}  // namespace

QString oftenInWords(double chance) {
  const int of_ten = tenths(chance);
  if (of_ten <= 0) return tr("hardly ever");
  if (of_ten >= kTen) return chance >= 1 ? tr("every time") : tr("nearly every time");
  return of_ten == 1 ? tr("once in 10") : tr("%1 times in 10").arg(of_ten);
}

QString partInWords(double part) {
  const int of_ten = tenths(part);
  if (of_ten <= 0) return part <= 0 ? tr("none") : tr("fewer than 1 in 10");
  if (of_ten >= kTen) return part >= 1 ? tr("all") : tr("nearly all");
  return tr("%1 in 10").arg(of_ten);
}

QString percentRange(const lessons::Interval& range) {
  return tr("%1–%2 %").arg(std::lround(range.low * 100)).arg(std::lround(range.high * 100));
}

QString moneyOf(const Session& session, double units) {
  return session.money(Money::from_minor(std::llround(units * learning::minor_units(session.currency()))));
}

QString moneyRange(const Session& session, const lessons::Interval& units) {
  const auto whole = [&](double amount) {
    const auto minor = std::llround(amount) * std::llround(learning::minor_units(session.currency()));
    return QString::fromStdString(shown_short(Money::from_minor(minor), session.currency()));
  };
  return tr("%1 to %2").arg(whole(units.low), whole(units.high));
}

QString minutesOf(double minutes) {
  const QString length = QString::fromStdString(shown(Minutes{std::llround(std::abs(minutes))}));
  return std::llround(minutes) < 0 ? QChar{0x2212} + length : length;
}

QString hoursOf(double hours) {
  return minutesOf(hours * learning::kMinutesOfHour);
}

QString minutesRange(const lessons::Interval& minutes) {
  const QString high = minutesOf(minutes.high);
  QString low = minutesOf(minutes.low);
  if (low.endsWith(QLatin1String(" min")) && !low.contains(QLatin1String(" h ")) &&
      !high.contains(QLatin1String(" h ")))
    low.chop(4);
  return tr("%1 to %2").arg(low, high);
}

QString daysRange(const lessons::Interval& days) {
  return tr("%1 to %2").arg(numberOf(days.low), daysOf(days.high));
}

QString numberOf(double number) {
  const bool fine = std::abs(number) < kTen && std::lround(number * kTen) % kTen != 0;
  QString text = QString::number(std::abs(number), 'f', fine ? 1 : 0);
  return number < 0 && text != QLatin1String("0") ? QChar{0x2212} + text : text;
}

QString daysOf(double days) {
  const QString text = numberOf(days);
  return text == QLatin1String("1") ? tr("1 day") : tr("%1 days").arg(text);
}

QString countOf(std::size_t count, const char* one, const char* many) {
  return QString::fromStdString(counted(static_cast<std::int64_t>(count), one, many));
}

QString differsInWords(lessons::Differs differs, const QString& lower, const QString& higher) {
  return differs == lessons::Differs::lower    ? lower
         : differs == lessons::Differs::higher ? higher
                                               : QString{};
}

}  // namespace secondpull::app
