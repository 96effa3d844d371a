#pragma once

#include <optional>

#include <QLineEdit>

#include "core/calendar/date.h"
#include "core/calendar/minutes.h"
#include "core/money/money.h"
#include "core/shop/records.h"

namespace secondpull::app {

/// A field in which a value is typed the short way and read back in full when left ("1h20" becomes "1 h 20
/// min"). Bad text stays as typed, is marked, and says why (tool tip, accessible description, problem()). A
/// guess put in by the program is shown as such until the person touches it.
class TypedEdit : public QLineEdit {
  Q_OBJECT
 public:
  explicit TypedEdit(const QString& field, QWidget* parent = nullptr);
  bool isBlank() const { return text().trimmed().isEmpty(); }
  /// The problem with what is typed, if any; a blank field is no problem unless it is required.
  virtual std::optional<Problem> problem() const = 0;
  void setRequired(bool required) { required_ = required; }
  void setGuess(const QString& text);  ///< fills it in, marked as a guess
  void markProblem();                  ///< shows its problem at once, as leaving the field would
  bool isGuess() const { return guess_; }
  QString field() const { return field_; }

 signals:
  void valueEdited();

 protected:
  void focusOutEvent(QFocusEvent* event) override;  ///< reads back in full
  void paintEvent(QPaintEvent* event) override;     ///< and the word "guess" or "?" at its end
  void setWritten(const QString& text);             ///< what the program knows for sure
  std::optional<Problem> missing() const;           ///< for a blank field that must not be
  virtual QString inFull() const = 0;
  bool required_ = false;

 private:
  enum class State { plain, guess, bad };
  void showState(State state);
  QString field_;
  State state_ = State::plain;
  bool guess_ = false;
};

class MoneyEdit : public TypedEdit {
 public:
  MoneyEdit(const QString& field, Currency currency, QWidget* parent = nullptr);
  std::optional<Money> value() const;  ///< absent when blank or bad
  void setValue(std::optional<Money> amount);
  std::optional<Problem> problem() const override;

 protected:
  QString inFull() const override;

 private:
  Currency currency_;
};

class MinutesEdit : public TypedEdit {
 public:
  explicit MinutesEdit(const QString& field, QWidget* parent = nullptr);
  std::optional<Minutes> value() const;
  void setValue(std::optional<Minutes> minutes);
  std::optional<Problem> problem() const override;

 protected:
  QString inFull() const override;
};

class DateEdit : public TypedEdit {
 public:
  DateEdit(const QString& field, Date today, QWidget* parent = nullptr);
  std::optional<Date> value() const;
  void setValue(std::optional<Date> date);
  std::optional<Problem> problem() const override;

 protected:
  QString inFull() const override;

 private:
  Date today_;
};

/// Whole numbers and numbers with one decimal (miles, inches).
class TenthsEdit : public TypedEdit {
 public:
  TenthsEdit(const QString& field, const QString& unit, QWidget* parent = nullptr);
  std::optional<Tenths> value() const;
  void setValue(std::optional<Tenths> value);
  std::optional<Problem> problem() const override;

 protected:
  QString inFull() const override;

 private:
  QString unit_;
};

class CountEdit : public TypedEdit {
 public:
  CountEdit(const QString& field, std::int64_t least, QWidget* parent = nullptr);
  std::optional<std::int64_t> value() const;
  void setValue(std::optional<std::int64_t> value);
  std::optional<Problem> problem() const override;

 protected:
  QString inFull() const override;

 private:
  std::int64_t least_;
};

}  // namespace secondpull::app
