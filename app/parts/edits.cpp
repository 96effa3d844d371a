#include "app/parts/edits.h"

#include <QLocale>
#include <QPainter>
#include <QRegularExpression>
#include <QStyle>

#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr std::int64_t kTenthsInOne = 10;
constexpr int kNotePad = 8;  // between the end of the field and the word in it

template <class T>
std::optional<T> valueOf(const Result<T>& result) {
  return result ? std::optional<T>{*result} : std::nullopt;
}
template <class T>
std::optional<Problem> problemOf(const Result<T>& result) {
  return result ? std::nullopt : std::optional<Problem>{result.error()};
}

QString noteOf(bool guess) {
  return guess ? TypedEdit::tr("guess") : QString{"?"};
}

/// What `shown` writes ("1 h 20 min") is read again as what a person would type ("1h20m").
Result<Minutes> readMinutes(const QString& typed, const QString& field) {
  QString text = typed.trimmed();
  static const QRegularExpression written("^(?:(\\d+) h)? ?(?:(\\d+) min)?$");
  if (const auto match = written.match(text); match.hasMatch() && !text.isEmpty())
    text = QString{"%1m"}.arg(match.captured(1).toLongLong() * 60 + match.captured(2).toLongLong());
  return parse_typed_minutes(text.toStdString(), field.toStdString());
}

/// What `shown` writes ("5 March 2026") is read again, besides all that a person may type.
Result<Date> readDate(const QString& typed, Date today, const QString& field) {
  const QDate written = QLocale::c().toDate(typed.trimmed(), "d MMMM yyyy");
  if (written.isValid()) return parse_date(written.toString(Qt::ISODate).toStdString(), field.toStdString());
  return parse_typed_date(typed.trimmed().toStdString(), today, field.toStdString());
}

Result<Tenths> readTenths(const QString& typed, const QString& unit, const QString& field) {
  QString text = typed.trimmed();
  if (!unit.isEmpty() && text.endsWith(unit, Qt::CaseInsensitive)) text = text.chopped(unit.size()).trimmed();
  static const QRegularExpression shape("^(\\d{1,9})(?:[.,](\\d))?$|^[.,](\\d)$");
  const auto match = shape.match(text);
  if (!match.hasMatch())
    return problem(TypedEdit::tr("“%1” is not a number with at most one decimal, such as 21 or 12.5.")
                       .arg(typed.trimmed())
                       .toStdString(),
                   field.toStdString(), typed.trimmed().toStdString());
  const QString tenth = match.captured(2) + match.captured(3);
  return Tenths{match.captured(1).toLongLong() * kTenthsInOne + tenth.toLongLong()};
}

QString written(Tenths value, const QString& unit) {
  QString number = QString::number(static_cast<qlonglong>(value.count / kTenthsInOne));
  if (const auto tenth = value.count % kTenthsInOne; tenth != 0)
    number += "." + QString::number(static_cast<qlonglong>(tenth));
  return unit.isEmpty() ? number : number + " " + unit;
}

Result<std::int64_t> readCount(const QString& typed, std::int64_t least, const QString& field) {
  bool whole = false;
  const qlonglong value = typed.trimmed().toLongLong(&whole);
  if (!whole || value < least)
    return problem(TypedEdit::tr("“%1” is not a whole number of at least %2.")
                       .arg(typed.trimmed())
                       .arg(static_cast<qlonglong>(least))
                       .toStdString(),
                   field.toStdString(), typed.trimmed().toStdString());
  return value;
}

}  // namespace

TypedEdit::TypedEdit(const QString& field, QWidget* parent) : QLineEdit(parent), field_{field} {
  setObjectName(field);
  connect(this, &QLineEdit::textEdited, this, [this] {
    guess_ = false;
    showState(State::plain);
    emit valueEdited();
  });
}

void TypedEdit::setGuess(const QString& text) {
  setText(text);
  guess_ = !text.trimmed().isEmpty();
  showState(guess_ ? State::guess : State::plain);
}

void TypedEdit::setWritten(const QString& text) {
  setText(text);
  guess_ = false;
  showState(State::plain);
}

void TypedEdit::markProblem() {
  showState(problem() ? State::bad : guess_ ? State::guess : State::plain);
}

std::optional<Problem> TypedEdit::missing() const {
  if (!required_) return std::nullopt;
  const QString name = accessibleName().isEmpty() ? field_ : accessibleName();
  return Problem{tr("%1 is still to be filled in.").arg(name).toStdString(), field_.toStdString(), {}};
}

void TypedEdit::focusOutEvent(QFocusEvent* event) {
  QLineEdit::focusOutEvent(event);
  if (event->reason() == Qt::PopupFocusReason || isBlank()) return;
  if (!problem())
    if (const QString full = inFull(); full != text()) setText(full);
  markProblem();
}

