#pragma once

#include <functional>
#include <optional>

#include <QRegularExpression>
#include <QString>

#include "app/bench/chances_view.h"  // percent
#include "app/parts/data_table.h"
#include "core/lessons/mean.h"

namespace secondpull::app {

class Session;

// Figures of the lessons as a person reads them.

/// "3 times in 10", "once in 10", "hardly ever", "nearly every time", "every time".
QString oftenInWords(double chance);
/// "3 in 10"; "fewer than 1 in 10", "nearly all", "all".
QString partInWords(double part);
QString percentRange(const lessons::Interval& range);  ///< "25–40 %"
/// Whole units of the currency, as money: "$12.50"
QString moneyOf(const Session& session, double units);
QString moneyRange(const Session& session, const lessons::Interval& units);  ///< "$9 to $33", in whole units
/// "1 h 20 min", below zero with a true minus sign.
QString hoursOf(double hours);
QString minutesOf(double minutes);                       ///< "12 min", "1 h 5 min"
QString minutesRange(const lessons::Interval& minutes);  ///< "12 min to 1 h 5 min"
QString daysRange(const lessons::Interval& days);        ///< "3 to 14 days"
QString numberOf(double number);  ///< with one decimal below ten, none above: "2.5", "14"
QString daysOf(double days);      ///< "1 day", "14 days", "2.5 days"
/// "1 machine", "3 machines".
QString countOf(std::size_t count, const char* one, const char* many);
/// "low", "high" or nothing, in the words given.
QString differsInWords(lessons::Differs differs, const QString& lower, const QString& higher);

// Columns of the lessons' tables.

template <class Row>
TableColumn<Row> wordColumn(const char* key, const QString& title, std::function<QString(const Row&)> text) {
  return {.key = QString::fromLatin1(key), .title = title, .text = std::move(text)};
}

/// A figure that may be absent: a dash then, sorted last. `why` as of TableColumn.
template <class Row>
TableColumn<Row> figureColumn(const char* key, const QString& title,
                              std::function<std::optional<double>(const Row&)> figure,
                              std::function<QString(double)> text,
                              std::function<QString(const Row&)> why = {}) {
  return {
      .key = QString::fromLatin1(key),
      .title = title,
      .text =
          [figure, text](const Row& row) {
            const std::optional<double> its = figure(row);
            return its ? text(*its) : QString{QChar{0x2014}};
          },
      .sort =
          [figure](const Row& row) {
            const std::optional<double> its = figure(row);
            return its ? QVariant{*its} : QVariant{};
          },
      .number = true,
      .why = std::move(why),
      .plain =
          [figure](const Row& row) {
            const std::optional<double> its = figure(row);
            return its ? QString::number(*its, 'f', 4).remove(QRegularExpression{QStringLiteral("\\.?0+$")})
                       : QString{};
          }};
}

/// A range that may be absent, sorted by where it begins.
template <class Row>
TableColumn<Row> rangeColumn(const char* key, const QString& title,
                             std::function<std::optional<lessons::Interval>(const Row&)> range,
                             std::function<QString(const lessons::Interval&)> text,
                             std::function<QString(const Row&)> why = {}) {
  return {.key = QString::fromLatin1(key),
          .title = title,
          .text =
              [range, text](const Row& row) {
                const std::optional<lessons::Interval> its = range(row);
                return its ? text(*its) : QString{QChar{0x2014}};
              },
          .sort =
              [range](const Row& row) {
                const std::optional<lessons::Interval> its = range(row);
                return its ? QVariant{its->low} : QVariant{};
              },
          .number = true,
          .why = std::move(why)};
}

/// How many stand behind a row.
template <class Row>
TableColumn<Row> countColumn(const char* key, const QString& title,
                             std::function<std::int64_t(const Row&)> count) {
  return {.key = QString::fromLatin1(key),
          .title = title,
          .text = [count](const Row& row) { return QString::number(count(row)); },
          .sort = [count](const Row& row) { return QVariant{qlonglong{count(row)}}; },
          .number = true};
}

}  // namespace secondpull::app
