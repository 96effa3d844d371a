#include "app/parts/natural_order.h"

namespace secondpull::app {
namespace {

/// The run of digits that begins at `from`, without leading zeros.
QStringView digitsAt(QStringView text, qsizetype from) {
  qsizetype end = from;
  while (end < text.size() && text[end].isDigit())
    ++end;
  while (from + 1 < end && text[from] == u'0')
    ++from;
  return text.mid(from, end - from);
}

}  // namespace

bool naturallyBefore(const QString& a, const QString& b) {
  const QString left = a.toCaseFolded(), right = b.toCaseFolded();
  qsizetype at_left = 0, at_right = 0;
  while (at_left < left.size() && at_right < right.size()) {
    if (left[at_left].isDigit() && right[at_right].isDigit()) {
      const QStringView mine = digitsAt(left, at_left), other = digitsAt(right, at_right);
      if (mine.size() != other.size()) return mine.size() < other.size();
      if (const int order = mine.compare(other); order != 0) return order < 0;
      at_left = mine.cend() - left.cbegin();
      at_right = other.cend() - right.cbegin();
      continue;
    }
    if (left[at_left] != right[at_right])
      return QString::localeAwareCompare(left.mid(at_left), right.mid(at_right)) < 0;
    ++at_left;
    ++at_right;
  }
  return left.size() - at_left < right.size() - at_right;
}

}  // namespace secondpull::app