void TypedEdit::showState(State state) {
  const std::optional<Problem> wrong = state == State::bad ? problem() : std::nullopt;
  const QString says = wrong ? QString::fromStdString(wrong->sentence)
                       : state == State::guess
                           ? tr("A guess from the record; type over it if you know better.")
                           : QString{};
  setToolTip(says);
  setAccessibleDescription(says);
  if (state == state_) return;
  state_ = state;
  setProperty("state", state == State::bad ? "bad" : state == State::guess ? "guess" : "");
  style()->unpolish(this);
  style()->polish(this);
  const int note =
      state == State::plain ? 0 : fontMetrics().horizontalAdvance(noteOf(state == State::guess)) + kNotePad;
  setTextMargins(0, 0, note, 0);
  update();
}

void TypedEdit::paintEvent(QPaintEvent* event) {
  QLineEdit::paintEvent(event);
  if (state_ == State::plain) return;
  QPainter painter(this);
  painter.setPen(state_ == State::bad ? look().bad : look().faded);
  painter.drawText(rect().adjusted(0, 0, -kNotePad, 0), Qt::AlignRight | Qt::AlignVCenter,
                   noteOf(state_ == State::guess));
}

MoneyEdit::MoneyEdit(const QString& field, Currency currency, QWidget* parent)
    : TypedEdit(field, parent), currency_{std::move(currency)} {
  setAlignment(Qt::AlignRight);
}

std::optional<Money> MoneyEdit::value() const {
  return isBlank() ? std::nullopt
                   : valueOf(parse_typed_amount(text().toStdString(), currency_, field().toStdString()));
}

void MoneyEdit::setValue(std::optional<Money> amount) {
  setWritten(amount ? QString::fromStdString(shown(*amount, currency_)) : QString{});
}

std::optional<Problem> MoneyEdit::problem() const {
  return isBlank() ? missing()
                   : problemOf(parse_typed_amount(text().toStdString(), currency_, field().toStdString()));
}

QString MoneyEdit::inFull() const {
  return QString::fromStdString(shown(*value(), currency_));
}

MinutesEdit::MinutesEdit(const QString& field, QWidget* parent) : TypedEdit(field, parent) {}

std::optional<Minutes> MinutesEdit::value() const {
  return isBlank() ? std::nullopt : valueOf(readMinutes(text(), field()));
}

void MinutesEdit::setValue(std::optional<Minutes> minutes) {
  setWritten(minutes ? QString::fromStdString(shown(*minutes)) : QString{});
}

std::optional<Problem> MinutesEdit::problem() const {
  return isBlank() ? missing() : problemOf(readMinutes(text(), field()));
}

QString MinutesEdit::inFull() const {
  return QString::fromStdString(shown(*value()));
}

DateEdit::DateEdit(const QString& field, Date today, QWidget* parent)
    : TypedEdit(field, parent), today_{today} {}

std::optional<Date> DateEdit::value() const {
  return isBlank() ? std::nullopt : valueOf(readDate(text(), today_, field()));
}

void DateEdit::setValue(std::optional<Date> date) {
  setWritten(date ? QString::fromStdString(shown(*date)) : QString{});
}

std::optional<Problem> DateEdit::problem() const {
  return isBlank() ? missing() : problemOf(readDate(text(), today_, field()));
}

QString DateEdit::inFull() const {
  return QString::fromStdString(shown(*value()));
}

TenthsEdit::TenthsEdit(const QString& field, const QString& unit, QWidget* parent)
    : TypedEdit(field, parent), unit_{unit} {}

std::optional<Tenths> TenthsEdit::value() const {
  return isBlank() ? std::nullopt : valueOf(readTenths(text(), unit_, field()));
}

void TenthsEdit::setValue(std::optional<Tenths> value) {
  setWritten(value ? written(*value, unit_) : QString{});
}

std::optional<Problem> TenthsEdit::problem() const {
  return isBlank() ? missing() : problemOf(readTenths(text(), unit_, field()));
}

QString TenthsEdit::inFull() const {
  return written(*value(), unit_);
}

CountEdit::CountEdit(const QString& field, std::int64_t least, QWidget* parent)
    : TypedEdit(field, parent), least_{least} {
  setAlignment(Qt::AlignRight);
}

std::optional<std::int64_t> CountEdit::value() const {
  return isBlank() ? std::nullopt : valueOf(readCount(text(), least_, field()));
}

void CountEdit::setValue(std::optional<std::int64_t> value) {
  setWritten(value ? QString::number(static_cast<qlonglong>(*value)) : QString{});
}

std::optional<Problem> CountEdit::problem() const {
  return isBlank() ? missing() : problemOf(readCount(text(), least_, field()));
}

QString CountEdit::inFull() const {
  return QString::number(static_cast<qlonglong>(*value()));
}

}  // namespace secondpull::app
