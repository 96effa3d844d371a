#pragma once

#include "app/frame/session.h"
#include "app/print/report.h"

namespace secondpull::app {

// Figures as a spreadsheet reads them, and the cells of reports made of them.

/// "-1234.50"; empty when absent.
inline QString plainMoney(const Session& session, const std::optional<Money>& amount) {
  return amount ? QString::fromStdString(plain(*amount, session.currency())) : QString{};
}
/// "3.33": hours with two decimals.
inline QString plainHours(Minutes minutes) {
  return QString::fromStdString(decimal_hours(minutes));
}
/// "12.5": miles, always with their decimal.
inline QString plainTenths(Tenths tenths) {
  return QStringLiteral("%1%2.%3")
      .arg(tenths.count < 0 ? QStringLiteral("-") : QString{})
      .arg(std::abs(tenths.count) / 10)
      .arg(std::abs(tenths.count) % 10);
}

inline ReportCell moneyCell(const Session& session, const std::optional<Money>& amount) {
  return {session.money(amount), plainMoney(session, amount)};
}
inline ReportCell hoursCell(Minutes minutes) {
  return {QString::fromStdString(shown(minutes)), plainHours(minutes)};
}

}  // namespace secondpull::app
